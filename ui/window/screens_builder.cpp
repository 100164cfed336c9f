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

//! What is being typed goes into the file. False: it cannot, and one stays at it.
bool Screens::commit_typing() {
    build_.may_leave = false;
    if (!build_.typing) return true;
    const std::size_t row = std::min(build_.chosen, builder_->rows().size() - 1);
    build_.message = builder_->set(builder_->rows()[row].path, build_.typed.text);
    build_.typing = !build_.message.empty();
    page_dirty_ = true;
    return !build_.typing;
}

//! Another row; what was typed into the one before is kept. typing: this one is typed into.
void Screens::to_row(std::size_t row, bool typing) {
    if (!commit_typing() || builder_->rows().empty()) return;
    build_.chosen = std::min(row, builder_->rows().size() - 1);
    const BuilderRow& r = builder_->rows()[build_.chosen];
    build_.typing = typing && !r.head;
    if (build_.typing) build_.typed.set(Builder::to_type(r));
    row_in_sight();
}

BuilderCalls Screens::builder_calls() {
    BuilderCalls c;
    c.save = [this] {
        if (!commit_typing()) return;
        const std::string why = builder_->save();
        build_.message = why.empty() ? std::string(tr("Saved.")) : why;
    };
    c.undo = [this] {
        // What is being typed is the last thing that was done.
        const bool typed = std::exchange(build_.typing, false) &&
                           build_.typed.text != Builder::to_type(builder_->rows()[build_.chosen]);
        build_.message.clear();
        if (!typed) builder_->undo();
        build_.may_leave = false;
    };
    c.try_it = [this] {
        if (!commit_typing()) return;
        if (!builder_->problems().empty() || !builder_->lesson()) {
            build_.message = tr("Not before the file is right.");
            return;
        }
        start_.lesson = *builder_->lesson();
        start_.again = nullptr;
        show_job_card();
    };
    c.add_fault = [this] {
        if (!commit_typing()) return;
        build_.message = builder_->add_fault();
        std::size_t last = build_.chosen;
        for (std::size_t i = 0; i < builder_->rows().size(); ++i)
            if (builder_->rows()[i].head && builder_->rows()[i].path.starts_with("fault[")) last = i + 1;
        to_row(last, false);
    };
    c.leave = [this] {
        // What is being typed is not lost by a click on the cross.
        if (build_.typing && build_.typed.text != Builder::to_type(builder_->rows()[build_.chosen]) && !commit_typing())
            return;
        if (builder_->changed() && !build_.may_leave) {
            build_.may_leave = true;
            build_.message = tr("It is not saved: F9 saves, Esc once more leaves it as it was.");
            return;
        }
        close_ = true;
    };
    c.remove = [this] {
        build_.typing = build_.may_leave = false;
        const std::string path = builder_->rows()[build_.chosen].path;  // the rows are made anew by it
        build_.message = builder_->remove(path.substr(0, path.rfind('.')));
        build_.chosen = std::min(build_.chosen, builder_->rows().size() - 1);
    };
    c.choose = [this](std::size_t row) {
        // One of a few words is pressed; anything else is typed at once.
        const std::size_t words = builder_->rows()[row].words.size();
        to_row(row, words == 0 || words > 3 || row == build_.chosen);
    };
    c.move = [this](const MovedEnd& to) {
        build_.may_leave = false;
        build_.moved = to;
        page_dirty_ = true;
    };
    c.set = [this](const std::string& path_and_word) {
        if (!commit_typing()) return;
        const auto end = path_and_word.find('\n');
        build_.message = builder_->set(path_and_word.substr(0, end), path_and_word.substr(end + 1));
    };
    return c;
}

//! What was dragged is let go: that is what is typed.
void Screens::drop_end() {
    if (!build_.moved) return;
    const MovedEnd to = *std::exchange(build_.moved, std::nullopt);
    // What lies beyond the line and was not moved in stays what it is.
    if (to.s == end_now(*builder_, to.path, to.line_s)) return;
    build_.message = builder_->set(to.path, end_typed(to.path, to.s, to.line_s));
    page_dirty_ = true;
}

//! An end that has the keyboard, by half a minute or a tenth.
void Screens::nudge_end(const std::string& path, int by, bool fine) {
    const double line_s = 60 * minutes_shown(*builder_, builder_->trial().result());
    const double step = fine ? kFineStep_s : kKeyStep_s;
    build_.moved =
        MovedEnd{path, end_at(*builder_, path, end_now(*builder_, path, line_s) + by * step, step, line_s), line_s};
    drop_end();
}

//! The row that is chosen comes into sight once it has been drawn where it lies now.
void Screens::row_in_sight() {
    if (build_.chosen < builder_->rows().size()) scroll_.sight = "row " + builder_->rows()[build_.chosen].path;
    page_dirty_ = true;
}

void Screens::builder_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    page_dirty_ = true;
    const auto& rows = builder_->rows();
    const BuilderRow row = rows[std::min(build_.chosen, rows.size() - 1)];  // what is set makes them anew
    if (k.code != Key::Escape) build_.may_leave = false;
    if (!dragged_.empty()) {
        // In the middle of a drag only its end is asked for: Esc puts it back.
        if (k.code == Key::Escape) {
            dragged_.clear();
            build_.moved.reset();
        }
        return;
    }
    if (build_.typing) {
        if (build_.typed.key(k)) return;
        if (k.code == Key::Escape) {
            build_.typing = false;
            build_.message.clear();
        }
        if (k.code == Key::Enter) (void)commit_typing();
        // On to the next one, which is typed into as well.
        const bool back = k.code == Key::Up || (k.code == Key::Tab && k.shift);
        if (back && build_.chosen > 0) return to_row(build_.chosen - 1, true);
        if (k.code == Key::Down || (k.code == Key::Tab && !k.shift)) return to_row(build_.chosen + 1, true);
        if (k.code < Key::F1 || k.code > Key::F15) return;
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
    const bool of_list = row.path.find('[') != std::string::npos || row.path.starts_with("answer");
    if (k.code == Key::Delete && (row.head || k.shift) && of_list) return builder_calls().remove();
    if (k.code == Key::Delete && !row.head) return void(build_.message = builder_->leave_out(row.path));
    if ((k.code == Key::Left || k.code == Key::Right) && hands_.focus.starts_with("end "))
        return nudge_end(hands_.focus.substr(4), k.code == Key::Left ? -1 : 1, k.shift);
    if (k.code == Key::Left || k.code == Key::Right) {
        // From word to word of a list.
        const auto& words = row.words;
        if (words.empty()) return;
        const auto at = std::find(words.begin(), words.end(), Builder::to_type(row)) - words.begin();
        const auto n = static_cast<std::ptrdiff_t>(words.size());
        const bool draws = !row.written.empty() && (row.written.front() == '[' || row.written.front() == '{');
        if (at == n && !row.written.empty() && (draws || row.about->type != files::KeyType::choice)) {
            build_.message = tr("It is a path, or drawn from a list: Enter types into it.");
            return;
        }
        const auto to = at == n ? 0 : (at + (k.code == Key::Right ? 1 : n - 1)) % n;
        build_.message = builder_->set(row.path, words[static_cast<std::size_t>(to)]);
        return;
    }
    if (k.code == Key::Enter && !row.head) to_row(build_.chosen, true);
}

void Screens::builder_text(std::uint32_t character) {
    if (!build_.typing) return;
    build_.typed.type(character, kLongestValue);
    page_dirty_ = true;
}

}  // namespace quarterturn::window
