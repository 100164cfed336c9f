# cmake -C .presets/release.cmake -S . -B build : what ./ui/start and ./tests/run build; tests/run adds the tests.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
