/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finished sentences of the core in another language: lw_say_sentence (lanewick/words.h).
 */
#include "lanewick/words.h"

#include "template.h"

#include <string.h>

enum { DEPTH = 8, LONGEST = 4000, STEPS_BASE = 20000, STEPS_LETTER = 200 };

typedef struct teller {
    const lw_words *words;
    char *out;
    size_t size, n;
    bool cut; /* something did not fit in */
    long steps;
} teller;

static const char before_text[] = " \n\t,;:", after_text[] = " \n\t,;:(";
static const char *const joints[] = {"\n", ". ", "; ", ": "};

static bool say(teller *t, lw_piece text, int depth);

static void put(teller *t, const char *bytes, size_t n)
{
    const size_t room = t->size - 1 - t->n;
    const size_t taken = n < room ? n : room;
    memcpy(t->out + t->n, bytes, taken);
    t->n += taken;
    t->cut = t->cut || taken < n;
}

static bool letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* The order of a word against a piece, as strcmp. */
static int order(const char *word, lw_piece text)
{
    const int first = strncmp(word, text.at, text.n);
    return first != 0 ? first : word[text.n] != '\0';
}

static const lw_word *exact(const lw_words *words, lw_piece text)
{
    size_t low = 0, high = memchr(text.at, '\0', text.n) ? 0 : words->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        const int side = order(words->word[middle].english, text);
        if (side == 0)
            return &words->word[middle];
        if (side > 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

/* The first template whose anchor is not before the word. */
static size_t first_of(const lw_words *words, lw_piece word)
{
    size_t low = 0, high = words->template_count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (order(words->template[middle].anchor, word) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Tries the templates that are anchored at one word of the text; best stays the heaviest that fits. */
static void try_word(teller *t, lw_piece word, lw_piece text, const lw_template **best, lw_values *values)
{
    const lw_words *words = t->words;
    for (size_t i = first_of(words, word); i < words->template_count; i++) {
        const lw_template *one = &words->template[i];
        if (t->steps < 0 || order(one->anchor, word) != 0)
            return;
        if (*best && (one->weight < (*best)->weight || (one->weight == (*best)->weight && one->word >= (*best)->word)))
            continue;
        lw_values found;
        if (lw_template_fits(words->word[one->word].english, text, &t->steps, &found)) {
            *best = one;
            *values = found;
        }
    }
}

static const lw_template *heaviest(teller *t, lw_piece text, lw_values *values)
{
    const lw_template *best = NULL;
    for (size_t i = 0; i < text.n && t->steps >= 0;) {
        size_t to = i;
        while (to < text.n && letter(text.at[to]))
            to++;
        if (to > i)
            try_word(t, (lw_piece){text.at + i, to - i}, text, &best, values);
        i = to + 1;
        t->steps--;
    }
    return best;
}

/* The translation with the values in its places. */
static void fill(teller *t, const char *said, const lw_values *values, int depth)
{
    size_t next = 0;
    while (*said) {
        char kind;
        int number;
        const size_t n = lw_place_read(said, &kind, &number);
        if (n == 0 || kind == '%') {
            put(t, said, 1);
        } else {
            const size_t at = number > 0 ? (size_t)number - 1 : next++;
            if (at < values->count && values->text[at])
                (void)say(t, values->value[at], depth + 1);
            else if (at < values->count)
                put(t, values->value[at].at, values->value[at].n);
        }
        said += n > 0 ? n : 1;
    }
}

static const char *find(lw_piece text, const char *what)
{
    return lw_piece_find(text, (lw_piece){what, strlen(what)});
}

static bool at_joints(teller *t, lw_piece text, const char *joint, int depth)
{
    const size_t n = strlen(joint);
    bool good = true;
    for (const char *at = find(text, joint); at; at = find(text, joint)) {
        const size_t left = (size_t)(at - text.at) + (joint[0] == '.'); /* a sentence keeps its full stop */
        good = say(t, (lw_piece){text.at, left}, depth + 1) && good;
        put(t, text.at + left, (size_t)(at - text.at) + n - left);
        text = (lw_piece){at + n, text.n - (size_t)(at - text.at) - n};
    }
    return say(t, text, depth + 1) && good;
}

static bool at_brackets(teller *t, lw_piece text, const char *open, const char *close, int depth)
{
    bool good = say(t, (lw_piece){text.at, (size_t)(open - text.at)}, depth + 1);
    put(t, "(", 1);
    good = say(t, (lw_piece){open + 1, (size_t)(close - open) - 1}, depth + 1) && good;
    put(t, ")", 1);
    return say(t, (lw_piece){close + 1, text.n - (size_t)(close + 1 - text.at)}, depth + 1) && good;
}

/* "0.9 of the draws" */
static bool behind_number(teller *t, lw_piece text, size_t number, int depth)
{
    put(t, text.at, number);
    return say(t, (lw_piece){text.at + number, text.n - number}, depth + 1);
}

/* A text that fits no other as a whole, piece by piece at its strongest joint. Commas and brackets part what belongs
 * together: there either all pieces are known or the text stays as it is. */
static bool apart(teller *t, lw_piece text, int depth, bool *done)
{
    const size_t before = t->n;
    const bool cut = t->cut;
    bool good;
    *done = true;
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++)
        if (find(text, joints[i]))
            return at_joints(t, text, joints[i], depth);
    const char *open = memchr(text.at, '(', text.n);
    const char *close = open ? memchr(open, ')', text.n - (size_t)(open - text.at)) : NULL;
    const char *space = text.at[0] >= '0' && text.at[0] <= '9' ? memchr(text.at, ' ', text.n) : NULL;
    if (find(text, ", "))
        good = at_joints(t, text, ", ", depth);
    else if (close)
        good = at_brackets(t, text, open, close, depth);
    else
        good = space && behind_number(t, text, (size_t)(space - text.at), depth);
    *done = good;
    if (!good) {
        t->n = before;
        t->cut = cut;
    }
    return good;
}

static bool known(teller *t, lw_piece text, int depth)
{
    if (text.n > LONGEST) /* no sentence */
        return false;
    const lw_word *word = exact(t->words, text);
    if (word) {
        put(t, word->text, strlen(word->text));
        return true;
    }
    lw_values values;
    const lw_template *template = heaviest(t, text, &values);
    if (template)
        fill(t, t->words->word[template->word].text, &values, depth);
    return template != NULL;
}

/* A piece that came to stand at the end of a sentence has its full stop. */
static bool ends(teller *t, lw_piece text, int depth)
{
    if (text.n < 2 || text.at[text.n - 1] != '.' || !known(t, (lw_piece){text.at, text.n - 1}, depth))
        return false;
    put(t, ".", 1);
    return true;
}

static bool wordless(lw_piece text)
{
    for (size_t i = 0; i + 1 < text.n; i++)
        if (letter(text.at[i]) && letter(text.at[i + 1]))
            return false;
    return true;
}

/* Says a text; what joins it to its neighbours, at both ends, stays as it is. False: some of it is not known. */
static bool say(teller *t, lw_piece text, int depth)
{
    size_t before = 0, after = 0;
    while (before < text.n && text.at[before] && strchr(before_text, text.at[before]))
        before++;
    while (after < text.n - before && text.at[text.n - 1 - after] && strchr(after_text, text.at[text.n - 1 - after]))
        after++;
    const lw_piece inner = {text.at + before, text.n - before - after};
    bool good = wordless(inner), done = false;
    put(t, text.at, before);
    if (!good && depth <= DEPTH && t->steps >= 0) {
        good = done = known(t, inner, depth) || ends(t, inner, depth);
        if (!done)
            good = apart(t, inner, depth, &done);
    }
    if (!done)
        put(t, inner.at, inner.n);
    put(t, text.at + text.n - after, after);
    return good;
}

size_t lw_say_sentence(const lw_words *words, const char *sentence, char *out, size_t size)
{
    const size_t n = strlen(sentence);
    teller t = {words, out, size, 0, false, STEPS_BASE + STEPS_LETTER * (long)n};
    if (words && words->count > 0)
        (void)say(&t, (lw_piece){sentence, n}, 0);
    else
        put(&t, sentence, n);
    while (t.cut && t.n > 0 && ((unsigned char)out[t.n - 1] & 0xC0) == 0x80) /* no half letter (UTF-8) at the end */
        t.n--;
    if (t.cut && t.n > 0 && ((unsigned char)out[t.n - 1] & 0xC0) == 0xC0)
        t.n--;
    out[t.n] = '\0';
    return t.n;
}
