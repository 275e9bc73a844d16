/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A drawn picture as PNG (ISO/IEC 15948).
 */
#ifndef LANEWICK_SHEET_PNG_FILE_H
#define LANEWICK_SHEET_PNG_FILE_H

#include <cairo.h>

/* Hands the file to write(payload, ...), piece by piece. picture: an image surface in CAIRO_FORMAT_RGB24; without
   colours it is written in grey. dots_per_mm: written into the file (pHYs, 11.3.5.3), so that it prints in its true
   size. Errors: CAIRO_STATUS_NO_MEMORY, CAIRO_STATUS_WRITE_ERROR (also what write answers). */
cairo_status_t lw_png_write(cairo_surface_t *picture, double dots_per_mm, cairo_write_func_t write, void *payload);

#endif
