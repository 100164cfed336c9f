# cmake -C .presets/ci.cmake -S . -B build : what ./tests/run builds; with CI set, warnings are errors.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
if(DEFINED ENV{CI})
  set(QUARTERTURN_WERROR ON CACHE BOOL "")
endif()
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
