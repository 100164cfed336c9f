// A class at one station: signing in, attempts of each apart, the job of a pack from its words to its handing in.
#include <filesystem>

#include "sim/school/read_class.hpp"
#include "tests/window/sitting.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

namespace {

struct ClassRoom : Sitting {
    school::KeyPair keys = school::new_key_pair();
    std::optional<school::Pack> pack;

    school::Roster roster() const {
        school::Roster r;
        r.read = true;
        r.pupils = {{"p01", "Åsa Lind", "", school::kNoHome},
                    {"p02", "Otto Berg", "", school::kNoHome},
                    {"p11", "Ottilie Kern", "", school::kNoHome}};
        return r;
    }
    void sit(bool with_pack) {
        Start s;
        s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        s.roster = roster();
        s.records = scratch.file("records");
        if (with_pack) s.pack = pack;
        screens = std::make_unique<Screens>(std::move(s), fonts);
        screens->resize(1280, 800);
        draw();
    }
    void seal(const school::PackTerms& terms) {
        std::vector<school::PackJob> jobs;
        for (const char* who : {"p01", "p02"})
            jobs.push_back({who, *files::load_scenario(test::shipped(), "new-gas-valve", 5).value, 5});
        std::string reason;
        const auto made = school::seal_pack(terms, jobs, "acorn amber", keys.public_half);
        keys.packs.push_back(made.kept);
        pack = school::read_pack(scratch.write("p.pack", made.text), reason);
        REQUIRE(pack);
    }
    std::vector<school::ClassRow> rows(bool with_key) {
        files::Problems none;
        return school::read_class(school::records_in({scratch.file("records")}, none), {},
                                  {with_key ? &keys : nullptr, nullptr});
    }
};

}  // namespace

TEST_CASE("the list follows what is typed: number, name, identity, and nobody is chosen by default") {
    const auto pupil = [](const char* id, const char* name) { return school::Pupil{id, name, "", school::kNoHome}; };
    school::Roster r;
    r.pupils = {pupil("p01", "Åsa Lind"), pupil("p02", "Otto Berg"), pupil("p11", "Ottilie Kern")};
    SignIn s = sign_in_of(r, nullptr);
    CHECK_FALSE(s.is_chosen);
    CHECK_FALSE(s.ready());
    const auto typed = [&s](const char* text) {
        s.typed.clear();
        s.is_chosen = false;
        for (const char* c = text; *c; ++c) type_in(s, static_cast<unsigned char>(*c));
        return s.is_chosen ? s.pupils[s.chosen].identity : std::string("nobody");
    };
    CHECK(typed("3") == "p11");
    CHECK(typed("4") == "nobody");
    CHECK(typed("ott") == "p02");
    CHECK(typed("otti") == "p11");
    CHECK(typed("KERN") == "p11");
    CHECK(typed("p01") == "p01");
    CHECK(typed("x") == "nobody");
    s.typed.clear();
    type_in(s, 0xc5);  // Å
    CHECK(s.typed == "Å");
    CHECK(s.pupils[s.chosen].identity == "p01");
    type_in(s, 8);
    CHECK(s.typed.empty());
    CHECK_FALSE(s.is_chosen);
    move_in(s, 1);
    CHECK(s.pupils[s.chosen].identity == "p01");
    move_in(s, 1);
    CHECK(s.pupils[s.chosen].identity == "p02");
    move_in(s, 5);
    CHECK(s.pupils[s.chosen].identity == "p11");
    // Of a pack those it has a job for, with the roster's names where it knows them.
    school::PackTerms t;
    t.pupils = {"p11", "p77"};
    SignIn of = sign_in_of(r, &t);
    REQUIRE(of.pupils.size() == 2);
    CHECK(of.pupils[0].name == "Ottilie Kern");
    CHECK(of.pupils[1].name == "p77");
    move_in(of, 1);
    CHECK_FALSE(of.ready());
    of.field = SignInField::words;
    type_in(of, 'a');
    CHECK(of.ready());
    CHECK(of.typed.empty());
}

TEST_CASE("pupils sign in at one station, and the attempts of each are kept and shown apart") {
    if (!shelf_display()) return;
    ClassRoom room;
    room.sit(false);
    REQUIRE(room.screens->front() == Front::sign_in);
    room.key(Key::Enter);  // nobody chosen
    CHECK(room.screens->front() == Front::sign_in);
    CHECK(room.screens->signing_in().message.find("Choose") != std::string::npos);
    room.type("otto");
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::shelf);
    room.until_read();
    room.click("lesson yearly-check");
    room.key(Key::Enter);
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::bench);
    REQUIRE(room.screens->session().act(practice::act(Verb::leave)));
    room.draw();
    REQUIRE(room.screens->front() == Front::marks);
    room.key(Key::Escape);
    room.until_read();
    CHECK(room.screens->plan().lessons.size() > 30);
    int tried = 0;
    for (const auto& l : room.screens->plan().lessons) tried += l.attempts;
    CHECK(tried == 1);
    room.click("quit");  // signs out
    REQUIRE(room.screens->front() == Front::sign_in);
    room.click("pupil p01");
    room.click("begin");
    room.until_read();
    tried = 0;
    for (const auto& l : room.screens->plan().lessons) tried += l.attempts;
    CHECK(tried == 0);
    const auto rows = room.rows(false);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].pupil == "p02");
    CHECK_FALSE(rows[0].started.empty());
    // The folder is gone: the attempt is kept in one's own place, and that is said.
    std::filesystem::remove_all(room.scratch.file("records"));
    room.scratch.write("records", "a file stands where the folder was");
    room.click("lesson yearly-check");
    room.key(Key::Enter);
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::bench);
    CHECK(room.screens->session().message().find("is kept in") != std::string::npos);
    CHECK(std::filesystem::exists(room.screens->session().record_path()));
}

TEST_CASE("the job of a pack: its words, no hints, no marks, gone on with, handed in once") {
    if (!shelf_display()) return;
    ClassRoom room;
    room.seal({"", "Final", 1, 0, 0, 12, {}});
    room.sit(true);
    room.type("1");
    room.key(Key::Enter);  // to the words
    room.type("acorn apple");
    room.key(Key::Enter);
    CHECK(room.screens->front() == Front::sign_in);
    CHECK(room.screens->signing_in().message.find("do not open") != std::string::npos);
    for (int i = 0; i < 5; ++i) {
        sf::Event e;
        e.type = sf::Event::TextEntered;
        e.text.unicode = 8;
        room.screens->handle(e);
    }
    room.type("amber");
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::job_card);
    room.key(Key::V);
    CHECK(room.screens->front() == Front::job_card);  // no what-if
    CHECK(room.texts().find("Set a screw") == std::string::npos);  // and no aim, which would tell what to look for
    CHECK(room.texts().find("\nAim\n") == std::string::npos);
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::bench);
    CHECK_FALSE(room.screens->session().papers().coached);
    room.key(Key::H);
    CHECK(room.screens->session().hint().empty());
    CHECK(room.screens->session().attempt().history().events.empty());
    REQUIRE(room.screens->session().act(practice::set(Verb::gas, true)));
    for (int i = 0; i < 100; ++i) room.screens->advance(50ms);
    CHECK(room.screens->session().notice().empty());
    // Ten minutes before the end it is said, and fast time slows.
    room.screens->session().set_speed(20);
    for (int i = 0; i < 200 && room.screens->session().speed() > 1; ++i) room.screens->advance(50ms);
    CHECK(room.screens->session().notice().find("10 min") != std::string::npos);
    CHECK(*room.screens->session().time_left_s() <= 600);
    CHECK(*room.screens->session().time_left_s() > 590);
    // The station goes dark; another sitting goes on.
    const auto step = room.screens->session().seen().step;
    room.sit(true);
    room.type("p01");
    room.key(Key::Enter);
    room.type("acorn amber");
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::bench);
    CHECK(room.screens->session().seen().gas_open);
    CHECK(room.screens->session().seen().step > step - 60);
    REQUIRE(room.screens->session().act(practice::act(Verb::leave)));
    room.draw();
    REQUIRE(room.screens->front() == Front::handed_in);
    CHECK_FALSE(room.has("look back"));
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::sign_in);
    room.type("p01");
    room.key(Key::Enter);
    room.type("acorn amber");
    room.key(Key::Enter);
    CHECK(room.screens->front() == Front::sign_in);
    CHECK(room.screens->signing_in().message.find("handed in already") != std::string::npos);
    CHECK_FALSE(room.rows(false).front().marked);
    const auto open = room.rows(true);
    REQUIRE(open.size() == 1);
    CHECK(open[0].marked);
    CHECK(open[0].ended);
    CHECK(open[0].pupil == "p01");
    CHECK(open[0].seed == 5);
}

TEST_CASE("the time of a pack's job ends it as it stands, and a pack that has closed is not opened") {
    if (!shelf_display()) return;
    ClassRoom room;
    room.seal({"", "Final", 1, 0, 0, 1, {}});
    room.sit(true);
    room.type("2");
    room.key(Key::Enter);
    room.type("acorn amber");
    room.key(Key::Enter);
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::bench);
    // What is left stands beside the clock, from the first moment.
    CHECK(room.texts().find("1:00 left") != std::string::npos);
    CHECK(room.screens->session().time_left_s() == Approx(60).margin(1));
    room.screens->session().set_speed(20);
    for (int i = 0; i < 400 && room.screens->front() == Front::bench; ++i) {
        room.screens->session().set_speed(20);
        room.screens->advance(50ms);
    }
    REQUIRE(room.screens->front() == Front::handed_in);
    const auto rows = room.rows(true);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].minutes == Approx(1));
    CHECK_FALSE(rows[0].ended);
    CHECK(rows[0].doubt == "its time was over: marked as it stood");
    CHECK(rows[0].time_over);
    room.seal({"", "Final", 1, 0, 1000, 0, {}});
    room.sit(true);
    CHECK(room.screens->signing_in().message.find("closed at") != std::string::npos);
    room.type("1");
    room.key(Key::Enter);
    room.type("acorn amber");
    room.key(Key::Enter);
    CHECK(room.screens->front() == Front::sign_in);
}

TEST_CASE("cells of the class book by hand: a copy is doubtful, a broken one damaged, the last or first if asked") {
    const auto row = [](const char* record, double points, bool passed) {
        school::ClassRow r;
        r.pupil = "p1";
        r.lesson = "x";
        r.record = record;
        r.marked = r.ended = true;
        r.points = points;
        r.of = 100;
        r.passed = passed;
        return r;
    };
    std::vector<school::ClassRow> rows{row("a", 90, true)};
    rows[0].attempt = 1;
    CHECK(report::ClassBook(rows, {}).cell("p1", "x", Which::best).state == CellState::passed);
    for (bool school::ClassRow::*doubt : {&school::ClassRow::copied, &school::ClassRow::edited,
                                          &school::ClassRow::branched, &school::ClassRow::foreign}) {
        rows[0].*doubt = true;
        CHECK(report::ClassBook(rows, {}).cell("p1", "x", Which::best).state == CellState::doubtful);
        rows[0].*doubt = false;
    }
    rows[0].ended = false;
    CHECK(report::ClassBook(rows, {}).cell("p1", "x", Which::best).state == CellState::broken_off);
    rows[0].marked = false;
    rows.push_back(row("z", 50, false));  // the lesson is one, and the pupil is on the roster
    rows[1].pupil = "p2";
    school::Roster roster;
    roster.pupils = {{"p1", "Asa", "", school::kNoHome}};
    CHECK(report::ClassBook(rows, roster).cell("p1", "x", Which::best).state == CellState::damaged);
    rows = {row("a", 50, false), row("b", 90, true), row("c", 60, false)};
    for (int i = 0; i < 3; ++i) rows[static_cast<std::size_t>(i)].attempt = i + 1;
    const report::ClassBook b(rows, {});
    CHECK(b.cell("p1", "x", Which::first).shown->points == 50);
    CHECK(b.cell("p1", "x", Which::best).shown->points == 90);
    CHECK(b.cell("p1", "x", Which::last).shown->points == 60);
    CHECK(b.cell("p1", "x", Which::best).attempts.size() == 3);
}

TEST_CASE("the class book: cells by shape, a debrief at one click, a damaged record stops nothing, written out") {
    if (!shelf_display()) return;
    ClassRoom room;
    std::filesystem::create_directories(room.scratch.file("records"));
    const auto played = [&](const char* file, const char* lesson, const char* pupil, const procedure::Manners& how) {
        const LoadedScenario l = test::lesson(lesson);
        files::NoRecord none;
        auto w = RecordWriter::create(room.scratch.file(std::string("records/") + file), l, 1, none,
                                      {{}, {}, false, pupil, files::local_time_now()});
        REQUIRE(w);
        Attempt a(l.scenario, 1);
        test::play_recorded(a, *w, how);
    };
    played("a.jsonl", "out-at-night", "p01", procedure::kExpert);
    played("b.jsonl", "out-at-night", "p02", procedure::kBlind);
    played("c.jsonl", "yearly-check", "p01", procedure::kHasty);
    room.scratch.write("records/d.jsonl", "{\"quarterturn_record\": 9}");
    Start s;
    s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
    s.roster = room.roster();
    s.book = room.scratch.file("records");
    room.screens = std::make_unique<Screens>(std::move(s), room.fonts);
    room.screens->resize(1280, 800);
    for (int i = 0; i < 4000 && room.screens->book_view().reading; ++i) {
        std::this_thread::sleep_for(5ms);
        room.draw();
    }
    const report::ClassBook& b = room.screens->book();
    REQUIRE(b.rows().size() == 4);
    REQUIRE(b.columns() == std::vector<std::string>{"out-at-night", "yearly-check"});
    CHECK(b.pupils().front() == "p01");
    CHECK(b.pupils().back().empty());  // the damaged one is nobody's
    CHECK(b.cell("p01", "out-at-night", Which::best).state == CellState::passed);
    CHECK(b.cell("p02", "out-at-night", Which::best).state == CellState::tried);
    CHECK(b.cell("p02", "yearly-check", Which::best).state == CellState::none);
    CHECK(b.passed_of("out-at-night") == std::pair(1, 2));
    CHECK_FALSE(b.wrong_in("out-at-night").empty());
    CHECK(b.to_look_at().size() == 1);
    room.draw();
    CHECK(room.texts().find("d.jsonl") != std::string::npos);  // what says no lesson goes by its file
    room.key(Key::Down);
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::marks);
    room.key(Key::L);
    CHECK(room.screens->session().look_back());
    room.key(Key::Escape);
    room.key(Key::Escape);
    REQUIRE(room.screens->front() == Front::class_book);
    for (int i = 0; i < 200 && room.screens->hands().focus != "look 0"; ++i) room.key(Key::Tab);
    for (const auto& t : room.screens->targets())
        if (t.name == "look 0") CHECK_FALSE(t.out_of_sight);  // it comes into sight as one goes there
    room.key(Key::Enter);  // cannot be replayed, and says so
    CHECK(room.screens->front() == Front::class_book);
    CHECK(room.screens->book_view().message.find("format 9") != std::string::npos);
    room.key(Key::Num1);
    room.key(Key::Num2);
    room.key(Key::Num3);
    for (const char* file : {"data/quarterturn/class/mark-book.csv", "data/quarterturn/class/learning-records.json",
                             "data/quarterturn/class/pages/index.html"})
        CHECK(std::filesystem::exists(room.scratch.file(file)));
    // Nothing of somebody else's is written over.
    room.scratch.write("data/quarterturn/class/mark-book.csv", "mine");
    room.key(Key::Num1);
    CHECK(test::Scratch::read(room.scratch.file("data/quarterturn/class/mark-book.csv")) == "mine");
    room.key(Key::Escape);
    CHECK(room.screens->wants_to_close());
}

TEST_CASE("in the class book: a group alone, one attempt of several, two side by side, an assessor's word") {
    if (!shelf_display()) return;
    ClassRoom room;
    std::filesystem::create_directories(room.scratch.file("records"));
    const LoadedScenario lesson = test::lesson("out-at-night");
    const auto played = [&](const char* file, const char* pupil, std::uint64_t seed, const char* started,
                            const procedure::Manners& how) {
        files::NoRecord none;
        auto w = RecordWriter::create(room.scratch.file(std::string("records/") + file), lesson, seed, none,
                                      {{}, {}, false, pupil, started});
        REQUIRE(w);
        Attempt a(lesson.scenario, seed);
        test::play_recorded(a, *w, how);
    };
    played("a.jsonl", "p01", 1, "2026-03-01T09:30:00+01:00", procedure::kBlind);
    played("b.jsonl", "p01", 1, "2026-03-01T10:30:00+01:00", procedure::kExpert);
    played("c.jsonl", "p02", 2, "2026-03-01T09:30:00+01:00", procedure::kHasty);
    Start s;
    s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
    s.roster = room.roster();
    s.roster->pupils[0].group = "A";
    s.roster->pupils[1].group = "B";
    s.book = room.scratch.file("records");
    room.screens = std::make_unique<Screens>(std::move(s), room.fonts);
    room.screens->resize(1280, 800);
    for (int i = 0; i < 4000 && room.screens->book_view().reading; ++i) {
        std::this_thread::sleep_for(5ms);
        room.draw();
    }
    const auto chosen = [&] {
        const auto* r = chosen_row(room.screens->book(), room.screens->book_view());
        return r ? std::filesystem::path(r->record).filename().string() : std::string("none");
    };
    CHECK(chosen() == "b.jsonl");  // the best
    room.key(Key::A);
    CHECK(chosen() == "a.jsonl");
    room.key(Key::Enter);
    REQUIRE(room.screens->front() == Front::marks);
    CHECK_FALSE(room.screens->session().attempt().history().events.empty());
    // Whose it is is said, and nobody tries it again from here.
    CHECK(room.texts().find("Åsa Lind, attempt 1, 2026-03-01 09:30") != std::string::npos);
    CHECK_FALSE(room.has("again"));
    room.key(Key::T);
    CHECK(room.screens->front() == Front::marks);
    room.key(Key::Escape);
    CHECK(chosen() == "a.jsonl");  // still, when one comes back
    // Kept, and compared with the other one.
    room.key(Key::C);
    CHECK(room.screens->book_view().message.find("Kept") != std::string::npos);
    room.key(Key::A);
    CHECK(chosen() == "b.jsonl");
    room.key(Key::C);
    REQUIRE(room.screens->front() == Front::bench);
    REQUIRE(room.screens->session().look_back());
    CHECK(room.screens->session().look_back()->other_record);
    CHECK(room.has("swap"));
    room.key(Key::Escape);
    room.key(Key::Escape);
    REQUIRE(room.screens->front() == Front::class_book);
    // Not of one seed: said, and nothing is opened.
    room.key(Key::C);
    room.key(Key::Down);
    CHECK(chosen() == "c.jsonl");
    room.key(Key::C);
    CHECK(room.screens->front() == Front::class_book);
    CHECK(room.screens->book_view().message.find("not of the same lesson and seed") != std::string::npos);
    // An assessor's word: nobody's is refused, the name and the remark are typed, what counts is chosen.
    CHECK(room.screens->book().passed_by("p02") == 0);
    room.key(Key::F2);
    REQUIRE(room.screens->book_view().assessing);
    room.key(Key::Enter);
    CHECK(room.screens->book_view().message.find("Who assesses") != std::string::npos);
    room.type("T. Teacher");
    room.key(Key::Tab);
    room.type("Explained it well. G");  // letters are typed, and press nothing
    CHECK(room.screens->book_view().group.empty());
    room.key(Key::Down);
    room.key(Key::Enter);
    REQUIRE_FALSE(room.screens->book_view().assessing);
    CHECK(room.screens->book().passed_by("p02") == 1);
    const school::Assessed kept = school::row_of(room.scratch.file("records/c.jsonl")).assessed;
    CHECK(kept.by == "T. Teacher");
    CHECK(kept.remark == "Explained it well. G");
    CHECK(kept.verdict == "passed");
    CHECK(room.texts().find("T. Teacher counts it as passed. Explained it well. G") != std::string::npos);
    // Esc leaves it as it was; the next one begins with the same name.
    room.key(Key::Up);
    room.key(Key::F2);
    REQUIRE(room.screens->book_view().assessing);
    CHECK(room.screens->book_view().assessing->by == "T. Teacher");
    CHECK(room.screens->book_view().assessing->remark.empty());
    room.click("verdict not passed");
    room.key(Key::Escape);
    CHECK_FALSE(room.screens->book_view().assessing);
    CHECK(room.screens->book().passed_by("p01") == 1);
    CHECK_FALSE(std::filesystem::exists(room.scratch.file("records/b.jsonl.assessed.json")));
    // Group by group, and round to the whole class.
    room.key(Key::G);
    CHECK(room.screens->book().group() == "A");
    CHECK(room.screens->book().pupils() == std::vector<std::string>{"p01"});
    room.key(Key::G);
    CHECK(room.screens->book().pupils() == std::vector<std::string>{"p02"});
    CHECK(room.screens->book().passed_by("p02") == 1);
    room.key(Key::G);
    CHECK(room.screens->book().pupils().size() == 3);
    // Written out it is the whole class, whatever group is shown.
    room.key(Key::G);
    room.key(Key::Num1);
    CHECK(test::Scratch::read(room.scratch.file("data/quarterturn/class/mark-book.csv")).find(",p02,") !=
          std::string::npos);
}
