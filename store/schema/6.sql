-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 6: discharges through a resistor that are under way, so that any phone of the bench can take the next reading. When a
-- discharge is finished its readings stand in its test, and it leaves these tables.

CREATE TABLE run (
    id TEXT NOT NULL PRIMARY KEY,
    cell TEXT NOT NULL REFERENCES cell (id),
    at TEXT NOT NULL,
    resistor TEXT REFERENCES instrument (id),
    load_ohm REAL NOT NULL CHECK (load_ohm > 0),
    every_s REAL NOT NULL CHECK (every_s > 0),
    temp_c REAL,
    open_before_v REAL,
    ended TEXT NOT NULL
) STRICT;
CREATE INDEX run_cell ON run (cell);

CREATE TABLE run_reading (
    id TEXT NOT NULL PRIMARY KEY,
    run TEXT NOT NULL REFERENCES run (id),
    at TEXT NOT NULL,
    volts REAL NOT NULL CHECK (volts BETWEEN 0 AND 5)
) STRICT;
CREATE INDEX run_reading_run ON run_reading (run, at);

ALTER TABLE slip RENAME TO slip_before;
CREATE TABLE slip (
    id TEXT NOT NULL PRIMARY KEY,
    kind TEXT NOT NULL CHECK (kind IN ('crate', 'cell', 'change', 'test', 'remove', 'run', 'reading')),
    at TEXT NOT NULL,
    taken TEXT NOT NULL,
    document TEXT NOT NULL CHECK (json_valid(document)),
    answer TEXT NOT NULL CHECK (json_valid(answer))
) STRICT;
INSERT INTO slip SELECT id, kind, at, taken, document, answer FROM slip_before;
DROP TABLE slip_before;
