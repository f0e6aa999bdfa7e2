//! How many sheets are marked a second time: the department's own table.

use crate::acts::SetSampleSizes;
use crate::db::sample_size::{self, SampleSize};
use crate::table::{PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::moderation;

/// Lines for cohorts up to some size that the form has; one more is for all
/// that are larger.
const LINES: usize = 6;
/// Largest number in the table.
const LARGEST: i64 = 10_000;

#[derive(askama::Template)]
#[template(path = "moderation/sizes.html")]
struct SizesPage {
    layout: Layout,
    is_head: bool,
    table: PageTable,
    typed: SizesTyped,
    is_refused: bool,
}

/// The table as typed.
#[derive(Debug, Default)]
struct SizesTyped {
    lines: [SizeLine; LINES],
    /// How many of a larger cohort.
    larger: TypedText,
}

/// What is wrong with a line stands at its first box.
#[derive(Debug, Default)]
struct SizeLine {
    up_to: TypedText,
    size: TypedText,
}

/// Shows the table.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, by, None).await?.reply()
}

/// Puts another table in its place.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let mut typed = SizesTyped::read(&form.pairs);
    match typed.check() {
        Some(table) => {
            state.act(&form.by, SetSampleSizes { table }).await?;
            go("/moderation/sizes")
        }
        None => page(&state, form.by, Some(typed)).await?.refused(),
    }
}

/// Returns the page, perhaps with a table that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    refused: Option<SizesTyped>,
) -> Result<Page<SizesPage>, AppError> {
    let sizes = sample_size::list(&mut state.reader(&by).await?).await?;
    Ok(Page(SizesPage {
        is_head: by.is_head(),
        layout: by.layout,
        table: table(&sizes),
        is_refused: refused.is_some(),
        typed: refused.unwrap_or_else(|| SizesTyped::of(&sizes)),
    }))
}

fn table(sizes: &[SampleSize]) -> PageTable {
    let larger = if sizes.len() == 1 { "any" } else { "larger" };
    Table::of(sizes)
        .text("Cohort", |line| match line.up_to {
            Some(up_to) => format!("up to {up_to}"),
            None => larger.to_owned(),
        })
        .figure("Marked a second time", |line| match line.size {
            Some(size) => size.to_string(),
            None => "all".to_owned(),
        })
        .on_page(
            "",
            "Sheets of the cohort, and how many of them are marked a second time",
        )
}

impl SizesTyped {
    /// Returns the table as it stands.
    fn of(sizes: &[SampleSize]) -> Self {
        let text = |n: Option<i64>| TypedText::new(n.map_or_else(String::new, |n| n.to_string()));
        let mut typed = Self::default();
        for size in sizes.iter().filter(|line| line.up_to.is_none()) {
            typed.larger = text(size.size);
        }
        let up_to = sizes.iter().filter(|line| line.up_to.is_some());
        for (line, of) in typed.lines.iter_mut().zip(up_to) {
            line.up_to = text(of.up_to);
            line.size = text(of.size);
        }
        typed
    }

    fn read(pairs: &Pairs) -> Self {
        let line = |at| SizeLine {
            up_to: TypedText::new(pairs.trimmed(&format!("up_to.{}", at + 1))),
            size: TypedText::new(pairs.trimmed(&format!("size.{}", at + 1))),
        };
        Self {
            lines: std::array::from_fn(line),
            larger: TypedText::new(pairs.trimmed("size.larger")),
        }
    }

    /// Returns the table that boxes stand for. Returns `None` when one cannot
    /// be taken.
    fn check(&mut self) -> Option<Vec<SampleSize>> {
        let mut table = Vec::new();
        let mut is_right = true;
        for typed in &mut self.lines {
            let size = typed.size.text.as_str();
            match typed.up_to.check(|up_to| line(up_to, size, &table)) {
                Some(line) => table.extend(line),
                None => is_right = false,
            }
        }
        let size = self.larger.check(number)?;
        table.push(SampleSize { up_to: None, size });
        table.sort_by_key(|line| line.up_to.unwrap_or(i64::MAX));
        is_right.then_some(table)
    }
}

/// Returns a line of the table. Returns `None` when nothing is typed in it.
fn line(
    up_to: &str,
    size: &str,
    before: &[SampleSize],
) -> Result<Option<SampleSize>, &'static str> {
    let (up_to, size) = (number(up_to)?, number(size)?);
    if up_to.is_none() {
        return match size {
            None => Ok(None),
            Some(_) => Err(moderation::UP_TO_HOW_MANY),
        };
    }
    if before.iter().any(|line| line.up_to == up_to) {
        return Err(moderation::SIZE_TWICE);
    }
    Ok(Some(SampleSize { up_to, size }))
}

/// Returns a whole number. Returns `None` when the box is blank.
fn number(text: &str) -> Result<Option<i64>, &'static str> {
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse().ok().filter(|n| (1..=LARGEST).contains(n));
    number.map(Some).ok_or(moderation::ONE_TO_10_000)
}
