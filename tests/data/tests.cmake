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
