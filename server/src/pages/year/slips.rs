//! The slips of a year: how many groups made each, and what changed.

use analysis::year::Made;
use analysis::year::share::{Change, Share};
use analysis::year::slips::SlipYear;
use axum::extract::Query;
use axum::response::IntoResponse;

use super::asked::{Asked, Nav, Years};
use crate::chart::year::{Lane, LaneGraph, LaneMark, LanesOf};
use crate::error::Reply;
use crate::ids::ClassId;
use crate::layout::{Layout, Page};
use crate::report::year::words::{self, slip};
use crate::session::SignedIn;
use crate::state::AppState;

/// Months of each term, counted from September. Our choice: Easter moves, and
/// so do schools.
pub(super) const TERMS: [(&str, std::ops::Range<usize>); 3] =
    [("Autumn", 0..4), ("Spring", 4..7), ("Summer", 7..12)];

#[derive(askama::Template)]
#[template(path = "year/slips.html")]
struct SlipsPage {
    layout: Layout,
    nav: Nav,
    here: &'static str,
    lines: Vec<SlipLine>,
    classes: Vec<(ClassId, String)>,
    graph: Option<LaneGraph>,
}

/// One slip of a year, in words.
pub(super) struct SlipLine {
    pub(super) place: &'static str,
    pub(super) code: &'static str,
    pub(super) short: &'static str,
    pub(super) is_shown: bool,
    pub(super) whole: String,
    pub(super) per_cent: String,
    pub(super) range: String,
    pub(super) before: String,
    pub(super) per_cent_before: String,
    pub(super) points: String,
    pub(super) terms: Vec<String>,
    /// One for each class: what is said, and whether any group made it.
    pub(super) by_class: Vec<(String, bool)>,
}

/// The page.
pub(super) async fn get(state: AppState, Query(asked): Query<Asked>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    let classes = years.now.frame.classes.iter();
    Ok(Page(SlipsPage {
        layout: by.layout,
        here: "/year/slips",
        lines: lines(&years),
        classes: classes
            .map(|class| (class.id, class.name.clone()))
            .collect(),
        graph: graph(&years),
        nav: years.nav,
    })
    .into_response())
}

/// The slips that anybody made, in this year or the one before; commonest
/// first.
pub(super) fn made(years: &Years) -> Vec<(&SlipYear, Share)> {
    let slips = years.now.comparison.slips.iter();
    slips
        .map(|slip| (slip, before(years, slip.slip)))
        .filter(|(slip, before)| slip.whole.made + before.made > 0)
        .collect()
}

fn before(years: &Years, slip: Made) -> Share {
    let before = years.before.as_ref().map(|before| &before.comparison.slips);
    let mut slips = before.into_iter().flatten();
    slips
        .find(|other| other.slip == slip)
        .map_or_else(Share::default, |other| other.whole)
}

pub(super) fn lines(years: &Years) -> Vec<SlipLine> {
    let line = |(year, before): (&SlipYear, Share)| {
        let change = Change {
            before,
            after: year.whole,
        };
        SlipLine {
            place: slip::place(year.slip),
            code: slip::code(year.slip),
            short: slip::short(year.slip),
            is_shown: matches!(year.slip, Made::Shown(_)),
            whole: words::of(year.whole),
            per_cent: words::per_cent(year.whole),
            range: words::per_cent_range(year.whole),
            before: words::of(before),
            per_cent_before: words::per_cent(before),
            points: words::points(change.difference()),
            terms: TERMS
                .map(|(_, months)| words::of(year.in_months(months)))
                .to_vec(),
            by_class: year
                .by_class
                .iter()
                .map(|share| (words::of(*share), share.made > 0))
                .collect(),
        }
    };
    made(years).into_iter().map(line).collect()
}

fn graph(years: &Years) -> Option<LaneGraph> {
    let lanes = made(years).into_iter().map(|(year, before)| Lane {
        name: match year.slip {
            Made::Shown(_) => slip::short(year.slip).to_owned(),
            Made::Confirmed(_) => format!("{} (readings)", slip::short(year.slip)),
        },
        marks: [mark(year.whole), mark(before).map(LaneMark::open)]
            .into_iter()
            .flatten()
            .collect(),
    });
    let lanes: Vec<Lane> = lanes.collect();
    let open_circles = years.open_circles(&lanes);
    LaneGraph::draw(LanesOf {
        id: "slips-graph".to_owned(),
        title: "How many of the groups made each slip".to_owned(),
        description: "One line for each slip, commonest first. The table says the same in numbers."
            .to_owned(),
        quantity: "share of the groups / %",
        lanes,
        from_to: (0.0, 10.0),
        lines: Vec::new(),
        key: std::iter::once(format!("Crosses: {}, with 95 % intervals.", years.nav.name))
            .chain(open_circles)
            .collect(),
    })
}

/// A share in per cent, with its interval.
pub(super) fn mark(share: Share) -> Option<LaneMark> {
    let interval = share.interval().map(|i| (100.0 * i.low, 100.0 * i.high));
    Some(LaneMark::new(100.0 * share.value()?, interval))
}
