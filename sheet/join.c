/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a finished PDF may still get: the pages of another one behind its own, and the wish to be printed when it is
 * opened. A named action (ISO 32000-1, 12.6.4.11); "Print" is not in the standard's table but is what viewers know
 * (common practice). See lanewick/sheet.h.
 */
#include "lanewick/sheet.h"

#include "pdf.h"

bool lw_pdf_join(unsigned char **bytes, size_t *length, const unsigned char *more, size_t more_length, lw_error *err)
{
    qpdf_data pdf = lw_pdf_open(*bytes, *length), other = lw_pdf_open(more, more_length);
    bool done = pdf && other;
    const int pages = done ? qpdf_get_num_pages(other) : 0;
    for (int i = 0; done && i < pages; i++)
        done = (qpdf_add_page(pdf, other, qpdf_get_page_n(other, (size_t)i), QPDF_FALSE) & QPDF_ERRORS) == 0;
    done = done && lw_pdf_write(pdf, bytes, length);
    if (other)
        qpdf_cleanup(&other);
    if (pdf)
        qpdf_cleanup(&pdf);
    return done || lw_fail(err, LW_STORAGE, "", "Sheets could not be joined into one PDF.");
}

bool lw_pdf_prints(unsigned char **bytes, size_t *length, lw_error *err)
{
    qpdf_data pdf = lw_pdf_open(*bytes, *length);
    bool done = pdf != NULL;
    if (done) {
        const qpdf_oh action = qpdf_oh_new_dictionary(pdf);
        qpdf_oh_replace_key(pdf, action, "/S", qpdf_oh_new_name(pdf, "/Named"));
        qpdf_oh_replace_key(pdf, action, "/N", qpdf_oh_new_name(pdf, "/Print"));
        qpdf_oh_replace_key(pdf, qpdf_get_root(pdf), "/OpenAction", action);
        done = lw_pdf_write(pdf, bytes, length);
        qpdf_cleanup(&pdf);
    }
    return done || lw_fail(err, LW_STORAGE, "", "The wish to be printed could not be written into the PDF.");
}
