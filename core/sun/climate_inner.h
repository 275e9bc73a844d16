/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps of the climate estimate, shared by core/sun/climate_*.c, the packer and the cross-validation:
 *   normals (12 nearest stations) -> clearness by regression -> residuals of measured stations -> spread, days.
 */
#ifndef LANEWICK_CLIMATE_INNER_H
#define LANEWICK_CLIMATE_INNER_H

#include "lanewick/climate.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define LW_EARTH_KM 6371.0
#define LW_RAD 0.017453292519943295

/* Layout of the pack; a change of any of it needs a new LW_PACK_LAYOUT. Numbers are little-endian.
 * header: magic 8, layout u32, normal count u32, measured count u32, unused u32, checksum of the rest u64
 * normal row: position 3 x i16, height i16, sunshine 12 x u8 [%], temperature 12 x i16 [0.1 degC],
 *   range 12 x u8 [0.1 K], wind 12 x u8 [0.1 m/s], rain 12 x u16 [mm]
 * measured row: position 3 x i16, height i16, station number u32, set u8, unused u8,
 *   residual of clearness 12 x i16 [1e-4, log], residual of the day spread i16 [1e-4, log]
 * Rows of each kind stand in the order of a balanced tree over x, y, z (climate_near.c). */
enum {
    LW_PACK_LAYOUT = 1,
    LW_PACK_HEADER = 32,
    LW_PACK_NORMAL = 92,
    LW_PACK_MEASURED = 40,
    LW_PACK_UNIT = 32000,      /* 1.0 of a unit vector */
    LW_PACK_NO_HEIGHT = 32767, /* height unknown */
    LW_PACK_SUN = 8,           /* offsets in the normal row */
    LW_PACK_T = 20,
    LW_PACK_RANGE = 44,
    LW_PACK_WIND = 56,
    LW_PACK_RAIN = 68,
    LW_PACK_WMO = 8, /* offsets in the measured row */
    LW_PACK_SET = 12,
    LW_PACK_RESIDUAL = 14,
    LW_PACK_DAY_RESIDUAL = 38
};

/* Sets of measured rows that need a nugget of their own; all others are LW_SET_OTHER. */
enum { LW_SET_OTHER, LW_SET_TMY, LW_SET_TMY2, LW_SET_TMY3, LW_SET_IMGW, LW_SET_IGDG, LW_SET_ETMY, LW_SET_COUNT };

static inline uint16_t lw_u16(const unsigned char *p)
{
    return (uint16_t)(p[0] | (p[1] << 8));
}
static inline int lw_i16(const unsigned char *p)
{
    const int v = p[0] | (p[1] << 8);
    return v >= 0x8000 ? v - 0x10000 : v;
}
static inline uint32_t lw_u32(const unsigned char *p)
{
    return (uint32_t)lw_u16(p) | ((uint32_t)lw_u16(p + 2) << 16);
}

/* Checksum of the pack: FNV-1a taken over words of eight bytes (Fowler, Noll & Vo). */
uint64_t lw_pack_checksum(const unsigned char *bytes, size_t size);

void lw_unit_vector(double lat_deg, double lon_deg, double x[3]);
double lw_chord_km(const double a[3], const double b[3]); /* great-circle distance of two unit vectors */
void lw_row_position(const unsigned char *row, double x[3]);

/* Measured stations to be left out (cross-validation): nearer than radius_km, or with this number (0: none). */
typedef struct lw_climate_skip {
    double radius_km;
    uint32_t wmo;
} lw_climate_skip;

typedef struct lw_near {
    double km;
    const unsigned char *row;
} lw_near;

/* The k nearest rows (k <= 32) in rising order of distance; skip may be NULL. Returns how many. */
size_t lw_climate_nearest(const unsigned char *rows, size_t count, size_t row_size, const double x[3],
                          const lw_climate_skip *skip, size_t k, lw_near *out);

/* Normals brought to a position: weight by distance and height, temperature by height. */
typedef struct lw_climate_normals {
    double elev_m, nearest_km;
    double sun[12], t_c[12], range_k[12], wind_ms[12], rain_mm[12]; /* sun as a share 0..1 */
} lw_climate_normals;
void lw_climate_normals_at(const lw_climate_data *data, const double x[3], double elev_m, lw_climate_normals *out);

/* Sine of the sun's height at noon in the middle of the month (0..11). */
double lw_noon_height(double lat_deg, int month);

/* Monthly clearness from the sunshine share, by regression. */
double lw_clearness_by_sunshine(double lat_deg, int month, const lw_climate_normals *n);
/* The old TMY set is low where the sun is low: log offset to take off. */
double lw_clearness_old_set_offset(double lat_deg, int month);

/* Log residuals carried from measured stations, with their variances. */
typedef struct lw_climate_residual {
    double log_clearness[12], variance; /* variance of the year part plus that of the month part */
    double log_day_sd, day_variance;
    double nearest_km;
    size_t count;
} lw_climate_residual;
void lw_climate_residual_at(const lw_climate_data *data, const double x[3], double elev_m, const lw_climate_skip *skip,
                            lw_climate_residual *out);

/* Days: log of sd / (1 - clearness) by regression. */
double lw_day_sd_log(double lat_deg, int month, double clearness, double rain_mm, double range_k, double t_c);
/* Fills the three day fields and ghi_year_sd_pct of month from clearness, rain, range, temperature. */
void lw_climate_days(lw_climate *c, int month, double log_residual, double variance);

bool lw_climate_at_without(const lw_climate_data *data, double lat_deg, double lon_deg, double elev_m,
                           const lw_climate_skip *skip, lw_climate *out, lw_error *err);
/* Position checks and the fields that every climate starts from. */
bool lw_climate_place(double lat_deg, double lon_deg, double elev_m, lw_climate *out, lw_error *err);

#endif
