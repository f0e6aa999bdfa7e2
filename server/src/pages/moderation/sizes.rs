//! How many sheets are marked a second time: the department's own table.

use crate::acts::SetSampleSizes;
use crate::db::sample_size::{self, SampleSize};
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::layout::{Layout, Page, go};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

/// Lines for cohorts up to some size that the form has; one more is for all
/// that are larger.
const LINES: usize = 6;
/// Largest number in the table.
const LARGEST: i64 = 10_000;

/// A line as typed.
#[derive(Debug, Default)]
struct Typed {
    up_to: String,
    size: String,
    wrong: Option<&'static str>,
}

#[derive(askama::Template)]
#[template(path = "moderation/sizes.html")]
struct SizesPage {
    layout: Layout,
    is_head: bool,
    table: Vec<SampleSize>,
    lines: Vec<Typed>,
    larger: Typed,
}

impl SizesPage {
    /// Whether a line could not be taken.
    fn is_refused(&self) -> bool {
        let mut all = self.lines.iter().chain([&self.larger]);
        all.any(|line| line.wrong.is_some())
    }
}

/// The table.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, by, None).await?.reply()
}

/// Puts another table in its place.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    match check(&form.pairs) {
        Ok(table) => {
            state.act(&form.by, SetSampleSizes { table }).await?;
            go("/moderation/sizes")
        }
        Err(typed) => page(&state, form.by, Some(typed)).await?.refused(),
    }
}

/// The page, perhaps with a table that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    refused: Option<(Vec<Typed>, Typed)>,
) -> Result<Page<SizesPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let table = sample_size::list(&mut db).await?;
    drop(db);
    let (lines, larger) = refused.unwrap_or_else(|| as_typed(&table));
    Ok(Page(SizesPage {
        is_head: by.is_head(),
        layout: by.layout,
        lines,
        larger,
        table,
    }))
}

/// The table as it stands, in boxes.
fn as_typed(table: &[SampleSize]) -> (Vec<Typed>, Typed) {
    let text = |n: Option<i64>| n.map_or_else(String::new, |n| n.to_string());
    let typed = |line: &SampleSize| Typed {
        up_to: text(line.up_to),
        size: text(line.size),
        wrong: None,
    };
    let (upper, larger): (Vec<&SampleSize>, Vec<_>) =
        table.iter().partition(|line| line.up_to.is_some());
    let mut lines: Vec<Typed> = upper.into_iter().map(typed).collect();
    lines.resize_with(LINES.max(lines.len()), Typed::default);
    (
        lines,
        larger.first().map(|line| typed(line)).unwrap_or_default(),
    )
}

fn check(pairs: &Pairs) -> Result<Vec<SampleSize>, (Vec<Typed>, Typed)> {
    let mut table: Vec<SampleSize> = Vec::new();
    let (mut lines, mut is_wrong) = (Vec::new(), false);
    for at in 1..=LINES {
        let mut typed = Typed {
            up_to: pairs.trimmed(&format!("up_to.{at}")).to_owned(),
            size: pairs.trimmed(&format!("size.{at}")).to_owned(),
            wrong: None,
        };
        match line(&typed, &table) {
            Ok(line) => table.extend(line),
            Err(reason) => typed.wrong = Some(reason),
        }
        is_wrong |= typed.wrong.is_some();
        lines.push(typed);
    }
    let mut larger = Typed {
        size: pairs.trimmed("size.larger").to_owned(),
        ..Typed::default()
    };
    match number(&larger.size) {
        Ok(size) => table.push(SampleSize { up_to: None, size }),
        Err(reason) => larger.wrong = Some(reason),
    }
    if is_wrong || larger.wrong.is_some() {
        return Err((lines, larger));
    }
    table.sort_by_key(|line| line.up_to.unwrap_or(i64::MAX));
    Ok(table)
}

/// A line of the table; `None` where nothing is typed in it.
fn line(typed: &Typed, before: &[SampleSize]) -> Result<Option<SampleSize>, &'static str> {
    let (up_to, size) = (number(&typed.up_to)?, number(&typed.size)?);
    if up_to.is_none() {
        return match size {
            None => Ok(None),
            Some(_) => Err("Type for cohorts of up to how many sheets this is."),
        };
    }
    if before.iter().any(|line| line.up_to == up_to) {
        return Err("This size of cohort is in the table already.");
    }
    Ok(Some(SampleSize { up_to, size }))
}

/// A whole number; `None` where the box is blank.
fn number(text: &str) -> Result<Option<i64>, &'static str> {
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse().ok().filter(|n| (1..=LARGEST).contains(n));
    number
        .map(Some)
        .ok_or("Type a whole number from 1 to 10 000, or leave the box blank.")
}
