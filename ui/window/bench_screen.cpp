#include "ui/window/bench_screen.hpp"

#include <SFML/Graphics/BlendMode.hpp>
#include <SFML/Graphics/Sprite.hpp>
#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace quarterturn::window {

using namespace std::chrono_literals;

namespace {

constexpr auto kFlamePeriod = 100ms;
constexpr auto kPointed = 250ms;  // as long as a pointer rests before something is said of what lies under it
constexpr double kTurnDegreesPerSecond = 90 / 0.18;  // a quarter turn in 180 ms; shorter steps are quicker

}  // namespace

void BenchScreen::resize(unsigned w, unsigned h) {
    width_ = w;
    height_ = h;
    layout_ = lay_out(width_, height_, hands_.text_scale, hands_.page);
    still_good_ = false;
    calm_good_ = false;
    dirty_ = true;
}

double BenchScreen::target_angle() const {
    return screw_angle(seat_.papers().screw(hands_.held), seat_.seen().ticks(hands_.held));
}

//! The held screw turns, it does not jump.
void BenchScreen::turn_held_screw(double seconds) {
    if (angle_of_ != hands_.held) {
        angle_of_ = hands_.held;
        hands_.shown_angle = target_angle();
        dirty_ = true;
    }
    const double goal = target_angle();
    if (std::abs(goal - hands_.shown_angle) <= 0.01) return;
    const double most = kTurnDegreesPerSecond * seconds;
    hands_.shown_angle += std::clamp(goal - hands_.shown_angle, -most, most);
    if (std::abs(goal - hands_.shown_angle) < 0.5) hands_.shown_angle = goal;
    dirty_ = true;
}

bool BenchScreen::advance(std::chrono::nanoseconds elapsed, bool second) {
    dirty_ |= second;
    if (seat_.asks_about_record() && hands_.sheet != Sheet::record) {
        hands_.sheet = Sheet::record;
        hands_.focus = "not unrecorded";
        dirty_ = true;
    }
    rest_pointer(elapsed);
    turn_held_screw(std::chrono::duration<double>(elapsed).count());
    // Flames and fan move ten times a second and only while something burns or turns; speed-up does not speed them.
    const Seen& r = seat_.seen();
    const bool moves = seat_.speed() > 0 && !hands_.still && (r.lit() || r.fan_rpm > 60);
    bool moved = false;
    since_flames_ += elapsed;
    if (moves && since_flames_ >= kFlamePeriod) {
        since_flames_ = 0ns;
        ++tick_;
        const double share = r.fan_rpm / seat_.papers().fan_rpm_high;
        fan_angle_ = std::fmod(fan_angle_ + std::min(18.0, 4 + 14 * share), 360);
        moved = !covered();
    }
    if (dirty_) calm_good_ = false;
    return std::exchange(dirty_, false) || moved;
}

void BenchScreen::paint_panels(Frame& f) {
    // In the single layout only a third of the drawing is in sight.
    if (layout_.single()) f.d.clip(layout_.view);
    drawing_targets(f);
    section_words(f);
    section_found(f);
    if (layout_.single()) f.d.unclip();
    top_bar(f);
    if (layout_.single()) page_cells(f);
    readings_panel(f);
    if (layout_.balloons())
        tabbed_panel(f);
    else
        trend_panel(f, layout_.trend);
    papers_panel(f);
    seat_.look_back() ? look_back_panel(f) : tray(f);
    bottom_line(f);
    // A card or a sheet lies over the flames: they stand still beneath it.
    if (layout_.single()) f.d.clip(layout_.view);
    if (covered()) section_moving(f, tick_, fan_angle_);
    finding_tags(f);
    if (layout_.single()) f.d.unclip();
    f.d.keep_clear_of({});
    part_card(f);
    if (hands_.sheet != Sheet::none) sheet_on_top(f);
}

void BenchScreen::paint_calm() {
    const Palette& colours = hands_.evening ? evening() : day();
    Canvas canvas(fonts_, colours);
    canvas.set_scale(layout_.u);
    hands_.about.clear();
    for (const Target* t : live_targets())
        if (t->name == (hands_.pointed.empty() ? hands_.focus : hands_.pointed)) hands_.about = t->about;
    if (hands_.card.of != hands_.part) hands_.card = {hands_.part, seat_.seen().findings.size()};
    targets_.clear();
    Frame f = frame(canvas);
    if (calm_.getSize() != sf::Vector2u(width_, height_)) calm_.create(width_, height_);
    calm_.clear(colours.paper);
    StillKey key = still_key(f);
    const Rect card = card_rect(f);
    key.card_x = card.x, key.card_y = card.y, key.card_w = card.w, key.card_h = card.h;
    canvas.keep_clear_of(card);
    if (!still_good_ || !(key == still_key_)) {
        if (still_.getSize() != sf::Vector2u(width_, height_)) still_.create(width_, height_);
        still_.clear(colours.paper);
        if (layout_.single()) canvas.clip(layout_.view);
        section_still(f);
        if (layout_.single()) canvas.unclip();
        canvas.flush(still_);
        still_.display();
        still_key_ = key;
        still_good_ = true;
    }
    calm_.draw(sf::Sprite(still_.getTexture()));
    paint_panels(f);
    canvas.layer();
    for (const Target* t : live_targets())
        if (t->name == hands_.focus)
            focus_marks(canvas, t->r);
        else if (t->name == hands_.pointed && !t->about.empty())
            canvas.stroke(box(t->r), canvas.c.ink2, kThin, true, {3, 2});
    canvas.flush(calm_);
    calm_.display();
    calm_good_ = true;
}

void BenchScreen::draw(sf::RenderTarget& target) {
    if (!calm_good_) paint_calm();
    target.draw(sf::Sprite(calm_.getTexture()), sf::BlendNone);
    if (covered()) return;
    Canvas canvas(fonts_, hands_.evening ? evening() : day());
    canvas.set_scale(layout_.u);
    Frame f = frame(canvas);
    if (layout_.single()) canvas.clip(layout_.view);
    section_moving(f, tick_, fan_angle_);
    canvas.flush(target);
}

std::vector<const Target*> BenchScreen::live_targets() const {
    const bool modal = hands_.sheet != Sheet::none;
    std::vector<const Target*> out;
    for (const Target& t : targets_)
        if (t.modal == modal) out.push_back(&t);
    return out;
}

void BenchScreen::press(const std::string& name) {
    const int page = hands_.page;
    for (const Target* t : live_targets())
        if (t->name == name) {
            const auto call = t->press;  // the list may be rebuilt by what it does
            seat_.say("");
            call();
            dirty_ = true;
            break;
        }
    if (hands_.page != page) resize(width_, height_);
}

void BenchScreen::move_focus(int by) {
    const auto live = live_targets();
    if (live.empty()) return;
    const int n = std::max(1, static_cast<int>(live.size()));
    int at = by > 0 ? -1 : n;
    for (int i = 0; i < n; ++i)
        if (live[static_cast<std::size_t>(i)]->name == hands_.focus) at = i;
    at = (at + by + n) % n;
    hands_.focus = live[static_cast<std::size_t>(at)]->name;
    dirty_ = true;
}

void BenchScreen::mouse(double x, double y) {
    std::string hit;
    for (const Target* t : live_targets())
        if (t->r.contains(x, y)) hit = t->name;  // the last drawn lies on top
    hands_.focus.clear();
    // What is pointed at changes with what is done.
    hands_.pointed.clear();
    under_.clear();
    seat_.say("");
    dirty_ = true;
    if (!hit.empty()) return press(hit);
    hands_.part.reset();  // bare paper puts the card away
}

void BenchScreen::point(double x, double y) {
    std::string hit;
    for (const Target* t : live_targets())
        if (t->r.contains(x, y)) hit = t->name;
    if (hit == under_) return;
    under_ = std::move(hit);
    since_under_ = 0ns;
    if (hands_.pointed.empty()) return;
    hands_.pointed.clear();
    dirty_ = true;
}

void BenchScreen::rest_pointer(std::chrono::nanoseconds elapsed) {
    if (under_.empty() || hands_.pointed == under_) return;
    since_under_ += elapsed;
    if (since_under_ < kPointed) return;
    hands_.pointed = under_;
    dirty_ = true;
}

}  // namespace quarterturn::window
