#include "ui/window/canvas.hpp"

#include <SFML/Config.hpp>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace quarterturn::window {

namespace {

sf::Vector2f vec(Pt p) { return {static_cast<float>(p.x), static_cast<float>(p.y)}; }

double cross(Pt o, Pt a, Pt b) { return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x); }

double signed_area(const Path& p) {
    double s = 0;
    for (std::size_t i = 0, j = p.size() - 1; i < p.size(); j = i++) s += p[j].x * p[i].y - p[i].x * p[j].y;
    return s / 2;
}

Path without_doubles(const Path& p) {
    Path out;
    for (const Pt& q : p)
        if (out.empty() || std::hypot(q.x - out.back().x, q.y - out.back().y) > 1e-3) out.push_back(q);
    while (out.size() > 2 && std::hypot(out.front().x - out.back().x, out.front().y - out.back().y) < 1e-3)
        out.pop_back();
    return out;
}

//! Unit normal of each vertex of a path, to its left, lengthened at corners so that offset edges stay parallel.
Path normals(const Path& p, bool closed) {
    const std::size_t n = p.size();
    Path out(n);
    const auto edge_normal = [&](std::size_t a, std::size_t b) {
        const double dx = p[b].x - p[a].x;
        const double dy = p[b].y - p[a].y;
        const double l = std::max(1e-9, std::hypot(dx, dy));
        return Pt{dy / l, -dx / l};
    };
    for (std::size_t i = 0; i < n; ++i) {
        const bool first = i == 0 && !closed;
        const bool last = i + 1 == n && !closed;
        const Pt before = first ? edge_normal(0, 1) : edge_normal((i + n - 1) % n, i);
        const Pt after = last ? before : edge_normal(i, (i + 1) % n);
        Pt m{before.x + after.x, before.y + after.y};
        const double l2 = m.x * m.x + m.y * m.y;
        // The mitre: 2 m / |m|^2, held back at very sharp corners.
        const double k = l2 > 1e-6 ? std::min(2.0 / l2, 3.0 / std::sqrt(l2)) : 0;
        out[i] = l2 > 1e-6 ? Pt{m.x * k, m.y * k} : before;
    }
    return out;
}

}  // namespace

void Canvas::layer() { layers_.push_back({clip_, {}, {}}); }

void Canvas::clip(const Rect& r) {
    clip_ = r;
    layer();
}

void Canvas::unclip() {
    clip_.reset();
    layer();
}

Canvas Canvas::sketch() const {
    Canvas s(*fonts_, c);
    s.set_scale(u_);
    s.sketch_ = true;
    return s;
}

void Canvas::flush(sf::RenderTarget& target) {
    const sf::View whole = target.getView();
    for (Layer& l : layers_) {
        if (l.clip) {
            // What a viewport does not show is cut off.
            const auto px = [this](double v) { return static_cast<float>(std::round(v * u_)); };
            const sf::FloatRect r(px(l.clip->x), px(l.clip->y), px(l.clip->w), px(l.clip->h));
            const sf::Vector2f size(target.getSize());
            sf::View part(r);
            part.setViewport({r.left / size.x, r.top / size.y, r.width / size.x, r.height / size.y});
            target.setView(part);
        }
        if (!l.shapes.empty()) target.draw(l.shapes.data(), l.shapes.size(), sf::PrimitiveType::Triangles);
        for (auto& [key, v] : l.text) {
            sf::RenderStates s;
            s.texture = &fonts_->face(key.weight).getTexture(key.size);
            target.draw(v.data(), v.size(), sf::PrimitiveType::Triangles, s);
        }
        if (l.clip) target.setView(whole);
    }
    layers_.clear();
    layer();
}

void Canvas::triangle(Pt a, Pt b, Pt d, sf::Color ca, sf::Color cb, sf::Color cd) {
    auto& v = layers_.back().shapes;
    v.emplace_back(vec(a), ca);
    v.emplace_back(vec(b), cb);
    v.emplace_back(vec(d), cd);
}

namespace {

//! Ear clipping. Emits index triples of a simple polygon.
template <class Emit>
void triangulate(const Path& p, Emit&& emit) {
    std::vector<std::size_t> left(p.size());
    for (std::size_t i = 0; i < p.size(); ++i) left[i] = i;
    const double sign = signed_area(p) >= 0 ? 1 : -1;
    std::size_t guard = p.size() * p.size() + 8;
    std::size_t i = 0;
    while (left.size() > 3 && guard-- > 0) {
        const std::size_t n = left.size();
        const std::size_t a = left[(i + n - 1) % n];
        const std::size_t b = left[i % n];
        const std::size_t d = left[(i + 1) % n];
        bool ear = sign * cross(p[a], p[b], p[d]) > 0;
        for (std::size_t k = 0; ear && k < n; ++k) {
            const std::size_t q = left[k];
            if (q == a || q == b || q == d) continue;
            if (sign * cross(p[a], p[b], p[q]) >= 0 && sign * cross(p[b], p[d], p[q]) >= 0 &&
                sign * cross(p[d], p[a], p[q]) >= 0)
                ear = false;
        }
        if (ear || sign * cross(p[a], p[b], p[d]) == 0) {
            emit(a, b, d);
            left.erase(left.begin() + static_cast<std::ptrdiff_t>(i % n));
        } else {
            ++i;
        }
        if (!left.empty()) i %= left.size();
    }
    if (left.size() == 3) emit(left[0], left[1], left[2]);
}

}  // namespace

void Canvas::fill(const Path& polygon, sf::Color colour, bool convex) {
    if (colour.a == 0) return;
    Path px = without_doubles(polygon);
    if (px.size() < 3) return;
    for (Pt& p : px) p = {p.x * u_, p.y * u_};
    if (signed_area(px) < 0) std::reverse(px.begin(), px.end());
    const Path n = normals(px, true);
    // Half a pixel inside is solid, half a pixel outside is clear. With this orientation the normal points outwards.
    Path in(px.size());
    Path out(px.size());
    for (std::size_t i = 0; i < px.size(); ++i) {
        in[i] = {px[i].x - 0.5 * n[i].x, px[i].y - 0.5 * n[i].y};
        out[i] = {px[i].x + 0.5 * n[i].x, px[i].y + 0.5 * n[i].y};
    }
    if (convex || px.size() == 3)
        for (std::size_t i = 1; i + 1 < in.size(); ++i) triangle(in[0], in[i], in[i + 1], colour, colour, colour);
    else
        triangulate(in, [&](std::size_t a, std::size_t b, std::size_t d) {
            triangle(in[a], in[b], in[d], colour, colour, colour);
        });
    const sf::Color clear = with_alpha(colour, 0);
    for (std::size_t i = 0, j = px.size() - 1; i < px.size(); j = i++) {
        triangle(in[j], in[i], out[i], colour, colour, clear);
        triangle(in[j], out[i], out[j], colour, clear, clear);
    }
}

void Canvas::ribbon(const Path& px, sf::Color colour, double width_px, bool closed) {
    if (px.size() < 2) return;
    double half = width_px / 2;
    if (half < 0.5) {
        colour = with_alpha(colour, colour.a / 255.0 * half * 2);
        half = 0.5;
    }
    const Path n = normals(px, closed);
    const sf::Color clear = with_alpha(colour, 0);
    const double solid = half - 0.5;
    const double edge = half + 0.5;
    const std::size_t pieces = closed ? px.size() : px.size() - 1;
    const auto at = [&](std::size_t i, double d) { return Pt{px[i].x + n[i].x * d, px[i].y + n[i].y * d}; };
    for (std::size_t i = 0; i < pieces; ++i) {
        const std::size_t k = (i + 1) % px.size();
        if (solid > 0) {
            triangle(at(i, solid), at(k, solid), at(k, -solid), colour, colour, colour);
            triangle(at(i, solid), at(k, -solid), at(i, -solid), colour, colour, colour);
        }
        for (const double s : {1.0, -1.0}) {
            triangle(at(i, s * solid), at(k, s * solid), at(k, s * edge), colour, colour, clear);
            triangle(at(i, s * solid), at(k, s * edge), at(i, s * edge), colour, clear, clear);
        }
    }
}

void Canvas::stroke(const Path& path, sf::Color colour, double width, bool closed, Dash dash) {
    if (colour.a == 0) return;
    Path px = without_doubles(path);
    if (px.size() < 2) return;
    for (Pt& p : px) p = {p.x * u_, p.y * u_};
    // Level and upright thin lines sit on whole pixels, or they blur over two.
    const double w = width * u_;
    if (px.size() == 2 && dash.on <= 0) {
        const bool odd = static_cast<long>(std::lround(std::max(1.0, w))) % 2 == 1;
        const auto snap = [odd](double v) { return odd ? std::floor(v) + 0.5 : std::round(v); };
        if (std::abs(px[0].x - px[1].x) < 0.01) px[0].x = px[1].x = snap(px[0].x);
        if (std::abs(px[0].y - px[1].y) < 0.01) px[0].y = px[1].y = snap(px[0].y);
    }
    if (dash.on <= 0) return ribbon(px, colour, w, closed);
    if (closed) px.push_back(px.front());
    double left = dash.on * u_;
    bool on = true;
    Path piece{px[0]};
    for (std::size_t i = 0; i + 1 < px.size(); ++i) {
        Pt a = px[i];
        const Pt b = px[i + 1];
        double length = std::hypot(b.x - a.x, b.y - a.y);
        while (length > left) {
            const double t = left / length;
            a = {a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t};
            length -= left;
            if (on) {
                piece.push_back(a);
                ribbon(piece, colour, w, false);
            }
            on = !on;
            piece = {a};
            left = (on ? dash.on : dash.off) * u_;
        }
        left -= length;
        if (on)
            piece.push_back(b);
        else
            piece = {b};
    }
    if (on && piece.size() > 1) ribbon(piece, colour, w, false);
}

void Canvas::shape(const Path& polygon, sf::Color fill_colour, sf::Color edge, double width, Dash dash) {
    fill(polygon, fill_colour);
    stroke(polygon, edge, width, true, dash);
}

void Canvas::disc(double x, double y, double r, sf::Color colour) {
    fill(arc(x, y, r, 0, 360, r * u_ < 4 ? 8 : r * u_ < 14 ? 18 : 40), colour, true);
}

void Canvas::ring(double x, double y, double r, sf::Color colour, double width, Dash dash) {
    stroke(arc(x, y, r, 0, 360, r * u_ < 14 ? 24 : 48), colour, width, true, dash);
}

void Canvas::gradient(const Path& polygon, sf::Color a, sf::Color b, Pt p1, Pt p2) {
    if (polygon.size() < 3) return;
    const double dx = p2.x - p1.x;
    const double dy = p2.y - p1.y;
    const double l2 = std::max(1e-9, dx * dx + dy * dy);
    const auto colour = [&](Pt p) { return blend(a, b, ((p.x - p1.x) * dx + (p.y - p1.y) * dy) / l2); };
    const auto pixel = [&](Pt p) { return Pt{p.x * u_, p.y * u_}; };
    triangulate(polygon, [&](std::size_t i, std::size_t j, std::size_t k) {
        triangle(pixel(polygon[i]), pixel(polygon[j]), pixel(polygon[k]), colour(polygon[i]), colour(polygon[j]),
                 colour(polygon[k]));
    });
}

void Canvas::hatch(const Path& polygon, double angle, double gap, sf::Color colour, double width) {
    const double a = angle * std::numbers::pi / 180;
    const Pt along{std::cos(a), std::sin(a)};
    const Pt across{-along.y, along.x};
    double lo = 1e18;
    double hi = -1e18;
    for (const Pt& p : polygon) {
        const double d = p.x * across.x + p.y * across.y;
        lo = std::min(lo, d);
        hi = std::max(hi, d);
    }
    std::vector<double> hits;
    for (double d = std::floor(lo / gap) * gap; d < hi; d += gap) {
        hits.clear();
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Pt& p = polygon[i];
            const Pt& q = polygon[(i + 1) % polygon.size()];
            const double da = p.x * across.x + p.y * across.y - d;
            const double db = q.x * across.x + q.y * across.y - d;
            if ((da < 0) == (db < 0)) continue;
            const double t = da / (da - db);
            hits.push_back((p.x + t * (q.x - p.x)) * along.x + (p.y + t * (q.y - p.y)) * along.y);
        }
        std::sort(hits.begin(), hits.end());
        for (std::size_t i = 0; i + 1 < hits.size(); i += 2)
            stroke({{hits[i] * along.x + d * across.x, hits[i] * along.y + d * across.y},
                    {hits[i + 1] * along.x + d * across.x, hits[i + 1] * along.y + d * across.y}},
                   colour, width);
    }
}

void Canvas::dots(const Path& polygon, double gap, double radius, sf::Color colour) {
    double x0 = 1e18, x1 = -1e18, y0 = 1e18, y1 = -1e18;
    for (const Pt& p : polygon) {
        x0 = std::min(x0, p.x);
        x1 = std::max(x1, p.x);
        y0 = std::min(y0, p.y);
        y1 = std::max(y1, p.y);
    }
    int row = 0;
    for (double y = y0 + gap / 2; y < y1; y += gap * 0.8, ++row)
        for (double x = x0 + gap / 2 + (row % 2) * gap / 2; x < x1; x += gap)
            if (inside(x, y, polygon)) fill(arc(x, y, radius, 0, 360, 6), colour, true);
}

void Canvas::arrow(double x1, double y1, double x2, double y2, sf::Color colour, double width, double head) {
    const double a = std::atan2(y2 - y1, x2 - x1);
    line(x1, y1, x2 - std::cos(a) * head * 0.8, y2 - std::sin(a) * head * 0.8, colour, width);
    fill({{x2, y2},
          {x2 - head * std::cos(a - 0.42), y2 - head * std::sin(a - 0.42)},
          {x2 - head * std::cos(a + 0.42), y2 - head * std::sin(a + 0.42)}},
         colour, true);
}

}  // namespace quarterturn::window
