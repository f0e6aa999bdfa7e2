//! The slips of a year: how many groups made each, and what changed.

use analysis::year::Made;
use analysis::year::share::{Change, Share};
use analysis::year::slips::SlipYear;
use axum::extract::Query;

use super::sheets::slip_cell;
use super::{Nav, YearQuery, Years};
use crate::chart::lanes::{Lane, LaneMark, Lanes};
use crate::chart::{Graph, lanes};
use crate::table::{Cell, PageTable, Table};
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::share::{of, per_cent, per_cent_range, points};
use crate::words::year;
use crate::words::year::short;

/// Months of each term, counted from September. Our choice: Easter moves, and
/// so do schools.
const TERMS: [(&str, std::ops::Range<usize>); 3] =
    [("Autumn", 0..4), ("Spring", 4..7), ("Summer", 7..12)];

#[derive(askama::Template)]
#[template(path = "year/slips.html")]
struct SlipsPage {
    layout: Layout,
    nav: Nav,
    graph: Option<Graph>,
    whole: PageTable,
    by_class: PageTable,
}

pub(super) async fn get(state: AppState, Query(asked): Query<YearQuery>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    let made = made(&years);
    Page(SlipsPage {
        layout: by.layout,
        graph: graph(&years.nav, &made),
        whole: whole(&years.nav, &made),
        by_class: by_class(&years, &made),
        nav: years.nav,
    })
    .reply()
}

/// Returns the slips that anybody made, in this year or the one before;
/// commonest first.
pub(super) fn made(years: &Years) -> Vec<(&SlipYear, Share)> {
    let slips = years.now.comparison.slips.iter();
    slips
        .map(|slip| (slip, before(years, slip.slip)))
        .filter(|(slip, before)| slip.whole.made + before.made > 0)
        .collect()
}

fn before(years: &Years, slip: Made) -> Share {
    let before = years.earlier().map(|before| &before.slips);
    let mut slips = before.into_iter().flatten();
    slips
        .find(|other| other.slip == slip)
        .map_or_else(Share::default, |other| other.whole)
}

/// Returns the address of the sheets with a slip.
pub(super) fn sheets_with(nav: &Nav, made: Made) -> String {
    let (place, code) = (made.place(), made.code());
    format!("{}&slip={place}.{code}", nav.to("/sheets"))
}

/// Returns a slip with a link to its page.
fn name(nav: &Nav, made: Made) -> Cell {
    let page = nav.to(&format!("/slips/{}/{}", made.place(), made.code()));
    slip_cell(made).link(page)
}

fn whole(nav: &Nav, made: &[(&SlipYear, Share)]) -> PageTable {
    let mut table = Table::of(made)
        .text("Slip", |(year, _)| name(nav, year.slip))
        .figure("Groups", |(year, _)| {
            let whole = of(year.whole);
            let says = format!("{whole}: sheets with {}", short(year.slip));
            Cell::from(whole).link_called(sheets_with(nav, year.slip), says)
        })
        .figure("Share", |(year, _)| per_cent(year.whole))
        .figure("95 % interval", |(year, _)| per_cent_range(year.whole))
        .figure(format!("In {}", nav.name_before), |(_, before)| {
            let share = (before.of > 0).then(|| per_cent(*before));
            Cell::from(of(*before)).below(share.unwrap_or_default())
        })
        .figure("Change", |(year, before)| {
            let (before, after) = (*before, year.whole);
            points(Change { before, after }.difference())
        })
        .unit("percentage points");
    for (term, months) in TERMS {
        table = table.figure(term, |(year, _)| of(year.in_months(months.clone())));
    }
    table.on_page(
        "Table of slips",
        format!(
            "Groups that made each slip, with Wilson’s 95 % intervals; the change since {} in percentage points with Newcombe’s. Terms: autumn to December, spring January to March, summer from April",
            nav.name_before
        ),
    )
}

fn by_class(years: &Years, made: &[(&SlipYear, Share)]) -> PageTable {
    let nav = &years.nav;
    let mut table = Table::of(made).text("Slip", |(year, _)| name(nav, year.slip));
    for (at, class) in years.now.frame.classes.iter().enumerate() {
        let page = nav.to(&format!("/classes/{}", class.id));
        table = table.figure(Cell::from(&class.name).link(page), |(year, _)| {
            let share = year.by_class.get(at).copied().unwrap_or_default();
            let (cell, short) = (Cell::from(of(share)), short(year.slip));
            let says = format!("{}: sheets of {} with {short}", of(share), class.name);
            match share.made {
                0 => cell,
                _ => cell.link_called(
                    format!("{}&class={}", sheets_with(nav, year.slip), class.id),
                    says,
                ),
            }
        });
    }
    table.on_page(
        "Table of slips by class",
        "Groups that made each slip, by class",
    )
}

fn graph(nav: &Nav, made: &[(&SlipYear, Share)]) -> Option<Graph> {
    let slips = made.iter().map(|(year, before)| {
        let name = match year.slip {
            Made::Shown(_) => short(year.slip).to_owned(),
            Made::Confirmed(_) => format!("{} (readings)", short(year.slip)),
        };
        Lane::new(name, mark(year.whole), mark(*before))
    });
    lanes(Lanes {
        id: "slips-graph".to_owned(),
        title: "How many of the groups made each slip".to_owned(),
        description: year::SLIPS_SHOWN.to_owned(),
        quantity: "share of the groups / %",
        lanes: slips.collect(),
        from_to: (0.0, 10.0),
        line: None,
        key: year::crosses(&nav.name),
        open: year::open_circles(&nav.name_before),
    })
}

/// Returns a share in per cent, with its interval.
pub(super) fn mark(share: Share) -> Option<LaneMark> {
    let interval = share.interval().map(|i| (100.0 * i.low, 100.0 * i.high));
    Some(LaneMark::new(100.0 * share.value()?, interval))
}
