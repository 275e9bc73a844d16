# SPDX-License-Identifier: GPL-3.0-or-later
# The page (built from web/ where npm is there), the built-in pages and the description of the API, as one table in C.
if(NOT LW_CORE_ONLY)
  file(GLOB_RECURSE page_files CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/serve/pages/* ${CMAKE_SOURCE_DIR}/docs/schema/*.json
       ${CMAKE_SOURCE_DIR}/demo/*.json)
  set(page_folder ${CMAKE_BINARY_DIR}/page)
  find_program(LW_NPM npm)
  if(LW_NPM)
    # The core as WebAssembly, in a build of its own inside this one; without clang and its C library the page asks the server.
    find_program(LW_WASM_CLANG clang)
    find_program(LW_WASM_LINKER wasm-ld)
    find_path(LW_WASM_LIBRARY wasm32-wasi/libc.a PATHS /usr/lib NO_DEFAULT_PATH)
    set(LW_PAGE_CORE "" CACHE FILEPATH "core.wasm of another build of the same sources; empty: this build makes its own")
    set(page_core)
    if(LW_PAGE_CORE)
      set(page_core ${LW_PAGE_CORE})
    elseif(LW_WASM_CLANG AND LW_WASM_LINKER AND LW_WASM_LIBRARY)
      set(page_core ${CMAKE_BINARY_DIR}/wasm/core.wasm)
      file(GLOB_RECURSE core_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/core/*.[ch] ${CMAKE_SOURCE_DIR}/include/lanewick/*.h
           ${CMAKE_SOURCE_DIR}/wasm/*.[ch] ${CMAKE_SOURCE_DIR}/desk/*.[ch] ${CMAKE_SOURCE_DIR}/format/*.[ch])
      add_custom_command(OUTPUT ${page_core}
        COMMAND ${CMAKE_COMMAND} -S ${CMAKE_SOURCE_DIR} -B ${CMAKE_BINARY_DIR}/wasm -G Ninja -DCMAKE_BUILD_TYPE=Release
                -DLW_CORE_ONLY=ON -DLW_NATIVE_BUILD=${CMAKE_BINARY_DIR}
                -DCMAKE_TOOLCHAIN_FILE=${CMAKE_SOURCE_DIR}/cmake/wasm.cmake --log-level=WARNING
        COMMAND ${CMAKE_COMMAND} --build ${CMAKE_BINARY_DIR}/wasm --target core.wasm --parallel 2
        COMMAND ${CMAKE_COMMAND} -E touch ${page_core}
        DEPENDS ${core_sources} ${climate_source} ${places_source} ${CMAKE_SOURCE_DIR}/cmake/wasm.cmake ${CMAKE_SOURCE_DIR}/cmake/wasm_desk.cmake
        COMMENT "Building the core as WebAssembly" VERBATIM)
    else()
      message(STATUS "clang, lld or wasi-libc is not there: the page computes nothing by itself")
    endif()
    file(GLOB page_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/src/*.ts ${CMAKE_SOURCE_DIR}/web/src/*.tsx
         ${CMAKE_SOURCE_DIR}/web/*.html ${CMAKE_SOURCE_DIR}/web/*.css ${CMAKE_SOURCE_DIR}/web/*.svg
         ${CMAKE_SOURCE_DIR}/data/map/outlines.txt ${CMAKE_SOURCE_DIR}/web/*.webmanifest ${CMAKE_SOURCE_DIR}/web/build.mjs ${CMAKE_SOURCE_DIR}/web/package-lock.json)
    add_custom_command(OUTPUT ${CMAKE_BINARY_DIR}/page.stamp
      COMMAND ${CMAKE_SOURCE_DIR}/scripts/page ${page_folder} ${page_core}
      COMMAND ${CMAKE_COMMAND} -E touch ${CMAKE_BINARY_DIR}/page.stamp
      DEPENDS ${CMAKE_SOURCE_DIR}/scripts/page ${page_sources} ${page_core} COMMENT "Building the page" VERBATIM)
    list(APPEND page_files ${CMAKE_BINARY_DIR}/page.stamp)
  else()
    message(STATUS "npm is not there: the program is built without its page")
  endif()
  # The page's words: a catalogue a language from po/ and what the page's sources say.
  set(page_words ${CMAKE_BINARY_DIR}/words)
  file(GLOB page_catalogues CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/po/*.po)
  # the sentences of the core and of the laptop, which load after the page's labels
  file(GLOB_RECURSE page_said CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/core/*.c ${CMAKE_SOURCE_DIR}/format/*.c ${CMAKE_SOURCE_DIR}/desk/*.c ${CMAKE_SOURCE_DIR}/serve/*.c)
  add_custom_command(OUTPUT ${CMAKE_BINARY_DIR}/words.stamp
    COMMAND ${CMAKE_COMMAND} -E rm -rf ${page_words}
    COMMAND python3 ${CMAKE_SOURCE_DIR}/scripts/words --page ${page_words}
    DEPENDS ${CMAKE_SOURCE_DIR}/scripts/words ${CMAKE_SOURCE_DIR}/scripts/english.py ${page_said} ${page_catalogues} ${page_sources} COMMENT "The page's words" VERBATIM)
  list(APPEND page_files ${CMAKE_BINARY_DIR}/words.stamp)
  set(page_source ${CMAKE_BINARY_DIR}/generated/page_packed.c)
  file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/generated)
  add_custom_command(OUTPUT ${page_source}
    COMMAND python3 ${CMAKE_SOURCE_DIR}/scripts/embed ${page_source} /=${page_folder} /words=${page_words}
            /built-in=${CMAKE_SOURCE_DIR}/serve/pages /built-in/openapi.json=${CMAKE_SOURCE_DIR}/docs/api/openapi.json
            /built-in/schema=${CMAKE_SOURCE_DIR}/docs/schema /built-in/demo=${CMAKE_SOURCE_DIR}/demo
    DEPENDS ${CMAKE_SOURCE_DIR}/scripts/embed ${CMAKE_SOURCE_DIR}/docs/api/openapi.json ${page_files}
    COMMENT "Embedding the page" VERBATIM)
  add_library(lw_page_pack OBJECT ${page_source})
  target_link_libraries(lw_page_pack PRIVATE lw_flags)
  target_include_directories(lw_page_pack PRIVATE ${CMAKE_SOURCE_DIR})
  set_source_files_properties(${page_source} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
  set_target_properties(lw_page_pack PROPERTIES POSITION_INDEPENDENT_CODE ON)
  list(APPEND room_objects $<TARGET_OBJECTS:lw_page_pack>)
endif()
