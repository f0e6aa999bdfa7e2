//! Everything in its place: axes, lines, points and labels.

use super::curve::{self, ExpectedSpeed};
use super::frame::{self, Frame, Place, across, placed, upward};
use super::label::{Area, Label, Paper};
use super::points::{Kind, Point};
use super::words;

/// Half the width of a cross.
const ARM: f64 = 5.0;

/// The radius of a ring.
const RING: f64 = 10.0;

/// Half the length of the shortest error bar that shows beside its cross.
const SHORTEST_BAR: f64 = 7.0;

/// From this many steps on, a phone shows every other label along.
const CROWDED: usize = 6;

/// A number on an axis.
#[derive(Clone, Debug, PartialEq)]
pub struct AxisLabel {
    /// Its distance from the left or from the top.
    pub at: f64,
    /// The number.
    pub text: String,
    /// Whether a phone can do without it.
    pub minor: bool,
}

/// A line of a graph.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Its class in the stylesheet.
    pub class: &'static str,
    /// Places along it.
    pub places: Vec<Place>,
    /// Its name.
    pub label: Option<Label>,
}

/// A point of a graph.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where it is.
    pub place: Place,
    /// Its shape.
    pub kind: Kind,
    /// The ends of its error bar, from the left, where that is longer than
    /// the mark itself.
    pub bar: Option<(f64, f64)>,
    /// Its name, where it stands apart.
    pub label: Option<Label>,
}

impl Mark {
    /// How far from its place it needs to be clear.
    #[must_use]
    pub fn radius(&self) -> f64 {
        match self.kind {
            Kind::Cross | Kind::Apart | Kind::LeftOut => ARM + 3.0,
            Kind::Ringed => RING + 2.0,
            Kind::BeyondRight | Kind::BeyondTop | Kind::BeyondCorner => 3.0 * ARM,
        }
    }
}

/// What the template draws.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The axes.
    pub frame: Frame,
    /// Fine lines of the graph paper, from the left.
    pub fine_along: Vec<f64>,
    /// Fine lines of the graph paper, from the top.
    pub fine_up: Vec<f64>,
    /// The numbers of the axis of 1/λ.
    pub along: Vec<AxisLabel>,
    /// The numbers of the axis of f.
    pub up: Vec<AxisLabel>,
    /// The unit of the numbers along.
    pub along_unit: String,
    /// The unit of the numbers up.
    pub up_unit: String,
    /// The lines.
    pub curves: Vec<Curve>,
    /// The points.
    pub marks: Vec<Mark>,
}

/// A gradient with what to call its line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    /// The name.
    pub(super) name: &'static str,
    /// In m/s.
    pub(super) gradient: f64,
}

/// Places everything; `None` where there is no point.
pub(super) fn draw(
    points: &[Point],
    fit: Option<Fit>,
    expected: Option<ExpectedSpeed<'_>>,
) -> Option<Drawing> {
    let at: Vec<_> = points.iter().map(|point| point.at).collect();
    let frame = Frame::around(&at)?;
    let mut curves = curves(&frame, fit, expected);
    let mut marks: Vec<_> = points.iter().map(|point| mark(point, &frame)).collect();
    name_all(points, &mut marks, fit, &mut curves);
    let fine_along = frame.along.fine_lines();
    let fine_up = frame.up.fine_lines();
    Some(Drawing {
        fine_along: fine_along.into_iter().map(across).collect(),
        fine_up: fine_up.into_iter().map(upward).collect(),
        along: numbers(placed(&frame.along.ticks(), across), CROWDED),
        up: numbers(placed(&frame.up.ticks(), upward), usize::MAX),
        along_unit: words::unit(frame.along.exponent, "m⁻¹"),
        up_unit: words::unit(frame.up.exponent, "Hz"),
        frame,
        curves,
        marks,
    })
}

fn numbers(ticks: Vec<(f64, String)>, crowded: usize) -> Vec<AxisLabel> {
    let crowd = ticks.len() > crowded;
    let number = |(index, (at, text)): (usize, (f64, String))| AxisLabel {
        at,
        text,
        minor: crowd && index % 2 == 1,
    };
    ticks.into_iter().enumerate().map(number).collect()
}

fn curves(frame: &Frame, fit: Option<Fit>, expected: Option<ExpectedSpeed<'_>>) -> Vec<Curve> {
    let expected = expected.map(|speed| ("expected", curve::expected(frame, speed)));
    let fit = fit.map(|fit| ("fit", curve::through_origin(frame, fit.gradient)));
    [expected, fit]
        .into_iter()
        .flatten()
        .filter(|(_, places)| places.len() > 1)
        .map(|(class, places)| Curve {
            class,
            places,
            label: None,
        })
        .collect()
}

fn mark(point: &Point, frame: &Frame) -> Mark {
    let place = frame.place(point.at);
    let (x, y) = point.at;
    let end = |share: f64| frame.place((x * (1.0 + share), y)).x;
    let bar = (end(-point.resolution), end(point.resolution));
    let is_seen = frame.holds(point.at) && bar.1 - bar.0 > 2.0 * SHORTEST_BAR;
    Mark {
        place,
        kind: point.kind_on(frame),
        bar: is_seen.then_some(bar),
        label: None,
    }
}

/// Points are named first: their names must be beside them, a line's name
/// may slide along it.
fn name_all(points: &[Point], marks: &mut [Mark], fit: Option<Fit>, curves: &mut [Curve]) {
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
    for (point, mark) in points.iter().zip(marks) {
        if let Some(name) = &point.label {
            mark.label = paper.name_point(mark.place, mark.radius(), name);
        }
    }
    for (number, curve) in curves.iter_mut().enumerate() {
        let text = match fit {
            Some(fit) if curve.class == "fit" => vec![
                fit.name.to_owned(),
                format!("gradient {} m/s", words::three_figures(fit.gradient)),
            ],
            _ => vec!["expected".to_owned()],
        };
        curve.label = paper.name_line(number, &text);
    }
}

/// What the template asks for.
impl Drawing {
    /// Every name on the paper, to be written over all else.
    #[must_use]
    pub fn labels(&self) -> Vec<&Label> {
        let of_curves = self.curves.iter().filter_map(|curve| curve.label.as_ref());
        let of_marks = self.marks.iter().filter_map(|mark| mark.label.as_ref());
        of_curves.chain(of_marks).collect()
    }

    /// Width of the whole.
    #[must_use]
    pub fn width(&self) -> f64 {
        frame::WIDTH
    }

    /// Height of the whole.
    #[must_use]
    pub fn height(&self) -> f64 {
        frame::HEIGHT
    }

    /// The axis of f, from the left.
    #[must_use]
    pub fn left(&self) -> f64 {
        frame::LEFT
    }

    /// The end of the axis of 1/λ, from the left.
    #[must_use]
    pub fn right(&self) -> f64 {
        frame::RIGHT
    }

    /// The end of the axis of f, from the top.
    #[must_use]
    pub fn top(&self) -> f64 {
        frame::TOP
    }

    /// The axis of 1/λ, from the top.
    #[must_use]
    pub fn bottom(&self) -> f64 {
        frame::BOTTOM
    }
}
