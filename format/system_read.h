/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a system document, each read by its own function.
 */
#ifndef LANEWICK_SYSTEM_READ_H
#define LANEWICK_SYSTEM_READ_H

#include "doc.h"
#include "lanewick/system.h"

/* A whole system that is part of another document; errors name its fields as in one of its own. */
LW_MUST_CHECK bool lw_system_from_value(const json_t *value, lw_system *out, lw_error *err);

void lw_system_read_panel(lw_doc *system, lw_panel *out);
void lw_system_read_charger(lw_doc *system, lw_charger *out);
void lw_system_read_battery(lw_doc *system, lw_battery *out);
void lw_system_read_box(lw_doc *system, lw_box *out);
void lw_system_read_load(lw_doc *system, lw_load *out);

/* A number that replaces *value when the key is there. */
void lw_system_number(lw_doc *doc, const char *key, double low, double high, const char *unit, double *value);
/* Pairs [[x, y], ...] of at most most points; the count, 0 when the key is missing. */
int lw_system_pairs(lw_doc *doc, const char *key, int most, double *x, double *y);

#endif
