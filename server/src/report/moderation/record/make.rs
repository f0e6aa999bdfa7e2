//! Putting the record together.

use super::{
    AgainLine, AnchorLine, ClassSetLine, Decided, DecisionLine, DifferingPoint, FORMAT, MarkLine,
    PointLine, Record, RulingLine, Settled, SheetLine, SheetName, StepLine,
};
use crate::db::mark::Mark;
use crate::db::round::{self, ClassSetOfRound, Round, Step, StepTaken};
use crate::db::round_sheet::RoundSheet;
use crate::db::ruling;
use crate::db::settlement::{Kind, Settlement, ToMarkAgain};
use crate::db::{Connection, Error};
use crate::report::moderation::comparison::{compare, people};
use crate::report::moderation::pairs::{PairPoint, titles};
use crate::report::moderation::settling::{Settling, SettlingPoint, SettlingSheet};
use crate::report::moderation::standard::{self, Standard};

/// Returns the record of a round as it is now.
pub async fn make(
    db: &mut Connection,
    round: &Round,
    settling: &Settling,
) -> Result<Record, Error> {
    let pairs = || settling.sheets.iter().map(|sheet| &sheet.pair);
    let steps = round::list_steps(db, round.id).await?;
    let had_standard = steps.iter().any(|taken| taken.step == Step::StandardShown);
    let standard = standard::load(db, round).await?;
    let rulings = ruling::list_in_round(db, round.id).await?;
    let class_sets = round::list_class_sets(db, round.id).await?;
    let of_anchors = standard.points.iter().map(|point| &point.point);
    let points = titles(of_anchors.chain(&settling.points));
    let titled = |key: i64| points.get(&key).cloned().unwrap_or_default();
    Ok(Record {
        format: FORMAT,
        name: round.name.clone(),
        scheme: round.scheme_name.clone(),
        method: round.method.clone(),
        seed: round.seed.clone(),
        class_sets: class_sets.into_iter().map(class_set_line).collect(),
        markers: standard.markers.iter().map(|m| m.name.clone()).collect(),
        steps: step_lines(round, steps),
        anchors: if had_standard {
            anchors(&standard)
        } else {
            Vec::new()
        },
        sheets: settling.sheets.iter().map(sheet_line).collect(),
        rulings: rulings
            .into_iter()
            .map(|ruling| RulingLine {
                title: titled(ruling.point_key),
                body: ruling.body,
                by: ruling.by,
                at: ruling.at,
            })
            .collect(),
        decisions: decision_lines(settling, &titled),
        again: settling
            .again
            .iter()
            .map(|(_, to_mark)| again_line(to_mark, &titled))
            .collect(),
        people: people(pairs()),
        comparison: compare(pairs(), round),
        points,
    })
}

fn class_set_line(set: ClassSetOfRound) -> ClassSetLine {
    ClassSetLine {
        id: set.id.0,
        class: set.class_name,
        held_on: set.held_on,
    }
}

fn step_lines(round: &Round, steps: Vec<StepTaken>) -> Vec<StepLine> {
    let made = StepLine {
        what: "made".to_owned(),
        by: round.by.clone(),
        at: round.made_at,
    };
    let steps = steps.into_iter().map(|taken| StepLine {
        what: taken.step.code().to_owned(),
        by: taken.by,
        at: taken.at,
    });
    std::iter::once(made).chain(steps).collect()
}

fn sheet_name(sheet: &RoundSheet) -> SheetName {
    SheetName {
        class_set: sheet.class_set_id.0,
        class: sheet.class_name.clone(),
        held_on: sheet.held_on.clone(),
        label: sheet.label.clone(),
    }
}

fn anchors(standard: &Standard) -> Vec<AnchorLine> {
    let anchors = standard.anchors.iter().zip(&standard.totals).enumerate();
    anchors
        .map(|(at, (anchor, totals))| {
            let points = standard.points.iter();
            let differing = points.filter(|point| point.lines[at].apart() > 0);
            AnchorLine {
                sheet: sheet_name(anchor),
                totals: totals.clone(),
                differing: differing
                    .map(|point| DifferingPoint {
                        title: point.point.titled(),
                        marks: point.lines[at].awarded(),
                    })
                    .collect(),
            }
        })
        .collect()
}

fn sheet_line(sheet: &SettlingSheet) -> SheetLine {
    let of_round = &sheet.pair.sheet;
    SheetLine {
        id: of_round.id.0,
        sheet: sheet_name(of_round),
        why: of_round.why.clone(),
        second_marker: of_round.marker.clone().unwrap_or_default(),
        first: sheet.pair.first_total(),
        second: sheet.pair.second_total(),
        stands: sheet.standing_total(),
        points: sheet.each().map(point_line).collect(),
    }
}

fn point_line((marked, standing): (&PairPoint, &SettlingPoint)) -> PointLine {
    PointLine {
        key: marked.asked.key,
        number: marked.asked.number,
        title: marked.asked.point.title.clone(),
        most: i64::from(marked.asked.point.marks),
        first: marked.first.as_ref().and_then(first_line),
        second: marked.second.as_ref().and_then(|mark| {
            Some(MarkLine {
                marks: mark.awarded?,
                by: mark.by.clone(),
                at: mark.marked_at,
                why: mark.note.clone(),
                settled: None,
            })
        }),
        stands: standing.now.as_ref().and_then(first_line),
        is_marked_since: standing.has_moved() && !standing.is_again(),
    }
}

fn first_line(mark: &Mark) -> Option<MarkLine> {
    Some(MarkLine {
        marks: mark.awarded?,
        by: mark.by.clone(),
        at: mark.marked_at,
        why: mark.reason.clone(),
        settled: mark.settled().map(|(kind, round)| Settled {
            kind: kind.code().to_owned(),
            round: round.to_owned(),
        }),
    })
}

/// Lists everything that was decided. Of two decisions on the same thing the
/// newer holds.
fn decision_lines(settling: &Settling, titled: &dyn Fn(i64) -> String) -> Vec<DecisionLine> {
    let of = |one: &Settlement| (one.round_sheet_id, one.class_set_id, one.point_key);
    let all = settling.settlements.iter().enumerate();
    all.map(|(at, one)| {
        let mut sheets = settling.sheets.iter().map(|sheet| &sheet.pair.sheet);
        let sheet = sheets.find(|sheet| Some(sheet.id) == one.round_sheet_id);
        DecisionLine {
            sheet: sheet.map(sheet_name),
            class_set: one.class_set_id.map(|id| id.0),
            point: one.point_key.map(titled),
            decided: match one.kind {
                Kind::FirstStands => Decided::FirstStands,
                Kind::Agreed => Decided::Agreed(one.agreed.unwrap_or(0)),
                Kind::Again => Decided::Again,
                Kind::NotAgain => Decided::NotAgain,
            },
            reason: one.reason.clone(),
            by: one.by.clone(),
            at: one.at,
            is_replaced: settling.settlements[at + 1..]
                .iter()
                .any(|later| of(later) == of(one)),
        }
    })
    .collect()
}

fn again_line(to_mark: &ToMarkAgain, titled: &dyn Fn(i64) -> String) -> AgainLine {
    AgainLine {
        class_set: to_mark.class_set_id.0,
        point: to_mark.point_key.map(titled),
        of: to_mark.again.of,
        done: to_mark.again.done,
    }
}
