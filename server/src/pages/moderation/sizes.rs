//! How many sheets are marked a second time: the department's own table.

use std::collections::BTreeMap;

use crate::acts::SetSampleSizes;
use crate::db::sample_size::{self, SampleSize};
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::layout::{Layout, Page, go};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;
use crate::words::moderation;

/// Lines for cohorts up to some size that the form has; one more is for all
/// that are larger.
const LINES: usize = 6;
/// Largest number in the table.
const LARGEST: i64 = 10_000;

/// The line for all larger cohorts.
const LARGER: &str = "larger";

/// What is wrong, by the name of the line.
type Wrong = BTreeMap<String, &'static str>;

#[derive(askama::Template)]
#[template(path = "moderation/sizes.html")]
struct SizesPage {
    layout: Layout,
    is_head: bool,
    table: Vec<SampleSize>,
    typed: Pairs,
    wrong: Wrong,
}

impl SizesPage {
    /// The lines of the form but for the last.
    fn lines(&self) -> impl Iterator<Item = String> {
        (1..=LINES).map(|line| line.to_string())
    }

    fn typed(&self, name: &str, line: &str) -> &str {
        self.typed.trimmed(&format!("{name}.{line}"))
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
        Err(wrong) => {
            let page = page(&state, form.by, Some((form.pairs, wrong)));
            page.await?.refused()
        }
    }
}

/// The page, perhaps with a table that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    refused: Option<(Pairs, Wrong)>,
) -> Result<Page<SizesPage>, AppError> {
    let table = sample_size::list(&mut state.reader(&by).await?).await?;
    let (typed, wrong) = refused.unwrap_or_else(|| (as_typed(&table), Wrong::new()));
    Ok(Page(SizesPage {
        is_head: by.is_head(),
        layout: by.layout,
        table,
        typed,
        wrong,
    }))
}

/// The table as it stands, in boxes.
fn as_typed(table: &[SampleSize]) -> Pairs {
    let text = |n: Option<i64>| n.map_or_else(String::new, |n| n.to_string());
    let boxes = (1..).zip(table).flat_map(|(at, line)| {
        let name = line.up_to.map_or(LARGER.to_owned(), |_| at.to_string());
        [("up_to", line.up_to), ("size", line.size)]
            .map(|(what, number)| (format!("{what}.{name}"), text(number)))
    });
    Pairs(boxes.collect())
}

fn check(pairs: &Pairs) -> Result<Vec<SampleSize>, Wrong> {
    let (mut table, mut wrong) = (Vec::new(), Wrong::new());
    for at in (1..=LINES).map(|at| at.to_string()) {
        match line(pairs, &at, &table) {
            Ok(line) => table.extend(line),
            Err(reason) => wrong.extend([(at, reason)]),
        }
    }
    match number(pairs.trimmed("size.larger")) {
        Ok(size) => table.push(SampleSize { up_to: None, size }),
        Err(reason) => wrong.extend([(LARGER.to_owned(), reason)]),
    }
    table.sort_by_key(|line| line.up_to.unwrap_or(i64::MAX));
    if wrong.is_empty() {
        Ok(table)
    } else {
        Err(wrong)
    }
}

/// A line of the table; `None` where nothing is typed in it.
fn line(
    pairs: &Pairs,
    at: &str,
    before: &[SampleSize],
) -> Result<Option<SampleSize>, &'static str> {
    let up_to = number(pairs.trimmed(&format!("up_to.{at}")))?;
    let size = number(pairs.trimmed(&format!("size.{at}")))?;
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

/// A whole number; `None` where the box is blank.
fn number(text: &str) -> Result<Option<i64>, &'static str> {
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse().ok().filter(|n| (1..=LARGEST).contains(n));
    number.map(Some).ok_or(moderation::ONE_TO_10_000)
}
