/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Smallest pack by doubling and halving: see lanewick/sizing.h.
 */
#include "lanewick/sizing.h"

bool lw_sizing_line_done(const lw_sizing_line *line)
{
    return line->keeps == line->fails + 1 || line->fails >= line->most;
}

int lw_sizing_answer(const lw_sizing_line *line)
{
    return line->keeps;
}

static int next(const lw_sizing_line *line)
{
    if (line->keeps == 0 && line->fails == 0)
        return line->guess;
    if (line->keeps == 0)
        return 2 * line->fails < line->most ? 2 * line->fails : line->most;
    return (line->fails + line->keeps) / 2;
}

size_t lw_sizing_step(const lw_sizing_line *lines, size_t count, lw_sizing_ask *asks)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++)
        if (!lw_sizing_line_done(&lines[i]))
            asks[n++] = (lw_sizing_ask){.line = i, .parallel = next(&lines[i])};
    return n;
}

void lw_sizing_tell(lw_sizing_line *line, int parallel, bool keeps)
{
    if (keeps && (line->keeps == 0 || parallel < line->keeps))
        line->keeps = parallel;
    if (!keeps && parallel > line->fails)
        line->fails = parallel;
    /* Sampling noise may contradict an earlier answer: the smaller pack that kept the wish gives way. */
    if (line->keeps != 0 && line->keeps <= line->fails)
        line->keeps = line->fails < line->most ? line->fails + 1 : 0;
}
