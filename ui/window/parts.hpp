// The parts every screen is made of: buttons, readings, dials, papers, flames.
#pragma once

#include <string>
#include <string_view>

#include "sim/heater/screw.hpp"
#include "ui/window/canvas.hpp"

namespace quarterturn::window {

enum class ButtonState { rest, held, chosen, not_now, urgent };

void button(Canvas& d, const Rect& r, std::string_view label, std::string_view key = {},
            ButtonState state = ButtonState::rest, double size = 15);
double keycap(Canvas& d, double x, double y, std::string_view key, sf::Color colour);
//! Four corner brackets and a thin ring around what has the keyboard.
void focus_marks(Canvas& d, const Rect& r);
//! A luggage tag with the number of a finding, its hole at (x, y); filled once it was marked as wrong.
void tag_mark(Canvas& d, double x, double y, int number, bool filled);
void hazard_strip(Canvas& d, const Rect& r);
void warning_sign(Canvas& d, double x, double y, double size, sf::Color colour);
void check_mark(Canvas& d, double x, double y, double size, sf::Color colour);
void cross_mark(Canvas& d, double x, double y, double size, sf::Color colour);
//! A fraction set by hand: numerator, bar, denominator; for 1/16 and 1/32 there is no glyph.
void fraction(Canvas& d, double x, double y, std::string_view n, std::string_view below, double size, Weight w,
              sf::Color colour);
void panel(Canvas& d, const Rect& r, std::string_view title = {}, std::string_view note = {});
void paper(Canvas& d, const Rect& r, std::string_view title, double fold = 14);
void letter_mark(Canvas& d, double x, double y, std::string_view letter, bool strong);
//! What the ear hears. Returns the pill's width.
double sound_pill(Canvas& d, double x, double y, std::string_view words, bool abnormal);
double sound_pill_width(const Canvas& d, std::string_view words);
void pipe(Canvas& d, const Path& path, double width, sf::Color fluid);

//! A measured value with its jaws.
struct ReadingCell {
    enum class State { blank, moving, settled, over_range, off };
    std::string name, sub, value, unit, note;
    State state = State::blank;
    double jaw_gap = 14;  //!< full gap between the jaws [u]; 14 is close enough
    bool alarm = false;
    double size = 46;
};
void reading(Canvas& d, const Rect& r, const ReadingCell& cell);
//! The same in a strip: name, value, whether it moves.
void reading_in_a_line(Canvas& d, const Rect& r, const ReadingCell& cell);

//! A screw's head at an angle, 0 upright, clockwise positive [degrees].
void screw_head(Canvas& d, double x, double y, double r, double angle, sf::Color metal,
                heater::Tool fits = heater::Tool::flat, double edge = kSeen);
//! The enlarged screw: ring of 32 marks, as-found mark, slot, and the next step hatched.
void dial(Canvas& d, double x, double y, double r, double angle, double step_degrees, bool held,
          heater::Tool fits = heater::Tool::flat);

//! Row of flames at a deck, hanging down.
struct FlameRow {
    double x = 0, y = 0, w = 0;
    double colour = 0;  //!< -1 yellow, soft .. 0 blue .. 1 pale
    double length = 1;  //!< of the cones over cone
    double lift = 0;    //!< 0 sits .. 1 about to go
    double cone = 26, pitch = 8;
    unsigned seed = 1;
    bool keep_all = false;  //!< an enlarged detail: none goes out
};
void flames(Canvas& d, const FlameRow& f);

}  // namespace quarterturn::window
