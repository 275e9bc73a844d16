# SPDX-License-Identifier: GPL-3.0-or-later
# Sun and nights against astronomy libraries (Debian: python3-ephem, python3-astropy); skipped with a word where absent.
foreach(library ephem astropy)
  add_test(NAME astronomy.${library} COMMAND /usr/bin/python3 ${CMAKE_CURRENT_LIST_DIR}/against_${library}.py
           $<TARGET_FILE:lanewick_cli>)
  set_tests_properties(astronomy.${library} PROPERTIES SKIP_RETURN_CODE 77 TIMEOUT 300)
endforeach()
