// The class book in the window: cells, attempts, groups, two side by side, an assessor's word, what is written out.
#include "tests/window/class_room.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

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
    room.key(Key::Enter);                                     // cannot be replayed, and says so
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
    // It is of the attempt it was begun on: no other is chosen meanwhile, and the form is not begun anew.
    room.type("T. Teacher");
    room.click("cell p01 out-at-night");
    CHECK(chosen() == "c.jsonl");
    room.click("assess");
    CHECK(room.screens->book_view().assessing->by == "T. Teacher");
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
    // What an assessor said before is opened again, to be changed.
    room.key(Key::Down);
    room.key(Key::F2);
    CHECK(room.screens->book_view().assessing->remark == "Explained it well. G");
    CHECK(room.screens->book_view().assessing->verdict == "passed");
    room.key(Key::Escape);
    // A record that is kept is let go of before the book is left.
    room.key(Key::C);
    CHECK_FALSE(room.screens->book_view().kept.empty());
    room.key(Key::Escape);
    CHECK(room.screens->book_view().kept.empty());
    CHECK_FALSE(room.screens->wants_to_close());
    // At large text the form comes into sight, below the table though it lies.
    room.screens->set_text_scale(2);
    room.draw();
    room.key(Key::F2);
    bool in_sight = false;
    for (const auto& t : room.screens->targets())
        if (t.name == "field remark") in_sight = !t.out_of_sight;
    CHECK(in_sight);
    room.key(Key::Escape);
    room.screens->set_text_scale(1);
    room.draw();
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
