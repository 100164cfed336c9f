// Sealed packs: what opens them, what does not, what can be seen from outside, and what is drawn.
#include "tests/support/catch.hpp"
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sys/stat.h>

#include "sim/files/keys.hpp"
#include "sim/files/toml_reader.hpp"
#include "sim/school/draw_jobs.hpp"
#include "sim/school/hand_out.hpp"
#include "sim/school/pack_seat.hpp"
#include "sim/school/read_class.hpp"
#include "sim/school/word_list.hpp"
#include "tests/support/sealed_pack.hpp"

using namespace quarterturn;
using test::has;
using namespace quarterturn::school;
using test::Sealed;

TEST_CASE("words open a pack however they are typed, and no other words do") {
    const Sealed s;
    const Pack p = s.read();
    CHECK(p.terms.pupils == std::vector<std::string>{"p01", "p02"});
    CHECK(p.terms.minutes == 45);
    CHECK(p.terms.title == "Final");
    for (const char* typed : {"acorn amber anchor apple april", "  ACORN amber-anchor  Apple APRIL\n"}) {
        const auto open = open_pack(p, typed);
        REQUIRE(open);
        const auto first = open->job_of("p01");
        const auto second = open->job_of("p02");
        REQUIRE(first.value);
        REQUIRE(second.value);
        CHECK(first.value->lesson.scenario.id == "any-morning");
        CHECK(second.value->seed == 41);
        CHECK_FALSE(second.value->lesson.scenario.coached);
        CHECK_FALSE(open->job_of("p03").value);
    }
    for (const char* typed : {"", "acorn amber anchor apple", "acorn amber anchor apple autumn"})
        CHECK_FALSE(open_pack(p, typed));
}

TEST_CASE("nothing of a pack can be read, and nothing in it be changed, without the words") {
    const Sealed s;
    const std::string text = test::Scratch::read(s.path);
    for (const char* told : {"any-morning", "out-at-night", "vent_blocked", "natural", "practice-", "toml", "seed"})
        CHECK_FALSE(has(text, told));
    auto j = nlohmann::ordered_json::parse(text);
    const std::string box = *from_base64(j.at("sealed").get<std::string>());
    for (const char* told : {"any-morning", "vent", "jobs"}) CHECK_FALSE(has(box, told));
    const auto changed = [&](const char* key, const nlohmann::ordered_json& value) {
        auto other = j;
        other[key] = value;
        std::ofstream(s.path, std::ios::binary) << other.dump();
        std::string reason;
        const auto p = read_pack(s.path, reason);
        return p && open_pack(*p, s.words).has_value();
    };
    CHECK(changed("title", "Final"));  // written anew, and the same
    CHECK_FALSE(changed("title", "final"));
    CHECK_FALSE(changed("opens", 5));
    CHECK_FALSE(changed("closes", 5));
    CHECK_FALSE(changed("minutes", 0));
    CHECK_FALSE(changed("pupils", {"p01"}));
    CHECK_FALSE(changed("instructor", base64(std::string(32, 'x'))));
    std::string bent = box;
    bent[100] = static_cast<char>(bent[100] ^ 1);
    CHECK_FALSE(changed("sealed", base64(bent)));
    // Two packs of the same are told apart by nothing but chance, and are as long whatever is in them.
    const Sealed other({"yearly-check", "smell-of-gas"});
    CHECK(test::Scratch::read(other.path).size() == text.size());
    CHECK(test::Scratch::read(Sealed().path) != text);
}

TEST_CASE("what is no pack, or a damaged one, is said") {
    const Sealed s;
    std::string reason;
    const auto says = [&](const std::string& text, const std::string& words) {
        std::ofstream(s.path, std::ios::binary) << text;
        CHECK_FALSE(read_pack(s.path, reason));
        INFO(reason);
        CHECK(has(reason, words));
    };
    const std::string good = test::Scratch::read(s.path);
    says("", "is no assessment pack");
    says("[]", "is no assessment pack");
    says("{\"quarterturn_pack\": 2}", "another format");
    says("{\"quarterturn_pack\": 1}", "was damaged");
    says(good.substr(0, good.size() / 2), "is no assessment pack");
    CHECK_FALSE(read_pack(s.folder.file("nowhere"), reason));
    CHECK(has(reason, "no such file"));
}

TEST_CASE("a pack opens and closes by the clock, and a clock set back does not open it") {
    PackTerms t;
    t.made = 1'000'000;
    t.opens = 1'001'000;
    t.closes = 1'002'000;
    CHECK(time_of(t, 1'000'999) == PackTime::too_early);
    CHECK(time_of(t, 1'001'000) == PackTime::open);
    CHECK(time_of(t, 1'001'999) == PackTime::open);
    CHECK(time_of(t, 1'002'000) == PackTime::too_late);
    CHECK(time_of(t, 999'300) == PackTime::clock_is_wrong);
    CHECK(time_of(t, 999'500) == PackTime::too_early);  // clocks of one room differ by minutes
    CHECK(has(words::say(*closed_because(t, 999'300)), "set it right"));
    CHECK(has(words::say(*closed_because(t, 1'002'000)), "closed at"));
    CHECK(has(words::say(*closed_because(t, 1'000'999)), "opens at"));
    CHECK_FALSE(closed_because(t, 1'001'500));
    t.opens = t.closes = 0;
    CHECK(time_of(t, 9'000'000'000) == PackTime::open);
}

TEST_CASE("a key file is its owner's alone, is never written over, and what is none is said") {
    const test::Scratch folder;
    const KeyPair k = new_key_pair();
    const std::string path = folder.file("my.key");
    REQUIRE(write_key_file(path, k).empty());
    struct stat st {};
    REQUIRE(stat(path.c_str(), &st) == 0);
    CHECK((st.st_mode & 0777) == 0600);
    CHECK_FALSE(write_key_file(path, new_key_pair()).empty());
    std::string reason;
    const auto back = read_key_file(path, reason);
    REQUIRE(back);
    CHECK(back->secret_half == k.secret_half);
    CHECK(back->public_half == k.public_half);
    // With the packs that were sealed since, in the same place and for its owner alone.
    KeyPair more = k;
    more.packs.push_back({"ab12", "Autumn", k.secret_half, {{"p01", "any-morning", 77}}});
    REQUIRE(write_key_file(path, more, true).empty());
    REQUIRE(stat(path.c_str(), &st) == 0);
    CHECK((st.st_mode & 0777) == 0600);
    const auto again = read_key_file(path, reason);
    REQUIRE(again);
    REQUIRE(again->pack("ab12"));
    CHECK(again->pack("ab12")->jobs.front().seed == 77);
    CHECK(again->pack("ab12")->title == "Autumn");
    CHECK(again->pack("cd") == nullptr);
    for (const char* text : {"", "{}", "{\"quarterturn_key\":1}", "{\"quarterturn_key\":1,\"secret\":\"AAAA\"}"}) {
        CHECK_FALSE(read_key_file(folder.write("bad", text), reason));
        CHECK(has(reason, "no key file"));
    }
    CHECK(std::set<std::string_view>(kWordList.begin(), kWordList.end()).size() == 256);
    std::set<std::string> drawn;
    for (int i = 0; i < 50; ++i) drawn.insert(new_words());
    CHECK(drawn.size() == 50);
    CHECK(std::count(drawn.begin()->begin(), drawn.begin()->end(), ' ') == 4);
    CHECK(*from_base64(base64(std::string("\0a\xff", 3))) == std::string("\0a\xff", 3));
    CHECK_FALSE(from_base64("no base64!"));
}

TEST_CASE("jobs that are drawn are passed by the expert, ask the same, take about as long, and neighbours differ") {
    std::uint64_t seed = 1000;
    const auto load = [](const std::string& name, std::uint64_t s) {
        return files::load_scenario(test::shipped(), name, s);
    };
    const auto drawn = draw_jobs({"any-morning"}, 12, load, [&] { return ++seed; });
    REQUIRE(drawn.problems.empty());
    REQUIRE(drawn.jobs.size() == 12);
    CHECK(drawn.tried >= 12);
    CHECK(drawn.fit >= 12);
    double least = 1e9, most = 0;
    std::set<std::uint64_t> seeds;
    for (std::size_t i = 0; i < drawn.jobs.size(); ++i) {
        const DrawnJob& j = drawn.jobs[i];
        CHECK(j.trial.marks.passed);
        CHECK(j.trial.stop == drawn.jobs[0].trial.stop);
        CHECK(j.trial.marks.exercised == drawn.jobs[0].trial.marks.exercised);
        least = std::min(least, j.trial.minutes);
        most = std::max(most, j.trial.minutes);
        CHECK(seeds.insert(j.seed).second);
        if (i > 0)
            CHECK(
                (j.trial.there != drawn.jobs[i - 1].trial.there || j.needs_screw() != drawn.jobs[i - 1].needs_screw()));
    }
    CHECK(most / least <= kAlike_high / kAlike_low);
    // A lesson that asks something else is given to nobody, and that is said.
    const auto mixed = draw_jobs({"any-morning", "smell-of-gas"}, 4, load, [&] { return ++seed; });
    for (const DrawnJob& j : mixed.jobs) CHECK(j.trial.stop == mixed.jobs[0].trial.stop);
    bool told = false;
    for (const school::Told& w : mixed.warnings) told |= w.what == Saying::given_to_nobody;
    CHECK(told);
    CHECK_FALSE(draw_jobs({"nowhere"}, 2, load, [&] { return ++seed; }).problems.empty());
}

TEST_CASE(
    "a pack from the command line: drawn, played once a pupil, marked with the key, shut to every other command") {
    using test::run;
    const test::Scratch folder;
    const std::string roster = folder.write("roster.csv", "pupil,name\np01,One\np02,Two\n");
    const std::string out = folder.file("a.pack");
    const std::string key = folder.file("my.key");
    const std::string all = "pack any-morning --pupils " + roster + " --out " + out + " --key " + key;
    CHECK(run(all + " --closes yesterday").code == 2);
    CHECK(run(all + " --closes '2026-02-31 10:00'").code == 2);
    CHECK(has(run(all + " --closes '2020-01-01 10:00'").err,
              "--closes is '2020-01-01 10:00', and has to lie in the future"));
    CHECK(has(run(all + " --opens '2090-01-01 10:00' --closes '2089-01-01T10:00Z'").err, "has to come after it opens"));
    CHECK(run(all + " --minutes 0").code == 2);
    CHECK(run("pack any-morning --pupils " + roster + " --out " + roster + " --key " + key).code == 2);
    CHECK_FALSE(std::filesystem::exists(out));
    const auto made = run(all + " --minutes 30 --title 'The final'");
    INFO(made.out << made.err);
    REQUIRE(made.code == 0);
    const auto at = made.out.find("nowhere else: ");
    REQUIRE(at != std::string::npos);
    const std::string words = made.out.substr(at + 14, made.out.find('\n', at) - at - 14);
    CHECK(has(made.out, "One"));
    // As it is played.
    const std::string list = folder.write("list.txt", "1 gas open\n+5 hint\n+3000 leave\n");
    std::filesystem::create_directories(folder.file("records"));
    const std::string play = "run --pack " + out + " --records " + folder.file("records") + " --actions " + list;
    CHECK(run(play + " --pupil p01").code == 2);
    CHECK(has(run(play + " --pupil p01 --words 'acorn acorn acorn acorn acorn'").err, "do not open"));
    const auto played = run(play + " --pupil p01 --words '" + words + "'");
    INFO(played.out << played.err);
    CHECK(played.code == 0);
    CHECK(has(played.err, "'hint' cannot be done"));
    CHECK(has(played.err, "comes when the time for the job is over"));
    CHECK(run(all).code == 2);  // not over a pack that is there
    CHECK(run(all + " --minutes 4.5 --force").code == 2);
    CHECK_FALSE(has(played.out, "points"));
    CHECK(has(run(play + " --pupil p01 --words '" + words + "'").err, "handed in already"));
    std::string record;
    for (const auto& e : std::filesystem::directory_iterator(folder.file("records"))) record = e.path().string();
    for (const std::string& command :
         {"debrief " + record, "resume " + record, "branch " + record + " --at 0:10 --record " + folder.file("b.jsonl"),
          "check " + record, "expert " + out, "expert " + record, "debrief " + out,
          "compare " + record + " " + record}) {
        INFO(command);
        const auto r = run(command);
        CHECK(r.code != 0);
        CHECK_FALSE(has(r.out + r.err, "seed "));
        CHECK_FALSE(has(r.out, "any-morning"));
    }
    // What stands outside is looked at, and no more.
    const auto outside = run("check " + out);
    CHECK(outside.code == 0);
    CHECK(has(outside.out, "sealed for 2 pupils"));
    CHECK(has(outside.out, "not looked at"));
    CHECK_FALSE(has(outside.out + outside.err, "any-morning"));
    const auto with_key = run("marks " + folder.file("records") + " --key " + key + " --roster " + roster);
    CHECK(has(with_key.out, "any-morning"));
    CHECK(has(with_key.out, "its time was over: marked as it stood"));
    CHECK(run("debrief " + record + " --key " + key).code == 1);
    CHECK(has(run("debrief " + record + " --key " + key).out, "marks"));
    CHECK(run("marks " + folder.file("records") + " --key " + roster).code == 1);
    CHECK(run("assess " + record + " --by T --key " + key).code == 0);
    CHECK(run("assess " + record + " --by T").code == 1);
    CHECK(run("compare " + record + " " + record + " --key " + key).code == 0);
    const std::string kept = test::Scratch::read(key);
    CHECK(run("debrief " + record + " --key " + key + " --html " + key + " --force").code == 2);
    CHECK(test::Scratch::read(key) == kept);
    // A key that opens none of them is told by the exit code.
    (void)run("pack any-morning --pupils " + roster + " --out " + folder.file("x.pack") + " --key " +
              folder.file("x.key"));
    CHECK(run("marks " + folder.file("records") + " --key " + folder.file("x.key")).code == 1);
    // Words that nobody can see seal nothing.
    const std::string unseen = std::string(QUARTERTURN_PROGRAM) + " pack any-morning --pupils " + roster + " --out " +
                               folder.file("y.pack") + " --key " + key + " >/dev/full 2>/dev/null";
    CHECK(WEXITSTATUS(std::system(unseen.c_str())) == 3);
    CHECK_FALSE(std::filesystem::exists(folder.file("y.pack")));
    // Not before it opens.
    (void)run("pack any-morning --pupils " + roster + " --out " + folder.file("later.pack") + " --key " + key +
              " --opens '2090-01-01 10:00'");
    CHECK(has(run("run --pack " + folder.file("later.pack") + " --records " + folder.file("records") + " --actions " +
                  list + " --pupil p01 --words x")
                  .err,
              "opens at 2090-01-01 10:00"));
}

TEST_CASE("what anybody may read of a pack is held to its description, key by key") {
    Sealed s;
    const auto whole = nlohmann::ordered_json::parse(test::Scratch::read(s.path));
    const auto why_not = [&](const nlohmann::ordered_json& j) {
        std::string reason;
        CHECK_FALSE(read_pack(s.folder.write("bad.pack", j.dump(1)), reason));
        return reason;
    };
    int tried = 0;
    for (const KeyAbout& k : all_keys()) {
        if (k.file != FileKind::pack || k.key == "quarterturn_pack") continue;
        INFO(k.key);
        const std::string key(k.key);
        REQUIRE(whole.contains(key));
        auto bad = whole;
        bad[key] = k.type == KeyType::number ? nlohmann::ordered_json("7") : nlohmann::ordered_json(7);
        CHECK(has(why_not(bad), key + " is '"));
        if (k.type == KeyType::number) {
            for (const double v : {k.low - 1, k.high + 1}) {
                bad[key] = static_cast<std::int64_t>(v);
                CHECK(has(why_not(bad), "allowed " + k.allowed()));
            }
        }
        if (k.type == KeyType::text && k.high > 0) {
            bad[key] = std::string(static_cast<std::size_t>(k.high) + 1, 'x');
            CHECK(has(why_not(bad), k.allowed()));
        }
        if (k.required()) {
            bad = whole;
            bad.erase(key);
            CHECK(has(why_not(bad), key + " is missing"));
        }
        ++tried;
    }
    CHECK(tried == 10);
    auto more = whole;
    more["hint"] = "the third one is blocked";
    CHECK(has(why_not(more), "'hint' is no key of a pack"));
}

TEST_CASE("what is nested by the hundred thousand is no pack, no key file and no assessor's word, and no crash") {
    const Sealed s;
    const std::string deep = std::string(300000, '[') + std::string(300000, ']');
    std::string reason;
    CHECK_FALSE(read_pack(s.folder.write("a", "{\"quarterturn_pack\":1,\"title\":" + deep + "}"), reason));
    CHECK_FALSE(read_pack(s.folder.write("a", "{\"quarterturn_pack\":" + deep + "}"), reason));
    for (const char* key : {"quarterturn_key", "packs", "secret"})
        CHECK_FALSE(read_key_file(
            s.folder.write("k", "{\"quarterturn_key\":1,\"" + std::string(key) + "\":" + deep + "}"), reason));
    const std::string record = s.played("p02", 3);
    s.folder.write(std::filesystem::path(record).filename().string() + ".assessed.json",
                   "{\"quarterturn_assessed\":" + deep + "}");
    CHECK(has(row_of(record, {&s.keys, nullptr}).doubt, "what an assessor said of it cannot be read"));
    // A lesson with a key of a hundred thousand parts, alone and carried in a record.
    std::string keys = "a";
    for (int i = 0; i < 100000; ++i) keys += ".a";
    Problems problems;
    for (const std::string& text : {keys + " = 1\n", "[" + keys + "]\n", "x = 1\ny = { " + keys + " = 1 }\n"}) {
        problems.clear();
        files::parse_toml({"deep.toml", text}, problems);
        REQUIRE(problems.size() == 1);
        CHECK(has(problems[0].text(), "has a key of more parts than any has"));
    }
    problems.clear();
    const std::string dots = "a = \"" + std::string(200, '.') + "\" # " + std::string(200, '.') +
                             "\nb = \"\"\"\n...\"..\n" + std::string(200, '.') + "\"\"\"\nc = '" +
                             std::string(200, '.') + "'\n";
    files::parse_toml({"dots.toml", dots}, problems);
    CHECK(problems.empty());
}

TEST_CASE("a key file that is a link is written where it leads, and stays a link") {
    const test::Scratch folder;
    std::filesystem::create_directories(folder.file("usb"));
    const KeyPair k = new_key_pair();
    REQUIRE(write_key_file(folder.file("usb/real.key"), k).empty());
    std::filesystem::create_symlink(folder.file("usb/real.key"), folder.file("link.key"));
    SealedClass sealed;
    sealed.pack.text = "a pack";
    sealed.pack.kept.id = "ab12";
    CHECK(write_class(sealed, k, folder.file("link.key"), folder.file("p.pack"), files::Place::only_if_free).empty());
    CHECK(std::filesystem::is_symlink(folder.file("link.key")));
    std::string reason;
    CHECK(read_key_file(folder.file("usb/real.key"), reason)->pack("ab12"));
}

TEST_CASE("a title that is too long, as it is written, is a problem before anything is sealed") {
    const auto problems = [](const std::string& title) { return read_terms({title, "", "", ""}, 1000).problems; };
    CHECK(problems(std::string(200, 'x')).empty());
    REQUIRE(problems(std::string(201, 'x')).size() == 1);
    CHECK(problems(std::string(201, 'x'))[0].field == TermsField::title);
    CHECK(has(words::say(problems(std::string(201, 'x'))[0].what), "200 bytes at most"));
    CHECK(problems(std::string(196, 'x') + "\u202e").size() == 1);  // written as six letters
    // What passes is read back.
    const Sealed s;
    PackTerms terms = read_terms({std::string(194, 'x') + "\u202e", "", "", "45"}, 1000).terms;
    const PackJob job{"p01", *files::load_scenario(test::shipped(), "out-at-night", 1).value, 1};
    std::string reason;
    CHECK(read_pack(s.folder.write("t.pack", seal_pack(terms, {&job, 1}, "acorn", s.keys.public_half).text), reason));
}

TEST_CASE("less time than the expert takes is said before it is sealed, and enough is not") {
    DrawnJobs drawn;
    drawn.jobs.resize(2);
    drawn.jobs[0].trial.minutes = 12;
    drawn.jobs[1].trial.minutes = 26.4;
    PackTerms terms;
    CHECK_FALSE(too_little_time(terms, drawn));
    terms.minutes = 27;
    CHECK_FALSE(too_little_time(terms, drawn));
    terms.minutes = 26;
    REQUIRE(too_little_time(terms, drawn));
    CHECK(words::say(*too_little_time(terms, drawn)) ==
          "26 min are given, and the expert takes up to 27: nobody can finish");
}
