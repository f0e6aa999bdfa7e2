//! The teacher at the sheets on the evening of the lesson: slips confirmed or
//! dismissed, notes written.

use server::clock::MINUTE;
use server::db::annotation::{self, NewAnnotation};
use server::db::bench::Bench;
use server::db::decision::{self, NewDecision, Verdict};
use server::db::{Error, Writing};
use server::ids::ClassSetId;
use server::report::{self, finding, flag};

use crate::group::Word;
use crate::lesson::Held;

/// What the teacher does with one sheet that evening.
pub(crate) async fn look_at(
    db: &mut Writing,
    held: &Held,
    id: ClassSetId,
    bench: &Bench,
    words: &[Word],
) -> Result<(), Error> {
    let evening = held.starts + 370 * MINUTE;
    for word in words {
        match *word {
            Word::Confirmed => decide(db, held, id, bench, Verdict::Confirmed, "", evening).await?,
            Word::FoundAtTheBench => confirm_readings(db, held, id, bench, evening).await?,
            Word::Dismissed(reason) => {
                decide(db, held, id, bench, Verdict::Dismissed, reason, evening).await?;
            }
            Word::Note(row, step, body) => {
                let new = NewAnnotation {
                    sheet_id: bench.sheet_id,
                    row_label: row.map(str::to_owned),
                    step: step.map(|field| field.name().to_owned()),
                    body: body.to_owned(),
                    for_group: false,
                    staff_id: held.marker.id,
                    written_at: evening,
                };
                annotation::insert(db, &new).await?;
            }
        }
    }
    Ok(())
}

/// The same decision on every slip that a sheet shows.
async fn decide(
    db: &mut Writing,
    held: &Held,
    id: ClassSetId,
    bench: &Bench,
    verdict: Verdict,
    reason: &str,
    decided_at: i64,
) -> Result<(), Error> {
    let Some(report) = report::sheet::load(db, id, &bench.label, None).await? else {
        return Ok(());
    };
    let Some(work) = report.work else {
        return Ok(());
    };
    let what = match verdict {
        Verdict::Confirmed => "slip_confirmed",
        Verdict::Dismissed => "slip_dismissed",
    };
    for line in flag::lines(&work, analysis::slip::Kind::Slip) {
        held.tell(db, decided_at, what, id, &line.key.slip).await?;
        let new = NewDecision {
            sheet_id: bench.sheet_id,
            revision_id: work.revision.id,
            flag: line.key,
            verdict,
            reason: reason.to_owned(),
            staff_id: held.marker.id,
            decided_at,
        };
        decision::insert(db, &new).await?;
    }
    Ok(())
}

/// Confirms the slips that the readings of a sheet most probably show.
async fn confirm_readings(
    db: &mut Writing,
    held: &Held,
    id: ClassSetId,
    bench: &Bench,
    decided_at: i64,
) -> Result<(), Error> {
    let class = report::class_set::load(db, id).await?;
    let mut groups = class.groups.iter();
    let group = groups.find(|group| group.bench.id == bench.id);
    let Some(work) = group.and_then(|group| group.work.as_ref()) else {
        return Ok(());
    };
    let likely = finding::lines(work).into_iter();
    let likely =
        likely.filter(|line| !line.is_apparatus() && class.class_set.is_for_bench(line.share));
    for line in likely {
        held.tell(db, decided_at, "slip_confirmed", id, &line.key.slip)
            .await?;
        let new = NewDecision {
            sheet_id: bench.sheet_id,
            revision_id: work.revision.id,
            flag: line.key,
            verdict: Verdict::Confirmed,
            reason: "They counted again and found it.".to_owned(),
            staff_id: held.marker.id,
            decided_at,
        };
        decision::insert(db, &new).await?;
    }
    Ok(())
}
