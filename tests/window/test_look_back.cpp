// Looking back: any moment of an attempt as it was, the truth beside it, the expert's course, and a way on from there.
#include <SFML/Graphics/RenderTexture.hpp>
#include "tests/support/catch.hpp"

#include "sim/bench/action_text.hpp"
#include "sim/bench/fields.hpp"
#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "ui/window/screens.hpp"
#include "ui/window/window.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using namespace std::chrono_literals;

namespace {

//! A session in which a hasty player has played to the end.
struct Ended {
    LoadedScenario lesson = test::lesson();
    std::unique_ptr<Session> session;
    PlayedActions course;
    Ended() {
        auto a = std::make_unique<Attempt>(lesson.scenario, 1);
        marking::play(*a, kHasty);
        REQUIRE(a->bench().ended());
        course = played(*a);
        session = std::make_unique<Session>(lesson, std::move(a), nullptr, "", "");
    }
};

}  // namespace

TEST_CASE("a moment looked back at is the moment as it was, to the bit") {
    const LoadedScenario lesson = test::lesson();
    Attempt a(lesson.scenario, 1);
    std::vector<std::pair<std::int64_t, std::uint64_t>> prints;
    marking::play(a, kHasty, [&](const Attempt& now, const Action* done) {
        if (!done && now.bench().snapshot().step % 5000 == 0)
            prints.emplace_back(now.bench().snapshot().step, fingerprint(now.bench().snapshot()));
    });
    REQUIRE(prints.size() > 5);
    const PlayedActions course = played(a);
    CHECK(course.end == a.bench().snapshot().step);
    for (const auto& [step, print] : prints) {
        const auto then = attempt_at(lesson.scenario, 1, course, step - 1);
        then->step();  // what is done at a step is done before it
        CHECK(fingerprint(then->bench().snapshot()) == print);
    }
    CHECK(attempt_at(lesson.scenario, 1, course, course.end)->bench().ended());
}

TEST_CASE("one goes from moment to moment, plays on, and does nothing any more") {
    Ended e;
    Session& s = *e.session;
    CHECK(s.look_back() == nullptr);
    s.begin_look_back({5000, 2000});
    REQUIRE(s.look_back());
    CHECK(s.look_back()->losses == std::vector<std::int64_t>{2000, 5000});
    CHECK(s.seen().step == 2000);  // the first loss
    CHECK(s.look_back()->events.size() == e.course.actions.size());
    CHECK_FALSE(s.act(*parse_action("gas shut").action));
    CHECK(s.message().find("over") != std::string::npos);
    s.seek(-5);
    CHECK(s.seen().step == 0);
    CHECK(s.trace().empty());
    s.seek(e.course.end + 100);
    CHECK(s.seen().step == e.course.end);
    CHECK(s.ended());
    s.seek(20000);
    CHECK_FALSE(s.ended());
    const double there = s.seen().analyzer.co2_pct;
    // The other one's curve is whole from the first moment on, and changes places when the courses do.
    const auto other = s.look_back()->other;
    REQUIRE(other.size() > 100);
    CHECK(other.back().step > 0);
    s.swap_courses();
    CHECK(s.look_back()->other.back().step <= e.course.end);
    CHECK(s.look_back()->other.back().step > e.course.end - 2 * practice::kStepsPerSecond);
    s.swap_courses();
    CHECK(s.look_back()->other.size() == other.size());
    s.seek(20000);
    // Played on from before, it comes to the same.
    s.seek(19000);
    s.set_speed(20);
    while (s.seen().step < 20000) s.advance(1ms);
    CHECK(s.seen().step == 20000);
    CHECK(s.seen().analyzer.co2_pct == there);
}

TEST_CASE("the truth stands beside what was shown, with band and fault, and the expert's at the same moment") {
    Ended e;
    Session& s = *e.session;
    s.begin_look_back({});
    s.seek(500 * practice::kStepsPerSecond);
    CHECK(s.look_back()->truth.find("truly CO2 ") == 0);
    CHECK(s.look_back()->truth.find(" in a band of ") != std::string::npos);
    CHECK(s.look_back()->also.find("The expert at this moment: ") == 0);
    const std::string mine = s.look_back()->truth;
    s.swap_courses();
    CHECK(s.look_back()->expert);
    CHECK(s.seen().step == 500 * practice::kStepsPerSecond);
    CHECK(s.look_back()->also == "You at this moment: " + mine + ".");
    s.swap_courses();
    CHECK(s.look_back()->truth == mine);
    // With a fault, and no flame.
    Attempt vent(test::lesson("out-at-night").scenario, 1);
    vent.run_seconds(2);
    CHECK(truth_now(vent).find("no flame, vent blocked, ") == 0);
}

TEST_CASE("from the marks to a moment, and on from there as a new attempt of its own record") {
    if (!display_can_be_opened()) {
        WARN("no display: left out");
        return;
    }
    using Key = sf::Keyboard::Key;
    test::Scratch scratch;
    setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
    setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
    setenv("QUARTERTURN_SEED", "1", 1);
    Fonts fonts;
    REQUIRE(fonts.load());
    Screens screens(test::lesson(), fonts);
    sf::RenderTexture target;
    REQUIRE(target.create(1280, 800));
    screens.resize(1280, 800);
    const auto draw = [&] {
        screens.advance(0ns);
        screens.draw(target);
        target.display();
    };
    const auto key = [&](Key code, bool shift = false) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        e.key.shift = shift;
        screens.handle(e);
        draw();
    };
    const auto has = [&](const std::string& name) {
        for (const auto& t : screens.targets())
            if (t.name == name) return true;
        return false;
    };
    for (const char* a : {"gas open", "power on", "water 12"}) {
        REQUIRE(screens.session().act(*parse_action(a).action));
        for (int i = 0; i < 100; ++i) screens.advance(50ms);
    }
    REQUIRE(screens.session().act(*parse_action("cap throttle off").action));
    REQUIRE(screens.session().act(*parse_action("turn throttle left 1/2").action));
    for (int i = 0; i < 100; ++i) screens.advance(50ms);
    REQUIRE(screens.session().act(*parse_action("leave").action));
    draw();
    draw();
    REQUIRE(screens.front() == Front::marks);
    const std::string first_record = screens.session().record_path();
    key(Key::L);
    REQUIRE(screens.front() == Front::bench);
    REQUIRE(screens.session().look_back());
    CHECK(has("take over"));
    // From event to event; a second with Shift.
    screens.session().seek(0);
    draw();
    key(Key::Right);
    const auto second = screens.session().look_back()->events[1];
    CHECK(screens.session().seen().step == second);
    key(Key::Right, true);
    CHECK(screens.session().seen().step == second + practice::kStepsPerSecond);
    key(Key::Left);
    CHECK(screens.session().seen().step == second);
    key(Key::Escape);
    CHECK(screens.front() == Front::marks);
    CHECK(screens.session().ended());
    key(Key::L);
    screens.session().seek(second + 10);
    draw();
    key(Key::B);
    draw();
    REQUIRE(screens.front() == Front::bench);
    CHECK_FALSE(screens.session().look_back());
    CHECK_FALSE(screens.session().ended());
    CHECK(screens.session().seen().gas_open);
    CHECK(screens.session().seen().power);
    CHECK(screens.session().seen().throttle_ticks == 0);
    CHECK(screens.session().seen().step == second + 10);
    CHECK(screens.session().record_path() != first_record);
    REQUIRE(screens.session().act(*parse_action("gas shut").action));
    // Its record says where it comes from, and replays.
    const files::Record r = files::read_record(screens.session().record_path());
    CHECK(r.branch_of.find(" at 0:0") != std::string::npos);
    CHECK(r.actions.size() == 3);
    CHECK(files::replay(r, "r").attempt);
}

TEST_CASE("before a class: it stops before what is done, covers what comes and what is true, and uncovers it") {
    Ended e;
    Session& s = *e.session;
    s.begin_look_back({2000});
    s.before_a_class();
    const LookBack& b = *s.look_back();
    CHECK(b.room);
    CHECK(s.seen().step == 0);
    CHECK_FALSE(b.truth_shown);
    REQUIRE(b.stops.size() > 5);
    for (std::size_t i = 0; i < b.stops.size(); ++i) {
        const std::size_t before = s.done().size();
        s.next_stop();
        INFO(i << " " << b.next);
        CHECK(b.covered);
        CHECK(s.seen().step == b.stops[i] - 1);
        CHECK_FALSE(b.truth_shown);
        CHECK_FALSE(b.next.empty());
        const std::size_t now = s.done().size();
        CHECK(now >= before);
        s.next_stop();
        CHECK_FALSE(b.covered);
        CHECK(b.truth_shown);
        CHECK(s.done().size() > now);  // what was covered has been done
        CHECK(s.done().back().step == b.stops[i]);
    }
    s.next_stop();
    CHECK(s.seen().step == b.end);
    s.stop_before();
    CHECK(b.covered);
    CHECK(s.seen().step == b.stops[b.stops.size() - 2] - 1);  // the last one is the end itself
    s.stop_before();
    CHECK(s.seen().step == b.stops[b.stops.size() - 3] - 1);
    // Hands are counted while it is covered, and start anew at the next stop.
    s.count_hand(1, 1);
    s.count_hand(1, 1);
    s.count_hand(2, -1);
    s.count_hand(9, 1);
    CHECK(b.hands == std::array<int, 4>{0, 2, 0, 0});
    s.next_stop();
    s.count_hand(1, 1);
    CHECK(b.hands[1] == 2);
    s.next_stop();
    CHECK(b.hands[1] == 0);
    // Turns that follow one another are one stop.
    for (std::size_t i = 0; i + 1 < e.course.actions.size(); ++i)
        if (e.course.actions[i].verb == Verb::turn && e.course.actions[i + 1].verb == Verb::turn)
            CHECK(std::find(b.stops.begin(), b.stops.end(), e.course.actions[i + 1].step) == b.stops.end());
}

TEST_CASE("two records are set beside one another") {
    Ended e;
    Attempt second(e.lesson.scenario, 1);
    marking::play(second);
    const PlayedActions other = played(second);
    e.session->begin_look_back({}, other);
    CHECK(e.session->look_back()->other_record);
    e.session->seek(400 * practice::kStepsPerSecond);
    CHECK(e.session->look_back()->also.find("The other one at this moment: ") == 0);
    e.session->swap_courses();
    CHECK(e.session->look_back()->end == other.end);
}

TEST_CASE("a record before a class by a presenter's two keys, the what-if from its screws, nothing cut") {
    if (!display_can_be_opened()) {
        WARN("no display: left out");
        return;
    }
    using Key = sf::Keyboard::Key;
    test::Scratch scratch;
    setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
    setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
    Fonts fonts;
    REQUIRE(fonts.load());
    Start start;
    start.lesson = test::lesson();
    start.attempt = std::make_unique<Attempt>(start.lesson->scenario, 1);
    marking::play(*start.attempt, kHasty);
    start.projector = true;
    Screens screens(std::move(start), fonts);
    screens.set_text_scale(1.35);
    screens.resize(1920, 1080);
    sf::RenderTexture target;
    REQUIRE(target.create(1920, 1080));
    const auto key = [&](Key code) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        screens.handle(e);
        screens.advance(0ns);
        screens.draw(target);
    };
    REQUIRE(screens.front() == Front::bench);
    const LookBack& b = *screens.session().look_back();
    key(Key::Home);
    for (int i = 0; i < 60 && screens.session().seen().throttle_ticks == 0; ++i) key(Key::PageDown);
    REQUIRE(screens.session().seen().throttle_ticks != 0);
    const auto at = screens.session().seen().step;
    key(Key::V);
    REQUIRE(screens.front() == Front::what_if);
    key(Key::Escape);
    CHECK(screens.front() == Front::bench);
    CHECK(screens.session().seen().step == at);
    key(Key::PageUp);
    CHECK(b.covered);
    key(Key::B);
    CHECK(b.hands[1] == 1);
    std::vector<TextBox> texts;
    Canvas::noted = &texts;
    screens.resize(1920, 1080);
    screens.advance(0ns);
    screens.draw(target);
    Canvas::noted = nullptr;
    bool asks = false;
    for (const TextBox& t : texts) {
        asks |= t.text == "What comes next?";
        CHECK(t.text.find("ruly") == std::string::npos);  // nothing of the truth
    }
    CHECK(asks);
    key(Key::Escape);
    CHECK(screens.front() == Front::marks);
}
