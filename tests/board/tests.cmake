# SPDX-License-Identifier: GPL-3.0-or-later
# Files for a board maker, judged from the picture that a viewer of others draws. 77: the viewer is not there.
set(judge ${CMAKE_CURRENT_LIST_DIR}/fabrication $<TARGET_FILE:lanewick_cli>)
add_test(NAME board.small COMMAND ${judge} ${CMAKE_SOURCE_DIR}/tests/briefs/small.json)
add_test(NAME board.wires COMMAND ${judge} ${CMAKE_SOURCE_DIR}/tests/briefs/small.json --led 5mm --pitch 12.7)
add_test(NAME board.own-lands COMMAND ${judge} ${CMAKE_SOURCE_DIR}/tests/briefs/small.json --pads 1,1,2,0.8 --pitch 15 --copper 70)
add_test(NAME board.nsungwi COMMAND ${judge} ${CMAKE_SOURCE_DIR}/demo/nsungwi.json)
set_tests_properties(board.nsungwi PROPERTIES LABELS slow)
set_tests_properties(board.small board.wires board.own-lands board.nsungwi PROPERTIES SKIP_RETURN_CODE 77
                     ENVIRONMENT "LSAN_OPTIONS=suppressions=${CMAKE_SOURCE_DIR}/tests/lsan-suppressions:print_suppressions=0")
