/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wire: see lanewick/wire.h. Table values: ohm/km at 20 degC of IEC 60228 tables 1 to 4, read in two cable makers'
 * tables for 0.5 to 10 mm2; 16 and 25 mm2 from memory.
 */
#include "lanewick/wire.h"

#include "lanewick/stats.h"

#include <math.h>

enum { SECTIONS = 10 };
static const double section_mm2[SECTIONS] = {0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0};
static const double solid_ohm_km[SECTIONS] = {36.0, 24.5, 18.1, 12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727};
static const double flexible_ohm_km[SECTIONS] = {39.0, 26.0, 19.5, 13.3, 7.98, 4.95, 3.30, 1.91, 1.21, 0.780};
static const double tinned_ohm_km[SECTIONS] = {40.1, 26.7, 20.0, 13.7, 8.21, 5.09, 3.39, 1.95, 1.24, 0.795};

static const double iacs_ohm_mm2_km = 17.241;

double lw_awg_diameter_mm(double awg)
{
    return 0.127 * pow(92.0, (36.0 - awg) / 39.0);
}

double lw_awg_area_mm2(double awg)
{
    const double d = lw_awg_diameter_mm(awg);
    return 0.25 * 3.14159265358979323846 * d * d;
}

double lw_wire_ohm_per_km(double area_mm2, int conductor_class, lw_wire_metal metal)
{
    static const double metal_factor[] = {1.0, 1.0, 28.264 / 17.241, 1.5};
    const double factor = metal_factor[metal];
    if (conductor_class == 0)
        return factor * iacs_ohm_mm2_km / area_mm2;
    const double *table = conductor_class <= 2 ? solid_ohm_km : flexible_ohm_km;
    if (metal == LW_TINNED_COPPER)
        table = tinned_ohm_km;
    double ohm_mm2_km[SECTIONS];
    for (int i = 0; i < SECTIONS; i++)
        ohm_mm2_km[i] = table[i] * section_mm2[i];
    return factor * lw_interpolate(section_mm2, ohm_mm2_km, SECTIONS, area_mm2) / area_mm2;
}

double lw_wire_temperature_factor(lw_wire_metal metal, double temperature_c)
{
    return 1.0 + (metal == LW_ALUMINIUM ? 0.00403 : 0.00393) * (temperature_c - 20.0);
}

double lw_wire_ampacity_a(double area_mm2, double ambient_c)
{
    static const double area[] = {0.14, 0.22, 0.34, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0};
    static const double carries_a[] = {0.5, 1.0, 1.5, 3.0, 6.0, 10.0, 16.0, 23.0, 30.0, 38.0, 52.0};
    double amps = 3.0 * area_mm2; /* thinner than any table: 3 A/mm2, common practice for bundled thin wire */
    for (size_t i = 0; i < sizeof area / sizeof area[0]; i++)
        if (area_mm2 >= area[i] * (1.0 - 1e-9))
            amps = carries_a[i];
    return ambient_c >= 70.0 ? 0.0 : amps * sqrt((70.0 - ambient_c) / 40.0);
}

double lw_wire_section_mm2(double length_m, double amps, double most_drop_v, double ambient_c)
{
    static const double sections_mm2[] = {0.22, 0.34, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0};
    const double km = 2.0 * length_m / 1000.0 * lw_wire_temperature_factor(LW_COPPER, ambient_c);
    for (size_t i = 0; i < sizeof sections_mm2 / sizeof sections_mm2[0]; i++)
        if (lw_wire_ampacity_a(sections_mm2[i], ambient_c) >= amps &&
            lw_wire_ohm_per_km(sections_mm2[i], 5, LW_COPPER) * km * amps <= most_drop_v)
            return sections_mm2[i];
    return 0.0;
}

double lw_wire_fault_a2s(double area_mm2)
{
    return (115.0 * area_mm2) * (115.0 * area_mm2);
}

double lw_fuse_wire_long_a(double diameter_mm)
{
    return 10244.0 * pow(diameter_mm / 25.4, 1.5);
}

double lw_fuse_wire_a2s(double area_mm2, double ambient_c)
{
    const double circular_mils = area_mm2 / (0.25 * 3.14159265358979323846 * 0.0254 * 0.0254);
    return circular_mils * circular_mils * log10((1083.0 - ambient_c) / (234.0 + ambient_c) + 1.0) / 33.0;
}
