/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Version of the program and of the library; CMakeLists.txt reads it from here.
 */
#ifndef LANEWICK_VERSION_H
#define LANEWICK_VERSION_H

#define LW_VERSION "0.1.0"

#endif
