//! What samples of different sizes can tell.

use std::collections::BTreeSet;

use analysis::stats::sample::half_width95;
use analysis::stats::spread::sample_sd;

use super::pairs::{self, Pair};
use crate::db::round::{self, Step};
use crate::db::sample_size::SampleSize;
use crate::db::{Connection, Error};

/// Sizes that the table tells of, beside those of the department's own table.
const SIZES: [usize; 8] = [3, 4, 5, 6, 8, 10, 15, 20];
/// Where no round has been marked yet: marks of a sheet by two markers are
/// taken to differ with this standard deviation.
pub const USUAL_SD: f64 = 2.0;
/// Fewer differences than this give no standard deviation to plan with.
const ENOUGH: usize = 6;

/// How much two markers of a sheet differ.
#[derive(Clone, Debug, PartialEq)]
pub struct Scatter {
    /// Standard deviation of the differences of totals, in marks.
    pub sd: f64,
    /// The round that it is of and its number of sheets; `None`: it is only
    /// taken to be so.
    pub of: Option<(String, usize)>,
}

/// How closely a sample of some size fixes a marker's severity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Width {
    /// Sheets of one marker.
    pub n: usize,
    /// Up or down so many marks, at 95 %.
    pub reach: f64,
}

/// The scatter of the newest round whose marks are shown and that has
/// differences enough; else the usual one.
///
/// # Errors
/// When a query fails.
pub async fn scatter(db: &mut Connection) -> Result<Scatter, Error> {
    let rounds = round::list(db).await?;
    let shown = rounds
        .into_iter()
        .filter(|round| matches!(round.step, Some(Step::Shown | Step::Closed)));
    for round in shown {
        let pairs = pairs::load(db, &round).await?;
        let differences = pairs.sheets.iter().filter_map(Pair::difference);
        let differences: Vec<f64> = differences.map(|marks| marks as f64).collect();
        if differences.len() >= ENOUGH
            && let Some(sd) = sample_sd(&differences)
        {
            let of = Some((round.name, differences.len()));
            return Ok(Scatter { sd, of });
        }
    }
    Ok(Scatter {
        sd: USUAL_SD,
        of: None,
    })
}

/// How closely so many sheets of one marker fix their severity, where
/// differences scatter so: sizes of our choice and those of the department's
/// table.
#[must_use]
pub fn widths(sd: f64, table: &[SampleSize]) -> Vec<Width> {
    let own = table
        .iter()
        .filter_map(|line| usize::try_from(line.size?).ok());
    let sizes: BTreeSet<usize> = SIZES.into_iter().chain(own).collect();
    sizes
        .into_iter()
        .filter_map(|n| {
            let reach = half_width95(sd, n)?;
            Some(Width { n, reach })
        })
        .collect()
}
