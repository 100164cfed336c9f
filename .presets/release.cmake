# cmake -C .presets/release.cmake -S . -B build : what ./ui/start builds.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(QUARTERTURN_TESTS OFF CACHE BOOL "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
