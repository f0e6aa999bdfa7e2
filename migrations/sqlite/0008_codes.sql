-- Why a sheet was taken into a sample is kept as the code of the rule. What it says to people is
-- the program's. (Closed records keep what they say.)
DROP TRIGGER round_sheet_is_fixed;
UPDATE round_sheet SET why = CASE why
    WHEN 'every sheet is taken' THEN 'all'
    WHEN 'highest total' THEN 'highest'
    WHEN 'lowest total above nought' THEN 'lowest'
    WHEN 'nearest to the middle total' THEN 'middle'
    WHEN 'its class had none yet' THEN 'class'
    WHEN 'its marker had none yet' THEN 'marker'
    WHEN 'at random' THEN 'random'
    ELSE why
END;
CREATE TRIGGER round_sheet_is_fixed BEFORE UPDATE ON round_sheet BEGIN SELECT RAISE(ABORT, 'samples are never changed'); END;
