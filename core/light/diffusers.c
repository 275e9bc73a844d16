/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bottles and covers by kind, and how their materials age outdoors. No published measurement of an LED behind a
 * drinks bottle was found; the ranges are common practice, named as such, and wide.
 */
#include "lanewick/diffuser.h"

/* clang-format off */
static const lw_diffuser_kind kinds[] = {
    {"clear_bottle", {0.85, 0.87, 0.90}, 0.10, 0.5,
     "total light out of a clear bottle 0.85 to 0.90 (common practice, from memory); one PET wall, both faces, 0.905 (Fresnel, n 1.575)"},
    {"frosted_cover", {0.60, 0.75, 0.85}, 0.90, 0.0,
     "sanded or milky sheet below the board 0.60 to 0.85, nearly Lambertian (common practice, from memory)"},
    {"frosted_bottle", {0.60, 0.75, 0.85}, 0.90, 0.7,
     "sanded bottle all round 0.60 to 0.85, light nearly all round (common practice, from memory)"},
    {"milky_bottle", {0.60, 0.70, 0.85}, 1.00, 0.8,
     "milky bottle all round 0.60 to 0.85, light all round (common practice, from memory)"},
    {"green_bottle", {0.50, 0.60, 0.70}, 0.10, 0.5,
     "green bottle 0.5 to 0.7 for white light (from memory)"},
    {"brown_bottle", {0.20, 0.30, 0.40}, 0.10, 0.5,
     "brown bottle 0.2 to 0.4 for white light (from memory)"},
};

static const lw_diffuser_material materials[] = {
    {"pet", {0.03, 0.06, 0.15}, 1.0, 3.0,
     "PET without stabiliser yellows and cracks in 1 to 3 years of sun (common practice); loss from memory of weathering studies such as Fechine et al. 2004, Polym. Degrad. Stab. 83, 153"},
    {"polycarbonate", {0.02, 0.04, 0.08}, 3.0, 7.0,
     "uncoated polycarbonate (from memory of weathering studies such as Diepens and Gijsman 2007, Polym. Degrad. Stab. 92, 397)"},
    {"polycarbonate_coated", {0.003, 0.008, 0.015}, 10.0, 15.0,
     "polycarbonate with a UV layer: makers' guarantees of about 10 years (from memory)"},
    {"acrylic", {0.002, 0.005, 0.010}, 15.0, 25.0,
     "acrylic: about 10 % in 17 years of desert sun (Rainhart and Schimmel 1975, Solar Energy 17, 259, from memory)"},
    {"hdpe", {0.02, 0.04, 0.08}, 1.0, 3.0,
     "milky polyethylene without stabiliser gets brittle in 1 to 3 years (from memory)"},
    {"glass", {0.0, 0.0, 0.001}, 0.0, 0.0, "glass does not yellow; dirt is counted in the maintenance factor"},
};
/* clang-format on */

const lw_diffuser_kind *lw_diffuser_kind_at(size_t place)
{
    return place < sizeof kinds / sizeof kinds[0] ? &kinds[place] : NULL;
}

const lw_diffuser_material *lw_diffuser_material_at(size_t place)
{
    return place < sizeof materials / sizeof materials[0] ? &materials[place] : NULL;
}
