# SPDX-License-Identifier: GPL-3.0-or-later
# Packs data/grading/rules.csv into a C table:
# cmake -D IN=data/grading/rules.csv -D OUT=core/cell/grading_table.c -P scripts/grading_table.cmake
file(STRINGS ${IN} rows)
list(POP_FRONT rows)
set(text "/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packed from data/grading/rules.csv by scripts/grading_table.cmake.
 */
#include \"lanewick/verdict.h\"

/* clang-format off */
const lw_grading lw_grading_default = {.rules = {
")
foreach(row IN LISTS rows)
  if(NOT row MATCHES "^([a-z0-9_]+),([0-9.]+),([^,]*),([^,]+),([^,]+)$")
    message(FATAL_ERROR "not five fields: ${row}")
  endif()
  string(TOUPPER ${CMAKE_MATCH_1} name)
  string(REGEX REPLACE "^([a-z0-9_]+),([0-9.]+),([^,]*),([^,]+),([^,]+)$" "{\"\\1\", \\2, \"\\3\", \"\\4\",\n        \"\\5\"}" fields "${row}")
  string(APPEND text "    [LW_RULE_${name}] = ${fields},\n")
endforeach()
string(APPEND text "}};\n")
file(WRITE ${OUT} "${text}")
