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
