// The class book among the screens: reading, choosing, a debrief, writing out.
#include <algorithm>
#include <filesystem>
#include <stdexcept>
#include <utility>

#include "sim/files/output.hpp"
#include "sim/school/assessed.hpp"
#include "sim/school/moment.hpp"
#include "ui/report/class_page.hpp"
#include "ui/report/debrief.hpp"
#include "ui/report/learning_records.hpp"
#include "ui/report/mark_book.hpp"
#include "ui/window/screens.hpp"
#include "ui/window/typing.hpp"

namespace quarterturn::window {

namespace fs = std::filesystem;

void Screens::show_book(bool read) {
    bench_.reset();
    session_.reset();
    if (read) {
        book_view_.message =
            book_reader_.start([place = start_.book, keys = start_.keys, library = start_.library](Underway& p) {
                ReadBook book;
                const auto records = school::records_in({place}, book.problems);
                p.all = records.size();
                const auto told = [&p](std::size_t n) {
                    p.done = n;
                    if (p.stop) throw std::runtime_error("not wanted any more");  // the rest is left out
                };
                book.rows = school::read_class(records, told, {keys ? &*keys : nullptr, library.get()});
                return book;
            });
        book_view_.reading = book_view_.message.empty();  // else it could not even be begun
    }
    go(Front::class_book);
}

//! Called as time goes on: what has been read comes into the picture.
void Screens::read_on() {
    if (!book_view_.reading) return;
    page_dirty_ = true;
    book_view_.done = book_reader_.done();
    book_view_.all = book_reader_.all();
    auto read = book_reader_.take();
    if (!read) return;
    if (!read->result) book_view_.message = read->failure;
    ReadBook book = std::move(read->result).value_or(ReadBook{});
    // A folder that cannot be looked through may hold somebody's attempts.
    if (!book.problems.empty()) book_view_.message = files::printable(book.problems.front().text());
    whole_book_ = report::ClassBook(std::move(book.rows), start_.roster ? *start_.roster : school::Roster{});
    book_ = whole_book_.of_group(book_view_.group);
    book_view_.reading = false;
}

//! A record as it is to be looked at; nullptr, with the reason said, if it cannot be. Its lesson is the one at hand
//! then.
std::unique_ptr<bench::Attempt> Screens::looked_at(const std::string& path) {
    const files::Record record = school::read_record(path, start_.keys ? &*start_.keys : nullptr);
    files::Replay again = play_again(record, path);
    const bool shut = again.attempt && school::withheld(*again.attempt, record);
    if (again.attempt && !shut) return std::move(again.attempt);
    book_view_.message = shut                     ? report::withheld_words()
                         : again.problems.empty() ? std::string(tr("It cannot be replayed."))
                                                  : files::printable(again.problems.front().text());
    page_dirty_ = true;
    return nullptr;
}

//! The debrief of a record: its marks, and from there the look back.
void Screens::open_record(const std::string& path) {
    auto attempt = looked_at(path);
    if (!attempt) return;
    start_.again = nullptr;
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(attempt), nullptr, path, std::string()));
    show_marks();
}

//! Whose a record of the class book is, with its assessor's word; empty without a book.
std::string Screens::whose_in_book(const std::string& record) const {
    if (start_.book.empty()) return {};
    for (const school::ClassRow& r : whole_book_.rows()) {
        if (r.record != record) continue;
        const std::string who =
            say("{0}, attempt {1}, {2}", whole_book_.name_of(r.pupil), r.attempt, school::begun_words(r.started));
        const std::string word = report::assessor_words(r.assessed);
        return word.empty() ? who : say("{0}. {1}", who, word);
    }
    return {};
}

//! Two records of one lesson and seed, looked back at with both their courses.
void Screens::compare_records(const std::string& one, const std::string& other) {
    const auto beside = looked_at(other);
    auto attempt = beside ? looked_at(one) : nullptr;
    if (!attempt) return;
    if (beside->bench().scenario().id != attempt->bench().scenario().id ||
        beside->bench().seed() != attempt->bench().seed()) {
        book_view_.message = tr("They are not of the same lesson and seed: there is nothing to lay side by side.");
        return;
    }
    start_.again = nullptr;
    book_view_.kept.clear();
    book_view_.message.clear();
    start_.other = played(*beside);
    sit_down(std::make_unique<Session>(*start_.lesson, std::move(attempt), nullptr, one, std::string()));
    show_marks();
    look_back();
}

namespace {

//! Writes it beside the record as it stands now. Empty if done, else why not.
std::string keep(const Assessing& said, const school::KeyPair* keys) {
    if (said.by.find_first_not_of(' ') == std::string::npos) return tr("Who assesses? Type a name first.");
    const files::Record record = school::read_record(said.record, keys);
    if (!record.problems.empty()) return files::printable(record.problems.front().text());
    if (record.chain != said.chain) return tr("The record has changed since it was read: F5 reads it again.");
    return school::write_assessed(said.record, record.chain, {said.by, said.remark, said.verdict, false, false}, keys);
}

}  // namespace

//! The assessor's word goes beside the record, and into the book.
void Screens::keep_assessment() {
    const Assessing said = *book_view_.assessing;
    book_view_.message = keep(said, start_.keys ? &*start_.keys : nullptr);
    if (!book_view_.message.empty()) return;
    book_view_.assessing.reset();
    book_view_.by = said.by;
    book_view_.message = tr("Kept beside the record.");
    std::vector<school::ClassRow> rows = whole_book_.rows();
    for (school::ClassRow& r : rows)
        if (r.record == said.record) {
            const bool edited = r.edited;
            r.assessed = school::read_assessed(r.record, r.chain, start_.keys ? &*start_.keys : nullptr);
            r.assessed.of_another_state |= edited;
        }
    whole_book_ = report::ClassBook(std::move(rows), whole_book_.roster());
    book_ = whole_book_.of_group(book_view_.group);
}

namespace {

//! Says what was written, or why not.
std::string written(const std::string& why, const std::string& path) {
    return why.empty() ? say("Written: {0}", path) : why;
}

}  // namespace

BookCalls Screens::book_calls() {
    BookCalls c;
    // While a word is being written, it is of the attempt it was begun on: nothing else is chosen.
    c.choose = [this](std::size_t pupil, std::size_t column) {
        if (book_view_.assessing) return;
        const bool again = book_view_.pupil == pupil && book_view_.column == column;
        book_view_.choose(pupil, column);
        if (again) press("open debrief");
    };
    c.attempt = [this](const std::string& record) {
        if (!book_view_.assessing) book_view_.attempt = record;
    };
    c.open = [this] {
        if (const auto* row = chosen_row(book_, book_view_); row && row->marked) open_record(row->record);
    };
    c.compare = [this] {
        const auto* row = chosen_row(book_, book_view_);
        if (!row || !row->marked) return;
        if (book_view_.kept.empty() || book_view_.kept == row->record) {
            book_view_.kept = row->record;
            book_view_.message = tr("Kept. Choose another of the same lesson and seed, and press C again.");
            return;
        }
        compare_records(row->record, book_view_.kept);
    };
    c.assess = [this] {
        if (book_view_.assessing) return;
        const auto* row = chosen_row(book_, book_view_);
        if (!row || !row->marked) return;
        const bool own = !row->assessed.by.empty() && !row->assessed.doubtful && !row->assessed.of_another_state;
        book_view_.assessing = Assessing{row->record, row->chain, own ? row->assessed.by : book_view_.by,
                                         own ? row->assessed.remark : std::string(), own ? row->assessed.verdict : ""};
        book_view_.message.clear();
        // Where the form lies comes into sight, also below a long table.
        book_view_.side.sight = scroll_.sight = "field remark";
    };
    c.keep_assessment = [this] { keep_assessment(); };
    c.leave_assessment = [this] { book_view_.assessing.reset(); };
    c.verdict = [this](const char* word) { book_view_.assessing->verdict = word; };
    c.assess_field = [this](bool remark) { book_view_.assessing->in_remark = remark; };
    c.group = [this] {
        if (book_view_.assessing) return;
        const auto& all = whole_book_.groups();
        const auto at = std::find(all.begin(), all.end(), book_view_.group);
        book_view_.group = at == all.end() ? all.front() : at + 1 == all.end() ? std::string() : *(at + 1);
        book_ = whole_book_.of_group(book_view_.group);
        book_view_.choose(0, 0);
        scroll_ = {};
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
        book_view_.side.by(-1e9);  // where it is said
        scroll_.by(-1e9);
    };
    c.book = [this, to] {
        to("mark-book.csv", files::OutputKind::mark_book,
           report::mark_book(whole_book_.rows(), whole_book_.roster()).csv("\r\n"));
    };
    c.records = [this, to] {
        to("learning-records.json", files::OutputKind::learning_data,
           report::learning_records(whole_book_.rows(), whole_book_.roster()));
    };
    c.pages = [this] {
        std::string why;
        const fs::path folder = fs::path(class_folder(why)) / "pages";
        if (why.empty()) why = report::write_class_pages(folder.string(), whole_book_, false, false);
        book_view_.message = written(why, (folder / "index.html").string());
    };
    c.again = [this] { show_book(true); };
    c.leave = [this] { close_ = true; };
    return c;
}

void Screens::book_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    BookView& v = book_view_;
    if (v.assessing) return assess_key(k);
    if (k.code == Key::Tab) return walk(k.shift ? -1 : 1);
    if (k.code == Key::Enter) return press(hands_.focus.empty() ? "open debrief" : hands_.focus);
    if (k.code == Key::Escape && !v.kept.empty()) {
        v.kept.clear();
        v.message.clear();
        return;
    }
    if (k.code == Key::Escape) return press("leave");
    if (k.code == Key::F5) return press("again");
    if (k.code == Key::L) return press("which");
    if (k.code == Key::Num1) return press("write book");
    if (k.code == Key::Num2) return press("write records");
    if (k.code == Key::Num3) return press("write pages");
    if (k.code == Key::W) return press("one lesson");
    if (k.code == Key::G) return press("group");
    if (k.code == Key::C) return press("compare");
    if (k.code == Key::F2) return press("assess");
    if (k.code == Key::A) return press("next attempt");
    if (k.code == Key::PageDown || k.code == Key::PageUp) return void(scroll_key(k));
    if (v.reading || book_.pupils().empty() || book_.columns().empty()) return;
    hands_.focus.clear();
    if (k.code == Key::Down) v.choose(std::min(v.pupil + 1, book_.pupils().size() - 1), v.column);
    if (k.code == Key::Up && v.pupil > 0) v.choose(v.pupil - 1, v.column);
    if (k.code == Key::Right) v.choose(v.pupil, std::min(v.column + 1, book_.columns().size() - 1));
    if (k.code == Key::Left && v.column > 0) v.choose(v.pupil, v.column - 1);
    into_sight("pupil " + book_.pupils()[v.pupil]);
}

//! While an assessor's word is being written.
void Screens::assess_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    Assessing& a = *book_view_.assessing;
    if (k.code == Key::Escape) return press("leave assessment");
    if (k.code == Key::Enter) return press("keep assessment");
    if (k.code == Key::Tab) a.in_remark = !a.in_remark;
    if (k.code != Key::Up && k.code != Key::Down) return;
    const auto at = std::find(kVerdicts.begin(), kVerdicts.end(), a.verdict) - kVerdicts.begin();
    constexpr auto n = static_cast<std::ptrdiff_t>(kVerdicts.size());
    a.verdict = kVerdicts[static_cast<std::size_t>((at + (k.code == Key::Down ? 1 : n - 1)) % n)];
}

void Screens::book_text(std::uint32_t character) {
    if (!book_view_.assessing) return;
    Assessing& a = *book_view_.assessing;
    type_into(a.in_remark ? a.remark : a.by, character, a.in_remark ? school::kLongestRemark : school::kLongestBy);
    page_dirty_ = true;
}

}  // namespace quarterturn::window
