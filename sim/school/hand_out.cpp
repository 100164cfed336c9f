#include "sim/school/hand_out.hpp"

#include <algorithm>
#include <charconv>

#include "sim/files/output.hpp"
#include "sim/files/problem.hpp"
#include "sim/school/moment.hpp"

namespace quarterturn::school {

TermsRead read_terms(const TypedTerms& typed, std::int64_t now) {
    constexpr std::size_t longest_title = 200;
    constexpr int most_minutes = 720;
    TermsRead r;
    PackTerms& t = r.terms;
    t.made = now;
    t.title = files::printable(typed.title, longest_title);
    const auto moment = [&r](const std::string& text, TermsField field) -> std::int64_t {
        if (text.empty()) return 0;
        if (const auto at = moment_from(text)) return *at;
        r.problems.push_back(
            {field, "has to be a moment as '2026-12-03 09:00' (local time) or '2026-12-03T09:00+01:00'"});
        return 0;
    };
    t.opens = moment(typed.opens, TermsField::opens);
    t.closes = moment(typed.closes, TermsField::closes);
    if (t.closes > 0 && t.closes <= t.opens)
        r.problems.push_back({TermsField::closes, "has to come after it opens"});
    else if (t.closes > 0 && t.closes <= now)
        r.problems.push_back({TermsField::closes, "has to lie in the future"});
    if (typed.minutes.empty()) return r;
    const char* end = typed.minutes.data() + typed.minutes.size();
    const auto [stopped, error] = std::from_chars(typed.minutes.data(), end, t.minutes);
    if (error != std::errc() || stopped != end || t.minutes < 1 || t.minutes > most_minutes) {
        t.minutes = 0;
        r.problems.push_back({TermsField::minutes, "has to be a whole number, 1 to 720"});
    }
    return r;
}

std::optional<SealedClass> seal_class(const PackTerms& terms, const DrawnJobs& drawn, const Roster& roster,
                                      const KeyPair& keys) {
    std::vector<PackJob> jobs;
    for (std::size_t i = 0; i < std::min(drawn.jobs.size(), roster.pupils.size()); ++i)
        jobs.push_back({roster.pupils[i].identity, drawn.jobs[i].lesson, drawn.jobs[i].seed});
    SealedClass out;
    out.words = new_words();
    out.pack = seal_pack(terms, jobs, out.words, keys.public_half);
    if (out.pack.text.empty()) return std::nullopt;
    return out;
}

std::string write_class(const SealedClass& sealed, KeyPair& keys, const std::string& key_path, bool new_key,
                        const std::string& out) {
    keys.packs.push_back(sealed.pack.kept);
    if (std::string why = write_key_file(key_path, keys, !new_key); !why.empty()) {
        keys.packs.pop_back();
        return why;
    }
    return files::write_output(out, sealed.pack.text);
}

}  // namespace quarterturn::school
