// Every screen as a picture against the one that was looked at and found good: a regression test, no more. A picture is
// kept as the mean brightness of its cells of 16 pixels, in sixteen steps; tests/window/pictures is written anew with
// QUARTERTURN_WRITE_PICTURES=1 once the new ones have been looked at; QUARTERTURN_SHOW_PICTURES=FOLDER puts them there.
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <map>
#include <thread>

#include "tests/window/played.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

constexpr unsigned kCell = 16;
constexpr double kTolerance = 1.3;  //!< of a cell, in steps of 17 of 255

struct Picture {
    unsigned columns = 0;
    std::vector<double> means;  //!< row by row, 0 to 15
};

Picture picture_of(const sf::Image& image) {
    Picture p;
    const auto [w, h] = image.getSize();
    p.columns = w / kCell;
    for (unsigned row = 0; row < h / kCell; ++row)
        for (unsigned column = 0; column < p.columns; ++column) {
            double sum = 0;
            for (unsigned y = 0; y < kCell; ++y)
                for (unsigned x = 0; x < kCell; ++x) {
                    const sf::Color c = image.getPixel(column * kCell + x, row * kCell + y);
                    sum += 0.299 * c.r + 0.587 * c.g + 0.114 * c.b;
                }
            p.means.push_back(sum / (kCell * kCell) / 17);
        }
    return p;
}

std::string kept_text(const Picture& p) {
    std::string out;
    for (const double m : p.means) out += "0123456789abcdef"[static_cast<std::size_t>(std::lround(m))];
    return out;
}

std::string kept_path() { return test::source_path("tests/window/pictures"); }

std::map<std::string, std::string> kept_pictures() {
    std::map<std::string, std::string> out;
    std::ifstream in(kept_path());
    for (std::string name, cells; std::getline(in, name, '\t') && std::getline(in, cells);) out[name] = cells;
    return out;
}

//! A window in a state that is the same every time: nothing moves, nothing is recorded, seed 1.
struct Shown {
    test::Scratch scratch;
    Fonts fonts;
    std::unique_ptr<Screens> screens;
    sf::RenderTexture target;
    unsigned w, h;

    Shown(unsigned width, unsigned height, double text, bool shelf, const char* lesson = "new-gas-valve")
        : w(width), h(height) {
        setenv("XDG_DATA_HOME", shelf ? scratch.file("data").c_str() : "/dev/null", 1);
        setenv("XDG_CONFIG_HOME", scratch.file("config").c_str(), 1);
        setenv("QUARTERTURN_SEED", "1", 1);
        REQUIRE(fonts.load());
        if (shelf) {
            Start s;
            s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
            screens = std::make_unique<Screens>(std::move(s), fonts);
        } else {
            screens = std::make_unique<Screens>(test::lesson(lesson), fonts);
            screens->session().go_on_unrecorded();
            screens->hands().sheet = Sheet::none;
            screens->session().set_speed(0);
        }
        screens->hands().still = true;
        screens->set_text_scale(text);
        screens->resize(w, h);
        REQUIRE(target.create(w, h));
        for (int i = 0; i < 600 && shelf && screens->shelf().reading; ++i) {
            std::this_thread::sleep_for(5ms);
            screens->advance(0ns);
        }
    }
    void key(sf::Keyboard::Key code) {
        sf::Event e;
        e.type = sf::Event::KeyPressed;
        e.key = {};
        e.key.code = code;
        screens->handle(e);
    }
    void run(int seconds) {
        const auto until = screens->session().seen().step + seconds * practice::kStepsPerSecond;
        while (screens->session().seen().step < until) {
            screens->session().set_speed(1);
            screens->advance(
                std::chrono::milliseconds(std::min<std::int64_t>(200, (until - screens->session().seen().step) * 20)));
        }
        screens->session().set_speed(0);
    }
    void act(const char* text) {
        INFO(text);
        REQUIRE(screens->session().act(*bench::parse_action(text).action));
        for (int i = 0; i < 600 && screens->session().seen().busy.set; ++i) run(1);
    }
    sf::Image picture() {
        screens->resize(w, h);
        for (int i = 0; i < 3; ++i) screens->advance(1s);  // the screw in hand comes to rest
        screens->draw(target);
        target.display();
        return target.getTexture().copyToImage();
    }
};

template <class Take>
void all_screens(unsigned w, unsigned h, double text, const Take& take) {
    using Key = sf::Keyboard::Key;
    Shown s(w, h, text, true);
    take("shelf", s.picture());
    s.key(Key::F1);
    take("settings", s.picture());
    s.key(Key::F1);
    s.picture();
    s.key(Key::Enter);
    take("job card", s.picture());
    s.key(Key::V);
    take("what if", s.picture());
    for (const char* lesson : {"another-flue", "a-sheet-in-the-wind", "bath-takes-longer"}) {
        Shown other(w, h, text, false, lesson);
        for (const char* t : {"look sheet", "look plate", "cap throttle off", "cap offset off"}) other.act(t);
        take(lesson, other.picture());
    }
    Shown b(w, h, text, false);
    take("bench", b.picture());
    for (const char* t : {"look sheet", "look plate", "analyzer on", "zero", "gas open", "power on", "water 12",
                          "port open", "probe in", "forced fire high"})
        b.act(t);
    b.run(240);
    take("bench, settled", b.picture());
    for (const char* t : {"record found", "cap throttle off", "turn throttle left 1/4", "turn throttle left 1/8"})
        b.act(t);
    b.run(40);
    take("bench, high fire", b.picture());
    b.screens->hands().part = practice::Part::gas_valve;
    take("card", b.picture());
    b.screens->hands().part.reset();
    b.key(Key::J);
    take("job sheet", b.picture());
    b.screens->hands().sheet = Sheet::leave;
    take("leave", b.picture());
    b.act("leave");
    take("marks", b.picture());
    b.key(Key::L);
    take("look back", b.picture());
    // A class signs in; a lesson is written.
    const auto with = [&](Start start) {
        s.screens = std::make_unique<Screens>(std::move(start), s.fonts);
        s.screens->set_text_scale(text);
        return s.picture();
    };
    Start room;
    room.roster.emplace();
    for (const char* name : {"Ana", "Ben", "Carla", "Dario", "Elif"})
        room.roster->pupils.push_back({name, name, "", school::kNoHome});
    take("sign in", with(std::move(room)));
    Start writing;
    writing.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
    std::string reason;
    writing.builder = Builder::open(s.scratch.file("new.toml"), writing.library, reason);
    REQUIRE(writing.builder->set("marks.least_pct", "400").empty());  // nothing is played meanwhile
    take("builder", with(std::move(writing)));
    Start packing;
    packing.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
    school::Roster two;
    for (const char* name : {"Ana", "Ben"}) two.pupils.push_back({name, name, "", school::kNoHome});
    packing.pack_maker = std::make_unique<PackMaker>(packing.library, two, school::new_key_pair(),
                                                     PackPlace{s.scratch.file("p"), s.scratch.file("k")});
    packing.pack_maker->ask(0);
    packing.pack_maker->type(PackField::minutes, "0");
    take("pack", with(std::move(packing)));
}

const std::vector<std::tuple<unsigned, unsigned, double>> kSizes{{1280, 800, 1.0}, {1024, 700, 1.0}, {1920, 1080, 1.0},
                                                                 {1280, 800, 1.5}, {1280, 800, 2.0}, {1024, 700, 2.0}};

}  // namespace

TEST_CASE("every screen looks as it did when it was found good") {
    if (!display()) return;
    const bool write = std::getenv("QUARTERTURN_WRITE_PICTURES") != nullptr;
    const auto kept = kept_pictures();
    std::string anew;
    for (const auto& [w, h, text] : kSizes)
        all_screens(w, h, text, [&, w = w, h = h, text = text](const char* screen, const sf::Image& image) {
            const std::string name = fmt::format("{} {}x{} {}", screen, w, h, text);
            const Picture p = picture_of(image);
            if (const char* folder = std::getenv("QUARTERTURN_SHOW_PICTURES"))
                image.saveToFile(fmt::format("{}/{}.png", folder, name));
            if (write) {
                anew += name + "\t" + kept_text(p) + "\n";
                return;
            }
            INFO(name);
            const auto at = kept.find(name);
            REQUIRE(at != kept.end());
            REQUIRE(at->second.size() == p.means.size());
            std::string where;
            int off = 0;
            for (std::size_t i = 0; i < p.means.size(); ++i) {
                const char c = at->second[i];
                const int was = c <= '9' ? c - '0' : c - 'a' + 10;
                if (std::abs(p.means[i] - was) <= kTolerance) continue;
                if (++off <= 8) where += fmt::format(" ({}, {})", i % p.columns * kCell, i / p.columns * kCell);
            }
            INFO(off << " cells differ, the first at" << where);
            CHECK(off == 0);
        });
    if (write) std::ofstream(kept_path()) << anew;
}
