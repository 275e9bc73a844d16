/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sentences in other languages: the first byte chooses the language and how much room there is, the rest is the
 * sentence. What comes out ends within its room, and with room enough a sentence said in English is itself.
 */
#include "lanewick/words.h"

#include <stdlib.h>
#include <string.h>

enum { MAX_TEXT = 1 << 16, ROOM = 1 << 19 };

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    static char text[MAX_TEXT + 1], said[ROOM];
    if (size < 1 || size > MAX_TEXT)
        return 0;
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    const size_t room = data[0] & 0x80 ? (size_t)1 + (data[0] & 0x3F) : sizeof said;
    memset(said, 1, room);
    const size_t n = lw_say_sentence(lw_languages[data[0] % lw_language_count], text, said, room);
    if (n >= room || said[n] != '\0' || strlen(said) != n)
        abort();
    if (room == sizeof said && data[0] % lw_language_count == 0 && strcmp(said, text) != 0)
        abort();
    return 0;
}
