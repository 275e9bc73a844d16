# SPDX-License-Identifier: GPL-3.0-or-later
# The bill of a plan against exact fractions.
add_test(NAME bill.exact COMMAND python3 ${CMAKE_CURRENT_LIST_DIR}/exact.py $<TARGET_FILE:lanewick_cli>)
