//! Where labels go: beside what they name and, where there is room, on
//! nothing else.
//!
//! A label's size is taken as it is on a phone, where the stylesheet draws
//! text largest; what is clear there is clear everywhere.

use super::frame::{BOTTOM, LEFT, Place, RIGHT, TOP};

/// The largest letters that the stylesheet gives to a graph.
const EM: f64 = 24.0;
/// The width of an average letter.
const LETTER: f64 = 0.56 * EM;
/// From one line of a label to the next.
const LINE: f64 = 1.2 * EM;
/// From one place to the next where labels look for a line.
const APART: f64 = 4.0;
/// Between a label and the line that it names.
const GAP: f64 = 8.0;
/// The same where there is no room so close.
const WIDER_GAPS: [f64; 3] = [40.0, 80.0, 120.0];

/// An upright rectangle of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Its left edge.
    pub left: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its right edge.
    pub right: f64,
    /// Its lower edge.
    pub bottom: f64,
}

impl Area {
    /// Returns a square about a place.
    #[must_use]
    pub fn about(place: Place, half: f64) -> Self {
        Self {
            left: place.x - half,
            top: place.y - half,
            right: place.x + half,
            bottom: place.y + half,
        }
    }

    /// Returns how much two have in common, in square units.
    #[must_use]
    pub fn common(&self, other: &Self) -> f64 {
        let wide = self.right.min(other.right) - self.left.max(other.left);
        let high = self.bottom.min(other.bottom) - self.top.max(other.top);
        wide.max(0.0) * high.max(0.0)
    }

    fn wider(&self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    fn holds(&self, place: Place) -> bool {
        (self.left..=self.right).contains(&place.x) && (self.top..=self.bottom).contains(&place.y)
    }

    fn size(&self) -> f64 {
        (self.right - self.left) * (self.bottom - self.top)
    }
}

/// Which side of its place a label is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Its lower right corner is at the place.
    AboveLeft,
    /// Its lower left corner is.
    AboveRight,
    /// Its upper left corner is.
    BelowRight,
    /// Its upper right corner is.
    BelowLeft,
}

impl Side {
    const AROUND: [Self; 4] = [
        Self::BelowRight,
        Self::AboveLeft,
        Self::AboveRight,
        Self::BelowLeft,
    ];

    fn is_left(self) -> bool {
        matches!(self, Self::AboveLeft | Self::BelowLeft)
    }

    fn is_above(self) -> bool {
        matches!(self, Self::AboveLeft | Self::AboveRight)
    }
}

/// A label of one line or more.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The corner of the text that is next to what it names.
    pub corner: Place,
    /// On which side of the corner it is.
    pub side: Side,
    /// Where a thin line leads to, for a label that found no room closer.
    pub leads_to: Option<Place>,
    /// What it says.
    pub lines: Vec<String>,
}

impl Label {
    fn new(named: Place, gap: f64, side: Side, lines: &[String]) -> Self {
        let across = if side.is_left() { -gap } else { gap };
        let down = if side.is_above() { -gap } else { gap } / 2.0;
        Self {
            corner: Place::new(named.x + across, named.y + down),
            side,
            leads_to: (gap > 2.0 * GAP).then_some(named),
            lines: lines.to_vec(),
        }
    }

    /// Says whether the text ends, not begins, at its corner.
    #[must_use]
    pub fn ends_there(&self) -> bool {
        self.side.is_left()
    }

    /// From the corner down to the baseline of the first line, in ems.
    #[must_use]
    pub fn first_baseline(&self) -> f64 {
        if self.side.is_above() {
            let above = u32::try_from(self.lines.len()).map_or(0.0, f64::from) - 1.0;
            -0.2 - above * LINE / EM
        } else {
            0.8
        }
    }

    /// Returns what it covers on a phone.
    #[must_use]
    pub fn area(&self) -> Area {
        let letters = self.lines.iter().map(|line| line.chars().count()).max();
        let length = |n: usize| u32::try_from(n).map_or(f64::MAX, f64::from);
        let wide = letters.map_or(0.0, length) * LETTER;
        let high = length(self.lines.len()) * LINE;
        let Place { x, y } = self.corner;
        let left = if self.side.is_left() { x - wide } else { x };
        let top = if self.side.is_above() { y - high } else { y };
        Area {
            left,
            top,
            right: left + wide,
            bottom: top + high,
        }
    }
}

/// What is on the paper already.
#[derive(Clone, Debug, Default)]
pub struct Paper {
    marks: Vec<Area>,
    names: Vec<Area>,
    lines: Vec<Vec<Place>>,
}

impl Paper {
    /// Keeps labels off a mark.
    pub fn mark(&mut self, area: Area) {
        self.marks.push(area);
    }

    /// Keeps labels off a line through some places.
    pub fn draw(&mut self, line: &[Place]) {
        self.lines.push(close_together(line));
    }

    /// Returns a label beside a mark that needs some radius clear, where it
    /// covers least.
    pub fn name_point(&mut self, point: Place, radius: f64, text: &str) -> Option<Label> {
        let lines = [text.to_owned()];
        let ways = Side::AROUND.map(|side| Label::new(point, radius, side, &lines));
        self.best(ways.into(), None)
    }

    /// Returns a label beside the line drawn as number `own` (from 0), nearer
    /// its end than its beginning, where it covers least and no other line
    /// comes between.
    pub fn name_line(&mut self, own: usize, text: &[String]) -> Option<Label> {
        let line = self.lines.get(own)?;
        let beside = |gap: f64, place: &Place| {
            [Side::AboveLeft, Side::BelowRight].map(|side| Label::new(*place, gap, side, text))
        };
        let upper = &line[line.len() / 4..];
        let ways = std::iter::once(GAP)
            .chain(WIDER_GAPS)
            .flat_map(|gap| {
                upper
                    .iter()
                    .rev()
                    .step_by(3)
                    .flat_map(move |place| beside(gap, place))
            })
            .collect();
        self.best(ways, Some(own))
    }

    /// Returns the first of the best of some ways to place a label.
    fn best(&mut self, ways: Vec<Label>, own: Option<usize>) -> Option<Label> {
        let mut best: Option<(f64, Label)> = None;
        for label in ways {
            let least = best.as_ref().map_or(f64::INFINITY, |(harm, _)| *harm);
            if least <= 0.0 {
                break;
            }
            let harm = self.harm(&label, own, least);
            if harm < least {
                best = Some((harm, label));
            }
        }
        let (_, label) = best?;
        self.names.push(label.area());
        Some(label)
    }

    /// Returns how bad it would be to write here: square units of marks
    /// covered; those of other names, outside the axes and along lines counted
    /// dearly. The name of a line keeps so far from other lines that none can
    /// be taken for its own. Not worked out further once it is no better than
    /// `least`: leading lines cost most of the time, and few come that far.
    fn harm(&self, label: &Label, own: Option<usize>, least: f64) -> f64 {
        let area = label.area();
        let paper = Area {
            left: LEFT,
            top: TOP,
            right: RIGHT,
            bottom: BOTTOM,
        };
        let outside = area.size() - area.common(&paper);
        let covered = |taken: &[Area]| taken.iter().map(|a| a.common(&area)).sum::<f64>();
        let mut harm = 10.0 * outside + covered(&self.marks) + 5.0 * covered(&self.names);
        if harm >= least {
            return harm;
        }
        let lines = self.lines.iter().enumerate();
        let crossed = lines.map(|(number, line)| {
            let is_other = own.is_some_and(|own| own != number);
            crossings(line, &area.wider(if is_other { GAP } else { 0.0 }))
        });
        harm += 50.0 * crossed.sum::<f64>();
        if harm < least {
            harm += 50.0 * self.led_over(label, own);
        }
        harm
    }

    /// Returns how much a label's leading line runs over marks, names and
    /// lines other than the one it leads to.
    fn led_over(&self, label: &Label, own: Option<usize>) -> f64 {
        let Some(end) = label.leads_to else {
            return 0.0;
        };
        let leader = close_together(&[label.corner, end]);
        let taken = self.marks.iter().chain(&self.names);
        let over: f64 = taken.map(|area| crossings(&leader, area)).sum();
        let lines = self.lines.iter().enumerate();
        let others = lines.filter(|(number, _)| Some(*number) != own);
        let places = others.flat_map(|(_, line)| line);
        let beneath: f64 = places
            .map(|place| crossings(&leader, &Area::about(*place, APART / 2.0)))
            .sum();
        over + beneath
    }
}

/// Counts the places of a line that are in an area.
fn crossings(line: &[Place], area: &Area) -> f64 {
    let places = line.iter().filter(|place| area.holds(**place));
    u32::try_from(places.count()).map_or(f64::MAX, f64::from)
}

/// Places no more than a few units apart along a line through some places.
fn close_together(line: &[Place]) -> Vec<Place> {
    let parts = |(a, b): (Place, Place)| {
        let apart = (b.x - a.x).hypot(b.y - a.y);
        let count = (1..=300_u32).find(|n| f64::from(*n) * APART >= apart);
        let count = count.unwrap_or(300);
        (0..=count).map(move |at| {
            let share = f64::from(at) / f64::from(count);
            Place::new(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y))
        })
    };
    let pairs = line.windows(2).map(|pair| (pair[0], pair[1]));
    pairs.flat_map(parts).collect()
}
