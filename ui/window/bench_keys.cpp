// What keys do on the bench: on the sheet on top, on the card that lies open, in the hand, at the fire.
#include <algorithm>

#include "sim/bench/action_text.hpp"
#include "ui/window/bench_screen.hpp"
#include "ui/window/typing.hpp"

namespace quarterturn::window {

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
    // On a card it presses what has the focus; on the bare bench it is the clock's, whatever was looked at before.
    if (k.code == Key::Space) return hands_.part && !hands_.focus.empty() ? press(hands_.focus) : seat_.toggle_pause();
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
