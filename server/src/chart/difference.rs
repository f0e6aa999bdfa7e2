//! The difference plot of two markers: second − first against the mean of
//! both, sheet by sheet.
//!
//! Bland and Altman (1986): against the mean, since neither marker is the
//! truth. Nought stands in the middle, so that a leaning is seen at once.

use askama::Template;
use askama::filters::HtmlSafe;

use super::draw::AxisLabel;
use super::frame::{self, Place, across};
use super::label::{Area, Label, Paper};
use super::scale::Scale;
use crate::words::counted;

/// Half the width of a cross and what it needs clear.
const CLEAR: f64 = 8.0;
/// More names than this are no help.
const MOST_NAMES: usize = 8;
/// Steps that fit along, and from nought up.
const MOST_ALONG: u32 = 10;
const MOST_UP: u32 = 4;

/// A sheet that both markers have marked.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its name beside the cross, where it is outside the tolerance; blank: it
    /// has none.
    pub name: String,
    /// The mean of both totals, in marks.
    pub mean: f64,
    /// Second − first, in marks.
    pub difference: f64,
    /// Whether it is within the tolerance.
    pub is_within: bool,
}

/// A level across the plot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// Its name.
    pub name: &'static str,
    /// In marks.
    pub at: f64,
    /// Its class in the stylesheet.
    pub class: &'static str,
}

/// A level, placed.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedLevel {
    /// From the top.
    pub up: f64,
    /// Its class in the stylesheet.
    pub class: &'static str,
    /// Its name.
    pub label: Option<Label>,
}

/// A cross.
#[derive(Clone, Debug, PartialEq)]
pub struct Cross {
    /// Where it is.
    pub place: Place,
    /// Whether it is heavy: outside the tolerance.
    pub is_apart: bool,
    /// Its name, or how many sheets it stands for.
    pub label: Option<Label>,
}

/// A difference plot, ready for a page.
#[derive(Clone, Debug, Template)]
#[template(path = "chart/difference.html")]
pub struct DifferencePlot {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: &'static str,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// What its marks mean, one sentence each.
    pub key: Vec<&'static str>,
    /// Fine lines of the graph paper, from the left.
    pub fine_along: Vec<f64>,
    /// Fine lines of the graph paper, from the top.
    pub fine_up: Vec<f64>,
    /// The numbers along.
    pub along: Vec<AxisLabel>,
    /// The numbers up.
    pub up: Vec<AxisLabel>,
    /// Nought, from the top.
    pub nought: f64,
    /// The mean and the limits.
    pub levels: Vec<PlacedLevel>,
    /// The sheets.
    pub crosses: Vec<Cross>,
}

// A whole template, which has escaped what it was given.
impl HtmlSafe for DifferencePlot {}

/// The axes: `along` from 0, and `up` the same way down.
struct Paired {
    along: Scale,
    up: Scale,
}

impl Paired {
    fn up_at(&self, value: f64) -> f64 {
        let share = (value / self.up.end()).clamp(-1.0, 1.0);
        frame::upward((share + 1.0) / 2.0)
    }

    fn place(&self, sheet: &Sheet) -> Place {
        let share = (sheet.mean / self.along.end()).clamp(0.0, 1.0);
        Place::new(across(share), self.up_at(sheet.difference))
    }
}

/// The plot of some sheets with levels across it; `most` is what a sheet may
/// have at most. `None` where there is no sheet, or no mark to be had.
#[must_use]
pub fn difference_plot(
    id: &'static str,
    sheets: &[Sheet],
    levels: &[Level],
    most: f64,
) -> Option<DifferencePlot> {
    let sizes = sheets.iter().map(|sheet| sheet.difference);
    let heights = sizes.chain(levels.iter().map(|level| level.at));
    // At least one mark each way, also where all agree.
    let farthest = heights.map(f64::abs).fold(1.0, f64::max);
    let axes = Paired {
        along: Scale::to_cover(0.98 * most, MOST_ALONG)?,
        up: Scale::to_cover(farthest, MOST_UP)?,
    };
    if sheets.is_empty() {
        return None;
    }
    let (levels, crosses) = named(&axes, sheets, levels);
    Some(DifferencePlot {
        id,
        description: description(sheets),
        key: key(sheets, &crosses),
        fine_along: axes.along.fine_lines().into_iter().map(across).collect(),
        fine_up: both_ways(&axes.up.fine_lines()),
        along: numbers_along(&axes.along),
        up: numbers_up(&axes.up),
        nought: axes.up_at(0.0),
        levels,
        crosses,
    })
}

/// Places above and below nought, from the top.
fn both_ways(shares: &[f64]) -> Vec<f64> {
    let both = shares.iter().flat_map(|share| [*share, -share]);
    both.map(|share| frame::upward((1.0 + share) / 2.0))
        .collect()
}

fn numbers_along(scale: &Scale) -> Vec<AxisLabel> {
    let ticks = scale.ticks();
    let is_crowded = ticks.len() > 6;
    let numbers = ticks.into_iter().enumerate();
    numbers
        .map(|(index, tick)| AxisLabel {
            at: across(tick.share),
            text: tick.text,
            minor: is_crowded && index % 2 == 1,
        })
        .collect()
}

fn numbers_up(scale: &Scale) -> Vec<AxisLabel> {
    let label = |share: f64, text: String| AxisLabel {
        at: frame::upward((1.0 + share) / 2.0),
        text,
        minor: false,
    };
    let ticks = scale.ticks().into_iter();
    ticks
        .flat_map(|tick| match tick.share > 0.0 {
            true => vec![
                label(tick.share, format!("+{}", tick.text)),
                label(-tick.share, format!("−{}", tick.text)),
            ],
            false => vec![label(0.0, tick.text)],
        })
        .collect()
}

/// Sheets are named first: their names must be beside them, a level's may slide
/// along it.
fn named(axes: &Paired, sheets: &[Sheet], levels: &[Level]) -> (Vec<PlacedLevel>, Vec<Cross>) {
    let mut paper = Paper::default();
    let mut crosses = crosses(axes, sheets);
    for (cross, _) in &crosses {
        paper.mark(Area::about(cross.place, CLEAR));
    }
    let nought = std::iter::once(0.0);
    for at in levels.iter().map(|level| level.at).chain(nought) {
        paper.draw(&[frame::LEFT, frame::RIGHT].map(|x| Place::new(x, axes.up_at(at))));
    }
    let names = crosses.iter().filter(|(_, name)| !name.is_empty()).count();
    for (cross, name) in &mut crosses {
        let is_number = name.starts_with('×');
        if !name.is_empty() && (is_number || names <= MOST_NAMES) {
            cross.label = paper.name_point(cross.place, CLEAR, name);
        }
    }
    let levels = levels
        .iter()
        .enumerate()
        .map(|(number, level)| PlacedLevel {
            up: axes.up_at(level.at),
            class: level.class,
            label: paper.name_line(number, &[level.name.to_owned()]),
        });
    let crosses = crosses.into_iter().map(|(cross, _)| cross);
    (levels.collect(), crosses.collect())
}

/// One cross a place, with what to write beside it: the name of its sheet, or
/// how many fall on it.
fn crosses(axes: &Paired, sheets: &[Sheet]) -> Vec<(Cross, String)> {
    let mut placed: Vec<(Cross, Vec<&str>)> = Vec::new();
    for sheet in sheets {
        let place = axes.place(sheet);
        let name = if sheet.is_within { "" } else { &sheet.name };
        match placed.iter_mut().find(|(cross, _)| cross.place == place) {
            Some((_, names)) => names.push(name),
            None => {
                let cross = Cross {
                    place,
                    is_apart: !sheet.is_within,
                    label: None,
                };
                placed.push((cross, vec![name]));
            }
        }
    }
    let with_text = placed.into_iter().map(|(cross, names)| match names[..] {
        [name] => (cross, name.to_owned()),
        _ => (cross, format!("×{}", names.len())),
    });
    with_text.collect()
}

fn description(sheets: &[Sheet]) -> String {
    let above = sheets.iter().filter(|sheet| sheet.difference > 0.0).count();
    let below = sheets.iter().filter(|sheet| sheet.difference < 0.0).count();
    let outside = sheets.iter().filter(|sheet| !sheet.is_within).count();
    format!(
        "Second less first total against the mean of both, for {}: the second is higher on {above}, lower on {below} and the same on {}. {} outside the tolerance.",
        counted(sheets.len(), "sheet", "sheets"),
        sheets.len() - above - below,
        counted(outside, "sheet lies", "sheets lie"),
    )
}

fn key(sheets: &[Sheet], crosses: &[Cross]) -> Vec<&'static str> {
    let sentences = [
        (
            crosses.iter().any(|cross| cross.is_apart),
            "Heavy crosses are sheets outside the tolerance.",
        ),
        (
            crosses.len() < sheets.len(),
            "A number beside a cross says how many sheets fall on it.",
        ),
    ];
    let needed = sentences.into_iter().filter(|(is_needed, _)| *is_needed);
    needed.map(|(_, sentence)| sentence).collect()
}

/// What the template asks for.
impl DifferencePlot {
    /// Every name on the paper, to be written over all else.
    #[must_use]
    pub fn labels(&self) -> Vec<&Label> {
        let of_levels = self.levels.iter().filter_map(|level| level.label.as_ref());
        let of_crosses = self.crosses.iter().filter_map(|cross| cross.label.as_ref());
        of_levels.chain(of_crosses).collect()
    }

    fn width(&self) -> f64 {
        frame::WIDTH
    }

    fn height(&self) -> f64 {
        frame::HEIGHT
    }

    fn left(&self) -> f64 {
        frame::LEFT
    }

    fn right(&self) -> f64 {
        frame::RIGHT
    }

    fn top(&self) -> f64 {
        frame::TOP
    }

    fn bottom(&self) -> f64 {
        frame::BOTTOM
    }
}
