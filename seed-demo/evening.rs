//! The teacher at the sheets on the evening of the lesson: slips confirmed or
//! dismissed, notes written.

use analysis::slip::Kind;
use server::acts::{AddNote, DecideSlip, Doing};
use server::clock::MINUTE;
use server::db::Error;
use server::db::decision::{FlagKey, Verdict};
use server::ids::ClassSetId;
use server::report::class_set::{self, ClassReport, GroupReport};
use server::report::{finding, flag};
use server::words::Say;

use crate::department::done;
use crate::group::{Group, Word};
use crate::lesson::Held;

/// Does what the teacher does with the sheets that evening.
pub(crate) async fn look_at(
    doing: &mut Doing<'_>,
    held: &Held,
    id: ClassSetId,
    groups: &[Group],
) -> Result<(), Error> {
    let class = class_set::load(doing.read(), id).await?;
    let (by, evening) = (held.marker.staff, held.starts + 370 * MINUTE);
    for (planned, group) in groups.iter().zip(&class.groups) {
        for word in &planned.words {
            let (found, verdict, reason) = match *word {
                Word::Confirmed => (in_working(group), Verdict::Confirmed, ""),
                Word::Dismissed(reason) => (in_working(group), Verdict::Dismissed, reason),
                Word::FoundAtTheBench => (
                    in_readings(&class, group),
                    Verdict::Confirmed,
                    "They counted again and found it.",
                ),
                Word::Note(row, step, body) => {
                    let note = AddNote {
                        class_set: id,
                        label: group.bench.label.clone(),
                        row: row.map(str::to_owned),
                        step: step.map(|field| field.name().to_owned()),
                        body: body.to_owned(),
                        for_group: false,
                    };
                    done(doing.perform(evening, by, note).await?)?;
                    continue;
                }
            };
            for flag in found {
                let decide = DecideSlip {
                    class_set: id,
                    label: group.bench.label.clone(),
                    revision: group.work.as_ref().ok_or(Error::Missing)?.revision.id,
                    flag,
                    verdict,
                    reason: reason.to_owned(),
                };
                done(doing.perform(evening, by, decide).await?)?;
            }
        }
    }
    Ok(())
}

/// Lists every slip that a sheet shows.
fn in_working(group: &GroupReport) -> Vec<FlagKey> {
    let work = group.work.iter();
    let lines = work.flat_map(|work| flag::lines(Say::english(), work, Kind::Slip));
    lines.map(|line| line.key).collect()
}

/// Returns the slips that the readings of a sheet most probably show.
fn in_readings(class: &ClassReport, group: &GroupReport) -> Vec<FlagKey> {
    let lines = group.work.iter().flat_map(finding::lines);
    let likely =
        lines.filter(|line| !line.is_apparatus() && class.class_set.is_for_bench(line.share));
    likely.map(|line| line.key).collect()
}
