/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packs the climate tables into the bytes that core/sun/climate_*.c read, and writes them as a C source:
 *   pack_climate normals.csv measured-ghi.csv out.c
 * Layout: core/sun/climate_inner.h. The residuals of the measured stations are computed here with the core's
 * own regression, so that a query need not do it for every neighbour.
 */
#include "core/sun/climate_inner.h"
#include "csv.h"
#include "lanewick/extraterrestrial.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_ROWS = 20000 };
static unsigned char pack[LW_PACK_HEADER + MAX_ROWS * (size_t)LW_PACK_NORMAL];

typedef struct station {
    double lat_deg, lon_deg, elev_m;
} station;

static void put(unsigned char *p, double value, int bytes)
{
    const long v = lround(value);
    for (int i = 0; i < bytes; i++)
        p[i] = (unsigned char)((unsigned long)v >> (8 * i));
}

static void put_months(unsigned char *p, const double v[12], double unit, int bytes)
{
    for (int m = 0; m < 12; m++)
        put(p + bytes * m, v[m] / unit, bytes);
}

static station read_station(const csv *c, double no_height)
{
    return (station){csv_number(c, csv_column(c, "lat_deg"), -90.0, 90.0, NAN),
                     csv_number(c, csv_column(c, "lon_deg"), -180.0, 180.0, NAN),
                     csv_number(c, csv_column(c, "elev_m"), -430.0, 8850.0, no_height)};
}

static void put_station(unsigned char *row, station s)
{
    double x[3];
    lw_unit_vector(s.lat_deg, s.lon_deg, x);
    for (int i = 0; i < 3; i++)
        put(row + 2 * i, x[i] * LW_PACK_UNIT, 2);
    put(row + 6, s.elev_m, 2);
}

static size_t pack_normals(const char *path, unsigned char *out)
{
    csv c;
    size_t n = 0;
    double v[12];
    for (csv_open(&c, path); csv_next(&c); n++) {
        if (n == MAX_ROWS)
            csv_stop(&c, "too many rows");
        unsigned char *row = out + n * LW_PACK_NORMAL;
        put_station(row, read_station(&c, LW_PACK_NO_HEIGHT));
        csv_months(&c, "sun_pct", 0.0, 100.0, v);
        put_months(row + LW_PACK_SUN, v, 1.0, 1);
        csv_months(&c, "t_mean_c", -70.0, 50.0, v);
        put_months(row + LW_PACK_T, v, 0.1, 2);
        csv_months(&c, "t_range_c", 0.0, 25.5, v);
        put_months(row + LW_PACK_RANGE, v, 0.1, 1);
        csv_months(&c, "wind_10m_ms", 0.0, 25.5, v);
        put_months(row + LW_PACK_WIND, v, 0.1, 1);
        csv_months(&c, "rain_mm", 0.0, 5000.0, v);
        put_months(row + LW_PACK_RAIN, v, 1.0, 2);
    }
    return n;
}

static int set_of(const char *name)
{
    static const char *const names[LW_SET_COUNT] = {"", "TMY", "TMY2", "TMY3", "IMGW", "IGDG", "ETMY"};
    for (int i = 1; i < LW_SET_COUNT; i++)
        if (strcmp(names[i], name) == 0)
            return i;
    return LW_SET_OTHER;
}

/* The digits of a station's number ("-" and the like: 0, a station without one). */
static double station_number(const char *text)
{
    return (double)(strtoul(text + strcspn(text, "0123456789"), NULL, 10) % 10000000);
}

/* Residuals of one measured station: log clearness by month, and log wildness of the days, mean of the year. */
static void put_residuals(unsigned char *row, const csv *c, station s, int set, const lw_climate_normals *n)
{
    double ghi[12], sd[12], residual[12], day = 0.0;
    csv_months(c, "ghi_kwh_m2_day", 0.1, 12.0, ghi);
    csv_months(c, "kt_day_sd", 0.005, 0.5, sd);
    for (int m = 0; m < 12; m++) {
        const double kt = ghi[m] / lw_h0_month_kwh_m2(s.lat_deg, m + 1);
        if (!(kt > 0.05 && kt < 0.85))
            csv_stop(c, "clearness out of range");
        residual[m] = log(kt / lw_clearness_by_sunshine(s.lat_deg, m, n));
        if (set == LW_SET_TMY)
            residual[m] -= lw_clearness_old_set_offset(s.lat_deg, m);
        day +=
            (log(sd[m] / (1.0 - kt)) - lw_day_sd_log(s.lat_deg, m, kt, n->rain_mm[m], n->range_k[m], n->t_c[m])) / 12.0;
    }
    put_months(row + LW_PACK_RESIDUAL, residual, 1e-4, 2);
    put(row + LW_PACK_DAY_RESIDUAL, set == LW_SET_IGDG || set == LW_SET_ETMY ? 0.0 : day / 1e-4, 2);
}

static size_t pack_measured(const char *path, unsigned char *out, const lw_climate_data *data)
{
    csv c;
    size_t n = 0;
    for (csv_open(&c, path); csv_next(&c); n++) {
        if (out + (n + 1) * LW_PACK_MEASURED > pack + sizeof pack)
            csv_stop(&c, "too many rows");
        unsigned char *row = out + n * LW_PACK_MEASURED;
        const station s = read_station(&c, NAN);
        const int set = set_of(c.row[csv_column(&c, "source")]);
        double x[3];
        lw_climate_normals normals;
        lw_unit_vector(s.lat_deg, s.lon_deg, x);
        lw_climate_normals_at(data, x, s.elev_m, &normals);
        put_station(row, s);
        put(row + LW_PACK_WMO, station_number(c.row[csv_column(&c, "wmo_id")]), 4);
        row[LW_PACK_SET] = (unsigned char)set;
        put_residuals(row, &c, s, set, &normals);
    }
    return n;
}

/* Order of rows along one axis; equal values keep a fixed order by their bytes, so that builds repeat. */
static int axis, row_bytes;
static int compare(const void *a, const void *b)
{
    const int x = lw_i16((const unsigned char *)a + 2 * axis), y = lw_i16((const unsigned char *)b + 2 * axis);
    return x != y ? (x > y) - (x < y) : memcmp(a, b, (size_t)row_bytes);
}

static void build_tree(unsigned char *rows, size_t count, int size, int depth)
{
    if (count < 2)
        return;
    axis = depth % 3;
    row_bytes = size;
    qsort(rows, count, (size_t)size, compare);
    const size_t middle = count / 2;
    build_tree(rows, middle, size, depth + 1);
    build_tree(rows + (middle + 1) * (size_t)size, count - middle - 1, size, depth + 1);
}

/* Octal escapes of three digits never run into the next byte. */
static void write_source(const char *path, size_t size)
{
    FILE *f = fopen(path, "w");
    if (!f || fprintf(f, "/* Made by data/pack/pack_climate.c. */\n#include \"lanewick/climate.h\"\n\n"
                         "static const char packed[] =\n") < 0) {
        fprintf(stderr, "%s cannot be written\n", path);
        exit(1);
    }
    for (size_t i = 0; i < size; i++)
        fprintf(f, "%s\\%03o%s", i % 32 == 0 ? "\"" : "", pack[i], i % 32 == 31 || i + 1 == size ? "\"\n" : "");
    fprintf(f, ";\n\nconst unsigned char *lw_climate_packed(void)\n{\n    return (const unsigned char *)packed;\n}\n\n"
               "size_t lw_climate_packed_size(void)\n{\n    return sizeof packed - 1;\n}\n");
    if (fclose(f) != 0) {
        fprintf(stderr, "%s cannot be written\n", path);
        exit(1);
    }
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fprintf(stderr, "usage: pack_climate normals.csv measured-ghi.csv out.c\n");
        return 2;
    }
    lw_climate_data data = {.normals = pack + LW_PACK_HEADER};
    data.normal_count = pack_normals(argv[1], pack + LW_PACK_HEADER);
    build_tree(pack + LW_PACK_HEADER, data.normal_count, LW_PACK_NORMAL, 0);
    unsigned char *measured = pack + LW_PACK_HEADER + data.normal_count * LW_PACK_NORMAL;
    const size_t count = pack_measured(argv[2], measured, &data);
    build_tree(measured, count, LW_PACK_MEASURED, 0);
    const size_t size = LW_PACK_HEADER + data.normal_count * LW_PACK_NORMAL + count * LW_PACK_MEASURED;
    static const char magic[8] = {'L', 'W', 'C', 'L', 'I', 'M', 'A', 'T'};
    memcpy(pack, magic, sizeof magic);
    put(pack + 8, LW_PACK_LAYOUT, 4);
    put(pack + 12, (double)data.normal_count, 4);
    put(pack + 16, (double)count, 4);
    const uint64_t sum = lw_pack_checksum(pack + LW_PACK_HEADER, size - LW_PACK_HEADER);
    for (int i = 0; i < 8; i++)
        pack[24 + i] = (unsigned char)(sum >> (8 * i));
    write_source(argv[3], size);
    fprintf(stderr, "climate pack: %zu normals, %zu measured, %zu bytes\n", data.normal_count, count, size);
    return 0;
}
