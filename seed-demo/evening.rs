//! The teacher at the sheets on the evening of the lesson: slips confirmed or
//! dismissed, notes written.

use server::acts::{AddNote, DecideSlip, Doing};
use server::clock::MINUTE;
use server::db::Error;
use server::db::bench::Bench;
use server::db::decision::{FlagKey, Verdict};
use server::ids::{ClassSetId, RevisionId};
use server::report::{self, finding, flag};

use crate::department::done;
use crate::group::Word;
use crate::lesson::Held;

/// What the teacher does with one sheet that evening.
pub(crate) async fn look_at(
    doing: &mut Doing<'_>,
    held: &Held,
    class_set: ClassSetId,
    bench: &Bench,
    words: &[Word],
) -> Result<(), Error> {
    let by = held.marker.staff();
    let evening = held.starts + 370 * MINUTE;
    for word in words {
        let (found, verdict, reason) = match *word {
            Word::Confirmed => (
                in_working(doing, class_set, bench).await?,
                Verdict::Confirmed,
                "",
            ),
            Word::FoundAtTheBench => (
                in_readings(doing, class_set, bench).await?,
                Verdict::Confirmed,
                "They counted again and found it.",
            ),
            Word::Dismissed(reason) => (
                in_working(doing, class_set, bench).await?,
                Verdict::Dismissed,
                reason,
            ),
            Word::Note(row, step, body) => {
                let note = AddNote {
                    class_set,
                    label: bench.label.clone(),
                    row: row.map(str::to_owned),
                    step: step.map(|field| field.name().to_owned()),
                    body: body.to_owned(),
                    for_group: false,
                };
                done(doing.perform(evening, by, note).await?)?;
                continue;
            }
        };
        for (revision, flag) in found {
            let decide = DecideSlip {
                class_set,
                label: bench.label.clone(),
                revision,
                flag,
                verdict,
                reason: reason.to_owned(),
            };
            done(doing.perform(evening, by, decide).await?)?;
        }
    }
    Ok(())
}

/// Every slip that a sheet shows.
async fn in_working(
    doing: &mut Doing<'_>,
    id: ClassSetId,
    bench: &Bench,
) -> Result<Vec<(RevisionId, FlagKey)>, Error> {
    let report = report::sheet::load(doing.read(), id, &bench.label, None).await?;
    let Some(work) = report.and_then(|report| report.work) else {
        return Ok(Vec::new());
    };
    let lines = flag::lines(&work, analysis::slip::Kind::Slip).into_iter();
    Ok(lines.map(|line| (work.revision.id, line.key)).collect())
}

/// The slips that the readings of a sheet most probably show.
async fn in_readings(
    doing: &mut Doing<'_>,
    id: ClassSetId,
    bench: &Bench,
) -> Result<Vec<(RevisionId, FlagKey)>, Error> {
    let class = report::class_set::load(doing.read(), id).await?;
    let mut groups = class.groups.iter();
    let group = groups.find(|group| group.bench.id == bench.id);
    let Some(work) = group.and_then(|group| group.work.as_ref()) else {
        return Ok(Vec::new());
    };
    let lines = finding::lines(work).into_iter();
    let likely =
        lines.filter(|line| !line.is_apparatus() && class.class_set.is_for_bench(line.share));
    Ok(likely.map(|line| (work.revision.id, line.key)).collect())
}
