# cmake -C .presets/dev.cmake -S . -B build-dev : for working on the code.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g" CACHE STRING "")
set(QUARTERTURN_TESTS ON CACHE BOOL "")
set(QUARTERTURN_WERROR ON CACHE BOOL "")
