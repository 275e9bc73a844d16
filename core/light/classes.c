/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lighting classes for people on foot: EN 13201-2:2015, P classes (Table 3) and C classes (Table 2), values as
 * restated in two language versions of a maker's page. Words: own, tied to the light on the ground and on faces.
 */
#include "lanewick/lane.h"

#include <string.h>

static const lw_light_class p_classes[] = {
    {"P1", 15.0, 3.0, 0.0}, {"P2", 10.0, 2.0, 0.0}, {"P3", 7.5, 1.5, 0.0},
    {"P4", 5.0, 1.0, 0.0},  {"P5", 3.0, 0.6, 0.0},  {"P6", 2.0, 0.4, 0.0},
};

static const lw_light_class c_classes[] = {
    {"C0", 50.0, 0.0, 0.4}, {"C1", 30.0, 0.0, 0.4}, {"C2", 20.0, 0.0, 0.4},
    {"C3", 15.0, 0.0, 0.4}, {"C4", 10.0, 0.0, 0.4}, {"C5", 7.5, 0.0, 0.4},
};

enum { CLASSES = 6 };

const lw_light_class *lw_light_class_find(const char *name)
{
    for (size_t i = 0; i < CLASSES; i++) {
        if (strcmp(p_classes[i].name, name) == 0)
            return &p_classes[i];
        if (strcmp(c_classes[i].name, name) == 0)
            return &c_classes[i];
    }
    return NULL;
}

const lw_light_class *lw_light_class_reached(const lw_field_sum *sum, bool crossing)
{
    const lw_light_class *classes = crossing ? c_classes : p_classes;
    for (size_t i = 0; i < CLASSES; i++)
        if (sum->average_lx >= classes[i].average_lx && sum->minimum_lx >= classes[i].minimum_lx &&
            sum->uniformity >= classes[i].uniformity)
            return &classes[i];
    return NULL;
}

const char *lw_light_in_words(const lw_field_sum *sum)
{
    if (sum->minimum_lx < 0.1)
        return "the darkest places are darker than a full moon night";
    if (sum->minimum_lx < 0.3)
        return "the darkest places are like a full moon night";
    if (sum->semicylindrical_minimum_lx >= 0.6)
        return "faces can be recognised at about 4 m everywhere";
    if (sum->minimum_lx < 1.0)
        return "the path is seen everywhere";
    return "the path and people on it are seen everywhere";
}
