// The command line's contract: exit codes and where messages go.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <sys/stat.h>
#include <sys/wait.h>

#include "sim/files/problem.hpp"
#include "tests/support/program.hpp"

using namespace quarterturn;
using test::Ran;
using test::run;

namespace {

std::string shipped(const std::string& name) { return test::source_path("scenarios/" + name + ".toml"); }

std::string line(const std::string& text, std::size_t n) {
    std::istringstream in(text);
    std::string l;
    for (std::size_t i = 0; i <= n; ++i) std::getline(in, l);
    return l;
}

}  // namespace

TEST_CASE("flue prints the contract's columns") {
    const Ran r = run("flue --gas natural --air-ratio 1.2:1.4:0.1 --csv");
    CHECK(r.code == 0);
    CHECK(
        line(r.out, 0) ==
        "air_ratio,o2_dry_pct,co2_dry_pct,co_ppm_dry,co_air_free_ppm,h2_ppm_dry,h2o_wet_pct,flame_temp_k,dew_point_c");
    CHECK(line(r.out, 3).find("1.4000,") == 0);
    CHECK(r.err.empty());
}

TEST_CASE("where the flame is out CO is empty and stderr says why") {
    const Ran r =
        run("flue --gas CH4=1 --air-ratio 1.9 --heat-loss 0.3 --flame-ms 10 --cooling-ms 10 --perfect-mixing --csv");
    CHECK(r.code == 0);
    CHECK(r.err.find("the flame is out at air ratio 1.900") != std::string::npos);
    CHECK(line(r.out, 1).find(",,,") != std::string::npos);
}

// Source: Cantera 3.0.1, GRI-Mech 3.0, full mechanism (burnout.csv), 12 species for 53: within 15 %, and both gases
// burn.
TEST_CASE("flue with everything given is the bare stirred zone and cooling") {
    const auto co = [](const std::string& gas, const std::string& air_ratio, const std::string& rest) {
        const Ran r = run("flue --gas \"" + gas + "\" --air-ratio " + air_ratio + " --perfect-mixing --csv " + rest);
        INFO(r.err);
        REQUIRE(r.code == 0);
        std::istringstream cells(line(r.out, 1));
        std::string cell;
        for (int i = 0; i < 4; ++i) std::getline(cells, cell, ',');
        REQUIRE_FALSE(cell.empty());
        return std::stod(cell);
    };
    const std::string ng = "CH4=0.945,C2H6=0.030,C3H8=0.005,N2=0.010,CO2=0.010";
    int compared = 0;
    for (const auto& row : test::read_csv(test::reference("burnout.csv"))) {
        const double air_ratio = std::stod(row.at("lambda"));
        const bool wanted = (air_ratio > 1.18 && air_ratio < 1.22) || (air_ratio > 1.48 && air_ratio < 1.52);
        if (!wanted || row.at("f") != "0.1" || row.at("tb_ms") != "3" || row.at("exit_CO_dry_ppm").empty()) continue;
        const double ours = co(row.at("fuel") == "NG" ? ng : "C3H8=1", row.at("lambda"),
                               "--heat-loss 0.1 --flame-ms 3 --cooling-ms " + row.at("tau_ms"));
        INFO(row.at("fuel") << " " << row.at("lambda") << " tau " << row.at("tau_ms"));
        CHECK_THAT(ours, Catch::Matchers::WithinRel(std::stod(row.at("exit_CO_dry_ppm")), 0.15));
        ++compared;
    }
    CHECK(compared >= 16);
}

TEST_CASE("a flame that is out burns nothing: steady leaves its gas, its input and its flue empty") {
    const Ran r = run("steady --appliance practice-38 --gas natural --fire low --throttle -2.5");
    CHECK(r.code == 0);
    for (const char* empty : {"co2_dry_pct", "gas_kw_hhv", "flue_temp_c", "efficiency_pct", "shown_co_ppm"}) {
        INFO(empty);
        const auto at = r.out.find(std::string("\n") + empty + " ");
        REQUIRE(at != std::string::npos);
        const auto end = r.out.find('\n', at + 1);
        CHECK(r.out.substr(at + 1, end - at - 1).substr(20).find_first_not_of(' ') == std::string::npos);
    }
    CHECK(r.out.find("flame                  out") != std::string::npos);
    CHECK(r.out.find("meter_m3_h             0.0000") != std::string::npos);
}

TEST_CASE("gas and steady print the contract's columns") {
    CHECK(line(run("gas --gas propane --csv").out, 0) ==
          "hhv_mj_m3,lhv_mj_m3,relative_density,wobbe_mj_m3,air_m3_m3,co2max_pct");
    const Ran r =
        run("steady --appliance practice-38 --gas natural --fire low --throttle +0.25 --offset -0.125 --fault "
            "supply_low=0.5 --site altitude_m=1500 --csv");
    CHECK(r.code == 0);
    CHECK(line(r.out, 0).find("air_ratio,o2_dry_pct,co2_dry_pct,co_ppm_dry,co_air_free_ppm,h2_ppm_dry,h2o_wet_pct,"
                              "flame_temp_k,dew_point_c,gas_kw_hhv,air_kg_h,venturi_pa,"
                              "gas_outlet_pa,supply_working_pa,flue_temp_c,efficiency_pct,flame") == 0);
}

TEST_CASE("wrong usage is 2, a no is 1, and both are said in one line") {
    const auto check = [](const std::string& arguments, int code, const std::string& part) {
        const Ran r = run(arguments);
        INFO(arguments << " -> " << r.err);
        CHECK(r.code == code);
        CHECK(r.err.find(part) != std::string::npos);
        CHECK(r.out.empty());
    };
    check("dance", 2, "is not a command");
    check("flue --gas natural", 2, "--air-ratio is missing");
    check("flue --gas natural --air-ratio 9", 2, "allowed 0.8 to 2.5");
    check("flue --gas natural --air-ratio x", 2, "write A or A:B:STEP");
    check("flue --gas CH4=0.4 --air-ratio 1.3", 1, "must sum to 1");
    check("flue --gas N2=1 --air-ratio 1.3", 1, "cannot burn");
    check("flue --gas no-such-gas --air-ratio 1.3", 1, "shipped: high-inert, hydrogen-blend");
    check("flue --gas natural --air-ratio 1.3 --heat-loss 7", 2, "allowed 0 to 0.6");
    check("steady --appliance practice-38 --gas natural --fire sideways", 2, "allowed high, low");
    check("steady --appliance practice-38 --gas natural --fire high --fault gremlins", 2, "known: supply_low");
    check("steady --appliance practice-38 --gas natural --fire high --fault supply_low=2", 2, "must be 0 to 1");
    check("steady --appliance practice-38 --gas natural --fire high --site altitude_m=9999", 2, "allowed -400 to 4000");
    check("steady --appliance practice-38 --gas natural --fire high --throttle 99", 2, "allowed -2.5 to 3");
    check("run new-gas-valve", 2, "--actions is missing");
    check("run new-gas-valve --actions /nonexistent", 1, "cannot be read");
    check("flue --gas natural --air-ratio 1.3 --pressure-pa 20000", 2, "allowed 30000 to 120000");
    check("expert nothing-here", 1, "shipped: a-little-high, a-sheet-in-the-wind");
    check("expert new-gas-valve --seed -1", 2, "whole numbers");
    check("debrief /nonexistent", 1, "cannot be read");
    check("open --bogus", 2, "usage: quarterturn open");
    check("open new-gas-valve --seed x", 2, "whole numbers");
    check("steady --appliance practice-38 --gas natural --fire high --orifice kit", 2, "allowed natural, propane");
    check("gas --gas natural --units metric", 2, "allowed si, us");
    check("flue --gas natural --air-ratio 1.3 --pressure-pa 1", 2, "allowed 30000 to 120000");
}

TEST_CASE("figures outside what the model was checked against come with their doubt") {
    const auto doubt = [](const std::string& arguments) {
        const Ran r = run(arguments);
        INFO(arguments);
        CHECK(r.code == 0);
        CHECK_FALSE(r.out.empty());
        return r.err;
    };
    const auto has = [](const std::string& text, const char* part) { return text.find(part) != std::string::npos; };
    CHECK(has(doubt("flue --gas H2=0.5,CH4=0.5 --air-ratio 1.3"), "in doubt: more than 30 % of hydrogen"));
    CHECK(has(doubt("flue --gas natural --air-ratio 1.3 --pressure-pa 69000"), "in doubt: below 70000 Pa"));
    CHECK(has(doubt("flue --gas natural --air-ratio 0.84"), "in doubt: air ratio below 0.85"));
    CHECK(
        has(doubt("flue --gas natural --air-ratio 1.1 --heat-loss 0.37 --flame-ms 500"), "in doubt: heat loss above"));
    CHECK(has(doubt("flue --gas C3H8=0.8,C3H6=0.2 --air-ratio 1.3"), "in doubt: more than 10 % of propylene"));
    CHECK(has(doubt("flue --gas CH4=0.75,N2=0.25 --air-ratio 1.1"), "in doubt: more than 20 % of inert gas"));
    CHECK(has(doubt("steady --appliance practice-38 --gas natural --fire high --site altitude_m=3200"), "70000 Pa"));
    // Just inside nothing is said.
    CHECK(doubt("flue --gas H2=0.3,CH4=0.7 --air-ratio 1.3").empty());
    CHECK(doubt("flue --gas natural --air-ratio 0.86 --pressure-pa 71000").empty());
    CHECK(doubt("steady --appliance practice-38 --gas natural --fire high --site altitude_m=2900").empty());
}

TEST_CASE("no display is said in one line with exit 3") {
    const Ran r = run("open", "env -u DISPLAY");
    CHECK(r.code == 3);
    CHECK(std::count(r.err.begin(), r.err.end(), '\n') == 1);
    CHECK(r.err.find(
              "These commands need none: lessons, expert, run, resume, branch, debrief, marks, pack, compare, assess, "
              "forget, check, steady, "
              "flue, gas") != std::string::npos);
    const Ran dead = run("", "env DISPLAY=:987");
    CHECK(dead.code == 3);
}

TEST_CASE("a lesson can be played, recorded and explained from the command line") {
    const test::Scratch folder;
    const Ran e = run("expert new-gas-valve --seed 3 --record " + folder.file("e.jsonl"));
    CHECK(e.code == 0);
    CHECK(e.out.find("passed") != std::string::npos);
    const Ran d = run("debrief " + folder.file("e.jsonl") + " --html " + folder.file("d.html") + " --csv " +
                      folder.file("t.csv"));
    CHECK(d.code == 0);
    CHECK(d.err.empty());
    CHECK(test::Scratch::read(folder.file("d.html")).find("<svg") != std::string::npos);
    CHECK(line(test::Scratch::read(folder.file("t.csv")), 0).find("time_s,fire,shown_co2_pct") == 0);
    folder.write("list.txt",
                 "0 analyzer on\n+1 gas open\n+0 power on\n+0 water 12\n+5 turn throttle left 1/4\n+1 leave\n");
    const Ran r = run("run new-gas-valve --actions " + folder.file("list.txt") + " --record " + folder.file("r.jsonl"));
    CHECK(r.code == 1);
    CHECK(r.err.find("'turn throttle left 1/4' cannot be done: the throttle screw is under its cap") !=
          std::string::npos);
    CHECK(r.out.find("failed") != std::string::npos);
    CHECK(run("debrief " + folder.file("r.jsonl")).code == 1);
    CHECK(run("check " + test::source_path("scenarios/lessons/new-gas-valve.toml") + " " +
              test::source_path("scenarios/gases/natural.toml"))
              .code == 0);
    folder.write("bad.toml", "schema = 1\nkind = \"gas\"\nname = \"x\"\n");
    const Ran bad = run("check " + folder.file("bad.toml"));
    CHECK(bad.code == 1);
    CHECK(bad.err.find("bad.toml:1:1: mole_fraction is missing") != std::string::npos);
}

TEST_CASE("check plays a lesson with the seeds asked for, names who else passes and what is never met") {
    const test::Scratch folder;
    const std::string first = test::Scratch::read(test::source_path("scenarios/lessons/yearly-check.toml"));
    const Ran plain = run("check yearly-check --seeds 3-5");
    CHECK(plain.code == 0);
    CHECK(plain.out.find("at seeds 3 to 5") != std::string::npos);
    CHECK(plain.err.empty());
    // It comes when everybody has gone.
    folder.write("late.toml", first + "\n[[fault]]\nname = \"wind\"\nseverity = 0.5\nstart_s = 9000\n");
    const Ran late = run("check " + folder.file("late.toml") + " --seeds 2");
    CHECK(late.code == 0);
    CHECK(late.err.find("note: wind was drawn, and nothing the expert saw or read ever showed it") !=
          std::string::npos);
    // A fault that calls to stop, and the lesson says that it is to serve.
    folder.write("wrong.toml",
                 first + "\n[[fault]]\nname = \"vent_blocked\"\nseverity = 0.6\n\n[answer]\noutcome = \"serve\"\n");
    const Ran wrong = run("check " + folder.file("wrong.toml") + " --seeds 1-7");
    CHECK(wrong.code == 1);
    CHECK(wrong.err.find("with seed 1, seed 2") != std::string::npos);
    CHECK(wrong.err.find("the expert fails with 9 variants of 9") != std::string::npos);
    for (const char* bad : {"x", "5-3", "-2", "1-", "1-20000", "1.5"}) {
        INFO(bad);
        const Ran r = run(std::string("check yearly-check --seeds=") + bad);
        CHECK(r.code == 2);
        CHECK(r.err.find("is not one seed or two with a dash between") != std::string::npos);
    }
}

TEST_CASE("docs/commands.md is what the program prints today") {
    const Ran r = run("commands");
    CHECK(r.code == 0);
    CHECK(r.out == test::Scratch::read(test::source_path("docs/commands.md")));
}

TEST_CASE("units change what is read and nothing of files and CSV") {
    const Ran si = run("steady --appliance practice-38 --gas natural --csv --units si");
    const Ran us = run("steady --appliance practice-38 --gas natural --csv --units us");
    CHECK(si.code == us.code);
    CHECK(si.out == us.out);
    CHECK(run("lessons --units metric").code == 2);
    CHECK(run("lessons --units metric").err.find("allowed si, us") != std::string::npos);
}

TEST_CASE("a record is never written over an input, and an edited one that is gone on with does not count") {
    const test::Scratch folder;
    const std::string list = folder.write("list.txt", "0 smell\n");
    const Ran r = run("run yearly-check --actions " + list + " --record " + list + " --force");
    CHECK(r.code == 1);
    CHECK(r.err.find("is an input or another output") != std::string::npos);
    CHECK(test::Scratch::read(list) == "0 smell\n");
    // A job well done, its last line and the check of another one changed: it would pass, and must not count.
    const std::string record = folder.file("r.jsonl");
    CHECK(run("expert yearly-check --record " + record).code == 0);
    const std::string whole = test::Scratch::read(record);
    const auto leave = whole.find("{\"do\":\"leave\"");
    REQUIRE(leave != std::string::npos);
    const std::string open = whole.substr(0, leave);
    const std::string more = folder.write("more.txt", "7200 leave\n");
    folder.write("r.jsonl", open);
    const Ran fair = run("resume " + record + " --actions " + more);
    CHECK(fair.code == 0);
    std::string edited = open;
    const auto check = edited.find("\"check\":\"", edited.find('\n')) + 9;
    edited[check] = edited[check] == '0' ? '1' : '0';
    folder.write("r.jsonl", edited);
    const Ran on = run("resume " + record + " --actions " + more);
    CHECK(on.out.find("passed") != std::string::npos);
    CHECK(on.code == 1);
    CHECK(on.out.find("edited") != std::string::npos);
}

TEST_CASE("a record is never written over what the lesson is made of, through a link, or into a pipe") {
    const test::Scratch folder;
    const std::string own = folder.write("own.toml", test::Scratch::read(shipped("lessons/yearly-check")));
    CHECK(run("expert " + own + " --record " + own + " --force").err.find("is an input or another output") !=
          std::string::npos);
    // What a lesson names is an input as well, under whatever name it is reached.
    const std::string box = folder.write("box.toml", test::Scratch::read(shipped("appliances/practice-38")));
    const std::string before = test::Scratch::read(box);
    std::string lesson = test::Scratch::read(own);
    lesson.replace(lesson.find("\"practice-48\""), 13, "\"box.toml\"");
    const std::string with_box = folder.write("with_box.toml", lesson);
    const Ran named = run("expert " + with_box + " --force --record " + folder.file("./box.toml"));
    CHECK(named.code == 1);
    CHECK(named.err.find("is an input or another output") != std::string::npos);
    CHECK(test::Scratch::read(box) == before);

    const std::string kept = folder.write("kept.txt", "mine");
    const std::string link = folder.file("link.jsonl");
    std::filesystem::create_symlink(kept, link);
    const Ran not_followed = run("expert yearly-check --record " + link);
    CHECK(not_followed.code == 1);
    CHECK(not_followed.err.find("is a link: it is not followed (--force replaces it)") != std::string::npos);
    CHECK(run("expert yearly-check --force --record " + link).code == 0);
    CHECK(test::Scratch::read(kept) == "mine");
    CHECK(std::filesystem::is_regular_file(std::filesystem::symlink_status(link)));

    const std::string pipe = folder.file("pipe");
    REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
    for (const char* force : {"", " --force"})
        CHECK(run("expert yearly-check --record " + pipe + force, "timeout 60").err.find("is a pipe") !=
              std::string::npos);
    const Ran full = run("expert yearly-check --force --record /dev/full");
    CHECK(full.code == 3);
    CHECK(full.err.find("/dev/full:1:1: cannot be written: No space left on device") != std::string::npos);
    const Ran nowhere = run("expert yearly-check --record " + folder.file("no/where.jsonl"));
    CHECK(nowhere.code == 3);
    CHECK(nowhere.err.find("cannot be written: No such file or directory") != std::string::npos);
}

TEST_CASE("a disk that is full at the start leaves no empty record behind") {
    const test::Scratch folder;
    const std::string path = folder.file("r.jsonl");
    // The system's limit on a file's size stands in for the disk.
    const Ran r = run("expert yearly-check --record " + path, "trap '' XFSZ; ulimit -f 1;");
    CHECK(r.code == 3);
    CHECK(r.err.find("cannot be written: ") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(path));
}

TEST_CASE("what comes from outside cannot work the terminal, nor fill it") {
    const test::Scratch folder;
    const std::string list = folder.write("list.txt", "0 look \x1b[2J\x07\n");
    const Ran r = run("run yearly-check --actions " + list);
    CHECK(r.code == 1);
    CHECK(r.err.find('\x1b') == std::string::npos);
    CHECK(r.err.find("\\x1b[2J\\x07") != std::string::npos);
    const Ran command = run("$(printf 'a\\033[2Jb')");
    CHECK(command.err.find("'a\\x1b[2Jb' is not a command") != std::string::npos);
    const Ran longest = run("expert yearly-check --seed " + std::string(5000, '7'));
    CHECK(longest.code == 2);
    CHECK(longest.err.size() < 300);
    CHECK(longest.err.find("777... (5000 bytes in all)', allowed whole numbers from 0") != std::string::npos);
    // A cut never splits a character, and the other control characters of Unicode are none either.
    CHECK(files::printable("aa\xc3\xa9", 3) == "aa\xc3\xa9");
    CHECK(files::printable("aa\xc3\xa9z", 3) == "aa\xc3\xa9... (5 bytes in all)");
    CHECK(files::printable("\xc2\x9b"
                           "1m") == "\\x9b1m");
}

TEST_CASE("an option that takes one value is given once, and a moment is MM:SS") {
    const Ran twice = run("expert yearly-check --seed 1 --seed 2");
    CHECK(twice.code == 2);
    CHECK(twice.err.find("--seed is given more than once") != std::string::npos);
    CHECK(run("steady --appliance practice-38 --gas natural --fire high --fault vent_blocked=0.1 --fault draw_low")
              .code == 0);
    CHECK(run("--version now").code == 2);
    const Ran moment = run("branch r.jsonl --at 5:5 --record b.jsonl");
    CHECK(moment.code == 2);
    CHECK(moment.err.find("--at is '5:5', write MM:SS or seconds") != std::string::npos);
}

TEST_CASE("another kind of file is one line, and a file the system cannot read says why") {
    const test::Scratch folder;
    const std::string gas = folder.write("gas.toml", test::Scratch::read(shipped("gases/natural")));
    const Ran r = run("expert " + gas);
    CHECK(r.code == 1);
    CHECK(r.err.find("kind is 'gas', expected 'lesson'\n1 problem. Nothing was started.") != std::string::npos);
    const Ran memory = run("debrief /proc/self/mem");
    CHECK(memory.code == 1);
    CHECK(memory.err == "/proc/self/mem:1:1: cannot be read: Input/output error\n");
}

TEST_CASE("a sealed assessment is not begun where something for it is missing or stands in its place") {
    const test::Scratch folder;
    const std::string roster = folder.write("r.csv", "pupil,name\np01,Ana\n");
    const std::string nobody = folder.write("n.csv", "pupil,name\n");
    const std::string there = folder.write("p.pack", "mine");
    const std::string key = " --key " + folder.file("my.key");
    const auto seal = [&](const std::string& out, const std::string& more) {
        return run("open --seal " + out + more, "env -u DISPLAY");
    };
    CHECK(seal(folder.file("new"), key).code == 2);
    CHECK(seal(folder.file("new"), " --roster " + roster).code == 2);
    const Ran taken = seal(there, key + " --roster " + roster);
    CHECK(taken.code == 2);
    CHECK(taken.err.find("p.pack") != std::string::npos);
    CHECK(test::Scratch::read(there) == "mine");
    CHECK(seal(roster, key + " --roster " + roster).code == 2);
    CHECK(seal(folder.file("new"), key + " --roster " + roster + " --seed 3").code == 2);
    CHECK(seal(folder.file("new"), key + " --roster " + roster + " no-such-lesson").code == 1);
    // A pupil named twice: nobody is left without a job.
    const std::string twice = folder.write("t.csv", "pupil\np01\np02\np02\n");
    const Ran doubles = seal(folder.file("new"), key + " --roster " + twice);
    CHECK(doubles.code == 1);
    CHECK(doubles.err.find("t.csv:4") != std::string::npos);
    const Ran empty = seal(folder.file("new"), key + " --roster " + nobody);
    CHECK(empty.code == 1);
    CHECK(empty.err.find("has no pupils") != std::string::npos);
    // All is right but the display.
    CHECK(seal(folder.file("new"), key + " --roster " + roster).code == 3);
    CHECK_FALSE(std::filesystem::exists(folder.file("new")));
    CHECK_FALSE(std::filesystem::exists(folder.file("my.key")));
}
