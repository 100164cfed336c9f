// Moments of the day, by hand.
#include "tests/support/catch.hpp"

#include "sim/school/moment.hpp"

using namespace quarterturn::school;

TEST_CASE("a moment with its offset is the same moment everywhere, and what is none is none") {
    // 2026-03-01 00:00 UTC is day 20513 since 1970.
    constexpr std::int64_t midnight = 20513LL * 86400;
    CHECK(moment_from("2026-03-01T00:00:00Z") == midnight);
    CHECK(moment_from("2026-03-01 00:00Z") == midnight);
    CHECK(moment_from("2026-03-01T09:30:15+09:00") == midnight + 30 * 60 + 15);
    CHECK(moment_from("2026-02-28T23:00-01:00") == midnight);
    CHECK(utc_moment(midnight + 3661) == "2026-03-01T01:01:01Z");
    CHECK(local_moment(*moment_from("2026-12-03 09:00")) == "2026-12-03 09:00");
    for (const char* none : {"", "yesterday", "2026-03-01", "2026-02-31 10:00", "2026-02-31T10:00Z", "2026-13-01 10:00",
                             "2026-03-01 24:00", "2026-03-01 10:60", "2026-03-01T10:00:60Z", "2026-03-01T10:00x",
                             "2026-03-01T10:00+1:00x", "2026-03-01x10:00", "1-1-1 1:1"}) {
        INFO(none);
        CHECK_FALSE(moment_from(none));
    }
}
