-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 2: packs and where their cells sit, plans, lamps in the field, labels and prices.

CREATE TABLE plan (
    id TEXT NOT NULL PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (code <> ''),
    name TEXT NOT NULL,
    at TEXT NOT NULL,
    document TEXT NOT NULL CHECK (json_valid(document))
) STRICT;

CREATE TABLE pack (
    id TEXT NOT NULL PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (code <> ''),
    series INTEGER NOT NULL CHECK (series BETWEEN 1 AND 16),
    voltage_class TEXT NOT NULL CHECK (voltage_class IN ('4v2', '4v35', 'lfp')),
    weakest_ah REAL,
    guaranteed_ah REAL,
    state TEXT NOT NULL CHECK (state IN ('reserved', 'built', 'apart')),
    plan TEXT REFERENCES plan (id),
    at TEXT NOT NULL,
    apart_at TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;
CREATE INDEX pack_plan ON pack (plan);

-- until = '' while the cell sits there. A cell can sit in one pack only; earlier places stay as its history.
CREATE TABLE pack_slot (
    id TEXT NOT NULL PRIMARY KEY,
    pack TEXT NOT NULL REFERENCES pack (id),
    cell TEXT NOT NULL REFERENCES cell (id),
    place_group INTEGER NOT NULL CHECK (place_group >= 1),
    place INTEGER NOT NULL CHECK (place >= 1),
    since TEXT NOT NULL,
    until TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX pack_slot_one_pack ON pack_slot (cell) WHERE until = '';
CREATE UNIQUE INDEX pack_slot_place ON pack_slot (pack, place_group, place) WHERE until = '';
CREATE INDEX pack_slot_pack ON pack_slot (pack);
CREATE INDEX pack_slot_cell ON pack_slot (cell, since);

CREATE TABLE lamp (
    id TEXT NOT NULL PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (code <> ''),
    name TEXT NOT NULL,
    lat_deg REAL CHECK (lat_deg BETWEEN -90 AND 90),
    lon_deg REAL CHECK (lon_deg BETWEEN -180 AND 180),
    keeper TEXT NOT NULL,
    plan TEXT REFERENCES plan (id),
    pack TEXT REFERENCES pack (id),
    at TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;
CREATE INDEX lamp_plan ON lamp (plan);
CREATE INDEX lamp_pack ON lamp (pack);

-- The readings of one lamp on one round.
CREATE TABLE sighting (
    id TEXT NOT NULL PRIMARY KEY,
    lamp TEXT NOT NULL REFERENCES lamp (id),
    at TEXT NOT NULL,
    kind TEXT NOT NULL,
    value REAL,
    note TEXT NOT NULL
) STRICT;
CREATE INDEX sighting_lamp ON sighting (lamp, at);

-- Codes printed on things: kind is the table of the thing.
CREATE TABLE label (
    id TEXT NOT NULL PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (code <> ''),
    kind TEXT NOT NULL,
    thing TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT;
CREATE INDEX label_thing ON label (thing);

CREATE TABLE price (
    id TEXT NOT NULL PRIMARY KEY,
    thing TEXT NOT NULL,
    unit TEXT NOT NULL,
    price REAL NOT NULL CHECK (price >= 0),
    currency TEXT NOT NULL,
    at TEXT NOT NULL,
    source TEXT NOT NULL
) STRICT;
CREATE INDEX price_thing ON price (thing, at);
