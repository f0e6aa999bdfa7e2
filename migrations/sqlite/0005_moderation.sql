-- Moderation rounds: a standard first, a sample marked blind, differences
-- settled, and a record that cannot be changed after.

-- How many sheets of how large a cohort are second-marked. The department's
-- own table, changed in place.
CREATE TABLE sample_size (
    id            INTEGER PRIMARY KEY,
    department_id INTEGER NOT NULL REFERENCES department (id),
    up_to         INTEGER CHECK (up_to >= 1), -- cohorts of at most so many; null: all larger ones
    size          INTEGER CHECK (size >= 1),  -- null: all of them
    UNIQUE (department_id, up_to)
) STRICT;
CREATE UNIQUE INDEX sample_size_of_larger ON sample_size (department_id) WHERE up_to IS NULL;
-- Common practice among departments, to begin with.
INSERT INTO sample_size (department_id, up_to, size)
    VALUES (1, 15, NULL), (1, 100, 15), (1, 200, 20), (1, NULL, 25);

-- A round. What it is about is settled when it is made; how far it has come
-- is in its steps.
CREATE TABLE moderation_round (
    id              INTEGER PRIMARY KEY AUTOINCREMENT,
    department_id   INTEGER NOT NULL REFERENCES department (id),
    name            TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
    scheme_id       INTEGER NOT NULL REFERENCES scheme (id), -- every class set in it is marked with a version of this
    tolerance_total INTEGER NOT NULL CHECK (tolerance_total >= 0), -- in marks of the whole sheet
    tolerance_point INTEGER NOT NULL CHECK (tolerance_point >= 0), -- in marks of one point
    seed            TEXT NOT NULL CHECK (length(seed) BETWEEN 1 AND 40), -- written down, so that anyone can draw again
    staff_id        INTEGER NOT NULL REFERENCES staff (id),
    made_at         INTEGER NOT NULL
) STRICT;

CREATE TABLE round_class_set (
    round_id     INTEGER NOT NULL REFERENCES moderation_round (id),
    class_set_id INTEGER NOT NULL REFERENCES class_set (id),
    PRIMARY KEY (round_id, class_set_id)
) STRICT;

CREATE TABLE round_marker (
    round_id INTEGER NOT NULL REFERENCES moderation_round (id),
    staff_id INTEGER NOT NULL REFERENCES staff (id),
    PRIMARY KEY (round_id, staff_id)
) STRICT;

-- How far a round has come. Appended; the newest counts.
CREATE TABLE round_step (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    round_id INTEGER NOT NULL REFERENCES moderation_round (id),
    step     TEXT NOT NULL CHECK (step IN ('standard', 'standard_shown', 'drawn', 'shown', 'closed')),
    last_mark_id INTEGER NOT NULL,      -- newest row of mark at that moment; first marks are those up to here when drawn
    asked    INTEGER CHECK (asked >= 1), -- sheets that the table asked for when drawn; null: all of them, or no draw
    staff_id INTEGER NOT NULL REFERENCES staff (id),
    at       INTEGER NOT NULL,
    CHECK (step = 'drawn' OR asked IS NULL)
) STRICT;
CREATE INDEX round_step_round ON round_step (round_id);

-- A sheet of a round: an anchor that every marker marks, or one of the sample
-- with its second marker.
CREATE TABLE round_sheet (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    round_id    INTEGER NOT NULL REFERENCES moderation_round (id),
    sheet_id    INTEGER NOT NULL REFERENCES sheet (id),
    revision_id INTEGER REFERENCES revision (id), -- as it was then; null: only paper
    scheme_version_id INTEGER NOT NULL REFERENCES scheme_version (id), -- that it is second-marked with
    kind        TEXT NOT NULL CHECK (kind IN ('anchor', 'sample')),
    place       INTEGER NOT NULL CHECK (place >= 1), -- the order in which it is marked
    why         TEXT NOT NULL CHECK (length(why) <= 200), -- which rule took it
    marker_id   INTEGER REFERENCES staff (id), -- null for an anchor: every marker of the round
    CHECK ((kind = 'anchor') = (marker_id IS NULL)),
    UNIQUE (round_id, kind, sheet_id)
) STRICT;
CREATE INDEX round_sheet_marker ON round_sheet (marker_id);

-- A second marker's word on one point. Appended; the newest of each marker
-- stands. Kept apart from first marks, so that neither page reads the other.
CREATE TABLE second_mark (
    id               INTEGER PRIMARY KEY AUTOINCREMENT,
    round_sheet_id   INTEGER NOT NULL REFERENCES round_sheet (id),
    marking_point_id INTEGER NOT NULL REFERENCES marking_point (id),
    awarded          INTEGER CHECK (awarded >= 0), -- null: taken back
    note             TEXT NOT NULL CHECK (length(note) <= 1000), -- why; blank where nothing was said
    staff_id         INTEGER NOT NULL REFERENCES staff (id),
    marked_at        INTEGER NOT NULL
) STRICT;
CREATE INDEX second_mark_sheet ON second_mark (round_sheet_id, staff_id);

-- What the markers agreed on a point: stands beside it for all who mark after.
-- Appended; the newest on a point stands, a blank one takes it away.
CREATE TABLE ruling (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    round_id  INTEGER NOT NULL REFERENCES moderation_round (id),
    scheme_id INTEGER NOT NULL REFERENCES scheme (id),
    point_key INTEGER NOT NULL,         -- of the point, in every version of the scheme
    body      TEXT NOT NULL CHECK (length(body) <= 2000),
    staff_id  INTEGER NOT NULL REFERENCES staff (id),
    at        INTEGER NOT NULL
) STRICT;
CREATE INDEX ruling_scheme ON ruling (scheme_id);

-- How a difference was settled. Appended; the newest on the same thing counts.
CREATE TABLE settlement (
    id             INTEGER PRIMARY KEY AUTOINCREMENT,
    round_id       INTEGER NOT NULL REFERENCES moderation_round (id),
    round_sheet_id INTEGER REFERENCES round_sheet (id), -- null: about a whole class
    class_set_id   INTEGER REFERENCES class_set (id), -- null: about one sheet
    point_key      INTEGER,             -- null: about all points
    kind           TEXT NOT NULL CHECK (kind IN ('first_stands', 'agreed', 'again', 'not_again')), -- again: is marked again; not_again: takes that back
    agreed         INTEGER CHECK (agreed >= 0), -- the mark that the pair agreed; null unless kind is agreed
    last_mark_id   INTEGER NOT NULL,    -- newest row of mark at that moment; what is newer was marked again
    reason         TEXT NOT NULL CHECK (length(reason) BETWEEN 1 AND 800),
    staff_id       INTEGER NOT NULL REFERENCES staff (id), -- who wrote it down
    at             INTEGER NOT NULL,
    CHECK ((kind = 'agreed') = (agreed IS NOT NULL)),
    CHECK (kind <> 'agreed' OR point_key IS NOT NULL),
    CHECK ((kind IN ('first_stands', 'agreed')) = (round_sheet_id IS NOT NULL)),
    CHECK ((round_sheet_id IS NULL) <> (class_set_id IS NULL))
) STRICT;
CREATE INDEX settlement_round ON settlement (round_id);

-- The marks that a settlement gave, among all others.
CREATE TABLE settled_mark (
    mark_id       INTEGER PRIMARY KEY REFERENCES mark (id),
    settlement_id INTEGER NOT NULL REFERENCES settlement (id)
) STRICT;

-- A closed round as it was: samples, both marks, rulings, decisions, who and
-- when. Never changed.
CREATE TABLE moderation_record (
    round_id  INTEGER PRIMARY KEY REFERENCES moderation_round (id),
    body      TEXT NOT NULL CHECK (json_valid(body)),
    staff_id  INTEGER NOT NULL REFERENCES staff (id),
    closed_at INTEGER NOT NULL
) STRICT;

-- What was found or done about a closed round later. Appended.
CREATE TABLE record_entry (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    round_id INTEGER NOT NULL REFERENCES moderation_record (round_id),
    body     TEXT NOT NULL CHECK (length(body) BETWEEN 1 AND 2000),
    staff_id INTEGER NOT NULL REFERENCES staff (id),
    at       INTEGER NOT NULL
) STRICT;
CREATE INDEX record_entry_round ON record_entry (round_id);

CREATE TRIGGER round_is_fixed BEFORE UPDATE ON moderation_round BEGIN SELECT RAISE(ABORT, 'rounds are never changed'); END;
CREATE TRIGGER round_is_kept BEFORE DELETE ON moderation_round BEGIN SELECT RAISE(ABORT, 'rounds are kept'); END;
CREATE TRIGGER round_class_set_is_fixed BEFORE UPDATE ON round_class_set BEGIN SELECT RAISE(ABORT, 'rounds are never changed'); END;
CREATE TRIGGER round_class_set_is_kept BEFORE DELETE ON round_class_set BEGIN SELECT RAISE(ABORT, 'rounds are kept'); END;
CREATE TRIGGER round_marker_is_fixed BEFORE UPDATE ON round_marker BEGIN SELECT RAISE(ABORT, 'rounds are never changed'); END;
CREATE TRIGGER round_marker_is_kept BEFORE DELETE ON round_marker BEGIN SELECT RAISE(ABORT, 'rounds are kept'); END;
CREATE TRIGGER round_step_is_fixed BEFORE UPDATE ON round_step BEGIN SELECT RAISE(ABORT, 'steps are never changed'); END;
CREATE TRIGGER round_step_is_kept BEFORE DELETE ON round_step BEGIN SELECT RAISE(ABORT, 'steps are kept'); END;
CREATE TRIGGER round_sheet_is_fixed BEFORE UPDATE ON round_sheet BEGIN SELECT RAISE(ABORT, 'samples are never changed'); END;
CREATE TRIGGER round_sheet_is_kept BEFORE DELETE ON round_sheet BEGIN SELECT RAISE(ABORT, 'samples are kept'); END;
CREATE TRIGGER second_mark_is_fixed BEFORE UPDATE ON second_mark BEGIN SELECT RAISE(ABORT, 'marks are never changed'); END;
CREATE TRIGGER second_mark_is_kept BEFORE DELETE ON second_mark BEGIN SELECT RAISE(ABORT, 'marks are kept'); END;
CREATE TRIGGER ruling_is_fixed BEFORE UPDATE ON ruling BEGIN SELECT RAISE(ABORT, 'rulings are never changed'); END;
CREATE TRIGGER ruling_is_kept BEFORE DELETE ON ruling BEGIN SELECT RAISE(ABORT, 'rulings are kept'); END;
CREATE TRIGGER settlement_is_fixed BEFORE UPDATE ON settlement BEGIN SELECT RAISE(ABORT, 'settlements are never changed'); END;
CREATE TRIGGER settlement_is_kept BEFORE DELETE ON settlement BEGIN SELECT RAISE(ABORT, 'settlements are kept'); END;
CREATE TRIGGER settled_mark_is_fixed BEFORE UPDATE ON settled_mark BEGIN SELECT RAISE(ABORT, 'settlements are never changed'); END;
CREATE TRIGGER settled_mark_is_kept BEFORE DELETE ON settled_mark BEGIN SELECT RAISE(ABORT, 'settlements are kept'); END;
CREATE TRIGGER entry_is_fixed BEFORE UPDATE ON record_entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_is_kept BEFORE DELETE ON record_entry BEGIN SELECT RAISE(ABORT, 'entries are kept'); END;
CREATE TRIGGER record_is_fixed BEFORE UPDATE ON moderation_record BEGIN SELECT RAISE(ABORT, 'records are never changed'); END;
CREATE TRIGGER record_is_kept BEFORE DELETE ON moderation_record BEGIN SELECT RAISE(ABORT, 'records are kept'); END;
-- Marks that others have seen were made without seeing theirs: none comes after.
CREATE TRIGGER shown_marks_stand BEFORE INSERT ON second_mark
    WHEN EXISTS (SELECT 1 FROM round_sheet JOIN round_step ON round_step.round_id = round_sheet.round_id
                 WHERE round_sheet.id = NEW.round_sheet_id
                 AND step = CASE kind WHEN 'anchor' THEN 'standard_shown' ELSE 'shown' END)
    BEGIN SELECT RAISE(ABORT, 'the marks have been shown'); END;
CREATE TRIGGER closed_round_takes_no_second_mark BEFORE INSERT ON second_mark
    WHEN EXISTS (SELECT 1 FROM moderation_record JOIN round_sheet ON round_sheet.round_id = moderation_record.round_id
                 WHERE round_sheet.id = NEW.round_sheet_id)
    BEGIN SELECT RAISE(ABORT, 'the round is closed'); END;
CREATE TRIGGER closed_round_takes_no_settlement BEFORE INSERT ON settlement
    WHEN EXISTS (SELECT 1 FROM moderation_record WHERE round_id = NEW.round_id)
    BEGIN SELECT RAISE(ABORT, 'the round is closed'); END;
CREATE TRIGGER closed_round_takes_no_ruling BEFORE INSERT ON ruling
    WHEN EXISTS (SELECT 1 FROM moderation_record WHERE round_id = NEW.round_id)
    BEGIN SELECT RAISE(ABORT, 'the round is closed'); END;
CREATE TRIGGER closed_round_takes_no_sheet BEFORE INSERT ON round_sheet
    WHEN EXISTS (SELECT 1 FROM moderation_record WHERE round_id = NEW.round_id)
    BEGIN SELECT RAISE(ABORT, 'the round is closed'); END;
