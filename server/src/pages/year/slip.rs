//! One slip over a year: by class, by month, and what changed after
//! reteaching.

use analysis::year::Made;
use analysis::year::share::{Change, Share};
use analysis::year::slips::{self, SlipYear};
use axum::extract::{Path, Query};
use jiff::civil::Date;
use serde::Deserialize;

use super::slips::{mark, sheets_with};
use super::{Nav, OneByOne, YearQuery};
use crate::chart::lanes::{Lane, Lanes};
use crate::chart::{Graph, lanes};
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::capitalised;
use crate::words::refusal;
use crate::words::share::{of, per_cent, per_cent_range, points};
use crate::words::time::long_date;
use crate::words::year;
use crate::words::year::{change, short};

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
    sheets: String,
    by_class: PageTable,
    by_month: PageTable,
    graph: Option<Graph>,
    since_first: PageTable,
    from: TypedText,
    since_date: Option<String>,
}

pub(super) async fn get(
    state: AppState,
    Path((place, code)): Path<(String, String)>,
    Query(asked): Query<AskedFrom>,
    by: SignedIn,
) -> Reply {
    let made = Made::named(&place, &code).ok_or(AppError::NotFound(refusal::NO_SLIP))?;
    let year = YearQuery { year: asked.year };
    let loaded = year.sheets(&state, &by).await?;
    Page(SlipPage::of(by.layout, loaded, made, asked.from.trim())).reply()
}

impl SlipPage {
    fn of(layout: Layout, loaded: OneByOne, made: Made, from: &str) -> Self {
        let counted = slips::of(&loaded.sheets.year, made);
        let mut from = TypedText::new(from);
        let date = from.check(|text| match text {
            "" => Ok(None),
            text => text
                .parse::<Date>()
                .map(Some)
                .map_err(|_| refusal::DATE_OF_CHANGE),
        });
        Self {
            layout,
            here: format!("/year/slips/{}/{}", made.place(), made.code()),
            name: capitalised(short(made)),
            sentence: match made {
                Made::Shown(slip) => crate::words::Say::english().slip_sentence(slip),
                Made::Confirmed(_) => year::COUNTED_IF_CONFIRMED,
            },
            whole: match counted.whole {
                Share { of: 0, .. } => "No groups yet".to_owned(),
                share => format!("{} groups ({})", of(share), per_cent_range(share)),
            },
            sheets: sheets_with(&loaded.nav, made),
            by_class: by_class(&loaded, &counted),
            by_month: by_month(&counted),
            graph: graph(&counted),
            since_first: since_first(&loaded, made),
            since_date: date.flatten().map(|date| since_date(&loaded, made, date)),
            from,
            nav: loaded.nav,
        }
    }
}

fn by_class(loaded: &OneByOne, counted: &SlipYear) -> PageTable {
    let nav = &loaded.nav;
    let classes = loaded.frame.classes.iter().zip(&counted.by_class);
    Table::of(&classes.collect::<Vec<_>>())
        .text("Class", |(class, _)| {
            Cell::from(&class.name).link(nav.to(&format!("/classes/{}", class.id)))
        })
        .figure("Groups", |(class, share)| {
            let sheets = format!("{}&class={}", sheets_with(nav, counted.slip), class.id);
            let says = format!("{}: its sheets in {}", of(**share), class.name);
            Cell::from(of(**share)).link_called(sheets, says)
        })
        .figure("Share", |(_, share)| per_cent(**share))
        .figure("95 % interval", |(_, share)| per_cent_range(**share))
        .text("Remark", |(_, share)| match share.of > 0 && share.is_of_few() {
            true => year::FEW,
            false => "",
        })
        .on_page(
            "Table of classes",
            "Groups that made it, of those that could have; classes in the order of their first lessons in the week",
        )
}

fn by_month(counted: &SlipYear) -> PageTable {
    let months = year::months().into_iter().zip(&counted.by_month);
    let months: Vec<_> = months.filter(|(_, share)| share.of > 0).collect();
    Table::of(&months)
        .text("Month", |(month, _)| month)
        .figure("Groups", |(_, share)| of(**share))
        .figure("Share", |(_, share)| per_cent(**share))
        .figure("95 % interval", |(_, share)| per_cent_range(**share))
        .on_page(
            "Table of months",
            "Groups that made it, by the month of the lesson",
        )
}

fn graph(counted: &SlipYear) -> Option<Graph> {
    let months = year::months().into_iter().zip(&counted.by_month);
    lanes(Lanes {
        id: "months".to_owned(),
        title: "Share of the groups that made it, by month".to_owned(),
        description: year::MONTHS_SHOWN.to_owned(),
        quantity: "share of the groups / %",
        lanes: months
            .map(|(name, share)| Lane::new(name, mark(*share), None))
            .collect(),
        from_to: (0.0, 10.0),
        line: None,
        key: year::BARS_95.to_owned(),
        open: String::new(),
    })
}

/// Returns the classes with a first and a later practical, and all of them
/// together.
fn since_first(loaded: &OneByOne, made: Made) -> PageTable {
    let changes = slips::since_first(&loaded.sheets.year, made);
    let classes = loaded.frame.classes.iter().zip(changes);
    let classes = classes.filter_map(|(class, change)| Some((class.name.as_str(), change?)));
    let mut changes: Vec<(&str, Change)> = classes.collect();
    if changes.len() > 1 {
        let all = changes
            .iter()
            .fold(Change::default(), |all, (_, change)| all.and(*change));
        changes.push(("All of these", all));
    }
    let share = |share: Share| format!("{} ({})", of(share), per_cent(share));
    Table::of(&changes)
        .name("Class", |(class, _)| class)
        .figure("First practical", |(_, change)| share(change.before))
        .figure("Later ones", |(_, change)| share(change.after))
        .figure("Change", |(_, change)| points(change.difference()))
        .unit("percentage points")
        .on_page(
            "Table of first and later practicals",
            "Groups that made it; the change in percentage points with Newcombe’s 95 % interval, as if the groups of two lessons were different pupils",
        )
}

fn since_date(loaded: &OneByOne, made: Made, from: Date) -> String {
    let lessons = &loaded.frame.lessons;
    let is_before = |held_on: &str| held_on.parse::<Date>().is_ok_and(|date| date < from);
    let first_after = lessons
        .iter()
        .position(|lesson| !is_before(&lesson.held_on));
    let first_after = first_after.unwrap_or(lessons.len());
    let since = slips::since_lesson(&loaded.sheets.year, made, first_after);
    let on = long_date(&from.to_string());
    capitalised(&change(since, &format!("before {on}"), "from then on"))
}
