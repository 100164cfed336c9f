#include "tests/support/catch.hpp"

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

TEST_CASE("docs/validation.md is what the program prints today") {
    const std::string printed = validation::page(validation::all_checks());
    const std::string kept = test::Scratch::read(test::source_path("docs/validation.md"));
    INFO("run build/validation_table docs");
    CHECK(printed == kept);
    CHECK(validation::marks_page() == test::Scratch::read(test::source_path("docs/marks.md")));
    CHECK(validation::signatures() == test::Scratch::read(test::source_path("docs/signatures.md")));
    CHECK(validation::sensitivities() == test::Scratch::read(test::source_path("docs/sensitivities.md")));
    CHECK(validation::actions_page() == test::Scratch::read(test::source_path("docs/actions.md")));
    CHECK(validation::co_picture() == test::Scratch::read(test::source_path("docs/co-against-air-ratio.svg")));
}
