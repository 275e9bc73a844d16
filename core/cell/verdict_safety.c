/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What makes a cell scrap whatever it holds. Not editable: these are refusals, no grading. Limits: a cell found below
 * 2.0 V may have dissolved copper that plates out as a short (from memory); between 2.0 and 2.5 V only after a
 * supervised recovery. Heat: cell data sheets allow 45 degC at charge.
 */
#include "verdict_inside.h"

static const char safety[] = "safety refusal, common practice";
static const double dead_v = 2.0, low_v = 2.5;

void lw_add_reason(lw_judgement *out, const char *text, const char *source)
{
    if (out->reason_count < LW_MAX_REASONS)
        out->reasons[out->reason_count++] = (lw_reason){text, source};
}

bool lw_unsafe_cell(const lw_cell_facts *facts, lw_judgement *out)
{
    const struct {
        bool is;
        const char *text;
    } signs[] = {
        {facts->dent, "The can is dented."},
        {facts->rust, "It rusts: the can or the seal may leak."},
        {facts->leak, "It leaks."},
        {facts->swollen, "It is swollen. Take it out of the house."},
        {facts->smell, "It smells sweet, of solvent: it has vented."},
        {facts->damaged_top, "The insulator at its top is damaged."},
        {facts->open_circuit, "It reads 0 V because its safety device has opened. Never reset it."},
        {facts->hot_on_charge, "It got hot on charge (above 45 degC, or 10 K above the air)."},
        {facts->no_taper, "Its charging current did not fall within 6 h: a leak inside."},
        {facts->found_v.given && facts->found_v.value < dead_v,
         "It was found below 2.0 V: dissolved copper may have made a short inside."},
    };
    bool unsafe = false;
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        if (!signs[i].is)
            continue;
        unsafe = true;
        lw_add_reason(out, signs[i].text, safety);
    }
    if (!unsafe && facts->found_v.given && facts->found_v.value < low_v && !facts->recovered)
        lw_add_reason(out, "It was found between 2.0 and 2.5 V: only a supervised recovery can clear it.", safety);
    return unsafe;
}
