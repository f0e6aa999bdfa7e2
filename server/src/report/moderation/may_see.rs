//! Who may see what of a round whose marks are shown. Pages ask, and the acts
//! that change what stands on them.

use super::line::{About, ComparisonLine};
use super::pairs::Pair;
use super::settling::{self, Settling};
use super::standard::{self, Standard};
use crate::db::round::{self, Round, Step};
use crate::db::{Connection, Error, round_sheet};
use crate::ids::{ClassSetId, StaffId};

/// Why somebody sees nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hidden {
    /// These marks are not shown yet.
    NotShown,
    /// They marked none of it, and are no head of department.
    NotTheirs,
    /// They have to mark some of it blind, in another round.
    Blind,
}

/// Who reads what compares people.
#[derive(Clone, Copy, Debug)]
pub struct Reader {
    pub id: StaffId,
    /// Whether they are a head of department.
    pub is_head: bool,
}

impl Reader {
    /// Says whether they may see a line of a comparison. Of the lines about
    /// people, only a head sees others' than their own.
    #[must_use]
    pub fn may_see(self, line: &ComparisonLine<'_>) -> bool {
        match line.about {
            About::Marker(of, _) => self.is_head || self.id.0 == of.person,
            About::Whole | About::Point(_) => true,
        }
    }

    /// Says whether they may see which sheet it is, since that tells who
    /// marked it.
    #[must_use]
    pub fn may_name(self, pair: &Pair) -> bool {
        self.is_head || pair.is_by(self.id)
    }
}

/// Loads the standard of a round for one of its markers, or a head of
/// department.
pub async fn standard(
    db: &mut Connection,
    round: &Round,
    reader: StaffId,
    is_head: bool,
) -> Result<Result<Standard, Hidden>, Error> {
    let steps = round::list_steps(db, round.id).await?;
    if !steps.iter().any(|taken| taken.step == Step::StandardShown) {
        return Ok(Err(Hidden::NotShown));
    }
    let standard = standard::load(db, round).await?;
    if !is_head && !standard.markers.iter().any(|m| m.id == reader) {
        return Ok(Err(Hidden::NotTheirs));
    }
    // An anchor may be marked blind once more, in a later round.
    let closed = round_sheet::list_closed(db, reader).await?;
    let mut anchors = standard.anchors.iter();
    if anchors.any(|anchor| closed.has_sheet(anchor.sheet_id)) {
        return Ok(Err(Hidden::Blind));
    }
    Ok(Ok(standard))
}

/// Loads what there is to settle in a round: all of it for a head of
/// department, for others the sheets that they marked.
pub async fn settling(
    db: &mut Connection,
    round: &Round,
    reader: StaffId,
    is_head: bool,
) -> Result<Result<Settling, Hidden>, Error> {
    if !matches!(round.step, Some(Step::Shown | Step::Closed)) {
        return Ok(Err(Hidden::NotShown));
    }
    let mut settling = settling::load(db, round).await?;
    // A sheet may be marked blind once more, in another round.
    let closed = round_sheet::list_closed(db, reader).await?;
    let is_closed = |id| closed.class_set(id).is_some();
    let all = settling.sheets.len();
    settling
        .sheets
        .retain(|sheet| !is_closed(sheet.pair.sheet.class_set_id));
    let is_some_closed = settling.sheets.len() < all;
    if !is_head {
        settling.sheets.retain(|sheet| sheet.pair.is_by(reader));
    }
    let sheets = settling.sheets.iter();
    let of_classes: Vec<ClassSetId> = sheets.map(|one| one.pair.sheet.class_set_id).collect();
    settling.again.retain(|(one, _)| {
        let is_theirs = |id| !is_closed(id) && (is_head || of_classes.contains(&id));
        one.class_set_id.is_some_and(is_theirs)
    });
    if settling.sheets.is_empty() && is_some_closed {
        return Ok(Err(Hidden::Blind));
    }
    if settling.sheets.is_empty() && !is_head {
        return Ok(Err(Hidden::NotTheirs));
    }
    Ok(Ok(settling))
}

/// Says whether somebody has to mark a sheet of one of these class sets blind.
pub async fn is_blind(
    db: &mut Connection,
    reader: StaffId,
    class_sets: impl IntoIterator<Item = ClassSetId> + Send,
) -> Result<bool, Error> {
    let closed = round_sheet::list_closed(db, reader).await?;
    let mut class_sets = class_sets.into_iter();
    Ok(class_sets.any(|id| closed.class_set(id).is_some()))
}
