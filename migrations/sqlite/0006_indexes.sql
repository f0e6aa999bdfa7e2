-- What is found and how: indexes, and one rule for the names of kits.

-- Indexes for what grows: visits at each refresh of a lesson's pages, events of a class set,
-- marks of one marker, rulings of a round, what is left to mark again.
CREATE INDEX visit_bench ON visit (bench_id);
CREATE INDEX event_class_set ON event (class_set_id, what);
CREATE INDEX mark_staff ON mark (staff_id);
CREATE INDEX ruling_round ON ruling (round_id);
CREATE INDEX settlement_class_set ON settlement (class_set_id);
CREATE INDEX class_set_created_by ON class_set (created_by);
CREATE INDEX round_class_set_class_set ON round_class_set (class_set_id);
CREATE INDEX moderation_round_department ON moderation_round (department_id);
CREATE INDEX staff_department ON staff (department_id);
-- Marks that undo nothing, nearly all of them, need no place in it.
DROP INDEX mark_undoes;
CREATE INDEX mark_undoes ON mark (undoes) WHERE undoes IS NOT NULL;
-- None in it where a department keeps no initials.
CREATE INDEX register_line_initials ON register_line (class_set_id) WHERE initials <> '';

-- A kit's key has single blanks from now on, so that "Tank  3" and "tank 3" are one kit. Of two that
-- were listed the first stays, and has the sheets of both.
CREATE TABLE folded_kit AS
    SELECT id, first_value(id) OVER (PARTITION BY department_id, label_key ORDER BY id) AS same, label_key
    FROM (SELECT id, department_id,
                 trim(replace(replace(replace(replace(replace(label_key, char(9), ' '), char(160), ' '), ' ', char(1, 2)), char(2, 1), ''), char(1, 2), ' ')) AS label_key
          FROM kit);
UPDATE sheet SET kit_id = (SELECT same FROM folded_kit WHERE folded_kit.id = kit_id) WHERE kit_id IS NOT NULL;
DELETE FROM kit WHERE id NOT IN (SELECT same FROM folded_kit);
UPDATE kit SET label_key = (SELECT label_key FROM folded_kit WHERE folded_kit.id = kit.id);
DROP TABLE folded_kit;

-- Sheets that name a kit which was listed after they were written are tied to it.
UPDATE sheet SET kit_id = (
    SELECT kit.id FROM revision JOIN bench ON bench.id = sheet.bench_id
    JOIN class_set ON class_set.id = bench.class_set_id JOIN class ON class.id = class_set.class_id
    JOIN kit ON kit.department_id = class.department_id AND kit.label_key =
        trim(replace(replace(replace(replace(replace(lower(json_extract(body, '$.kit')), char(9), ' '), char(160), ' '), ' ', char(1, 2)), char(2, 1), ''), char(1, 2), ' '))
    WHERE revision.sheet_id = sheet.id AND revision.version = sheet.version)
WHERE kit_id IS NULL AND version > 0;
