# Asks a built test program for its cases and makes each a CTest test. Written out at build time, read by CTest.
function(discover_cases target kind)
  set(list ${CMAKE_CURRENT_BINARY_DIR}/${target}_cases.cmake)
  add_custom_command(TARGET ${target} POST_BUILD
    COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:${target}> -DKIND=${kind} -DOUT=${list} -P ${CMAKE_SOURCE_DIR}/tests/support/list_cases.cmake
    VERBATIM)
  set_property(DIRECTORY APPEND PROPERTY TEST_INCLUDE_FILES ${list})
endfunction()
