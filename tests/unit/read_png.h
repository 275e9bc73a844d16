/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A written PNG through the eyes of cairo's own reader, for the tests of pictures.
 */
#ifndef LANEWICK_TESTS_READ_PNG_H
#define LANEWICK_TESTS_READ_PNG_H

#include <cairo.h>
#include <stddef.h>
#include <string.h>

typedef struct png_left {
    const unsigned char *bytes;
    size_t length;
} png_left;

static inline cairo_status_t take_png(void *payload, unsigned char *out, unsigned int length)
{
    png_left *left = payload;
    if (length > left->length)
        return CAIRO_STATUS_READ_ERROR;
    memcpy(out, left->bytes, length);
    left->bytes += length;
    left->length -= length;
    return CAIRO_STATUS_SUCCESS;
}

/* An image surface, the caller's. */
static inline cairo_surface_t *read_png(const unsigned char *bytes, size_t length)
{
    png_left left = {bytes, length};
    return cairo_image_surface_create_from_png_stream(take_png, &left);
}

#endif
