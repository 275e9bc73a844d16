# SPDX-License-Identifier: GPL-3.0-or-later
# The printed sheets, read back by poppler, qpdf and zbar. One plan of each demo brief, all languages; one small brief for
# builds that run slowly.
foreach(brief nsungwi boat-yard cold-plain cyclone-harbour equator-school monsoon-coast)
  add_test(NAME sheets.${brief} COMMAND ${CMAKE_CURRENT_LIST_DIR}/read_back $<TARGET_FILE:lanewick_cli>
                                        ${CMAKE_SOURCE_DIR}/demo/${brief}.json en,fr,sw,ha)
  set_tests_properties(sheets.${brief} PROPERTIES LABELS slow)
endforeach()
add_test(NAME sheets.small COMMAND ${CMAKE_CURRENT_LIST_DIR}/read_back $<TARGET_FILE:lanewick_cli>
                                   ${CMAKE_SOURCE_DIR}/tests/briefs/small.json en,ha)
add_test(NAME sheets.hand-switch COMMAND ${CMAKE_CURRENT_LIST_DIR}/read_back $<TARGET_FILE:lanewick_cli>
                                         ${CMAKE_SOURCE_DIR}/tests/briefs/hand-switch.json en,fr,sw,ha)
add_test(NAME sheets.one_language COMMAND ${CMAKE_CURRENT_LIST_DIR}/read_back $<TARGET_FILE:lanewick_cli>
                                          ${CMAKE_SOURCE_DIR}/tests/briefs/small.json sw)
add_test(NAME sheets.labels COMMAND ${CMAKE_CURRENT_LIST_DIR}/labels $<TARGET_FILE:lanewick_cli>
                                    ${CMAKE_SOURCE_DIR}/tests/briefs/small.json)
add_test(NAME sheets.cells COMMAND ${CMAKE_CURRENT_LIST_DIR}/cells $<TARGET_FILE:lanewick_cli>)
add_test(NAME sheets.bench COMMAND ${CMAKE_CURRENT_LIST_DIR}/bench $<TARGET_FILE:lanewick_cli>)
add_test(NAME sheets.store COMMAND ${CMAKE_CURRENT_LIST_DIR}/store $<TARGET_FILE:lanewick_cli>)
add_test(NAME sheets.lane COMMAND ${CMAKE_CURRENT_LIST_DIR}/lane $<TARGET_FILE:lanewick_cli>
                                  ${CMAKE_SOURCE_DIR}/tests/briefs/lane.json)
add_test(NAME sheets.told COMMAND ${CMAKE_CURRENT_LIST_DIR}/told $<TARGET_FILE:lanewick_cli> ${CMAKE_SOURCE_DIR}/demo/nsungwi.json)
add_test(NAME sheets.refused COMMAND ${CMAKE_CURRENT_LIST_DIR}/refused $<TARGET_FILE:lanewick_cli>
                                     ${CMAKE_SOURCE_DIR}/tests/briefs/bad)
# the font libraries keep their caches for the life of the program
set_tests_properties(sheets.small sheets.hand-switch sheets.one_language sheets.labels sheets.cells sheets.bench sheets.store sheets.lane sheets.told sheets.refused PROPERTIES
                     ENVIRONMENT "LSAN_OPTIONS=suppressions=${CMAKE_SOURCE_DIR}/tests/lsan-suppressions:print_suppressions=0")
