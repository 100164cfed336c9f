#include "tests/support/catch.hpp"
#include <sstream>

#include "tests/support/files.hpp"
#include "tests/validation/checks.hpp"

using namespace quarterturn;

// Each row's source and tolerance stand in checks.cpp and, printed, in docs/validation.md.
TEST_CASE("every outside check holds or names why it does not") {
    for (const auto& group : validation::all_checks())
        for (const auto& c : group.checks) {
            INFO(group.title << ": " << c.quantity << " (" << c.source << "): expected " << c.expected << " " << c.unit
                             << ", ours " << c.ours << ", tolerance " << c.tolerance);
            if (c.known.empty()) CHECK(c.holds());
        }
}

namespace {

//! The first line in which a page differs from what is kept; empty if none does.
std::string first_difference(const std::string& printed, const char* page) {
    std::istringstream now(printed);
    std::istringstream kept(test::Scratch::read(test::source_path(page)));
    for (int line = 1;; ++line) {
        std::string a, b;
        const bool more = static_cast<bool>(std::getline(now, a));
        const bool was = static_cast<bool>(std::getline(kept, b));
        if (!more && !was) return {};
        if (a != b || more != was)
            return std::string(page) + ":" + std::to_string(line) + ": now '" + a + "', kept '" + b + "'";
    }
}

}  // namespace

TEST_CASE("docs/validation.md is what the program prints today") {
    INFO("run build/validation_table docs");
    CHECK(first_difference(validation::page(validation::all_checks()), "docs/validation.md") == "");
    CHECK(first_difference(validation::marks_page(), "docs/marks.md") == "");
    CHECK(first_difference(validation::signatures(), "docs/signatures.md") == "");
    CHECK(first_difference(validation::sensitivities(), "docs/sensitivities.md") == "");
    CHECK(first_difference(validation::actions_page(), "docs/actions.md") == "");
    CHECK(first_difference(validation::co_picture(), "docs/co-against-air-ratio.svg") == "");
}
