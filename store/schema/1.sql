-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 1: the workshop, its instruments, its crates and cells, and what was measured.
-- Ids are UUID version 7 as text; instants are UTC as 2026-07-14T18:05:30Z; a number that is not known is NULL,
-- a word that is not told is ''. The journal's triggers are made by store/journal.c after every migration.

CREATE TABLE workshop (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    place TEXT NOT NULL,
    currency TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;

-- A meter with its uncertainty (percent of the reading plus digits of step), a resistor with its value and tolerance.
CREATE TABLE instrument (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    kind TEXT NOT NULL CHECK (kind IN ('meter', 'resistor', 'charger', 'other')),
    percent REAL CHECK (percent >= 0),
    digits REAL CHECK (digits >= 0),
    step REAL CHECK (step > 0),
    ohm REAL CHECK (ohm > 0),
    tolerance_pct REAL CHECK (tolerance_pct >= 0),
    note TEXT NOT NULL
) STRICT;

CREATE TABLE crate (
    id TEXT NOT NULL PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (code <> ''),
    name TEXT NOT NULL,
    origin TEXT NOT NULL,
    received TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;

CREATE TABLE cell (
    id TEXT NOT NULL PRIMARY KEY,
    crate TEXT NOT NULL REFERENCES crate (id),
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (code <> ''),
    marking TEXT NOT NULL COLLATE NOCASE,
    voltage_class TEXT NOT NULL CHECK (voltage_class IN ('4v2', '4v35', 'lfp', 'unknown')),
    shape TEXT NOT NULL,
    origin TEXT NOT NULL,
    look TEXT NOT NULL,
    found_v REAL CHECK (found_v BETWEEN 0 AND 5),
    found_at TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;
CREATE INDEX cell_crate ON cell (crate, code);
CREATE INDEX cell_marking ON cell (marking, code);

-- The raw readings of one test, with wall-clock times, as a JSON object.
CREATE TABLE test (
    id TEXT NOT NULL PRIMARY KEY,
    cell TEXT NOT NULL REFERENCES cell (id),
    method TEXT NOT NULL CHECK (method IN ('resistor', 'log', 'pulse', 'two_pulse', 'rest', 'hold', 'charger', 'flag')),
    at TEXT NOT NULL,
    meter TEXT REFERENCES instrument (id),
    resistor TEXT REFERENCES instrument (id),
    temp_c REAL,
    readings TEXT NOT NULL CHECK (json_valid(readings)),
    note TEXT NOT NULL
) STRICT;
CREATE INDEX test_cell ON test (cell, at);
CREATE INDEX test_meter ON test (meter);
CREATE INDEX test_resistor ON test (resistor);

-- What a test says: a value with its standard uncertainty.
CREATE TABLE result (
    id TEXT NOT NULL PRIMARY KEY,
    test TEXT NOT NULL REFERENCES test (id),
    cell TEXT NOT NULL REFERENCES cell (id),
    kind TEXT NOT NULL,
    value REAL NOT NULL,
    sd REAL CHECK (sd >= 0),
    note TEXT NOT NULL
) STRICT;
CREATE INDEX result_cell ON result (cell, kind);
CREATE INDEX result_test ON result (test);

-- What the cell is worth now, from all its tests; earlier judgements are in the journal.
CREATE TABLE standing (
    id TEXT NOT NULL PRIMARY KEY,
    cell TEXT NOT NULL UNIQUE REFERENCES cell (id),
    verdict TEXT NOT NULL CHECK (verdict IN ('sound', 'tired', 'unsure', 'scrap', 'untested')),
    capacity_ah REAL,
    capacity_sd_ah REAL,
    resistance_ohm REAL,
    resistance_sd_ohm REAL,
    self_discharge_pct REAL,
    self_discharge_sd_pct REAL,
    reasons TEXT NOT NULL,
    next_test TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT;
CREATE INDEX standing_verdict ON standing (verdict, cell);

-- Who changed what: written by triggers alone, never changed.
CREATE TABLE journal (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    who TEXT NOT NULL,
    what TEXT NOT NULL,
    kind TEXT NOT NULL,
    row TEXT NOT NULL,
    before TEXT,
    after TEXT
) STRICT;
CREATE INDEX journal_row ON journal (row, id);
