// What the pointer rests on is said, cards keep still under the hand, and what can be taken back has its button.
#include "tests/window/played.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using sf::Keyboard;

namespace {

//! The pointer goes to the middle of a target and rests there.
void point(Played& p, const std::string& name, std::chrono::nanoseconds rest) {
    for (auto it = p.screen->targets().rbegin(); it != p.screen->targets().rend(); ++it) {
        if (it->name != name) continue;
        sf::Event e;
        e.type = sf::Event::MouseMoved;
        e.mouseMove = {static_cast<int>(it->r.centre().x * p.screen->layout().u),
                       static_cast<int>(it->r.centre().y * p.screen->layout().u)};
        p.screen->handle(e);
        p.screen->advance(rest);
        p.draw();
        return;
    }
    FAIL("no target " << name);
}

double top_of(const Played& p, const std::string& name) {
    double y = -1;  // the last lies on top: the tray has some of what a card has
    for (const auto& t : p.screen->targets())
        if (t.name == name) y = t.r.y;
    return y;
}

}  // namespace

TEST_CASE("a part under a pointer that rests is said, one that is only passed over is not") {
    if (!display()) return;
    Played p(1280, 800, 1);
    point(p, "gas_tap", 100ms);
    CHECK(p.hands().about.empty());
    p.screen->advance(200ms);
    p.draw();
    CHECK(p.hands().about == "Gas tap: the handle lies along the pipe when it is open");
    point(p, "drain", 0ms);
    CHECK(p.hands().about.empty());
}

TEST_CASE("a button that cannot be pressed now says why, pointed at or reached by Tab") {
    if (!display()) return;
    Played p(1280, 800, 1);
    point(p, "record", 300ms);
    CHECK(p.hands().about == "the analyzer is off: there is no reading to record");
    p.hands().focus = "turn";
    sf::Event away;
    away.type = sf::Event::MouseMoved;
    away.mouseMove = {2, 60};
    p.screen->handle(away);
    p.key(Keyboard::T);
    CHECK(p.hands().about == "the throttle screw is under its cap: take the cap off first");
}

TEST_CASE("no row of a card moves when something is found or written down while it lies open") {
    if (!display()) return;
    int said = 0;
    for (const double text : {1.0, 1.5}) {
        Played p(1280, 800, text);
        p.key(Keyboard::F6);
        p.key(Keyboard::F6);
        p.key(Keyboard::F6);
        for (const char* part : {"trap", "gas_valve", "test_port", "drain", "controls", "room", "intake", "terminal"}) {
            INFO(part << " at text " << text);
            p.click(part);
            std::map<std::string, double> tops;
            for (const auto& t : p.screen->targets())
                if (t.name.starts_with("do ")) tops[t.name] = t.r.y;
            for (const auto& [name, y] : tops)
                if (name.starts_with("do look") || name == "do smell" || name == "do listen") {
                    p.click(name);
                    while (p.screen->session().seen().busy.set) p.wait(1);
                }
            for (const auto& [name, y] : tops) CHECK(top_of(p, name) == y);
            // Nor between one visit and the next.
            p.key(Keyboard::Escape);
            p.click(part);
            for (const auto& [name, y] : tops) CHECK(top_of(p, name) == y);
            CHECK(p.hands().card.findings == p.screen->session().seen().findings.size());
            // What is longer than its lines is said whole where one points.
            const auto findings = p.screen->session().seen().findings;
            for (const auto& f : findings) {
                const std::string name = "do " + bench::to_text(f.by);
                if (tops.count(name) == 0) continue;
                point(p, name, 300ms);
                CHECK(p.hands().about == words::say(f, p.screen->session().papers()));
                ++said;
            }
            p.key(Keyboard::Escape);
        }
    }
    CHECK(said >= 20);
}

TEST_CASE("neither a hint nor what the expert says is hidden by what the pointer was left on") {
    if (!display()) return;
    Played p(1280, 800, 1);
    const auto line = [&p] {
        std::vector<TextBox> texts;
        Canvas::noted = &texts;
        p.screen->advance(0ns);
        p.screen->hands().evening = !p.screen->hands().evening;
        p.key(Keyboard::Unknown);
        Canvas::noted = nullptr;
        std::string all;
        for (const TextBox& t : texts) all += t.text + " ";
        return all;
    };
    point(p, "gas_tap", 300ms);
    REQUIRE_FALSE(p.hands().about.empty());
    p.key(Keyboard::H);
    REQUIRE_FALSE(p.screen->session().hint().empty());
    CHECK(p.hands().pointed.empty());
    CHECK(line().find(p.screen->session().hint().substr(0, 20)) != std::string::npos);
    // Nor by the part that kept the focus when its card was put away.
    p.click("gas_tap");
    p.key(Keyboard::Escape);
    REQUIRE_FALSE(p.hands().focus.empty());
    p.key(Keyboard::H);
    CHECK(line().find(p.screen->session().hint().substr(0, 20)) != std::string::npos);
}

TEST_CASE("that the hands are busy is said as long as they are") {
    if (!display()) return;
    Played p(1280, 800, 1);
    REQUIRE(p.screen->session().act(practice::act(practice::Verb::smell)));
    REQUIRE_FALSE(p.screen->session().act(practice::act(practice::Verb::listen)));
    CHECK(p.screen->session().message().find("busy") != std::string::npos);
    p.wait(6);
    CHECK_FALSE(p.screen->session().seen().busy.set);
    CHECK(p.screen->session().message().empty());
}

TEST_CASE("the flue can be pressed all along, and opens where it is looked over") {
    if (!display()) return;
    Played p(1280, 800, 1);
    for (const char* name : {"flue", "flue, rising"}) {
        p.click(name);
        CHECK(p.hands().part == practice::Part::terminal);
        p.key(Keyboard::Escape);
    }
    p.click("mixer");
    CHECK(p.hands().part == practice::Part::fan);
}

TEST_CASE("a slip has a button that takes it back, for as long as a hand could") {
    if (!display()) return;
    Played p(1280, 800, 1);
    CHECK_FALSE(p.has("take back"));
    p.key(Keyboard::C);
    REQUIRE_FALSE(p.screen->session().seen().throttle_cap_on);
    REQUIRE(p.has("take back"));
    p.click("take back");
    CHECK(p.screen->session().seen().throttle_cap_on);
    p.key(Keyboard::C);
    p.wait(60);
    CHECK_FALSE(p.has("take back"));
}

TEST_CASE("settings and keys, and running until settled, have a control on the bench at every size") {
    if (!display()) return;
    for (const auto& [w, h, text] : {std::tuple(1280u, 800u, 1.0), std::tuple(1024u, 700u, 1.0),
                                     std::tuple(1280u, 800u, 2.0), std::tuple(1024u, 700u, 2.0)}) {
        INFO(w << "x" << h << " text " << text);
        Played p(w, h, text);
        CHECK(p.has("settle"));
        p.click("keys");
        CHECK(p.screen->in_settings());
        p.key(Keyboard::Escape);
        CHECK_FALSE(p.screen->in_settings());
        CHECK(p.screen->front() == Front::bench);
    }
}

TEST_CASE("a hose put on under an open tap hisses, and that is said") {
    if (!display()) return;
    const LoadedScenario lesson = test::lesson();
    for (const bool open : {true, false}) {
        Attempt a(lesson.scenario, 1);
        if (open) REQUIRE_FALSE(a.act(practice::set(practice::Verb::gas, true)));
        REQUIRE_FALSE(a.act(practice::set(practice::Verb::manometer, true)));
        for (int i = 0; i < 10 * practice::kStepsPerSecond; ++i) a.step();
        CHECK(a.bench().seen().has_noticed(faults::Sign::test_point_hisses) == open);
    }
    Played p(1280, 800, 1);
    p.at("gas_tap", "gas open");
    p.key(Keyboard::Escape);
    p.click("test_points");
    p.click("do manometer on");
    p.wait(5);
    CHECK(p.screen->session().notice() == "Gas hisses out of the open test point: the gas tap is open.");
}

TEST_CASE("a card covers labels and never cuts one in half") {
    if (!display()) return;
    int covered = 0;
    for (const auto& [w, h, text] :
         {std::tuple(1280u, 800u, 1.0), std::tuple(1024u, 700u, 1.0), std::tuple(1280u, 800u, 1.5)}) {
        Played p(w, h, text);
        for (const PartPlace& place : part_places()) {
            const std::string part(practice::part_word(place.part));
            INFO(part << " " << w << "x" << h << " text " << text);
            p.hands().part = place.part;
            std::vector<TextBox> texts;
            Canvas::noted = &texts;
            p.screen->resize(w, h);
            p.draw();
            Canvas::noted = nullptr;
            Rect card{};
            for (const auto& t : p.screen->targets())
                if (t.name == "card") card = t.r;
            REQUIRE(card.w > 0);
            for (const TextBox& t : texts) {
                const bool beside =
                    t.r.x >= card.right() || t.r.right() <= card.x || t.r.y >= card.bottom() || t.r.bottom() <= card.y;
                const bool under = t.r.x >= card.x - 1 && t.r.right() <= card.right() + 1 && t.r.y >= card.y - 4 &&
                                   t.r.bottom() <= card.bottom() + 4;
                INFO(t.text);
                CHECK((beside || under));
                covered += !beside;
            }
            p.hands().part.reset();
        }
    }
    CHECK(covered > 100);
}
