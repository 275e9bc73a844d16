/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The versions of the schema, oldest first; the build makes them from store/schema/N.sql.
 */
#ifndef LANEWICK_STORE_SCHEMA_H
#define LANEWICK_STORE_SCHEMA_H

extern const char *const lw_schema_versions[];
extern const int lw_schema_count;

#endif
