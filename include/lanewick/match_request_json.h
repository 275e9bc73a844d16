/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The question about packs as JSON: {"series", "parallel", "packs", "need_ah", "confidence", "tolerance_pct", "seed",
 * "cells": [{"id", "capacity_ah", "capacity_sd_ah", "resistance_mohm", "voltage_class", "verdict", "marking"}]}.
 */
#ifndef LANEWICK_MATCH_REQUEST_JSON_H
#define LANEWICK_MATCH_REQUEST_JSON_H

#include "lanewick/cell_csv.h"

enum { LW_MATCH_REQUEST_CELLS = 5000 };

typedef struct lw_match_request {
    lw_match_ask ask; /* of the list's cells */
    lw_cell_list list;
    double need_ah; /* 0: match so many packs; else the most packs whose groups hold so much */
} lw_match_request;

/* Texts and cells live in the arena. Needed: series and of each cell id and capacity_ah. */
LW_MUST_CHECK bool lw_match_request_from_json(const char *text, size_t length, lw_arena *arena, lw_match_request *out,
                                              lw_error *err);

#endif
