// Text on the canvas: fonts, advances, glyphs, lines that wrap.
#include <SFML/Config.hpp>
#include <SFML/System/String.hpp>
#include <algorithm>
#include <cmath>
#include <filesystem>

#include "sim/practice/utf8.hpp"
#include "ui/window/canvas.hpp"

namespace quarterturn::window {

namespace {

sf::String decode(std::string_view t) { return sf::String::fromUtf8(t.begin(), t.end()); }

}  // namespace

bool Fonts::load() {
    namespace fs = std::filesystem;
    const std::array<const char*, 5> names{"Lato-Regular.ttf", "Lato-Medium.ttf", "Lato-Semibold.ttf", "Lato-Bold.ttf",
                                           "Lato-MediumItalic.ttf"};
    const std::array<const char*, 5> fallback{"DejaVuSans.ttf", "DejaVuSans.ttf", "DejaVuSans-Bold.ttf",
                                              "DejaVuSans-Bold.ttf", "DejaVuSans.ttf"};
    const auto find = [](const char* file, std::initializer_list<const char*> folders) -> std::string {
        std::error_code ec;
        for (const char* f : folders)
            if (fs::is_regular_file(fs::path(f) / file, ec)) return (fs::path(f) / file).string();
        return {};
    };
    for (std::size_t i = 0; i < names.size(); ++i) {
        std::string path =
            find(names[i], {"/usr/share/fonts/truetype/lato", "/usr/share/fonts/lato", "/usr/local/share/fonts/lato"});
        if (path.empty()) path = find(fallback[i], {"/usr/share/fonts/truetype/dejavu", "/usr/share/fonts/dejavu"});
        if (path.empty() || !faces_[i].loadFromFile(path)) {
            missing_ = "no font was found: install the package fonts-lato or fonts-dejavu-core";
            return false;
        }
    }
    return true;
}

double Fonts::advance(Weight w, sf::Uint32 before, sf::Uint32 ch) const {
    const auto i = static_cast<std::size_t>(w);
    const auto [at, fresh] = advances_[i].try_emplace({before, ch}, 0.0);
    if (fresh) {
        constexpr unsigned large = 64;
        at->second = (static_cast<double>(faces_[i].getGlyph(ch, large, false).advance) +
                      static_cast<double>(faces_[i].getKerning(before, ch, large))) /
                     large;
    }
    return at->second;
}

unsigned Canvas::pixel_size(double size) const { return static_cast<unsigned>(std::lround(std::max(6.0, size * u_))); }

double Canvas::width(std::string_view t, double size, Weight w) const {
    const double px = pixel_size(size);
    double x = 0;
    sf::Uint32 before = 0;
    for (const sf::Uint32 ch : decode(t)) {
        x += fonts_->advance(w, before, ch) * px;
        before = ch;
    }
    return x / u_;
}

void Canvas::glyphs(double x, double y, std::string_view t, double size, Weight w, sf::Color colour,
                    double outline_px) {
    const sf::Font& f = fonts_->face(w);
    const unsigned px = pixel_size(size);
    auto& v = layers_.back().text[{w, px}];
    double pen = x * u_;
    const double base = std::round(y * u_);
    sf::Uint32 before = 0;
    for (const sf::Uint32 ch : decode(t)) {
        const sf::Glyph& g = f.getGlyph(ch, px, false, static_cast<float>(outline_px));
        if (g.bounds.width > 0) {
            // In SFML 2.5 an outlined glyph's bounds start where the bare one's do: its corner lies an outline further
            // out. From 2.6 on they start at the outline.
#if SFML_VERSION_MAJOR == 2 && SFML_VERSION_MINOR < 6
            const auto o = static_cast<float>(outline_px);
#else
            const float o = 0;
#endif
            const float l = std::round(static_cast<float>(pen)) + g.bounds.left - 1 - o;
            const float top = static_cast<float>(base) + g.bounds.top - 1 - o;
            const float r = l + g.bounds.width + 2;
            const float b = top + g.bounds.height + 2;
            const auto tl = static_cast<float>(g.textureRect.left) - 1;
            const auto tt = static_cast<float>(g.textureRect.top) - 1;
            const auto tr = static_cast<float>(g.textureRect.left + g.textureRect.width) + 1;
            const auto tb = static_cast<float>(g.textureRect.top + g.textureRect.height) + 1;
            v.emplace_back(sf::Vector2f(l, top), colour, sf::Vector2f(tl, tt));
            v.emplace_back(sf::Vector2f(r, top), colour, sf::Vector2f(tr, tt));
            v.emplace_back(sf::Vector2f(l, b), colour, sf::Vector2f(tl, tb));
            v.emplace_back(sf::Vector2f(l, b), colour, sf::Vector2f(tl, tb));
            v.emplace_back(sf::Vector2f(r, top), colour, sf::Vector2f(tr, tt));
            v.emplace_back(sf::Vector2f(r, b), colour, sf::Vector2f(tr, tb));
        }
        pen += fonts_->advance(w, before, ch) * px;
        before = ch;
    }
}

bool Canvas::left_out(double y, double size) const {
    if (sketch_) return true;
    return clip_ && (y - 0.75 * size < clip_->y || y + 0.22 * size > clip_->bottom());
}

void Canvas::note(double x, double y, std::string_view t, double size, double wide) const {
    if (!noted || t.empty()) return;
    noted->push_back({{x, y - 0.72 * size, wide, 0.78 * size}, std::string(t), layers_.size(), u_});
}

void Canvas::cover(const Rect& r, sf::Color fill_colour) {
    layer();
    rect(r, fill_colour);
    if (noted) std::erase_if(*noted, [&](const TextBox& t) { return r.contains(t.r.centre().x, t.r.centre().y); });
}

bool Canvas::would_cut(double x, double y, double wide, double size) const {
    const Rect& top_one = clear_of_;
    if (top_one.w <= 0) return false;
    const double top = y - size;
    const double bottom = y + 0.3 * size;
    if (x >= top_one.right() || x + wide <= top_one.x || top >= top_one.bottom() || bottom <= top_one.y) return false;
    return x < top_one.x || x + wide > top_one.right() || top < top_one.y || bottom > top_one.bottom();
}

double Canvas::text(double x, double y, std::string_view t, double size, Weight w, sf::Color colour, Align align) {
    const double wide = width(t, size, w);
    if (left_out(y, size)) return wide;
    if (align == Align::middle) x -= wide / 2;
    if (align == Align::right) x -= wide;
    if (would_cut(x, y, wide, size)) return wide;
    glyphs(x, y, t, size, w, colour, 0);
    note(x, y, t, size, wide);
    return wide;
}

double Canvas::hollow_text(double x, double y, std::string_view t, double size, Weight w, sf::Color inside_colour,
                           sf::Color edge, Align align) {
    const double wide = width(t, size, w);
    if (left_out(y, size)) return wide;
    if (align == Align::middle) x -= wide / 2;
    if (align == Align::right) x -= wide;
    glyphs(x, y, t, size, w, edge, std::max(1.0, 1.45 * u_));
    glyphs(x, y, t, size, w, inside_colour, 0);
    note(x, y, t, size, wide);
    return wide;
}

double Canvas::wrapped(double x, double y, std::string_view t, double max_width, double size, Weight w,
                       sf::Color colour, double lead) {
    std::string line;
    std::string word;
    const auto put = [&] {
        if (line.empty()) return;
        text(x, y, line, size, w, colour);
        y += size * lead;
        line.clear();
    };
    for (std::size_t i = 0; i <= t.size(); ++i) {
        const char ch = i < t.size() ? t[i] : ' ';
        if (ch != ' ' && ch != '\n') {
            word += ch;
            continue;
        }
        if (word.empty()) continue;
        // A word wider than the line, such as a path, is parted where the line ends.
        while (width(word, size, w) > max_width && word.size() > 1) {
            put();
            std::size_t n = word.size() - 1;
            while (n > 1 && width(word.substr(0, n), size, w) > max_width) --n;
            while (n > 1 && (static_cast<unsigned char>(word[n]) & 0xC0) == 0x80) --n;
            text(x, y, word.substr(0, n), size, w, colour);
            y += size * lead;
            word.erase(0, n);
        }
        const std::string longer = line.empty() ? word : line + " " + word;
        if (!line.empty() && width(longer, size, w) > max_width) {
            put();
            line = word;
        } else {
            line = longer;
        }
        word.clear();
    }
    put();
    return y;
}

std::string Canvas::fitted(std::string_view t, double max_width, double size, Weight w) const {
    if (width(t, size, w) <= max_width) return std::string(t);
    std::string s(t);
    while (!s.empty()) {
        // A whole character: its last bytes, and the one they belong to.
        while (s.size() > 1 && (static_cast<unsigned char>(s.back()) & 0xC0) == 0x80) s.pop_back();
        s.pop_back();
        if (width(s + "\u2026", size, w) <= max_width) break;
    }
    return s + "\u2026";
}

std::string Canvas::end_of(std::string_view t, double max_width, double size, Weight w) const {
    while (!t.empty() && width(t, size, w) > max_width) t.remove_prefix(std::max<std::size_t>(1, utf8_length(t)));
    return std::string(t);
}

}  // namespace quarterturn::window
