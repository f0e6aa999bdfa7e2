//! Sheets and points as the page of settling shows them.

use std::collections::HashMap;

use super::{CHOOSE, Form, Refused};
use crate::db::mark::Mark;
use crate::db::round::Round;
use crate::db::scheme::MarkingPoint;
use crate::db::second_mark::SecondMark;
use crate::db::settlement::{About, Kind, Settlement};
use crate::ids::{RoundSheetId, StaffId};
use crate::pages::moderation::called_in_round;
use crate::report::moderation::name;
use crate::report::moderation::ruling::RulingLine;
use crate::report::moderation::settling::{
    Settling, SettlingPoint, SettlingSheet, newest, tolerance,
};
use crate::report::number::{self, signed};

/// A sheet of the sample.
pub(super) struct SheetView {
    pub(super) id: RoundSheetId,
    pub(super) called: String,
    /// As draws call it: two classes may have one name and date.
    pub(super) name: String,
    /// Where its marking is.
    pub(super) href: String,
    pub(super) first_by: String,
    pub(super) second_by: String,
    pub(super) first: String,
    pub(super) second: String,
    /// Second less first, with its sign; blank where one is not complete.
    pub(super) apart: String,
    pub(super) is_beyond_total: bool,
    pub(super) is_open: bool,
    /// Whether either differs by more than the tolerance, settled or not.
    pub(super) is_beyond: bool,
    pub(super) is_complete: bool,
    /// What is left between the two, where that is more than the tolerance.
    pub(super) between: Option<i64>,
    /// All marks that stand now.
    pub(super) stands: String,
    /// The points that the two differ on.
    pub(super) points: Vec<PointView>,
    /// On how many points they agree.
    pub(super) same: usize,
    pub(super) whole: Option<Decision>,
    /// Whether the reader may settle it.
    pub(super) may_settle: bool,
    /// The newest word on the sheet and the newest mark on any of its points,
    /// when the page was made; 0: none.
    pub(super) seen: i64,
    pub(super) newest: i64,
    /// The reason in the form for the whole sheet, where it was refused.
    pub(super) reason: String,
    pub(super) wrong: Option<&'static str>,
}

/// A point that the two differ on.
pub(super) struct PointView {
    pub(super) key: i64,
    pub(super) number: i64,
    pub(super) title: String,
    pub(super) most: u32,
    pub(super) first: i64,
    pub(super) second: i64,
    pub(super) first_says: String,
    pub(super) second_says: String,
    pub(super) apart: i64,
    pub(super) is_open: bool,
    /// Whether it is marked again for the whole class.
    pub(super) is_again: bool,
    pub(super) ruling: Option<RulingLine>,
    pub(super) decision: Option<Decision>,
    /// A mark that was given since, in words.
    pub(super) moved: Option<String>,
    /// The newest mark and the newest word when the page was made; 0: none.
    pub(super) newest: i64,
    pub(super) seen: i64,
    /// Whether what is wrong is that no mark was chosen.
    pub(super) lacks_choice: bool,
    /// What is chosen in the form.
    pub(super) chosen: String,
    pub(super) reason: String,
    pub(super) wrong: Option<&'static str>,
}

impl SheetView {
    /// Whether there are points that the two differ on whose forms are folded
    /// away.
    pub(super) fn has_folded(&self) -> bool {
        self.points.iter().any(|point| !point.is_shown())
    }

    /// Whether one of its forms came back with what is wrong with it.
    pub(super) fn is_refused(&self) -> bool {
        self.wrong.is_some() || self.points.iter().any(|point| point.wrong.is_some())
    }
}

impl PointView {
    /// Whether its form is in sight: it has to be settled, or came back.
    pub(super) fn is_shown(&self) -> bool {
        self.is_open || self.wrong.is_some()
    }

    /// What stands beside one of the marks to choose.
    pub(super) fn says(&self, marks: &u32) -> &'static str {
        match i64::from(*marks) {
            marks if marks == self.first => "the first mark",
            marks if marks == self.second => "the second mark",
            _ => "",
        }
    }

    pub(super) fn is_chosen(&self, marks: &u32) -> bool {
        self.chosen == marks.to_string()
    }
}

/// What was decided.
pub(super) struct Decision {
    pub(super) what: String,
    pub(super) reason: String,
    pub(super) by: String,
    pub(super) when: String,
}

impl Decision {
    pub(super) fn of(settlement: &Settlement, when: &dyn Fn(i64) -> String) -> Self {
        let what = match (settlement.kind, settlement.agreed, settlement.point_key) {
            (Kind::Agreed, Some(marks), _) => format!("Agreed: {marks}"),
            (Kind::Agreed | Kind::FirstStands, _, Some(_)) => "The first mark stands".to_owned(),
            (Kind::Agreed | Kind::FirstStands, _, None) => {
                "All other first marks of the sheet stand".to_owned()
            }
            (Kind::Again, ..) => "Marked again".to_owned(),
            (Kind::NotAgain, ..) => "Not marked again after all".to_owned(),
        };
        Self {
            what,
            reason: settlement.reason.clone(),
            by: settlement.by.clone(),
            when: when(settlement.at),
        }
    }
}

/// What all sheets of a page have in common.
pub(super) struct Frame<'a> {
    pub(super) round: &'a Round,
    pub(super) rulings: &'a HashMap<i64, RulingLine>,
    pub(super) refused: Option<&'a Refused>,
    pub(super) when: &'a dyn Fn(i64) -> String,
    pub(super) reader: StaffId,
    pub(super) is_head: bool,
    pub(super) is_closed: bool,
}

impl Frame<'_> {
    pub(super) fn sheet(&self, settling: &Settling, sheet: &SettlingSheet) -> SheetView {
        let of_round = &sheet.pair.sheet;
        let seen = |point| {
            let word = newest(&settling.settlements, About::Sheet(of_round.id), point);
            word.map_or(0, |word| word.id.0)
        };
        let points = settling.points_of(sheet).iter().zip(&sheet.points);
        let points = points.enumerate().filter_map(|(at, (point, standing))| {
            let is_open = sheet.open.points.contains(&at);
            let marks = (
                sheet.pair.first[at].as_ref()?,
                sheet.pair.second[at].as_ref()?,
            );
            let seen = seen(Some(point.key));
            let point = self.point(of_round.id, point, standing, marks, is_open)?;
            Some(PointView { seen, ..point })
        });
        let points: Vec<PointView> = points.collect();
        let differing = points.iter().filter(|point| point.apart > 0).count();
        let refused = self.refused(&Form::Whole(of_round.id));
        let compared = sheet
            .points
            .iter()
            .filter(|p| p.twice.difference().is_some());
        let difference = sheet.pair.difference();
        SheetView {
            id: of_round.id,
            called: called_in_round(of_round),
            name: name(of_round.class_set_id, &of_round.label),
            href: format!(
                "/class-sets/{}/marking/sheets/{}",
                of_round.class_set_id, of_round.label
            ),
            first_by: sheet.first_markers().join(", "),
            second_by: of_round.marker.clone().unwrap_or_default(),
            first: number::marks(sheet.pair.first_total()),
            second: number::marks(sheet.pair.second_total()),
            apart: difference.map_or_else(String::new, |d| signed(d as f64, 0)),
            is_beyond_total: difference.is_some_and(|d| d.abs() > self.round.tolerance_total),
            is_open: !sheet.open.is_settled(),
            is_beyond: sheet.is_beyond(tolerance(self.round)),
            is_complete: sheet.is_complete(),
            between: sheet.open.between.map(i64::abs),
            stands: number::marks(sheet.standing_total()),
            same: compared.count() - differing,
            points,
            seen: seen(None),
            newest: sheet.newest_mark().map_or(0, |id| id.0),
            whole: sheet.whole.as_ref().map(|one| Decision::of(one, self.when)),
            may_settle: !self.is_closed && (self.is_head || sheet.pair.is_by(self.reader)),
            reason: refused.map(|r| r.reason.clone()).unwrap_or_default(),
            wrong: refused.map(|r| r.sentence),
        }
    }

    /// `None` where the two agree, and nobody has marked the point since.
    fn point(
        &self,
        sheet: RoundSheetId,
        point: &MarkingPoint,
        standing: &SettlingPoint,
        (first_mark, second_mark): (&Mark, &SecondMark),
        is_open: bool,
    ) -> Option<PointView> {
        let (first, second) = (standing.twice.first?, standing.twice.second?);
        let apart = (second - first).abs();
        if apart == 0 && !standing.has_moved() {
            return None;
        }
        let decision = standing.settlement.as_ref();
        let decided = decision.map(|_| standing.twice.settled());
        let refused = self.refused(&Form::Point(sheet, point.key));
        let chosen = decided.flatten().map(|marks| marks.to_string());
        Some(PointView {
            key: point.key,
            number: point.number,
            title: point.point.title.clone(),
            most: point.point.marks,
            first,
            second,
            first_says: says(&first_mark.by, &first_mark.reason),
            second_says: says(&second_mark.by, &second_mark.note),
            apart,
            is_open,
            is_again: standing.is_again(),
            ruling: self.rulings.get(&point.key).cloned(),
            decision: decision.map(|one| Decision::of(one, self.when)),
            moved: standing.has_moved().then(|| self.moved(standing)),
            newest: standing.now.as_ref().map_or(0, |mark| mark.id.0),
            seen: 0,
            chosen: refused.map_or_else(|| chosen.unwrap_or_default(), |r| r.chosen.clone()),
            reason: match (refused, decision) {
                (Some(refused), _) => refused.reason.clone(),
                (None, Some(decision)) => decision.reason.clone(),
                (None, None) => String::new(),
            },
            lacks_choice: refused.is_some_and(|r| r.sentence == CHOOSE),
            wrong: refused.map(|r| r.sentence),
        })
    }

    fn refused(&self, form: &Form) -> Option<&Refused> {
        self.refused.filter(|refused| refused.form == *form)
    }

    /// The mark that somebody gave since, in words.
    fn moved(&self, standing: &SettlingPoint) -> String {
        let Some(mark) = &standing.now else {
            return String::new();
        };
        let when = (self.when)(mark.marked_at);
        match mark.awarded {
            Some(marks) => format!("{marks} now, given by {}, {when}", mark.by),
            None => format!("no mark now: taken back by {}, {when}", mark.by),
        }
    }
}

fn says(by: &str, why: &str) -> String {
    if why.is_empty() {
        by.to_owned()
    } else {
        format!("{by}: {why}")
    }
}
