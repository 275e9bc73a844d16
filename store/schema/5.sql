-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 5: what is known of each part and tool, and prices as whole numbers of the currency's smallest unit.

CREATE TABLE part (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (name <> ''),
    tool INTEGER NOT NULL CHECK (tool IN (0, 1)),
    at_hand INTEGER NOT NULL CHECK (at_hand BETWEEN 0 AND 1000000),
    sold_by INTEGER NOT NULL CHECK (sold_by BETWEEN 1 AND 10000),
    loss_pm INTEGER NOT NULL CHECK (loss_pm BETWEEN 0 AND 900),
    spares_pm INTEGER NOT NULL CHECK (spares_pm BETWEEN -1 AND 100000),
    bench_min INTEGER NOT NULL CHECK (bench_min BETWEEN 0 AND 600)
) STRICT;

-- consumables: used up for each piece. The latest day of a thing counts.
ALTER TABLE price RENAME TO price_before;
CREATE TABLE price (
    id TEXT NOT NULL PRIMARY KEY,
    thing TEXT NOT NULL COLLATE NOCASE,
    minor INTEGER NOT NULL CHECK (minor BETWEEN 0 AND 10000000000),
    consumables INTEGER NOT NULL CHECK (consumables BETWEEN 0 AND 10000000000),
    currency TEXT NOT NULL,
    decimals INTEGER NOT NULL CHECK (decimals BETWEEN 0 AND 3),
    at TEXT NOT NULL,
    shop TEXT NOT NULL
) STRICT;
INSERT INTO price
    SELECT id, thing, CAST(round(price * 100) AS INTEGER), 0, currency, 2, at, source FROM price_before WHERE price <= 100000000;
DROP TABLE price_before;
CREATE INDEX price_thing ON price (thing, at);
