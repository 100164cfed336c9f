#include "sim/school/assessed.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "sim/files/library.hpp"
#include "sim/files/problem.hpp"
#include "sim/files/output.hpp"

namespace quarterturn::school {

std::string assessed_path(const std::string& record) { return record + ".assessed.json"; }

Assessed read_assessed(const std::string& record, std::uint64_t chain) {
    const auto text = files::read_file(assessed_path(record));
    if (!text) return {};
    const auto j = nlohmann::json::parse(*text, nullptr, false);
    if (!j.is_object() || j.value("quarterturn_assessed", nlohmann::json()) != 1) return {};
    const auto word = [&j](const char* key) {
        const auto at = j.find(key);
        return at != j.end() && at->is_string() ? files::printable(at->get<std::string>()) : std::string();
    };
    Assessed a{word("by"), word("remark"), word("verdict"), word("of") != fmt::format("{:016x}", chain)};
    if (a.verdict != "passed" && a.verdict != "not passed") a.verdict.clear();
    return a.by.empty() ? Assessed{} : a;
}

std::string write_assessed(const std::string& record, std::uint64_t chain, const Assessed& a) {
    const nlohmann::ordered_json j{{"quarterturn_assessed", 1},
                                   {"of", fmt::format("{:016x}", chain)},
                                   {"by", a.by},
                                   {"verdict", a.verdict},
                                   {"remark", a.remark}};
    return files::write_output(assessed_path(record),
                               j.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
}

}  // namespace quarterturn::school
