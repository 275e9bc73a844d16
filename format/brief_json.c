/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reads a brief (format lanewick.brief/1) from JSON: see lanewick/brief.h and docs/brief.md.
 */
#include "lanewick/brief.h"

#include "brief_read.h"
#include "json_help.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void read_build(lw_doc *brief, bool heights_sought, lw_build *build)
{
    lw_doc doc = lw_doc_part(brief, "build", false);
    static const lw_pack_seat seats[] = {LW_SEAT_BOX, LW_SEAT_HEAD, LW_SEAT_ROOM};
    build->pack_in = seats[lw_doc_choice(&doc, "pack_in", "box|head|room", 0, "the pack gets its own box on the mast")];
    build->vent = lw_doc_flag_or(&doc, "vent", true, "the box gets two screened openings, low and high");
    build->fuse = lw_doc_flag_or(&doc, "fuse", true, "a fuse sits at the pack's positive lead");
    build->protection = lw_doc_flag_or(&doc, "protection", true, "every pack gets a protection board");
    build->reverse = (lw_reverse_guard)lw_doc_choice(&doc, "reverse_guard", LW_REVERSE_WORDS, LW_REVERSE_NONE,
                                                     "a keyed plug on the pack, no part behind it");
    build->box_sun_share =
        lw_doc_number_or(&doc, "box_sun_share", 0.0, 1.0, (lw_doc_or){0.3, "", "box partly in the shade of the panel"});
    build->box_absorbs =
        lw_doc_number_or(&doc, "box_absorbs", 0.1, 1.0, (lw_doc_or){0.5, "", "light grey box, weathered"});
    build->tilt_deg = lw_doc_number_or(&doc, "tilt_deg", 0.0, 90.0, (lw_doc_or){NAN, "", NULL});
    build->facing_deg = lw_doc_number_or(&doc, "facing_deg", 0.0, 360.0, (lw_doc_or){NAN, "", NULL});
    build->wire_ohm = lw_doc_number_or(&doc, "wire_ohm", 0.0, 5.0,
                                       (lw_doc_or){0.15, "ohm", "5 m of 1.5 mm2 copper there and back, with joints"});
    lw_brief_read_build_mast(&doc, heights_sought, &build->mast);
    lw_brief_read_sensor(&doc, build);
    (void)lw_doc_done(&doc);
}

bool lw_brief_from_value(const json_t *value, lw_brief *brief, lw_error *err)
{
    memset(brief, 0, sizeof *brief);
    lw_doc_root root = {.err = err, .assumed = &brief->assumed};
    lw_doc doc = lw_doc_open(&root, value, "");
    char format[LW_NAME];
    lw_doc_text(&doc, "format", NULL, format, sizeof format);
    if (!root.failed && strcmp(format, "lanewick.brief/1") != 0)
        lw_doc_fail(&doc, "format", "is \"%s\"; this program reads \"lanewick.brief/1\".", format);
    lw_doc_text(&doc, "name", "", brief->name, sizeof brief->name);
    lw_brief_read_place(&doc, &brief->place);
    if (!brief->name[0]) /* the job is called like its place */
        (void)snprintf(brief->name, sizeof brief->name, "%s", brief->place.name);
    lw_brief_read_want(&doc, &brief->want);
    lw_brief_read_shelf(&doc, &brief->shelf, &brief->want.lane.ask);
    read_build(&doc, brief->want.lane.given && brief->want.lamp_count == 1, &brief->build);
    lw_brief_end_switch(&doc, brief);
    lw_brief_read_lane(&doc, brief);
    return lw_doc_done(&doc);
}

bool lw_brief_from_json(const char *text, size_t length, lw_brief *brief, lw_error *err)
{
    json_t *json = lw_json_parse(text, length, err);
    if (!json) {
        memset(brief, 0, sizeof *brief);
        return false;
    }
    const bool done = lw_brief_from_value(json, brief, err);
    json_decref(json);
    return done;
}
