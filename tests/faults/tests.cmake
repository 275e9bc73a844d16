# SPDX-License-Identifier: GPL-3.0-or-later
# Breaking things on purpose.
add_executable(test_store_faults ${CMAKE_CURRENT_LIST_DIR}/test_store_faults.c ${CMAKE_CURRENT_LIST_DIR}/fault_vfs.c)
target_link_libraries(test_store_faults PRIVATE lw_flags lanewick_lib PkgConfig::CMOCKA)
add_test(NAME faults.store COMMAND test_store_faults)
set_tests_properties(faults.store PROPERTIES LABELS slow) # half a minute, mostly waiting for the disk
