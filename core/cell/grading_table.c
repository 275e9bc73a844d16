/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packed from data/grading/rules.csv by scripts/grading_table.cmake.
 */
#include "lanewick/verdict.h"

/* clang-format off */
const lw_grading lw_grading_default = {.rules = {
    [LW_RULE_CONFIDENCE] = {"confidence", 0.9, "", "chance that a verdict must reach before it is given",
        "own choice"},
    [LW_RULE_CAPACITY_SCRAP_SHARE] = {"capacity_scrap_share", 0.60, "", "below this share of the rated capacity: scrap",
        "common practice from memory"},
    [LW_RULE_CAPACITY_TIRED_SHARE] = {"capacity_tired_share", 0.80, "", "below this share of the rated capacity: tired (lamp duty only)",
        "common practice from memory"},
    [LW_RULE_CAPACITY_SCRAP_AH] = {"capacity_scrap_ah", 1.2, "Ah", "below this where the rated capacity is not known: scrap",
        "common practice from memory (18650)"},
    [LW_RULE_CAPACITY_TIRED_AH] = {"capacity_tired_ah", 1.6, "Ah", "below this where the rated capacity is not known: tired",
        "own choice: 80 % of a usual 2.0 Ah cell"},
    [LW_RULE_RESISTANCE_SCRAP_RATIO] = {"resistance_scrap_ratio", 2.0, "", "above this times the median of the same marking in the crate (10 s d.c.): scrap",
        "common practice from memory"},
    [LW_RULE_RESISTANCE_TIRED_RATIO] = {"resistance_tired_ratio", 1.5, "", "above this times the median: tired",
        "common practice from memory"},
    [LW_RULE_RESISTANCE_SCRAP_OHM] = {"resistance_scrap_ohm", 0.150, "ohm", "above this (10 s d.c.) whatever the others have: scrap",
        "common practice from memory (18650)"},
    [LW_RULE_REST_24H_V] = {"rest_24h_v", 4.00, "V", "below this 24 h after a charge to 4.20 V: scrap (fails to hold)",
        "common practice from memory"},
    [LW_RULE_LEAK_SCRAP_MV_DAY] = {"leak_scrap_mv_day", 2.0, "mV/d", "above this fall of the resting voltage: scrap",
        "cell makers' K-value notes (good cells below 2 mV/d)"},
    [LW_RULE_LEAK_TIRED_MV_DAY] = {"leak_tired_mv_day", 1.0, "mV/d", "above this: tired and to be rested again",
        "workshop default from memory"},
    [LW_RULE_REPEAT_DIFFERENCE_PCT] = {"repeat_difference_pct", 5.0, "%", "two capacity tests that differ by more: unsure",
        "common practice from memory"},
    [LW_RULE_AGE_YEARS] = {"age_years", 10.0, "a", "older than this by its date code: scrap",
        "UL 1974 second edition 2023 excludes parts past the maker's calendar date (publisher's summary) - the number from memory"},
}};
