//! A desk: the points of a scheme beside sheets, as whoever marks there sees
//! them. First and second marks are given on the same one; whose it is says
//! what may be seen.

pub mod first;
pub mod second;

use analysis::scheme::{Point, Suggestion, suggest};

use super::Work;
use crate::db::bench::Bench;
use crate::db::class_set::ClassSet;
use crate::db::round_sheet::RoundSheet;
use crate::db::ruling::Ruling;
use crate::db::scheme::{MarkingPoint, Version};
use crate::ids::{MarkId, RevisionId, SettlementId, SheetId};

/// Longest reason of a mark, in characters.
const LONGEST_REASON: usize = 1000;

/// Who marks here.
#[derive(Clone, Debug)]
pub enum Whose {
    /// The first markers of a class set. Each sees the marks of all, and what
    /// people decided on slips counts.
    First,
    /// The second marker of a sheet of a round. They see their own marks alone
    /// and the sheet as it was when it was taken into the round; nothing here
    /// is read from first marks, decisions on slips or notes, so it is the
    /// same whoever marked it first and however.
    Second(Box<RoundSheet>),
}

/// Sheets of a class set with their marks.
#[derive(Debug)]
pub struct Desk {
    pub whose: Whose,
    pub class_set: ClassSet,
    /// The version that they are marked with, or would be if somebody began.
    pub version: Version,
    /// Its points, in order.
    pub points: Vec<MarkingPoint>,
    /// What was ruled on its points in moderation rounds.
    pub rulings: Vec<Ruling>,
    /// The sheets, by label.
    pub sheets: Vec<OnDesk>,
}

/// A sheet on a desk.
#[derive(Debug)]
pub struct OnDesk {
    pub sheet_id: SheetId,
    /// Label of its group.
    pub label: String,
    /// Its bench, with how far it has come; `None` for a second marker.
    pub bench: Option<Bench>,
    /// What the group stored, judged; `None`: nothing, only paper.
    pub work: Option<Work>,
    pub marks: MarkedSheet,
}

#[derive(Clone, Debug)]
pub struct MarkedSheet {
    /// How each point stands, in the order of the scheme.
    pub points: Vec<PointStanding>,
}

/// How one point of one sheet stands.
#[derive(Clone, Debug)]
pub struct PointStanding {
    /// What the working suggests; `None` where the point is judged by eye, or
    /// nothing is stored.
    pub suggestion: Option<Suggestion>,
    /// The mark that stands; `None` where there is none, or it was taken back.
    pub mark: Option<Mark>,
    /// The newest word on the point, taken back or not: what a page was made
    /// from, so that first markers notice each other.
    pub newest: Option<MarkId>,
    /// Whether the sheet was stored again since that mark was given.
    pub is_on_earlier_revision: bool,
    /// Whether the point has changed in the scheme since then.
    pub is_of_earlier_version: bool,
}

/// A mark, a first or a second one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// How many.
    pub awarded: i64,
    /// Why, as it was typed; blank where nothing was said.
    pub reason: String,
    /// Why, in words.
    pub why: String,
    /// The settlement whose word it is; `None`: the marker's own.
    pub settlement_id: Option<SettlementId>,
    /// Name of who gave it.
    pub by: String,
    /// Unix ms.
    pub marked_at: i64,
    /// The revision that it was given on.
    pub revision_id: Option<RevisionId>,
    /// What was suggested at that moment; `None`: nothing, or it is a second
    /// mark.
    pub suggested: Option<i64>,
}

/// Why a mark cannot be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// The point does not have so many.
    NoSuchMarks,
    /// The reason is longer than 1000 characters.
    LongReason,
    /// It goes against what the group's own figures show, and nobody says why.
    NoReason,
}

impl Desk {
    /// Finds a sheet by the label of its group.
    #[must_use]
    pub fn sheet(&self, label: &str) -> Option<usize> {
        self.sheets.iter().position(|sheet| sheet.label == label)
    }

    /// Finds a point by its key.
    #[must_use]
    pub fn point(&self, key: i64) -> Option<usize> {
        self.points.iter().position(|point| point.key == key)
    }

    /// Returns how a point of a sheet stands.
    #[must_use]
    pub fn standing(&self, sheet: usize, point: usize) -> &PointStanding {
        &self.sheets[sheet].marks.points[point]
    }

    /// Returns the marks that a sheet can have.
    #[must_use]
    pub fn most(&self) -> u32 {
        self.points.iter().map(|point| point.point.marks).sum()
    }

    /// Says whether anybody has marked any point, taken back or not.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        let mut points = self.sheets.iter().flat_map(|sheet| &sheet.marks.points);
        points.any(|point| point.newest.is_some())
    }

    /// Returns on how many sheets every point has a mark.
    #[must_use]
    pub fn complete(&self) -> usize {
        let complete = self.sheets.iter().filter(|one| one.marks.is_complete());
        complete.count()
    }

    /// Returns how many points of all sheets have a mark.
    #[must_use]
    pub fn marked(&self) -> usize {
        self.sheets.iter().map(|sheet| sheet.marks.marked()).sum()
    }

    /// Returns on how many sheets a point has a mark.
    #[must_use]
    pub fn marked_on(&self, point: usize) -> usize {
        let sheets = self.sheets.iter();
        let awarded = sheets.filter_map(|one| one.marks.points[point].awarded());
        awarded.count()
    }

    /// Returns the point to go on to: the next one of the sheet without a
    /// mark, after this one first. It is this one where there is no other.
    #[must_use]
    pub fn next_point(&self, sheet: usize, point: usize) -> usize {
        let points = &self.sheets[sheet].marks.points;
        next_open(point, points.iter())
    }

    /// Returns the sheet to go on to, in the same way across sheets.
    #[must_use]
    pub fn next_sheet(&self, sheet: usize, point: usize) -> usize {
        next_open(
            sheet,
            self.sheets.iter().map(|one| &one.marks.points[point]),
        )
    }

    /// Tells what a page of these points was made from: the version, the
    /// newest revision and the newest mark. Each only ever grows.
    #[must_use]
    pub fn seen(&self, places: impl Iterator<Item = (usize, usize)>) -> String {
        let newest = places.map(|(sheet, point)| {
            let revision = self.sheets[sheet].revision_id().map_or(0, |id| id.0);
            let mark = self.standing(sheet, point).newest.map_or(0, |id| id.0);
            (revision, mark)
        });
        let (revision, mark) = newest.fold((0, 0), |(a, b), (c, d)| (a.max(c), b.max(d)));
        format!("{}-{revision}-{mark}", self.version.id)
    }

    /// Checks that a mark may be given on a point of a sheet; `None` takes one
    /// back.
    ///
    /// # Errors
    /// Why it may not.
    pub fn check(
        &self,
        (sheet, point): (usize, usize),
        marks: Option<i64>,
        reason: &str,
    ) -> Result<(), Unfit> {
        let most = i64::from(self.points[point].point.marks);
        if marks.is_some_and(|marks| !(0..=most).contains(&marks)) {
            return Err(Unfit::NoSuchMarks);
        }
        if reason.chars().count() > LONGEST_REASON {
            return Err(Unfit::LongReason);
        }
        let is_against = marks.is_some_and(|m| self.standing(sheet, point).is_against(m));
        if matches!(self.whose, Whose::First) && is_against && reason.is_empty() {
            return Err(Unfit::NoReason);
        }
        Ok(())
    }
}

/// Finds the next without a mark, after this place first.
fn next_open<'a>(at: usize, standings: impl Iterator<Item = &'a PointStanding>) -> usize {
    let open = standings.enumerate();
    let open = open.filter(|(other, point)| *other != at && point.awarded().is_none());
    let open: Vec<usize> = open.map(|(other, _)| other).collect();
    let after = open.iter().find(|other| **other > at);
    after.or(open.first()).copied().unwrap_or(at)
}

impl OnDesk {
    /// Returns the revision that is marked; `None`: nothing is stored.
    #[must_use]
    pub fn revision_id(&self) -> Option<RevisionId> {
        self.work.as_ref().map(|work| work.revision.id)
    }
}

impl MarkedSheet {
    /// Returns the marks so far.
    #[must_use]
    pub fn total(&self) -> i64 {
        self.points.iter().filter_map(PointStanding::awarded).sum()
    }

    /// Returns how many points have a mark.
    #[must_use]
    pub fn marked(&self) -> usize {
        let marks = self.points.iter().filter_map(PointStanding::awarded);
        marks.count()
    }

    /// Returns how many marks were made on something that has changed since.
    #[must_use]
    pub fn earlier(&self) -> usize {
        self.points
            .iter()
            .filter(|point| point.is_earlier())
            .count()
    }

    /// Returns how many points have a suggestion and no mark.
    #[must_use]
    pub fn waiting(&self) -> usize {
        let points = self.points.iter();
        points.filter(|point| point.is_waiting()).count()
    }

    /// Says whether every point has a mark.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.marked() == self.points.len()
    }
}

impl PointStanding {
    /// Returns the marks awarded, if any are.
    #[must_use]
    pub fn awarded(&self) -> Option<i64> {
        Some(self.mark.as_ref()?.awarded)
    }

    /// Says whether it has a suggestion and no mark.
    #[must_use]
    pub fn is_waiting(&self) -> bool {
        self.suggestion.is_some() && self.mark.is_none()
    }

    /// Says whether its mark was made on something that has changed since: the
    /// marker decides whether it still holds.
    #[must_use]
    pub fn is_earlier(&self) -> bool {
        self.is_on_earlier_revision || self.is_of_earlier_version
    }

    /// Says whether this many marks go against what the group's own figures
    /// show.
    #[must_use]
    pub fn is_against(&self, marks: i64) -> bool {
        let suggestion = self.suggestion.as_ref();
        suggestion.is_some_and(|s| s.is_shown && i64::from(s.marks) != marks)
    }
}

/// Suggests marks for each point, from the work with what people dismissed in
/// it taken out. A second marker's has no decisions in it.
#[must_use]
pub fn suggestions(points: &[MarkingPoint], work: Option<&Work>) -> Vec<Option<Suggestion>> {
    let asked: Vec<&Point> = points.iter().map(|point| &point.point).collect();
    match work {
        Some(work) => suggest(&asked, &work.sheet, &work.upheld()),
        None => vec![None; asked.len()],
    }
}
