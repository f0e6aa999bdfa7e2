//! One slip over a year: by class, by month, and what changed after
//! reteaching.

use analysis::reading::Cause;
use analysis::slip::Slip;
use analysis::year::Made;
use analysis::year::share::{Change, Share};
use analysis::year::slips::{self, SlipYear};
use axum::extract::{Path, Query};
use axum::response::IntoResponse;
use jiff::civil::Date;
use serde::Deserialize;

use super::asked::{Asked, Nav, OneByOne};
use super::slips::mark;
use crate::chart::year::{Lane, LaneGraph, LanesOf};
use crate::clock::long_date;
use crate::error::{AppError, Reply};
use crate::ids::ClassId;
use crate::layout::{Layout, Page};
use crate::report::year::words::{self, slip};
use crate::session::SignedIn;
use crate::state::AppState;

/// Months of a school year.
const MONTHS: [&str; slips::MONTHS] = [
    "September",
    "October",
    "November",
    "December",
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
];

/// What the address may say beside the year: from which date on a slip was
/// retaught.
#[derive(Debug, Default, Deserialize)]
pub(super) struct AskedFrom {
    #[serde(default)]
    year: String,
    #[serde(default)]
    from: String,
}

#[derive(askama::Template)]
#[template(path = "year/slip.html")]
struct SlipPage {
    layout: Layout,
    nav: Nav,
    here: String,
    name: String,
    sentence: &'static str,
    whole: String,
    slip: String,
    by_class: Vec<ClassLine>,
    by_month: Vec<MonthLine>,
    graph: Option<LaneGraph>,
    since_first: Vec<ChangeLine>,
    from: String,
    wrong_from: Option<&'static str>,
    since_date: Option<String>,
}

struct ClassLine {
    id: ClassId,
    name: String,
    share: String,
    per_cent: String,
    range: String,
    says_little: bool,
}

struct MonthLine {
    name: &'static str,
    share: String,
    per_cent: String,
    range: String,
}

/// A class's first practical against its later ones.
struct ChangeLine {
    class: String,
    first: String,
    later: String,
    points: String,
}

/// The page.
pub(super) async fn get(
    state: AppState,
    Path((place, code)): Path<(String, String)>,
    Query(asked): Query<AskedFrom>,
    by: SignedIn,
) -> Reply {
    let made = named(&place, &code).ok_or(AppError::NotFound("There is no such slip."))?;
    let year = Asked { year: asked.year };
    let loaded = year.sheets(&state, &by).await?;
    Ok(Page(SlipPage::of(by.layout, loaded, made, &asked.from)).into_response())
}

/// The slip that an address names.
pub(super) fn named(place: &str, code: &str) -> Option<Made> {
    match place {
        "working" => Slip::from_code(code).map(Made::Shown),
        "readings" => Cause::from_code(code).map(Made::Confirmed),
        _ => None,
    }
}

impl SlipPage {
    fn of(layout: Layout, loaded: OneByOne, made: Made, from: &str) -> Self {
        let counted = slips::of(&loaded.sheets.year, made);
        let date: Option<Date> = from.trim().parse().ok();
        Self {
            layout,
            here: format!("/year/slips/{}/{}", slip::place(made), slip::code(made)),
            name: crate::words::capitalised(slip::short(made)),
            sentence: match made {
                Made::Shown(slip) => crate::words::Say::english().slip_sentence(slip),
                Made::Confirmed(_) => {
                    "It is in the readings: counted here where a teacher confirmed it."
                }
            },
            whole: slip::share(counted.whole),
            slip: format!("{}.{}", slip::place(made), slip::code(made)),
            by_class: by_class(&loaded, &counted),
            by_month: by_month(&counted),
            graph: graph(&counted),
            since_first: since_first(&loaded, made),
            wrong_from: (date.is_none() && !from.trim().is_empty())
                .then_some("Type the date as 2027-01-15."),
            since_date: date.map(|date| since_date(&loaded, made, date)),
            from: from.trim().to_owned(),
            nav: loaded.nav,
        }
    }
}

fn by_class(loaded: &OneByOne, counted: &SlipYear) -> Vec<ClassLine> {
    let classes = loaded.frame.classes.iter().zip(&counted.by_class);
    classes
        .map(|(class, share)| ClassLine {
            id: class.id,
            name: class.name.clone(),
            share: words::of(*share),
            per_cent: words::per_cent(*share),
            range: words::per_cent_range(*share),
            says_little: share.of > 0 && share.is_of_few(),
        })
        .collect()
}

fn by_month(counted: &SlipYear) -> Vec<MonthLine> {
    let months = MONTHS.into_iter().zip(&counted.by_month);
    months
        .filter(|(_, share)| share.of > 0)
        .map(|(name, share)| MonthLine {
            name,
            share: words::of(*share),
            per_cent: words::per_cent(*share),
            range: words::per_cent_range(*share),
        })
        .collect()
}

fn graph(counted: &SlipYear) -> Option<LaneGraph> {
    let months = MONTHS.into_iter().zip(&counted.by_month);
    let lanes = months.filter_map(|(name, share)| {
        Some(Lane {
            name: name.to_owned(),
            marks: vec![mark(*share)?],
        })
    });
    LaneGraph::draw(LanesOf {
        id: "months".to_owned(),
        title: "Share of the groups that made it, by month".to_owned(),
        description:
            "One line for each month with a practical. The table says the same in numbers."
                .to_owned(),
        quantity: "share of the groups / %",
        lanes: lanes.collect(),
        from_to: (0.0, 10.0),
        lines: Vec::new(),
        key: vec!["Bars are 95 % intervals.".to_owned()],
    })
}

/// The classes with a first and a later practical, and all of them together.
fn since_first(loaded: &OneByOne, made: Made) -> Vec<ChangeLine> {
    let changes = slips::since_first(&loaded.sheets.year, made);
    let classes = loaded.frame.classes.iter().zip(changes);
    let classes = classes.filter_map(|(class, change)| Some((class.name.clone(), change?)));
    let mut changes: Vec<(String, Change)> = classes.collect();
    if changes.len() > 1 {
        let all = changes
            .iter()
            .fold(Change::default(), |all, (_, change)| all.and(*change));
        changes.push(("All of these".to_owned(), all));
    }
    let line = |(class, change): (String, Change)| ChangeLine {
        class,
        first: share(change.before),
        later: share(change.after),
        points: words::points(change.difference()),
    };
    changes.into_iter().map(line).collect()
}

fn share(share: Share) -> String {
    format!("{} ({})", words::of(share), words::per_cent(share))
}

fn since_date(loaded: &OneByOne, made: Made, from: Date) -> String {
    let lessons = &loaded.frame.lessons;
    let is_before = |held_on: &str| held_on.parse::<Date>().is_ok_and(|date| date < from);
    let first_after = lessons
        .iter()
        .position(|lesson| !is_before(&lesson.held_on));
    let first_after = first_after.unwrap_or(lessons.len());
    let change = slips::since_lesson(&loaded.sheets.year, made, first_after);
    let on = long_date(&from.to_string());
    crate::words::capitalised(&slip::change(
        change,
        &format!("before {on}"),
        "from then on",
    ))
}
