//! Which slips a group makes, and the slips that are made with the pencil.

use analysis::reading::Cause;
use rand::Rng;
use rand::rngs::StdRng;

use super::school::{LEAST_SWAP, Rates};

/// On fewer rows than these only one row has a slip.
pub(crate) const ROWS_FOR_TWO_SLIPS: usize = 4;

/// What goes wrong on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Plan {
    Nothing,
    Whole(Cause),
    /// One row or two, each with its slip.
    Rows(Vec<Cause>),
}

impl Plan {
    pub(crate) fn draw(rng: &mut StdRng, rates: &Rates) -> Self {
        let mut left: f64 = rng.random();
        for rate in &rates.whole {
            if left < rate.share {
                return Self::Whole(rate.cause);
            }
            left -= rate.share;
        }
        if left < rates.two_rows {
            return Self::Rows(vec![row_cause(rng, rates), row_cause(rng, rates)]);
        }
        left -= rates.two_rows;
        let single: f64 = rates.row.iter().map(|rate| rate.share).sum();
        if left < single {
            return Self::Rows(vec![row_cause(rng, rates)]);
        }
        Self::Nothing
    }

    pub(crate) fn is(&self, cause: Cause) -> bool {
        *self == Self::Whole(cause)
    }
}

fn row_cause(rng: &mut StdRng, rates: &Rates) -> Cause {
    let total: f64 = rates.row.iter().map(|rate| rate.share).sum();
    let mut left = rng.random::<f64>() * total;
    for rate in &rates.row {
        if left < rate.share {
            return rate.cause;
        }
        left -= rate.share;
    }
    rates.row[0].cause
}

/// A row for each slip.
pub(crate) fn slipping_rows(rng: &mut StdRng, slips: usize, rows: usize) -> Vec<usize> {
    let most = if rows < ROWS_FOR_TWO_SLIPS { 1 } else { slips };
    pick_rows(rng, slips.min(most), rows)
}

/// So many different rows out of all, in no order.
pub(crate) fn pick_rows(rng: &mut StdRng, count: usize, of: usize) -> Vec<usize> {
    let mut picked = Vec::new();
    while picked.len() < count.min(of) {
        let row = rng.random_range(0..of);
        if !picked.contains(&row) {
            picked.push(row);
        }
    }
    picked
}

/// Every text that two neighbouring digits of `text`, swapped, could give:
/// the value changes by more than [`LEAST_SWAP`], and neither begins with a
/// nought that nobody would write.
pub(crate) fn swaps(text: &str) -> Vec<String> {
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
