-- The house: a department, its people, its classes and their bench sheets.
-- Times are Unix milliseconds, UTC. Whole numbers of 64 bits, text, doubles.

-- The root: every other row belongs to a department, though today there is one.
CREATE TABLE department (
    id   INTEGER PRIMARY KEY,
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200) -- as shown on pages
) STRICT;
INSERT INTO department (id, name) VALUES (1, 'Science department');

-- People who set and mark work. Pupils have no accounts.
CREATE TABLE staff (
    id            INTEGER PRIMARY KEY,
    department_id INTEGER NOT NULL REFERENCES department (id),
    name          TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80), -- as shown, and typed to sign in
    name_key      TEXT NOT NULL UNIQUE, -- the name in lower case with single spaces: what signing in compares
    password_hash TEXT NOT NULL,        -- argon2id, in the PHC string form
    role          TEXT NOT NULL CHECK (role IN ('head', 'teacher')),
    made_at       INTEGER NOT NULL
) STRICT;

-- One-time links by which an account is made.
CREATE TABLE invitation (
    token_hash  TEXT PRIMARY KEY,       -- SHA-256 of the token in the link, hexadecimal
    role        TEXT NOT NULL CHECK (role IN ('head', 'teacher')), -- of the account it makes
    invited_by  INTEGER REFERENCES staff (id), -- null: printed at the first start
    made_at     INTEGER NOT NULL,
    expires_at  INTEGER NOT NULL
) STRICT;

-- Sessions of staff.
CREATE TABLE sign_in (
    token_hash TEXT PRIMARY KEY,        -- SHA-256 of the cookie's 256-bit token, hexadecimal
    staff_id   INTEGER NOT NULL REFERENCES staff (id),
    made_at    INTEGER NOT NULL,        -- absolute expiry counts from here
    seen_at    INTEGER NOT NULL         -- idle expiry counts from here
) STRICT;
CREATE INDEX sign_in_staff ON sign_in (staff_id);

-- A teaching group in one school year.
CREATE TABLE class (
    id            INTEGER PRIMARY KEY,
    department_id INTEGER NOT NULL REFERENCES department (id),
    name          TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 40), -- for instance 10B/Ph2
    school_year   INTEGER NOT NULL,     -- the calendar year in which it starts, in September
    UNIQUE (department_id, name, school_year)
) STRICT;

-- One numbered set of apparatus.
CREATE TABLE kit (
    id            INTEGER PRIMARY KEY,
    department_id INTEGER NOT NULL REFERENCES department (id),
    label         TEXT NOT NULL CHECK (length(label) BETWEEN 1 AND 40), -- for instance Tank 3
    label_key     TEXT NOT NULL,        -- the label in lower case: what a sheet's text is matched with
    kind          TEXT NOT NULL CHECK (kind IN ('tank', 'generator', 'string')),
    UNIQUE (department_id, label_key)
) STRICT;

-- One class doing one practical on one date.
CREATE TABLE class_set (
    id         INTEGER PRIMARY KEY,
    class_id   INTEGER NOT NULL REFERENCES class (id),
    method     TEXT NOT NULL CHECK (length(method) <= 40), -- code of the method, as in files
    held_on    TEXT NOT NULL CHECK (held_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'), -- school's own date
    join_code  TEXT NOT NULL UNIQUE CHECK (length(join_code) = 5), -- capital letters without look-alikes
    state      TEXT NOT NULL CHECK (state IN ('open', 'closed')),
    created_by INTEGER NOT NULL REFERENCES staff (id),
    made_at    INTEGER NOT NULL
) STRICT;
CREATE INDEX class_set_class ON class_set (class_id);

-- One group of a class set.
CREATE TABLE bench (
    id             INTEGER PRIMARY KEY,
    class_set_id   INTEGER NOT NULL REFERENCES class_set (id),
    label          TEXT NOT NULL CHECK (length(label) BETWEEN 1 AND 8), -- A, B, C and so on
    come_back_hash TEXT,                -- argon2id of its four figures; null until the first visit
    UNIQUE (class_set_id, label)
) STRICT;

-- A pupils' browser that chose a bench. One browser may hold several benches.
CREATE TABLE visit (
    id         INTEGER PRIMARY KEY,
    token_hash TEXT NOT NULL,           -- SHA-256 of the cookie's 256-bit token, hexadecimal
    bench_id   INTEGER NOT NULL REFERENCES bench (id),
    made_at    INTEGER NOT NULL,        -- when the number was last given (or shown); it lapses after a day's work
    UNIQUE (token_hash, bench_id)
) STRICT;

-- What a bench enters. Its contents are its newest revision.
CREATE TABLE sheet (
    id       INTEGER PRIMARY KEY,
    bench_id INTEGER NOT NULL UNIQUE REFERENCES bench (id),
    kit_id   INTEGER REFERENCES kit (id), -- null: no kit of ours was named
    version  INTEGER NOT NULL DEFAULT 0 CHECK (version >= 0) -- of the newest revision; 0: nothing stored
) STRICT;

-- One stored state of a sheet, as typed. Never changed.
CREATE TABLE revision (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    sheet_id   INTEGER NOT NULL REFERENCES sheet (id),
    version    INTEGER NOT NULL CHECK (version >= 1), -- counts up by one within a sheet
    kind       TEXT NOT NULL CHECK (kind IN ('saved', 'handed_in')),
    body       TEXT NOT NULL CHECK (json_valid(body) AND length(body) <= 1000000), -- the boxes, as typed
    written_at INTEGER NOT NULL,
    visit_id   INTEGER REFERENCES visit (id), -- null: written by staff
    staff_id   INTEGER REFERENCES staff (id), -- null: written by pupils
    UNIQUE (sheet_id, version),
    CHECK ((visit_id IS NULL) <> (staff_id IS NULL))
) STRICT;

-- One attempt at a sheet. Its uuid makes a hand-in happen once.
CREATE TABLE draft (
    uuid              TEXT PRIMARY KEY CHECK (length(uuid) = 36),
    sheet_id          INTEGER NOT NULL REFERENCES sheet (id),
    visit_id          INTEGER NOT NULL REFERENCES visit (id),
    base_version      INTEGER NOT NULL CHECK (base_version >= 0), -- version of the sheet that it started from
    opened_at         INTEGER NOT NULL,
    spent_revision_id INTEGER REFERENCES revision (id), -- null while open
    payload_hash      TEXT,             -- SHA-256 of what it stored, hexadecimal; null while open
    CHECK ((spent_revision_id IS NULL) = (payload_hash IS NULL))
) STRICT;
CREATE INDEX draft_open ON draft (visit_id, sheet_id) WHERE spent_revision_id IS NULL;

-- A person's word on a slip that the tool named. Appended; the newest wins.
CREATE TABLE decision (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    sheet_id    INTEGER NOT NULL REFERENCES sheet (id),
    revision_id INTEGER NOT NULL REFERENCES revision (id), -- what was on the screen
    step        TEXT NOT NULL,          -- name of the box concerned
    slip        TEXT NOT NULL,          -- code of the slip
    row_label   TEXT NOT NULL,          -- the row as typed; blank: the whole sheet
    verdict     TEXT NOT NULL CHECK (verdict IN ('confirmed', 'dismissed')),
    reason      TEXT NOT NULL CHECK (length(reason) <= 1000), -- blank where none was given
    staff_id    INTEGER NOT NULL REFERENCES staff (id),
    decided_at  INTEGER NOT NULL
) STRICT;
CREATE INDEX decision_sheet ON decision (sheet_id);

-- A marker's note. Appended.
CREATE TABLE annotation (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    sheet_id   INTEGER NOT NULL REFERENCES sheet (id),
    row_label  TEXT,                    -- null: not about one row
    step       TEXT,                    -- name of the box concerned; null: not about one step
    body       TEXT NOT NULL CHECK (length(body) BETWEEN 1 AND 2000),
    staff_id   INTEGER NOT NULL REFERENCES staff (id),
    written_at INTEGER NOT NULL
) STRICT;
CREATE INDEX annotation_sheet ON annotation (sheet_id);

-- Who did what and when.
CREATE TABLE event (
    id           INTEGER PRIMARY KEY AUTOINCREMENT, -- never used again, so that a gap shows
    at           INTEGER NOT NULL,
    what         TEXT NOT NULL,         -- for instance set_closed
    staff_id     INTEGER REFERENCES staff (id), -- null: done by pupils or by nobody signed in
    class_set_id INTEGER REFERENCES class_set (id), -- null: not about one class set
    detail       TEXT NOT NULL DEFAULT '' CHECK (length(detail) <= 2000) -- for a person to read; never a secret
) STRICT;

-- History is appended. (INSERT OR REPLACE is caught too: recursive_triggers is on.)
CREATE TRIGGER event_is_kept BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'events are kept'); END;
CREATE TRIGGER event_is_fixed BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'events are never changed'); END;
CREATE TRIGGER revision_is_fixed BEFORE UPDATE ON revision BEGIN SELECT RAISE(ABORT, 'revisions are never changed'); END;
CREATE TRIGGER revision_is_kept BEFORE DELETE ON revision BEGIN SELECT RAISE(ABORT, 'revisions are kept'); END;
CREATE TRIGGER decision_is_fixed BEFORE UPDATE ON decision BEGIN SELECT RAISE(ABORT, 'decisions are never changed'); END;
CREATE TRIGGER decision_is_kept BEFORE DELETE ON decision BEGIN SELECT RAISE(ABORT, 'decisions are kept'); END;
CREATE TRIGGER annotation_is_fixed BEFORE UPDATE ON annotation BEGIN SELECT RAISE(ABORT, 'notes are never changed'); END;
CREATE TRIGGER annotation_is_kept BEFORE DELETE ON annotation BEGIN SELECT RAISE(ABORT, 'notes are kept'); END;
