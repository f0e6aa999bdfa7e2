//! The comparison of a round: what first and second marks say of the markers
//! and of the marking points.
//!
//! Comparing people is for the head of department. Whoever else marked in the
//! round sees the whole, the points and their own lines; sheets that they did
//! not mark have no name there, since a name leads to who marked it.

use analysis::moderation::comparison::{Compared as Marks, Point};
use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::closed;
use crate::chart::difference::{Level, Sheet};
use crate::chart::{Graph, difference_plot};
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet::{self, RoundSheet};
use crate::files;
use crate::ids::RoundId;
use crate::report::moderation::comparison::Compared;
use crate::report::moderation::line::{About, ComparisonLine};
use crate::report::moderation::may_see::Reader;
use crate::report::moderation::pairs::{self, Pair};
use crate::web::attachment::Attachment;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::verdict::Whose;

#[derive(askama::Template)]
#[template(path = "moderation/comparison.html")]
pub(super) struct ComparisonPage<'a> {
    layout: Layout,
    pub(super) round: &'a Round,
    reader: Reader,
    pub(super) compared: &'a Compared,
    /// Those that the reader may see.
    lines: Vec<ComparisonLine<'a>>,
}

/// Two marks of one sheet.
pub(super) struct SheetLine<'a> {
    pub(super) marks: Marks,
    /// `None` where the reader may not see which it is.
    pub(super) sheet: Option<&'a RoundSheet>,
}

impl SheetLine<'_> {
    /// Returns what to sort it by: sheets with a name first, in their order,
    /// the others by their marks, which does not tell whose they are.
    fn place(&self) -> (bool, i64, i64) {
        let (first, second) = (self.marks.first, self.marks.second);
        match self.sheet {
            Some(_) => (false, 0, 0),
            None => (true, first + second, first),
        }
    }
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    open(&state, by, id, |layout, round, reader, compared| {
        let page = ComparisonPage {
            lines: seen(compared, reader),
            layout,
            round,
            reader,
            compared,
        };
        Page(page).reply()
    })
    .await
}

/// Shows the file, with what its reader may see on the page.
pub(super) async fn csv(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    open(&state, by, id, |_, _, reader, compared| {
        let name = |sheet| {
            let pair = compared.pair(sheet).filter(|pair| reader.may_name(pair));
            pair.map_or_else(String::new, |pair| pair.sheet.name())
        };
        let coefficients = compared.comparison.coefficients;
        let lines = seen(compared, reader);
        let table = files::comparison::table(&lines, coefficients, &name);
        Ok(Attachment::csv(format!("round-{id}-comparison.csv"), &table)?.into_response())
    })
    .await
}

/// Returns the lines that a reader may see.
fn seen(compared: &Compared, reader: Reader) -> Vec<ComparisonLine<'_>> {
    let mut lines = compared.lines();
    lines.retain(|line| reader.may_see(line));
    lines
}

/// Answers with what `draw` makes of the comparison of a round. Whoever has to
/// mark its sheets blind once more, in another round, gets the page that says
/// so.
async fn open(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    draw: impl FnOnce(Layout, &Round, Reader, &Compared) -> Reply,
) -> Reply {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    if !matches!(round.step, Some(Step::Shown | Step::Closed)) {
        return Err(AppError::NotFound(moderation::BLIND_YET));
    }
    let compared = Compared::of(pairs::load(&mut db, &round).await?, &round);
    let shut = round_sheet::list_closed(&mut db, by.staff_id).await?;
    let markers = round::list_markers(&mut db, round.id).await?;
    drop(db);
    let mut sheets = compared.pairs.iter();
    if let Some(closing) = sheets.find_map(|pair| shut.class_set(pair.sheet.class_set_id)) {
        let page = closed::page(by.layout, closing.clone());
        return Ok((StatusCode::FORBIDDEN, page).into_response());
    }
    let reader = Reader {
        id: by.staff_id,
        is_head: by.is_head(),
    };
    let is_marker = markers.iter().any(|marker| marker.id == reader.id);
    if !(reader.is_head || is_marker || compared.has_marks_of(reader.id)) {
        return Err(AppError::Forbidden(moderation::COMPARISON_FOR_MARKERS));
    }
    draw(by.layout, &round, reader, &compared)
}

impl<'a> ComparisonPage<'a> {
    /// Returns the whole sample.
    fn whole(&self) -> Option<&ComparisonLine<'a>> {
        let mut lines = self.lines.iter();
        lines.find(|line| matches!(line.about, About::Whole))
    }

    /// First and second markers, each by name; those that the reader may see.
    fn markers(&self) -> Vec<(&'static str, Vec<&ComparisonLine<'a>>)> {
        let all = [("first", Whose::First), ("second", Whose::Second)].map(|(nth, whose)| {
            let lines = self.lines.iter();
            let mut lines: Vec<_> = lines.filter(|line| line.is_of(whose)).collect();
            lines.sort_by(|a, b| a.name.cmp(&b.name));
            (nth, lines)
        });
        let seen = all.into_iter().filter(|(_, lines)| !lines.is_empty());
        seen.collect()
    }

    /// Returns the points, those that cause disagreement first.
    fn points(&self) -> Vec<(&ComparisonLine<'a>, &'a Point)> {
        let lines = self.lines.iter();
        lines
            .filter_map(|line| Some((line, line.point()?)))
            .collect()
    }

    /// Returns a sheet, where the reader may see which it is.
    pub(super) fn named(&self, pair: &'a Pair) -> Option<&'a RoundSheet> {
        self.reader.may_name(pair).then_some(&pair.sheet)
    }

    /// Returns the sheets of a line: with both totals, or with both marks of a
    /// point where these differ. Of a point only those that the reader may
    /// name.
    pub(super) fn sheets(&self, line: &ComparisonLine<'_>) -> Vec<SheetLine<'a>> {
        let pairs = self.compared.pairs.iter();
        match line.about {
            About::Whole => {
                let mut all: Vec<_> = pairs.filter_map(|pair| self.totals(pair)).collect();
                all.sort_by_key(SheetLine::place);
                all
            }
            About::Marker(of, whose) => {
                let theirs = pairs.filter(|pair| is_of(pair, of.person, whose));
                theirs.filter_map(|pair| self.totals(pair)).collect()
            }
            About::Point(point) => {
                let most = self.round.tolerance_point;
                let differing = self.compared.differing(point.point).into_iter();
                differing
                    .map(|(pair, first, second)| self.sheet(pair, first, second, most))
                    .filter(|line| line.sheet.is_some())
                    .collect()
            }
        }
    }

    fn totals(&self, pair: &'a Pair) -> Option<SheetLine<'a>> {
        let (first, second) = (pair.first_total()?, pair.second_total()?);
        Some(self.sheet(pair, first, second, self.round.tolerance_total))
    }

    fn sheet(&self, pair: &'a Pair, first: i64, second: i64, tolerance: i64) -> SheetLine<'a> {
        SheetLine {
            marks: Marks {
                sheet: pair.sheet.id.0,
                first,
                second,
                is_within: (second - first).abs() <= tolerance,
            },
            sheet: self.named(pair),
        }
    }

    /// Returns the difference plot. Returns `None` when there is nothing to
    /// draw.
    fn plot(&self) -> Option<Graph> {
        let whole = self.whole()?;
        let sheets = self.sheets(whole).into_iter().map(|line| Sheet {
            name: line.sheet.map_or_else(String::new, |sheet| {
                format!("{} {}", sheet.class_name, sheet.label)
            }),
            mean: line.marks.mean(),
            difference: line.marks.difference() as f64,
            is_within: line.marks.is_within,
        });
        let level = |name, at, class| Level { name, at, class };
        let mut levels = vec![level("mean", whole.agreement.mean.value, "fit")];
        if let Some(limits) = whole.agreement.limits {
            levels.push(level("upper limit", limits.upper.value, "expected"));
            levels.push(level("lower limit", limits.lower.value, "expected"));
        }
        let marks = |pair: &Pair| {
            pair.points
                .iter()
                .map(|point| point.asked.point.marks)
                .sum()
        };
        let most = self.compared.pairs.iter().map(marks);
        let most: Option<u32> = most.max();
        difference_plot(
            "differences",
            &sheets.collect::<Vec<_>>(),
            &levels,
            f64::from(most?),
        )
    }

    /// These sheets as the reader may see them: by name, and how many others.
    fn called(&self, sheets: &[i64]) -> String {
        let pairs = sheets.iter().filter_map(|sheet| self.compared.pair(*sheet));
        let (named, others): (Vec<_>, Vec<_>) = pairs
            .map(|pair| self.named(pair))
            .partition(Option::is_some);
        let named = named.into_iter().flatten();
        let mut called: Vec<String> = named.map(RoundSheet::called).collect();
        match others.len() {
            0 => {}
            n => called.push(moderation::of_colleagues(n)),
        }
        called.join("; ")
    }
}

/// Says whether a sheet is in the lines of a person.
fn is_of(pair: &Pair, person: i64, whose: Whose) -> bool {
    match whose {
        Whose::Second => pair.sheet.marker_id.is_some_and(|id| id.0 == person),
        _ => pair.first_marks().all(|mark| mark.staff_id.0 == person),
    }
}
