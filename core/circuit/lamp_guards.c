/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a lamp's fuse, protection board and wires fit one another and its currents: Ib <= In <= Iz and I2 <= 1.45 Iz
 * (IEC 60364-4-43 433.1, from memory). What may burn is refused; what merely goes dark is told.
 */
#include "lamp_inside.h"
#include "lanewick/wire.h"

#include <math.h>

/* A protector of 150 mV give or take 30 mV, see figure protector_trip; 1.5 times the load so that it starts (common
 * practice); 1.25 times the short-circuit current that the sun may drive (IEC 60364-7-712, from memory). */
static const double trip_low_part = 0.8, start_factor = 1.5, bright_factor = 1.25;

static double most(const lw_lamp_readings *out, lw_lamp_condition condition, lw_test_point point)
{
    return out->at[condition][point].high;
}

/* The condition in which the lamp itself takes most. */
static lw_lamp_condition worst_lit(const lw_lamp_readings *out)
{
    return most(out, LW_LAMP_EMPTY, LW_TP_PACK_A) > most(out, LW_LAMP_DUSK, LW_TP_PACK_A) ? LW_LAMP_EMPTY
                                                                                          : LW_LAMP_DUSK;
}

static void judge_wires(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    const double fuse_a = l->protection.fuse_a, lets_a = lw_fuse_conventional(l->protection.fuse_kind) * fuse_a;
    const double pack_a = lw_wire_ampacity_a(l->pack_wire.area_mm2, LW_BOX_C);
    const double head_a = lw_wire_ampacity_a(l->head_wire.area_mm2, LW_BOX_C); /* it carries by night */
    const double panel_a = lw_wire_ampacity_a(l->panel_wire.area_mm2, LW_MAST_C);
    if (fuse_a > lw_fuse_guards_a(l->protection.fuse_kind, pack_a))
        lw_lamp_refuse(out, "wire_burns", LW_LAMP_SHORTED,
                       "the pack wire (%.3g mm2) carries %.3g A at %g degC, the fuse of %.3g A may let %.3g A through "
                       "for long: the wire burns first; a thicker wire or a smaller fuse",
                       l->pack_wire.area_mm2, pack_a, LW_BOX_C, fuse_a, lets_a);
    if (fuse_a > lw_fuse_guards_a(l->protection.fuse_kind, head_a))
        lw_lamp_refuse(out, "wire_burns", LW_LAMP_SHORTED,
                       "the head wire (%.3g mm2) carries %.3g A at %g degC, the fuse of %.3g A may let %.3g A through "
                       "for long: the wire burns first; a thicker wire or a smaller fuse",
                       l->head_wire.area_mm2, head_a, LW_BOX_C, fuse_a, lets_a);
    if (bright_factor * l->panel.isc_a > panel_a)
        lw_lamp_refuse(out, "wire_burns", LW_LAMP_NOON_CHARGING,
                       "the panel wire (%.3g mm2) carries %.3g A at %g degC, a bright sun may drive %.3g A through it "
                       "and no fuse guards it: it burns; a thicker wire",
                       l->panel_wire.area_mm2, panel_a, LW_MAST_C, bright_factor * l->panel.isc_a);
}

static void judge_fuse(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    const double carries_a = l->protection.fuse_a * lw_fuse_derating(LW_BOX_C);
    const double charge_a = -out->at[LW_LAMP_NOON_CHARGING][LW_TP_PACK_A].low;
    lw_lamp_condition worst = worst_lit(out);
    double amps = most(out, worst, LW_TP_PACK_A);
    if (charge_a > amps) {
        worst = LW_LAMP_NOON_CHARGING;
        amps = charge_a;
    }
    if (amps > carries_a)
        lw_lamp_find(out, LW_FINDING_DANGER, worst,
                     "the fuse of %.3g A carries %.3g A at %g degC, but %.3g A flow: it blows and the lamp stays dark; "
                     "a fuse of at least %.3g A",
                     l->protection.fuse_a, carries_a, LW_BOX_C, amps, 1.25 * amps / lw_fuse_derating(LW_BOX_C));
}

static void judge_board(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    const double opens_a = trip_low_part * l->protection.trip_a;
    const lw_lamp_condition worst = worst_lit(out);
    const double amps = most(out, worst, LW_TP_PACK_A), needs_a = start_factor * amps / trip_low_part;
    if (opens_a < amps)
        lw_lamp_find(out, LW_FINDING_DANGER, worst,
                     "the board may open at %.3g A, but %.3g A flow: the lamp goes dark; a board that opens at %.3g A "
                     "or more",
                     opens_a, amps, needs_a);
    else if (opens_a < start_factor * amps)
        lw_lamp_find(out, LW_FINDING_CAUTION, worst,
                     "the board may open at %.3g A, less than 1.5 times the %.3g A that flow: the lamp may not start; "
                     "a board that opens at %.3g A or more",
                     opens_a, amps, needs_a);
}

void lw_lamp_judge_guards(const lw_lamp_circuit *lamp, lw_lamp_readings *out)
{
    judge_wires(lamp, out);
    judge_fuse(lamp, out);
    judge_board(lamp, out);
}
