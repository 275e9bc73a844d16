/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a finished PDF may still get: the pages of another one behind its own, and the wish to be printed when it is
 * opened. A named action (ISO 32000-1, 12.6.4.11); "Print" is not in the standard's table but is what viewers know
 * (common practice). See lanewick/sheet.h.
 */
#include "lanewick/sheet.h"

#include <qpdf/qpdf-c.h>

#include <stdlib.h>
#include <string.h>

static qpdf_data open_pdf(const unsigned char *bytes, size_t length)
{
    qpdf_data pdf = qpdf_init();
    qpdf_silence_errors(pdf);
    qpdf_set_suppress_warnings(pdf, QPDF_TRUE);
    if ((qpdf_read_memory(pdf, "sheet", (const char *)bytes, length, NULL) & QPDF_ERRORS) == 0)
        return pdf;
    qpdf_cleanup(&pdf);
    return NULL;
}

/* Writes the document in the place of *bytes. */
static bool write_pdf(qpdf_data pdf, unsigned char **bytes, size_t *length)
{
    if ((qpdf_init_write_memory(pdf) & QPDF_ERRORS) != 0)
        return false;
    qpdf_set_deterministic_ID(pdf, QPDF_TRUE);
    if ((qpdf_write(pdf) & QPDF_ERRORS) != 0)
        return false;
    const size_t size = qpdf_get_buffer_length(pdf);
    unsigned char *copy = size ? malloc(size) : NULL;
    if (!copy)
        return false;
    memcpy(copy, qpdf_get_buffer(pdf), size);
    free(*bytes);
    *bytes = copy;
    *length = size;
    return true;
}

bool lw_pdf_join(unsigned char **bytes, size_t *length, const unsigned char *more, size_t more_length, lw_error *err)
{
    qpdf_data pdf = open_pdf(*bytes, *length), other = open_pdf(more, more_length);
    bool done = pdf && other;
    const int pages = done ? qpdf_get_num_pages(other) : 0;
    for (int i = 0; done && i < pages; i++)
        done = (qpdf_add_page(pdf, other, qpdf_get_page_n(other, (size_t)i), QPDF_FALSE) & QPDF_ERRORS) == 0;
    done = done && write_pdf(pdf, bytes, length);
    if (other)
        qpdf_cleanup(&other);
    if (pdf)
        qpdf_cleanup(&pdf);
    return done || lw_fail(err, LW_STORAGE, "", "Sheets could not be joined into one PDF.");
}

bool lw_pdf_prints(unsigned char **bytes, size_t *length, lw_error *err)
{
    qpdf_data pdf = open_pdf(*bytes, *length);
    bool done = pdf != NULL;
    if (done) {
        const qpdf_oh action = qpdf_oh_new_dictionary(pdf);
        qpdf_oh_replace_key(pdf, action, "/S", qpdf_oh_new_name(pdf, "/Named"));
        qpdf_oh_replace_key(pdf, action, "/N", qpdf_oh_new_name(pdf, "/Print"));
        qpdf_oh_replace_key(pdf, qpdf_get_root(pdf), "/OpenAction", action);
        done = write_pdf(pdf, bytes, length);
        qpdf_cleanup(&pdf);
    }
    return done || lw_fail(err, LW_STORAGE, "", "The wish to be printed could not be written into the PDF.");
}
