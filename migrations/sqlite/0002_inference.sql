-- What the readings suggest: from when on it is told, and the newest answer.

-- Probabilities in whole per cent. What is told at the bench is told in the summary too.
ALTER TABLE class_set ADD COLUMN bench_threshold INTEGER NOT NULL DEFAULT 80
    CHECK (bench_threshold BETWEEN 50 AND 99);
ALTER TABLE class_set ADD COLUMN summary_threshold INTEGER NOT NULL DEFAULT 50
    CHECK (summary_threshold BETWEEN 5 AND 99 AND summary_threshold <= bench_threshold);

-- What the readings of a class set suggest. It leans on all groups, so there is one for all.
-- Only a copy: rows may be deleted at any time, and are made again when somebody looks.
CREATE TABLE inference (
    class_set_id INTEGER PRIMARY KEY REFERENCES class_set (id),
    state        TEXT NOT NULL CHECK (length(state) = 64), -- SHA-256 of what it was made from: revisions, kits, analysis version
    body         TEXT NOT NULL CHECK (json_valid(body)), -- one inference a sheet, with the sheet's id
    made_at      INTEGER NOT NULL
) STRICT;
