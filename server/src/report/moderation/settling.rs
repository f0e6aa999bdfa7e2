//! Where first and second marks differ, and what was decided about each
//! difference.

use std::collections::{BTreeSet, HashMap};

use analysis::moderation::settling::{MarkedTwice, Open, Tolerance, Word, open};

use super::each_once;
use super::pairs::{self, Pair, PairPoint, each_point};
use crate::db::mark::Mark;
use crate::db::round::Round;
use crate::db::scheme::MarkingPoint;
use crate::db::settlement::{self, About, Kind, Settlement, ToMarkAgain};
use crate::db::{Connection, Error};
use crate::ids::{ClassSetId, MarkId, SettlementId, SheetId, StaffId};

/// The sample of a round with what was decided about it.
#[derive(Debug)]
pub struct Settling {
    /// Its points, each once, in the order of the scheme.
    pub points: Vec<MarkingPoint>,
    /// The sheets, in the order in which they were marked.
    pub sheets: Vec<SettlingSheet>,
    /// What is marked again for whole classes, with how far that has come.
    pub again: Vec<(Settlement, ToMarkAgain)>,
    /// Everything that was decided, oldest first, what was decided anew
    /// included.
    pub settlements: Vec<Settlement>,
}

/// One sheet of the sample.
#[derive(Debug)]
pub struct SettlingSheet {
    /// Both marks of each point.
    pub pair: Pair,
    /// How each point stands.
    pub points: Vec<SettlingPoint>,
    /// That all its first marks stand, if it was said.
    pub whole: Option<Settlement>,
    /// What is still open.
    pub open: Open,
}

#[derive(Clone, Debug)]
pub struct SettlingPoint {
    /// Both marks and what was decided.
    pub twice: MarkedTwice,
    /// The decision on this very point of this sheet.
    pub settlement: Option<Settlement>,
    /// The newest mark of all, taken back or not.
    pub now: Option<Mark>,
}

impl SettlingPoint {
    /// Says whether it is marked again for the whole class, and nothing was
    /// decided on this sheet alone.
    #[must_use]
    pub fn is_again(&self) -> bool {
        self.twice.word == Some(Word::MarkedAgain)
    }

    /// Returns the mark that stands now, if one does.
    #[must_use]
    pub fn awarded(&self) -> Option<i64> {
        self.now.as_ref()?.awarded
    }

    /// Says whether another mark stands than the first one or the agreed one:
    /// somebody has marked the point since.
    #[must_use]
    pub fn has_moved(&self) -> bool {
        self.awarded() != self.twice.settled()
    }
}

impl SettlingSheet {
    /// Returns each of its points, as it is marked and as it stands.
    pub fn each(&self) -> impl Iterator<Item = (&PairPoint, &SettlingPoint)> {
        self.pair.points.iter().zip(&self.points)
    }

    /// Says whether both have marked every point.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.pair.difference().is_some()
    }

    /// Names of those who gave its first marks, in the order of the points.
    #[must_use]
    pub fn first_markers(&self) -> Vec<&str> {
        each_once(self.pair.first_marks().map(|mark| mark.by.as_str()))
    }

    /// Says whether its marks differ by more than the tolerance anywhere,
    /// settled or not.
    #[must_use]
    pub fn is_beyond(&self, tolerance: Tolerance) -> bool {
        let bare = self.points.iter().map(|point| MarkedTwice {
            word: None,
            ..point.twice
        });
        !open(&bare.collect::<Vec<_>>(), false, tolerance).is_settled()
    }

    /// Returns the newest mark on any of its points, taken back or not.
    #[must_use]
    pub fn newest_mark(&self) -> Option<MarkId> {
        let marks = self.points.iter().filter_map(|point| point.now.as_ref());
        marks.map(|mark| mark.id).max()
    }

    /// Returns all marks that stand now. Returns `None` when a point has none.
    #[must_use]
    pub fn standing_total(&self) -> Option<i64> {
        self.points.iter().map(SettlingPoint::awarded).sum()
    }
}

impl Settling {
    /// Sheets on which something is open.
    #[must_use]
    pub fn count_open(&self) -> usize {
        self.sheets
            .iter()
            .filter(|sheet| !sheet.open.is_settled())
            .count()
    }

    /// Says whether something that is to be marked again is not yet.
    #[must_use]
    pub fn is_again_pending(&self) -> bool {
        self.again.iter().any(|(_, to_mark)| to_mark.is_pending())
    }

    /// Sheets that lack a first or a second mark on some point.
    #[must_use]
    pub fn count_unfinished(&self) -> usize {
        self.sheets
            .iter()
            .filter(|sheet| !sheet.is_complete())
            .count()
    }
}

impl ToMarkAgain {
    /// Says whether some of it is still to be marked again.
    #[must_use]
    pub fn is_pending(&self) -> bool {
        self.again.done < self.again.of
    }

    /// Returns which point it is as forms send it.
    #[must_use]
    pub fn sent(&self) -> String {
        let point = self.point_key.map(|key| key.to_string());
        point.unwrap_or_else(|| "all".to_owned())
    }

    /// Returns where it is marked.
    #[must_use]
    pub fn href(&self) -> String {
        let marking = format!("/class-sets/{}/marking", self.class_set_id);
        match self.point_key {
            Some(key) => format!("{marking}/points/{key}"),
            None => marking,
        }
    }
}

/// Returns the newest word on what is to be settled: on a point of a sheet or
/// on that whole sheet; without a point, on anything of the sheet. For a
/// class, on that very point or on all of them.
#[must_use]
pub fn newest(settlements: &[Settlement], about: About, point: Option<i64>) -> Option<&Settlement> {
    let is_on = |one: &&Settlement| match about {
        About::Sheet(id) => {
            one.round_sheet_id == Some(id)
                && (point.is_none() || one.point_key.is_none() || one.point_key == point)
        }
        About::Class(id) => one.class_set_id == Some(id) && one.point_key == point,
    };
    settlements.iter().rev().find(is_on)
}

/// Says how far two marks may be apart in a round.
#[must_use]
pub fn tolerance(round: &Round) -> Tolerance {
    Tolerance {
        total: round.tolerance_total,
        point: round.tolerance_point,
    }
}

/// Loads what there is to settle in a round. For nobody before the second
/// marks are shown.
pub async fn load(db: &mut Connection, round: &Round) -> Result<Settling, Error> {
    let pairs = pairs::load(db, round).await?;
    let settlements = settlement::list(db, round.id).await?;
    let class_sets = pairs.iter().map(|pair| pair.sheet.class_set_id);
    let class_sets: BTreeSet<ClassSetId> = class_sets.collect();
    let class_sets = Vec::from_iter(class_sets);
    let mut standing = pairs::list_standing(db, &class_sets, round.scheme_id, None).await?;
    let again = settlement::list_again(db, round.id).await?.into_iter();
    let again = again.filter_map(|to_mark| {
        let mut settlements = settlements.iter();
        let said = settlements.find(|one| one.id == to_mark.settlement_id)?;
        Some((said.clone(), to_mark))
    });
    let mut again: Vec<(Settlement, ToMarkAgain)> = again.collect();
    again.sort_by_key(|(said, _)| said.id);
    let points = each_point(&pairs);
    let sheets = pairs
        .into_iter()
        .map(|pair| settling_sheet(pair, &settlements, &mut standing, tolerance(round)));
    Ok(Settling {
        sheets: sheets.collect(),
        points,
        again,
        settlements,
    })
}

fn settling_sheet(
    pair: Pair,
    settlements: &[Settlement],
    standing: &mut HashMap<(SheetId, i64), Mark>,
    tolerance: Tolerance,
) -> SettlingSheet {
    let sheet = &pair.sheet;
    let on_sheet = |key| {
        let mut newest = settlements.iter().rev();
        newest.find(|one| one.round_sheet_id == Some(sheet.id) && one.point_key == key)
    };
    let whole = on_sheet(None).cloned();
    let points = pair.points.iter().map(|point| {
        let key = point.asked.key;
        let settlement = on_sheet(Some(key)).cloned();
        let again = find_again(settlements, sheet.class_set_id, key);
        // The newer word counts.
        let settlement = settlement.filter(|one| again.is_none_or(|again| again < one.id));
        let decided = settlement.as_ref().map(|one| match one.agreed {
            Some(marks) => Word::Agreed(marks),
            None => Word::FirstStands,
        });
        let (first, second) = point.marks();
        SettlingPoint {
            twice: MarkedTwice {
                first,
                second,
                word: decided.or(again.map(|_| Word::MarkedAgain)),
            },
            settlement,
            now: standing.remove(&(sheet.sheet_id, key)),
        }
    });
    let points: Vec<SettlingPoint> = points.collect();
    let twice: Vec<MarkedTwice> = points.iter().map(|point| point.twice).collect();
    SettlingSheet {
        open: open(&twice, whole.is_some(), tolerance),
        pair,
        points,
        whole,
    }
}

/// Returns the decision that a point of a class is marked again, it or all of
/// them; the newer of two.
fn find_again(settlements: &[Settlement], class_set: ClassSetId, key: i64) -> Option<SettlementId> {
    let words = [Some(key), None].map(|key| newest(settlements, About::Class(class_set), key));
    let again = words.into_iter().flatten();
    again
        .filter(|one| one.kind == Kind::Again)
        .map(|one| one.id)
        .max()
}

/// Lists what somebody has still to mark again for the classes that they
/// teach, in any round.
pub async fn list_to_mark_again(
    db: &mut Connection,
    teacher: StaffId,
) -> Result<Vec<ToMarkAgain>, Error> {
    let mut asked = settlement::list_again_of_teacher(db, teacher).await?;
    asked.retain(ToMarkAgain::is_pending);
    Ok(asked)
}
