# SPDX-License-Identifier: GPL-3.0-or-later
# Comparison with exact integer programming, where GLPK is installed.
find_path(GLPK_INCLUDE glpk.h)
find_library(GLPK_LIBRARY glpk)
if(GLPK_INCLUDE AND GLPK_LIBRARY)
  add_executable(exact_match ${CMAKE_CURRENT_LIST_DIR}/exact_match.c)
  target_include_directories(exact_match SYSTEM PRIVATE ${GLPK_INCLUDE})
  target_link_libraries(exact_match PRIVATE lw_flags lanewick_lib PkgConfig::CMOCKA ${GLPK_LIBRARY})
  add_test(NAME exact.match COMMAND exact_match)
endif()
