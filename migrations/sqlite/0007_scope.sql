-- One service may hold many departments. Every query is of one: it joins one of these views, or
-- takes an id through it, so that what another department owns is not found.
CREATE VIEW own_set AS
    SELECT class_set.id, class.department_id FROM class_set JOIN class ON class.id = class_set.class_id;
CREATE VIEW own_bench AS
    SELECT bench.id, own_set.department_id FROM bench JOIN own_set ON own_set.id = bench.class_set_id;
CREATE VIEW own_sheet AS
    SELECT sheet.id, own_bench.department_id FROM sheet JOIN own_bench ON own_bench.id = sheet.bench_id;
CREATE VIEW own_version AS
    SELECT scheme_version.id, scheme.department_id FROM scheme_version JOIN scheme ON scheme.id = scheme_version.scheme_id;
CREATE VIEW own_round_sheet AS
    SELECT round_sheet.id, moderation_round.department_id
    FROM round_sheet JOIN moderation_round ON moderation_round.id = round_sheet.round_id;

-- Whose event it is: some are about no class set.
ALTER TABLE event ADD COLUMN department_id INTEGER NOT NULL DEFAULT 1;
-- Of which department the account will be.
ALTER TABLE invitation ADD COLUMN department_id INTEGER NOT NULL DEFAULT 1;

-- A copy of what can be worked out again: made anew, by department.
DROP TABLE year_summary;
CREATE TABLE year_summary (
    department_id INTEGER NOT NULL REFERENCES department (id),
    school_year   INTEGER NOT NULL,     -- the calendar year in which it starts
    state         TEXT NOT NULL CHECK (length(state) = 64), -- SHA-256 of what it was made from: lessons, kits, newest rows, analysis version
    body          TEXT NOT NULL CHECK (json_valid(body)), -- the comparison, by the analysis' own names
    made_at       INTEGER NOT NULL,
    PRIMARY KEY (department_id, school_year)
) STRICT;
