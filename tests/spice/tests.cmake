# SPDX-License-Identifier: GPL-3.0-or-later
# The circuit solver against a general circuit solver's library (Debian: libngspice0-dev); left out where it is absent.
find_library(NGSPICE_LIBRARY ngspice)
find_path(NGSPICE_INCLUDE ngspice/sharedspice.h)
if(NGSPICE_LIBRARY AND NGSPICE_INCLUDE AND NOT LW_SANITIZE)
  foreach(name spice spice_trigger)
    add_executable(test_${name} ${CMAKE_CURRENT_LIST_DIR}/test_${name}.c ${CMAKE_CURRENT_LIST_DIR}/spice.c)
    target_link_libraries(test_${name} PRIVATE lw_flags lanewick_lib PkgConfig::CMOCKA ${NGSPICE_LIBRARY})
    target_include_directories(test_${name} SYSTEM PRIVATE ${NGSPICE_INCLUDE})
  endforeach()
  add_test(NAME circuit.against_spice COMMAND test_spice)
  add_test(NAME circuit.trigger_against_spice COMMAND test_spice_trigger)
endif()
