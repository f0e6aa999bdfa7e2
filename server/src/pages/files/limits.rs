//! What a file may say and a bench sheet has no room for. Without these a
//! group could not save again what was taken in for it.

use analysis::scheme::Answer;

use crate::db::revision::Entry;
use crate::files::fault::Fault;
use crate::files::{Column, SheetReadings};
use crate::pages::bench_sheet::form::LONGEST_LABEL;
use crate::pages::bench_sheet::hand_in::{wrong_kit, wrong_shared};
use crate::pages::bench_sheet::own_words;
use crate::pages::bench_sheet::rows::MOST_ROWS;
use crate::words::{Say, file};

/// Lists everything on a sheet that there is no room for.
pub(super) fn faults(sheet: &SheetReadings) -> Vec<Fault> {
    let Entry {
        sheet: typed,
        kit,
        shared,
        answers,
    } = &sheet.entry;
    let mut wrong = vec![
        (Column::Kit, wrong_kit(Say::english(), kit)),
        (Column::Shared, wrong_shared(Say::english(), shared)),
    ];
    wrong.extend(Answer::ALL.map(|answer| {
        let fault = own_words::fault(Say::english(), &own_words::read(answers.get(answer)));
        (Column::Words(answer), fault)
    }));
    let mut faults = Vec::new();
    for (column, wrong) in wrong {
        let (line, column) = sheet.place(column);
        faults.extend(wrong.map(|reason| Fault::in_column(line, &column, reason)));
    }
    for (at, row) in typed.rows.iter().enumerate() {
        let line = sheet.row_line(at);
        if row.label.trim().chars().count() > LONGEST_LABEL {
            let reason = file::long_row_label(LONGEST_LABEL);
            faults.push(Fault::in_column(line, "row", reason));
        }
        if at == MOST_ROWS {
            let reason = file::too_many_rows(MOST_ROWS);
            faults.push(Fault::in_column(line, "row", reason));
        }
    }
    faults
}

/// Returns what a file says, as a bench sheet would have stored it: row
/// numbers without blanks round them, answers as their boxes give them.
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
