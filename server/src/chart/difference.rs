//! The difference plot of two markers: second − first against the mean of
//! both, sheet by sheet.
//!
//! Bland and Altman (1986): against the mean, since neither marker is the
//! truth. Nought stands in the middle, so that a leaning is seen at once.

use super::drawing::{Curve, Drawing, Mark, needed};
use super::frame::{BOTTOM, Frame, HEIGHT, LEFT, Place, RIGHT, TOP};
use super::label::{Area, Paper};
use super::scale::Scale;
use super::{Graph, Kind};
use crate::words::graph;

/// More names than this are no help.
const MOST_NAMES: usize = 8;
/// Steps that fit along and up.
const MOST_ALONG: u32 = 10;
const MOST_UP: u32 = 8;
/// Room kept between the largest difference and the edge, as a share.
const HEADROOM: f64 = 1.02;

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
    pub name: &'static str,
    /// In marks.
    pub at: f64,
    /// Its class in the stylesheet.
    pub class: &'static str,
}

/// Plots some sheets with levels across; `most` is what a sheet may have at
/// most. Returns `None` where there is no sheet, or no mark to be had.
#[must_use]
pub fn difference_plot(id: &str, sheets: &[Sheet], levels: &[Level], most: f64) -> Option<Graph> {
    let sizes = sheets.iter().map(|sheet| sheet.difference);
    let heights = sizes.chain(levels.iter().map(|level| level.at));
    // At least one mark each way, also where all agree.
    let farthest = HEADROOM * heights.map(f64::abs).fold(1.0, f64::max);
    let along = Scale::to_cover(0.98 * most, MOST_ALONG)?;
    let frame = Frame::new(along, Scale::around(-farthest, farthest, MOST_UP)?);
    if sheets.is_empty() {
        return None;
    }
    let marks = crosses(&frame, sheets);
    let (marks, curves) = named(&frame, marks, levels);
    Some(Graph {
        id: id.to_owned(),
        title: "Differences of the two markings".to_owned(),
        description: description(sheets),
        key: key(sheets, &marks),
        points: None,
        drawing: Some(drawing(&frame, marks, curves)),
    })
}

fn drawing(frame: &Frame, marks: Vec<Mark>, curves: Vec<Curve>) -> Drawing {
    let mut up = frame.up.graph_paper("second − first / marks");
    for number in up
        .numbers
        .iter_mut()
        .filter(|number| number.at < frame.up.at(0.0))
    {
        number.text.insert(0, '+');
    }
    Drawing {
        height: HEIGHT,
        sides: [LEFT, RIGHT],
        ends: [TOP, BOTTOM],
        along: frame.along.graph_paper("mean of both / marks"),
        up,
        curves,
        marks,
        names: Vec::new(),
    }
}

/// Sheets are named first: their names must be beside them, a level's may slide
/// along it.
fn named(frame: &Frame, marks: Vec<(Mark, String)>, levels: &[Level]) -> (Vec<Mark>, Vec<Curve>) {
    let mut paper = Paper::default();
    for (mark, _) in &marks {
        paper.mark(Area::about(mark.place, mark.radius()));
    }
    let nought = Level {
        name: "",
        at: 0.0,
        class: "axis",
    };
    let curves = levels.iter().chain([&nought]).map(|level| Curve {
        class: level.class,
        places: [LEFT, RIGHT]
            .map(|x| Place::new(x, frame.up.at(level.at)))
            .to_vec(),
        label: None,
    });
    let mut curves: Vec<Curve> = curves.collect();
    for curve in &curves {
        paper.draw(&curve.places);
    }
    let names = marks.iter().filter(|(_, name)| !name.is_empty()).count();
    let marks = marks.into_iter().map(|(mark, name)| {
        let is_number = name.starts_with('×');
        let is_named = !name.is_empty() && (is_number || names <= MOST_NAMES);
        let name = || paper.name_point(mark.place, mark.radius(), &name);
        let label = is_named.then(name).flatten();
        Mark { label, ..mark }
    });
    let marks = marks.collect();
    for (number, (level, curve)) in levels.iter().zip(&mut curves).enumerate() {
        curve.label = paper.name_line(number, &[level.name.to_owned()]);
    }
    (marks, curves)
}

/// Returns one cross a place, with what to write beside it: the name of its
/// sheet, or how many fall on it.
fn crosses(frame: &Frame, sheets: &[Sheet]) -> Vec<(Mark, String)> {
    let mut placed: Vec<(Mark, Vec<&str>)> = Vec::new();
    for sheet in sheets {
        let place = frame.place((sheet.mean, sheet.difference));
        let (kind, name) = match sheet.is_within {
            true => (Kind::Cross, ""),
            false => (Kind::Apart, sheet.name.as_str()),
        };
        match placed.iter_mut().find(|(mark, _)| mark.place == place) {
            Some((_, names)) => names.push(name),
            None => placed.push((Mark::new(place, kind), vec![name])),
        }
    }
    let with_text = placed.into_iter().map(|(mark, names)| match names[..] {
        [name] => (mark, name.to_owned()),
        _ => (mark, format!("×{}", names.len())),
    });
    with_text.collect()
}

fn description(sheets: &[Sheet]) -> String {
    let above = sheets.iter().filter(|sheet| sheet.difference > 0.0).count();
    let below = sheets.iter().filter(|sheet| sheet.difference < 0.0).count();
    let outside = sheets.iter().filter(|sheet| !sheet.is_within).count();
    graph::differences(sheets.len(), above, below, outside)
}

fn key(sheets: &[Sheet], marks: &[Mark]) -> Vec<String> {
    needed(&[
        (
            marks.iter().any(|mark| mark.kind == Kind::Apart),
            graph::HEAVY_SHEET,
        ),
        (marks.len() < sheets.len(), graph::MANY_SHEETS),
    ])
}
