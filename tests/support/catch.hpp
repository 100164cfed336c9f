// Catch2 as Debian 12 has it (2.13, one header) or as Debian 13 does (3.x): the few names that moved, in one place.
#pragma once

#if __has_include(<catch2/catch.hpp>)
#include <catch2/catch.hpp>
#else
#include <catch2/catch_all.hpp>
using Catch::Approx;
#endif
