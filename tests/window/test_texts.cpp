// Every screen at every size and text scale: no text leaves the window, and none lies over another.
#include <fmt/format.h>
#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <thread>

#include "tests/window/played.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

struct Looked {
    test::Scratch scratch;
    Fonts fonts;
    std::unique_ptr<Screens> screens;
    sf::RenderTexture target;
    std::vector<TextBox> texts;
    std::string size;

    //! At the sign-in page of a class, with a pack or without.
    Looked(unsigned w, unsigned h, double text, const school::Pack* pack)
        : size(fmt::format("{}x{} text {}", w, h, text)) {
        setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
        setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
        REQUIRE(fonts.load());
        Start s;
        s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        s.roster.emplace();
        for (int i = 1; i <= 24; ++i)
            s.roster->pupils.push_back({"p" + std::to_string(i),
                                        "Somebody with a name as long as number " + std::to_string(i), "",
                                        school::kNoHome});
        if (pack) s.pack = *pack;
        screens = std::make_unique<Screens>(std::move(s), fonts);
        screens->set_text_scale(text);
        screens->resize(w, h);
        REQUIRE(target.create(w, h));
    }
    Looked(unsigned w, unsigned h, double text, bool shelf) : size(fmt::format("{}x{} text {}", w, h, text)) {
        setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
        setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
        setenv("QUARTERTURN_SEED", "1", 1);
        REQUIRE(fonts.load());
        if (shelf) {
            Start s;
            s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
            screens = std::make_unique<Screens>(std::move(s), fonts);
        } else {
            screens = std::make_unique<Screens>(test::lesson(), fonts);
        }
        screens->set_text_scale(text);
        screens->resize(w, h);
        REQUIRE(target.create(w, h));
        for (int i = 0; i < 600 && shelf && screens->shelf().reading; ++i) {
            std::this_thread::sleep_for(5ms);
            screens->advance(0ns);
        }
    }
    void type(const std::string& text) {
        for (const char32_t c : sf::String::fromUtf8(text.begin(), text.end()).toUtf32()) {
            sf::Event e;
            e.type = sf::Event::TextEntered;
            e.text.unicode = c;
            screens->handle(e);
        }
    }
    void key(sf::Keyboard::Key code) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        screens->handle(e);
    }
    //! The same page by page, where it is taller than the window. Every text of it comes into sight.
    void look_through(const char* what) {
        look(what);
        std::set<std::string> seen;
        for (const TextBox& t : texts) seen.insert(t.text);
        for (int i = 0; i < 30; ++i) {
            const std::vector<TextBox> before = texts;
            key(sf::Keyboard::PageDown);
            look(what);
            for (const TextBox& t : texts) seen.insert(t.text);
            if (std::equal(texts.begin(), texts.end(), before.begin(), before.end(),
                           [](const TextBox& a, const TextBox& b) { return a.text == b.text && a.r.y == b.r.y; }))
                break;
        }
        for (const std::string& wanted : all_of[what]) {
            INFO(what << " " << size << " never shows '" << wanted << "'");
            CHECK(std::any_of(seen.begin(), seen.end(), [&](const auto& t) { return t.starts_with(wanted); }));
        }
        key(sf::Keyboard::Home);
    }
    std::map<std::string, std::vector<std::string>> all_of{
        {"sign in", {"Sealed by the instructor", "Help", "The words, as", "I am Somebody", "Practice on a"}},
        {"settings", {"Units", "Language", "F12", "this page"}},
        {"job card", {"Asked of you", "Aim", "Mains voltage", "Coached", "Assessment"}},
        {"what if", {"Exchanger fouled", "High fire", "Low fire", "Input", "CO\u2082 %"}},
        {"pack, empty",
         {"Who and when", "6 pupils", "It has to lie", "What is asked", "The yearly check", "Before you seal"}},
        {"pack, sealed", {"Sealed. The words", "Somebody with", "Pack: "}},
        {"marks", {"What was truly the case", "Prepare", "Close out"}}};
    //! Draws anew and looks at the texts; on_top: only those of what lies on top.
    void look(const char* what, bool on_top = false) {
        const Layout& l = screens->layout();
        screens->resize(static_cast<unsigned>(std::lround(l.w * l.u)), static_cast<unsigned>(std::lround(l.h * l.u)));
        screens->advance(0ns);
        texts.clear();
        Canvas::noted = &texts;
        screens->draw(target);
        Canvas::noted = nullptr;
        REQUIRE(texts.size() > 3);
        std::size_t top = 0;
        for (const TextBox& t : texts) top = std::max(top, t.layer);
        std::vector<TextBox> seen;
        for (const TextBox& t : texts)
            if (!on_top || t.layer == top) seen.push_back(t);
        for (std::size_t i = 0; i < seen.size(); ++i) {
            INFO(what << " " << size << ": '" << seen[i].text << "'");
            CHECK(seen[i].r.x >= -1);
            CHECK(seen[i].r.right() <= l.w + 1);
            CHECK(seen[i].r.y >= -1);
            CHECK(seen[i].r.bottom() <= l.h + 2);
            for (std::size_t k = 0; k < i; ++k) {
                const double dx = std::min(seen[i].r.right(), seen[k].r.right()) - std::max(seen[i].r.x, seen[k].r.x);
                const double dy = std::min(seen[i].r.bottom(), seen[k].r.bottom()) - std::max(seen[i].r.y, seen[k].r.y);
                if (dx <= 2 || dy <= 2) continue;
                INFO("lies over '" << seen[k].text << "'");
                CHECK((dx <= 2 || dy <= 2));
            }
        }
    }
};

const std::vector<std::tuple<unsigned, unsigned, double>> kSizes{
    {1280, 800, 1.0}, {1024, 700, 1.0}, {1920, 1080, 1.0}, {2560, 1440, 1.0}, {1280, 800, 1.5},
    {1280, 800, 2.0}, {1024, 700, 1.5}, {1024, 700, 2.0},  {1920, 1080, 1.5}, {1920, 1080, 2.0}};

}  // namespace

TEST_CASE("no text is cut or overprinted on shelf, settings, job card and what-if") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, true);
        s.look("shelf");
        s.key(Key::F1);
        s.look_through("settings");
        s.key(Key::F1);
        s.look("shelf again");
        s.key(Key::Enter);
        REQUIRE(s.screens->front() == Front::job_card);
        s.look_through("job card");
        s.key(Key::V);
        s.look_through("what if");
    }
}

TEST_CASE("no text is cut or overprinted in the class book") {
    if (!display()) return;
    const test::Scratch folder;
    std::filesystem::create_directories(folder.file("book"));
    int n = 0;
    for (const char* name : {"yearly-check", "headaches", "out-at-night"})
        for (const auto& how : {kExpert, kBlind}) {
            const LoadedScenario l = test::lesson(name);
            files::NoRecord none;
            ++n;
            auto w = RecordWriter::create(folder.file("book/" + std::to_string(n) + ".jsonl"), l, 1, none,
                                          {{}, {}, false, "p" + std::to_string(n % 3), "2026-03-01T09:30:00+01:00"});
            REQUIRE(w);
            Attempt a(l.scenario, 1);
            test::play_recorded(a, *w, how);
        }
    folder.write("book/bad.jsonl", "{");
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, static_cast<const school::Pack*>(nullptr));
        Start start;
        start.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        start.book = folder.file("book");
        start.roster = school::Roster{{{"p0", "Somebody with a long name", "autumn course", school::kNoHome},
                                       {"p1", "Åsa Lind", "spring", school::kNoHome}},
                                      {},
                                      true};
        s.screens = std::make_unique<Screens>(std::move(start), s.fonts);
        s.screens->set_text_scale(text);
        s.screens->resize(w, h);
        for (int i = 0; i < 4000 && s.screens->book_view().reading; ++i) {
            std::this_thread::sleep_for(5ms);
            s.screens->advance(0ns);
        }
        REQUIRE_FALSE(s.screens->book_view().reading);
        s.look_through("class book");
        s.key(sf::Keyboard::Down);
        s.key(sf::Keyboard::Right);
        s.look("class book, another cell");
        s.key(sf::Keyboard::F2);
        s.type("T. Teacher of the autumn course");
        s.key(sf::Keyboard::Tab);
        s.type("Explained what was seen, in his own words, and was right about it.");
        s.look_through("class book, an assessor's word");
    }
}

TEST_CASE("no text is cut or overprinted in the builder") {
    if (!display()) return;
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, static_cast<const school::Pack*>(nullptr));
        Start start;
        start.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        std::string reason;
        start.builder = Builder::open(s.scratch.file("new.toml"), start.library, reason);
        REQUIRE(start.builder);
        REQUIRE(start.builder->add_fault().empty());
        REQUIRE(start.builder->set("fault[0].name", "wind").empty());
        REQUIRE(start.builder->set("fault[0].severity", "7").empty());
        s.screens = std::make_unique<Screens>(std::move(start), s.fonts);
        s.screens->set_text_scale(text);
        s.screens->resize(w, h);
        s.key(sf::Keyboard::Down);
        s.look_through("builder");
        s.key(sf::Keyboard::Enter);
        s.type(
            "It was fine this morning, and then the neighbours came home and switched everything on that burns gas, "
            "says the owner, who was not there. Since then it hums and the shower is lukewarm at best.");
        s.look_through("builder, a story being typed");
        s.key(sf::Keyboard::Down);
        s.key(sf::Keyboard::F9);
        s.look_through("builder, saved");
    }
}

TEST_CASE("no text is cut or overprinted where a sealed assessment is made") {
    if (!display()) return;
    const test::Scratch folder;
    school::Roster roster;
    for (int i = 1; i <= 6; ++i)
        roster.pupils.push_back({"p" + std::to_string(i), "Somebody with a name as long as number " + std::to_string(i),
                                 "", school::kNoHome});
    int n = 0;
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, static_cast<const school::Pack*>(nullptr));
        Start start;
        start.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        start.pack_maker = std::make_unique<PackMaker>(
            start.library, roster, school::new_key_pair(),
            PackPlace{folder.file(std::to_string(++n) + ".pack"), folder.file("k" + std::to_string(n))});
        PackMaker& m = *start.pack_maker;
        m.type(PackField::closes, "2001-01-01 10:00");
        s.screens = std::make_unique<Screens>(std::move(start), s.fonts);
        s.screens->set_text_scale(text);
        s.screens->resize(w, h);
        s.look_through("pack, empty");
        for (std::size_t i = 0; i < m.lessons().size(); ++i)
            if (m.lessons()[i].id == "out-at-night" || m.lessons()[i].id == "yearly-check") m.ask(i);
        REQUIRE(m.draw().empty());
        s.look("pack, being drawn");
        for (int i = 0; i < 12000 && m.drawing(); ++i) {
            std::this_thread::sleep_for(5ms);
            s.screens->advance(0ns);
        }
        REQUIRE(m.enough());
        s.look_through("pack, covered");
        s.key(sf::Keyboard::C);
        s.look_through("pack, shown");
        m.type(PackField::closes, "");
        REQUIRE(m.seal().empty());
        s.look_through("pack, sealed");
    }
}

TEST_CASE("no text is cut or overprinted where one signs in") {
    if (!display()) return;
    school::PackTerms terms{"", "The final of the autumn course", 1, 0, 4'000'000'000, 45, {}};
    std::vector<school::PackJob> jobs;
    for (int i = 1; i <= 24; ++i)
        jobs.push_back({"p" + std::to_string(i), *files::load_scenario(test::shipped(), "yearly-check", 1).value, 1});
    const test::Scratch folder;
    std::string reason;
    const auto pack = school::read_pack(
        folder.write("p", school::seal_pack(terms, jobs, "acorn", school::new_key_pair().public_half).text), reason);
    REQUIRE(pack);
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, &*pack);
        s.key(sf::Keyboard::Down);
        s.look_through("sign in");
        Looked plain(w, h, text, static_cast<const school::Pack*>(nullptr));
        plain.look("sign in without a pack");
    }
}

TEST_CASE("no text is cut or overprinted on the bench, standing, running and looked at") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, false);
        const auto pages = [&](const char* what) {
            for (int i = 0; i < (s.screens->layout().single() ? kPages : 1); ++i) {
                s.look(what);
                s.key(Key::F6);
            }
        };
        pages("bench, idle");
        auto& a = s.screens->session();
        for (const char* t : {"look sheet", "look plate"}) {
            REQUIRE(a.act(*bench::parse_action(t).action));
            while (a.seen().busy.set) s.screens->advance(250ms);
        }
        for (const char* t :
             {"analyzer on", "gas open", "power on", "water 12", "port open", "probe in", "forced fire high"})
            REQUIRE(a.act(*bench::parse_action(t).action));
        for (int i = 0; i < 700; ++i) {
            a.set_speed(20);
            s.screens->advance(50ms);
        }
        for (const char* t : {"cap throttle off", "turn throttle left 1/4", "turn throttle right 1/8"})
            REQUIRE(a.act(*bench::parse_action(t).action));
        pages("bench, high fire");
        for (const char* t : {"look vent", "listen", "smell", "look drain", "look tube"}) {
            REQUIRE(a.act(*bench::parse_action(t).action));
            for (int i = 0; i < 400 && a.seen().busy.set; ++i) s.screens->advance(250ms);
        }
        pages("bench, with findings");
        s.key(Key::H);
        pages("bench, with a hint");
    }
}

TEST_CASE("no text is cut or overprinted on cards, job sheet, leaving, marks and looking back") {
    if (!display()) return;
    using Key = sf::Keyboard::Key;
    for (const auto& [w, h, text] : kSizes) {
        Looked s(w, h, text, false);
        for (const PartPlace& p : part_places()) {
            s.screens->hands().part = p.part;
            s.look(std::string(part_word(p.part)).c_str(), true);
        }
        s.screens->hands().part = practice::Part::analyzer;
        s.look("analyzer", true);
        s.screens->hands().part.reset();
        s.key(Key::J);
        s.look("job sheet", true);
        s.screens->hands().report_tab = 1;
        s.look("job sheet, causes", true);
        s.screens->hands().sheet = Sheet::leave;
        s.look("leave", true);
        s.screens->hands().sheet = Sheet::none;
        REQUIRE(s.screens->session().act(practice::act(Verb::leave)));
        s.screens->advance(0ns);
        REQUIRE(s.screens->front() == Front::marks);
        s.look_through("marks");
    }
}
