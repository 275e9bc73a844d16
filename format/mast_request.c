/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The question for the mast of one lamp of a brief: see lanewick/mast_json.h.
 */
#include "lanewick/mast_json.h"

#include "brief_read.h"
#include "doc.h"
#include "json_help.h"

#include <math.h>
#include <string.h>

/* What a brief that says nothing of its mast says. */
static void no_brief(lw_doc_root *root, lw_brief *out)
{
    enum { PLANNED_YEARS = 3 };
    lw_doc nothing = lw_doc_open(root, NULL, "");
    memset(out, 0, sizeof *out);
    lw_brief_read_wind(&nothing, &out->place);
    lw_brief_read_build_mast(&nothing, false, &out->build.mast);
    out->want.planned_years = PLANNED_YEARS;
    out->build.tilt_deg = NAN;
}

static double number(lw_doc *doc, const char *key, double low, double high, const char *unit)
{
    return lw_doc_number_or(doc, key, low, high, (lw_doc_or){NAN, unit, NULL});
}

static lw_mast_pipe read_pipe(lw_doc *doc)
{
    const lw_mast_pipe pipe = {
        {number(doc, "diameter_mm", 15.0, 400.0, "mm"), number(doc, "wall_mm", 0.5, 200.0, "mm")},
        lw_doc_has(doc, "material") ? lw_doc_choice(doc, "material", LW_MAST_MATERIAL_WORDS, -1, NULL) : -1};
    return pipe;
}

static void read_height(lw_doc *doc, lw_build_mast *mast)
{
    lw_doc_set(doc, "height_m", 0.5, 12.0, "m", &mast->height_m);
}

/* As a plan tells it. */
static void read_lamp(lw_doc *request, lw_mast_request *out)
{
    lw_doc doc = lw_doc_part(request, "lamp", false);
    out->lamp.panel_w = number(&doc, "panel_w", 0.0, 3.0 * lw_panel_w_m2, "W");
    out->lamp.pack_wh = number(&doc, "pack_wh", 0.0, 20000.0, "Wh");
    out->lamp.tilt_deg = number(&doc, "tilt_deg", 0.0, 90.0, "degree");
    lw_doc_text(&doc, "pole", "", out->lamp.pole, sizeof out->lamp.pole);
    out->lamp.pole_pipe = read_pipe(&doc);
    read_height(&doc, &out->brief.build.mast);
    (void)lw_doc_done(&doc);
}

static void read_wind(lw_doc *doc, lw_place *place)
{
    lw_wind_site *wind = &place->wind;
    const bool none = lw_doc_flag_or(doc, "no_wind", false, NULL), speed = lw_doc_has(doc, "speed_m_s");
    if (none && speed)
        lw_doc_fail(doc, "no_wind", "and speed_m_s are both given; give one of them.");
    place->wind_given = !none && (place->wind_given || speed);
    lw_doc_set(doc, "speed_m_s", 5.0, 90.0, "m/s", &wind->speed_m_s);
    if (lw_doc_has(doc, "speed_is"))
        wind->label = (lw_wind_label)lw_doc_choice(doc, "speed_is", LW_WIND_LABEL_WORDS, -1, NULL);
    if (lw_doc_has(doc, "terrain"))
        wind->terrain = (lw_terrain)lw_doc_choice(doc, "terrain", LW_TERRAIN_WORDS, -1, NULL);
}

/* Another ground carries what its name says, not what was measured in the brief's. */
static void read_ground(lw_doc *doc, lw_mast_request *out)
{
    lw_build_mast *mast = &out->brief.build.mast;
    const int soil = lw_doc_has(doc, "soil") ? lw_doc_choice(doc, "soil", LW_SOIL_WORDS, -1, NULL) : -1;
    if (soil >= 0 && soil != mast->soil) {
        mast->soil = soil;
        mast->plate.bearing_pa = lw_soil_bearing_pa((lw_soil)soil);
        mast->plate.on_rock = mast->plate.on_rock && soil == (int)LW_SOIL_ROCK;
    }
    const bool bare = lw_doc_flag_or(doc, "no_collar", false, NULL), collar = lw_doc_has(doc, "collar_m");
    if (bare && collar)
        lw_doc_fail(doc, "no_collar", "and collar_m are both given; give one of them.");
    out->lamp.collar_m = number(doc, "collar_m", 0.015, 1.5, "m");
    if (collar)
        mast->base = LW_BASE_COLLAR;
    else if (bare && mast->base == LW_BASE_COLLAR)
        mast->base = LW_BASE_BURIED;
}

/* What somebody tries instead of the brief's and the lamp's. */
static void read_instead(lw_doc *request, lw_mast_request *out)
{
    lw_doc doc = lw_doc_part(request, "instead", false);
    lw_build_mast *mast = &out->brief.build.mast;
    read_wind(&doc, &out->brief.place);
    read_height(&doc, mast);
    read_ground(&doc, out);
    out->lamp.other = read_pipe(&doc);
    if (lw_doc_has(&doc, "panel_m2"))
        out->lamp.panel_w = lw_panel_w_m2 * lw_doc_number(&doc, "panel_m2", 0.0, 3.0, "m2");
    mast->people_below = lw_doc_flag_or(&doc, "people_below", mast->people_below, NULL);
    (void)lw_doc_done(&doc);
}

static bool read(const json_t *value, lw_mast_request *out, lw_error *err)
{
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, value, "");
    out->lamp = lw_lamp_mast_untold();
    const lw_doc brief = lw_doc_part(&doc, "brief", false);
    if (!brief.object)
        no_brief(&root, &out->brief);
    else if (root.failed || !lw_brief_from_value(brief.object, &out->brief, err))
        return false;
    read_lamp(&doc, out);
    read_instead(&doc, out);
    return lw_doc_done(&doc);
}

bool lw_mast_request_from_json(const char *text, size_t length, lw_mast_request *out, lw_error *err)
{
    json_t *value = lw_json_parse(text, length, err);
    if (!value)
        return false;
    const bool done = read(value, out, err);
    json_decref(value);
    return done;
}
