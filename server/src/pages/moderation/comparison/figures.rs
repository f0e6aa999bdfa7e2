//! The statistics of some sheets as lines of a table: what each is called,
//! its value, its interval and what it tells.

use analysis::interval::Interval;
use analysis::moderation::comparison::{Agreement, Coefficients, Estimated, Limits, Share};

use crate::report::number::{fixed, signed};

/// Decimals of marks and of coefficients.
const DECIMALS: usize = 2;

/// One statistic.
pub(super) struct Figure {
    pub(super) name: String,
    pub(super) value: String,
    /// Its 95 % interval; blank where there is none.
    pub(super) interval: String,
    /// What it tells.
    pub(super) says: &'static str,
}

/// The statistics of totals or of one point.
pub(super) fn of(agreement: &Agreement) -> Vec<Figure> {
    let mut figures = of_differences(agreement);
    figures.extend(agreement.limits.into_iter().flat_map(limits));
    figures
}

/// The coefficients of a whole round.
pub(super) fn of_round(coefficients: Coefficients) -> [Figure; 2] {
    [
        estimated(
            "Weighted kappa",
            coefficients.kappa,
            plain,
            "Agreement beyond chance, 1 at best; a disagreement weighs as much as the marks are apart. None where either marking gave one total throughout.",
        ),
        estimated(
            "Intraclass correlation",
            coefficients.icc,
            plain,
            "How much of the scatter of marks is the sheets’, 1 at best. One-way, ICC(1,1): a marker who is severe throughout lowers it.",
        ),
    ]
}

/// An interval as a cell of a table: `−0.81 to +2.31`. Blank too where it has
/// no width: figures that do not scatter at all tell nothing of how sure they
/// are.
pub(in crate::pages::moderation) fn range(
    interval: Option<Interval>,
    write: fn(f64) -> String,
) -> String {
    let wide = interval.filter(|interval| interval.width() > 0.0);
    wide.map_or_else(String::new, |interval| {
        format!("{} to {}", write(interval.low), write(interval.high))
    })
}

/// `8 of 12 (67 %)`.
pub(super) fn of_all(share: Share, n: usize) -> String {
    let per_cent = 100.0 * share.count as f64 / n as f64;
    format!("{} of {n} ({per_cent:.0} %)", share.count)
}

/// A difference in marks, with its sign.
pub(in crate::pages::moderation) fn marks(value: f64) -> String {
    signed(value, DECIMALS)
}

/// A size or a coefficient.
pub(in crate::pages::moderation) fn plain(value: f64) -> String {
    fixed(Some(value), DECIMALS)
}

fn of_differences(agreement: &Agreement) -> Vec<Figure> {
    let n = agreement.n;
    let share = |name: String, share: Share, says| Figure {
        name,
        value: of_all(share, n),
        interval: per_cent_range(share.interval95),
        says,
    };
    let within = match agreement.tolerance {
        0 => "Within the tolerance of 0 marks".to_owned(),
        1 => "Within the tolerance of 1 mark".to_owned(),
        marks => format!("Within the tolerance of {marks} marks"),
    };
    vec![
        estimated(
            "Mean difference, second − first",
            Some(agreement.mean),
            marks,
            "Above 0 the second markers gave more: the first were the more severe.",
        ),
        figure(
            "Mean size of the differences",
            plain(agreement.mean_absolute),
            "The same with signs dropped, so that nothing cancels.",
        ),
        figure(
            "Standard deviation of the differences",
            fixed(agreement.sd, DECIMALS),
            "How far they scatter about their mean.",
        ),
        share(
            "The same".to_owned(),
            agreement.exact,
            "Both markings gave the same.",
        ),
        share(
            within,
            agreement.within,
            "As close as the department asks for.",
        ),
    ]
}

fn limits(limits: Limits) -> [Figure; 2] {
    let says = "Between the two limits lie about 95 % of differences, if they are normal.";
    [
        estimated("Lower limit of agreement", Some(limits.lower), marks, says),
        estimated("Upper limit of agreement", Some(limits.upper), marks, ""),
    ]
}

fn figure(name: &str, value: String, says: &'static str) -> Figure {
    Figure {
        name: name.to_owned(),
        value,
        interval: String::new(),
        says,
    }
}

fn estimated(
    name: &str,
    estimate: Option<Estimated>,
    write: fn(f64) -> String,
    says: &'static str,
) -> Figure {
    let interval = estimate.and_then(|estimate| estimate.interval95);
    Figure {
        interval: range(interval, write),
        ..figure(
            name,
            estimate.map_or_else(|| fixed(None, DECIMALS), |found| write(found.value)),
            says,
        )
    }
}

fn per_cent_range(interval: Option<Interval>) -> String {
    range(interval, |share| format!("{:.0} %", 100.0 * share))
}
