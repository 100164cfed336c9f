// The shelf, the job card and the settings: what is kept, what is said to be next, and the way from shelf to debrief.
#include <SFML/Graphics/RenderTexture.hpp>
#include "tests/support/catch.hpp"
#include <fmt/format.h>
#include <fstream>
#include <regex>
#include <thread>

#include "sim/marking/play.hpp"
#include "tests/support/files.hpp"
#include "tests/window/sitting.hpp"
#include "ui/window/window.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using namespace std::chrono_literals;

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
    if (!shelf_display()) return;
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

TEST_CASE("an attempt is broken off, carried on and ended, and its marks are found again on the shelf") {
    if (!shelf_display()) return;
    using Key = sf::Keyboard::Key;
    Sitting s;
    s.until_read();
    s.click("lesson yearly-check");
    CHECK_FALSE(s.has("last marks"));
    s.key(Key::Enter);
    s.click("start");
    REQUIRE(s.screens->front() == Front::bench);
    const std::string record = s.screens->session().record_path();
    REQUIRE(s.screens->session().act(practice::set(Verb::gas, true)));
    s.key(Key::J);
    s.click("leave");
    s.click("break off");
    CHECK(s.screens->front() == Front::shelf);
    s.until_read();
    s.click("lesson yearly-check");
    s.key(Key::G);
    REQUIRE(s.screens->front() == Front::bench);
    CHECK(s.screens->session().seen().gas_open);
    CHECK(s.screens->session().record_path() == record);
    REQUIRE(s.screens->session().act(practice::act(Verb::leave)));
    s.draw();
    REQUIRE(s.screens->front() == Front::marks);
    s.key(Key::Escape);
    s.until_read();
    s.click("lesson yearly-check");
    s.key(Key::M);
    CHECK(s.screens->front() == Front::marks);
    s.key(Key::L);
    CHECK(s.screens->session().look_back());
    CHECK(s.screens->session().record_path() == record);
}

TEST_CASE("the expert can be watched, whoever sits there touches nothing, and no record is left") {
    if (!shelf_display()) return;
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
    s.key(Key::Escape);  // puts the card away, and nothing else
    CHECK(s.screens->front() == Front::bench);
    s.key(Key::J);
    s.key(Key::Escape);  // and the sheet
    CHECK(s.screens->front() == Front::bench);
    CHECK(s.screens->hands().sheet == Sheet::none);
    CHECK_FALSE(s.has("safe"));
    s.key(Key::Escape);  // ends it
    CHECK(s.screens->front() == Front::shelf);
    s.key(Key::W);
    for (int i = 0; i < 100000 && s.screens->front() == Front::bench; ++i) {
        s.screens->session().set_speed(20);
        s.screens->advance(250ms);
    }
    // It ends with its marks, which are nobody's own; from there it can be looked back at, and gone on from.
    REQUIRE(s.screens->front() == Front::marks);
    const auto records = [&] {
        std::error_code ec;
        std::vector<std::string> out;
        for (const auto& e : std::filesystem::directory_iterator(s.scratch.file("data/quarterturn/attempts"), ec))
            if (e.path().extension() == ".jsonl") out.push_back(e.path().string());
        return out;
    };
    CHECK(records().empty());
    s.key(Key::L);
    CHECK_FALSE(s.screens->session().watching());
    s.screens->session().seek(600 * practice::kStepsPerSecond);
    s.key(Key::B);
    REQUIRE(records().size() == 1);
    CHECK(files::read_record(records().front()).branch_of == "an unrecorded attempt at 10:00");
}

TEST_CASE("an attempt that was broken off is gone on with from the shelf") {
    if (!shelf_display()) return;
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
    if (!shelf_display()) return;
    using Key = sf::Keyboard::Key;
    for (const auto& [w, h, text] :
         {std::tuple(1280u, 800u, 1.0), std::tuple(1024u, 700u, 1.0), std::tuple(1920u, 1080u, 1.0),
          std::tuple(2560u, 1440u, 1.0), std::tuple(1280u, 800u, 1.5), std::tuple(1280u, 800u, 2.0),
          std::tuple(1024u, 700u, 1.5), std::tuple(1024u, 700u, 2.0)}) {
        Sitting s(w, h, text);
        s.until_read();
        const std::string size = fmt::format("{}x{} text {}", w, h, text);
        const auto look = [&](const char* what) {
            const auto all = s.screens->targets();
            CHECK_FALSE(all.empty());
            for (std::size_t i = 0; i < all.size(); ++i) {
                INFO(what << " " << size << ": " << all[i].name);
                if (all[i].out_of_sight) continue;
                CHECK(all[i].r.x >= -0.5);
                CHECK(all[i].r.y >= -0.5);
                CHECK(all[i].r.right() <= s.screens->layout().w + 0.5);
                CHECK(all[i].r.bottom() <= s.screens->layout().h + 0.5);
                for (std::size_t k = 0; k < i; ++k) {
                    INFO("and " << all[k].name);
                    const Rect &a = all[i].r, &b = all[k].r;
                    if (all[k].out_of_sight) continue;
                    CHECK((a.x >= b.right() - 1 || b.x >= a.right() - 1 || a.y >= b.bottom() - 1 ||
                           b.y >= a.bottom() - 1));
                }
            }
            std::set<std::string> reached;
            for (std::size_t i = 0; i < all.size(); ++i) {
                s.key(Key::Tab);
                reached.insert(s.screens->hands().focus);
                // What was scrolled away comes into sight with the focus.
                for (const Target& t : s.screens->targets()) {
                    INFO(what << " " << size << ": " << t.name);
                    CHECK((t.name != s.screens->hands().focus || !t.out_of_sight));
                }
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

TEST_CASE(
    "the job card warns of a gas that sinks where one flows, and a shelf lesson tells what to look for once it is "
    "ended") {
    if (!shelf_display()) return;
    using Key = sf::Keyboard::Key;
    Sitting s;
    s.until_read();
    for (const auto& [id, sinks] : {std::pair("propane-conversion", true), std::pair("yearly-check", false)}) {
        const auto& all = s.screens->plan().lessons;
        const auto at = std::find_if(all.begin(), all.end(), [id = id](const auto& l) { return l.id == id; });
        REQUIRE(at != all.end());
        s.screens->shelf().chosen = static_cast<std::size_t>(at - all.begin());
        s.key(Key::Enter);
        REQUIRE(s.screens->front() == Front::job_card);
        CHECK((s.texts().find("Gas that sinks") != std::string::npos) == sinks);
        s.key(Key::Escape);
        s.until_read();
    }
    for (const auto& [id, told] : {std::pair("out-at-night", false), std::pair("yearly-check", true)}) {
        const auto& all = s.screens->plan().lessons;
        s.screens->shelf().chosen = static_cast<std::size_t>(
            std::find_if(all.begin(), all.end(), [id = id](const auto& l) { return l.id == id; }) - all.begin());
        CHECK((s.texts().find("said once you have ended it") == std::string::npos) == told);
    }
}
