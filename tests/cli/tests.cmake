# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/NAME.test: the command line as text, one CTest each; the format stands in tests/cli/README.md.
file(GLOB cli_tests CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/*.test)
foreach(test IN LISTS cli_tests)
  get_filename_component(name ${test} NAME_WE)
  add_test(NAME cli.${name} COMMAND ${CMAKE_CURRENT_LIST_DIR}/run $<TARGET_FILE:lanewick_cli> ${test}
           WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
endforeach()
add_test(NAME cli.heads COMMAND ${CMAKE_CURRENT_LIST_DIR}/heads $<TARGET_FILE:lanewick_cli>)
