#include "ui/report/learning_records.hpp"

#include <algorithm>
#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "sim/files/version.hpp"
#include "sim/school/moment.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

using nlohmann::ordered_json;
using school::ClassRow;

namespace {

//! Everything of ours that needs an address stands under it; it leads nowhere, as RFC 2606 keeps .invalid.
constexpr const char* kBase = "https://quarterturn.invalid/xapi/";

double rounded(double v, double to) { return std::round(v * to) / to; }

//! Bytes that may not stand in an address as %XX.
std::string in_address(const std::string& text) {
    std::string out;
    for (const char c : text) {
        const auto u = static_cast<unsigned char>(c);
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                           c == '_' || c == '.' || c == '~';
        out += plain ? std::string(1, c) : fmt::format("%{:02X}", u);
    }
    return out;
}

//! Start and length as the moment it ended; empty if the record does not say when it began.
std::string ended_at(const ClassRow& r) {
    const auto begun = school::moment_from(r.started);
    return begun ? school::utc_moment(*begun + std::lround(r.minutes * 60)) : std::string();
}

//! Follows from all that the statement says: the same said twice is one statement, and another word is another.
std::string id_of(const ordered_json& statement) {
    const boost::uuids::name_generator_sha1 named(boost::uuids::ns::url());
    return to_string(named(kBase + std::string("statement/") +
                           statement.dump(-1, ' ', false, ordered_json::error_handler_t::replace)));
}

ordered_json in_english(const std::string& words) { return {{"en", words}}; }

ordered_json verb_of(const ClassRow& r) {
    const std::string word = !r.ended && !r.time_over ? "attempted" : r.stands_as_passed() ? "passed" : "failed";
    return {{"id", "http://adlnet.gov/expapi/verbs/" + word}, {"display", in_english(word)}};
}

ordered_json result_of(const ClassRow& r) {
    ordered_json extensions;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        extensions[std::string(kBase) + "extension/" + std::string(bench::kCompetencyKeys[i])] =
            rounded(r.weight[i] > 0 ? std::clamp(r.earned[i] / r.weight[i], 0.0, 1.0) : 0.0, 1000);
    extensions[std::string(kBase) + "extension/hints"] = r.hints;
    extensions[std::string(kBase) + "extension/critical"] = r.critical;
    ordered_json out;
    // Points may fall below nothing by what hints and time cost; a score may not.
    const double points = std::clamp(r.points, 0.0, r.of);
    if (r.of > 0)
        out["score"] = {{"scaled", rounded(points / r.of, 10000)},
                        {"raw", rounded(points, 10)},
                        {"min", 0},
                        {"max", rounded(r.of, 10)}};
    if (r.ended || r.time_over) out["success"] = r.stands_as_passed();
    out["completion"] = r.ended;
    out["duration"] = fmt::format("PT{:.2f}S", r.minutes * 60);
    if (!r.assessed.remark.empty()) out["response"] = r.assessed.remark;
    out["extensions"] = extensions;
    return out;
}

}  // namespace

std::string learning_records(std::span<const ClassRow> rows, const school::Roster& roster) {
    ordered_json all = ordered_json::array();
    for (const ClassRow& r : rows) {
        if (!r.marked || r.pupil.empty() || r.copied || r.edited || r.foreign || r.branched) continue;
        const school::Pupil* p = roster.find(r.pupil);
        ordered_json s{{"actor",
                        {{"objectType", "Agent"},
                         {"account", {{"homePage", p ? p->home_page : school::kNoHome}, {"name", r.pupil}}}}},
                       {"verb", verb_of(r)},
                       {"object",
                        {{"objectType", "Activity"},
                         {"id", kBase + std::string("lesson/") + in_address(r.lesson)},
                         {"definition",
                          {{"name", in_english(r.title.empty() ? r.lesson : r.title)},
                           {"type", "http://adlnet.gov/expapi/activities/simulation"}}}}},
                       {"result", result_of(r)},
                       {"context",
                        {{"platform", std::string("Quarterturn ") + std::string(files::kProgramVersion)},
                         {"language", "en"},
                         {"extensions",
                          {{std::string(kBase) + "extension/seed", r.seed},
                           {std::string(kBase) + "extension/assessment", r.assessment}}}}}};
        if (const std::string when = ended_at(r); !when.empty()) s["timestamp"] = when;
        s["context"]["extensions"][std::string(kBase) + "extension/record"] = fmt::format("{:016x}", r.chain);
        // Which attempt it is hangs on what else has been collected: a statement that was sent must not change by it.
        ordered_json whole{{"id", id_of(s)}};
        whole.update(s);
        all.push_back(std::move(whole));
    }
    return all.dump(1, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace quarterturn::report
