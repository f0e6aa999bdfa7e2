//! The points of a sheet that is settled: where the two differ, what was decided,
//! and the form to decide it with.

use super::settle::{CHOOSE, Form, RefusedSettlement, SettlePage};
use crate::db::mark::Mark;
use crate::db::ruling::Ruling;
use crate::db::scheme::MarkingPoint;
use crate::db::second_mark::SecondMark;
use crate::report::moderation::settling::{SettlingPoint, SettlingSheet};
use crate::table::{Cell, PageTable, Table};
use crate::words::moderation;
use crate::words::number;

/// A point that the two differ on, or that somebody has marked since.
pub(super) struct PointView<'a> {
    pub(super) asked: &'a MarkingPoint,
    pub(super) standing: &'a SettlingPoint,
    pub(super) first: &'a Mark,
    pub(super) second: &'a SecondMark,
    pub(super) ruling: Option<&'a Ruling>,
    pub(super) is_open: bool,
    /// The newest word when the page was made; 0: none.
    pub(super) seen: i64,
    pub(super) refused: Option<&'a RefusedSettlement>,
}

impl SettlePage {
    /// Returns the points that the two differ on, and those on which somebody
    /// has given a mark since.
    pub(super) fn points<'a>(&'a self, sheet: &'a SettlingSheet) -> Vec<PointView<'a>> {
        let points = sheet.each().enumerate();
        let points = points.filter_map(|(at, (marked, standing))| {
            let key = marked.asked.key;
            let mut rulings = self.rulings.iter();
            let view = PointView {
                asked: &marked.asked,
                standing,
                first: marked.first.as_ref()?,
                second: marked.second.as_ref()?,
                ruling: rulings.find(|ruling| ruling.point_key == key),
                is_open: sheet.open.points.contains(&at),
                seen: self.seen(sheet, Some(key)),
                refused: self.refused(&Form::Point(sheet.pair.sheet.id, key)),
            };
            (view.apart() > 0 || standing.has_moved()).then_some(view)
        });
        points.collect()
    }

    /// Returns the points on which the two differ, and on how many they agree.
    pub(super) fn differences(&self, sheet: &SettlingSheet, points: &[PointView<'_>]) -> PageTable {
        let apart = sheet.points.iter().map(|point| point.twice.difference());
        let same = apart.filter(|difference| *difference == Some(0)).count();
        let agree = match same {
            0 => String::new(),
            n => moderation::you_agree(n),
        };
        Table::of(points)
            .text("Point", |p| p.asked.titled())
            .figure("Out of", |p| p.asked.point.marks)
            .figure("First", |p| number::marks(p.first.awarded))
            .figure("Second", |p| number::marks(p.second.awarded))
            .words("What was decided", |p| self.decided(p))
            .on_page(
                format!(
                    "Where the marks of sheet {} differ",
                    sheet.pair.sheet.name()
                ),
                format!("Where you differ{agree}"),
            )
    }

    /// Says what was decided on a point, and whether somebody has marked it
    /// since.
    fn decided(&self, point: &PointView<'_>) -> Cell {
        let mut lines = match &point.standing.settlement {
            Some(decision) => vec![
                Cell::from(format!("{}.", decision.what())).strong(),
                Cell::from(&decision.reason)
                    .class("as-typed")
                    .aside(moderation::written_down(
                        &decision.by,
                        &self.when.says(decision.at),
                    )),
            ],
            None => vec![self.undecided(point)],
        };
        if let Some(mark) = point
            .standing
            .now
            .as_ref()
            .filter(|_| point.standing.has_moved())
        {
            let when = self.when.says(mark.marked_at);
            lines.push(Cell::from("Marked since:").strong());
            let now = moderation::marked_since(mark.awarded, &mark.by, &when);
            lines.push(Cell::from(now));
        }
        Cell::run(lines)
    }

    /// Says how a point stands on which nothing was decided.
    fn undecided(&self, point: &PointView<'_>) -> Cell {
        if point.standing.is_again() {
            Cell::from(moderation::AGAIN_FOR_CLASS)
        } else if point.is_open {
            Cell::from(moderation::TO_SETTLE).strong()
        } else if point.apart() > self.round.tolerance_point {
            Cell::from(moderation::STANDS_WITH_ALL)
        } else if point.apart() > 0 {
            Cell::from(moderation::WITHIN)
        } else {
            Cell::from(moderation::AGREED)
        }
    }
}

impl PointView<'_> {
    /// By how many marks the two are apart.
    pub(super) fn apart(&self) -> i64 {
        self.standing.twice.difference().unwrap_or(0).abs()
    }

    /// Says whether its form is in sight: it has to be settled, or came back.
    pub(super) fn is_shown(&self) -> bool {
        self.is_open || self.refused.is_some()
    }

    /// Returns the newest mark when the page was made; 0: none.
    pub(super) fn newest(&self) -> i64 {
        self.standing.now.as_ref().map_or(0, |mark| mark.id.0)
    }

    /// Says what stands beside one of the marks to choose.
    pub(super) fn says(&self, marks: u32) -> &'static str {
        match Some(i64::from(marks)) {
            marks if marks == self.first.awarded => "the first mark",
            marks if marks == self.second.awarded => "the second mark",
            _ => "",
        }
    }

    /// Says whether it is the one that is chosen in the form.
    pub(super) fn is_chosen(&self, marks: u32) -> bool {
        match (self.refused, &self.standing.settlement) {
            (Some(refused), _) => refused.chosen == marks.to_string(),
            (None, Some(_)) => self.standing.twice.settled() == Some(i64::from(marks)),
            (None, None) => false,
        }
    }

    /// Says whether what is wrong is that no mark was chosen.
    pub(super) fn lacks_choice(&self) -> bool {
        self.refused
            .is_some_and(|refused| refused.sentence == CHOOSE)
    }

    /// Says what is in the box.
    pub(super) fn reason(&self) -> &str {
        let decided = self.standing.settlement.as_ref();
        let decided = decided.map_or("", |decision| decision.reason.as_str());
        self.refused.map_or(decided, |refused| &refused.reason)
    }
}
