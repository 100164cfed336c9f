#include "ui/window/synth.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/limits.hpp"

namespace quarterturn::window {

namespace {

constexpr double kTurn = 2 * std::numbers::pi;

//! Everything glides within some hundredths of a second.
void glide(double& now, double to) { now += (to - now) * 0.0015; }

}  // namespace

Sounds sounds_of(const practice::Seen& r, double fan_high, int volume) {
    using faults::Sign;
    Sounds s;
    s.level = std::clamp(volume, 0, 10) / 10.0;
    s.fan = std::clamp(r.fan_rpm / std::max(1.0, fan_high), 0.0, 1.2);
    if (r.lit()) s.burner = 0.25 + 0.75 * std::min(1.0, s.fan);
    // As loud as it is heard: a rumble is what rises above the even rush.
    constexpr double rush_db = 50, loud_db = 70;
    if (r.lit()) s.rumble = std::clamp((r.noise_db - rush_db - 4) / (loud_db - rush_db), 0.0, 1.0);
    s.ignition = r.stage == heater::Stage::ignition ? 1 : 0;
    const auto& busy = r.busy.at;
    const bool hose =
        r.busy.set && (busy.verb == practice::Verb::manometer || busy.verb == practice::Verb::manometer_to);
    s.hiss = hose && r.gas_open ? 0.9 : r.smells_of_gas ? 0.6 : 0;
    s.water = std::min(1.0, r.draw_l_min / 15);
    s.gurgle = r.sound == Sign::gurgle ? 1 : 0;
    s.pump = r.analyzer.on ? 0.5 : 0;
    s.alarm = r.room_co_ppm > limits::kRoomCoStop_ppm ? 1 : 0;
    return s;
}

double Synth::noise() {
    random_ ^= random_ << 13;
    random_ ^= random_ >> 17;
    random_ ^= random_ << 5;
    return static_cast<double>(random_) / 2147483648.0 - 1;
}

void Synth::render(const Sounds& s, std::span<std::int16_t> out) {
    constexpr double dt = 1.0 / kRate;
    for (std::int16_t& sample : out) {
        glide(now_.burner, s.burner);
        glide(now_.rumble, s.rumble);
        glide(now_.fan, s.fan);
        glide(now_.ignition, s.ignition);
        glide(now_.hiss, s.hiss);
        glide(now_.water, s.water);
        glide(now_.gurgle, s.gurgle);
        glide(now_.pump, s.pump);
        glide(now_.alarm, s.alarm);
        glide(now_.level, s.level);
        time_ += dt;
        const double white = noise();
        low_ += 0.08 * (white - low_);       // the rush of a flame
        lower_ += 0.012 * (white - lower_);  // its deeper part
        smooth_ += 0.4 * (white - smooth_);
        const double flutter = 1 + 0.9 * now_.rumble * std::sin(kTurn * 11 * time_);
        double v = 0.55 * now_.burner * (0.6 * low_ + 1.6 * lower_) * flutter;
        v += 0.5 * now_.rumble * lower_ * 2;
        phase_ += dt * (40 + 260 * now_.fan);
        v += 0.06 * now_.fan * (std::sin(kTurn * phase_) + 0.5 * std::sin(kTurn * 2 * phase_)) + 0.05 * now_.fan * low_;
        // Sparks, eight a second.
        const double spark = std::fmod(time_ * 8, 1.0);
        if (spark < 0.02) v += 0.5 * now_.ignition * white;
        v += 0.12 * now_.hiss * (white - smooth_);
        v += 0.07 * now_.water * smooth_;
        slow_ += dt * (2 + 1.5 * std::sin(kTurn * 0.7 * time_));
        v += 0.25 * now_.gurgle * std::max(0.0, std::sin(kTurn * slow_)) *
             std::sin(kTurn * (90 + 60 * std::sin(kTurn * slow_)) * time_) * 0.5;
        v += 0.025 * now_.pump * std::sin(kTurn * 48 * time_);
        if (std::fmod(time_, 1.0) < 0.35) v += 0.22 * now_.alarm * std::sin(kTurn * 2400 * time_);
        if (tick_left_ > 0) {
            --tick_left_;
            v += 0.25 * std::sin(kTurn * 1300 * time_) * static_cast<double>(tick_left_) / (kRate / 30.0);
        }
        sample = static_cast<std::int16_t>(std::lround(32000 * std::clamp(v * now_.level, -1.0, 1.0)));
    }
}

}  // namespace quarterturn::window
