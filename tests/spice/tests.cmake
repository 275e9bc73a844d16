# SPDX-License-Identifier: GPL-3.0-or-later
# The circuit solver against a general circuit solver's library (Debian: libngspice0-dev); left out where it is absent.
find_library(NGSPICE_LIBRARY ngspice)
find_path(NGSPICE_INCLUDE ngspice/sharedspice.h)
if(NGSPICE_LIBRARY AND NGSPICE_INCLUDE AND NOT LW_SANITIZE)
  add_executable(test_spice ${CMAKE_CURRENT_LIST_DIR}/test_spice.c ${CMAKE_CURRENT_LIST_DIR}/spice.c)
  target_link_libraries(test_spice PRIVATE lw_flags lanewick_lib PkgConfig::CMOCKA ${NGSPICE_LIBRARY})
  target_include_directories(test_spice SYSTEM PRIVATE ${NGSPICE_INCLUDE})
  add_test(NAME circuit.against_spice COMMAND test_spice)
endif()
