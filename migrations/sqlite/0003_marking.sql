-- The lesson's live pages, marking, feedback and the register.

-- What a class set allows while it is written. A practical that is sat as an
-- exam has neither the live page nor any help.
ALTER TABLE class_set ADD COLUMN is_live INTEGER NOT NULL DEFAULT 1 CHECK (is_live IN (0, 1));
ALTER TABLE class_set ADD COLUMN look_again TEXT NOT NULL DEFAULT 'nothing'
    CHECK (look_again IN ('nothing', 'step', 'explain')); -- what pupils are told before their sheet is marked
ALTER TABLE class_set ADD COLUMN stops_at INTEGER; -- when measuring stops; null: nobody said

-- A teacher's tick: this bench was visited. Only the newest matters.
CREATE TABLE seen (
    bench_id INTEGER PRIMARY KEY REFERENCES bench (id),
    version  INTEGER NOT NULL,          -- of the sheet at that time, so that a change since shows
    staff_id INTEGER NOT NULL REFERENCES staff (id),
    at       INTEGER NOT NULL
) STRICT;

-- What is marked: a list of points for one method. Its contents are its
-- newest version.
CREATE TABLE scheme (
    id            INTEGER PRIMARY KEY,
    department_id INTEGER NOT NULL REFERENCES department (id),
    method        TEXT NOT NULL CHECK (length(method) <= 40), -- code of the method
    name          TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
    is_retired    INTEGER NOT NULL DEFAULT 0 CHECK (is_retired IN (0, 1)), -- no more offered for new class sets
    UNIQUE (department_id, method, name)
) STRICT;

-- One state of a scheme. Never changed.
CREATE TABLE scheme_version (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    scheme_id INTEGER NOT NULL REFERENCES scheme (id),
    number    INTEGER NOT NULL CHECK (number >= 1), -- counts up by one within a scheme
    staff_id  INTEGER REFERENCES staff (id), -- null: came with the program
    made_at   INTEGER NOT NULL,         -- 0: came with the program
    UNIQUE (scheme_id, number)
) STRICT;

-- One thing that earns marks, in one version of a scheme. Never changed.
CREATE TABLE marking_point (
    id                INTEGER PRIMARY KEY AUTOINCREMENT,
    scheme_version_id INTEGER NOT NULL REFERENCES scheme_version (id),
    key               INTEGER NOT NULL CHECK (key >= 1), -- the same for the same point in every version of a scheme
    number            INTEGER NOT NULL CHECK (number >= 1), -- place in the list, from 1
    title             TEXT NOT NULL CHECK (length(title) BETWEEN 1 AND 120),
    guidance          TEXT NOT NULL CHECK (length(guidance) <= 2000), -- for markers; blank where none is needed
    marks             INTEGER NOT NULL CHECK (marks BETWEEN 1 AND 20), -- at most
    check_code        TEXT,             -- code of the check that suggests its marks; null: judged by eye
    answer            TEXT CHECK (answer IN ('method', 'conclusion', 'evaluation')), -- the text that it is judged on; null: none
    levels            TEXT NOT NULL CHECK (json_valid(levels)), -- descriptors by level, best first: [{"from":5,"to":6,"says":"…"}]
    UNIQUE (scheme_version_id, key),
    UNIQUE (scheme_version_id, number)
) STRICT;

-- The version that a class set is marked with; null until somebody marks.
ALTER TABLE class_set ADD COLUMN scheme_version_id INTEGER REFERENCES scheme_version (id);

-- A marker's word on one point of one sheet. Appended; the newest stands.
CREATE TABLE mark (
    id               INTEGER PRIMARY KEY AUTOINCREMENT,
    sheet_id         INTEGER NOT NULL REFERENCES sheet (id),
    marking_point_id INTEGER NOT NULL REFERENCES marking_point (id), -- in the version that it was marked with
    revision_id      INTEGER REFERENCES revision (id), -- what was on the screen; null: nothing was stored, only paper
    awarded          INTEGER CHECK (awarded >= 0), -- null: taken back, not marked any more
    suggested        INTEGER,           -- what the tool suggested at that moment; null: nothing
    reason           TEXT NOT NULL CHECK (length(reason) <= 1000), -- blank where none was given
    act              TEXT NOT NULL CHECK (length(act) = 36), -- uuid of the act that it belongs to: many marks may be one act
    undoes           TEXT CHECK (length(undoes) = 36), -- the act that this one undoes; null: none
    staff_id         INTEGER NOT NULL REFERENCES staff (id),
    marked_at        INTEGER NOT NULL
) STRICT;
CREATE INDEX mark_sheet ON mark (sheet_id);
CREATE INDEX mark_act ON mark (act);
CREATE INDEX mark_undoes ON mark (undoes);

-- A note for the group stands on its feedback slip; others are the staff's.
ALTER TABLE annotation ADD COLUMN for_group INTEGER NOT NULL DEFAULT 0 CHECK (for_group IN (0, 1));

-- A note taken back. The note itself is kept.
CREATE TABLE annotation_withdrawal (
    id            INTEGER PRIMARY KEY AUTOINCREMENT,
    annotation_id INTEGER NOT NULL UNIQUE REFERENCES annotation (id),
    staff_id      INTEGER NOT NULL REFERENCES staff (id),
    at            INTEGER NOT NULL
) STRICT;

-- The department's own comments, to be used again.
CREATE TABLE comment (
    id            INTEGER PRIMARY KEY AUTOINCREMENT,
    department_id INTEGER NOT NULL REFERENCES department (id),
    body          TEXT NOT NULL CHECK (length(body) BETWEEN 1 AND 500),
    staff_id      INTEGER REFERENCES staff (id), -- null: came with the program
    made_at       INTEGER NOT NULL,
    is_retired    INTEGER NOT NULL DEFAULT 0 CHECK (is_retired IN (0, 1)), -- no more offered
    UNIQUE (department_id, body)
) STRICT;

-- What pupils may see, from when. Appended; the newest counts. What was
-- released stays as it was then: what is newer waits for the next release.
CREATE TABLE release (
    id                 INTEGER PRIMARY KEY AUTOINCREMENT,
    class_set_id       INTEGER NOT NULL REFERENCES class_set (id),
    is_out             INTEGER NOT NULL CHECK (is_out IN (0, 1)), -- 0: taken back
    scheme_version_id  INTEGER NOT NULL REFERENCES scheme_version (id),
    last_revision_id   INTEGER NOT NULL, -- newest row of each table at that moment; 0: none
    last_mark_id       INTEGER NOT NULL,
    last_annotation_id INTEGER NOT NULL,
    last_withdrawal_id INTEGER NOT NULL,
    last_decision_id   INTEGER NOT NULL,
    staff_id           INTEGER NOT NULL REFERENCES staff (id),
    at                 INTEGER NOT NULL
) STRICT;
CREATE INDEX release_class_set ON release (class_set_id);

-- Initials of pupils: kept only where the school says so, and until when.
ALTER TABLE department ADD COLUMN keeps_initials INTEGER NOT NULL DEFAULT 0 CHECK (keeps_initials IN (0, 1));
ALTER TABLE department ADD COLUMN initials_until TEXT -- the school's own date, yyyy-mm-dd; null: nobody said
    CHECK (initials_until GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]');

-- Who did the practical: one row a pupil. Not history: corrected in place,
-- and its initials are blanked when they are no more kept.
CREATE TABLE register_line (
    id           INTEGER PRIMARY KEY,
    class_set_id INTEGER NOT NULL REFERENCES class_set (id),
    bench_id     INTEGER REFERENCES bench (id), -- null: in no group, since absent
    initials     TEXT NOT NULL DEFAULT '' CHECK (length(initials) <= 6), -- blank where the school keeps none
    was_present  INTEGER NOT NULL CHECK (was_present IN (0, 1)),
    caught_up_on TEXT -- of an absentee: the date; null: not yet, or was present
        CHECK (caught_up_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    CHECK (caught_up_on IS NULL OR was_present = 0)
) STRICT;
CREATE INDEX register_line_class_set ON register_line (class_set_id);

-- History is appended.
CREATE TRIGGER scheme_version_is_fixed BEFORE UPDATE ON scheme_version BEGIN SELECT RAISE(ABORT, 'versions are never changed'); END;
CREATE TRIGGER scheme_version_is_kept BEFORE DELETE ON scheme_version BEGIN SELECT RAISE(ABORT, 'versions are kept'); END;
CREATE TRIGGER marking_point_is_fixed BEFORE UPDATE ON marking_point BEGIN SELECT RAISE(ABORT, 'points are never changed'); END;
CREATE TRIGGER marking_point_is_kept BEFORE DELETE ON marking_point BEGIN SELECT RAISE(ABORT, 'points are kept'); END;
CREATE TRIGGER mark_is_fixed BEFORE UPDATE ON mark BEGIN SELECT RAISE(ABORT, 'marks are never changed'); END;
CREATE TRIGGER mark_is_kept BEFORE DELETE ON mark BEGIN SELECT RAISE(ABORT, 'marks are kept'); END;
CREATE TRIGGER withdrawal_is_fixed BEFORE UPDATE ON annotation_withdrawal BEGIN SELECT RAISE(ABORT, 'withdrawals are never changed'); END;
CREATE TRIGGER withdrawal_is_kept BEFORE DELETE ON annotation_withdrawal BEGIN SELECT RAISE(ABORT, 'withdrawals are kept'); END;
CREATE TRIGGER release_is_fixed BEFORE UPDATE ON release BEGIN SELECT RAISE(ABORT, 'releases are never changed'); END;
CREATE TRIGGER release_is_kept BEFORE DELETE ON release BEGIN SELECT RAISE(ABORT, 'releases are kept'); END;
