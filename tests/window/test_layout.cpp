#include "tests/support/catch.hpp"

#include "tests/support/files.hpp"
#include "ui/window/layout.hpp"
#include "ui/window/screen.hpp"
#include "ui/window/session.hpp"
#include "ui/window/window.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using namespace std::chrono_literals;

TEST_CASE("a reading stays in its cell, however long its figure") {
    if (!display_can_be_opened()) return;
    Fonts fonts;
    REQUIRE(fonts.load());
    using State = ReadingCell::State;
    for (const double w : {98.0, 120.0, 190.0})
        for (const State state : {State::blank, State::off, State::moving, State::settled, State::over_range})
            for (const char* value : {"9.1", "1,234", "99,999", ">10,000"}) {
                Canvas d(fonts, day());
                std::vector<TextBox> texts;
                Canvas::noted = &texts;
                reading(d, {10, 0, w, 125},
                        {"CO", w > 150 ? "as measured" : "", value, "ppm", "steady for 30 s", state});
                Canvas::noted = nullptr;
                for (const TextBox& t : texts) {
                    INFO(w << " " << value << " '" << t.text << "'");
                    CHECK(t.r.right() <= 10 + w);
                    for (const TextBox& o : texts)
                        if (&o < &t) {
                            const bool apart = o.r.right() <= t.r.x + 1 || t.r.right() <= o.r.x + 1 ||
                                               o.r.bottom() <= t.r.y + 1 || t.r.bottom() <= o.r.y + 1;
                            INFO("and '" << o.text << "'");
                            CHECK(apart);
                        }
                }
            }
}

TEST_CASE("nothing overlaps and nothing leaves the window, at any size and text scale") {
    for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 700), std::pair(1920, 1080), std::pair(1366, 768),
                               std::pair(1600, 900), std::pair(2560, 1440)})
        for (const double text : {1.0, 1.25, 1.5, 2.0})
            for (const int page : {0, 1, 2, 3}) {
                const Layout l = lay_out(w, h, text, page);
                INFO(w << "x" << h << " text " << text << " kind " << static_cast<int>(l.kind));
                std::vector<Rect> all;
                for (const Rect& r : {l.top, l.tabs.w > 0 && l.single() ? Rect{} : l.view, l.side, l.readings, l.trend,
                                      l.papers, l.tabs, l.tray, l.bottom})
                    if (r.w > 0) all.push_back(r);
                CHECK(l.readings.w > 0);  // always in sight
                for (const Rect& r : all) {
                    CHECK(r.x >= -0.01);
                    CHECK(r.right() <= l.w + 0.01);
                    CHECK(r.bottom() <= l.h + 0.01);
                    CHECK(r.h > 20);
                }
                for (std::size_t i = 0; i < all.size(); ++i)
                    for (std::size_t j = i + 1; j < all.size(); ++j) {
                        const double over_x = std::min(all[i].right(), all[j].right()) - std::max(all[i].x, all[j].x);
                        const double over_y = std::min(all[i].bottom(), all[j].bottom()) - std::max(all[i].y, all[j].y);
                        CHECK((over_x < 0.5 || over_y < 0.5));
                    }
            }
    CHECK(lay_out(1280, 800, 1).kind == Layout::Kind::full);
    CHECK(lay_out(1024, 700, 1).kind == Layout::Kind::small);
    CHECK(lay_out(1920, 1080, 1).kind == Layout::Kind::full);
    CHECK(lay_out(1280, 800, 1.5).kind == Layout::Kind::compact);
    CHECK(lay_out(1280, 800, 2).kind == Layout::Kind::single);
}

TEST_CASE("ten seconds of one-millisecond frames are 500 steps, and a stall is no burst") {
    StepClock c;
    int steps = 0;
    for (int i = 0; i < 10000; ++i) steps += c.steps_due(1ms, 1);
    CHECK(steps == 500);
    CHECK(c.steps_due(20ms, 20) == 20);
    CHECK(c.steps_due(60s, 1) <= 13);
    c.steps_due(19ms, 1);
    c.reset();
    CHECK(c.steps_due(1ms, 1) == 0);
}

TEST_CASE("a hint is shown when it is asked for, costs, and goes when something is done") {
    Session s(test::lesson(), 1, "");
    CHECK(s.hint().empty());
    s.ask_hint();
    CHECK(s.hint().find("Nose first") == 0);
    REQUIRE(s.act(*parse_action("gas open").action));
    CHECK(s.hint().empty());
    CHECK(mark(s.attempt()).hints == 1);
    LoadedScenario l = test::lesson();
    l.scenario.coached = false;
    Session exam(l, 1, "");
    exam.ask_hint();
    CHECK(exam.hint().empty());
    CHECK(exam.message().find("assessment") != std::string::npos);
}

TEST_CASE("a screw is drawn turned the way the hand turned it: left is anticlockwise") {
    heater::ScrewSpec left_opens;
    left_opens.left_opens = true;
    heater::ScrewSpec right_opens;
    right_opens.left_opens = false;
    CHECK(screw_angle(left_opens, 8) == Approx(-90));  // opened a quarter, to the left
    CHECK(screw_angle(left_opens, -8) == Approx(90));
    CHECK(screw_angle(right_opens, 8) == Approx(90));
}
