#include "ui/window/bench_screen.hpp"

#include <SFML/Graphics/BlendMode.hpp>
#include <SFML/Graphics/Sprite.hpp>
#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "sim/bench/action_text.hpp"
#include "ui/window/typing.hpp"

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

void BenchScreen::key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    dirty_ = true;
    // Who uses keys is answered to the keys: what the pointer was left on says nothing until it moves.
    hands_.pointed.clear();
    under_.clear();
    if (k.code == Key::Tab) return move_focus(k.shift ? -1 : 1);
    // In danger it is one key, whatever lies on top.
    if (k.code == Key::F12) {
        hands_.sheet = Sheet::none;
        hands_.part.reset();
        return press("safe");
    }
    if (hands_.sheet != Sheet::none) {
        if (!sheet_key(k)) fire_key(k);
        return;
    }
    seat_.say("");
    if (hands_.part && card_key(k)) return;
    if (!hand_key(k) && !fire_key(k)) bench_key(k);
}

//! Keys of the sheet on top.
bool BenchScreen::sheet_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (hands_.typing && type_key(k)) return true;
    const bool asked = hands_.sheet == Sheet::record;  // has to be answered
    const auto close = [this] {
        press("close sheet");
        hands_.typing.reset();
        return true;
    };
    if (k.code == Key::Escape && hands_.sheet == Sheet::leave) {
        hands_.sheet = Sheet::report;
        hands_.focus.clear();
        return true;
    }
    if (k.code == Key::Escape) return asked || close();
    if (k.code == Key::Enter || k.code == Key::Space) {
        // The sheet's own answer, unless something else has the focus.
        if (!hands_.focus.empty())
            press(hands_.focus);
        else if (k.code == Key::Enter && hands_.sheet != Sheet::report && hands_.sheet != Sheet::leave)
            press("close sheet");
        return true;
    }
    if (k.code == Key::Down || k.code == Key::Right) return move_focus(1), true;
    if (k.code == Key::Up || k.code == Key::Left) return move_focus(-1), true;
    if (k.code == Key::J && hands_.sheet == Sheet::report) return close();
    if (hands_.sheet == Sheet::water && (k.code == Key::Hyphen || k.code == Key::Subtract))
        return change_draw(seat_, -0.5), true;
    if (hands_.sheet == Sheet::water && (k.code == Key::Equal || k.code == Key::Add))
        return change_draw(seat_, 0.5), true;
    return false;
}

//! Something is being typed into the job sheet.
bool BenchScreen::type_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    std::string& text = hands_.typing->text;
    if (k.code == Key::Backspace) {
        while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80) text.pop_back();
        if (!text.empty()) text.pop_back();
        return true;
    }
    if (k.code == Key::Escape) {
        hands_.typing.reset();
        return true;
    }
    if (k.code == Key::Enter) return write_typed(), true;
    if (!hands_.typing->field) return true;  // its letters come as text
    const auto digit = [&](Key first, Key last) {
        return k.code >= first && k.code <= last
                   ? std::optional(static_cast<char>('0' + (static_cast<int>(k.code) - static_cast<int>(first))))
                   : std::nullopt;
    };
    std::optional<char> c = digit(Key::Num0, Key::Num9);
    if (!c) c = digit(Key::Numpad0, Key::Numpad9);
    if (!c && (k.code == Key::Period || k.code == Key::Comma) && text.find('.') == std::string::npos) c = '.';
    if (!c) return false;
    constexpr std::size_t longest = 7;
    if (text.size() < longest) text += *c;
    return true;
}

void BenchScreen::write_typed() {
    const Typing typed = *hands_.typing;
    if (!typed.field) {
        seat_.act(practice::remark(typed.text));
    } else if (!typed.text.empty() && typed.text != ".") {
        const double v = typed_value(seat_.papers(), *typed.field, std::stod(typed.text));
        const bench::FieldSpec& spec = bench::spec_of(*typed.field);
        if (v > spec.high) return seat_.say(tr("No such figure: it is more than can be read there."));
        seat_.act(practice::enter(*typed.field, v));
    }
    hands_.typing.reset();
}

void BenchScreen::text(std::uint32_t unicode) {
    if (!hands_.typing || hands_.typing->field || unicode == kTakesBack) return;  // that one comes as a key
    type_into(hands_.typing->text, unicode, practice::kMostRemark);
    dirty_ = true;
}

//! Keys of the card that lies open: it is put away, and its rows are walked.
bool BenchScreen::card_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code == Key::Escape || k.code == Key::Backspace) {
        hands_.focus = part_word(*hands_.part);
        hands_.part.reset();
        return true;
    }
    if (k.code != Key::Down && k.code != Key::Up) return false;
    // Only the card's own targets, which come last.
    const auto live = live_targets();
    std::vector<std::string> own;
    bool on_card = false;
    for (const Target* t : live) {
        on_card |= t->name == "card";
        if (on_card && t->name != "card") own.push_back(t->name);
    }
    if (own.empty()) return true;
    const auto at = std::find(own.begin(), own.end(), hands_.focus);
    const std::size_t n = own.size();
    std::size_t i = at == own.end() ? (k.code == Key::Down ? std::min<std::size_t>(1, n - 1) : n - 1)
                                    : static_cast<std::size_t>(at - own.begin()) + (k.code == Key::Down ? 1 : n - 1);
    hands_.focus = own[i % n];
    return true;
}

bool BenchScreen::fire_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code != Key::F2 && k.code != Key::F3 && k.code != Key::F4) return false;
    seat_.act(practice::force(k.code == Key::F2   ? ForcedFire::low
                              : k.code == Key::F3 ? ForcedFire::off
                                                  : ForcedFire::high));
    return true;
}

//! Screws: which, how far, which way, its cap.
bool BenchScreen::hand_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code == Key::Left || k.code == Key::Right) {
        hands_.way = k.code == Key::Left ? Turn::left : Turn::right;
        seat_.act(practice::turn(hands_.held, hands_.way, hands_.ticks));
        return true;
    }
    if (k.code == Key::T || k.code == Key::O) {
        hands_.held = k.code == Key::T ? ScrewId::throttle : ScrewId::offset;
        return true;
    }
    if (k.code == Key::C) {
        seat_.act(practice::cap(hands_.held, !seat_.seen().cap_on(hands_.held)));
        return true;
    }
    if (k.code >= Key::Num1 && k.code <= Key::Num5) {
        hands_.ticks = 16 >> (static_cast<int>(k.code) - static_cast<int>(Key::Num1));
        return true;
    }
    return false;
}

void BenchScreen::bench_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    const auto pressed = [this](const char* name) { press(name); };
    const int speed = seat_.speed();
    if (k.code == Key::Enter && !hands_.focus.empty()) return press(hands_.focus);
    if (k.code == Key::Space) return hands_.focus.empty() ? seat_.toggle_pause() : press(hands_.focus);
    if (k.code == Key::F5) return void(seat_.record_reading());
    if (k.code == Key::F6) {
        hands_.page = (hands_.page + 1) % kPages;
        return resize(width_, height_);
    }
    if (k.code == Key::Hyphen || k.code == Key::Subtract) return change_draw(seat_, -0.5);
    if (k.code == Key::Equal || k.code == Key::Add) return change_draw(seat_, 0.5);
    if (k.code == Key::Comma) return seat_.set_speed(speed >= 20 ? 5 : 1);
    if (k.code == Key::Period) return seat_.set_speed(speed >= 5 ? 20 : speed == 0 ? 1 : 5);
    if (k.code == Key::H) return seat_.ask_hint();
    if (k.code == Key::S) return seat_.run_until_settled();
    if (k.control && k.code == Key::Z) return void(seat_.take_back());
    if (k.code == Key::J) return pressed("report");
}

}  // namespace quarterturn::window
