# SPDX-License-Identifier: GPL-3.0-or-later
# The catalogues po/*.po become one C file of sorted tables.
if(NOT LW_CORE_ONLY)
  file(GLOB catalogues CONFIGURE_DEPENDS po/*.po)
  # texts are found in all these
  file(GLOB_RECURSE words_said CONFIGURE_DEPENDS core/*.c format/*.c desk/*.c serve/*.c store/*.c sheet/*.c cli/*.c)
  set(words_c ${CMAKE_BINARY_DIR}/words_tables.c)
  find_package(Python3 REQUIRED COMPONENTS Interpreter)
  add_custom_command(OUTPUT ${words_c} COMMAND ${Python3_EXECUTABLE} ${CMAKE_SOURCE_DIR}/scripts/words ${words_c}
                     DEPENDS ${catalogues} ${words_said} ${CMAKE_SOURCE_DIR}/scripts/words ${CMAKE_SOURCE_DIR}/scripts/english.py)
  file(GLOB words_sources CONFIGURE_DEPENDS words/*.c)
  add_library(lw_words OBJECT ${words_sources} ${words_c})
  target_link_libraries(lw_words PRIVATE lw_flags)
  set_target_properties(lw_words PROPERTIES POSITION_INDEPENDENT_CODE ON)
  list(APPEND room_objects $<TARGET_OBJECTS:lw_words>)
endif()
