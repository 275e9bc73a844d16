/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure lux_point: what one lamp sends to one place.
 */
#include "lanewick/figure.h"
#include "lanewick/light.h"
#include "lanewick/units.h"

#include <math.h>

enum { INTENSITY, FLUX, POWER, HEIGHT, ALONG, ACROSS, TILT, TURN, MAINTENANCE };
static const lw_input inputs[] = {
    [INTENSITY] = {"intensity_cd", "cd", "intensity, the same in all directions; give this or flux_lm", LW_NUMBER, 0,
                   1e9, NULL, "", 0, 0},
    [FLUX] = {"flux_lm", "lm", "light of a head with I = peak cos^m", LW_NUMBER, 0, 1e9, NULL, "", 0, 0},
    [POWER] = {"cos_power", "", "power m; 1 is a flat diffuse board", LW_NUMBER, 0, 1000, NULL, "1", 0, 0},
    [HEIGHT] = {"height_m", "m", "height of the light above the ground", LW_NUMBER, 0.01, 100, NULL, NULL, 0, 0},
    [ALONG] = {"along_m", "m", "distance of the place from the mast's foot, along the lane", LW_NUMBER, -1000, 1000,
               NULL, NULL, 0, 0},
    [ACROSS] = {"across_m", "m", "distance of the place from the mast's foot, across the lane", LW_NUMBER, -1000, 1000,
                NULL, NULL, 0, 0},
    [TILT] = {"tilt_deg", "degree", "how far the street side of the head is lifted", LW_NUMBER, -90, 90, NULL, "0", 0,
              0},
    [TURN] = {"turn_deg", "degree", "where the street side points: 90 across the lane, 0 along it", LW_NUMBER, -360,
              360, NULL, "90", 0, 0},
    [MAINTENANCE] = {"maintenance", "", "share of the first light that is left (dirt, age)", LW_NUMBER, 0, 1, NULL, "1",
                     0, 0},
};

enum { HORIZONTAL, VERTICAL, SEMICYLINDRICAL, HEMISPHERICAL };
static const lw_output outputs[] = {
    [HORIZONTAL] = {"horizontal_lx", "lx", "on the ground", LW_NUMBER},
    [VERTICAL] = {"vertical_lx", "lx", "on an upright surface 1.5 m up that faces the lamp", LW_NUMBER},
    [SEMICYLINDRICAL] = {"semicylindrical_lx", "lx", "on half a cylinder (a face) 1.5 m up that faces the lamp",
                         LW_NUMBER},
    [HEMISPHERICAL] = {"hemispherical_lx", "lx", "on half a ball lying on the ground", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[INTENSITY].given == in[FLUX].given)
        return lw_fail(err, LW_WRONG_INPUT, "intensity_cd", "Give either intensity_cd or flux_lm with cos_power.");
    const bool round = in[INTENSITY].given;
    const double peak = round ? in[INTENSITY].number : lw_cosine_peak_cd(in[FLUX].number, in[POWER].number);
    const lw_lamp lamp = {.height_m = in[HEIGHT].number,
                          .turn_deg = in[TURN].number,
                          .tilt_deg = in[TILT].number,
                          .maintenance = in[MAINTENANCE].number,
                          .beam = {.peak_cd = peak, .cos_power = in[POWER].number, .round = round}};
    const double along = in[ALONG].number, across = in[ACROSS].number;
    const double to_lamp_deg = atan2(-across, -along) * lw_degree_per_radian;
    lw_lux lux = {0};
    lw_lux_add(&lamp, along, across, to_lamp_deg, &lux);
    out[HORIZONTAL] = lw_value_number(lux.horizontal_lx);
    out[VERTICAL] = lw_value_number(lux.vertical_lx);
    out[SEMICYLINDRICAL] = lw_value_number(lux.semicylindrical_lx);
    out[HEMISPHERICAL] = lw_value_number(lux.hemispherical_lx);
    return true;
}

const lw_figure lw_fig_lux_point = {
    .name = "lux_point",
    .room = "light",
    .summary = "Illuminance that one lamp gives at one place: on the ground, on faces.",
    .source = "CIE 140:2000 and EN 13201-3:2015 clause 7 (from memory), point source",
    .limits = "A point source: within 1 % from five diameters of the lit part onwards.",
    .example = "flux_lm=800 cos_power=1 height_m=4 along_m=8 across_m=1.5 maintenance=0.8",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
