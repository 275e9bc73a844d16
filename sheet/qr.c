/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * QR codes on a canvas (ISO/IEC 18004, error correction level M, made by libqrencode).
 */
#include "canvas_inside.h"

#include <qrencode.h>

bool lw_canvas_qr(lw_canvas *canvas, double x, double y, double side_mm, const char *text, lw_error *err)
{
    enum { QUIET = 4 };
    QRcode *code = QRcode_encodeString8bit(text, 0, QR_ECLEVEL_M);
    if (!code)
        return lw_fail(err, LW_WRONG_INPUT, "code", "\"%.40s\" is too long for a QR code.", text);
    const double module = side_mm / (code->width + 2 * QUIET);
    lw_canvas_fill_box(canvas, x, y, side_mm, side_mm, lw_white);
    for (int row = 0; row < code->width; row++)
        for (int column = 0; column < code->width;) {
            int run = 0; /* dark modules side by side are one box: no hair lines between them */
            while (column + run < code->width && code->data[row * code->width + column + run] & 1)
                run++;
            if (run)
                lw_canvas_fill_box(canvas, x + (QUIET + column) * module, y + (QUIET + row) * module, run * module,
                                   module, lw_black);
            column += run ? run : 1;
        }
    QRcode_free(code);
    return true;
}
