// Work side by side: each once, none left out, and an exception is not lost.
#include "tests/support/catch.hpp"
#include <atomic>
#include <stdexcept>
#include <vector>

#include "sim/all_cores.hpp"

using namespace quarterturn;

TEST_CASE("what is done on all cores is done once each") {
    for (const std::size_t count : {0U, 1U, 2U, 1000U}) {
        std::vector<std::atomic<int>> times(count);
        on_all_cores(count, [&](std::size_t i) { ++times[i]; });
        for (const auto& t : times) CHECK(t == 1);
    }
}

TEST_CASE("an exception thrown on another core comes back, and ends the rest") {
    std::atomic<int> done{0};
    CHECK_THROWS_WITH(on_all_cores(100000,
                                   [&](std::size_t i) {
                                       if (i == 7) throw std::runtime_error("the seventh");
                                       ++done;
                                   }),
                      "the seventh");
    CHECK(done < 99999);
}
