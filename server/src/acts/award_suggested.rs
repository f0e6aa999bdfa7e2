//! All that is suggested on a page is awarded.

use super::award::{ToWrite, write};
use super::{Act, Doing, NotDone, Staff, refuse_if};
use crate::db::Error;
use crate::ids::{ClassSetId, SheetId};
use crate::report::desk::{Desk, first};

/// Awards every suggestion of a sheet or of a point where there is no mark, so
/// that they are undone together.
#[derive(Clone, Debug)]
pub struct AwardSuggested {
    pub class_set: ClassSetId,
    pub places: Places,
    /// What the page was made from, as `Desk::seen` tells it.
    pub seen: String,
}

/// The points of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Places {
    Sheet(SheetId),
    /// The one with this key, on all sheets.
    Point(i64),
}

/// Somebody marked one of the points, stored one of the sheets or chose
/// another version since the page was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAsSeen;

impl Places {
    fn on(self, desk: &Desk) -> Result<Vec<(usize, usize)>, Error> {
        let sheets = 0..desk.sheets.len();
        Ok(match self {
            Self::Sheet(id) => {
                let mut sheets = desk.sheets.iter();
                let sheet = sheets.position(|one| one.sheet_id == id);
                let sheet = sheet.ok_or(Error::NoSuch)?;
                (0..desk.points.len()).map(|point| (sheet, point)).collect()
            }
            Self::Point(key) => {
                let point = desk.point(key).ok_or(Error::NoSuch)?;
                sheets.map(|sheet| (sheet, point)).collect()
            }
        })
    }
}

impl Act<Staff> for AwardSuggested {
    type Done = ();
    type Stop = NotDone<NotAsSeen>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let only = match self.places {
            Places::Sheet(id) => Some(id),
            Places::Point(_) => None,
        };
        let desk = first::load(doing.db, self.class_set, only).await?;
        let places = self.places.on(&desk)?;
        refuse_if(desk.seen(places.iter().copied()) != self.seen, NotAsSeen)?;
        let marks = places.into_iter().filter_map(|(sheet, point)| {
            let standing = desk.standing(sheet, point);
            let suggestion = standing.suggestion.as_ref()?;
            standing.awarded().is_none().then(|| ToWrite {
                sheet,
                point,
                marks: Some(i64::from(suggestion.marks)),
                reason: String::new(),
                settlement_id: None,
            })
        });
        let marks = marks.collect();
        Ok(write(doing, by, &desk, marks).await?)
    }
}
