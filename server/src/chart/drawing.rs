//! What a graph is made of: axes, lines, marks and names, each in its place.

use super::frame::Place;
use super::label::Label;

/// Half the width of a cross.
pub(super) const ARM: f64 = 5.0;

/// The radius of a ring.
const RING: f64 = 10.0;

/// What the template draws.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    pub height: f64,
    /// Where the paper begins and ends, from the left.
    pub sides: [f64; 2],
    /// Where the paper begins and ends, from the top.
    pub ends: [f64; 2],
    pub along: Axis,
    /// The axis up; one without numbers is not drawn.
    pub up: Axis,
    /// The lines.
    pub curves: Vec<Curve>,
    pub marks: Vec<Mark>,
    /// Names of what is neither a line nor a mark.
    pub names: Vec<Label>,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Axis {
    /// What is along it.
    pub quantity: Quantity,
    /// Its numbers, or names.
    pub numbers: Vec<AxisLabel>,
    /// Whether each number stands after its line, and not in the middle of it.
    pub is_after: bool,
    /// Fine lines of the graph paper.
    pub fine: Vec<f64>,
}

/// What is along an axis: a symbol with what stands before it, and its unit.
/// Each may be blank.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Quantity {
    /// Before the symbol, or all there is.
    pub words: &'static str,
    /// Written in italics.
    pub symbol: &'static str,
    /// The unit of the numbers.
    pub unit: String,
}

impl From<&'static str> for Quantity {
    fn from(words: &'static str) -> Self {
        Self {
            words,
            ..Self::default()
        }
    }
}

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

/// How a point is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A thin cross.
    Cross,
    /// A cross in a ring: does not belong with the others.
    Ringed,
    /// A heavy cross: stands apart.
    Apart,
    /// An open circle: left out, or of another year.
    LeftOut,
    /// An arrow to the right: beyond the end of the axis along.
    BeyondRight,
    /// An arrow upwards: beyond the upper end of the axis up.
    BeyondTop,
    /// An arrow downwards: beyond its lower end.
    BeyondBottom,
    /// An arrow to the corner: beyond both upper ends.
    BeyondCorner,
}

/// A point of a graph.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    pub place: Place,
    /// Its shape.
    pub kind: Kind,
    /// The ends of its error bar, from the left.
    pub bar: Option<(f64, f64)>,
    /// Its name, where it stands apart.
    pub label: Option<Label>,
}

impl Mark {
    /// Returns a mark without bar and name.
    #[must_use]
    pub fn new(place: Place, kind: Kind) -> Self {
        Self {
            place,
            kind,
            bar: None,
            label: None,
        }
    }

    /// Returns how far from its place it needs to be clear.
    #[must_use]
    pub fn radius(&self) -> f64 {
        match self.kind {
            Kind::Cross | Kind::Apart | Kind::LeftOut => ARM + 3.0,
            Kind::Ringed => RING + 2.0,
            _ => 3.0 * ARM,
        }
    }
}

impl Drawing {
    /// Lists every name on the paper, to be written over all else.
    #[must_use]
    pub fn labels(&self) -> Vec<&Label> {
        let of_curves = self.curves.iter().filter_map(|curve| curve.label.as_ref());
        let of_marks = self.marks.iter().filter_map(|mark| mark.label.as_ref());
        of_curves.chain(of_marks).chain(&self.names).collect()
    }
}

/// Returns those of some sentences that a drawing needs.
pub(super) fn needed(sentences: &[(bool, &str)]) -> Vec<String> {
    let needed = sentences.iter().filter(|(is_needed, _)| *is_needed);
    needed.map(|(_, text)| (*text).to_owned()).collect()
}
