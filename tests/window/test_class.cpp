// A class at one station: signing in, attempts of each apart, the job of a pack from its words to its handing in.
#include "tests/window/class_room.hpp"

using namespace quarterturn;
using namespace quarterturn::window;
using Key = sf::Keyboard::Key;

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
    CHECK(room.screens->front() == Front::job_card);               // no what-if
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
