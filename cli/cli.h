/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the verbs of the command line share. Results go to standard output, messages to standard error; the
 * exit code comes from the family of the error (lanewick/error.h), 1 when only some items failed.
 */
#ifndef LANEWICK_CLI_H
#define LANEWICK_CLI_H

#include "lanewick/arena.h"
#include "lanewick/error.h"
#include "lanewick/words.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct lw_command {
    const char *name;
    const char *summary;               /* one line of lanewick --help */
    const char *usage;                 /* printed by lanewick NAME --help */
    int (*run)(int argc, char **argv); /* argv[0] is the verb; returns the exit code */
} lw_command;

extern const lw_command lw_cmd_figure;
extern const lw_command lw_cmd_plan;
extern const lw_command lw_cmd_sheet;
extern const lw_command lw_cmd_board;
extern const lw_command lw_cmd_cell;
extern const lw_command lw_cmd_pack;
extern const lw_command lw_cmd_crate;
extern const lw_command lw_cmd_light;
extern const lw_command lw_cmd_nights;
extern const lw_command lw_cmd_circuit;
extern const lw_command lw_cmd_mast;
extern const lw_command lw_cmd_serve;
extern const lw_command lw_cmd_page;
extern const lw_command lw_cmd_language;
extern const lw_command lw_cmd_shelf;

enum { LW_EXIT_DONE = 0, LW_EXIT_SOME_FAILED = 1, LW_EXIT_WRONG = 2, LW_EXIT_REFUSED = 3, LW_EXIT_STORAGE = 4 };

/* Prints the error (as JSON on standard output with json, else as a sentence on standard error) and returns its
 * exit code. */
int lw_cli_fail(const lw_error *err, bool json);

/* An arena of size bytes from the heap; free(arena.base). Ends the program when memory is out. */
lw_arena lw_cli_arena(size_t size);

/* Takes "--name" (a switch) or "--name VALUE" / "--name=VALUE" (an option) out of argv wherever it stands.
 * The option's value, or NULL when not there; a missing value is an error. */
bool lw_cli_take_switch(int *argc, char **argv, const char *name);
bool lw_cli_take_option(int *argc, char **argv, const char *name, const char **value, lw_error *err);
/* Error when an unknown --option is left. */
bool lw_cli_no_more_options(int argc, char **argv, lw_error *err);
/* A seed as text, NULL: 1. */
bool lw_cli_read_seed(const char *text, uint64_t *seed, lw_error *err);

/* Whole file into memory with a limit; *bytes is zero-terminated beyond *length, free() it. "-" is standard input. */
bool lw_cli_read_file(const char *path, size_t limit, char **bytes, size_t *length, lw_error *err);

/* The language of what is printed for people; never NULL. */
const lw_words *lw_cli_words(void);
/* What follows is in that language: --language of the command line. */
LW_MUST_CHECK bool lw_cli_choose_language(const char *code, lw_error *err);
/* As printf in English, said in the person's language, to standard output and standard error; never for JSON. */
void lw_cli_print(const char *format, ...) __attribute__((format(printf, 1, 2)));
void lw_cli_tell(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* The help of a verb: its descriptions and prose are said, names to be typed stay. */
void lw_cli_print_usage(const char *usage);
/* The error that names those there are. */
bool lw_cli_unknown_language(const char *code, lw_error *err);

/* The folder of a path, where the files lie that a document names: "." when the path names none. */
void lw_cli_folder_of(const char *path, char *out, size_t size);

#endif
