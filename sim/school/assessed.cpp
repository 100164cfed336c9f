#include "sim/school/assessed.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "sim/files/json_in.hpp"
#include "sim/files/library.hpp"
#include "sim/files/output.hpp"
#include "sim/files/problem.hpp"

namespace quarterturn::school {

std::string assessed_path(const std::string& record) { return record + ".assessed.json"; }

namespace {

//! All of it in one text, each with its length before it so that none runs into the next: what the seal is over.
std::string whole(const std::string& of, const Assessed& a) {
    std::string out;
    for (const std::string* part : {&of, &a.by, &a.verdict, &a.remark})
        out += std::to_string(part->size()) + ":" + *part;
    return out;
}

}  // namespace

Assessed read_assessed(const std::string& record, std::uint64_t chain, const KeyPair* keys, bool* broken) {
    std::string reason;
    std::error_code ec;
    if (!std::filesystem::exists(assessed_path(record), ec)) return {};
    const auto text = files::read_file(assessed_path(record), &reason);
    const auto j = text ? files::json_from(*text) : nlohmann::json();
    const auto word = [&j](const char* key) { return files::text_in(j, key); };
    if (!j.is_object() || j.value("quarterturn_assessed", nlohmann::json()) != 1 || word("by").empty()) {
        if (broken) *broken = true;
        return {};
    }
    Assessed a{word("by"), word("remark"), word("verdict"), word("of") != fmt::format("{:016x}", chain), false};
    if (a.verdict != "passed" && a.verdict != "not passed") a.verdict.clear();
    a.doubtful = keys && !is_sealed_by(*keys, whole(word("of"), a), word("seal"));
    a.by = files::printable(a.by, kLongestBy);
    a.remark = files::printable(a.remark, kLongestRemark);
    return a;
}

std::string write_assessed(const std::string& record, std::uint64_t chain, const Assessed& said, const KeyPair* keys) {
    // As it will be read: what is no letter is written as one sees it.
    Assessed a = said;
    a.by = files::printable(said.by, kLongestBy);
    a.remark = files::printable(said.remark, kLongestRemark);
    const std::string of = fmt::format("{:016x}", chain);
    nlohmann::ordered_json j{
        {"quarterturn_assessed", 1}, {"of", of}, {"by", a.by}, {"verdict", a.verdict}, {"remark", a.remark}};
    if (keys) j["seal"] = seal_of(*keys, whole(of, a));
    const std::string path = assessed_path(record);
    std::error_code ec;
    bool broken = false;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ec)))
        if (read_assessed(record, chain, nullptr, &broken), broken || std::filesystem::is_symlink(path, ec))
            return path + ":1:1: is there and is no assessor's word: take it away first";
    return files::write_output(path, j.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
}

}  // namespace quarterturn::school
