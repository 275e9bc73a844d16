# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cases/ROOM/NAME.case: numeric tests as text, one CTest each.
add_executable(run_cases ${CMAKE_CURRENT_LIST_DIR}/run_cases.c)
target_link_libraries(run_cases PRIVATE lw_flags lanewick_lib)
file(GLOB cases CONFIGURE_DEPENDS RELATIVE ${CMAKE_CURRENT_LIST_DIR} ${CMAKE_CURRENT_LIST_DIR}/cases/*/*.case)
foreach(case IN LISTS cases)
  string(REPLACE "/" "." name ${case})
  add_test(NAME ${name} COMMAND run_cases ${CMAKE_CURRENT_LIST_DIR}/${case})
endforeach()
