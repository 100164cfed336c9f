// Catch2 2 brings its main with a define, Catch2 3 as a library.
#if __has_include(<catch2/catch.hpp>)
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
#endif
