/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nights in plain words.
 */
#ifndef LANEWICK_CLI_NIGHTS_PRINT_H
#define LANEWICK_CLI_NIGHTS_PRINT_H

#include "lanewick/nights_desk.h"

void lw_print_nights(const lw_system *system, const lw_weather_year *year, const lw_nights *nights);
void lw_print_night_draws(const lw_night_draws *request, const lw_nights_summary *summaries, const lw_dark_band *band);

#endif
