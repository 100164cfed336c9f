#include "sim/school/pack.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <map>
#include <nlohmann/json.hpp>

#include "sim/files/json_in.hpp"
#include "sim/files/keys.hpp"

namespace quarterturn::school {

using files::number_in;
using files::text_in;
using nlohmann::ordered_json;

namespace {

constexpr std::size_t kLargestPack = std::size_t{64} << 20;
constexpr std::int64_t kClockSlack_s = 600;  // clocks of one room differ by minutes

ordered_json readable_of(const PackTerms& t, const Key& instructor_public, const std::string& salt) {
    return {{"quarterturn_pack", 1},
            {"id", t.id},
            {"title", t.title},
            {"made", t.made},
            {"opens", t.opens},
            {"closes", t.closes},
            {"minutes", t.minutes},
            {"pupils", t.pupils},
            {"instructor", base64({reinterpret_cast<const char*>(instructor_public.data()), instructor_public.size()})},
            {"salt", base64(salt)}};
}

//! What is the matter with what stands beside the seal; empty if it is as key_list.def says.
std::string wrong_with(const ordered_json& j) {
    using files::KeyType;
    for (const files::KeyAbout& k : files::all_keys()) {
        if (k.file != files::FileKind::pack) continue;
        const auto at = j.find(k.key);
        if (at == j.end()) {
            if (k.required()) return fmt::format("{} is missing", k.key);
            continue;
        }
        const bool right =
            k.type == KeyType::number
                ? at->is_number_integer() && at->get<double>() >= k.low && at->get<double>() <= k.high
            : k.type == KeyType::text
                ? at->is_string() && k.holds(at->get_ref<const std::string&>())
                : at->is_array() && std::all_of(at->begin(), at->end(), [](const auto& v) { return v.is_string(); });
        if (!right)
            return fmt::format("{} is {}, allowed {}", k.key, files::quoted(at->dump(-1, ' ', true)), k.allowed());
    }
    for (const auto& [key, value] : j.items())
        if (!files::about(files::FileKind::pack, key)) return fmt::format("{} is no key of a pack", files::quoted(key));
    return {};
}

std::optional<files::FileKind> kind_named(const std::string& folder) {
    for (const files::FileKind k : files::kFileKinds)
        if (folder == files::folder_of(k)) return k;
    return std::nullopt;
}

}  // namespace

std::optional<Pack> read_pack(const std::string& path, std::string& reason) {
    const auto text = files::read_file(path, &reason, kLargestPack);
    if (!text) return std::nullopt;
    const auto j = files::json_from<ordered_json>(*text);
    if (!j.is_object() || !j.contains("quarterturn_pack")) {
        reason = "is no assessment pack of this program";
        return std::nullopt;
    }
    if (j["quarterturn_pack"] != 1) {
        reason = "is a pack of another format than 1";
        return std::nullopt;
    }
    if (const std::string why = wrong_with(j); !why.empty()) {
        reason = "is a pack that was damaged: " + why;
        return std::nullopt;
    }
    Pack p;
    p.terms.id = text_in(j, "id");
    p.terms.title = files::printable(text_in(j, "title"), 200);
    p.terms.made = number_in(j, "made");
    p.terms.opens = number_in(j, "opens");
    p.terms.closes = number_in(j, "closes");
    p.terms.minutes = static_cast<int>(number_in(j, "minutes"));
    for (const auto& who : j["pupils"]) p.terms.pupils.push_back(files::printable(who.get<std::string>(), 80));
    const auto box = from_base64(text_in(j, "sealed"));
    const auto salt = from_base64(text_in(j, "salt"));
    const auto who = from_base64(text_in(j, "instructor"));
    if (!box || !salt || !who || who->size() != p.instructor_public.size()) {
        reason = "is a pack that was damaged";
        return std::nullopt;
    }
    std::copy(who->begin(), who->end(), p.instructor_public.begin());
    p.box = *box;
    p.salt = *salt;
    // What is bound to the seal: all that stands beside it, in its order.
    ordered_json beside = j;
    beside.erase("sealed");
    p.readable = beside.dump();
    return p;
}

PackTime time_of(const PackTerms& t, std::int64_t now) {
    if (now < t.made - kClockSlack_s) return PackTime::clock_is_wrong;
    if (t.opens > 0 && now < t.opens) return PackTime::too_early;
    if (t.closes > 0 && now >= t.closes) return PackTime::too_late;
    return PackTime::open;
}

std::optional<OpenPack> open_pack(const Pack& p, const std::string& words) {
    const auto key = key_from_words(words, p.salt);
    if (!key) return std::nullopt;
    auto contents = opened(p.box, p.readable, *key);
    if (!contents) return std::nullopt;
    return OpenPack(p.terms, p.instructor_public, *key, *std::move(contents));
}

files::Loaded<PackJob> OpenPack::job_of(const std::string& pupil) const {
    files::Loaded<PackJob> out;
    const auto wrong = [&out](const std::string& why) {
        out.problems.push_back({"the pack", 1, 1, why});
        return out;
    };
    const auto j = files::json_from(contents_);
    if (!j.is_object() || !j.contains("jobs") || !j.contains("lessons"))
        return wrong("holds nothing that can be played");
    for (const auto& job : j["jobs"]) {
        if (text_in(job, "pupil") != pupil) continue;
        const auto& lesson = j["lessons"].at(static_cast<std::size_t>(number_in(job, "lesson")));
        files::CarriedLibrary carried;
        for (const auto& f : lesson.at("files"))
            if (const auto kind = kind_named(text_in(f, "kind")))
                carried.files[{*kind, text_in(f, "name")}] = {text_in(f, "file"), text_in(f, "text")};
        const auto seed = job.at("seed").get<std::uint64_t>();
        auto loaded = files::load_scenario(carried, text_in(lesson, "id"), seed);
        out.problems = loaded.problems;
        if (!loaded.value) return out;
        loaded.value->scenario.coached = false;  // an assessment, whatever the lesson is: no hints
        out.value = PackJob{pupil, *std::move(loaded.value), seed};
        return out;
    }
    return wrong("has no job for " + files::quoted(pupil));
}

SealedPack seal_pack(const PackTerms& given, std::span<const PackJob> jobs, const std::string& words,
                     const Key& instructor_public) {
    PackTerms terms = given;
    if (terms.id.empty())
        for (const char c : random_bytes(8)) terms.id += fmt::format("{:02x}", static_cast<unsigned char>(c));
    terms.pupils.clear();
    // A lesson's files once, however many are given it.
    ordered_json lessons = ordered_json::array();
    std::map<std::string, std::size_t> number;
    ordered_json list = ordered_json::array();
    for (const PackJob& job : jobs) {
        terms.pupils.push_back(job.pupil);
        ordered_json parts = ordered_json::array();
        for (const auto& p : job.lesson.parts)
            parts.push_back({{"kind", files::folder_of(p.kind)},
                             {"name", p.name},
                             {"file", std::filesystem::path(p.text.name).filename().string()},
                             {"text", p.text.text}});
        const auto [at, is_new] = number.emplace(parts.dump(), lessons.size());
        if (is_new) lessons.push_back({{"id", job.lesson.scenario.id}, {"files", std::move(parts)}});
        list.push_back({{"pupil", job.pupil}, {"lesson", at->second}, {"seed", job.seed}});
    }
    const std::string salt = random_bytes(16);
    const auto key = key_from_words(words, salt);
    if (!key) return {};
    ordered_json out = readable_of(terms, instructor_public, salt);
    // How long it is says something of how many lessons there are: filled up to whole 64 KiB.
    std::string contents = ordered_json{{"lessons", lessons}, {"jobs", list}}.dump();
    constexpr std::size_t whole = 65536;
    contents.resize((contents.size() / whole + 1) * whole, ' ');
    out["sealed"] = base64(sealed(contents, out.dump(), *key));
    KeyPair::Pack kept{terms.id, terms.title, *key, {}};
    for (const PackJob& job : jobs) kept.jobs.push_back({job.pupil, job.lesson.scenario.id, job.seed});
    return {out.dump(1) + "\n", std::move(kept)};
}

}  // namespace quarterturn::school
