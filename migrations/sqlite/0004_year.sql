-- What the year's pages read: judgements kept by revision, and the year's
-- figures kept until something changes. Only copies: rows of both may be
-- deleted at any time, and are made again when somebody looks.

CREATE TABLE judgement (
    revision_id INTEGER PRIMARY KEY REFERENCES revision (id),
    version     TEXT NOT NULL CHECK (length(version) <= 40), -- of the analysis that made it
    kit         TEXT NOT NULL,          -- what the group wrote for its kit
    speed       REAL,                   -- m/s, from the readings; null: no row is complete
    expected    REAL,                   -- m/s, the same recipe on the expected curve; null: nothing known
    uncertainty REAL,                   -- standard uncertainty of ln(speed); null: one row
    body        TEXT NOT NULL CHECK (json_valid(body)) -- rows and slips, by the analysis' own names
) STRICT;

CREATE TABLE year_summary (
    school_year INTEGER PRIMARY KEY,    -- the calendar year in which it starts
    state       TEXT NOT NULL CHECK (length(state) = 64), -- SHA-256 of what it was made from: lessons, kits, newest rows, analysis version
    body        TEXT NOT NULL CHECK (json_valid(body)), -- the comparison, by the analysis' own names
    made_at     INTEGER NOT NULL
) STRICT;
