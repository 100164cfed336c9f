# cmake -C .presets/asan.cmake -S . -B build-asan : the tests under the address and undefined-behaviour sanitizers.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1" CACHE STRING "")
set(QUARTERTURN_SANITIZE ON CACHE BOOL "")
