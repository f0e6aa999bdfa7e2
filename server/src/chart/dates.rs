//! A kit's sheets in date order, with the lines between which they should be.

use super::drawing::{Axis, AxisLabel, Curve, Drawing, Mark, needed};
use super::frame::{BOTTOM, HEIGHT, LEFT, Place, RIGHT, Ruler, TOP};
use super::label::{Label, Side};
use super::scale::Scale;
use super::{Graph, Kind};
use crate::words::graph;

/// Days of the axis: from 1 September to the last of August.
const DAYS: f64 = 366.0;
/// First day of each month, counted from 1 September, with its name.
const MONTHS: [(f64, &str); 12] = [
    (0.0, "Sep"),
    (30.0, "Oct"),
    (61.0, "Nov"),
    (91.0, "Dec"),
    (122.0, "Jan"),
    (153.0, "Feb"),
    (181.0, "Mar"),
    (212.0, "Apr"),
    (242.0, "May"),
    (273.0, "Jun"),
    (303.0, "Jul"),
    (334.0, "Aug"),
];
/// The axis reaches so many standard deviations from the reference: beyond,
/// a sheet is an arrow at the edge.
const REACH: f64 = 4.5;
/// Steps that fit up without crowding their labels.
const MOST: u32 = 8;

/// What is to be drawn.
#[derive(Clone, Debug)]
pub struct Dates {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: String,
    /// What the graph is of.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// The ratio that kits are compared with.
    pub reference: f64,
    /// The ratios two and three standard deviations below and above it.
    pub sigma_lines: Option<[f64; 4]>,
    /// The kit's own median.
    pub median: Option<f64>,
    pub sheets: Vec<Dated>,
}

/// A sheet.
#[derive(Clone, Copy, Debug)]
pub struct Dated {
    /// Days since 1 September.
    pub day: f64,
    /// Speed ÷ expected speed.
    pub ratio: f64,
    /// Whether it is left aside.
    pub is_aside: bool,
}

/// Draws the sheets. Returns `None` where there is none.
#[must_use]
pub fn dates(of: Dates) -> Option<Graph> {
    let up = Ruler::up(scale(&of)?);
    let marks: Vec<Mark> = of.sheets.iter().map(|sheet| mark(sheet, &up)).collect();
    if marks.is_empty() {
        return None;
    }
    Some(Graph {
        key: key(&of, &marks),
        drawing: Some(Drawing {
            height: HEIGHT,
            sides: [LEFT, RIGHT],
            ends: [TOP, BOTTOM],
            along: months(),
            up: up.axis("speed ÷ expected speed"),
            curves: levels(&of, &up),
            marks,
            names: Vec::new(),
        }),
        id: of.id,
        title: of.title,
        description: of.description,
        points: None,
    })
}

fn mark(sheet: &Dated, up: &Ruler) -> Mark {
    let kind = match sheet {
        sheet if sheet.ratio > up.scale.end() => Kind::BeyondTop,
        sheet if sheet.ratio < up.scale.start() => Kind::BeyondBottom,
        sheet if sheet.is_aside => Kind::LeftOut,
        _ => Kind::Cross,
    };
    Mark::new(Place::new(across(sheet.day), up.at(sheet.ratio)), kind)
}

fn key(of: &Dates, marks: &[Mark]) -> Vec<String> {
    let has = |kinds: &[Kind]| marks.iter().any(|mark| kinds.contains(&mark.kind));
    needed(&[
        (true, graph::CROSS),
        (has(&[Kind::LeftOut]), graph::OPEN_SHEET),
        (
            has(&[Kind::BeyondTop, Kind::BeyondBottom]),
            graph::ARROW_SHEET,
        ),
        (of.sigma_lines.is_some(), graph::DASHED),
        (of.median.is_some(), graph::OWN_MEDIAN),
    ])
}

fn across(day: f64) -> f64 {
    LEFT + (day / DAYS).clamp(0.0, 1.0) * (RIGHT - LEFT)
}

fn months() -> Axis {
    let months = MONTHS.iter().enumerate();
    let numbers = months.map(|(index, (day, name))| AxisLabel {
        at: Place::new(across(*day), 0.0).x,
        text: (*name).to_owned(),
        minor: index % 2 == 1,
    });
    Axis {
        quantity: "date of the lesson".into(),
        numbers: numbers.collect(),
        is_after: true,
        fine: Vec::new(),
    }
}

fn scale(of: &Dates) -> Option<Scale> {
    let reach = match of.sigma_lines {
        Some([lowest, .., highest]) => (highest - lowest) / 6.0 * REACH,
        None => 0.25 * of.reference,
    };
    let median = of.median.unwrap_or(of.reference);
    let low = (of.reference - reach).min(median);
    let high = (of.reference + reach).max(median);
    Scale::around(low, high, MOST)
}

fn levels(of: &Dates, up: &Ruler) -> Vec<Curve> {
    let names = ["−3 s", "−2 s", "+2 s", "+3 s"];
    let sigmas = of.sigma_lines.into_iter().flatten().zip(names);
    let dashed = sigmas.chain([(of.reference, "compared with")]);
    let dashed = dashed.map(|(value, name)| ("expected", value, name));
    let own = of.median.map(|median| ("fit", median, ""));
    let lines = dashed.chain(own);
    let on_paper = lines.filter(|(_, value, _)| up.scale.holds(*value));
    on_paper
        .map(|(class, value, name)| {
            let [left, right] = [LEFT, RIGHT].map(|x| Place::new(x, up.at(value)));
            Curve {
                class,
                places: vec![left, right],
                label: (!name.is_empty()).then(|| Label {
                    corner: right,
                    side: Side::AboveLeft,
                    leads_to: None,
                    lines: vec![name.to_owned()],
                }),
            }
        })
        .collect()
}
