/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A PDF between bytes and libqpdf: see pdf.h. Equal bytes give an equal identifier.
 */
#include "pdf.h"

#include <stdlib.h>
#include <string.h>

qpdf_data lw_pdf_open(const unsigned char *bytes, size_t length)
{
    qpdf_data pdf = qpdf_init();
    qpdf_silence_errors(pdf);
    qpdf_set_suppress_warnings(pdf, QPDF_TRUE);
    if ((qpdf_read_memory(pdf, "sheet", (const char *)bytes, length, NULL) & QPDF_ERRORS) == 0)
        return pdf;
    qpdf_cleanup(&pdf);
    return NULL;
}

bool lw_pdf_write(qpdf_data pdf, unsigned char **bytes, size_t *length)
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
