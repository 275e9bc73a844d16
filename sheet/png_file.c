/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packs the dots of a drawing. Drawings are large white areas with lines: filters, which help photographs, only cost
 * time, so libpng is asked for its fast way. That way writes no size in print; the size is put in behind the header.
 */
#include "png_file.h"

#include <png.h>
#include <zlib.h>

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { HEADER = 8 + 25, SIZE = 21 }; /* bytes: signature and IHDR; pHYs */

typedef struct drawing {
    const unsigned char *dots;
    ptrdiff_t stride;
    int wide, high;
} drawing;

static const uint32_t *line_of(const drawing *d, int y)
{
    return (const uint32_t *)(const void *)(d->dots + y * d->stride);
}

static bool without_colours(const drawing *d)
{
    uint32_t colours = 0;
    for (int y = 0; y < d->high && !colours; y++) {
        const uint32_t *line = line_of(d, y);
        for (int x = 0; x < d->wide; x++) {
            const uint32_t dot = line[x] & 0xFFFFFFU; /* red, green, blue */
            colours |= dot ^ (dot & 0xFFU) * 0x010101U;
        }
    }
    return !colours;
}

/* One or three bytes a dot, row after row. */
static void unpack(const drawing *d, bool grey, unsigned char *out)
{
    for (int y = 0; y < d->high; y++) {
        const uint32_t *line = line_of(d, y);
        for (int x = 0; x < d->wide; x++) {
            if (!grey) {
                *out++ = (unsigned char)(line[x] >> 16);
                *out++ = (unsigned char)(line[x] >> 8);
            }
            *out++ = (unsigned char)line[x];
        }
    }
}

static unsigned char *big_endian(unsigned char *out, uint32_t value)
{
    for (int shift = 24; shift >= 0; shift -= 8)
        *out++ = (unsigned char)(value >> shift);
    return out;
}

/* 11.3.5.3: dots a metre across and down; 5.3: length, name, content and the checksum of the last two. */
static void size_in_print(uint32_t dots_per_m, unsigned char chunk[SIZE])
{
    unsigned char *end = big_endian(chunk, SIZE - 12);
    memcpy(end, "pHYs", 4);
    end = big_endian(big_endian(end + 4, dots_per_m), dots_per_m);
    *end++ = 1; /* metres */
    (void)big_endian(end, (uint32_t)crc32(0, chunk + 4, SIZE - 8));
}

static cairo_status_t hand_over(const unsigned char *file, size_t length, uint32_t dots_per_m, cairo_write_func_t write,
                                void *payload)
{
    unsigned char chunk[SIZE];
    size_in_print(dots_per_m, chunk);
    cairo_status_t status = write(payload, file, HEADER);
    if (status == CAIRO_STATUS_SUCCESS)
        status = write(payload, chunk, SIZE);
    return status == CAIRO_STATUS_SUCCESS ? write(payload, file + HEADER, (unsigned int)(length - HEADER)) : status;
}

cairo_status_t lw_png_write(cairo_surface_t *picture, double dots_per_mm, cairo_write_func_t write, void *payload)
{
    cairo_surface_flush(picture);
    const drawing d = {cairo_image_surface_get_data(picture), cairo_image_surface_get_stride(picture),
                       cairo_image_surface_get_width(picture), cairo_image_surface_get_height(picture)};
    const bool grey = without_colours(&d);
    png_image image = {.version = PNG_IMAGE_VERSION,
                       .width = (png_uint_32)d.wide,
                       .height = (png_uint_32)d.high,
                       .format = grey ? PNG_FORMAT_GRAY : PNG_FORMAT_RGB,
                       .flags = PNG_IMAGE_FLAG_FAST};
    png_alloc_size_t length = PNG_IMAGE_PNG_SIZE_MAX(image);
    unsigned char *dots = malloc(PNG_IMAGE_SIZE(image)), *file = malloc(length);
    cairo_status_t status = CAIRO_STATUS_NO_MEMORY;
    if (dots && file) {
        unpack(&d, grey, dots);
        if (png_image_write_to_memory(&image, file, &length, 0, dots, 0, NULL))
            status = hand_over(file, length, (uint32_t)lround(1000.0 * dots_per_mm), write, payload);
        else
            status = CAIRO_STATUS_WRITE_ERROR;
    }
    free(dots);
    free(file);
    return status;
}
