//! Readings are taken in from a file.

use super::event::TakenIn;
use super::{Act, Doing, Event, NotDone, Staff, refuse_if};
use crate::db::bench::Bench;
use crate::db::revision::{self, Entry, Kind, Writer};
use crate::db::{Connection, Error, bench, class_set, sheet};
use crate::ids::{ClassSetId, SheetId};

/// Longest label of a bench, in characters.
const LONGEST_LABEL: usize = 8;
/// Most groups of one class set, those that a file adds among them.
const MOST_GROUPS: usize = 40;

/// Stores the work of all these groups as handed in, or of none of them. Work
/// that is stored already is not stored again, so the same page sent twice is
/// one act.
#[derive(Debug)]
pub struct TakeInReadings {
    /// Into which class set.
    pub class_set: ClassSetId,
    /// Of which groups, each once.
    pub groups: Vec<GroupWork>,
}

#[derive(Clone, Debug)]
pub struct GroupWork {
    /// The label of its bench.
    pub label: String,
    /// What the file says.
    pub entry: Entry,
    /// The version of the sheet that was on the screen, 0 where nothing was
    /// stored; `None` where there was no such bench, and one is to be added.
    pub base: Option<i64>,
}

/// The labels of groups that stored something else since the page was opened,
/// that began a bench, or that have no place any more. Nothing was stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadingsMet(pub Vec<String>);

/// Why a bench cannot be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoBench {
    /// Labels stand in addresses, so they are letters and figures alone, and
    /// few of them.
    Label,
    /// The class set has as many groups as it may have.
    Full,
}

/// Checks whether a bench of this label can be added to a class set that has
/// so many.
#[must_use]
pub fn why_no_bench(label: &str, benches: usize) -> Option<NoBench> {
    if label.chars().count() > LONGEST_LABEL || !label.chars().all(char::is_alphanumeric) {
        return Some(NoBench::Label);
    }
    (benches >= MOST_GROUPS).then_some(NoBench::Full)
}

/// Where the work of a group goes.
enum RowPlace {
    /// It is there already.
    Nowhere,
    /// To its sheet, after this version.
    After(SheetId, i64),
    /// To a bench that is to be added.
    NewBench,
}

impl Act<Staff> for TakeInReadings {
    type Done = ();
    type Stop = NotDone<ReadingsMet>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let id = self.class_set;
        class_set::get(doing.db, id).await?;
        let mut benches = bench::list(doing.db, id).await?;
        let (mut places, mut met) = (Vec::new(), Vec::new());
        let mut count = benches.len();
        for group in self.groups {
            let at = benches.iter().position(|bench| bench.label == group.label);
            let bench = at.map(|at| benches.swap_remove(at));
            match place(doing.db, &group, bench, &mut count).await? {
                Some(place) => places.push((group, place)),
                None => met.push(group.label),
            }
        }
        refuse_if(!met.is_empty(), ReadingsMet(met))?;
        let mut taken_in = Vec::new();
        for (group, place) in places {
            taken_in.extend(store(by, doing, id, &group, place).await?);
        }
        if !taken_in.is_empty() {
            let event = Event::ReadingsImported(id, taken_in);
            doing.record(by, &event).await?;
        }
        Ok(())
    }
}

/// Finds where a group's work goes. Returns `None` when something else came in
/// between. `benches` counts those that will be.
async fn place(
    db: &mut Connection,
    group: &GroupWork,
    bench: Option<Bench>,
    benches: &mut usize,
) -> Result<Option<RowPlace>, Error> {
    let Some(bench) = bench else {
        if why_no_bench(&group.label, *benches).is_some() {
            return Ok(None);
        }
        *benches += 1;
        return Ok(Some(RowPlace::NewBench));
    };
    let latest = revision::find_latest(db, bench.sheet_id).await?;
    if latest.is_some_and(|latest| latest.entry == group.entry) {
        return Ok(Some(RowPlace::Nowhere));
    }
    let is_as_seen = group.base == Some(bench.version);
    Ok(is_as_seen.then_some(RowPlace::After(bench.sheet_id, bench.version)))
}

/// Stores a group's work in its place. Returns what the event keeps of it, and
/// `None` where it was there already.
async fn store(
    by: Staff,
    doing: &mut Doing<'_>,
    class_set: ClassSetId,
    group: &GroupWork,
    place: RowPlace,
) -> Result<Option<TakenIn>, Error> {
    let label = &group.label;
    let (sheet, version, became) = match place {
        RowPlace::Nowhere => return Ok(None),
        RowPlace::After(sheet, version) => (sheet, version, Some(version + 1)),
        RowPlace::NewBench => {
            bench::insert(doing.db, class_set, label).await?;
            let added = bench::find(doing.db, class_set, label).await?;
            let added = added.ok_or(Error::Missing)?;
            (added.sheet_id, added.version, None)
        }
    };
    let (kind, entry, writer) = (Kind::HandedIn, &group.entry, Writer::Staff(by.id));
    revision::insert(doing.db, sheet, version + 1, kind, entry, writer, doing.at).await?;
    sheet::tie_kit(doing.db, sheet, &entry.kit).await?;
    Ok(Some((label.clone(), became)))
}
