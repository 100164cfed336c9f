// The builder among the screens: what its keys and buttons do.
#include <algorithm>
#include <utility>

#include "ui/window/screens.hpp"
#include "ui/window/typing.hpp"

namespace quarterturn::window {

void Screens::show_builder() {
    bench_.reset();
    session_.reset();
    go(Front::builder);
}

BuilderCalls Screens::builder_calls() {
    BuilderCalls c;
    c.save = [this] {
        const std::string why = builder_->save();
        build_.message = why.empty() ? std::string(tr("Saved.")) : why;
    };
    c.undo = [this] { builder_->undo(); };
    c.try_it = [this] {
        if (!builder_->problems().empty() || !builder_->lesson()) {
            build_.message = tr("Not before the file is right.");
            return;
        }
        start_.lesson = *builder_->lesson();
        start_.again = nullptr;
        show_job_card();
    };
    c.add_fault = [this] {
        build_.message = builder_->add_fault();
        for (std::size_t i = 0; i < builder_->rows().size(); ++i)
            if (builder_->rows()[i].head && builder_->rows()[i].path.starts_with("fault[")) build_.chosen = i + 1;
        row_in_sight();
    };
    c.leave = [this] {
        if (builder_->changed() && !build_.may_leave) {
            build_.may_leave = true;
            build_.message = tr("It is not saved: F9 saves, Esc once more leaves it as it was.");
            return;
        }
        close_ = true;
    };
    c.remove = [this] {
        const BuilderRow row = builder_->rows()[build_.chosen];  // the rows are made anew by it
        build_.message = row.head ? builder_->remove(row.path) : builder_->leave_out(row.path);
        build_.chosen = std::min(build_.chosen, builder_->rows().size() - 1);
    };
    c.choose = [this](std::size_t row) {
        const bool again = build_.chosen == row;
        build_.chosen = row;
        build_.typing = again && !builder_->rows()[row].head;
        if (build_.typing) build_.typed = Builder::to_type(builder_->rows()[row]);
    };
    c.move = [this](const MovedEnd& to) {
        build_.moved = to;
        page_dirty_ = true;
    };
    c.set = [this](const std::string& path_and_word) {
        const auto end = path_and_word.find('\n');
        build_.message = builder_->set(path_and_word.substr(0, end), path_and_word.substr(end + 1));
    };
    return c;
}

//! What was dragged is let go: that is what is typed.
void Screens::drop_end() {
    if (!build_.moved) return;
    const MovedEnd to = *std::exchange(build_.moved, std::nullopt);
    const double line_s = 60 * minutes_shown(*builder_, builder_->trial().result());
    build_.message = builder_->set(to.path, end_typed(to.path, to.s, line_s));
    page_dirty_ = true;
}

//! An end that has the keyboard, by half a minute or a tenth.
void Screens::nudge_end(const std::string& path, int by, bool fine) {
    const double line_s = 60 * minutes_shown(*builder_, builder_->trial().result());
    const double step = fine ? kFineStep_s : kKeyStep_s;
    build_.moved = MovedEnd{path, end_at(*builder_, path, end_now(*builder_, path, line_s) + by * step, step, line_s)};
    drop_end();
}

//! The row that is chosen comes into sight: about where it lies, for rows are of one height but for what is said below.
void Screens::row_in_sight() {
    if (build_.chosen < builder_->rows().size()) into_sight("row " + builder_->rows()[build_.chosen].path);
    page_dirty_ = true;
}

void Screens::builder_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    page_dirty_ = true;
    const auto& rows = builder_->rows();
    const BuilderRow row = rows[std::min(build_.chosen, rows.size() - 1)];  // what is set makes them anew
    if (k.code != Key::Escape) build_.may_leave = false;
    if (build_.typing) {
        if (k.code == Key::Escape) build_.typing = false;
        if (k.code == Key::Enter) {
            build_.typing = false;
            build_.message = builder_->set(row.path, build_.typed);
        }
        return;
    }
    if (k.code == Key::Tab) return walk(k.shift ? -1 : 1);
    if (k.code == Key::Enter && !hands_.focus.empty()) return press(hands_.focus);
    if (k.code == Key::F9) return press("save");
    if (k.code == Key::F8) return press("try");
    if (k.code == Key::F6) return press("add fault");
    if (k.code == Key::Z && k.control) return press("undo");
    if (k.code == Key::Escape) return press("leave");
    if (k.code == Key::Down || k.code == Key::Up) {
        hands_.focus.clear();
        const bool down = k.code == Key::Down;
        if (down ? build_.chosen + 1 < rows.size() : build_.chosen > 0) build_.chosen += down ? 1 : -1;
        return row_in_sight();
    }
    if (k.code == Key::PageDown || k.code == Key::PageUp) return void(scroll_key(k));
    if (k.code == Key::Delete) return builder_calls().remove();
    if ((k.code == Key::Left || k.code == Key::Right) && hands_.focus.starts_with("end "))
        return nudge_end(hands_.focus.substr(4), k.code == Key::Left ? -1 : 1, k.shift);
    if (k.code == Key::Left || k.code == Key::Right) {
        // From word to word of a list.
        const auto& words = row.words;
        if (words.empty()) return;
        const auto at = std::find(words.begin(), words.end(), Builder::to_type(row)) - words.begin();
        const auto n = static_cast<std::ptrdiff_t>(words.size());
        if (at == n && !row.written.empty()) {
            build_.message = tr("It is a path, or drawn from a list: Enter types into it.");
            return;
        }
        const auto to = at == n ? 0 : (at + (k.code == Key::Right ? 1 : n - 1)) % n;
        build_.message = builder_->set(row.path, words[static_cast<std::size_t>(to)]);
        return;
    }
    if (k.code == Key::Enter && !row.head) {
        build_.typing = true;
        build_.typed = Builder::to_type(row);
    }
}

void Screens::builder_text(std::uint32_t character) {
    if (!build_.typing) return;
    type_into(build_.typed, character, kLongestValue);
    page_dirty_ = true;
}

}  // namespace quarterturn::window
