# SPDX-License-Identifier: GPL-3.0-or-later
# Data tests: tables against their checksums, row counts and ranges; cross-validation of the climate.
add_executable(crossval_climate data/crossval_climate.c ${CMAKE_SOURCE_DIR}/data/pack/csv.c)
target_include_directories(crossval_climate PRIVATE ${CMAKE_SOURCE_DIR} ${CMAKE_SOURCE_DIR}/data/pack)
target_link_libraries(crossval_climate PRIVATE lw_flags lanewick_lib)
add_test(NAME data.crossval_climate COMMAND crossval_climate ${CMAKE_SOURCE_DIR}/data/climate/measured-ghi.csv)
add_test(NAME data.climate_checksums COMMAND sha256sum --check --quiet SHA256SUMS
         WORKING_DIRECTORY ${CMAKE_SOURCE_DIR}/data/climate)
add_executable(compare_years data/compare_years.c)
target_link_libraries(compare_years PRIVATE lw_flags lanewick_lib)
add_test(NAME data.compare_years COMMAND compare_years ${CMAKE_CURRENT_SOURCE_DIR}/data/weather)
# Tables of the cell room, packed again and compared.
foreach(table ocv_table:cells/ocv:curve_table grading_table:grading/rules:grading_table)
  string(REPLACE ":" ";" parts ${table})
  list(GET parts 0 script)
  list(GET parts 1 source)
  list(GET parts 2 made)
  add_test(NAME data.${made}
           COMMAND ${CMAKE_COMMAND} -D SCRIPT=${CMAKE_SOURCE_DIR}/scripts/${script}.cmake -D IN=${CMAKE_SOURCE_DIR}/data/${source}.csv
                   -D MADE=${CMAKE_SOURCE_DIR}/core/cell/${made}.c -D OUT=${CMAKE_CURRENT_BINARY_DIR}/${made}.c
                   -P ${CMAKE_CURRENT_LIST_DIR}/repack.cmake)
endforeach()
add_executable(calibrate_nights data/calibrate_nights.c)
target_link_libraries(calibrate_nights PRIVATE lw_flags lanewick_lib)
if(NOT LW_SANITIZE) # ten thousand simulated years, of code that the unit tests walk through too
  add_test(NAME data.calibrate_nights COMMAND calibrate_nights ${CMAKE_CURRENT_SOURCE_DIR})
  add_test(NAME data.calibrate_nights_all COMMAND calibrate_nights ${CMAKE_CURRENT_SOURCE_DIR} all)
  set_tests_properties(data.calibrate_nights_all PROPERTIES LABELS slow)
endif()
