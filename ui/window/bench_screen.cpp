#include "ui/window/bench_screen.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <utility>

namespace quarterturn::window {

using namespace std::chrono_literals;

namespace {

//! Where attempts are kept: the user's data folder. Empty if it cannot be made.
std::string new_record_path(const std::string& lesson) {
    namespace fs = std::filesystem;
    const char* data = std::getenv("XDG_DATA_HOME");
    const char* home = std::getenv("HOME");
    if ((!data || !*data) && (!home || !*home)) return {};
    const fs::path folder = (data && *data ? fs::path(data) : fs::path(home) / ".local/share") / "quarterturn/attempts";
    std::error_code ec;
    fs::create_directories(folder, ec);
    if (ec) return {};
    const std::time_t now = std::time(nullptr);
    char stamp[40];
    std::strftime(stamp, sizeof stamp, "%Y%m%d-%H%M%S", std::localtime(&now));
    fs::path p = folder / (lesson + "-" + stamp + ".jsonl");
    for (int n = 2; fs::exists(p, ec); ++n) p = folder / (lesson + "-" + stamp + "-" + std::to_string(n) + ".jsonl");
    return p.string();
}

std::uint64_t seed_of_the_day() {
    if (const char* fixed = std::getenv("QUARTERTURN_SEED")) return std::strtoull(fixed, nullptr, 10);
    return static_cast<std::uint64_t>(std::time(nullptr));
}

constexpr auto kFlamePeriod = 100ms;
constexpr double kTurnDegreesPerSecond = 90 / 0.18;  // a quarter turn in 180 ms; shorter steps are quicker

}  // namespace

BenchScreen::BenchScreen(Start start, const Fonts& fonts) : start_(std::move(start)), fonts_(&fonts) { this->start(); }

void BenchScreen::start() {
    if (start_.attempt) {  // the first time only: after that it is a new attempt
        session_ = std::make_unique<Session>(start_.lesson, std::move(start_.attempt), std::move(start_.writer),
                                             start_.record_path);
    } else {
        const std::uint64_t seed = seed_of_the_day();
        if (start_.again)
            if (auto drawn = start_.again(seed); drawn.value) start_.lesson = *std::move(drawn.value);
        session_ = std::make_unique<Session>(start_.lesson, seed, new_record_path(start_.lesson.scenario.id));
    }
    const bool evening_before = hands_.evening;
    const double scale_before = hands_.text_scale;
    hands_ = Hands{};
    hands_.evening = evening_before;
    hands_.text_scale = scale_before;
    marked_ = false;
    first_rule_ = 0;
    dirty_ = true;
    resize(width_, height_);
}

void BenchScreen::resize(unsigned w, unsigned h) {
    width_ = std::max(320u, w);
    height_ = std::max(240u, h);
    layout_ = lay_out(width_, height_, hands_.text_scale, hands_.show_column);
    still_good_ = false;
    calm_good_ = false;
    dirty_ = true;
}

double BenchScreen::target_angle() const {
    const Appliance& a = session_->scenario().appliance;
    const Readings& r = session_->readings();
    return hands_.held == Held::throttle ? screw_angle(a.throttle, r.throttle_ticks)
                                         : screw_angle(a.offset, r.offset_ticks);
}

bool BenchScreen::advance(std::chrono::nanoseconds elapsed) {
    const bool second = session_->advance(elapsed);
    const Readings& r = session_->readings();
    dirty_ |= second;
    bool moved = false;
    if (session_->ended()) {
        if (!marked_) {
            marks_ = mark(session_->attempt());
            marked_ = true;
            hands_.sheet = Sheet::none;
            hands_.focus.clear();
            dirty_ = true;
        }
    } else {
        // The held screw turns, it does not jump.
        if (angle_of_ != hands_.held) {
            angle_of_ = hands_.held;
            hands_.shown_angle = target_angle();
            dirty_ = true;
        }
        const double seconds = std::chrono::duration<double>(elapsed).count();
        const double goal = target_angle();
        if (std::abs(goal - hands_.shown_angle) > 0.01) {
            const double most = kTurnDegreesPerSecond * seconds;
            hands_.shown_angle += std::clamp(goal - hands_.shown_angle, -most, most);
            if (std::abs(goal - hands_.shown_angle) < 0.5) hands_.shown_angle = goal;
            dirty_ = true;
        }
        // Flames and fan move ten times a second and only while something burns or turns; speed-up does not speed them.
        const bool moves = session_->speed() > 0 && (r.flame || r.fan_rpm > 60);
        since_flames_ += elapsed;
        if (moves && since_flames_ >= kFlamePeriod) {
            since_flames_ = 0ns;
            ++tick_;
            fan_angle_ = std::fmod(
                fan_angle_ + std::min(18.0, 4 + 14 * r.fan_rpm / session_->scenario().appliance.fan_rpm), 360);
            moved = hands_.sheet == Sheet::none;
        }
    }
    if (dirty_) calm_good_ = false;
    return std::exchange(dirty_, false) || moved;
}

void BenchScreen::paint_calm() {
    const Palette& colours = hands_.evening ? evening() : day();
    Canvas canvas(*fonts_, colours);
    canvas.set_scale(layout_.u);
    targets_.clear();
    Frame f{canvas, layout_, *session_, hands_, targets_, session_->readings()};
    if (calm_.getSize() != sf::Vector2u(width_, height_)) calm_.create(width_, height_);
    calm_.clear(colours.paper);
    if (marked_) {
        rules_shown_ = marks_screen(
            f, marks_, first_rule_, [this] { start(); }, [this] { close_ = true; });
    } else {
        const StillKey key = still_key(f);
        if (!still_good_ || !(key == still_key_)) {
            if (still_.getSize() != sf::Vector2u(width_, height_)) still_.create(width_, height_);
            still_.clear(colours.paper);
            section_still(f);
            canvas.flush(still_);
            still_.display();
            still_key_ = key;
            still_good_ = true;
        }
        calm_.draw(sf::Sprite(still_.getTexture()));
        top_bar(f);
        drawing_targets(f);
        section_words(f);
        readings_panel(f);
        if (layout_.balloons())
            tabbed_panel(f);
        else
            trend_panel(f, layout_.trend);
        papers_panel(f);
        tray(f);
        bottom_line(f);
        if (hands_.sheet != Sheet::none) {
            // A sheet lies over the flames: they stand still beneath it.
            section_moving(f, tick_, fan_angle_);
            sheet_on_top(f);
        }
        canvas.layer();
    }
    for (const Target* t : live_targets())
        if (t->name == hands_.focus) focus_marks(canvas, t->r);
    canvas.flush(calm_);
    calm_.display();
    calm_good_ = true;
}

void BenchScreen::draw(sf::RenderTarget& target) {
    if (!calm_good_) paint_calm();
    target.draw(sf::Sprite(calm_.getTexture()), sf::BlendNone);
    if (marked_ || hands_.sheet != Sheet::none) return;
    Canvas canvas(*fonts_, hands_.evening ? evening() : day());
    canvas.set_scale(layout_.u);
    Frame f{canvas, layout_, *session_, hands_, targets_, session_->readings()};
    section_moving(f, tick_, fan_angle_);
    canvas.flush(target);
}

std::vector<const Target*> BenchScreen::live_targets() const {
    const bool modal = !marked_ && hands_.sheet != Sheet::none;
    std::vector<const Target*> out;
    for (const Target& t : targets_)
        if (t.modal == modal) out.push_back(&t);
    return out;
}

void BenchScreen::press(const std::string& name) {
    for (const Target* t : live_targets())
        if (t->name == name) {
            const auto call = t->press;  // the list may be rebuilt by what it does
            session_->say("");
            call();
            dirty_ = true;
            return;
        }
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

void BenchScreen::handle(const sf::Event& e) {
    switch (e.type) {
        case sf::Event::Resized: resize(e.size.width, e.size.height); break;
        case sf::Event::MouseButtonPressed: {
            if (e.mouseButton.button != sf::Mouse::Left) break;
            const double x = e.mouseButton.x / layout_.u;
            const double y = e.mouseButton.y / layout_.u;
            std::string hit;
            for (const Target* t : live_targets())
                if (t->r.contains(x, y)) hit = t->name;  // the last drawn lies on top
            hands_.focus.clear();
            session_->say("");
            dirty_ = true;
            if (!hit.empty()) press(hit);
            break;
        }
        case sf::Event::KeyPressed: key(e.key); break;
        default: break;
    }
}

void BenchScreen::key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    dirty_ = true;
    if (k.code == Key::Tab) return move_focus(k.shift ? -1 : 1);
    if (k.control) {
        // Text scale, as everywhere else.
        const double before = hands_.text_scale;
        if (k.code == Key::Equal || k.code == Key::Add) hands_.text_scale = std::min(2.0, before + 0.25);
        if (k.code == Key::Hyphen || k.code == Key::Subtract) hands_.text_scale = std::max(1.0, before - 0.25);
        if (k.code == Key::Num0) hands_.text_scale = 1.0;
        if (hands_.text_scale != before) resize(width_, height_);
        return;
    }
    if (k.code == Key::F7) {
        hands_.evening = !hands_.evening;
        still_good_ = false;
        return;
    }
    if (marked_) {
        switch (k.code) {
            case Key::Escape: close_ = true; break;
            case Key::T: start(); break;
            case Key::Down:
                if (first_rule_ + rules_shown_ < marks_.rules.size())
                    first_rule_ += std::max<std::size_t>(1, rules_shown_);
                break;
            case Key::Up:
                first_rule_ = first_rule_ > rules_shown_ ? first_rule_ - std::max<std::size_t>(1, rules_shown_) : 0;
                break;
            case Key::Enter:
            case Key::Space:
                if (!hands_.focus.empty()) press(hands_.focus);
                break;
            default: break;
        }
        return;
    }
    if (hands_.sheet != Sheet::none) {
        switch (k.code) {
            case Key::Escape:
                hands_.sheet = Sheet::none;
                hands_.focus.clear();
                session_->say("");
                return;
            case Key::Enter:
                // The sheet's own answer, unless something else has the focus.
                if (!hands_.focus.empty())
                    press(hands_.focus);
                else if (hands_.sheet == Sheet::report)
                    press("leave");
                else
                    press("close sheet");
                return;
            case Key::Space:
                if (!hands_.focus.empty()) press(hands_.focus);
                return;
            case Key::Down:
            case Key::Right: return move_focus(1);
            case Key::Up:
            case Key::Left: return move_focus(-1);
            case Key::F2: session_->act(call_action(BurnerCall::low)); return;
            case Key::F3: session_->act(call_action(BurnerCall::normal)); return;
            case Key::F4: session_->act(call_action(BurnerCall::high)); return;
            case Key::K:
                if (hands_.sheet == Sheet::check) hands_.sheet = Sheet::none;
                return;
            case Key::Num1:
            case Key::Num2:
            case Key::Num3:
                if (hands_.sheet == Sheet::check)
                    hands_.check_tab = static_cast<int>(k.code) - static_cast<int>(Key::Num1);
                return;
            case Key::L:
                if (hands_.sheet == Sheet::look_around) hands_.sheet = Sheet::none;
                return;
            case Key::Hyphen:
            case Key::Subtract:
                if (hands_.sheet == Sheet::water) change_draw(*session_, -0.5);
                return;
            case Key::Equal:
            case Key::Add:
                if (hands_.sheet == Sheet::water) change_draw(*session_, 0.5);
                return;
            default: return;
        }
    }
    session_->say("");
    const auto take = [this](Held h) { hands_.held = h; };
    const auto steps = [this](int ticks) { hands_.ticks = ticks; };
    switch (k.code) {
        case Key::Enter:
            if (!hands_.focus.empty()) press(hands_.focus);
            break;
        case Key::Space:
            if (!hands_.focus.empty())
                press(hands_.focus);
            else
                session_->toggle_pause();
            break;
        case Key::Left:
        case Key::Right:
            hands_.way = k.code == Key::Left ? Turn::left : Turn::right;
            session_->act(turn_action(hands_.held, hands_.way, hands_.ticks));
            break;
        case Key::A: take(Held::throttle); break;
        case Key::B: take(Held::offset); break;
        case Key::C: {
            const bool throttle = hands_.held == Held::throttle;
            const bool on = throttle ? session_->readings().throttle_cap_on : session_->readings().offset_cap_on;
            session_->act(make_action(throttle ? Verb::cap_throttle : Verb::cap_offset, on));
            break;
        }
        case Key::Num1: steps(16); break;
        case Key::Num2: steps(8); break;
        case Key::Num3: steps(4); break;
        case Key::Num4: steps(2); break;
        case Key::Num5: steps(1); break;
        case Key::F2: session_->act(call_action(BurnerCall::low)); break;
        case Key::F3: session_->act(call_action(BurnerCall::normal)); break;
        case Key::F4: session_->act(call_action(BurnerCall::high)); break;
        case Key::F5: session_->stamp(); break;
        case Key::F6:
            hands_.show_column = !hands_.show_column;
            resize(width_, height_);
            break;
        case Key::Hyphen:
        case Key::Subtract: change_draw(*session_, -0.5); break;
        case Key::Equal:
        case Key::Add: change_draw(*session_, 0.5); break;
        case Key::Comma: session_->set_speed(session_->speed() >= 20 ? 5 : 1); break;
        case Key::Period: session_->set_speed(session_->speed() >= 5 ? 20 : session_->speed() == 0 ? 1 : 5); break;
        case Key::L: press("look"); break;
        case Key::K: press("check"); break;
        case Key::H: session_->ask_hint(); break;
        case Key::R: press("report"); break;
        case Key::Escape: press("safe"); break;
        default: break;
    }
}

}  // namespace quarterturn::window
