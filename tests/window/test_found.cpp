// What was found is drawn where it was found, from the look on and not before, and undrawn when it was put right. What
// does not flow is not drawn flowing.
#include <SFML/Graphics/Image.hpp>

#include "sim/bench/action_text.hpp"
#include "tests/window/played.hpp"
#include "ui/window/part_places.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

struct Watched {
    test::Scratch scratch;
    Fonts fonts;
    std::unique_ptr<Screens> screens;
    sf::RenderTexture target;
    explicit Watched(const LoadedScenario& lesson) {
        setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
        REQUIRE(fonts.load());
        screens = std::make_unique<Screens>(lesson, fonts);
        screens->resize(1280, 800);
        REQUIRE(target.create(1280, 800));
    }
    sf::Image picture() {
        screens->resize(1280, 800);
        screens->advance(0ns);
        screens->draw(target);
        target.display();
        return target.getTexture().copyToImage();
    }
    void act(const char* words) {
        INFO(words << " " << screens->session().message());
        REQUIRE(screens->session().act(*parse_action(words).action));
        for (int i = 0; i < 4000 && screens->session().seen().busy.set; ++i) {
            screens->session().set_speed(20);
            screens->advance(50ms);
        }
    }
    //! How many pixels of the part differ, its tag apart.
    int changed(const sf::Image& a, const sf::Image& b, Part part) {
        const Rect r = part_rect(part, screens->layout());
        const Pt tag = tag_point(part, screens->layout());
        int n = 0;
        for (int y = static_cast<int>(r.y); y < static_cast<int>(r.bottom()); ++y)
            for (int x = static_cast<int>(r.x); x < static_cast<int>(r.right()); ++x) {
                if (x > tag.x - 8 && x < tag.x + 28 && std::abs(y - tag.y) < 14) continue;
                n += a.getPixel(static_cast<unsigned>(x), static_cast<unsigned>(y)) !=
                     b.getPixel(static_cast<unsigned>(x), static_cast<unsigned>(y));
            }
        return n;
    }
};

LoadedScenario with(FaultId fault, double severity = 0.8) {
    LoadedScenario l = test::lesson("yearly-check");
    l.scenario.faults = {{fault, severity, 0, 1e9}};
    return l;
}

}  // namespace

TEST_CASE("what a look finds is drawn there, and nothing before it") {
    if (!display()) return;
    struct Case {
        FaultId fault;
        Part part;
        const char* look;
        const char* repair;
    };
    for (const Case& c : {Case{FaultId::vent_blocked, Part::terminal, "look vent", nullptr},
                          Case{FaultId::wind, Part::terminal, "look vent", nullptr},
                          Case{FaultId::intake_blocked, Part::intake, "look intake", nullptr},
                          Case{FaultId::reference_tube_off, Part::reference_tube, "look tube", "repair tube"},
                          Case{FaultId::sealed_screw, Part::gas_valve, "look screws", nullptr},
                          Case{FaultId::fouled_exchanger, Part::exchanger, "look exchanger", nullptr},
                          Case{FaultId::trap_full, Part::trap, "look trap", "drain trap"},
                          Case{FaultId::fan_soiled, Part::fan, "look fan", nullptr}}) {
        INFO(c.look << " " << static_cast<int>(c.fault));
        Watched sound(test::lesson("yearly-check"));
        Watched faulty(with(c.fault));
        // Nobody has looked: the screen does not do the diagnosis.
        CHECK(faulty.changed(sound.picture(), faulty.picture(), c.part) == 0);
        sound.act(c.look);
        faulty.act(c.look);
        CHECK(faulty.changed(sound.picture(), faulty.picture(), c.part) > 12);
        if (!c.repair) continue;
        sound.act(c.repair);
        faulty.act(c.repair);
        CHECK(faulty.changed(sound.picture(), faulty.picture(), c.part) == 0);
    }
}

TEST_CASE("gas stands in the pipe behind the tap only when it is open, and water takes the colour of its warmth") {
    if (!display()) return;
    Watched w(test::lesson("yearly-check"));
    const auto& l = w.screens->layout();
    const auto pixel = [&](double x, double y) {
        const sf::Image image = w.picture();
        return image.getPixel(static_cast<unsigned>(l.drawing.x + x * l.k),
                              static_cast<unsigned>(l.drawing.y + y * l.k));
    };
    const Palette& c = day();
    // Between tap and valve; between valve and mixer; the hot pipe.
    CHECK(pixel(186, 466) == c.sheet);
    CHECK(pixel(232, 312) == c.sheet);
    const sf::Color cold = pixel(344, 520);
    w.act("gas open");
    CHECK(pixel(186, 466) == c.gas);
    CHECK(pixel(232, 312) == c.sheet);  // no flame: none comes through the valve
    for (const char* a : {"power on", "water 14", "forced fire high"}) w.act(a);
    for (int i = 0; i < 200; ++i) {
        w.screens->session().set_speed(20);
        w.screens->advance(50ms);
    }
    REQUIRE(w.screens->session().seen().lit());
    CHECK(pixel(232, 312) == c.gas);
    CHECK(pixel(344, 525) != cold);
    w.act("gas shut");
    CHECK(pixel(186, 466) == c.sheet);
}
