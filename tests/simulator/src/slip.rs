//! Which slips a group makes in its readings, and the slips that are made
//! with the pencil.

use crate::dice::Dice;
use crate::group::Line;
use crate::sheet::Code;

/// On fewer rows than these only one row has a slip.
pub const ROWS_FOR_TWO_SLIPS: usize = 4;
/// Swapped digits change a reading by more than this, a share.
const LEAST_SWAP: f64 = 0.04;
/// The share of swaps that are in the span (or the length); the rest are in
/// the dial.
pub const SWAPS_IN_SPAN: f64 = 0.75;

/// Something that happened: what, by its code, and in which row (`None`: all
/// of them).
pub type Event = (Code, Option<usize>);

/// One kind of slip, and how common it is, a share of sheets.
#[derive(Clone, Copy, Debug)]
pub struct Rate {
    /// Its code.
    pub slip: Code,
    /// How common it is.
    pub share: f64,
}

/// How common slips are on sheets of one method.
#[derive(Clone, Debug)]
pub struct Rates {
    /// In every row.
    pub whole: Vec<Rate>,
    /// In one row.
    pub row: Vec<Rate>,
    /// Two rows, each with a slip of its own, drawn as in `row`.
    pub two_rows: f64,
}

impl Rates {
    /// Makes rates of slips in every row, in one, and in two.
    #[must_use]
    pub fn new(whole: &[(Code, f64)], row: &[(Code, f64)], two_rows: f64) -> Self {
        let rates = |all: &[(Code, f64)]| {
            let rate = |&(slip, share): &(Code, f64)| Rate { slip, share };
            all.iter().map(rate).collect()
        };
        Self {
            whole: rates(whole),
            row: rates(row),
            two_rows,
        }
    }

    fn each(&mut self) -> impl Iterator<Item = &mut Rate> {
        self.whole.iter_mut().chain(&mut self.row)
    }

    /// Returns each share times a factor.
    #[must_use]
    pub fn scaled(mut self, factor: f64) -> Self {
        self.each().for_each(|rate| rate.share *= factor);
        self.two_rows *= factor;
        self
    }

    /// Returns the rates with another share of one slip.
    #[must_use]
    pub fn set(mut self, slip: Code, share: f64) -> Self {
        let those = self.each().filter(|rate| rate.slip == slip);
        those.for_each(|rate| rate.share = share);
        self
    }

    /// The share of sheets with a slip in one row.
    #[must_use]
    pub fn single(&self) -> f64 {
        self.row.iter().map(|rate| rate.share).sum()
    }

    fn draw_row(&self, dice: &mut Dice) -> Code {
        let left = dice.share() * self.single();
        drawn(&self.row, left).unwrap_or(self.row[0].slip)
    }
}

/// The one among several, each with its share, that `left` of all shares
/// falls on. `None` where it is beyond all of them.
fn drawn(rates: &[Rate], mut left: f64) -> Option<Code> {
    let mut found = rates.iter().filter(|rate| {
        let is_here = left < rate.share;
        left -= rate.share;
        is_here
    });
    found.next().map(|rate| rate.slip)
}

/// What goes wrong on a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Plan {
    /// Nothing.
    Nothing,
    /// One slip in every row.
    Whole(Code),
    /// One row or two, each with its slip.
    Rows(Vec<Code>),
}

impl Plan {
    /// Draws what goes wrong on one sheet.
    pub fn draw(dice: &mut Dice, rates: &Rates) -> Self {
        let left = dice.share();
        if let Some(slip) = drawn(&rates.whole, left) {
            return Self::Whole(slip);
        }
        let left = left - rates.whole.iter().map(|rate| rate.share).sum::<f64>();
        if left < rates.two_rows {
            Self::Rows(vec![rates.draw_row(dice), rates.draw_row(dice)])
        } else if left - rates.two_rows < rates.single() {
            Self::Rows(vec![rates.draw_row(dice)])
        } else {
            Self::Nothing
        }
    }

    /// The slip in every row. `None` where there is none.
    #[must_use]
    pub fn whole(&self) -> Option<Code> {
        match self {
            Self::Whole(slip) => Some(slip),
            Self::Nothing | Self::Rows(_) => None,
        }
    }

    /// Makes the slips of single rows, and says which happened. `is_counted`:
    /// whether a miscount would show.
    pub fn slip_in_rows(
        &self,
        dice: &mut Dice,
        lines: &mut [Line],
        is_counted: bool,
    ) -> Vec<Event> {
        let Self::Rows(slips) = self else {
            return Vec::new();
        };
        let two = lines.len() >= ROWS_FOR_TWO_SLIPS;
        let most = if two { slips.len() } else { 1 };
        let picked = dice.some(slips.len().min(most), lines.len());
        let mut truth: Vec<Event> = Vec::new();
        for (slip, at) in slips.iter().copied().zip(picked) {
            let line = &mut lines[at];
            let made = match slip {
                _ if truth.iter().any(|(_, row)| *row == Some(at)) => None,
                "crest-miscount" | "loop-miscount" if is_counted => {
                    let one_more = line.count == 1 || dice.chance(0.5);
                    line.count = if one_more {
                        line.count + 1
                    } else {
                        line.count - 1
                    };
                    Some(at)
                }
                "dial-multiplier-left-out" if line.times > 1 => {
                    line.times = 1;
                    Some(at)
                }
                "digits-swapped" => swap(dice, lines, at, &truth),
                _ => None,
            };
            truth.extend(made.map(|at| (slip, Some(at))));
        }
        truth
    }
}

/// Swaps two digits of a row; of another one where that row has none to swap.
fn swap(dice: &mut Dice, lines: &mut [Line], at: usize, taken: &[Event]) -> Option<usize> {
    let mut at = at;
    for _ in 0..50 {
        let in_length = dice.chance(SWAPS_IN_SPAN);
        let line = &mut lines[at];
        let text = if in_length {
            &mut line.length
        } else {
            &mut line.frequency
        };
        let choices = swaps(text);
        if choices.is_empty() || taken.iter().any(|(_, row)| *row == Some(at)) {
            at = dice.within(0..lines.len());
            continue;
        }
        text.clone_from(&choices[dice.within(0..choices.len())]);
        return Some(at);
    }
    None
}

/// Every text that two neighbouring digits of `text`, swapped, could give:
/// the value changes by some per cent, and neither begins with a nought that
/// nobody would write.
#[must_use]
pub fn swaps(text: &str) -> Vec<String> {
    let digits: Vec<usize> = (0..text.len())
        .filter(|at| text.as_bytes()[*at].is_ascii_digit())
        .collect();
    let swapped = |pair: &[usize]| {
        let mut characters: Vec<char> = text.chars().collect();
        characters.swap(pair[0], pair[1]);
        characters.into_iter().collect::<String>()
    };
    let value = |text: &str| text.parse::<f64>().unwrap_or(f64::NAN);
    let odd = |text: &str| text.len() > 1 && text.starts_with('0') && !text.starts_with("0.");
    digits
        .windows(2)
        .map(swapped)
        .filter(|other| (value(other) / value(text) - 1.0).abs() > LEAST_SWAP)
        .filter(|other| !odd(other) && value(other) > 0.0)
        // A metre that becomes less than a decimetre would be seen at once.
        .filter(|other| other.starts_with("0.") == text.starts_with("0."))
        .collect()
}
