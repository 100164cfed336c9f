// The roster: read as table programs write it, addresses, formulas, a pupil forgotten.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <fstream>

#include "sim/school/csv.hpp"
#include "sim/school/roster.hpp"
#include "tests/support/files.hpp"

using namespace quarterturn;
using test::has;

TEST_CASE("a roster is read as table programs write it, and each bad line is said and left out") {
    const test::Scratch folder;
    const std::string path = folder.write("roster.csv",
                                          "\xEF\xBB\xBFPupil;Name;Group\r\n"
                                          "p01;\"Lind, Åsa\";A\r\n"
                                          "p02;=cmd|' /C calc'!A0;A\r\n"
                                          "\r\n"
                                          "p01;Somebody;B\r\n"
                                          "../p03;Climber;B\r\n"
                                          ";Nobody;B\r\n"
                                          "p04;\"Ψ \"\"the\"\" two\r\nlines\"\r\n"
                                          "p05\r\n");
    const school::Roster r = school::read_roster(path);
    REQUIRE(r.read);
    REQUIRE(r.pupils.size() == 4);
    CHECK(r.name_of("p01") == "Lind, Åsa");
    CHECK(r.name_of("p02") == "=cmd|' /C calc'!A0");
    CHECK(r.name_of("p04") == "Ψ \"the\" two\r\nlines");
    CHECK(r.name_of("p05") == "p05");
    CHECK(r.find("p04")->group.empty());
    CHECK(r.find("p04")->home_page == school::kNoHome);
    REQUIRE(r.problems.size() == 3);
    CHECK(r.problems[0].text() == path + ":5:1: 'p01' stands on line 2 already");
    CHECK(has(r.problems[1].text(), ":6:1: '../p03' is no identity"));
    CHECK(has(r.problems[2].text(), ":7:1: has no pupil"));
    const auto says = [&](const std::string& text, const std::string& words) {
        const school::Roster bad = school::read_roster(folder.write("bad.csv", text));
        CHECK_FALSE(bad.read);
        REQUIRE_FALSE(bad.problems.empty());
        INFO(bad.problems[0].text());
        CHECK(has(bad.problems[0].text(), words));
    };
    says("name,group\nA,B\n", "names no column pupil");
    says("", "the table is empty");
    says("pupil,name\np01,\"open\n", "bad.csv:2:1: a quote is opened here and never closed");
    says(std::string("pupil,name\np01,\xff\n"), "UTF-8");
    CHECK_FALSE(school::read_roster(folder.file("nowhere.csv")).read);
    CHECK_FALSE(school::is_identity(std::string(65, 'a')));
    CHECK(school::is_identity(std::string(64, 'a')));
}

TEST_CASE("an account's home page is an address, or the line is left out") {
    const test::Scratch folder;
    for (const char* bad : {"://", "x://<>", "college.example", "https://", "https://a b", "javascript:alert(1)"}) {
        const auto r = school::read_roster(folder.write("r.csv", std::string("pupil,home_page\np1,") + bad + "\n"));
        INFO(bad);
        CHECK(r.pupils.empty());
        CHECK(r.problems.size() == 1);
    }
    CHECK(school::read_roster(folder.write("r.csv", "pupil,home_page\rp1,https://college.example/x?y=1\r"))
              .pupils.size() == 1);
}

TEST_CASE("no cell begins as a formula, for those either who split at semicolons") {
    CHECK(school::harmless("=1+1") == "'=1+1");
    CHECK(school::harmless("a;=1+1") == "a;'=1+1");
    CHECK(school::harmless("a; @x") == "a; '@x");
    CHECK(school::harmless("-5") == "'-5");
    CHECK(school::harmless("a=b") == "a=b");
    CHECK(school::harmless("bell\x07 and \xff") == "bell\\x07 and \\xff");
    CHECK(school::harmless("Åsa\nLind") == "Åsa Lind");
}

TEST_CASE("a pupil is forgotten by one line, and every other byte stays") {
    const test::Scratch folder;
    const std::string path =
        folder.write("roster.csv", "pupil,name\r\np01,\"Two\r\nlines\"\r\np02,Åsa\r\np03,=1+1\r\n");
    CHECK(school::forget(path, "p01").empty());
    CHECK(test::Scratch::read(path) == "pupil,name\r\np02,Åsa\r\np03,=1+1\r\n");
    CHECK(school::forget(path, "p03").empty());
    CHECK(test::Scratch::read(path) == "pupil,name\r\np02,Åsa\r\n");
    // By a link to it the roster itself, with the rights it has.
    std::filesystem::permissions(path, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
    std::filesystem::create_symlink(path, folder.file("link.csv"));
    folder.write("two.csv", "pupil\np09\n");
    CHECK(school::forget(folder.file("link.csv"), "p02").empty());
    CHECK(test::Scratch::read(path) == "pupil,name\r\n");
    CHECK(std::filesystem::is_symlink(folder.file("link.csv")));
    CHECK(std::filesystem::status(path).permissions() ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
    folder.write("roster.csv", "pupil,name\r\np02,Åsa\r\n");
    CHECK(has(school::forget(path, "p03"), "has no pupil 'p03'"));
    const std::string named = folder.write("named.csv", "pupil,name\np07,Mia Holm\n");
    CHECK(has(school::forget(named, "Mia Holm"), "p07 has that name"));
    CHECK(has(test::Scratch::read(named), "Mia Holm"));
    CHECK(test::Scratch::read(path) == "pupil,name\r\np02,Åsa\r\n");
}

TEST_CASE("a column that is nearly one that is missing is said, and every column is held to its length") {
    const test::Scratch folder;
    const auto read = [&](const std::string& text) { return school::read_roster(folder.write("r.csv", text)); };
    auto r = read("pupil,nmae,gruop\np1,Asa,A\n");
    REQUIRE(r.problems.size() == 2);
    CHECK(has(r.problems[0].text(), "r.csv:1:1: column 'nmae' is not known (did you mean name?)"));
    CHECK(has(r.problems[1].text(), "did you mean group?"));
    CHECK(r.pupils.size() == 1);
    // What is there is not asked for again, and other columns are nobody's business.
    CHECK(read("pupil,name,names,e-mail,age\np1,Asa,x,y,17\n").problems.empty());
    CHECK(read("pupil,age,note\np1,17,x\n").problems.empty());
    CHECK(has(read("pupils,name\np1,Asa\n").problems[0].text(), "did you mean pupil?"));
    for (const KeyAbout& k : all_keys()) {
        if (k.file != FileKind::roster || k.key == "pupil") continue;
        INFO(k.key);
        const std::string fill = k.key == "home_page" ? "https://a.example/" : "";
        const auto most = static_cast<std::size_t>(k.high);
        const std::string head = "pupil," + std::string(k.key) + "\np1,";
        CHECK(read(head + fill + std::string(most - fill.size(), 'x') + "\n").problems.empty());
        r = read(head + fill + std::string(most - fill.size() + 1, 'x') + "\n");
        REQUIRE(r.problems.size() == 1);
        CHECK(has(r.problems[0].message, std::string(k.key) + " is longer than"));
    }
    CHECK(school::groups_of(read("pupil,group\np1,B\np2,\np3,A\np4,B\n")) == std::vector<std::string>{"A", "B"});
}

TEST_CASE("a pupil is forgotten where lines end in CR alone, and what cannot be told apart is not said to be gone") {
    const test::Scratch folder;
    const std::string path = folder.write("cr.csv", "pupil,name\rp01,Asa Lind\rp02,Otto Berg\r");
    bool not_written = true;
    CHECK(school::forget(path, "p02", &not_written).empty());
    CHECK_FALSE(not_written);
    CHECK(test::Scratch::read(path) == "pupil,name\rp01,Asa Lind\r");
    CHECK_FALSE(school::forget(path, "p02", &not_written).empty());
    CHECK_FALSE(not_written);
}
