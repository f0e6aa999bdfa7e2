//! The flags file: one line a flag.

use std::borrow::Cow;

use analysis::assess::Assessment;
use analysis::reading::Finding;
use analysis::slip::{Kind, Slip};
use analysis::unit::Unit;
use analysis::working::Flag;

use super::assess::{ClassJudged, KitQuestion};
use super::readings::ClassReadings;
use crate::table::Table;

/// The code of a question about readings that agree beyond chance.
const COPIED: &str = "copied-readings";

/// Makes the table of a class, sheet by sheet: first what a sheet's own figures
/// show, in the order of the work, then what its readings suggest, most
/// probable first.
pub(super) fn table(class: &ClassReadings, judged: &ClassJudged) -> Table {
    let sheets = class.sheets.iter().enumerate();
    let lines: Vec<_> = sheets
        .flat_map(|(at, sheet)| lines(judged, at).into_iter().map(move |line| (sheet, line)))
        .collect();
    Table::of(&lines)
        .text("class", |_| &class.class)
        .text("group", |(sheet, _)| &sheet.group)
        .text("method", |(sheet, _)| sheet.method().code())
        .figure("row", |(_, line)| line.row)
        .text("step", |(_, line)| line.step)
        .text("slip", |(_, line)| line.slip)
        .text("kind", |(_, line)| line.kind.code())
        .text("basis", |(_, line)| line.basis)
        .figure("probability", |(_, line)| &line.probability)
        .figure("given", |(_, line)| line.given.trim())
        .figure("expected", |(_, line)| line.expected)
        .text("rival", |(_, line)| line.rival)
        .table()
}

/// Returns the flags of one sheet, in the order of the file.
fn lines(judged: &ClassJudged, at: usize) -> Vec<FlagRow<'_>> {
    let assessment = &judged.assessed[at];
    let shown = assessment.flags.iter().map(|flag| shown(flag, assessment));
    let findings = &judged.inferences[at].findings;
    let inferred = findings
        .iter()
        .map(|f| (f.probability, inferred(f, assessment)));
    let asked = judged.asked[at]
        .iter()
        .map(|asked| (asked.probability, question(asked)));
    let mut doubted: Vec<_> = inferred.chain(asked).collect();
    doubted.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    shown
        .chain(doubted.into_iter().map(|(_, line)| line))
        .collect()
}

/// What stands on a line beside the sheet's name.
struct FlagRow<'a> {
    /// The row's number as typed; blank where the flag holds for the sheet.
    row: &'a str,
    step: &'static str,
    slip: &'static str,
    kind: Kind,
    basis: &'static str,
    probability: Cow<'static, str>,
    given: &'a str,
    expected: &'a str,
    rival: &'static str,
}

/// The group's own figures show it: no inference, no doubt.
fn shown<'a>(flag: &'a Flag, assessment: &'a Assessment) -> FlagRow<'a> {
    FlagRow {
        row: row_label(flag.row, assessment),
        step: flag.step.name(),
        slip: flag.slip.code(),
        kind: flag.slip.kind(),
        basis: "shown",
        probability: Cow::Borrowed("1"),
        given: &flag.given,
        expected: &flag.expected,
        rival: flag.rival.map_or("", Slip::code),
    }
}

fn inferred<'a>(finding: &'a Finding, assessment: &'a Assessment) -> FlagRow<'a> {
    FlagRow {
        row: row_label(finding.row, assessment),
        step: finding.step.name(),
        slip: finding.cause.code(),
        kind: finding.cause.kind(),
        basis: "inferred",
        probability: Cow::Owned(format!("{:.3}", finding.probability)),
        given: without_unit(&finding.given),
        expected: without_unit(&finding.expected),
        rival: finding.rival.map_or("", |rival| rival.cause.code()),
    }
}

/// Returns one line for each of the sheets that a question is about.
fn question(asked: &KitQuestion) -> FlagRow<'_> {
    FlagRow {
        row: "",
        step: asked.step.name(),
        slip: COPIED,
        kind: Kind::Question,
        basis: "inferred",
        probability: Cow::Owned(format!("{:.3}", asked.probability)),
        given: &asked.given,
        expected: "",
        rival: "",
    }
}

/// Returns a reading's figure alone, as the columns of shown flags have it.
fn without_unit(reading: &str) -> &str {
    match reading.rsplit_once(' ') {
        Some((figure, unit)) if Unit::parse(unit).is_some() => figure,
        _ => reading,
    }
}

fn row_label(row: Option<usize>, assessment: &Assessment) -> &str {
    row.and_then(|row| assessment.rows.get(row))
        .map_or("", |row| &row.label)
}
