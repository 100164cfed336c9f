// What the sheets on the bench say and do: the job sheet's figures struck out, the remark, leaving, and what lies on
// top.
#include "tests/window/played.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

void type(Played& p, const std::u32string& text) {
    for (const char32_t c : text) {
        sf::Event e;
        e.type = sf::Event::TextEntered;
        e.text.unicode = static_cast<sf::Uint32>(c);
        p.screen->handle(e);
    }
    p.draw();
}

bool shown(Played& p, const std::string& words) {
    std::vector<TextBox> texts;
    p.screen->resize(p.w, p.h);  // drawn anew
    Canvas::noted = &texts;
    p.draw();
    Canvas::noted = nullptr;
    std::string all;
    for (const TextBox& t : texts) all += t.text + " ";
    return all.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("one figure of a reading is no reading, and the other stays empty until it is written") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    const auto& sheet = p.screen->session().seen().sheet;
    p.key(Key::J);
    p.click("type found_high_co2 0");
    for (const Key k : {Key::Num9, Key::Period, Key::Num1}) p.key(k);
    p.key(Key::Enter);
    CHECK(sheet.found_high.co2_in);
    CHECK_FALSE(sheet.found_high.co_in);
    CHECK_FALSE(sheet.found_high.set);
    CHECK(p.has("strike found_high_co2"));
    CHECK_FALSE(p.has("strike found_high_co"));
    p.click("type found_high_co 0");
    for (const Key k : {Key::Num4, Key::Num0}) p.key(k);
    p.key(Key::Enter);
    CHECK(sheet.found_high.set);
    p.click("strike found_high_co2");
    CHECK_FALSE(sheet.found_high.set);
    CHECK_FALSE(sheet.found_high.co2_in);
    CHECK(sheet.found_high.co_ppm == Approx(40));
    p.click("strike found_high_co");
    CHECK(sheet.found_high.co_ppm == 0);
    CHECK_FALSE(sheet.found_high.typed);
    // More than can be read is not taken, and is said.
    p.click("type found_high_co2 0");
    for (const Key k : {Key::Num9, Key::Num1}) p.key(k);
    p.key(Key::Enter);
    CHECK_FALSE(sheet.found_high.co2_in);
    CHECK(p.screen->session().message().find("more than can be read") != std::string::npos);
    p.key(Key::Backspace);
    p.key(Key::Enter);
    CHECK(sheet.found_high.co2_pct == Approx(9));
}

TEST_CASE("a remark in any alphabet is written on the job sheet and kept") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    p.key(Key::J);
    p.click("type remark");
    type(p, U"Vent scheduled: J\u00fcrgen \u0416\u6c34xx");
    p.key(Key::H);  // a letter, no hint: keys are text now
    p.key(Key::Backspace);
    p.key(Key::Backspace);
    CHECK(p.hands().sheet == Sheet::report);
    CHECK(p.screen->session().hint().empty());
    p.key(Key::Enter);
    CHECK(remark_of(p.screen->session()) == "Vent scheduled: J\u00fcrgen \u0416\u6c34");
    p.click("type remark");
    type(p, std::u32string(400, U'\u6c34'));  // longer than a line
    p.key(Key::Enter);
    CHECK(remark_of(p.screen->session()).size() <= practice::kMostRemark);
    CHECK(remark_of(p.screen->session()).ends_with("\u6c34"));  // no letter is cut in two
}

TEST_CASE("leaving lists what has no figure yet, in coached practice only") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    const auto& s = p.screen->session();
    p.key(Key::J);
    p.click("leave");
    CHECK(shown(p, "not written down"));
    CHECK(shown(p, "room CO"));
    CHECK(shown(p, "joints not leak-tested"));
    CHECK(shown(p, "no decision"));
    p.click("stay");
    REQUIRE(p.screen->session().act(practice::set(Verb::decide, false)));
    p.key(Key::J);
    p.click("leave");
    CHECK_FALSE(shown(p, "not written down"));  // a stop need not have measured
    CHECK(shown(p, "nobody told why"));
    CHECK(s.papers().coached);
    p.click("stay");
    p.screen->session().practise_alone();
    p.key(Key::J);
    p.click("leave");
    CHECK_FALSE(shown(p, "nobody told why"));
}

TEST_CASE("the hot tap is opened, turned up, down and shut from its card") {
    if (!display()) return;
    Played p(1024, 700, 1.0);
    const auto& seen = p.screen->session().seen();
    p.click("hot_tap");
    p.click("do water 10");
    CHECK(seen.draw_asked_l_min == Approx(10));
    p.click("do water 10.5");
    CHECK(seen.draw_asked_l_min == Approx(10.5));
    p.click("do water 10");
    p.click("do water 9.5");
    CHECK(seen.draw_asked_l_min == Approx(9.5));
    p.click("do water 0");
    CHECK(seen.draw_asked_l_min == 0);
}

TEST_CASE("the trend shows two minutes, ten or all of it") {
    if (!display()) return;
    Played p(1280, 800, 1.0);
    CHECK(shown(p, "Last 10 minutes"));
    p.click("span 1");
    CHECK(shown(p, "Last 2 minutes"));
    p.wait(900);
    p.click("span 2");
    CHECK(shown(p, "From the start"));
    CHECK(shown(p, "\u221215 min"));
}

TEST_CASE("looking back nothing can be made safe any more, and what the status block stands for can be opened") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    CHECK(p.has("safe"));
    p.click("burner state");
    CHECK(p.hands().part == practice::Part::controls);
    p.key(Key::Escape);
    REQUIRE(p.screen->session().act(practice::act(Verb::leave)));
    p.draw();
    p.key(Key::L);
    REQUIRE(p.screen->session().look_back());
    CHECK_FALSE(p.has("safe"));
    p.key(Key::F12);
    CHECK(p.screen->session().message().empty());
}

TEST_CASE("what has just been noticed is no longer said once something else is done") {
    if (!display()) return;
    Played p(1280, 800, 1.0);
    auto& s = p.screen->session();
    for (const char* a :
         {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "forced fire high"})
        REQUIRE(s.act(*bench::parse_action(a).action));
    for (int i = 0; i < 4000 && s.notice().find("settled") == std::string::npos; ++i) {
        s.set_speed(20);
        p.screen->advance(50ms);
    }
    REQUIRE(s.notice().find("settled") != std::string::npos);
    REQUIRE(s.act(practice::force(heater::ForcedFire::low)));
    CHECK(s.notice().empty());
}

TEST_CASE("leaving out of service lists what is still open there, and does not tell whether it had to stop") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1);
    const auto listed = [&p] {
        std::vector<TextBox> texts;
        p.key(Key::J);
        p.click("leave");
        Canvas::noted = &texts;
        p.draw();
        p.screen->hands().focus = "stay";
        p.key(Key::Unknown);
        Canvas::noted = nullptr;
        std::string all;
        for (const TextBox& t : texts) all += t.text + " ";
        p.click("stay");
        return all;
    };
    p.at("gas_tap", "gas open");
    p.key(Key::Escape);
    REQUIRE(p.screen->session().act(*bench::parse_action("decide stop").action));
    const std::string open = listed();
    CHECK(open.find("gas tap open") != std::string::npos);
    CHECK(open.find("fires not read: right only where there was a danger") != std::string::npos);
    CHECK(open.find("power on") == std::string::npos);
    p.key(Key::F12);
    CHECK(listed().find("gas tap open") == std::string::npos);
}

TEST_CASE("leaving where it smelt of gas asks for no switch, and for the nose where nobody has used it") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    struct Gas : Played {
        Gas() : Played(1280, 800, 1) {
            screen = std::make_unique<Screens>(test::lesson("smell-of-gas"), fonts);
            screen->resize(1280, 800);
            draw();
        }
        std::string listed() {
            std::vector<TextBox> texts;
            key(Key::J);
            click("leave");
            Canvas::noted = &texts;
            screen->hands().focus = "stay";
            key(Key::Unknown);
            Canvas::noted = nullptr;
            std::string all;
            for (const TextBox& t : texts) all += t.text + " ";
            click("stay");
            key(Key::Escape);
            return all;
        }
    } p;
    REQUIRE(p.screen->session().act(*bench::parse_action("decide stop").action));
    std::string open = p.listed();
    CHECK(open.find("nobody has smelt") != std::string::npos);
    CHECK(open.find("power on") != std::string::npos);
    CHECK(open.find("rating plate") == std::string::npos);
    REQUIRE(p.screen->session().act(*bench::parse_action("smell").action));
    p.wait(20);
    open = p.listed();
    CHECK(open.find("nobody has smelt") == std::string::npos);
    CHECK(open.find("power on") == std::string::npos);
    CHECK(open.find("gas tap open") != std::string::npos);
    // What is written after the hand-over is not in it: it is named last.
    CHECK(open.find("not handed over") > open.find("gas tap open"));
}
