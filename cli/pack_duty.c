/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The matched packs in their duty, for people.
 */
#include "pack_duty.h"

#include "cli.h"

#include <stdio.h>

static void print_run(const lw_cell_list *list, const char *what, const lw_duty_run *run)
{
    lw_cli_print("  %s %.2f A, %.2f times an equal share (%s)%s", what, run->most_a, run->share,
                 list->cells[run->cell].id, run->within ? "" : " TOO MUCH");
}

static void print_protection(const lw_duty *duty, int series)
{
    const lw_protection *p = &duty->protection;
    lw_cli_print("\nprotection board  opens between %.2f and %.2f V a group while charging, between %.2f and %.2f V "
                 "while giving\n",
                 p->over_low_v, p->over_high_v, p->under_low_v, p->under_high_v);
    lw_cli_print("                  overcurrent %.2g to %.2g A, short circuit within %.2g ms\n", p->overcurrent_low_a,
                 p->overcurrent_high_a, p->short_ms);
    lw_cli_print("charger ends at   %.2f V; charging between %.0f and %.0f degC only\n", p->charge_v, p->charge_low_c,
                 p->charge_high_c);
    lw_cli_print("lamp stops at     %.2f V a group under load\n", p->lamp_cutoff_v);
    lw_cli_print("pack fuse         %.2g to %.2g A, %.3g V d.c.", p->fuse_least_a, p->fuse_most_a, p->fuse_v);
    if (p->fuse_breaks_a > 0.0)
        lw_cli_print(", must break %.0f A", p->fuse_breaks_a);
    (void)putchar('\n');
    if (p->cell_wire_carries_a > 0.0)
        lw_cli_print("cell fuse wire    must carry %.2g A\n", p->cell_wire_carries_a);
    lw_cli_print("strip, wire       %.2g mm2 nickel, %.2g mm2 copper\n", p->strip_mm2, p->wire_mm2);
    if (series > 1)
        lw_cli_print("balancing         from %.2f V a group, at least %.2g A\n", p->balance_start_v, p->balance_a);
}

void lw_cli_print_duty(const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match,
                       const lw_duty_ask *asked, const lw_duty *duty)
{
    lw_cli_print("\nsharing inside the groups; a cell may carry %.2g A\n", asked->cell_limit_a);
    for (int g = 0; g < match->groups; g++) {
        lw_cli_print("group %d", g % ask->series + 1);
        if (match->groups > ask->series)
            lw_cli_print(" of pack %d", g / ask->series + 1);
        print_run(list, "  night", &duty->group[g].load);
        if (duty->group[g].charge.share > 0.0)
            print_run(list, ";  charge", &duty->group[g].charge);
        (void)putchar('\n');
    }
    if (!duty->within)
        lw_cli_print(
            "CAUTION: a cell would carry more than its limit: more cells in parallel, a smaller load or charge.\n");
    if (duty->join_v > 0.0)
        lw_cli_print("joining           cells of a group within %.3f V of each other, no more: the current then stays "
                     "below the limit\n",
                     duty->join_v);
    print_protection(duty, ask->series);
    (void)putchar('\n');
}
