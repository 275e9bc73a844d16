/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Records of cells and tests as JSON. All texts are the caller's to free(); NULL when memory is out.
 */
#ifndef LANEWICK_RECORDS_JSON_H
#define LANEWICK_RECORDS_JSON_H

#include "lanewick/records.h"

LW_MUST_CHECK char *lw_cell_to_json(const lw_cell_record *cell, const lw_standing_record *standing, const char *crate,
                                    const char *pack);
LW_MUST_CHECK char *lw_crate_to_json(const lw_crate_record *crate);
LW_MUST_CHECK char *lw_result_to_json(const lw_result_record *result);
LW_MUST_CHECK char *lw_results_to_json(const lw_result_record *results, size_t n);
/* results: a text of lw_results_to_json; meter and resistor: names, "" for none */
LW_MUST_CHECK char *lw_test_to_json(const lw_test_record *test, const char *meter, const char *resistor,
                                    const char *results);
LW_MUST_CHECK char *lw_instrument_to_json(const lw_instrument_record *tool);
/* cell: its code; resistor: its name, "" for none; readings in the order of time */
LW_MUST_CHECK char *lw_run_to_json(const lw_run_record *run, const char *cell, const char *resistor,
                                   const lw_run_reading_record *readings, size_t n);

/* A cell in its place: group and place from 1, group at most the pack's series. */
typedef struct lw_pack_place {
    int group, place;
    char cell[LW_CODE];
} lw_pack_place;
/* plan: its code, "" for none; places in order of group and place */
LW_MUST_CHECK char *lw_pack_to_json(const lw_pack_record *pack, const char *plan, const lw_pack_place *places,
                                    size_t n);
LW_MUST_CHECK char *lw_apart_to_json(const char *pack, int cells);
LW_MUST_CHECK char *lw_refused_to_json(int line, const char *reason);

/* The raw readings of a test: lists of n values (NULL: none) and named numbers (NAN: not told). */
typedef struct lw_readings {
    const double *times_s, *volts_v, *amps_a;
    size_t n;
    const char *const *names;
    const double *values;
    size_t count;
} lw_readings;
LW_MUST_CHECK char *lw_readings_to_json(const lw_readings *readings);
/* times_s and volts_v out of such a text, at most room; false when it has none. */
bool lw_readings_rest_from_json(const char *json, double *time_s, double *volts_v, size_t room, size_t *n);

#endif
