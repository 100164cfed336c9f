// What keys, wheel and mouse do on the screens; on the bench most of it is the bench's own.
#include <algorithm>
#include <utility>

#include "ui/window/screens.hpp"

namespace quarterturn::window {

void Screens::press(const std::string& name) {
    for (const Target& t : page_targets_)
        if (t.name == name) {
            const auto call = t.press;  // the list may be rebuilt by what it does
            page_dirty_ = true;
            return call();
        }
}

//! Scrolls the page until what is named so can be seen.
void Screens::into_sight(const std::string& target) {
    for (const Target& t : page_targets_)
        if (t.name == target) (t.in ? *t.in : scroll_).show(t.r);
}

void Screens::walk(int by) {
    if (page_targets_.empty()) return;
    const int n = static_cast<int>(page_targets_.size());
    int at = by > 0 ? -1 : n;
    for (int i = 0; i < n; ++i)
        if (page_targets_[static_cast<std::size_t>(i)].name == hands_.focus) at = i;
    const Target& to = page_targets_[static_cast<std::size_t>((at + by + n) % n)];
    hands_.focus = to.name;
    if (to.out_of_sight) (to.in ? *to.in : scroll_).show(to.r);
    page_dirty_ = true;
}

void Screens::handle(const sf::Event& e) {
    if (e.type == sf::Event::Resized) return resize(e.size.width, e.size.height);
    if (e.type == sf::Event::KeyPressed) return key(e.key);
    if (e.type == sf::Event::TextEntered) {
        if (on_bench()) return bench_->text(e.text.unicode);
        if (front_ == Front::builder && !in_settings_) builder_text(e.text.unicode);
        if (front_ == Front::pack && !in_settings_) pack_text(e.text.unicode);
        if (front_ == Front::class_book && !in_settings_) book_text(e.text.unicode);
        if (front_ == Front::sign_in && !in_settings_) {
            type_in(sign_in_, e.text.unicode);
            page_dirty_ = true;
        }
        return;
    }
    if (e.type == sf::Event::MouseWheelScrolled && front_ == Front::shelf && !in_settings_) {
        const auto rows = shelf_rows(plan_, shelf_).size();
        const auto most = rows > shelf_.rows ? rows - shelf_.rows : 0;
        if (e.mouseWheelScroll.delta > 0)
            shelf_.top -= std::min<std::size_t>(shelf_.top, 2);
        else
            shelf_.top = std::min(most, shelf_.top + 2);
        page_dirty_ = true;
        return;
    }
    if (e.type == sf::Event::MouseWheelScrolled && !on_bench()) {
        // Over a list of its own it moves that list.
        Scroll* inner = front_ == Front::pack         ? &pack_view_.jobs
                        : front_ == Front::class_book ? &book_view_.side
                                                      : nullptr;
        const bool over =
            inner && inner->place.contains(e.mouseWheelScroll.x / layout_.u, e.mouseWheelScroll.y / layout_.u);
        (over ? *inner : scroll_).by(-48 * static_cast<double>(e.mouseWheelScroll.delta));
        page_dirty_ = true;
        return;
    }
    if (e.type == sf::Event::MouseMoved && on_bench())
        return bench_->point(e.mouseMove.x / layout_.u, e.mouseMove.y / layout_.u);
    if (e.type == sf::Event::MouseMoved && !dragged_.empty())
        return drag(e.mouseMove.x / layout_.u, e.mouseMove.y / layout_.u);
    if (e.type == sf::Event::MouseButtonReleased && !std::exchange(dragged_, {}).empty() && front_ == Front::builder)
        return drop_end();
    if (e.type != sf::Event::MouseButtonPressed || e.mouseButton.button != sf::Mouse::Left) return;
    const double x = e.mouseButton.x / layout_.u;
    const double y = e.mouseButton.y / layout_.u;
    if (on_bench()) return bench_->mouse(x, y);
    hands_.focus.clear();
    page_dirty_ = true;
    std::string hit;
    bool drags = false;
    for (const Target& t : page_targets_)
        if (t.r.contains(x, y) && !t.out_of_sight) {
            hit = t.name;
            drags = static_cast<bool>(t.drag);
        }
    if (drags) dragged_ = hands_.focus = hit;
    if (!hit.empty()) press(hit);
}

//! What is held follows the mouse.
void Screens::drag(double x, double y) {
    for (const Target& t : page_targets_)
        if (t.name == dragged_ && t.drag) {
            const auto call = t.drag;
            return call(x, y);
        }
}

//! Text scale, as everywhere else.
bool Screens::text_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (!k.control || k.code == Key::Z) return false;
    Settings s = settings_;
    s.text_scale = hands_.text_scale;
    if (k.code == Key::Equal || k.code == Key::Add) s.text_scale = std::min(2.0, s.text_scale + 0.25);
    if (k.code == Key::Hyphen || k.code == Key::Subtract) s.text_scale = std::max(1.0, s.text_scale - 0.25);
    if (k.code == Key::Num0) s.text_scale = 1.0;
    if (s.text_scale != hands_.text_scale) take(s);
    return true;
}

void Screens::key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (text_key(k)) return;
    if (k.code == Key::F1) {
        in_settings_ = !in_settings_;
        scroll_ = {};
        hands_.focus.clear();
        resize(width_, height_);
        return;
    }
    if (k.code == Key::F7) {
        Settings s = settings_;
        s.evening = !hands_.evening;
        return take(s);
    }
    if (on_bench()) {
        if (k.code == Key::Escape && session_->watching() && hands_.sheet == Sheet::none && !hands_.part)
            return void(hands_.to_shelf = true);
        if (session_->look_back() && look_back_key(k)) return;
        // Time stands while one asks: the page lies over the bench.
        if (k.code == Key::V && hands_.sheet == Sheet::none) return show_what_if();
        return bench_->key(k);
    }
    page_key(k);
}

void Screens::page_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    page_dirty_ = true;
    if (front_ == Front::sign_in && !in_settings_) return sign_in_key(k);
    if (front_ == Front::builder && !in_settings_) return builder_key(k);
    if (front_ == Front::pack && !in_settings_) return pack_key(k);
    if (front_ == Front::class_book && !in_settings_) return book_key(k);
    if (front_ == Front::handed_in && !in_settings_ && hands_.focus.empty()) {
        if (k.code == Key::Enter) return press("next");
        if (k.code == Key::Escape) return press("quit");
    }
    if (k.code == Key::Tab) return walk(k.shift ? -1 : 1);
    if ((k.code == Key::Enter || k.code == Key::Space) && !hands_.focus.empty()) return press(hands_.focus);
    if (k.code == Key::Escape || k.code == Key::Backspace) {
        if (in_settings_) return press("back");
        if (front_ == Front::job_card || front_ == Front::what_if) return press("back");
    }
    if (scroll_key(k) || in_settings_) return;
    if (front_ == Front::shelf) return shelf_key(k);
    if (front_ == Front::what_if) return what_if_key(k);
    if (front_ == Front::job_card && k.code == Key::Enter) return press("start");
    if (front_ == Front::job_card && k.code == Key::V) return show_what_if();
    if (front_ == Front::marks) marks_key(k);
}

void Screens::marks_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code == Key::Escape || k.code == Key::Backspace) return press("quit");
    if (k.code == Key::T) return press("again");
    if (k.code == Key::L) return look_back();
}

//! Where a page is taller than its window. False: the key does something else there.
bool Screens::scroll_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (scroll_.most <= 0) return false;
    const bool rows = front_ == Front::what_if && !in_settings_;  // there the arrows go from row to row
    if (k.code == Key::PageDown)
        scroll_.by(0.9 * scroll_.window);
    else if (k.code == Key::PageUp)
        scroll_.by(-0.9 * scroll_.window);
    else if (k.code == Key::Home)
        scroll_.by(-1e9);
    else if (k.code == Key::End)
        scroll_.by(1e9);
    else if (k.code == Key::Down && !rows)
        scroll_.by(48);
    else if (k.code == Key::Up && !rows)
        scroll_.by(-48);
    else
        return false;
    return true;
}

void Screens::shelf_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    const int page = static_cast<int>(shelf_.rows);
    if (k.code == Key::Down) return move_choice(plan_, shelf_, 1);
    if (k.code == Key::Up) return move_choice(plan_, shelf_, -1);
    if (k.code == Key::PageDown) return move_choice(plan_, shelf_, page);
    if (k.code == Key::PageUp) return move_choice(plan_, shelf_, -page);
    if (k.code == Key::Enter) return press("open");
    if (k.code == Key::W) return press("watch");
    if (k.code == Key::G) return press("carry on");
    if (k.code == Key::M) return press("last marks");
    // From tab to tab of the groups.
    if (k.code != Key::Left && k.code != Key::Right) return;
    constexpr int last = static_cast<int>(bench::Group::assessment);
    shelf_.group = std::clamp(shelf_.group + (k.code == Key::Right ? 1 : -1), -1, last);
    shelf_.top = 0;
    const auto rows = shelf_rows(plan_, shelf_);
    if (!rows.empty() && std::find(rows.begin(), rows.end(), shelf_.chosen) == rows.end()) shelf_.chosen = rows.front();
}

bool Screens::look_back_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (hands_.part || hands_.sheet != Sheet::none) return false;
    const std::int64_t now = session_->seen().step;
    bench_->touch();
    if ((k.code == Key::Left || k.code == Key::Right) && k.shift) {
        session_->seek(now + (k.code == Key::Left ? -1 : 1) * bench::kStepsPerSecond);
        return true;
    }
    const auto press = [this](const char* name) {
        for (const Target& t : bench_->targets())
            if (t.name == name) {
                const auto call = t.press;
                call();
                break;
            }
        return true;
    };
    if (session_->look_back()->room) {
        if (k.code >= Key::A && k.code <= Key::D) {
            session_->count_hand(static_cast<std::size_t>(k.code - Key::A), k.shift ? -1 : 1);
            return true;
        }
        if (k.code == Key::PageDown) return press("next stop");
        if (k.code == Key::PageUp) return press("stop before");
        if (k.code == Key::Enter && session_->look_back()->covered) return press("next stop");
        if (k.code == Key::U) return press("truth");
    }
    if (k.code == Key::Left) return press("event before");
    if (k.code == Key::Right) return press("event after");
    if (k.code == Key::Space) return press("play");
    if (k.code == Key::X) return press("swap");
    if (k.code == Key::B) return press("take over");
    if (k.code == Key::Escape) return press("to marks");
    return false;
}

void Screens::what_if_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    const WhatIfCalls calls = what_if_calls();
    if (k.code == Key::Up) what_if_.row = (what_if_.row + kTries - 1) % kTries;
    if (k.code == Key::Down) what_if_.row = (what_if_.row + 1) % kTries;
    if (k.code == Key::Left || k.code == Key::Right)
        calls.change(static_cast<Try>(what_if_.row), (k.code == Key::Left ? -1 : 1) * (k.shift ? 8 : 1));
    if (k.code == Key::K) calls.keep();
    if (k.code == Key::X) calls.swap();
    if (k.code == Key::F) calls.fire();
    if (k.code == Key::Num0) calls.factory();
}

}  // namespace quarterturn::window
