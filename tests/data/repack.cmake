# SPDX-License-Identifier: GPL-3.0-or-later
# Packs a table again and compares it with the one that is compiled in: -D SCRIPT= -D IN= -D MADE= -D OUT=
execute_process(COMMAND ${CMAKE_COMMAND} -D IN=${IN} -D OUT=${OUT} -P ${SCRIPT} RESULT_VARIABLE failed)
if(failed)
  message(FATAL_ERROR "packing ${IN} failed")
endif()
file(READ ${MADE} made)
file(READ ${OUT} again)
if(NOT made STREQUAL again)
  message(FATAL_ERROR "${MADE} is not what ${SCRIPT} makes of ${IN}")
endif()
