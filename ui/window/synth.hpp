// What the bench sounds like, worked out sample by sample: burner, fan, ignition, hiss, pump, alarm, and a tick when a
// reading settles. No sound device needed.
#pragma once

#include <cstdint>
#include <span>

#include "sim/practice/seen.hpp"

namespace quarterturn::window {

//! What there is to hear, each 0 to 1 but for the fan.
struct Sounds {
    double burner = 0;    //!< rush of the flame, with load
    double rumble = 0;    //!< a deep flutter on top of it
    double fan = 0;       //!< speed over that at high fire
    double ignition = 0;  //!< sparks
    double hiss = 0;      //!< gas out of a leak
    double water = 0;     //!< the running tap
    double gurgle = 0;    //!< standing condensate
    double pump = 0;      //!< of the analyzer
    double alarm = 0;     //!< room monitor
    double level = 0;     //!< of everything: the volume
    bool operator==(const Sounds&) const = default;
};
//! From what may be seen and heard; fan_high: fan speed at high fire [1/min]; volume 0 to 10.
Sounds sounds_of(const practice::Seen& seen, double fan_high, int volume);

//! Makes the samples. The same scenes give the same samples.
class Synth {
public:
    static constexpr unsigned kRate = 22050;
    //! Fills with samples of this scene, going on where the last call ended.
    void render(const Sounds& s, std::span<std::int16_t> out);
    //! A soft tick, from the next sample on.
    void tick() { tick_left_ = kRate / 30; }

private:
    double noise();
    std::uint32_t random_ = 2463534242u;
    double low_ = 0, lower_ = 0, smooth_ = 0;
    double phase_ = 0, slow_ = 0, time_ = 0;
    Sounds now_;  //!< glides to what is asked: no clicks
    int tick_left_ = 0;
};

}  // namespace quarterturn::window
