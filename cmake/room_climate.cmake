# SPDX-License-Identifier: GPL-3.0-or-later
# The climate tables, packed at build time by a program of ours that uses the core's own formulas.
# A build for another machine takes them from the native build (LW_NATIVE_BUILD).
if(LW_NATIVE_BUILD)
  set(climate_source ${LW_NATIVE_BUILD}/generated/climate_packed.c)
  set(places_source ${LW_NATIVE_BUILD}/generated/places_packed.c)
else()
  add_library(lw_pack_core STATIC $<TARGET_OBJECTS:lw_core_base> $<TARGET_OBJECTS:lw_core_sun>)
  add_executable(pack_climate data/pack/pack_climate.c data/pack/csv.c)
  target_include_directories(pack_climate PRIVATE ${CMAKE_SOURCE_DIR})
  target_link_libraries(pack_climate PRIVATE lw_flags lw_pack_core)
  set(climate_dir ${CMAKE_SOURCE_DIR}/data/climate)
  set(climate_source ${CMAKE_BINARY_DIR}/generated/climate_packed.c)
  file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/generated)
  add_custom_command(OUTPUT ${climate_source}
    COMMAND pack_climate ${climate_dir}/normals.csv ${climate_dir}/measured-ghi.csv ${climate_source}
    DEPENDS pack_climate ${climate_dir}/normals.csv ${climate_dir}/measured-ghi.csv
    COMMENT "Packing the climate tables" VERBATIM)
  add_executable(pack_places data/pack/pack_places.c data/pack/csv.c)
  target_link_libraries(pack_places PRIVATE lw_flags)
  set(places_source ${CMAKE_BINARY_DIR}/generated/places_packed.c)
  add_custom_command(OUTPUT ${places_source}
    COMMAND pack_places ${climate_dir}/normals.csv ${places_source}
    DEPENDS pack_places ${climate_dir}/normals.csv
    COMMENT "Packing the names of the stations" VERBATIM)
endif()
add_library(lw_climate_pack OBJECT ${climate_source} ${places_source})
target_link_libraries(lw_climate_pack PRIVATE lw_flags)
# One long string compiles ten times faster than a list of numbers.
set_source_files_properties(${climate_source} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
set_target_properties(lw_climate_pack PROPERTIES POSITION_INDEPENDENT_CODE ON)
list(APPEND room_objects $<TARGET_OBJECTS:lw_climate_pack>)
