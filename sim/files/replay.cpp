// A record played again on the bench, and held against what it says of the state.
#include <fmt/format.h>
#include <map>

#include "sim/bench/action_text.hpp"
#include "sim/bench/fields.hpp"
#include "sim/files/record.hpp"

namespace quarterturn::files {

namespace {

class Replayer {
public:
    Replayer(const Record& record, const std::string& path, Replay& out, Attempt& attempt)
        : record_(record), path_(path), out_(out), attempt_(attempt), print_(record.prints.begin()) {}

    void run_to(std::int64_t step) {
        while (true) {
            for (; print_ != record_.prints.end() && print_->step <= now(); ++print_) {
                // The last print of an ended attempt is taken after its last action: end() holds that.
                const bool last = record_.ended && print_ + 1 == record_.prints.end();
                if (!last) compare(*print_);
            }
            if (now() >= step) return;
            attempt_.step();
        }
    }
    void end() {
        if (record_.ended && !record_.prints.empty()) compare(record_.prints.back());
        if (differs_ && !named_)
            out_.notes.push_back(
                fmt::format("{}:{}:1: the replay differs from what was recorded from here on (another build?)", path_,
                            differs_->line));
    }

private:
    std::int64_t now() const { return attempt_.bench().snapshot().step; }

    void compare(const Record::Print& p) {
        if (named_) return;
        if (!differs_ && p.fingerprint != fingerprint(attempt_.bench().snapshot())) differs_ = &p;
        if (differs_ && !p.values.empty()) name_the_field(p);
    }
    void name_the_field(const Record::Print& p) {
        std::map<std::string, std::string> here;
        for (auto& [path, value] : single_values(attempt_.bench().snapshot())) here[path] = std::move(value);
        for (const KeptValue& k : p.values) {
            const auto at = here.find(k.path);
            const std::string value = at == here.end() ? "nothing" : at->second;
            if (value == k.value) continue;
            out_.notes.push_back(fmt::format(
                "{}:{}:1: the replay differs from what was recorded: {} was {} and is {} now (another build?)", path_,
                p.line, k.path, k.value, value));
            named_ = true;
            return;
        }
    }

    const Record& record_;
    const std::string& path_;
    Replay& out_;
    Attempt& attempt_;
    std::vector<Record::Print>::const_iterator print_;
    const Record::Print* differs_ = nullptr;
    bool named_ = false;
};

}  // namespace

Replay replay(const Record& record, const std::string& path, std::int64_t up_to) {
    Replay out;
    out.problems = record.problems;
    if (!out.problems.empty()) return out;
    for (const std::string& note : {record.carried, record.cut_off, record.edited})
        if (!note.empty()) out.notes.push_back(note);
    out.edited = !record.edited.empty();
    out.branch_of = record.branch_of;
    out.resumed = record.resumed;
    auto loaded = lesson_of(record);
    if (!loaded.value) {
        out.problems = loaded.problems;
        return out;
    }
    auto attempt = std::make_unique<Attempt>(loaded.value->scenario, record.seed);
    Replayer player(record, path, out, *attempt);
    const std::int64_t end = up_to < 0 ? record.last_step : std::min(up_to, record.last_step);
    for (const Action& a : record.actions) {
        if (a.step > end || (up_to >= 0 && a.step == end)) break;
        player.run_to(a.step);
        if (attempt->act(a))
            out.notes.push_back(fmt::format("{}: at step {} '{}' was refused in the replay (another build?)", path,
                                            a.step, bench::to_text(a)));
    }
    player.run_to(end);
    if (up_to < 0) player.end();
    out.attempt = std::move(attempt);
    return out;
}

}  // namespace quarterturn::files
