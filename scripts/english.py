# SPDX-License-Identifier: GPL-3.0-or-later
"""The English texts for people that stand in the C sources: every text of two words or more, without any mark.

Left out: sources of formulas and examples (`.source =`, `.example =`), SQL, what is only written to files or to
the journal (the calls of OTHER), and whatever follows the comment `/* no words */`. The comment `/* words */` before a table
`{...};` takes its single words too. Neighbouring literals are one text, as for the compiler.
"""
import ast
import re

TOKEN = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)+\'|[A-Za-z_]\w*|#[^\n]*(?:\\\n[^\n]*)*|\s+|.', re.S)
WORDS = re.compile(r"[A-Za-z]{2,}[,;:.)\"']*[ \n]+(?:[(\"'`]*[A-Za-z]{2}|%)|%[-0-9.]*[a-z]+[:,]? [A-Za-z]{2,}|[A-Za-z]{3,} [a-z]")
SQL = re.compile(r"\s*\(?(SELECT|INSERT|UPDATE|DELETE|CREATE|PRAGMA|BEGIN|COMMIT|ROLLBACK|SAVEPOINT|RELEASE|DROP|ALTER|WITH|"
                 r"VACUUM|ATTACH|WHERE|FROM|ORDER|AND|VALUES|ON|END|GROUP|LIMIT|NOT NULL|REFERENCES|CHECK|SET|JOIN|LEFT)\b(?! [a-z]+ (a|the|of)\b)")
OTHER = re.compile(r"(lw_store_what|lw_store_begin|sqlite3_\w+|lw_store_run|lw_store_exec|prepare|sscanf|strstr|strcmp|strncmp|"
                   r"setenv|MHD_\w+)$")
WIDTH = {"PRId64": "ld", "PRIu64": "lu", "PRIi64": "ld", "PRIu32": "u", "PRId32": "d", "PRIx64": "lx", "PRIX32": "X"}
MEANING = re.compile(r'\{\s*"[a-z0-9_]+",\s*"[^"]*",\s*("(?:[^"\\\n]|\\.)*"),\s*LW_')  # of one word, in a figure's table
EDGE = " \n\t,;:("
# What no person reads, or only as it is: names in certificates, headers, lines of files.
OTHER_FILES = {"serve/certificates.c", "serve/transport_send.c", "serve/transport_stream.c", "serve/routes.c",
               "core/cell/grading_table.c", "core/sun/place_names.c", "store/export.c", "sheet/finish.c", "format/gerber.c", "format/sheets_written.c",
               "format/gerber_drill.c", "format/gerber_legend.c", "format/lm63_write.c", "serve/page.c", "store/journal.c",
               "store/put.c", "store/cells.c"}
CODE = re.compile(r"^\s*(%s: )?lanewick( figure)?:? %s|^[{<]|^https?:|<svg|UNION ALL|[a-z]{30}|\(function|^#")


def literal(text):
    return ast.literal_eval(text.replace("\n", "\\n"))


def tokens(source):
    for match in TOKEN.finditer(source):
        token = match.group(0)
        if token.isspace() or token.startswith(("//", "#")):
            continue
        if token.startswith("/*") and token not in ("/* no words */", "/* words */"):
            continue
        yield token


class Reader:
    """Walks through one source; call[] holds the names before the open parentheses."""

    def __init__(self, source):
        self.found, self.call, self.before, self.text = [], [], "", None
        self.single, self.quiet, self.field, self.depth = False, False, "", 0
        for token in tokens(source):
            self.take(token)
        self.end()

    def end(self):
        if self.text is not None:
            self.found.append((self.text, self.call[-1] if self.call else "", self.field, self.single, self.quiet))
            self.quiet = False
        self.text = None

    def take(self, token):
        if token.startswith('"'):
            self.text = (self.text or "") + literal(token)
            return
        if self.text is not None and token in WIDTH:
            self.text += WIDTH[token]
            return
        self.end()
        if token.startswith("/*"):
            self.quiet, self.single = token == "/* no words */", token == "/* words */" or self.single
            return
        if token == "(":
            self.call.append(self.before)
        elif token == ")" and self.call:
            self.call.pop()
        elif token == ";":
            self.single = self.quiet = False
            self.field = ""
        elif token == "=" and not self.call:
            self.field = self.before
        self.before = token


def bare(text):
    """A piece of a sentence without what joins it to its neighbours."""
    return text.rstrip(EDGE).lstrip(EDGE[:-1])


def sentences(source):
    """[text] of one C source, in order, as the pieces that a finished sentence is made of."""
    out = []
    for text, call, field, single, quiet in Reader(source).found:
        if quiet or OTHER.search(call) or field in ("source", "example", "usage") or SQL.match(text):
            continue
        plain = re.sub(r"%[-+ #0-9.*]*[hlz]*[a-zA-Z]", "", text)
        if CODE.search(text) or not (single and re.search("[A-Za-z]{2}", text) or WORDS.search(text) and re.search("[A-Za-z]{3}", plain)):
            continue
        out.append(("%s " if call == "lw_doc_fail" else "") + bare(text))  # which names the key before it
    out += [text for text in map(literal, MEANING.findall(source)) if re.search("[a-z]{3}", text) and text not in out]
    return out


def helps(source):
    """[text] of the help of verbs (.usage = "..."), a description or paragraph each."""
    return [text for usage, _, field, _, _ in Reader(source).found if field == "usage"
            for _, text in help_units(usage) if text]


def help_units(usage):
    """[(head, text)] of the help of a verb: what stands before a description stays, the description is translated.

    A description begins after two spaces or more and goes on in the lines that are indented further; a line without
    one that begins with a name to be typed is syntax; all other lines are prose, joined while their indent is the same."""
    units, column = [], -1
    for line in usage.split("\n"):
        indent = len(line) - len(line.lstrip())
        gap = re.match(r"\s*\S.*?\S?\s{2,}(?=\S)", line)
        syntax = re.match(r"\s*(usage:|lanewick|[-\[(])", line)
        if gap and not re.match(r"[-\[(]", line[gap.end():]):
            units.append([gap.group(0), line[gap.end():]])
            column = gap.end()
        elif line.strip() and not gap and indent == column:
            units[-1][1] += " " + line.strip()
        elif not line.strip() or syntax or gap:
            units.append([line, ""])
            column = -1
        else:
            units.append([line[:indent], line.strip()])
            column = indent
    return units


C_TEXTS = r'(?:"(?:[^"\\]|\\.)*"\s*|[A-Z_0-9]+\s*)+'
FIELD = re.compile(r'\{\s*"([a-z]\w*)",\s*"([^"]*)",\s*' + C_TEXTS + r",\s*LW_(?:NUMBER|INTEGER|TEXT|CHOICE|NUMBERS|FLAG)\b")
CHOICE = re.compile(r'LW_CHOICE,[^,]*,[^,]*,\s*("[^"]*"|[A-Z_0-9]+)')
FIGURE = re.compile(r'const lw_figure lw_fig_\w+ = \{\s*(?:\.name = )?"(\w+)"')


def labels(source, macros, spoken):
    """[text] of the names of a figure, its inputs, outputs and choices, as the page's forms say them."""
    out = [spoken(name, "") for name in FIGURE.findall(source)] + [spoken(name, unit) for name, unit in FIELD.findall(source)]
    for words in CHOICE.findall(source):
        out += [word.replace("_", " ") for word in (literal(words) if words[0] == '"' else macros[words]).split("|") if word]
    return out
