# SPDX-License-Identifier: GPL-3.0-or-later
# Joints, plates, thin walls and vortices against the same quantities computed in another way.
add_test(NAME masts.independent COMMAND /usr/bin/python3 ${CMAKE_CURRENT_LIST_DIR}/independent.py $<TARGET_FILE:lanewick_cli>)
