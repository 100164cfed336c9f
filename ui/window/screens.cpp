#include "ui/window/screens.hpp"

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <fmt/chrono.h>
#include <utility>

namespace quarterturn::window {

namespace {

//! Where a new attempt is kept: the user's data folder. Empty, with the reason, if it cannot be.
std::string new_record_path(const std::string& lesson, std::string& reason) {
    namespace fs = std::filesystem;
    const char* data = std::getenv("XDG_DATA_HOME");
    const char* home = std::getenv("HOME");
    if ((!data || !*data) && (!home || !*home)) {
        reason = tr("There is no home folder (HOME is not set) to keep attempts in.");
        return {};
    }
    const fs::path folder = (data && *data ? fs::path(data) : fs::path(home) / ".local/share") / "quarterturn/attempts";
    std::error_code ec;
    fs::create_directories(folder, ec);
    if (ec) {
        reason = say("{0} cannot be made: {1}", folder.string(), ec.message());
        return {};
    }
    const std::string stamp = fmt::format("{:%Y%m%d-%H%M%S}", fmt::localtime(std::time(nullptr)));
    fs::path p = folder / fmt::format("{}-{}.jsonl", lesson, stamp);
    for (int n = 2; fs::exists(p, ec); ++n) p = folder / fmt::format("{}-{}-{}.jsonl", lesson, stamp, n);
    return p.string();
}

std::uint64_t seed_of_the_day() {
    if (const char* fixed = std::getenv("QUARTERTURN_SEED")) return std::strtoull(fixed, nullptr, 10);
    return static_cast<std::uint64_t>(std::time(nullptr));
}

}  // namespace

Screens::Screens(Start start, const Fonts& fonts) : start_(std::move(start)), fonts_(fonts) { this->start(); }

void Screens::start() {
    if (start_.attempt) {  // the first time only: after that it is a new attempt
        session_ = std::make_unique<Session>(start_.lesson, std::move(start_.attempt), std::move(start_.writer),
                                             start_.record_path, start_.no_record);
    } else {
        const std::uint64_t seed = start_.seed.value_or(seed_of_the_day());
        start_.seed.reset();  // the next one is drawn anew
        if (start_.again)
            if (auto drawn = start_.again(seed); drawn.value) start_.lesson = *std::move(drawn.value);
        std::string reason;
        const std::string path = new_record_path(start_.lesson.scenario.id, reason);
        session_ = std::make_unique<Session>(start_.lesson, seed, path, reason);
    }
    Hands fresh;
    fresh.evening = hands_.evening;
    fresh.text_scale = hands_.text_scale;
    hands_ = std::move(fresh);
    bench_ = std::make_unique<BenchScreen>(*session_, hands_, fonts_);
    marked_ = false;
    first_rule_ = 0;
    resize(width_, height_);
}

void Screens::resize(unsigned w, unsigned h) {
    width_ = std::max(320u, w);
    height_ = std::max(240u, h);
    bench_->resize(width_, height_);
    marks_dirty_ = true;
}

bool Screens::advance(std::chrono::nanoseconds elapsed) {
    const bool second = session_->advance(elapsed);
    if (!session_->ended()) return bench_->advance(elapsed, second);
    if (!marked_) {
        marks_ = marking::mark(session_->attempt());
        marked_ = marks_dirty_ = true;
        hands_.sheet = Sheet::none;
        hands_.focus.clear();
    }
    return std::exchange(marks_dirty_, false);
}

void Screens::draw(sf::RenderTarget& target) {
    if (marked_)
        draw_marks(target);
    else
        bench_->draw(target);
}

void Screens::draw_marks(sf::RenderTarget& target) {
    const Palette& colours = hands_.evening ? evening() : day();
    Canvas canvas(fonts_, colours);
    canvas.set_scale(layout().u);
    marks_targets_.clear();
    Frame f{canvas, layout(), *session_, hands_, marks_targets_, session_->seen()};
    target.clear(colours.paper);
    rules_shown_ = marks_screen(
        f, marks_, first_rule_, [this] { start(); }, [this] { close_ = true; });
    canvas.layer();
    for (const Target& t : marks_targets_)
        if (t.name == hands_.focus) focus_marks(canvas, t.r);
    canvas.flush(target);
}

void Screens::press_marks(const std::string& name) {
    for (const Target& t : marks_targets_)
        if (t.name == name) {
            const auto call = t.press;
            marks_dirty_ = true;
            return call();
        }
}

void Screens::handle(const sf::Event& e) {
    if (e.type == sf::Event::Resized) return resize(e.size.width, e.size.height);
    if (e.type == sf::Event::KeyPressed) return key(e.key);
    if (e.type != sf::Event::MouseButtonPressed || e.mouseButton.button != sf::Mouse::Left) return;
    const double x = e.mouseButton.x / layout().u;
    const double y = e.mouseButton.y / layout().u;
    if (!marked_) return bench_->mouse(x, y);
    hands_.focus.clear();
    for (const Target& t : marks_targets_)
        if (t.r.contains(x, y)) return press_marks(t.name);
}

//! Text scale, as everywhere else.
bool Screens::text_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (!k.control) return false;
    const double before = hands_.text_scale;
    if (k.code == Key::Equal || k.code == Key::Add) hands_.text_scale = std::min(2.0, before + 0.25);
    if (k.code == Key::Hyphen || k.code == Key::Subtract) hands_.text_scale = std::max(1.0, before - 0.25);
    if (k.code == Key::Num0) hands_.text_scale = 1.0;
    if (hands_.text_scale != before) resize(width_, height_);
    return true;
}

void Screens::key(const sf::Event::KeyEvent& k) {
    if (text_key(k)) return;
    if (marked_)
        marks_key(k);
    else
        bench_->key(k);
}

void Screens::marks_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    marks_dirty_ = true;
    if (k.code == Key::Escape) close_ = true;
    if (k.code == Key::T) return start();
    if (k.code == Key::F7) hands_.evening = !hands_.evening;
    const std::size_t page = std::max<std::size_t>(1, rules_shown_);
    if (k.code == Key::Down && first_rule_ + rules_shown_ < marks_.rules.size()) first_rule_ += page;
    if (k.code == Key::Up) first_rule_ = first_rule_ > page ? first_rule_ - page : 0;
    if ((k.code == Key::Enter || k.code == Key::Space) && !hands_.focus.empty()) return press_marks(hands_.focus);
    if (k.code != Key::Tab || marks_targets_.empty()) return;
    std::size_t at = 0;
    for (std::size_t i = 0; i < marks_targets_.size(); ++i)
        if (marks_targets_[i].name == hands_.focus) at = i + 1;
    hands_.focus = marks_targets_[at % marks_targets_.size()].name;
}

}  // namespace quarterturn::window
