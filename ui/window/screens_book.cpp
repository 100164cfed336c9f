// The class book among the screens: reading, choosing, a debrief, writing out.
#include <algorithm>
#include <filesystem>

#include "sim/files/output.hpp"
#include "ui/report/class_page.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/learning_records.hpp"
#include "ui/report/mark_book.hpp"
#include "ui/window/screens.hpp"

namespace quarterturn::window {

namespace fs = std::filesystem;

void Screens::show_book(bool read) {
    bench_.reset();
    session_.reset();
    if (read) {
        book_view_.reading = true;
        book_reader_.start({start_.book}, start_.keys, start_.library);
    }
    go(Front::class_book);
}

//! Called as time goes on: what has been read comes into the picture.
void Screens::read_on() {
    if (!book_view_.reading) return;
    page_dirty_ = true;
    book_view_.done = book_reader_.done();
    book_view_.all = book_reader_.all();
    if (!book_reader_.ready()) return;
    book_ = report::ClassBook(book_reader_.take(), start_.roster ? *start_.roster : school::Roster{});
    book_view_.reading = false;
}

//! The debrief of a record: its marks, and from there the look back.
void Screens::open_record(const std::string& path) {
    const files::Record record = school::read_record(path, start_.keys ? &*start_.keys : nullptr);
    files::Replay again = play_again(record, path);
    const bool shut = again.attempt && school::withheld(*again.attempt, record);
    if (!again.attempt || shut) {
        book_view_.message = shut                     ? report::withheld_words()
                             : again.problems.empty() ? std::string(tr("It cannot be replayed."))
                                                      : files::printable(again.problems.front().text());
        page_dirty_ = true;
        return;
    }
    start_.again = nullptr;
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(again.attempt), nullptr, path, std::string()));
    show_marks();
}

namespace {

//! Says what was written, or why not.
std::string written(const std::string& why, const std::string& path) {
    return why.empty() ? say("Written: {0}", path) : why;
}

}  // namespace

BookCalls Screens::book_calls() {
    BookCalls c;
    c.choose = [this](std::size_t pupil, std::size_t column) {
        const bool again = book_view_.pupil == pupil && book_view_.column == column;
        book_view_.pupil = pupil;
        book_view_.column = column;
        if (again) press("open debrief");
    };
    c.open = [this] {
        const BookCell cell =
            book_.cell(book_.pupils()[book_view_.pupil], book_.columns()[book_view_.column], book_view_.which);
        if (cell.shown && cell.shown->marked) open_record(cell.shown->record);
    };
    c.look = [this](const std::string& record) { open_record(record); };
    c.show = [this](Which which) { book_view_.which = which; };
    c.one_lesson = [this] { book_view_.one_lesson = !book_view_.one_lesson; };
    const auto to = [this](const std::string& name, files::OutputKind kind, const std::string& text) {
        std::string why;
        const std::string folder = class_folder(why);
        const std::string path = (fs::path(folder) / name).string();
        if (why.empty()) why = files::output_problem(path, kind, {}, false);
        if (why.empty()) why = files::write_output(path, text);
        book_view_.message = written(why, path);
    };
    c.book = [this, to] {
        to("mark-book.csv", files::OutputKind::mark_book, report::mark_book(book_.rows(), book_.roster()).csv("\r\n"));
    };
    c.records = [this, to] {
        to("learning-records.json", files::OutputKind::learning_data,
           report::learning_records(book_.rows(), book_.roster()));
    };
    c.pages = [this] {
        std::string why;
        const fs::path folder = fs::path(class_folder(why)) / "pages";
        if (why.empty()) why = report::write_class_pages(folder.string(), book_, false, false);
        book_view_.message = written(why, (folder / "index.html").string());
    };
    c.again = [this] { show_book(true); };
    c.leave = [this] { close_ = true; };
    return c;
}

void Screens::book_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    BookView& v = book_view_;
    if (k.code == Key::Tab) return walk(k.shift ? -1 : 1);
    if (k.code == Key::Enter) return press(hands_.focus.empty() ? "open debrief" : hands_.focus);
    if (k.code == Key::Escape) return press("leave");
    if (k.code == Key::F5) return press("again");
    if (k.code == Key::L) return press("which");
    if (k.code == Key::Num1) return press("write book");
    if (k.code == Key::Num2) return press("write records");
    if (k.code == Key::Num3) return press("write pages");
    if (k.code == Key::W) return press("one lesson");
    if (k.code == Key::PageDown || k.code == Key::PageUp) return void(scroll_key(k));
    if (v.reading || book_.pupils().empty() || book_.columns().empty()) return;
    hands_.focus.clear();
    if (k.code == Key::Down) v.pupil = std::min(v.pupil + 1, book_.pupils().size() - 1);
    if (k.code == Key::Up && v.pupil > 0) --v.pupil;
    if (k.code == Key::Right) v.column = std::min(v.column + 1, book_.columns().size() - 1);
    if (k.code == Key::Left && v.column > 0) --v.column;
    into_sight("pupil " + book_.pupils()[v.pupil]);
}

}  // namespace quarterturn::window
