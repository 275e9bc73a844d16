# SPDX-License-Identifier: GPL-3.0-or-later
# cmake --install build --prefix DIR: program, library, headers, manual page, completion and the two package files.
include(CMakePackageConfigHelpers)

set_target_properties(lanewick_lib PROPERTIES EXPORT_NAME lanewick)
install(TARGETS lanewick_cli RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(TARGETS lanewick_lib EXPORT lanewick ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(DIRECTORY include/lanewick DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} FILES_MATCHING PATTERN "*.h")
install(FILES docs/lanewick.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES scripts/completion.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME lanewick)

# pkg-config --cflags --libs lanewick; the file finds its own prefix, so an installed tree may be moved
file(RELATIVE_PATH LW_UP /${CMAKE_INSTALL_LIBDIR}/pkgconfig /)
configure_file(cmake/lanewick.pc.in lanewick.pc @ONLY)
install(FILES ${CMAKE_BINARY_DIR}/lanewick.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)

# find_package(lanewick), then link lanewick::lanewick
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/lanewick)
install(EXPORT lanewick NAMESPACE lanewick:: FILE lanewick-targets.cmake DESTINATION ${package_dir})
configure_package_config_file(cmake/lanewick-config.cmake.in lanewick-config.cmake INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(lanewick-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_BINARY_DIR}/lanewick-config.cmake ${CMAKE_BINARY_DIR}/lanewick-config-version.cmake
        DESTINATION ${package_dir})
