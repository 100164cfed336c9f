#include "sim/files/record.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string_view>

#include "sim/bench/words.hpp"

namespace quarterturn {

namespace {

using nlohmann::json;

constexpr std::size_t kLongestLine = 8u << 20;
constexpr std::int64_t kLongestAttempt_steps = 12LL * 3600 * kStepsPerSecond;

constexpr std::string_view kCheckKey = ",\"check\":\"";

std::string hex(std::uint64_t v) {
    char text[17];
    std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(v));
    return text;
}

std::string outcome_word(Outcome o) { return o == Outcome::made_safe ? "made safe" : "left in service"; }

std::string kind_key(FileKind k) { return folder_of(k); }

}  // namespace

std::unique_ptr<RecordWriter> RecordWriter::create(const std::string& path, const LoadedScenario& s, std::uint64_t seed,
                                                   std::string& reason, const std::string& branch_of) {
    // An attempt may take the place of an older attempt of ours; nothing else is ever written over.
    std::error_code ec;
    if (std::filesystem::is_directory(path, ec)) {
        reason = path + ":1:1: is a folder: give a file's name";
        return nullptr;
    }
    if (std::filesystem::exists(path, ec)) {
        std::ifstream old(path, std::ios::binary);
        std::string start(4096, ' ');
        old.read(start.data(), static_cast<std::streamsize>(start.size()));
        start.resize(static_cast<std::size_t>(old.gcount()));
        if (!start.empty() && start.find("\"quarterturn_record\"") == std::string::npos &&
            start.find("\"files\":[{") == std::string::npos) {
            reason = path + ":1:1: exists and is no record: it is not written over";
            return nullptr;
        }
    }
    auto w = std::make_unique<RecordWriter>();
    w->out_.open(path, std::ios::binary | std::ios::trunc);
    if (!w->out_) {
        reason = path + ":1:1: cannot be written";
        return nullptr;
    }
    json files = json::array();
    for (const auto& p : s.parts)
        files.push_back({{"kind", kind_key(p.kind)},
                         {"name", p.name},
                         {"file", std::filesystem::path(p.text.name).filename().string()},
                         {"text", p.text.text}});
    json head{{"quarterturn_record", kRecordVersion}, {"seed", seed}, {"lesson", s.scenario.id}, {"files", files}};
    if (!branch_of.empty()) head["branch_of"] = branch_of;
    w->line(head.dump(-1, ' ', false, json::error_handler_t::replace));
    return w;
}

std::uint64_t chained(std::uint64_t before, std::string_view text) {
    std::uint64_t hash = before ^ 0xcbf29ce484222325ULL;
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
    return hash;
}

void RecordWriter::line(std::string text) {
    chain_ = chained(chain_, text);
    text.pop_back();  // the check goes last, inside the object: what it covers is the line without it
    out_ << text << kCheckKey << hex(chain_) << "\"}\n";
    out_.flush();
}

std::unique_ptr<RecordWriter> RecordWriter::append(const std::string& path, const Record& record, std::string& reason) {
    std::error_code ec;
    std::filesystem::resize_file(path, record.whole_bytes, ec);
    auto w = std::make_unique<RecordWriter>();
    if (!ec) w->out_.open(path, std::ios::binary | std::ios::app);
    if (ec || !w->out_) {
        reason = path + ":1:1: cannot be written";
        return nullptr;
    }
    w->chain_ = record.chain;
    w->line(json{{"step", record.last_step}, {"resumed", true}}.dump());
    return w;
}

void RecordWriter::action(const Action& a) { line(json{{"step", a.step}, {"do", to_text(a)}}.dump()); }

void RecordWriter::after_step(const Bench& b) {
    const std::int64_t step = b.snapshot().step;
    if (step % (kStepsPerSecond / 2) != 0) return;
    json j{{"step", step}};
    if (step % (10 * kStepsPerSecond) == 0) j["print"] = hex(b.fingerprint());
    line(j.dump());
}

void RecordWriter::end(const Bench& b) {
    line(json{{"step", b.snapshot().step}, {"end", outcome_word(b.snapshot().outcome)}, {"print", hex(b.fingerprint())}}
             .dump());
}

std::string Record::provenance() const {
    std::string out = branch_of.empty() ? "" : "Goes on from another attempt: " + branch_of + ".";
    for (const std::int64_t step : resumed)
        out += std::string(out.empty() ? "" : " ") + "Broken off and gone on with at " + clock_text(step) + ".";
    return out;
}

namespace {

//! A record nests three deep; a hostile line nested by the hundred thousand would use up the stack.
bool too_deep(std::string_view text) {
    constexpr int most = 16;
    int depth = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_text) {
            if (c == '\\')
                ++i;
            else if (c == '"')
                in_text = false;
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            if (++depth > most) return true;
        } else if (c == ']' || c == '}') {
            --depth;
        }
    }
    return false;
}

void read_head(const json& j, const std::string& path, Record& r) {
    const auto wrong = [&](const std::string& what) { r.problems.push_back({path, 1, 1, what}); };
    if (!j.is_object() || !j.contains("quarterturn_record")) return wrong("is not a record of this program");
    if (j["quarterturn_record"] != kRecordVersion)
        return wrong("is a record of another version; this program reads version " + std::to_string(kRecordVersion));
    if (!j.value("seed", json()).is_number_integer() || !j.value("lesson", json()).is_string() ||
        !j.value("files", json()).is_array())
        return wrong("has a first line without seed, lesson or files");
    if (j.contains("branch_of") && j["branch_of"].is_string()) r.branch_of = j["branch_of"].get<std::string>();
    r.seed = j["seed"].get<std::uint64_t>();
    r.scenario_name = j["lesson"].get<std::string>();
    for (const auto& f : j["files"]) {
        if (!f.is_object() || !f.value("kind", json()).is_string() || !f.value("name", json()).is_string() ||
            !f.value("text", json()).is_string())
            return wrong("carries a file without kind, name or text");
        for (const FileKind k : kFileKinds)
            if (f["kind"] == kind_key(k)) {
                const std::string name = f["name"].get<std::string>();
                const std::string file = f.value("file", name);
                r.files.files[{k, name}] = {path + " (" + file + ")", f["text"].get<std::string>()};
            }
    }
}

}  // namespace

Record read_record(const std::string& path) {
    Record r;
    std::error_code ec;
    if (std::filesystem::is_directory(path, ec)) {
        r.problems.push_back({path, 1, 1, "is a folder, not a record"});
        return r;
    }
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        r.problems.push_back({path, 1, 1, "cannot be read"});
        return r;
    }
    int number = 0;
    std::string text;
    while (std::getline(in, text)) {
        ++number;
        const bool whole = !in.eof();  // a whole line ends in a line feed
        if (text.size() > kLongestLine) {
            r.problems.push_back({path, number, 1, "is longer than a record's lines may be"});
            return r;
        }
        if (too_deep(text)) {
            r.problems.push_back({path, number, 1, "is nested deeper than a record's lines are"});
            return r;
        }
        const json j = json::parse(text, nullptr, false);
        if (j.is_discarded() || !whole) {
            if (!whole && number > 1) {
                r.cut_off = path + ":" + std::to_string(number) +
                            ":1: the record is cut off in the middle of this line; "
                            "it is replayed up to its last whole line";
                return r;
            }
            r.problems.push_back(
                {path, number, 1, number == 1 ? "is not a record of this program" : "is not a line of a record"});
            return r;
        }
        // The check covers the line as it was before the check was put in.
        const auto at = text.rfind(kCheckKey);
        if (at == std::string::npos) {
            r.chain = 0;
            if (r.edited.empty())
                r.edited =
                    path + ":" + std::to_string(number) + ":1: this line carries no check: the record was edited";
        } else {
            r.chain = chained(r.chain, text.substr(0, at) + "}");
            if (text.substr(at) != std::string(kCheckKey) + hex(r.chain) + "\"}") {
                if (r.edited.empty())
                    r.edited =
                        path + ":" + std::to_string(number) +
                        ":1: the check of this line does not follow from the lines before it: the record was edited";
                std::from_chars(text.data() + at + kCheckKey.size(), text.data() + text.size(), r.chain, 16);
            }
        }
        r.whole_bytes += text.size() + 1;
        if (number == 1) {
            read_head(j, path, r);
            if (!r.problems.empty()) return r;
            continue;
        }
        const auto wrong = [&](const std::string& what) { r.problems.push_back({path, number, 1, what}); };
        if (!j.is_object() || !j.value("step", json()).is_number_integer()) {
            wrong("has no step");
            return r;
        }
        const auto step = j["step"].get<std::int64_t>();
        if (step < r.last_step || step > kLongestAttempt_steps) {
            wrong("has a step that goes back or is past twelve hours");
            return r;
        }
        if (r.ended) {
            wrong("comes after the end of the attempt");
            return r;
        }
        r.last_step = step;
        if (j.contains("do")) {
            const ParsedAction p = j["do"].is_string() ? parse_action(j["do"].get<std::string>())
                                                       : ParsedAction{{}, "the action is no text", 1};
            if (!p.action) {
                wrong(p.problem);
                return r;
            }
            Action a = *p.action;
            a.step = step;
            r.actions.push_back(a);
        }
        if (j.contains("print") && j["print"].is_string()) {
            const auto t = j["print"].get<std::string>();
            std::uint64_t v = 0;
            std::from_chars(t.data(), t.data() + t.size(), v, 16);
            r.prints.push_back({step, v, number});
        }
        if (j.contains("resumed")) r.resumed.push_back(step);
        if (j.contains("end")) r.ended = true;
    }
    if (number == 0) r.problems.push_back({path, 1, 1, "is empty"});
    return r;
}

Loaded<LoadedScenario> lesson_of(const Record& record) {
    return load_scenario(record.files, record.scenario_name, record.seed);
}

Replay replay(const Record& record, const std::string& path, std::int64_t up_to) {
    Replay out;
    out.problems = record.problems;
    if (!out.problems.empty()) return out;
    if (!record.cut_off.empty()) out.notes.push_back(record.cut_off);
    if (!record.edited.empty()) out.notes.push_back(record.edited);
    out.edited = !record.edited.empty();
    out.provenance = record.provenance();
    auto loaded = lesson_of(record);
    if (!loaded.value) {
        out.problems = loaded.problems;
        return out;
    }
    auto attempt = std::make_unique<Attempt>(loaded.value->scenario, record.seed);
    bool diverged = false;
    auto print = record.prints.begin();
    const auto run_to = [&](std::int64_t step) {
        while (true) {
            while (print != record.prints.end() && print->step <= attempt->bench().snapshot().step) {
                // The last print of an ended attempt is taken after its last action: checked below.
                const bool last = record.ended && print + 1 == record.prints.end();
                if (!last && !diverged && print->fingerprint != attempt->bench().fingerprint()) {
                    diverged = true;
                    out.notes.push_back(path + ":" + std::to_string(print->line) +
                                        ":1: the replay differs from what was recorded from here on (another build?)");
                }
                ++print;
            }
            if (attempt->bench().snapshot().step >= step) break;
            attempt->step();
        }
    };
    const std::int64_t end = up_to < 0 ? record.last_step : std::min(up_to, record.last_step);
    for (const Action& a : record.actions) {
        if (a.step > end || (up_to >= 0 && a.step == end)) break;
        run_to(a.step);
        const std::string why = attempt->act(a);
        if (!why.empty())
            out.notes.push_back(path + ": at step " + std::to_string(a.step) + " '" + to_text(a) +
                                "' was refused: " + why);
    }
    run_to(end);
    if (up_to < 0 && record.ended && !record.prints.empty() && !diverged &&
        record.prints.back().fingerprint != attempt->bench().fingerprint())
        out.notes.push_back(path + ": the replay ends in another state than was recorded (another build?)");
    out.attempt = std::move(attempt);
    return out;
}

ActionList read_actions(const FileText& file) {
    ActionList out;
    int number = 0;
    double now = 0;
    std::string_view rest = file.text;
    while (!rest.empty()) {
        ++number;
        const auto end = rest.find('\n');
        std::string_view line = rest.substr(0, end);
        rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
        line = line.substr(0, line.find('#'));
        const auto start = line.find_first_not_of(" \t\r");
        if (start == std::string_view::npos) continue;
        const auto problem = [&](std::size_t column, const std::string& what) {
            out.problems.push_back({file.name, number, static_cast<int>(column) + 1, what});
        };
        const auto stop = std::min(line.find_first_of(" \t\r", start), line.size());
        std::string_view time = line.substr(start, stop - start);
        const bool relative = time.starts_with('+');
        if (relative) time.remove_prefix(1);
        double seconds = 0;
        const auto r = std::from_chars(time.data(), time.data() + time.size(), seconds);
        if (r.ec != std::errc{} || r.ptr != time.data() + time.size() || !(seconds >= 0) || seconds > 43200) {
            problem(start,
                    "a line starts with its time: seconds from the start, or +seconds after the line before; allowed 0 "
                    "to 43200");
            continue;
        }
        const double at = relative ? now + seconds : seconds;
        if (at < now) {
            problem(start, "the time goes back");
            continue;
        }
        now = at;
        ParsedAction p = parse_action(line.substr(stop));
        if (!p.action) {
            problem(stop + static_cast<std::size_t>(p.column) - 1, p.problem);
            continue;
        }
        p.action->step = std::llround(now * kStepsPerSecond);
        out.actions.push_back(*p.action);
    }
    return out;
}

}  // namespace quarterturn
