//! The kits of a year: which read high or low, and how sure.

use analysis::year::kits::{Kind, KitYear, Standing};
use axum::extract::Query;
use axum::response::IntoResponse;

use super::asked::{Asked, Nav, Years};
use crate::chart::year::{Lane, LaneGraph, LaneMark, LanesOf};
use crate::error::Reply;
use crate::ids::KitId;
use crate::layout::{Layout, Page};
use crate::report::year::words::{self, kit};
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "year/kits.html")]
struct KitsPage {
    layout: Layout,
    nav: Nav,
    here: &'static str,
    kinds: Vec<KindPart>,
}

/// The kits of one kind.
struct KindPart {
    name: &'static str,
    compared_with: String,
    lines: Vec<KitLine>,
    graph: Option<LaneGraph>,
}

/// One kit of a year, in words.
pub(super) struct KitLine {
    pub(super) id: KitId,
    pub(super) label: String,
    pub(super) headline: String,
    pub(super) sheets: usize,
    pub(super) lessons: usize,
    pub(super) median: String,
    pub(super) median_range: String,
    pub(super) ratio: String,
    pub(super) range: String,
    pub(super) off: String,
    pub(super) off_range: String,
    pub(super) off_before: String,
    pub(super) range_before: String,
}

/// The page.
pub(super) async fn get(state: AppState, Query(asked): Query<Asked>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    let kinds = [Kind::Tank, Kind::Generator, Kind::String].map(|kind| part(&years, kind));
    Ok(Page(KitsPage {
        layout: by.layout,
        here: "/year/kits",
        kinds: kinds.into_iter().flatten().collect(),
        nav: years.nav,
    })
    .into_response())
}

fn part(years: &Years, kind: Kind) -> Option<KindPart> {
    let lines = lines(years, kind);
    if lines.is_empty() {
        return None;
    }
    let levels = &years.now.comparison.levels;
    let level = levels.iter().find(|level| level.kind == kind)?;
    Some(KindPart {
        name: kit::many(kind),
        compared_with: kit::compared_with(level),
        graph: graph(years, kind),
        lines,
    })
}

/// The kits of one kind, by label.
pub(super) fn lines(years: &Years, kind: Kind) -> Vec<KitLine> {
    let kits = years.now.frame.kits.iter().zip(&years.now.comparison.kits);
    kits.enumerate()
        .filter(|(_, (_, year))| year.kind == kind)
        .map(|(at, (listed, year))| {
            let before = before(years, at).and_then(|before| before.off);
            KitLine {
                id: listed.id,
                label: listed.label.clone(),
                headline: kit::headline(&listed.label, year),
                sheets: year.sheets,
                lessons: year.lessons,
                median: words::ratio(year.median),
                median_range: words::range(year.median_range),
                ratio: words::ratio(year.ratio.map(|figure| figure.value)),
                range: words::ratio_range(year.ratio),
                off: year
                    .off
                    .map_or_else(|| "–".to_owned(), |f| words::off(f.value)),
                off_range: words::off_range(year.off),
                off_before: before.map_or_else(|| "–".to_owned(), |f| words::off(f.value)),
                range_before: words::off_range(before),
            }
        })
        .collect()
}

/// The same kit in the year before: the list of kits has no years.
pub(super) fn before(years: &Years, kit: usize) -> Option<&KitYear> {
    years.before.as_ref()?.comparison.kits.get(kit)
}

fn graph(years: &Years, kind: Kind) -> Option<LaneGraph> {
    let kits = years.now.frame.kits.iter().zip(&years.now.comparison.kits);
    let of_kind = kits.enumerate().filter(|(_, (_, year))| year.kind == kind);
    let lanes = of_kind.map(|(at, (listed, year))| Lane {
        name: listed.label.clone(),
        marks: [
            mark(year),
            before(years, at).and_then(mark).map(LaneMark::open),
        ]
        .into_iter()
        .flatten()
        .collect(),
    });
    let lanes: Vec<Lane> = lanes.collect();
    let told = lanes.iter().filter(|lane| !lane.marks.is_empty()).count();
    if told == 0 {
        return None;
    }
    let open_circles = years.open_circles(&lanes);
    LaneGraph::draw(LanesOf {
        id: format!("{}-graph", kit::many(kind)),
        title: format!(
            "How far each of the {} is from what it is compared with",
            kit::many(kind)
        ),
        description: format!(
            "One line for each of {told} {}. The table says the same in numbers.",
            kit::many(kind)
        ),
        quantity: "high (+) or low (−) / %",
        lanes,
        from_to: (-2.0, 2.0),
        lines: vec![0.0],
        key: std::iter::once("Crosses: this year, with 95 % intervals.".to_owned())
            .chain(open_circles)
            .collect(),
    })
}

fn mark(kit: &KitYear) -> Option<LaneMark> {
    let off = kit.off?;
    let mark = LaneMark::new(100.0 * off.value, Some((100.0 * off.low, 100.0 * off.high)));
    Some(LaneMark {
        is_wide: kit.standing == Standing::TooFew,
        ..mark
    })
}
