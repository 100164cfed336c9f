#include "ui/window/builder.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>

#include "sim/faults/fault.hpp"
#include "sim/files/edit_toml.hpp"
#include "sim/files/output.hpp"
#include "sim/files/toml_reader.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using files::FileKind;
using files::KeyAbout;
using words::say;
using words::tr;

namespace {

//! The library of the disk with one text that is still being written.
class Draft : public files::Library {
public:
    Draft(std::shared_ptr<const files::Library> disk, std::string path, std::string text)
        : disk_(std::move(disk)), path_(std::move(path)), text_(std::move(text)) {}
    std::optional<files::FileText> find(FileKind kind, const std::string& name,
                                        const std::string& named_in) const override {
        if (kind == FileKind::lesson && name == path_) return files::FileText{path_, text_};
        return disk_->find(kind, name, named_in);
    }
    std::vector<std::string> names(FileKind kind) const override { return disk_->names(kind); }

private:
    std::shared_ptr<const files::Library> disk_;
    std::string path_, text_;
};

constexpr const char* kNewLesson = R"(schema = 1
kind = "lesson"
title = "A new lesson"
aim = "What can be done after it."
minutes = 30
story = "What the trainee is told."
mode = "coached"
appliance = "practice-38"
gas = "natural"
analyzer = "bench-two-cell"

[as_found]
throttle_turns = { from = -0.75, to = -0.4 }
offset_turns = 0

[site]
from = "valley"

[marks]
pass_pct = 80
co_over_limit_tolerated_s = 60
prepare = 10
measure = 25
adjust = 25
judge = 15
safety = 15
close_out = 10
)";

}  // namespace

Builder::Builder(std::string path, std::string text, std::shared_ptr<const files::Library> library)
    : path_(std::move(path)), text_(std::move(text)), disk_(std::move(library)) {}

std::unique_ptr<Builder> Builder::open(const std::string& path, std::shared_ptr<const files::Library> library,
                                       std::string& reason) {
    std::error_code ec;
    const bool there = std::filesystem::exists(path, ec);
    if (!path.ends_with(".toml")) {
        reason = tr("a lesson's file ends in .toml");
        return nullptr;
    }
    std::string text = kNewLesson;
    if (there) {
        const auto read = files::read_file(path, &reason);
        if (!read) return nullptr;
        text = *read;
        files::Problems problems;
        files::parse_toml({path, text}, problems);
        if (!problems.empty()) {
            reason = problems.front().text() + ". " + tr("Mend it in a text editor first.");
            return nullptr;
        }
    }
    std::unique_ptr<Builder> b(new Builder(path, text, std::move(library)));
    if (there) b->saved_ = text;
    b->look();
    return b;
}

namespace {

//! A list or a range, from which the seed draws: it goes into the file as it is typed.
bool is_draw(const std::string& typed) {
    if (typed.front() != '[' && typed.front() != '{') return false;
    files::Problems none;
    (void)files::parse_toml({"", "x = " + typed + "\n"}, none);
    return none.empty();
}

}  // namespace

std::string Builder::to_type(const BuilderRow& row) {
    const std::string& w = row.written;
    if (w.empty() || (w.front() != '"' && w.front() != '\'')) return w;
    // A text as it reads: without quotes, whatever they are.
    files::Problems none;
    const toml::table t = files::parse_toml({"", "x = " + w + "\n"}, none);
    const auto text = t["x"].value<std::string>();
    return text ? *text : w;
}

std::vector<std::string> Builder::words_of(const std::string& path, const KeyAbout& k) const {
    if (const auto kind = files::kind_named_by(k)) return disk_->names(*kind);
    if (k.type != files::KeyType::choice) return {};
    if (!k.choices.empty()) return k.words();
    std::vector<std::string> out;
    if (path.ends_with(".cause")) out = {"nothing", "adjustment", "conversion"};
    for (const faults::Fault* f : faults::all_faults()) out.emplace_back(faults::word_of(f->id));
    return out;
}

std::string Builder::take(std::string text, const std::string& problem) {
    if (!problem.empty()) return problem;
    if (text == text_) return {};
    before_.push_back(std::exchange(text_, std::move(text)));
    look();
    return {};
}

std::string Builder::set(const std::string& path, const std::string& typed) {
    const KeyAbout* k = files::about(FileKind::lesson, path);
    if (!k) return say("{0} is no key of a lesson", path);
    if (typed.empty()) return leave_out(path);
    // What was looked at and not changed stays as whoever wrote it has it.
    for (const BuilderRow& r : rows_)
        if (r.path == path && !r.written.empty() && typed == to_type(r)) return {};
    using files::KeyType;
    const bool word = k->type == KeyType::text || k->type == KeyType::choice;
    const bool as_written = is_draw(typed);
    std::string value = word && !as_written ? files::toml_lines(typed) : typed;
    if (k->type == KeyType::texts && typed.front() != '[') {
        // Several texts with commas between them.
        std::string list;
        for (std::size_t from = 0; from <= typed.size();) {
            const auto end = std::min(typed.find(',', from), typed.size());
            std::string one = typed.substr(from, end - from);
            one.erase(0, one.find_first_not_of(' '));
            one.erase(one.find_last_not_of(' ') + 1);
            if (!one.empty()) list += (list.empty() ? "" : ", ") + files::toml_text(one);
            from = end + 1;
        }
        value = "[" + list + "]";
    }
    const files::Edited e = files::with_value(text_, path, value);
    if (e.problem.empty()) return take(e.text, e.problem);
    // What a number is, in the words of whoever types one.
    if (k->type == KeyType::number && typed.find(',') != std::string::npos && typed.front() != '{')
        return say("'{0}' is no number here: with a point, as 0.5", files::printable(typed, 40));
    if (k->type == KeyType::number)
        return say("'{0}' is no number: a number, or {{ from = A, to = B }} from which the seed draws",
                   files::printable(typed, 40));
    return e.problem;
}

std::string Builder::leave_out(const std::string& path) {
    const files::Edited e = files::without_value(text_, path);
    return take(e.text, e.problem);
}

std::string Builder::add_fault() {
    const std::string at = fmt::format("fault[{}]", files::tables_of(text_, "fault"));
    files::Edited e = files::with_table(text_, "fault");
    if (e.problem.empty()) e = files::with_value(e.text, at + ".name", "\"vent_blocked\"");
    if (e.problem.empty()) e = files::with_value(e.text, at + ".severity", "0.5");
    return take(e.text, e.problem);
}

std::string Builder::remove(const std::string& path) {
    const files::Edited e = files::without_table(text_, path);
    return take(e.text, e.problem);
}

void Builder::undo() {
    if (before_.empty()) return;
    text_ = std::move(before_.back());
    before_.pop_back();
    look();
}

std::string Builder::save() {
    if (const std::string why = files::write_output(path_, text_); !why.empty()) return why;
    saved_ = text_;
    return {};
}

void Builder::look() {
    rows_.clear();
    const auto add = [this](const std::string& path, const KeyAbout& k, bool head) {
        rows_.push_back({path,
                         &k,
                         head,
                         head ? "" : files::written_value(text_, path),
                         {},
                         head ? std::vector<std::string>{} : words_of(path, k)});
    };
    for (const KeyAbout& k : files::all_keys()) {
        if (k.file != FileKind::lesson || k.key == "schema" || k.key == "kind") continue;
        const std::string key(k.key);
        const auto dot = key.find('.');
        if (k.type == files::KeyType::table) {
            add(key, k, true);
        } else if (k.type == files::KeyType::tables) {
            for (std::size_t i = 0; i < files::tables_of(text_, key); ++i) {
                const std::string at = fmt::format("{}[{}]", key, i);
                add(at, k, true);
                for (const KeyAbout& f : files::all_keys())
                    if (f.file == FileKind::lesson && f.key.starts_with(key + "."))
                        add(at + std::string(f.key.substr(key.size())), f, false);
            }
        } else if (dot == std::string::npos || key.substr(0, dot) != "fault") {
            add(key, k, false);
            if (key != "site.from") continue;
            // A lesson's site takes the keys of a site file.
            for (const KeyAbout& s : files::all_keys())
                if (s.file == FileKind::site && s.key != "schema" && s.key != "kind" && s.key != "name" &&
                    s.key != "note")
                    add("site." + std::string(s.key), s, false);
        }
    }
    const auto draft = std::make_shared<Draft>(disk_, path_, text_);
    auto loaded = files::load_scenario(*draft, path_, 1);
    problems_ = loaded.problems;
    for (const files::Problem& p : problems_)
        for (BuilderRow& r : rows_)
            if (r.problem.empty() && p.file == path_ &&
                (p.message.starts_with(r.path + " ") || p.message.starts_with(r.path + ":")))
                r.problem = p.message;
    if (loaded.value) {
        lesson_ = std::move(loaded.value);
        facts_ = marking::facts_of(lesson_->scenario);
        trial_.start(draft, path_);
    } else {
        trial_.stop();
    }
}

}  // namespace quarterturn::window
