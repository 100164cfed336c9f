// Whole jobs at the window, from the shelf to the debrief, by its controls alone: what is to be done comes from the
// expert's list of actions, how it is done here is a click or a key.
#include "tests/support/catch.hpp"

#include "sim/bench/action_text.hpp"
#include "sim/bench/actions.hpp"
#include "sim/marking/play.hpp"
#include "sim/practice/part.hpp"
#include "tests/window/sitting.hpp"
#include "ui/window/cause_groups.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

namespace {

struct Journey : Sitting {
    Session& session() { return screens->session(); }
    const Seen& seen() { return session().seen(); }

    void until(std::int64_t step) {
        for (int i = 0; i < 200000 && !session().ended() && seen().step < step; ++i) {
            session().set_speed(step - seen().step > 50 ? 20 : 1);
            screens->advance(20ms);
        }
        draw();
    }
    //! Puts away whatever lies on top.
    void clear() {
        for (int i = 0; i < 4 && (screens->hands().sheet != Sheet::none || screens->hands().part); ++i)
            key(Key::Escape);
    }
    void on_sheet(const std::string& control) {
        clear();
        key(Key::J);
        click(control);
    }
    void turn(const practice::ScrewTurn& t) {
        clear();
        if (screens->hands().held != t.screw) click("other screw");
        // By the sizes a hand turns: a quarter, an eighth and so on.
        int left = t.ticks;
        for (const int part : {2, 4, 8, 16, 32})
            while (left >= 32 / part) {
                click("step" + std::to_string(part));
                click(t.way == Turn::left ? "turn left" : "turn right");
                left -= 32 / part;
            }
    }
    void draw_water(double to) {
        clear();
        for (int i = 0; i < 90 && std::abs(seen().draw_asked_l_min - to) > 0.25; ++i)
            click(seen().draw_asked_l_min < to ? "more water" : "less water");
    }
    void do_it(const Action& a) {
        switch (a.verb) {
            case Verb::turn: return turn(a.as<practice::ScrewTurn>());
            case Verb::water: return draw_water(a.as<practice::Draw>().l_min);
            case Verb::decide:
            case Verb::hand_over: return on_sheet("do " + bench::to_text(a));
            case Verb::cause:
            case Verb::also_cause:
                clear();
                key(Key::J);
                click("causes " + std::to_string(group_of(a.as<Cause>())));
                return click("cause " + std::string(faults::word_of(a.as<Cause>())));
            case Verb::leave: on_sheet("leave"); return click("really leave");
            default: break;
        }
        clear();
        if (a.verb == Verb::make_safe) return key(Key::F12);
        if (bench::to_text(a) == "look sheet") return click("read the sheet");
        if (a.verb == Verb::record && a.as<practice::Line>() <= practice::Line::left) return click("record");
        const practice::Part part = practice::part_of(a);
        if (has(std::string(practice::part_word(part)))) click(std::string(practice::part_word(part)));
        click("do " + bench::to_text(a));
    }
};

//! The expert's list, done at the window at his times; how it was marked.
Marks travelled(Journey& j, const std::string& lesson) {
    j.until_read();
    for (int i = 0; i < 60 && !j.has("lesson " + lesson); ++i) j.key(Key::Down);
    j.click("lesson " + lesson);
    j.key(Key::Enter);
    REQUIRE(j.screens->front() == Front::job_card);
    j.key(Key::Enter);
    REQUIRE(j.screens->front() == Front::bench);
    Attempt expert(test::lesson(lesson).scenario, 1);
    marking::play(expert);
    for (const bench::Event& e : expert.history().events) {
        j.until(e.action.step);
        INFO(bench::to_text(e.action) << " at " << e.action.step / 50 << " s: " << j.session().message());
        const auto before = j.session().done().size();
        j.do_it(e.action);
        REQUIRE((j.session().done().size() > before || j.session().ended()));
    }
    REQUIRE(j.session().ended());
    j.draw();
    CHECK(j.screens->front() == Front::marks);
    return marking::mark(j.session().attempt());
}

void looks_back(Journey& j) {
    j.key(Key::L);
    REQUIRE(j.session().look_back());
    j.key(Key::Right);
    j.draw();
    j.key(Key::Escape);
    CHECK(j.screens->front() == Front::marks);
    j.key(Key::Escape);
    CHECK(j.screens->front() == Front::shelf);
}

}  // namespace

TEST_CASE("a stop from the shelf to the debrief, by the window's controls alone") {
    if (!shelf_display()) return;
    Journey j;
    const Marks m = travelled(j, "a-warning-last-week");
    CHECK(m.passed);
    CHECK(m.pct() > 95);
    CHECK_FALSE(j.seen().sheet.fit_for_service);
    looks_back(j);
}

TEST_CASE("a propane conversion from the shelf to the debrief, by the window's controls alone") {
    if (!shelf_display()) return;
    Journey j;
    const Marks m = travelled(j, "propane-conversion");
    CHECK(m.passed);
    CHECK(m.pct() > 95);
    CHECK(j.seen().sheet.fit_for_service);
    looks_back(j);
}
