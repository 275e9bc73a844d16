-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 3: the capacity of a cell when it was new; and beside each cell what other tables say of it now (its verdict,
-- whether it sits in a pack), so that every list goes along an index. Columns now_* follow by themselves: they are
-- neither journalled nor exported.

ALTER TABLE cell ADD COLUMN rated_ah REAL CHECK (rated_ah > 0);
ALTER TABLE cell ADD COLUMN now_verdict TEXT NOT NULL DEFAULT 'untested';
ALTER TABLE cell ADD COLUMN now_packed INTEGER NOT NULL DEFAULT 0;

UPDATE cell SET now_verdict = (SELECT verdict FROM standing s WHERE s.cell = cell.id)
    WHERE id IN (SELECT cell FROM standing);
UPDATE cell SET now_packed = 1 WHERE id IN (SELECT cell FROM pack_slot WHERE until = '');

DROP INDEX cell_crate;
DROP INDEX cell_marking;
DROP INDEX standing_verdict;
CREATE INDEX cell_state ON cell (now_verdict, now_packed, code);
CREATE INDEX cell_crate_state ON cell (crate, now_verdict, now_packed, code);
CREATE INDEX cell_marking ON cell (marking, code, crate, now_verdict, now_packed);

CREATE TRIGGER now_standing_put AFTER INSERT ON standing BEGIN
    UPDATE cell SET now_verdict = NEW.verdict WHERE id = NEW.cell AND now_verdict <> NEW.verdict;
END;
CREATE TRIGGER now_standing_change AFTER UPDATE ON standing BEGIN
    UPDATE cell SET now_verdict = 'untested' WHERE id = OLD.cell AND OLD.cell <> NEW.cell;
    UPDATE cell SET now_verdict = NEW.verdict WHERE id = NEW.cell AND now_verdict <> NEW.verdict;
END;
CREATE TRIGGER now_standing_remove AFTER DELETE ON standing BEGIN
    UPDATE cell SET now_verdict = 'untested' WHERE id = OLD.cell;
END;
CREATE TRIGGER now_slot_put AFTER INSERT ON pack_slot BEGIN
    UPDATE cell SET now_packed = 1 WHERE id = NEW.cell AND NEW.until = '';
END;
CREATE TRIGGER now_slot_change AFTER UPDATE ON pack_slot BEGIN
    UPDATE cell SET now_packed = EXISTS (SELECT 1 FROM pack_slot l WHERE l.cell = cell.id AND l.until = '')
        WHERE id IN (OLD.cell, NEW.cell);
END;
CREATE TRIGGER now_slot_remove AFTER DELETE ON pack_slot BEGIN
    UPDATE cell SET now_packed = EXISTS (SELECT 1 FROM pack_slot l WHERE l.cell = cell.id AND l.until = '')
        WHERE id = OLD.cell;
END;
