// A sealed assessment made in the window: what is asked, drawing in the background, sealing, and what stands in the
// way.
#include "sim/school/pack_seat.hpp"
#include "tests/window/sitting.hpp"
#include "ui/window/pack_maker.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

school::Roster three() {
    school::Roster r;
    for (const char* name : {"Ana", "Ben", "Carla"}) r.pupils.push_back({name, name, "", school::kNoHome});
    return r;
}

std::unique_ptr<PackMaker> maker(const test::Scratch& folder) {
    return std::make_unique<PackMaker>(std::make_shared<files::DiskLibrary>(test::source_path("scenarios")), three(),
                                       school::new_key_pair(), PackPlace{folder.file("p.pack"), folder.file("my.key")});
}

std::size_t number_of(const PackMaker& m, const std::string& id) {
    for (std::size_t i = 0; i < m.lessons().size(); ++i)
        if (m.lessons()[i].id == id) return i;
    FAIL("no lesson " << id);
    return 0;
}

void until_drawn(PackMaker& m) {
    for (int i = 0; i < 12000 && !m.ready(); ++i) std::this_thread::sleep_for(5ms);
    REQUIRE_FALSE(m.drawing());
}

}  // namespace

TEST_CASE("a pack is drawn from what is asked, sealed once, and played with its words") {
    const test::Scratch folder;
    const auto made = maker(folder);
    PackMaker& m = *made;
    CHECK(m.seal() == "There has to be a job for everybody first: D draws.");
    CHECK(m.draw() == "Choose what is asked first: one lesson or several.");
    m.ask(number_of(m, "out-at-night"));
    m.type(PackField::title, "Final");
    m.type(PackField::minutes, "45");
    CHECK(m.draw().empty());
    CHECK(m.seal() == "It is still being drawn.");
    until_drawn(m);
    REQUIRE(m.enough());
    for (const school::DrawnJob& j : m.drawn().jobs) {
        CHECK(j.lesson.scenario.id == "out-at-night");
        CHECK(j.trial.marks.passed);
    }
    CHECK(m.seal().empty());
    REQUIRE(m.sealed());
    // Nothing of it moves any more.
    const std::string words = m.words();
    m.ask(0);
    m.type(PackField::title, "Other");
    CHECK_FALSE(m.lessons()[0].asked);
    CHECK(m.typed(PackField::title) == "Final");
    CHECK_FALSE(m.draw().empty());
    CHECK_FALSE(m.seal().empty());
    CHECK(m.words() == words);
    std::string reason;
    const auto pack = school::read_pack(folder.file("p.pack"), reason);
    REQUIRE(pack);
    CHECK(pack->terms.title == "Final");
    CHECK(pack->terms.minutes == 45);
    const auto open = school::open_pack(*pack, words);
    REQUIRE(open);
    for (std::size_t i = 0; i < 3; ++i) {
        const auto job = open->job_of(m.roster().pupils[i].identity);
        REQUIRE(job.value);
        CHECK(job.value->seed == m.drawn().jobs[i].seed);
    }
    // The key remembers it: sealed records are held against their pack.
    const auto keys = school::read_key_file(folder.file("my.key"), reason);
    REQUIRE(keys);
    CHECK(keys->packs.size() == 1);
}

TEST_CASE("another lesson chosen takes away what was drawn before, also while it is being drawn") {
    const test::Scratch folder;
    const auto made = maker(folder);
    PackMaker& m = *made;
    m.ask(number_of(m, "out-at-night"));
    REQUIRE(m.draw().empty());
    until_drawn(m);
    REQUIRE(m.enough());
    m.ask(number_of(m, "yearly-check"));
    CHECK_FALSE(m.enough());
    CHECK_FALSE(m.seal().empty());
    REQUIRE(m.draw().empty());
    m.ask(number_of(m, "yearly-check"));  // stops it
    CHECK_FALSE(m.drawing());
    CHECK(m.drawn().jobs.empty());
}

TEST_CASE("terms that cannot hold stand beside their field and keep a pack from being sealed") {
    const test::Scratch folder;
    const auto made = maker(folder);
    PackMaker& m = *made;
    for (const char* good : {"", "1", "720"}) {
        m.type(PackField::minutes, good);
        CHECK(m.problem(PackField::minutes).empty());
    }
    for (const char* bad : {"0", "721", "45.5", "abc", "-3", " 7", "1e2"}) {
        m.type(PackField::minutes, bad);
        CHECK(m.problem(PackField::minutes) == "has to be a whole number, 1 to 720");
    }
    m.type(PackField::closes, "2020-01-01 10:00");
    CHECK(m.problem(PackField::closes) == "has to lie in the future");
    m.type(PackField::opens, "2090-05-01 10:00");
    m.type(PackField::closes, "2090-05-01 10:00");
    CHECK(m.problem(PackField::closes) == "has to come after it opens");
    m.type(PackField::closes, "2090-05-01 10:01");
    CHECK(m.problem(PackField::closes).empty());
    m.type(PackField::opens, "tomorrow");
    CHECK(m.problem(PackField::opens).find("2026-12-03 09:00") != std::string::npos);
    m.ask(number_of(m, "out-at-night"));
    REQUIRE(m.draw().empty());
    until_drawn(m);
    CHECK(m.seal() == "Not before opening, closing and time are right.");
    CHECK_FALSE(std::filesystem::exists(folder.file("p.pack")));
}

TEST_CASE("what cannot be written leaves nothing sealed: no words are shown") {
    const test::Scratch folder;
    PackMaker m(std::make_shared<files::DiskLibrary>(test::source_path("scenarios")), three(), school::new_key_pair(),
                {folder.file("none/p.pack"), folder.file("my.key")});
    m.ask(number_of(m, "out-at-night"));
    REQUIRE(m.draw().empty());
    until_drawn(m);
    CHECK_FALSE(m.seal().empty());
    CHECK_FALSE(m.sealed());
    CHECK(m.words().empty());
    CHECK_FALSE(std::filesystem::exists(folder.file("my.key")));
    // Once there is room it goes, and the key remembers one pack.
    std::filesystem::create_directory(folder.file("none"));
    CHECK(m.seal().empty());
    CHECK(m.sealed());
    std::string reason;
    const auto keys = school::read_key_file(folder.file("my.key"), reason);
    REQUIRE(keys);
    CHECK(keys->packs.size() == 1);
}

TEST_CASE("neither another pack nor what another program put into the key file is lost by sealing") {
    const test::Scratch folder;
    const school::KeyPair keys = school::new_key_pair();
    const auto library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
    const auto drawn = [&](const char* out, const school::KeyPair& with) {
        auto m =
            std::make_unique<PackMaker>(library, three(), with, PackPlace{folder.file(out), folder.file("my.key")});
        m->ask(number_of(*m, "out-at-night"));
        REQUIRE(m->draw().empty());
        until_drawn(*m);
        return m;
    };
    const auto one = drawn("one.pack", keys);
    const auto two = drawn("two.pack", keys);
    const auto same = drawn("one.pack", keys);
    const auto other = drawn("three.pack", school::new_key_pair());
    REQUIRE(one->seal().empty());
    REQUIRE(two->seal().empty());
    std::string reason;
    CHECK(school::read_key_file(folder.file("my.key"), reason)->packs.size() == 2);
    // A pack has come to stand in the same place meanwhile; another key in the key's.
    const std::string before = test::Scratch::read(folder.file("one.pack"));
    const std::string key = test::Scratch::read(folder.file("my.key"));
    CHECK(same->seal().find("is a pack already") != std::string::npos);
    CHECK(other->seal().find("another key") != std::string::npos);
    CHECK(test::Scratch::read(folder.file("one.pack")) == before);
    CHECK(test::Scratch::read(folder.file("my.key")) == key);
    CHECK_FALSE(std::filesystem::exists(folder.file("three.pack")));
    CHECK(school::open_pack(*school::read_pack(folder.file("one.pack"), reason), one->words()));
}

TEST_CASE("a lesson of one's own is asked by its path, and what is none is said") {
    const test::Scratch folder;
    const auto m = maker(folder);
    const std::size_t shipped = m->lessons().size();
    CHECK(m->add(folder.file("none.toml")).find("none.toml") != std::string::npos);
    CHECK(m->lessons().size() == shipped);
    const std::string mine =
        folder.write("mine.toml", test::Scratch::read(test::source_path("scenarios/lessons/out-at-night.toml")));
    CHECK(m->add(mine).empty());
    CHECK(m->lessons().front().asked);
    REQUIRE(m->draw().empty());
    until_drawn(*m);
    CHECK(m->enough());
    CHECK(m->drawn().warnings.size() <= 1);  // not that it is given to nobody
}

TEST_CASE("a pack is made with keys alone, its answers covered, and its words are not lost by one key") {
    if (!shelf_display()) return;
    using Key = sf::Keyboard::Key;
    const test::Scratch folder;
    Sitting s;
    Start start;
    start.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
    start.pack_maker = maker(folder);
    s.screens = std::make_unique<Screens>(std::move(start), s.fonts);
    s.screens->resize(1280, 800);
    s.draw();
    REQUIRE(s.screens->front() == Front::pack);
    s.click("field Title");
    s.type("Final 7");
    s.key(Key::D);  // a letter of the title, not the command
    CHECK_FALSE(s.screens->pack_maker()->drawing());
    s.key(Key::Enter);
    CHECK(s.screens->pack_maker()->typed(PackField::title) == "Final 7");
    // Something else clicked is no letter any more.
    s.click("field Minutes");
    CHECK(s.screens->packing().typing == PackField::minutes);
    s.click("seal");
    CHECK_FALSE(s.screens->packing().typing);
    // A blank on a field opens nothing: it would be typed.
    while (s.screens->hands().focus != "field Minutes") s.key(Key::Tab);
    s.key(Key::Space);
    CHECK_FALSE(s.screens->packing().typing);
    while (s.screens->hands().focus != "ask out-at-night") s.key(Key::Tab);
    s.key(Key::Space);
    s.key(Key::D);
    for (int i = 0; i < 12000 && s.screens->pack_maker()->drawing(); ++i) {
        std::this_thread::sleep_for(5ms);
        s.draw();
    }
    REQUIRE(s.screens->pack_maker()->enough());
    CHECK(s.texts().find("vent blocked") == std::string::npos);
    s.key(Key::C);
    CHECK(s.texts().find("vent blocked") != std::string::npos);
    s.key(Key::F9);
    const std::string words = s.screens->pack_maker()->words();
    REQUIRE_FALSE(words.empty());
    CHECK(s.texts().find(words.substr(0, words.find(' '))) != std::string::npos);
    // By Esc, its button or the window's own: it is asked once, and anything else done asks again.
    s.key(Key::Escape);
    CHECK(s.texts().find("Written down?") != std::string::npos);
    s.click("cover");
    CHECK_FALSE(s.screens->may_close());
    CHECK_FALSE(s.screens->wants_to_close());
    s.key(Key::C);
    s.click("leave");
    CHECK_FALSE(s.screens->wants_to_close());
    s.key(Key::Escape);
    CHECK(s.screens->wants_to_close());
}
