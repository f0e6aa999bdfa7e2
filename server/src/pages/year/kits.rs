//! The kits of a year: which read high or low, and how sure.

use analysis::year::kits::{Kind, KitYear, Standing};
use axum::extract::Query;

use super::{Nav, YearQuery, Years, off_cell, ratio_cell};
use crate::chart::lanes::{Lane, LaneMark, Lanes};
use crate::chart::{Graph, lanes};
use crate::db::kit::Kit;
use crate::ids::KitId;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::kit_year::{compared_with, headline, many};
use crate::words::share::{ratio, ratio_range};
use crate::words::year;

#[derive(askama::Template)]
#[template(path = "year/kits.html")]
struct KitsPage {
    layout: Layout,
    nav: Nav,
    kinds: Vec<KindPart>,
}

struct KindPart {
    name: &'static str,
    compared_with: String,
    headlines: Vec<(KitId, String)>,
    graph: Option<Graph>,
    table: PageTable,
}

/// A kit, its year, and the year before: the list of kits has no years.
type KitLine<'a> = (&'a Kit, &'a KitYear, Option<&'a KitYear>);

/// Shows the page.
pub(super) async fn get(state: AppState, Query(asked): Query<YearQuery>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    let kinds = [Kind::Tank, Kind::Generator, Kind::String].map(|kind| part(&years, kind));
    Page(KitsPage {
        layout: by.layout,
        kinds: kinds.into_iter().flatten().collect(),
        nav: years.nav,
    })
    .reply()
}

fn part(years: &Years, kind: Kind) -> Option<KindPart> {
    let kits = years.now.frame.kits.iter().zip(&years.now.comparison.kits);
    let earlier = |at: usize| years.earlier()?.kits.get(at);
    let lines = kits.enumerate().filter(|(_, (_, year))| year.kind == kind);
    let lines: Vec<KitLine<'_>> = lines
        .map(|(at, (kit, year))| (kit, year, earlier(at)))
        .collect();
    let levels = &years.now.comparison.levels;
    let level = levels.iter().find(|level| level.kind == kind)?;
    let headlines = lines
        .iter()
        .map(|(kit, year, _)| (kit.id, headline(&kit.label, year)));
    (!lines.is_empty()).then(|| KindPart {
        name: many(kind),
        compared_with: compared_with(level),
        headlines: headlines.collect(),
        graph: graph(&years.nav, kind, &lines),
        table: table(&years.nav, kind, &lines),
    })
}

fn table(nav: &Nav, kind: Kind, lines: &[KitLine<'_>]) -> PageTable {
    let interval = "95 % interval";
    let page = |kit: &Kit| nav.to(&format!("/kits/{}", kit.id));
    Table::of(lines)
        .name("Kit", |(kit, ..)| Cell::from(&kit.label).link(page(kit)))
        .figure("Lessons", |(_, year, _)| year.lessons)
        .figure("Sheets", |(kit, year, _)| {
            let says = format!("{} sheets of {}", year.sheets, kit.label);
            Cell::from(year.sheets).link_called(page(kit) + "#order", says)
        })
        .figure("Median", |(_, year, _)| {
            Cell::from(ratio(year.median)).below(ratio_range(year.median_range))
        })
        .unit(interval)
        .figure("Robust mean", |(_, year, _)| ratio_cell(year.ratio))
        .unit(interval)
        .text("High or low", |(_, year, _)| off_cell(year.off))
        .unit(interval)
        .text(format!("In {}", nav.name_before), |(.., before)| off_cell(before.and_then(|before| before.off)))
        .on_page(
            format!("Table of {}", many(kind)),
            "Speed ÷ expected speed of the sheets that name each kit: the middle one, and the robust mean",
        )
}

fn graph(nav: &Nav, kind: Kind, kits: &[KitLine<'_>]) -> Option<Graph> {
    let kind = many(kind);
    let lane = |(kit, year, before): &KitLine<'_>| {
        Lane::new(&kit.label, mark(year), before.and_then(mark))
    };
    let of: Vec<Lane> = kits.iter().map(lane).collect();
    let told = of.iter().filter(|lane| !lane.marks.is_empty()).count();
    lanes(Lanes {
        id: format!("{kind}-graph"),
        title: format!("How far each of the {kind} is from what it is compared with"),
        description: year::lines(told, kind),
        quantity: "high (+) or low (−) / %",
        lanes: of,
        from_to: (-2.0, 2.0),
        line: Some(0.0),
        key: year::CROSSES.to_owned(),
        open: year::open_circles(&nav.name_before),
    })
}

fn mark(kit: &KitYear) -> Option<LaneMark> {
    let off = kit.off?;
    Some(LaneMark {
        is_wide: kit.standing == Standing::TooFew,
        ..LaneMark::new(100.0 * off.value, Some((100.0 * off.low, 100.0 * off.high)))
    })
}
