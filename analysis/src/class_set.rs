//! Many sheets of one method: the class summary.

use std::collections::BTreeMap;

use crate::assess::{Assessment, Standing};
use crate::sheet::Sheet;
use crate::slip::{Kind, Slip};
use crate::stats::interval::Estimate;
use crate::stats::{line, outlier, spread};
use crate::text::folded;

/// How one group stands among its class.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct GroupStanding {
    /// Modified z of ln(speed/expected), or of ln(speed) where no expected
    /// speed is known; `None` with fewer than four groups to compare.
    pub robust_z: Option<f64>,
    /// Whether the group does not belong with the class.
    pub outlier: bool,
}

/// How many groups made a slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SlipCount {
    /// The slip.
    pub slip: Slip,
    /// Groups that made it at least once.
    pub groups: usize,
}

/// What a class's sheets of one method say together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ClassSummary {
    /// One for each sheet, in the order given.
    pub standings: Vec<GroupStanding>,
    /// Groups in the mean: those with a speed that belong with the others.
    pub counted: usize,
    /// Mean of the groups' speeds, those that do not belong left aside, in
    /// m/s.
    pub mean: Option<Estimate>,
    /// Standard deviation of those speeds, in m/s.
    pub sd: Option<f64>,
    /// Mean of the same groups' speed ÷ expected speed.
    pub mean_ratio: Option<f64>,
    /// Standard deviation of those ratios.
    pub sd_ratio: Option<f64>,
    /// Repeatability: the pooled standard deviation of rows about their own
    /// sheet, as a share of the speed. Rows left out or found anomalous are
    /// not in it.
    pub repeatability: Option<f64>,
    /// Slips by the number of groups that made them, commonest first.
    pub slips: Vec<SlipCount>,
    /// The line through the origin over the points of the same groups, slope
    /// in m/s.
    pub through_origin: Option<line::Line>,
}

/// Compares the sheets of one class and one method.
#[must_use]
pub fn summarise(sheets: &[&Assessment]) -> ClassSummary {
    let standings = standings(sheets);
    let belonging: Vec<_> = sheets
        .iter()
        .zip(&standings)
        .filter(|(_, s)| !s.outlier)
        .map(|(sheet, _)| *sheet)
        .collect();
    let speeds: Vec<_> = belonging
        .iter()
        .filter_map(|s| Some(s.speed?.value))
        .collect();
    let ratios: Vec<_> = belonging
        .iter()
        .filter_map(|s| s.log_ratio())
        .map(f64::exp)
        .collect();
    let points: Vec<_> = belonging.iter().flat_map(|sheet| sheet.points()).collect();
    ClassSummary {
        standings,
        counted: speeds.len(),
        mean: spread::mean_estimate(&speeds),
        sd: spread::sample_sd(&speeds),
        mean_ratio: spread::mean(&ratios),
        sd_ratio: spread::sample_sd(&ratios),
        repeatability: repeatability(sheets),
        slips: slips(sheets),
        through_origin: line::through_origin(&points),
    }
}

/// Groups with an expected speed are compared by their ratio to it, the
/// others by their speed; the two kinds are never mixed.
fn standings(sheets: &[&Assessment]) -> Vec<GroupStanding> {
    let mut standings = vec![GroupStanding::default(); sheets.len()];
    for way in [Assessment::log_ratio, log_speed_alone] {
        let compared: Vec<_> = sheets
            .iter()
            .enumerate()
            .filter_map(|(at, sheet)| Some((at, way(sheet)?)))
            .filter(|(_, value)| value.is_finite())
            .collect();
        let values: Vec<_> = compared.iter().map(|(_, value)| *value).collect();
        let z = outlier::robust_z(&values);
        let outlying = outlier::outlying(&values);
        for (index, (at, _)) in compared.iter().enumerate() {
            standings[*at] = GroupStanding {
                robust_z: z.as_ref().map(|z| z[index]),
                outlier: outlying[index],
            };
        }
    }
    standings
}

/// ln(speed) of a sheet for which no expected speed is known.
fn log_speed_alone(sheet: &Assessment) -> Option<f64> {
    match sheet.log_ratio() {
        Some(_) => None,
        None => Some(sheet.speed?.value.ln()),
    }
}

/// Rows' scatter about their own sheet, on ln v less the expected curve.
fn repeatability(sheets: &[&Assessment]) -> Option<f64> {
    let levels: Vec<Vec<f64>> = sheets
        .iter()
        .map(|sheet| {
            sheet
                .rows
                .iter()
                .filter(|row| !row.left_out && row.standing != Standing::Anomalous)
                .filter_map(|row| Some((row.speed? / row.expected_speed.unwrap_or(1.0)).ln()))
                .collect()
        })
        .collect();
    let groups: Vec<&[f64]> = levels.iter().map(Vec::as_slice).collect();
    spread::pooled_sd(&groups)
}

fn slips(sheets: &[&Assessment]) -> Vec<SlipCount> {
    let mut counts: BTreeMap<Slip, usize> = BTreeMap::new();
    for sheet in sheets {
        let mut made: Vec<_> = sheet
            .flags
            .iter()
            .map(|flag| flag.slip)
            .filter(|slip| slip.kind() == Kind::Slip)
            .collect();
        made.sort_unstable();
        made.dedup();
        for slip in made {
            *counts.entry(slip).or_default() += 1;
        }
    }
    let mut slips: Vec<_> = counts
        .into_iter()
        .map(|(slip, groups)| SlipCount { slip, groups })
        .collect();
    slips.sort_by_key(|count| std::cmp::Reverse(count.groups));
    slips
}

/// Returns the expected speed (m/s) that some sheets have in common, as a
/// function of frequency (Hz).
///
/// In common is what is the same to within 5 % from 10 Hz up: a degree or half
/// a millimetre of water does not part them, another mass on the string does.
/// Returns `None` where they differ, or only some recorded enough.
#[must_use]
pub fn common_expectation<'s>(
    sheets: &[&'s Sheet],
) -> Option<impl Fn(f64) -> Option<f64> + use<'s>> {
    let first = *sheets.first()?;
    let alike = |sheet: &&Sheet| {
        [10.0, 20.0, 40.0].into_iter().all(|f| {
            match (sheet.expected_speed(f), first.expected_speed(f)) {
                (Some(one), Some(other)) => (one / other - 1.0).abs() <= 0.05,
                (one, other) => one.is_none() && other.is_none(),
            }
        })
    };
    let all_alike = sheets.iter().all(alike);
    all_alike.then_some(move |f| first.expected_speed(f))
}

/// How the sheets of one kit stand against what their apparatus should give.
#[derive(Clone, Debug, PartialEq)]
pub struct KitRatio {
    /// The kit's label.
    pub kit: String,
    /// Sheets with a speed and an expected speed.
    pub sheets: usize,
    /// Median of speed ÷ expected speed, which a group's own slip hardly
    /// moves.
    pub median_ratio: f64,
}

/// The kits of a class set, by label; of several spellings the first. Sheets
/// without a kit or without an expected speed are in none.
#[must_use]
pub fn by_kit(sheets: &[(&str, &Assessment)]) -> Vec<KitRatio> {
    let mut ratios: BTreeMap<String, (&str, Vec<f64>)> = BTreeMap::new();
    for (kit, sheet) in sheets {
        if let (false, Some(log_ratio)) = (kit.trim().is_empty(), sheet.log_ratio()) {
            let of_kit = ratios.entry(folded(kit));
            let (_, ratios) = of_kit.or_insert((kit, Vec::new()));
            ratios.push(log_ratio.exp());
        }
    }
    ratios
        .into_values()
        .filter_map(|(kit, ratios)| {
            Some(KitRatio {
                kit: kit.to_owned(),
                sheets: ratios.len(),
                median_ratio: spread::median(&ratios)?,
            })
        })
        .collect()
}
