//! The tables of a comparison's page.

use analysis::moderation::comparison::{Estimated, FEWEST, Point};

use super::comparison::ComparisonPage;
use crate::db::round_sheet::RoundSheet;
use crate::report::moderation::line::{self, Line};
use crate::table::{Cell, Columns, PageTable, Table};
use crate::words::number;
use crate::words::verdict;
use crate::words::{capitalised, counted, moderation};

/// Adds what every line says of how far its two marks are apart.
fn compared<'t, T>(
    columns: Columns<'t, T>,
    line: impl Fn(&'t T) -> &'t Line<'t>,
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

/// A figure: what it is, its value, the interval, and what it tells.
type Explained<'a> = (&'a str, String, String, Cell);

fn explained<'t>(what: &str, rows: &'t [Explained<'_>]) -> Columns<'t, Explained<'t>> {
    Table::of(rows)
        .text(what, |(name, ..)| name)
        .figure("Value", |(_, value, ..)| value)
        .figure("95 % interval", |(_, _, interval, _)| interval)
        .words("What it tells", |(.., says)| says.clone())
}

impl ComparisonPage<'_> {
    /// Markers, with what their marks come to.
    pub(super) fn people_table(&self, people: &[&Line<'_>], caption: &str) -> PageTable {
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
    pub(super) fn point_table(&self, points: &[(&Line<'_>, &Point)]) -> PageTable {
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

    /// The sheets of a line under a caption; `None` where there is none.
    pub(super) fn sheet_table(&self, line: &Line<'_>, caption: &str) -> Option<PageTable> {
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

    /// The figures of some sheets.
    pub(super) fn figures(&self, line: &Line<'_>) -> PageTable {
        let found = line.agreement;
        let within = format!(
            "Within the tolerance of {}",
            counted(found.tolerance, "mark", "marks")
        );
        let [exact, close] = [found.exact, found.within];
        let mut rows = vec![
            (
                "Mean difference, second − first",
                line.mean(),
                line.interval(),
                Cell::from(verdict::MEAN_IS),
            ),
            (
                "Mean size of the differences",
                line.size(),
                String::new(),
                verdict::SIZE_IS.into(),
            ),
            (
                "Standard deviation of the differences",
                line.sd(),
                String::new(),
                verdict::SD_IS.into(),
            ),
            (
                "The same",
                line.of_all(&exact),
                line::share_range(exact.interval95),
                verdict::SAME_IS.into(),
            ),
            (
                &within,
                line.of_all(&close),
                line::share_range(close.interval95),
                verdict::WITHIN_IS.into(),
            ),
        ];
        if let Some(limits) = found.limits {
            let limit = |name, limit: Estimated, says: &str| {
                (
                    name,
                    line::marks(limit.value),
                    line::marks_range(limit.interval95),
                    Cell::from(says),
                )
            };
            rows.push(limit(
                "Lower limit of agreement",
                limits.lower,
                verdict::LIMITS_ARE,
            ));
            rows.push(limit("Upper limit of agreement", limits.upper, ""));
        }
        let largest = self
            .compared
            .pair(found.largest.sheet)
            .and_then(|pair| self.named(pair));
        rows.push((
            "Largest difference",
            number::signed(found.largest.difference, 0),
            String::new(),
            match largest {
                Some(sheet) => self.settled(sheet),
                None => format!("{}.", capitalised(&moderation::of_colleagues(1))).into(),
            },
        ));
        let called = format!("Figures: {}", line.of());
        let caption = format!("{called}, {} compared", found.n);
        explained("Figure", &rows).on_page(called, caption)
    }

    /// The coefficients of the whole sample; `None` of few sheets.
    pub(super) fn coefficients(&self) -> Option<PageTable> {
        let found = &self.compared.comparison;
        let row = |name, found, says: &str| {
            let [value, interval] = line::coefficient(found);
            (name, value, interval, Cell::from(says))
        };
        let rows = [
            row(
                "Weighted kappa",
                found.coefficients.kappa,
                verdict::KAPPA_IS,
            ),
            row(
                "Intraclass correlation",
                found.coefficients.icc,
                verdict::INTRACLASS_IS,
            ),
        ];
        let called = "Coefficients of all sheets";
        let table = explained("Coefficient", &rows).on_page(called, called);
        (found.sheets.len() >= FEWEST).then_some(table)
    }

    /// A sheet, with a link to where it is settled.
    fn settled(&self, sheet: &RoundSheet) -> Cell {
        let settling = format!("/moderation/{}/settle#sheet-{}", self.round.id, sheet.id);
        Cell::from(sheet.called()).link(settling)
    }
}
