//! The statistics of some sheets as lines of a table: what each is called,
//! its value, its interval and what it tells.

use analysis::interval::Interval;
use analysis::moderation::comparison::{Agreement, Estimated, FEWEST, Intraclass, Share};

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
    if is_given(agreement) {
        figures.push(estimated(
            "Weighted kappa",
            agreement.kappa,
            plain,
            "Agreement beyond chance, 1 at best; a disagreement weighs as much as the marks are apart. None where either marking gave one mark throughout.",
        ));
        figures.extend(limits(agreement));
        figures.push(intraclass(agreement.intraclass));
        figures.extend(order(agreement));
    }
    figures
}

/// Whether there are sheets enough for more than to describe them.
pub(super) fn is_given(agreement: &Agreement) -> bool {
    agreement.n >= FEWEST
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

fn limits(agreement: &Agreement) -> [Figure; 2] {
    let limits = agreement.limits;
    let says = "Between the two limits lie about 95 % of differences, if they are normal.";
    [
        estimated(
            "Lower limit of agreement",
            limits.map(|limits| limits.lower),
            marks,
            says,
        ),
        estimated(
            "Upper limit of agreement",
            limits.map(|limits| limits.upper),
            marks,
            "",
        ),
    ]
}

fn intraclass(found: Option<Intraclass>) -> Figure {
    const NAME: &str = "Intraclass correlation";
    match found {
        Some(Intraclass::OneWay(estimate)) => estimated(
            NAME,
            Some(estimate),
            plain,
            "How much of the scatter of marks is the sheets’, 1 at best. One-way, ICC(1,1): the two markers differ from sheet to sheet.",
        ),
        Some(Intraclass::TwoWay(estimate)) => estimated(
            NAME,
            Some(estimate),
            plain,
            "How much of the scatter of marks is the sheets’, 1 at best. Two-way, ICC(2,1): the same two people marked every sheet.",
        ),
        None => figure(NAME, fixed(None, DECIMALS), "The marks leave it open."),
    }
}

/// What is about the order of sheets and of marking.
fn order(agreement: &Agreement) -> [Figure; 4] {
    let (slope, drift) = (agreement.slope, agreement.drift);
    [
        figure(
            "Rank correlation",
            fixed(agreement.rank_correlation, DECIMALS),
            "1 where both put the sheets in the same order (Spearman).",
        ),
        estimated(
            "Slope, second over first",
            slope,
            plain,
            "Below 1 the second marking keeps nearer to the middle, above 1 the first does (major axis).",
        ),
        estimated(
            "Drift from sheet to sheet",
            drift.map(|drift| drift.per_sheet),
            |value| signed(value, 3),
            if drift.is_some() {
                "How the difference changes along the order in which the sheets were marked: first marks by when a sheet had one on every point, second ones by its place."
            } else {
                "Not given: some of the sheets were finished at the same moment, so they have no order."
            },
        ),
        estimated(
            "Last third less first third",
            drift.map(|drift| drift.last_less_first_third),
            marks,
            "The same as a change of the mean difference.",
        ),
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
