//! How many groups made each slip: by class, by month, and what changed.

use serde::{Deserialize, Serialize};

use super::share::{Change, Share};
use super::{Made, Year, YearSheet};
use crate::cause::Cause;
use crate::method::Method;
use crate::slip::{Kind, Slip};

/// Months of a school year.
pub const MONTHS: usize = 12;

/// One slip over a year.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SlipYear {
    /// Which.
    pub slip: Made,
    /// Groups that made it, of those that could have.
    pub whole: Share,
    /// The same by class.
    pub by_class: Vec<Share>,
    /// The same by month, September first.
    pub by_month: Vec<Share>,
}

impl SlipYear {
    /// The share in some months.
    #[must_use]
    pub fn in_months(&self, months: std::ops::Range<usize>) -> Share {
        let months = self.by_month.get(months).unwrap_or_default();
        months.iter().copied().fold(Share::default(), Share::and)
    }
}

/// Counts every slip that a group could have made, commonest first.
#[must_use]
pub fn count(year: &Year) -> Vec<SlipYear> {
    let shown = Slip::ALL.into_iter().filter(|s| s.kind() == Kind::Slip);
    let inferred = Cause::ALL.into_iter().filter(|c| c.kind() == Kind::Slip);
    let all = shown.map(Made::Shown).chain(inferred.map(Made::Confirmed));
    let mut slips: Vec<_> = all.map(|slip| of(year, slip)).collect();
    slips.retain(|slip| slip.whole.of > 0);
    slips.sort_by_key(|slip| std::cmp::Reverse(slip.whole.made));
    slips
}

/// Counts one slip.
#[must_use]
pub fn of(year: &Year, slip: Made) -> SlipYear {
    let mut counted = SlipYear {
        slip,
        whole: Share::default(),
        by_class: vec![Share::default(); year.classes],
        by_month: vec![Share::default(); MONTHS],
    };
    for (sheet, did) in Makers::of(slip).sheets(year) {
        let lesson = year.lesson(sheet);
        counted.whole.add(did);
        counted.by_class[lesson.class].add(did);
        counted.by_month[lesson.month].add(did);
    }
    counted
}

/// Who could have made a slip: groups whose method has that turn, and for a
/// slip in the working those that gave any.
struct Makers {
    slip: Made,
    methods: Vec<Method>,
}

impl Makers {
    fn of(slip: Made) -> Self {
        let can = |method: &Method| match slip {
            Made::Shown(slip) => method.can_show(slip),
            Made::Confirmed(cause) => method.can_suffer(cause),
        };
        Self {
            slip,
            methods: Method::ALL.into_iter().filter(can).collect(),
        }
    }

    /// The sheets of those groups, with whether they made it.
    fn sheets<'y>(&self, year: &'y Year) -> impl Iterator<Item = (&'y YearSheet, bool)> {
        let is_shown = matches!(self.slip, Made::Shown(_));
        let could = move |sheet: &&YearSheet| {
            let method = year.lesson(sheet).method;
            self.methods.contains(&method) && (sheet.judgement.has_working || !is_shown)
        };
        let sheets = year.sheets.iter().filter(could);
        sheets.map(|sheet| (sheet, sheet.made.contains(&self.slip)))
    }
}

/// What changed between each class's first practical in which the slip could
/// be made and its later ones; `None` for a class that has only one.
///
/// The groups of the two are taken as if they were other groups: the letters
/// A, B, C of two lessons need not be the same pupils.
#[must_use]
pub fn since_first(year: &Year, slip: Made) -> Vec<Option<Change>> {
    let makers = Makers::of(slip);
    let mut first: Vec<Option<usize>> = vec![None; year.classes];
    for (sheet, _) in makers.sheets(year) {
        let of_class = &mut first[year.lesson(sheet).class];
        *of_class = Some(of_class.map_or(sheet.lesson, |first| first.min(sheet.lesson)));
    }
    let mut changes = vec![Change::default(); year.classes];
    for (sheet, did) in makers.sheets(year) {
        let class = year.lesson(sheet).class;
        let change = &mut changes[class];
        let when = if first[class] == Some(sheet.lesson) {
            &mut change.before
        } else {
            &mut change.after
        };
        when.add(did);
    }
    let has_both = |change: &Change| change.before.of > 0 && change.after.of > 0;
    changes
        .into_iter()
        .map(|change| Some(change).filter(has_both))
        .collect()
}

/// What changed between the lessons before number `from` (counted by date,
/// from 0) and those from it on.
#[must_use]
pub fn since_lesson(year: &Year, slip: Made, from: usize) -> Change {
    let mut change = Change::default();
    for (sheet, did) in Makers::of(slip).sheets(year) {
        let when = if sheet.lesson < from {
            &mut change.before
        } else {
            &mut change.after
        };
        when.add(did);
    }
    change
}
