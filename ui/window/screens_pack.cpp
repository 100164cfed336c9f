// The sealed assessment among the screens: what its keys and buttons do.
#include "ui/window/screens.hpp"
#include "ui/window/typing.hpp"

namespace quarterturn::window {

namespace {

constexpr std::size_t kLongestField = 200;

}  // namespace

PackCalls Screens::pack_calls() {
    PackCalls c;
    // Whatever else is done, one has stopped typing, and stays.
    const auto doing = [this] {
        pack_view_.typing.reset();
        pack_view_.may_leave = false;
    };
    c.draw = [this, doing] {
        doing();
        pack_view_.shown = false;
        pack_view_.message = pack_maker_->draw();
        scroll_ = {};
    };
    c.cover = [this, doing] {
        doing();
        pack_view_.shown = !pack_view_.shown;
    };
    c.seal = [this, doing] {
        doing();
        pack_view_.message = pack_maker_->seal();
        scroll_ = {};  // what it says stands at the top, where the window is small
    };
    c.leave = [this] {
        // The words are said once: nobody loses them by one key.
        if (!pack_view_.may_leave && (pack_maker_->sealed() || !pack_maker_->drawn().jobs.empty())) {
            pack_view_.may_leave = true;
            pack_view_.message = pack_maker_->sealed()
                                     ? tr("Written down? Esc once more leaves, and the words are gone.")
                                     : tr("It is not sealed: Esc once more leaves it.");
            return;
        }
        close_ = true;
    };
    c.ask = [this, doing](std::size_t i) {
        doing();
        pack_maker_->ask(i);
        pack_view_.message.clear();
    };
    c.type = [this, doing](PackField f) {
        doing();
        pack_view_.typing = f;
        pack_view_.message.clear();
    };
    return c;
}

void Screens::pack_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    PackView& v = pack_view_;
    page_dirty_ = true;
    if (k.code != Key::Escape) v.may_leave = false;
    if (k.code == Key::Tab) {
        v.typing.reset();
        return walk(k.shift ? -1 : 1);
    }
    if (k.code == Key::F9) return press("seal");
    if (v.typing) {
        if (k.code == Key::Enter || k.code == Key::Escape) v.typing.reset();
        return;
    }
    // A blank would be typed into the field it opens.
    const bool field = hands_.focus.starts_with("field ");
    if (k.code == Key::Space && field) return;
    if ((k.code == Key::Enter || k.code == Key::Space) && !hands_.focus.empty()) return press(hands_.focus);
    if (k.code == Key::D) return press("draw");
    if (k.code == Key::C) return press("cover");
    if (k.code == Key::Escape) return press("leave");
    if (k.code == Key::Down || k.code == Key::Up) return walk(k.code == Key::Down ? 1 : -1);
    // The list of the jobs where it is taller than its place, else the form.
    Scroll& list = v.jobs.most > 0 ? v.jobs : scroll_;
    if (k.code == Key::PageDown) return list.by(0.9 * list.window);
    if (k.code == Key::PageUp) return list.by(-0.9 * list.window);
    if (k.code == Key::Home) return list.by(-1e9);
}

void Screens::pack_text(std::uint32_t character) {
    if (!pack_view_.typing) return;
    std::string text = pack_maker_->typed(*pack_view_.typing);
    if (type_into(text, character, kLongestField)) pack_maker_->type(*pack_view_.typing, text);
    page_dirty_ = true;
}

}  // namespace quarterturn::window
