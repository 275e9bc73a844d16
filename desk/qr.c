/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A QR code to show on a screen: see lanewick/desk_qr.h.
 */
#include "lanewick/desk_qr.h"

#include "lanewick/canvas.h"

#include <stdlib.h>
#include <string.h>

bool lw_desk_qr_svg(const char *text, double side_mm, char **svg, lw_error *err)
{
    unsigned char *bytes = NULL;
    size_t length = 0;
    *svg = NULL;
    lw_canvas *canvas = lw_canvas_new(LW_PAPER_SVG, side_mm, side_mm, 0.0, "QR code", err);
    if (!canvas)
        return false;
    if (!lw_canvas_qr(canvas, 0.0, 0.0, side_mm, text, err)) {
        lw_canvas_drop(canvas);
        return false;
    }
    if (!lw_canvas_finish(canvas, &bytes, &length, err))
        return false;
    *svg = malloc(length + 1);
    if (*svg) {
        memcpy(*svg, bytes, length);
        (*svg)[length] = '\0';
    }
    free(bytes);
    return *svg || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}
