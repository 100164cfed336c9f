// The shelf, the job card and the settings: what is kept, what is said to be next, and the way from shelf to debrief.
#include <SFML/Graphics/RenderTexture.hpp>
#include "tests/support/catch.hpp"
#include <fstream>
#include <regex>
#include <thread>

#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "ui/window/screens.hpp"
#include "ui/window/window.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using namespace std::chrono_literals;

namespace {

bench::LessonCard lesson_of(const std::string& id, bench::Group g, double minutes,
                            std::vector<std::string> needs = {}) {
    bench::LessonCard s;
    s.id = id;
    s.title = "Title of " + id;
    s.course.group = g;
    s.course.minutes = minutes;
    s.course.needs = std::move(needs);
    return s;
}

OwnAttempt attempt_at(const std::string& lesson, bool ended, bool passed, double points, std::int64_t written = 1) {
    OwnAttempt a;
    a.path = "/somewhere/" + lesson + std::to_string(written) + ".jsonl";
    a.lesson = lesson;
    a.ended = ended;
    a.passed = passed;
    a.points = points;
    a.written = written;
    return a;
}

const PlannedLesson& planned(const CoursePlan& p, const std::string& id) {
    for (const auto& l : p.lessons)
        if (l.id == id) return l;
    FAIL("no lesson " << id);
    return p.lessons.front();
}

struct Sitting {
    test::Scratch scratch;
    Fonts fonts;
    std::unique_ptr<Screens> screens;
    sf::RenderTexture target;

    explicit Sitting(unsigned w = 1280, unsigned h = 800, double text = 1) {
        setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
        setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
        setenv("QUARTERTURN_SEED", "1", 1);
        REQUIRE(fonts.load());
        open();
        screens->set_text_scale(text);
        screens->resize(w, h);
        REQUIRE(target.create(w, h));
        draw();
    }
    void open() {
        Start s;
        s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        screens = std::make_unique<Screens>(std::move(s), fonts);
    }
    void draw() {
        screens->advance(0ns);
        screens->draw(target);
        target.display();
    }
    void key(sf::Keyboard::Key code, bool control = false) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        e.key.control = control;
        screens->handle(e);
        draw();
    }
    bool has(const std::string& name) const {
        for (const auto& t : screens->targets())
            if (t.name == name) return true;
        return false;
    }
    void click(const std::string& name) {
        for (auto it = screens->targets().rbegin(); it != screens->targets().rend(); ++it)
            if (it->name == name) {
                sf::Event e;
                e.type = sf::Event::MouseButtonPressed;
                e.mouseButton = {sf::Mouse::Left, static_cast<int>(it->r.centre().x * screens->layout().u),
                                 static_cast<int>(it->r.centre().y * screens->layout().u)};
                screens->handle(e);
                draw();
                return;
            }
        FAIL("no target " << name);
    }
    void until_read() {
        for (int i = 0; i < 2000 && screens->shelf().reading; ++i) {
            std::this_thread::sleep_for(5ms);
            draw();
        }
        REQUIRE_FALSE(screens->shelf().reading);
    }
};

bool display() {
    if (display_can_be_opened()) return true;
    WARN("no display: the shelf's screen tests were left out");
    return false;
}

}  // namespace

TEST_CASE("a course in its order, with what became of each lesson") {
    using bench::Group;
    const std::vector<bench::LessonCard> lessons{
        lesson_of("hard", Group::hard, 30, {"b"}), lesson_of("b", Group::first_readings, 30, {"a"}),
        lesson_of("a", Group::first_readings, 30), lesson_of("c", Group::setting, 20)};
    CoursePlan p = plan_course(lessons, {});
    REQUIRE(p.lessons.size() == 4);
    CHECK(p.lessons[0].id == "a");
    CHECK(p.lessons[1].id == "b");
    CHECK(p.lessons[2].id == "c");
    CHECK(p.lessons[3].id == "hard");
    CHECK(p.next == 0);
    CHECK_FALSE(p.weakest);
    CHECK(planned(p, "b").still_needed == std::vector<std::string>{"Title of a"});
    // Passed once is passed; the best counts; a failed one is to be tried again; one not ended can be gone on with.
    p = plan_course(lessons, {attempt_at("a", true, true, 85, 1), attempt_at("a", true, false, 91, 2),
                              attempt_at("c", true, false, 40, 3), attempt_at("hard", false, false, 0, 4),
                              attempt_at("hard", false, false, 0, 9), attempt_at("other", true, true, 100, 1)});
    CHECK(planned(p, "a").progress == Progress::passed);
    CHECK(planned(p, "a").best == 91);
    CHECK(planned(p, "a").attempts == 2);
    CHECK(planned(p, "b").progress == Progress::not_yet);
    CHECK(planned(p, "b").still_needed.empty());
    CHECK(planned(p, "c").progress == Progress::again);
    CHECK(planned(p, "hard").progress == Progress::started);
    CHECK(planned(p, "hard").broken_off == "/somewhere/hard9.jsonl");
    CHECK(p.passed == 1);
    CHECK(p.lessons[*p.next].id == "b");
}

TEST_CASE("what comes next asks most of what is weakest, and what was begun comes first") {
    using bench::Competency;
    using bench::Group;
    std::vector<bench::LessonCard> lessons{lesson_of("a", Group::setting, 10), lesson_of("b", Group::setting, 20),
                                           lesson_of("c", Group::setting, 30)};
    lessons[0].weights.of = {10, 20, 40, 10, 10, 10};
    lessons[1].weights.of = {10, 40, 20, 10, 10, 10};
    lessons[2].weights.of = {10, 20, 40, 10, 10, 10};
    OwnAttempt weak = attempt_at("x", true, false, 60, 5);
    weak.weight = {10, 20, 30, 15, 15, 10};
    weak.earned = {10, 5, 30, 15, 15, 10};  // measuring
    CoursePlan p = plan_course(lessons, {weak});
    REQUIRE(p.weakest);
    CHECK(*p.weakest == Competency::measure);
    CHECK(p.weakest_share == 0.25);
    CHECK(p.lessons[*p.next].id == "b");
    // A newer attempt at the same lesson takes the older one's place.
    OwnAttempt better = weak;
    better.written = 6;
    better.earned = {10, 20, 30, 15, 15, 2};
    p = plan_course(lessons, {weak, better});
    CHECK(*p.weakest == Competency::close_out);
    p = plan_course(lessons, {weak, attempt_at("c", false, false, 0)});
    CHECK(p.lessons[*p.next].id == "c");
    // Everything passed: nothing is next.
    p = plan_course(
        lessons, {attempt_at("a", true, true, 90), attempt_at("b", true, true, 90), attempt_at("c", true, true, 90)});
    CHECK_FALSE(p.next);
}

TEST_CASE("the choice on the shelf stays in its group and in sight") {
    using bench::Group;
    std::vector<bench::LessonCard> lessons;
    for (int i = 0; i < 12; ++i)
        lessons.push_back(lesson_of("l" + std::to_string(10 + i), i < 8 ? Group::first_readings : Group::hard, 10));
    const CoursePlan p = plan_course(lessons, {});
    ShelfView v;
    v.rows = 5;
    move_choice(p, v, 1);
    CHECK(v.chosen == 1);
    move_choice(p, v, 5);
    CHECK(v.chosen == 6);
    CHECK(v.top == 2);
    move_choice(p, v, -100);
    CHECK(v.chosen == 0);
    CHECK(v.top == 0);
    v.group = static_cast<int>(Group::hard);
    CHECK(shelf_rows(p, v).size() == 4);
    move_choice(p, v, 1);  // what was chosen is not in this group
    CHECK(v.chosen == 8);
    move_choice(p, v, 100);
    CHECK(v.chosen == 11);
}

TEST_CASE("own attempts are read from their records, once, and what is broken is left out") {
    const test::Scratch folder;
    const auto lesson = test::lesson("out-at-night");
    for (const char* name : {"one.jsonl", "two.jsonl"}) {
        files::NoRecord no;
        auto w = files::RecordWriter::create(folder.file(name), lesson, 1, no);
        REQUIRE(w);
        bench::Attempt a(lesson.scenario, 1);
        if (std::string(name) == "one.jsonl") {
            test::play_recorded(a, *w);
        } else {
            for (int i = 0; i < 60 * bench::kStepsPerSecond; ++i) {
                a.step();
                w->after_step(a.bench());
            }
        }
    }
    folder.write("broken.jsonl", "{\"quarterturn\": tr");
    folder.write("notes.txt", "no record");
    const std::atomic<bool> stop{false};
    const auto read = read_attempts(folder.file("."), stop);
    REQUIRE(read.size() == 2);
    CHECK(read[0].lesson == "out-at-night");
    CHECK(read[0].ended);
    CHECK(read[0].passed);
    CHECK(read[0].points == Approx(100));
    double earned = 0;
    for (const double e : read[0].earned) earned += e;
    CHECK(earned == Approx(100));
    CHECK_FALSE(read[1].ended);
    CHECK(read[1].minutes == Approx(1).margin(0.05));
    // Kept: a second reading takes it from there, and a change of the record is seen.
    const std::string kept = folder.file("results.json");
    REQUIRE(std::filesystem::exists(kept));
    std::string text = test::Scratch::read(kept);
    text = std::regex_replace(text, std::regex("\"points\":[0-9.]+"), "\"points\":77.5",
                              std::regex_constants::format_first_only);
    std::ofstream(kept) << text;
    CHECK(read_attempts(folder.file("."), stop)[0].points == 77.5);
    std::ofstream(kept) << "{ nonsense";
    CHECK(read_attempts(folder.file("."), stop)[0].points == Approx(100));
    CHECK(read_attempts(folder.file("nowhere"), stop).empty());
}

TEST_CASE("settings come back as they were kept, and nonsense in them is said and harmless") {
    const test::Scratch folder;
    const std::string path = folder.file("deep/settings.toml");
    Settings s;
    s.units = words::Units::us;
    s.evening = s.still = true;
    s.slow_down = false;
    s.text_scale = 1.75;
    s.volume = 8;
    CHECK(write_settings(path, s).empty());
    std::vector<std::string> problems;
    CHECK(read_settings(path, problems) == s);
    CHECK(problems.empty());
    CHECK(read_settings(folder.file("none.toml"), problems).text_scale == 1);
    CHECK(problems.empty());
    folder.write("bad.toml", "text = 9\npaper = \"green\"\nvolume = 4\nspeed = 3\n");
    const Settings bad = read_settings(folder.file("bad.toml"), problems);
    CHECK(bad.text_scale == 1);
    CHECK_FALSE(bad.evening);
    CHECK(bad.volume == 4);
    CHECK(problems.size() == 3);
    problems.clear();
    folder.write("worse.toml", "text = = 9\n");
    CHECK(read_settings(folder.file("worse.toml"), problems).text_scale == 1);
    CHECK(problems.size() == 1);
    CHECK_FALSE(write_settings(folder.file("bad.toml") + "/x/settings.toml", s).empty());
}

TEST_CASE("from the shelf by its job card to the bench and back, by keys alone") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Sitting s;
    CHECK(s.screens->front() == Front::shelf);
    s.until_read();
    CHECK(s.screens->plan().lessons.size() >= 40);
    const std::size_t first = s.screens->shelf().chosen;
    s.key(Key::Down);
    CHECK(s.screens->shelf().chosen != first);
    s.key(Key::Right);
    CHECK(s.screens->shelf().group == 0);
    s.key(Key::Enter);
    CHECK(s.screens->front() == Front::job_card);
    s.key(Key::Escape);
    CHECK(s.screens->front() == Front::shelf);
    s.key(Key::Enter);
    s.click("help alone");
    s.key(Key::Enter);
    REQUIRE(s.screens->front() == Front::bench);
    CHECK_FALSE(s.screens->session().papers().coached);
    s.key(Key::H);
    CHECK(s.screens->session().hint().empty());
    CHECK(s.screens->session().message().find("alone") != std::string::npos);
    // F1 over the bench: time stands, and goes on after.
    const auto before = s.screens->session().seen().step;
    s.key(Key::F1);
    CHECK(s.screens->in_settings());
    for (int i = 0; i < 20; ++i) s.screens->advance(50ms);
    CHECK(s.screens->session().seen().step == before);
    s.click("Paper evening");
    CHECK(s.screens->settings().evening);
    s.key(Key::Escape);
    CHECK_FALSE(s.screens->in_settings());
    for (int i = 0; i < 40; ++i) s.screens->advance(50ms);
    CHECK(s.screens->session().seen().step > before);
    // Kept for the next time.
    s.open();
    CHECK(s.screens->settings().evening);
}

TEST_CASE("the expert can be watched, whoever sits there touches nothing, and no record is left") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Sitting s;
    s.until_read();
    s.key(Key::W);
    REQUIRE(s.screens->front() == Front::bench);
    REQUIRE(s.screens->session().watching());
    s.click("gas_tap");
    s.click("do gas open");
    CHECK_FALSE(s.screens->session().seen().gas_open);
    CHECK(s.screens->session().message().find("expert is at work") != std::string::npos);
    s.key(Key::Escape);  // ends it
    CHECK(s.screens->front() == Front::shelf);
    s.key(Key::W);
    for (int i = 0; i < 100000 && s.screens->front() == Front::bench; ++i) {
        s.screens->session().set_speed(20);
        s.screens->advance(250ms);
    }
    CHECK(s.screens->front() == Front::shelf);
    s.until_read();
    std::error_code ec;
    int records = 0;
    for (const auto& e : std::filesystem::directory_iterator(s.scratch.file("data/quarterturn/attempts"), ec))
        records += e.path().extension() == ".jsonl";
    CHECK(records == 0);
}

TEST_CASE("an attempt that was broken off is gone on with from the shelf") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    Sitting s;
    s.until_read();
    s.key(Key::Enter);
    s.key(Key::Enter);
    REQUIRE(s.screens->front() == Front::bench);
    const std::string lesson = s.screens->session().papers().lesson;
    s.click("gas_tap");
    s.click("do gas open");
    for (int i = 0; i < 100; ++i) s.screens->advance(50ms);
    const auto step = s.screens->session().seen().step;
    s.open();  // the window was closed and opened again
    s.draw();
    s.until_read();
    CHECK(s.screens->plan().lessons[s.screens->shelf().chosen].id == lesson);
    CHECK(s.has("carry on"));
    s.key(Key::G);
    REQUIRE(s.screens->front() == Front::bench);
    CHECK(s.screens->session().seen().gas_open);
    CHECK(s.screens->session().seen().step <= step);
    CHECK(s.screens->session().seen().step > step - 100);
}

TEST_CASE("shelf, job card and settings: everything in the window, nothing over anything else, all reached by Tab") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    for (const auto& [w, h, text] :
         {std::tuple(1280u, 800u, 1.0), std::tuple(1024u, 700u, 1.0), std::tuple(1920u, 1080u, 1.0),
          std::tuple(2560u, 1440u, 1.0), std::tuple(1280u, 800u, 1.5), std::tuple(1280u, 800u, 2.0),
          std::tuple(1024u, 700u, 1.5), std::tuple(1024u, 700u, 2.0)}) {
        Sitting s(w, h, text);
        s.until_read();
        const auto look = [&](const char* what) {
            const auto all = s.screens->targets();
            CHECK_FALSE(all.empty());
            for (std::size_t i = 0; i < all.size(); ++i) {
                INFO(what << " " << w << "x" << h << " text " << text << ": " << all[i].name);
                CHECK(all[i].r.x >= -0.5);
                CHECK(all[i].r.y >= -0.5);
                CHECK(all[i].r.right() <= s.screens->layout().w + 0.5);
                CHECK(all[i].r.bottom() <= s.screens->layout().h + 0.5);
                for (std::size_t k = 0; k < i; ++k) {
                    INFO("and " << all[k].name);
                    const Rect &a = all[i].r, &b = all[k].r;
                    CHECK((a.x >= b.right() - 1 || b.x >= a.right() - 1 || a.y >= b.bottom() - 1 ||
                           b.y >= a.bottom() - 1));
                }
            }
            std::set<std::string> reached;
            for (std::size_t i = 0; i < all.size(); ++i) {
                s.key(Key::Tab);
                reached.insert(s.screens->hands().focus);
            }
            CHECK(reached.size() == all.size());
        };
        look("shelf");
        s.key(Key::F1);
        look("settings");
        s.key(Key::F1);
        s.screens->hands().focus.clear();
        s.key(Key::Enter);
        REQUIRE(s.screens->front() == Front::job_card);
        look("job card");
        s.screens->hands().focus.clear();
        s.key(Key::V);
        REQUIRE(s.screens->front() == Front::what_if);
        look("what if");
    }
}
