// Typing into the job sheet, and taking a slip back.
#include "tests/window/played.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

TEST_CASE("a figure is typed into the job sheet in the units in use, and what is no figure is not taken") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Played p(1280, 800, 1.0);
    const auto& sheet = p.screen->session().seen().sheet;
    p.key(Key::J);
    p.click("type standing_pa 0");
    for (const Key k : {Key::Num2, Key::Num0, Key::Period, Key::Num5}) p.key(k);
    p.key(Key::Escape);  // leaves it
    CHECK_FALSE(sheet.standing_pa.set);
    CHECK(p.hands().sheet == Sheet::report);
    p.click("type standing_pa 0");
    for (const Key k : {Key::Num2, Key::Num0, Key::Num1, Key::Backspace, Key::Comma, Key::Num5}) p.key(k);
    p.key(Key::Enter);
    REQUIRE(sheet.standing_pa.set);
    CHECK(sheet.standing_pa.typed);
    CHECK(sheet.standing_pa.value == Approx(2050));  // 20.5 mbar
    p.click("type found_high_co2 0");
    for (const Key k : {Key::Num8, Key::Period, Key::Num9}) p.key(k);
    p.key(Key::Enter);
    CHECK(sheet.found_high.co2_pct == Approx(8.9));
    p.click("type ambient_co 0");
    p.key(Key::Enter);  // nothing typed: nothing written
    CHECK_FALSE(sheet.ambient_co.set);
    // Of O2, as a gas with hydrogen is judged: 5.0 % is 11.9 x 15.9 / 20.9 % CO2.
    practice::Papers papers = p.screen->session().papers();
    papers.sheet.judged_by = heater::Figure::o2;
    papers.co2_max_pct[0] = 11.9;
    CHECK(typed_value(papers, practice::Field::left_low_co2, 5.0) == Approx(9.053).epsilon(0.001));
    words::use(words::Units::us);
    CHECK(typed_value(papers, practice::Field::working_pa, 8.0) == Approx(8 * 249.09).epsilon(0.002));
    words::use(words::Units::si);
}

TEST_CASE("a slip within two seconds is taken back where a hand could, and later it is not") {
    if (!display()) return;
    Played p(1280, 800, 1.0);
    p.at("gas_tap", "gas open");
    const auto undo = [&] {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = sf::Keyboard::Key::Z;
        e.key.control = true;
        p.screen->handle(e);
        p.draw();
    };
    p.key(sf::Keyboard::Key::Escape);
    p.screen->session().set_speed(1);
    undo();
    CHECK_FALSE(p.screen->session().seen().gas_open);
    p.key(sf::Keyboard::Key::C);
    p.key(sf::Keyboard::Key::Left);
    CHECK(p.screen->session().seen().throttle_ticks != 0);
    undo();
    CHECK(p.screen->session().seen().throttle_ticks == 0);
    p.key(sf::Keyboard::Key::Left);
    for (int i = 0; i < 60; ++i) p.screen->advance(50ms);
    undo();
    CHECK(p.screen->session().seen().throttle_ticks != 0);
    CHECK(p.screen->session().message().find("two seconds") != std::string::npos);
}
