# SPDX-License-Identifier: GPL-3.0-or-later
# The server on a real port of loopback; python3-jsonschema judges the answers, without it the tests are skipped.
execute_process(COMMAND python3 -c "import jsonschema" RESULT_VARIABLE no_jsonschema OUTPUT_QUIET ERROR_QUIET)
if(no_jsonschema EQUAL 0)
  foreach(name api slips shelf jobs sheets crowd lan)
    add_test(NAME api.${name} COMMAND python3 ${CMAKE_CURRENT_LIST_DIR}/${name}.py $<TARGET_FILE:lanewick_cli>
             WORKING_DIRECTORY ${CMAKE_SOURCE_DIR})
    set_tests_properties(api.${name} PROPERTIES ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1")
  endforeach()
else()
  message(STATUS "python3-jsonschema is missing: the tests of the JSON interface are left out")
endif()
