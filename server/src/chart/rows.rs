//! The graph of f against 1/λ: the points of some rows, the line through the
//! origin, the expected curve.

use super::drawing::{ARM, Curve, Drawing, Mark, Quantity};
use super::frame::{BOTTOM, Frame, HEIGHT, LEFT, Place, RIGHT, TOP};
use super::label::{Area, Paper};
use super::points::{Point, key, table};
use super::scale::{Scale, drawable};
use super::{Graph, Kind};
use crate::words::graph::{self, unit};

/// Half the length of the shortest error bar that shows beside its cross.
const SHORTEST_BAR: f64 = 7.0;

/// Places along a curve: enough for a smooth curve.
const PLACES: u32 = 60;

/// Steps that fit along and up without crowding their labels.
const MOST_ALONG: u32 = 10;
const MOST_UP: u32 = 8;

/// A value this many times the middle one does not set the scale: one slip
/// of a power of ten would squeeze all other points into a corner.
const FAR: f64 = 5.0;

/// The speed (m/s) expected at a frequency (Hz); `None` where it is not
/// known.
pub type ExpectedSpeed<'a> = &'a dyn Fn(f64) -> Option<f64>;

/// A gradient with what to call its line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    pub(super) name: &'static str,
    /// In m/s.
    pub(super) gradient: f64,
}

/// What is to be drawn.
pub(super) struct Rows<'a> {
    pub(super) points: Vec<Point>,
    pub(super) fit: Option<Fit>,
    pub(super) expected: Option<ExpectedSpeed<'a>>,
    /// What the points are of: `6 rows`.
    pub(super) of: String,
    /// Sentences on those that stand apart.
    pub(super) apart: Vec<String>,
}

impl Rows<'_> {
    /// Draws the graph; where no point can be drawn, it is the sentence
    /// `nothing`.
    pub(super) fn graph(&self, id: &str, title: &str, nothing: &str) -> Graph {
        let frame = frame(&self.points);
        let drawing = frame.map(|frame| self.draw(&frame));
        let marks = drawing.as_ref().map(|drawing| drawing.marks.as_slice());
        Graph {
            id: id.to_owned(),
            title: title.to_owned(),
            description: match drawing {
                Some(_) => self.description(),
                None => nothing.to_owned(),
            },
            key: marks.map_or_else(Vec::new, key),
            points: frame.map(|frame| table(title, &self.points, &frame)),
            drawing,
        }
    }

    fn draw(&self, frame: &Frame) -> Drawing {
        let mut curves = self.curves(frame);
        let mut marks: Vec<_> = self.points.iter().map(|point| mark(point, frame)).collect();
        self.name_all(&mut marks, &mut curves);
        let [along, up] = quantities(frame);
        Drawing {
            height: HEIGHT,
            sides: [LEFT, RIGHT],
            ends: [TOP, BOTTOM],
            along: frame.along.graph_paper(along),
            up: frame.up.graph_paper(up),
            curves,
            marks,
            names: Vec::new(),
        }
    }

    fn curves(&self, frame: &Frame) -> Vec<Curve> {
        let expected = self
            .expected
            .map(|speed| ("expected", expected(frame, speed)));
        let fit = self
            .fit
            .map(|fit| ("fit", through_origin(frame, fit.gradient)));
        let curves = [expected, fit].into_iter().flatten();
        let seen = curves.filter(|(_, places)| places.len() > 1);
        seen.map(|(class, places)| Curve {
            class,
            places,
            label: None,
        })
        .collect()
    }

    /// Points are named first: their names must be beside them, a line's name
    /// may slide along it.
    fn name_all(&self, marks: &mut [Mark], curves: &mut [Curve]) {
        let mut paper = Paper::default();
        for mark in &*marks {
            paper.mark(Area::about(mark.place, mark.radius()));
            if let Some((left, right)) = mark.bar {
                let across = Area::about(mark.place, ARM);
                paper.mark(Area {
                    left,
                    right,
                    ..across
                });
            }
        }
        for curve in &*curves {
            paper.draw(&curve.places);
        }
        for (point, mark) in self.points.iter().zip(marks) {
            if let Some(name) = &point.label {
                mark.label = paper.name_point(mark.place, mark.radius(), name);
            }
        }
        for (number, curve) in curves.iter_mut().enumerate() {
            let text = match self.fit {
                Some(fit) if curve.class == "fit" => {
                    vec![fit.name.to_owned(), graph::gradient(fit.gradient)]
                }
                _ => vec!["expected".to_owned()],
            };
            curve.label = paper.name_line(number, &text);
        }
    }

    /// Says what is drawn, from where to where, its gradient, and what stands
    /// apart.
    fn description(&self) -> String {
        let frequencies = self.points.iter().map(|point| point.at.1);
        let least = frequencies.clone().fold(f64::INFINITY, f64::min);
        let most = frequencies.fold(0.0, f64::max);
        let slope = self.fit.map(|fit| fit.gradient);
        let mut sentences = vec![graph::rows(&self.of, (least, most), slope)];
        sentences.extend_from_slice(&self.apart);
        if self.expected.is_some() {
            sentences.push(graph::EXPECTED.to_owned());
        }
        sentences.join(" ")
    }
}

/// Returns the axes for points (1/λ in 1/m, f in Hz). Returns `None` when none
/// can be drawn.
fn frame(points: &[Point]) -> Option<Frame> {
    let along = points.iter().map(|point| point.at.0);
    let up = points.iter().map(|point| point.at.1);
    Some(Frame::new(
        Scale::to_cover(largest_shown(along.collect())?, MOST_ALONG)?,
        Scale::to_cover(largest_shown(up.collect())?, MOST_UP)?,
    ))
}

fn largest_shown(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let middle = *values.get(values.len() / 2)?;
    values.into_iter().rfind(|value| *value <= FAR * middle)
}

/// Returns what is along and up, in the units of the numbers.
pub(super) fn quantities(frame: &Frame) -> [Quantity; 2] {
    let along = Quantity {
        words: "1/",
        symbol: "λ",
        unit: unit(frame.along.scale.exponent, "m⁻¹"),
    };
    let up = Quantity {
        words: "",
        symbol: "f",
        unit: unit(frame.up.scale.exponent, "Hz"),
    };
    [along, up]
}

fn mark(point: &Point, frame: &Frame) -> Mark {
    let (x, y) = point.at;
    let end = |share: f64| frame.along.at(x * (1.0 + share));
    let bar = (end(-point.resolution), end(point.resolution));
    let is_seen = frame.holds(point.at) && bar.1 - bar.0 > 2.0 * SHORTEST_BAR;
    let kind = match (x > frame.along.scale.end(), y > frame.up.scale.end()) {
        (false, false) => point.kind,
        (true, false) => Kind::BeyondRight,
        (false, true) => Kind::BeyondTop,
        (true, true) => Kind::BeyondCorner,
    };
    Mark {
        bar: is_seen.then_some(bar),
        ..Mark::new(frame.place(point.at), kind)
    }
}

/// Returns the ends of the line f = slope × 1/λ, from the origin to the edge
/// of the paper, slope in m/s; nothing for a slope that leaves no line to see.
fn through_origin(frame: &Frame, slope: f64) -> Vec<Place> {
    let reach = frame.along.scale.end().min(frame.up.scale.end() / slope);
    let end = (reach, reach * slope);
    if drawable(end.0) && drawable(end.1) {
        vec![frame.place((0.0, 0.0)), frame.place(end)]
    } else {
        Vec::new()
    }
}

/// Returns the curve 1/λ = f / expected speed, as far as it is on the paper.
fn expected(frame: &Frame, speed: ExpectedSpeed<'_>) -> Vec<Place> {
    (1..=PLACES)
        .map(|at| f64::from(at) / f64::from(PLACES) * frame.up.scale.end())
        .filter_map(|f| Some((f / speed(f)?, f)))
        .filter(|point| frame.holds(*point))
        .map(|point| frame.place(point))
        .collect()
}
