/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a brief says about the mast: the wind of the place with its label, the poles on the shelf, the ground and how
 * the mast is built.
 */
#include "brief_read.h"
#include "mast_read.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The older key: a design gust, taken over open land or water on all sides. */
static void read_gust(lw_doc *place, lw_place *out)
{
    out->wind.speed_m_s = lw_doc_number(place, "gust_m_s", 10.0, 90.0, "m/s");
    out->wind.label = LW_WIND_GUST_DESIGN;
    out->wind.terrain = LW_EXPOSURE_D;
    if (!place->root->failed)
        lw_assume(place->root->assumed, "place.wind", "gust_m_s is read as a three-second design gust of ASCE 7",
                  "exposure D");
}

static void read_speed(lw_doc *doc, lw_place *out)
{
    lw_wind at_10_m;
    lw_error why = {0};
    out->wind.speed_m_s = lw_doc_number(doc, "speed_m_s", 5.0, 90.0, "m/s");
    out->wind.label = (lw_wind_label)lw_doc_choice(doc, "speed_is", LW_WIND_LABEL_WORDS, -1, NULL);
    const bool observed = out->wind.label == LW_WIND_GUST_OBSERVED;
    out->wind.terrain =
        (lw_terrain)lw_doc_choice(doc, "terrain", LW_TERRAIN_WORDS, observed ? (int)LW_TERRAIN_II : -1, NULL);
    out->wind.air_kg_m3 = lw_doc_number_or(doc, "air_kg_m3", 0.7, 1.25, (lw_doc_or){1.25, "kg/m3", NULL});
    out->wind.topography = lw_doc_number_or(doc, "topography", 1.0, 3.0, (lw_doc_or){1.0, "", NULL});
    out->return_years = lw_doc_number_or(doc, "return_years", 2.0, 1000.0, (lw_doc_or){50.0, "years", NULL});
    lw_doc_text(doc, "source", "", out->wind_source, sizeof out->wind_source);
    if (!doc->root->failed && !lw_wind_at(&out->wind, 10.0, &at_10_m, &why))
        lw_doc_fail(doc, "terrain", "does not go with speed_is: %s", why.message);
}

void lw_brief_read_wind(lw_doc *place, lw_place *out)
{
    const bool gust = lw_doc_has(place, "gust_m_s"), wind = lw_doc_has(place, "wind");
    out->wind = lw_mast_wish_default().wind;
    out->return_years = 50.0;
    out->wind_given = gust || wind;
    if (gust && wind)
        lw_doc_fail(place, "gust_m_s", "and wind are both given; give one of them.");
    else if (gust)
        read_gust(place, out);
    if (!wind)
        return;
    lw_doc doc = lw_doc_part(place, "wind", true);
    read_speed(&doc, out);
    if (!out->wind_source[0] && !doc.root->failed)
        lw_assume(doc.root->assumed, "place.wind.source", "ask where the local code gives the wind", "not told");
    (void)lw_doc_done(&doc);
}

void lw_brief_read_masts(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "masts", 0, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "masts", list, i);
        lw_shelf_mast *mast = &out->mast[out->mast_count++];
        char name[LW_NAME];
        mast->material = (size_t)lw_doc_choice(&doc, "material", LW_MAST_MATERIAL_WORDS, -1, NULL);
        mast->pipe.diameter_mm = lw_doc_number(&doc, "diameter_mm", 15.0, 400.0, "mm");
        mast->pipe.wall_mm = lw_doc_number(&doc, "wall_mm", 0.5, 0.5 * mast->pipe.diameter_mm, "mm");
        mast->length_m = lw_doc_number_or(&doc, "length_m", 1.0, 16.0, (lw_doc_or){6.0, "m", "pipes are sold in 6 m"});
        if (lw_doc_has(&doc, "upper"))
            lw_doc_upper(&doc, &mast->upper, &mast->upper_length_m);
        mast->upper.lower_length_m = mast->length_m;
        mast->age_years = lw_doc_number_or(&doc, "age_years", 0.0, 50.0, (lw_doc_or){0.0, "years", NULL});
        mast->wall_measured = lw_doc_flag_or(&doc, "wall_measured", false, NULL);
        mast->welded = lw_doc_flag_or(&doc, "reused", false, NULL);
        if (mast->upper.pipe.diameter_mm > 0.0)
            (void)snprintf(name, sizeof name, "pole %.4g x %.4g and %.4g x %.4g mm", mast->pipe.diameter_mm,
                           mast->pipe.wall_mm, mast->upper.pipe.diameter_mm, mast->upper.pipe.wall_mm);
        else
            (void)snprintf(name, sizeof name, "pole %g x %g mm", mast->pipe.diameter_mm, mast->pipe.wall_mm);
        lw_doc_text(&doc, "name", name, mast->name, sizeof mast->name);
        mast->count = lw_brief_read_count(&doc, false);
        mast->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
    out->cement_minor = lw_brief_read_price_or(shelf, "cement_price", &out->currency);
    out->plate_minor = lw_brief_read_price_or(shelf, "plate_price", &out->currency);
    out->fixings_minor = lw_brief_read_price_or(shelf, "fixings_price", &out->currency);
}

/* The weakest of the firm grounds of the table, unless the brief knows better. */
static void read_ground(lw_doc *doc, lw_build_mast *out)
{
    out->soil = lw_doc_choice(doc, "soil", LW_SOIL_WORDS "|other", (int)LW_SOIL_CLAY,
                              "weakest firm ground of the table; look into the hole");
    if (out->soil == (int)LW_SOIL_SOFT + 1)
        out->soil_pa_per_m = lw_doc_number(doc, "soil_pa_per_m", 1000.0, 200000.0, "Pa/m");
    out->doubled = lw_doc_flag_or(doc, "doubled", false, NULL);
    out->paved = lw_doc_flag_or(doc, "paved", false, NULL);
    out->flooded = lw_doc_flag_or(doc, "flooded", false, NULL);
    out->plate = lw_mast_wish_default().plate;
    out->plate.bearing_pa = out->soil <= (int)LW_SOIL_SOFT ? lw_soil_bearing_pa((lw_soil)out->soil) : 0.0;
    out->base = (lw_base_kind)lw_doc_choice(doc, "base", LW_BASE_WORDS, LW_BASE_COLLAR, NULL);
    out->collar_m = lw_doc_number_or(doc, "collar_m", 0.1, 1.5, (lw_doc_or){NAN, "m", NULL});
    if (out->base != LW_BASE_COLLAR && lw_doc_has(doc, "collar_m"))
        lw_doc_fail(doc, "collar_m", "goes with the base \"collar\" only.");
    if (out->base == LW_BASE_PLATE)
        lw_doc_plate(doc, &out->plate);
    out->loose_m = lw_doc_number_or(doc, "loose_m", 0.0, 1.0, (lw_doc_or){0.15, "m", NULL});
    out->depth_m = lw_doc_number_or(doc, "depth_m", 0.0, 4.0, (lw_doc_or){0.0, "m", NULL});
}

void lw_brief_read_build_mast(lw_doc *build, bool heights_sought, lw_build_mast *out)
{
    lw_doc doc = lw_doc_part(build, "mast", false);
    out->height_m =
        lw_doc_number_or(&doc, "height_m", 1.5, 12.0, (lw_doc_or){4.0, "m", heights_sought ? NULL : "a lane lamp"});
    out->head_arm_m = lw_doc_number_or(&doc, "head_arm_m", 0.0, 3.0, (lw_doc_or){0.5, "m", NULL});
    out->panel_above_m = lw_doc_number_or(&doc, "panel_above_m", 0.0, 1.0, (lw_doc_or){0.2, "m", NULL});
    out->wall_temp_c = lw_doc_number_or(&doc, "wall_temp_c", -40.0, 80.0, (lw_doc_or){45.0, "degC", NULL});
    out->hole_mm = lw_doc_number_or(&doc, "hole_mm", 0.0, 100.0, (lw_doc_or){10.0, "mm", NULL});
    read_ground(&doc, out);
    out->hill = lw_doc_flag_or(&doc, "hill", false, NULL);
    out->on_building = lw_doc_flag_or(&doc, "on_building", false, NULL);
    out->people_below = lw_doc_flag_or(&doc, "people_below", false, NULL);
    out->power_line_near = lw_doc_flag_or(&doc, "power_line_near", false, NULL);
    out->guyed = lw_doc_flag_or(&doc, "guyed", false, NULL);
    (void)lw_doc_done(&doc);
}
