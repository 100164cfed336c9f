# cmake -C .presets/ci.cmake -S . -B build : what ./tests/run builds; warnings are errors.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(QUARTERTURN_WERROR ON CACHE BOOL "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
