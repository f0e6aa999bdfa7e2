-- The file holds codes, figures and what people typed. What is said of them is the program's.

-- A mark that is a settlement's names it. Whoever reads the mark finds the round and the reason there.
DROP TRIGGER mark_is_fixed;
ALTER TABLE mark ADD COLUMN settlement_id INTEGER REFERENCES settlement (id); -- whose word it is, given by it, given back or confirmed; its reason is there, and blank here. null: the marker's own
UPDATE mark SET settlement_id = settlement.id, reason = ''
    FROM settled_mark JOIN mark AS given ON given.id = mark_id JOIN settlement ON settlement.id = settled_mark.settlement_id
    JOIN moderation_round ON moderation_round.id = round_id
    WHERE given.sheet_id = mark.sheet_id AND given.id <= mark.id
    AND mark.reason = CASE kind WHEN 'agreed' THEN 'Agreed' ELSE 'The first mark stands' END
                      || ' in the moderation round ' || moderation_round.name || ': ' || settlement.reason;
CREATE TRIGGER mark_is_fixed BEFORE UPDATE ON mark BEGIN SELECT RAISE(ABORT, 'marks are never changed'); END;

-- What more there is to an event: a name, a label or a code as it is, all else as JSON. Text that has another shape
-- than the program wrote stays as it is.
DROP TRIGGER event_is_fixed;
UPDATE event SET detail = json_object('live', json('false')) WHERE what = 'set_made' AND detail = 'live pages off';
UPDATE event SET detail = json_object('until', substr(detail, 7)) WHERE what = 'initials_kept' AND detail GLOB 'until [0-9]*';
UPDATE event SET detail = json_object('pupils', CAST(substr(detail, 4) AS INTEGER))
    WHERE what = 'initials_blanked' AND detail GLOB 'of [0-9]* pupils';
UPDATE event SET detail = json_object('live', json(iif(detail GLOB 'live pages on,*', 'true', 'false')),
                                      'look_again', substr(detail, instr(detail, ': ') + 2))
    WHERE what = 'help_set' AND (detail GLOB 'live pages on, look again: *' OR detail GLOB 'live pages off, look again: *');
UPDATE event SET detail = json_object('bench', CAST(substr(detail, 7) AS INTEGER),
                                      'summary', CAST(substr(detail, instr(detail, 'summary ') + 8) AS INTEGER))
    WHERE what = 'thresholds_set' AND detail GLOB 'bench [0-9]* %, summary [0-9]* %';
UPDATE event SET detail = json_object('absent', CAST(substr(detail, instr(detail, 'absent ') + 7) AS INTEGER),
                                      'caught_up', CAST(substr(detail, instr(detail, 'caught up ') + 10) AS INTEGER),
                                      'present', CAST(substr(detail, 9) AS INTEGER))
    WHERE what = 'register_kept' AND detail GLOB 'present [0-9]*, absent [0-9]*, caught up [0-9]*';
UPDATE event SET detail = body
    FROM (SELECT id, '[["' || rtrim(replace(replace(replace(detail, ' (new bench)', '",null)'), ' (version ', '",'), '), ', '],["'), ')') || ']]' AS body
          FROM event WHERE what = 'readings_imported') AS made
    WHERE made.id = event.id AND json_valid(body)
    AND detail = (SELECT group_concat(json_extract(value, '$[0]') || coalesce(' (version ' || json_extract(value, '$[1]') || ')', ' (new bench)'), ', ')
                  FROM json_each(body));
UPDATE event SET detail = json_object('name', substr(head, 1, length(head) - 10), 'version', CAST(substr(detail, length(head) + 1) AS INTEGER))
    FROM (SELECT id, rtrim(detail, '0123456789') AS head FROM event WHERE what IN ('scheme_saved', 'scheme_chosen')) AS made
    WHERE made.id = event.id AND head GLOB '*, version ' AND head <> detail;
UPDATE event SET detail = body
    FROM (SELECT id, '[[' || substr(replace(replace(replace(replace(detail, 'up to any', 'up to null'), ': all', ',null'), ': ', ','), '; up to ', '],['), 7) || ']]' AS body
          FROM event WHERE what = 'sample_sizes_set' AND detail GLOB 'up to *') AS made
    WHERE made.id = event.id AND json_valid(body);
-- Name and seed stand in the round's own row.
UPDATE event SET detail = json_object('round', CAST(substr(detail, 7) AS INTEGER))
    WHERE (what = 'round_made' AND detail GLOB 'round [0-9]*: *') OR (what = 'record_entry' AND detail GLOB 'round [0-9]*');
UPDATE event SET detail = json_object('round', moderation_round.id,
                                      'sheets', substr(detail, length('round ' || moderation_round.id || ', seed ' || seed || ': ') + 1))
    FROM moderation_round
    WHERE what = 'sample_drawn' AND instr(detail, 'round ' || moderation_round.id || ', seed ' || seed || ': ') = 1;
UPDATE event SET detail = json_object('round', CAST(substr(detail, 7) AS INTEGER),
                                      'sheets', CAST(substr(detail, instr(detail, ': ') + 2) AS INTEGER))
    WHERE what = 'anchors_picked' AND detail GLOB 'round [0-9]*: [0-9]* sheets';
UPDATE event SET detail = json_object('point', CAST(substr(detail, instr(detail, 'point ') + 6) AS INTEGER),
                                      'round', CAST(substr(detail, 7) AS INTEGER))
    WHERE what = 'ruling_written' AND detail GLOB 'round [0-9]*, point [0-9]*';
UPDATE event SET detail = json_object('round', CAST(substr(detail, 7) AS INTEGER),
                                      'settlement', CAST(substr(detail, instr(detail, 'settlement ') + 11) AS INTEGER))
    WHERE what = 'settled' AND detail GLOB 'round [0-9]*, settlement [0-9]*';
UPDATE event SET detail = json_object('is_pending', json(iif(detail GLOB '*, with work left', 'true', 'false')),
                                      'round', CAST(substr(detail, 7) AS INTEGER))
    WHERE what = 'round_closed' AND (detail GLOB 'round [0-9]*, with work left' OR NOT detail GLOB 'round *[^0-9]*');
UPDATE event SET detail = json_object('round', CAST(substr(detail, 7) AS INTEGER), 'unfinished', json(names))
    FROM (SELECT id, CASE WHEN detail GLOB 'round [0-9]*, all had finished' THEN '[]'
                          ELSE '["' || replace(substr(detail, instr(detail, 'had finished: ') + 14), ', ', '","') || '"]' END AS names
          FROM event WHERE what IN ('standard_shown', 'second_marks_shown') AND detail GLOB 'round [0-9]*, *had finished*') AS made
    WHERE made.id = event.id AND json_valid(names) AND NOT EXISTS (SELECT 1 FROM staff WHERE instr(name, ',') > 0);
CREATE TRIGGER event_is_fixed BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'events are never changed'); END;
