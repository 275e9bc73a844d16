-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 4: slips that have been taken in. Each is taken once: who sends one again gets the same answer.

CREATE TABLE slip (
    id TEXT NOT NULL PRIMARY KEY,
    kind TEXT NOT NULL CHECK (kind IN ('crate', 'cell', 'change', 'test', 'remove')),
    at TEXT NOT NULL,
    taken TEXT NOT NULL,
    document TEXT NOT NULL CHECK (json_valid(document)),
    answer TEXT NOT NULL CHECK (json_valid(answer))
) STRICT;
