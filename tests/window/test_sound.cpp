// What the bench sounds like: silence where nothing runs, each sound for its cause, the same samples every time.
#include "tests/support/catch.hpp"
#include <cmath>

#include "ui/window/sound.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

std::vector<std::int16_t> samples(const Sounds& s, double seconds = 0.5, bool tick = false) {
    Synth synth;
    std::vector<std::int16_t> out(static_cast<std::size_t>(seconds * Synth::kRate));
    synth.render(s, out);  // gliding in
    if (tick) synth.tick();
    synth.render(s, out);
    return out;
}

//! Root of the mean square, of the range.
double loudness(const std::vector<std::int16_t>& v) {
    double sum = 0;
    for (const std::int16_t x : v) sum += static_cast<double>(x) * x;
    return std::sqrt(sum / static_cast<double>(v.size())) / 32768;
}

Sounds only(double Sounds::*what, double how = 1) {
    Sounds s;
    s.level = 1;
    s.*what = how;
    return s;
}

}  // namespace

TEST_CASE("nothing runs: silence; each sound can be heard; the volume scales all of them") {
    CHECK(loudness(samples(Sounds{})) == 0);
    Sounds still;
    still.level = 1;
    CHECK(loudness(samples(still)) < 1e-4);
    for (double Sounds::*what : {&Sounds::burner, &Sounds::rumble, &Sounds::fan, &Sounds::ignition, &Sounds::hiss,
                                 &Sounds::water, &Sounds::gurgle, &Sounds::pump, &Sounds::alarm}) {
        CHECK(loudness(samples(only(what), 1)) > 0.003);
        Sounds off = only(what);
        off.level = 0;
        CHECK(loudness(samples(off)) == 0);
    }
    CHECK(loudness(samples(only(&Sounds::burner, 1))) > 1.5 * loudness(samples(only(&Sounds::burner, 0.3))));
    CHECK(samples(only(&Sounds::burner)) == samples(only(&Sounds::burner)));
    CHECK(loudness(samples(still, 0.03, true)) > 0.05);  // the tick
}

TEST_CASE("what is heard follows what runs") {
    practice::Seen r;
    CHECK(sounds_of(r, 6000, 5) == [] {
        Sounds s;
        s.level = 0.5;
        return s;
    }());
    r.fan_rpm = 6000;
    r.flame.shape = faults::FlameShape::short_sitting;
    const double high = sounds_of(r, 6000, 5).burner;
    r.fan_rpm = 1500;
    const double low = sounds_of(r, 6000, 5).burner;
    CHECK(high > low);
    CHECK(low > 0);
    r.noise_db = 50;
    CHECK(sounds_of(r, 6000, 5).rumble == 0);
    r.noise_db = 66;
    CHECK(sounds_of(r, 6000, 5).rumble > 0.5);
    r.flame.shape = faults::FlameShape::dark;
    CHECK(sounds_of(r, 6000, 5).burner == 0);
    r.room_co_ppm = 35;
    CHECK(sounds_of(r, 6000, 5).alarm == 0);
    r.room_co_ppm = 36;
    CHECK(sounds_of(r, 6000, 5).alarm == 1);
    CHECK(sounds_of(r, 6000, 0).level == 0);
}

TEST_CASE("without a sound device there is silence and nothing else") {
    setenv("ALSOFT_DRIVERS", "none-of-these", 1);
    Sound s;
    s.set(only(&Sounds::burner));
    s.tick();
    CHECK_FALSE(s.can_be_heard());
}
