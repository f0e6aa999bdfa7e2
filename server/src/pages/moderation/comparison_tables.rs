//! The tables of a comparison's page.

use analysis::moderation::comparison::{Estimated, FEWEST, Point, Share};

use super::comparison::ComparisonPage;
use crate::db::round_sheet::RoundSheet;
use crate::report::moderation::line::{self, ComparisonLine};
use crate::table::{Cell, Columns, PageTable, Table};
use crate::words::number;
use crate::words::verdict;
use crate::words::{capitalised, counted, moderation};

/// Adds what every line says of how far its two marks are apart.
fn compared<'t, T>(
    columns: Columns<'t, T>,
    line: impl Fn(&'t T) -> &'t ComparisonLine<'t>,
) -> Columns<'t, T> {
    columns
        .figure("Mean difference", |one| line(one).mean())
        .unit("/ marks")
        .figure("95 % interval", |one| line(one).interval())
        .unit("/ marks")
        .figure("Mean size", |one| line(one).size())
        .unit("/ marks")
        .figure("Within tolerance", |one| {
            line(one).of_all(&line(one).agreement.within)
        })
}

/// A figure and what it tells.
struct Figure {
    name: String,
    value: String,
    interval: String,
    says: Cell,
}

fn figure(
    name: impl Into<String>,
    [value, interval]: [String; 2],
    says: impl Into<Cell>,
) -> Figure {
    Figure {
        name: name.into(),
        value,
        interval,
        says: says.into(),
    }
}

fn explained<'t>(what: &str, figures: &'t [Figure]) -> Columns<'t, Figure> {
    Table::of(figures)
        .text(what, |figure| &figure.name)
        .figure("Value", |figure| &figure.value)
        .figure("95 % interval", |figure| &figure.interval)
        .words("What it tells", |figure| figure.says.clone())
}

impl ComparisonPage<'_> {
    /// Markers, with what their marks come to.
    pub(super) fn people_table(&self, people: &[&ComparisonLine<'_>], caption: &str) -> PageTable {
        compared(
            Table::of(people)
                .text("Marker", |line| {
                    Cell::from(&line.name).link(format!("#{}", line.id()))
                })
                .figure("Sheets", |line| line.agreement.n),
            |line| line,
        )
        .words("What it says", |line| line.says())
        .on_page(
            caption,
            format!("{caption}: second − first, on the totals of the sheets"),
        )
    }

    /// Marking points, with how far the marks on each are apart.
    pub(super) fn point_table(&self, points: &[(&ComparisonLine<'_>, &Point)]) -> PageTable {
        let counted = Table::of(points)
            .text("Point", |(line, point)| match point.differing {
                0 => Cell::from(&line.name),
                _ => Cell::from(&line.name).link(format!("#{}", line.id())),
            })
            .figure("Worth", |(_, point)| point.most)
            .unit("/ marks")
            .figure("Differs on", |(line, point)| {
                format!("{} of {}", point.differing, line.agreement.n)
            });
        compared(counted, |(line, _)| line)
            .figure("Part of all", |(_, point)| {
                let part = point.part.map(|part| format!("{:.0} %", 100.0 * part));
                part.unwrap_or_else(|| "–".to_owned())
            })
            .on_page("Points over all sheets", "Points over all sheets")
    }

    /// Returns the sheets of a line under a caption. Returns `None` when there
    /// is none.
    pub(super) fn sheet_table(
        &self,
        line: &ComparisonLine<'_>,
        caption: &str,
    ) -> Option<PageTable> {
        let sheets = self.sheets(line);
        let called = format!("{caption}: {}", line.of());
        let table = Table::of(&sheets)
            .text("Sheet", |one| match one.sheet {
                Some(sheet) => self.settled(sheet),
                None => moderation::of_colleagues(1).into(),
            })
            .figure("First", |one| one.marks.first)
            .unit("/ marks")
            .figure("Second", |one| one.marks.second)
            .unit("/ marks")
            .figure("Mean", |one| format!("{:.1}", one.marks.mean()))
            .unit("/ marks")
            .figure("Second − first", |one| {
                number::apart(Some(one.marks.difference()))
            })
            .unit("/ marks")
            .text("Tolerance", |one| match one.marks.is_within {
                true => Cell::from("within"),
                false => Cell::from("outside").strong(),
            })
            .on_page(&called, &called);
        (!sheets.is_empty()).then_some(table)
    }

    /// Returns the figures of some sheets.
    pub(super) fn figures(&self, line: &ComparisonLine<'_>) -> PageTable {
        let found = line.agreement;
        let only = |value: String| [value, String::new()];
        let share = |of: &Share| [line.of_all(of), line::share_range(of.interval95)];
        let marks = |of: Estimated| [line::marks(of.value), line::marks_range(of.interval95)];
        let tolerance = counted(found.tolerance, "mark", "marks");
        let within = format!("Within the tolerance of {tolerance}");
        let mean = "Mean difference, second − first";
        let sd = "Standard deviation of the differences";
        let size = "Mean size of the differences";
        let mut rows = vec![
            figure(mean, marks(found.mean), verdict::MEAN_IS),
            figure(size, only(line.size()), verdict::SIZE_IS),
            figure(sd, only(line.sd()), verdict::SD_IS),
            figure("The same", share(&found.exact), verdict::SAME_IS),
            figure(within, share(&found.within), verdict::WITHIN_IS),
        ];
        if let Some(limits) = found.limits {
            let [lower, upper] = [limits.lower, limits.upper].map(marks);
            let lower = figure("Lower limit of agreement", lower, verdict::LIMITS_ARE);
            rows.extend([lower, figure("Upper limit of agreement", upper, "")]);
        }
        let largest = only(number::signed(found.largest.difference, 0));
        let pair = self.compared.pair(found.largest.sheet);
        let sheet = pair.and_then(|pair| self.named(pair));
        let sheet = sheet.map_or_else(
            || format!("{}.", capitalised(&moderation::of_colleagues(1))).into(),
            |sheet| self.settled(sheet),
        );
        rows.push(figure("Largest difference", largest, sheet));
        let called = format!("Figures: {}", line.of());
        let caption = format!("{called}, {} compared", found.n);
        explained("Figure", &rows).on_page(called, caption)
    }

    /// Returns the coefficients of the whole sample; `None` of few sheets.
    pub(super) fn coefficients(&self) -> Option<PageTable> {
        let found = &self.compared.comparison;
        let [kappa, icc] =
            [found.coefficients.kappa, found.coefficients.icc].map(line::coefficient);
        let rows = [
            figure("Weighted kappa", kappa, verdict::KAPPA_IS),
            figure("Intraclass correlation", icc, verdict::INTRACLASS_IS),
        ];
        let called = "Coefficients of all sheets";
        let table = explained("Coefficient", &rows).on_page(called, called);
        (found.sheets.len() >= FEWEST).then_some(table)
    }

    /// Returns a sheet, with a link to where it is settled.
    fn settled(&self, sheet: &RoundSheet) -> Cell {
        let settling = format!("/moderation/{}/settle#sheet-{}", self.round.id, sheet.id);
        Cell::from(sheet.called()).link(settling)
    }
}
