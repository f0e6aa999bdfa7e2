//! Putting the record together.

use std::collections::BTreeMap;

use super::{
    AgainLine, AnchorLine, ClassSetLine, DecisionLine, DifferingPoint, FORMAT, MarkLine, PointLine,
    Record, RulingLine, SheetLine, SheetName, StepLine,
};
use crate::db::round::{self, ClassSetOfRound, Round, Step, StepTaken};
use crate::db::round_sheet::RoundSheet;
use crate::db::ruling;
use crate::db::scheme::MarkingPoint;
use crate::db::settlement::{Again, Settlement};
use crate::db::{Connection, Error};
use crate::report::moderation::comparison::{self, Compared};
use crate::report::moderation::settling::{Settling, SettlingPoint, SettlingSheet};
use crate::report::moderation::standard::{self, Standard};
use crate::report::moderation::step_words;

/// The record of a round as it is now.
///
/// # Errors
/// When a query fails.
pub(super) async fn make(
    db: &mut Connection,
    round: &Round,
    settling: Settling,
) -> Result<Record, Error> {
    let compared = comparison::load(db, round).await?;
    let steps = round::list_steps(db, round.id).await?;
    let had_standard = steps.iter().any(|taken| taken.step == Step::StandardShown);
    let standard = standard::load(db, round).await?;
    let rulings = ruling::list_in_round(db, round.id).await?;
    let class_sets = round::list_class_sets(db, round.id).await?;
    let points = titles(&compared, &standard);
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
        sheets: settling
            .sheets
            .iter()
            .map(|sheet| sheet_line(sheet, settling.points_of(sheet)))
            .collect(),
        rulings: rulings
            .into_iter()
            .map(|ruling| RulingLine {
                title: titled(ruling.point_key),
                body: ruling.body,
                by: ruling.by,
                at: ruling.at,
            })
            .collect(),
        again: settling
            .again
            .iter()
            .map(|(one, done)| again_line(one, *done, &titled))
            .collect(),
        people: compared.names().into_iter().collect(),
        comparison: compared.comparison,
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
        what: "Made".to_owned(),
        by: round.by.clone(),
        at: round.made_at,
    };
    let steps = steps.into_iter().map(|taken| StepLine {
        what: step_words(taken.step).to_owned(),
        by: taken.by,
        at: taken.at,
    });
    std::iter::once(made).chain(steps).collect()
}

/// What points are called, by their keys.
fn titles(compared: &Compared, standard: &Standard) -> BTreeMap<i64, String> {
    let anchors = standard.points.iter().map(|point| &point.point);
    let keys = compared.comparison.points.iter().map(|point| point.point);
    let sample = keys.filter_map(|key| compared.point(key));
    anchors
        .chain(sample)
        .map(|point| (point.key, format!("{} {}", point.number, point.point.title)))
        .collect()
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
                        title: format!("{} {}", point.point.number, point.point.point.title),
                        marks: point.lines[at]
                            .marks
                            .iter()
                            .map(|mark| mark.as_ref()?.awarded)
                            .collect(),
                    })
                    .collect(),
            }
        })
        .collect()
}

fn sheet_line(sheet: &SettlingSheet, points: &[MarkingPoint]) -> SheetLine {
    let of_round = &sheet.pair.sheet;
    let each = points.iter().zip(&sheet.points).enumerate();
    SheetLine {
        id: of_round.id.0,
        sheet: sheet_name(of_round),
        why: of_round.why.clone(),
        first: sheet.pair.first_total(),
        second: sheet.pair.second_total(),
        settled: sheet.settled_total(),
        whole: sheet.whole.as_ref().map(decision_line),
        points: each
            .map(|(at, (point, standing))| point_line(sheet, at, point, standing))
            .collect(),
    }
}

fn point_line(
    sheet: &SettlingSheet,
    at: usize,
    point: &MarkingPoint,
    standing: &SettlingPoint,
) -> PointLine {
    let first = sheet.pair.first[at].as_ref();
    let second = sheet.pair.second[at].as_ref();
    PointLine {
        key: point.key,
        number: point.number,
        title: point.point.title.clone(),
        most: i64::from(point.point.marks),
        first: first.and_then(|mark| {
            Some(MarkLine {
                marks: mark.awarded?,
                by: mark.by.clone(),
                at: mark.marked_at,
                why: mark.reason.clone(),
            })
        }),
        second: second.and_then(|mark| {
            Some(MarkLine {
                marks: mark.awarded?,
                by: mark.by.clone(),
                at: mark.marked_at,
                why: mark.note.clone(),
            })
        }),
        settled: standing.twice.settled(),
        decision: standing.settlement.as_ref().map(decision_line),
        is_again: standing.is_again(),
    }
}

fn decision_line(one: &Settlement) -> DecisionLine {
    DecisionLine {
        agreed: one.agreed,
        reason: one.reason.clone(),
        by: one.by.clone(),
        at: one.at,
    }
}

fn again_line(one: &Settlement, done: Again, titled: &dyn Fn(i64) -> String) -> AgainLine {
    AgainLine {
        class_set: one.class_set_id.map_or(0, |id| id.0),
        point: one.point_key.map(titled),
        reason: one.reason.clone(),
        by: one.by.clone(),
        at: one.at,
        of: done.of,
        done: done.done,
    }
}
