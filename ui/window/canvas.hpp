// Everything that is drawn goes through here: feathered polygons, strokes, hatches and text, in drawing units, gathered
// into a few vertex arrays. One layer draws all its shapes, then all its text; layer() starts the next on top.
#pragma once

#include <SFML/Graphics/Font.hpp>
#include <SFML/Graphics/RenderTarget.hpp>
#include <SFML/Graphics/VertexArray.hpp>
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "ui/window/geometry.hpp"
#include "ui/window/palette.hpp"
#include "ui/words/units.hpp"

namespace quarterturn::window {

using words::thousands;

enum class Weight { regular, medium, semibold, bold, italic };
enum class Align { left, middle, right };

//! The faces of the drawing. Loaded once; missing Lato falls back to DejaVu Sans.
class Fonts {
public:
    //! False if not even the fallback is on the machine; missing() then says what to install.
    bool load();
    const sf::Font& face(Weight w) const { return faces_[static_cast<std::size_t>(w)]; }
    const std::string& missing() const { return missing_; }
    //! How far the pen moves for a character after another, per unit of size. Taken at a large size: at text sizes the
    //! hinted advances are whole pixels, which makes lines up to a tenth too wide.
    double advance(Weight w, sf::Uint32 before, sf::Uint32 ch) const;

private:
    std::array<sf::Font, 5> faces_;
    mutable std::array<std::map<std::pair<sf::Uint32, sf::Uint32>, double>, 5> advances_;
    std::string missing_;
};

inline constexpr double kThin = 1.0, kSeen = 1.6, kCut = 2.6;

struct Dash {
    double on = 0, off = 0;
};

//! Where a text was drawn, for tests that look for what is cut or overprinted.
struct TextBox {
    Rect r;  //!< of its letters, about
    std::string text;
    std::size_t layer = 0;
    double canvas_w = 0;  //!< pixels per unit there
};

class Canvas {
public:
    //! Every text drawn from now on is noted here too; nullptr: none is.
    inline static std::vector<TextBox>* noted = nullptr;

    Canvas(const Fonts& fonts, const Palette& palette) : fonts_(&fonts), c(palette) { layer(); }

    //! Pixels per drawing unit, and where the origin lies in pixels.
    void set_scale(double pixels_per_unit) { u_ = pixels_per_unit; }
    double scale() const { return u_; }
    void layer();
    //! From here on only what lies in r is seen, until unclip(): shapes are cut off, a line of text that does not lie
    //! wholly in it is left out.
    void clip(const Rect& r);
    void unclip();
    //! Where something will lie on top: a text that it would cut is left out, for half a label says something else.
    //! What it covers wholly is drawn and covered. An empty one ends it.
    void keep_clear_of(const Rect& r) { clear_of_ = r; }
    //! Would this text be left out?
    bool would_cut(double x, double y, double wide, double size) const;
    //! The same scale on paper of its own that nobody looks at: to find out how high something gets.
    Canvas sketch() const;
    //! Sends all layers to the target and forgets them.
    void flush(sf::RenderTarget& target);

    void fill(const Path& polygon, sf::Color colour, bool convex = false);
    void stroke(const Path& path, sf::Color colour, double width = kThin, bool closed = false, Dash dash = {});
    void shape(const Path& polygon, sf::Color fill_colour, sf::Color edge, double width = kSeen, Dash dash = {});
    void rect(const Rect& r, sf::Color fill_colour) { fill(box(r), fill_colour, true); }
    //! A sheet that lies over what was drawn before: on a layer of its own.
    void cover(const Rect& r, sf::Color fill_colour);
    void line(double x1, double y1, double x2, double y2, sf::Color colour, double width = kThin, Dash dash = {}) {
        stroke({{x1, y1}, {x2, y2}}, colour, width, false, dash);
    }
    void disc(double x, double y, double r, sf::Color colour);
    void ring(double x, double y, double r, sf::Color colour, double width = kSeen, Dash dash = {});
    //! Fill of a convex fan with a colour along an axis from p1 to p2.
    void gradient(const Path& polygon, sf::Color a, sf::Color b, Pt p1, Pt p2);
    void hatch(const Path& polygon, double angle, double gap, sf::Color colour, double width = kThin);
    void dots(const Path& polygon, double gap, double radius, sf::Color colour);
    void arrow(double x1, double y1, double x2, double y2, sf::Color colour, double width = kSeen, double head = 7);

    //! Draws text with its baseline at y. Returns its width [units].
    double text(double x, double y, std::string_view t, double size, Weight w, sf::Color colour,
                Align align = Align::left);
    //! Outline numerals: the inside in fill, the edge in ink.
    double hollow_text(double x, double y, std::string_view t, double size, Weight w, sf::Color inside, sf::Color edge,
                       Align align = Align::left);
    double width(std::string_view t, double size, Weight w) const;
    //! Wraps at a width; returns the baseline after the last line.
    double wrapped(double x, double y, std::string_view t, double max_width, double size, Weight w, sf::Color colour,
                   double lead = 1.3);
    //! The text cut to a width, with an ellipsis where it had to be.
    std::string fitted(std::string_view t, double max_width, double size, Weight w) const;
    //! As much of its end as a width holds: what is typed last stays in sight.
    std::string end_of(std::string_view t, double max_width, double size, Weight w) const;

    const Fonts* fonts_;
    Rect clear_of_{};
    Palette c;

private:
    struct TextKey {
        Weight weight;
        unsigned size;
        auto operator<=>(const TextKey&) const = default;
    };
    struct Layer {
        std::optional<Rect> clip{};
        std::vector<sf::Vertex> shapes;
        std::map<TextKey, std::vector<sf::Vertex>> text;
    };
    void triangle(Pt a, Pt b, Pt d, sf::Color ca, sf::Color cb, sf::Color cd);
    void ribbon(const Path& px, sf::Color colour, double width_px, bool closed);
    void glyphs(double x, double y, std::string_view t, double size, Weight w, sf::Color colour, double outline_px);
    unsigned pixel_size(double size) const;
    void note(double x, double y, std::string_view t, double size, double wide) const;

    bool left_out(double y, double size) const;

    double u_ = 1;
    bool sketch_ = false;
    std::optional<Rect> clip_;
    std::vector<Layer> layers_;
};

}  // namespace quarterturn::window
