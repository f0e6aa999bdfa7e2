//! What a file may say and a bench sheet has no room for. Without these a
//! group could not save again what was taken in for it.

use analysis::scheme::Answer;

use crate::db::revision::Entry;
use crate::files::SheetReadings;
use crate::files::fault::Fault;
use crate::pages::bench_sheet::form::LONGEST_LABEL;
use crate::pages::bench_sheet::hand_in::{wrong_kit, wrong_shared};
use crate::pages::bench_sheet::own_words;
use crate::pages::bench_sheet::rows::MOST_ROWS;

/// Everything on a sheet that there is no room for.
pub(super) fn faults(sheet: &SheetReadings) -> Vec<Fault> {
    let Entry {
        sheet: typed,
        kit,
        shared,
        answers,
    } = &sheet.entry;
    let mut faults = Vec::new();
    for (wrong, (line, column)) in [
        (wrong_kit(kit), sheet.kit_place()),
        (wrong_shared(shared), sheet.shared_place()),
    ] {
        faults.extend(wrong.map(|reason| Fault::in_column(line, &column, reason)));
    }
    for answer in Answer::ALL {
        let wrong = own_words::fault(&own_words::read(answers.get(answer)));
        let (line, column) = sheet.answer_place(answer);
        faults.extend(wrong.map(|reason| Fault::in_column(line, &column, reason)));
    }
    for (at, row) in typed.rows.iter().enumerate() {
        let line = sheet.row_line(at);
        if row.label.trim().chars().count() > LONGEST_LABEL {
            let reason = format!("a row’s number has at most {LONGEST_LABEL} characters.");
            faults.push(Fault::in_column(line, "row", reason));
        }
        if at == MOST_ROWS {
            let reason = format!("a bench sheet has at most {MOST_ROWS} rows.");
            faults.push(Fault::in_column(line, "row", reason));
        }
    }
    faults
}

/// What a file says, as a bench sheet would have stored it: row numbers
/// without blanks round them, answers as their boxes give them.
pub(super) fn settled(mut entry: Entry) -> Entry {
    for row in &mut entry.sheet.rows {
        row.label = row.label.trim().to_owned();
    }
    for answer in Answer::ALL {
        let text = own_words::read(entry.answers.get(answer));
        entry.answers.set(answer, text);
    }
    entry
}
