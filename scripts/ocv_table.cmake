# SPDX-License-Identifier: GPL-3.0-or-later
# Packs data/cells/ocv.csv into a C table: cmake -D IN=data/cells/ocv.csv -D OUT=core/cell/curve_table.c -P scripts/ocv_table.cmake
file(STRINGS ${IN} rows)
list(POP_FRONT rows)
set(names nmc lco ni lfp)
set(text "/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packed from data/cells/ocv.csv by scripts/ocv_table.cmake; origins in data/cells/README.md.
 */
#include \"curve_table.h\"

/* clang-format off */
")
foreach(name IN LISTS names)
  string(APPEND text "const lw_cell_curve lw_curve_${name} = {.name = \"${name}\", .points = {\n")
  set(count 0)
  foreach(row IN LISTS rows)
    if(row MATCHES "^${name},([0-9.]+),([0-9.]+)$")
      string(APPEND text "    {${CMAKE_MATCH_1}, ${CMAKE_MATCH_2}},\n")
      math(EXPR count "${count} + 1")
    endif()
  endforeach()
  if(NOT count EQUAL 71)
    message(FATAL_ERROR "curve ${name} has ${count} points, not 71")
  endif()
  string(APPEND text "}};\n")
endforeach()
file(WRITE ${OUT} "${text}")
