//! Which point a slip costs its mark at: one slip, one mark.

use std::collections::BTreeSet;

use super::Check;
use crate::assess::Assessment;
use crate::field::Field;
use crate::slip::{Kind, Slip};
use crate::working::Flag;

/// The checks at which a slip may cost a mark, the fittest first: it costs one
/// at the first that the scheme has, and nothing where the scheme has none of
/// them.
fn about(slip: Slip, step: Field) -> Vec<Check> {
    let mut checks = match slip {
        Slip::ScaleLeftOut | Slip::ScaleMultiplied => vec![Check::EnlargementApplied],
        Slip::ScaleUpsideDown => vec![Check::EnlargementFound, Check::EnlargementApplied],
        Slip::CountedFromOne
        | Slip::SpanNotDivided
        | Slip::CrestToTrough
        | Slip::LoopTakenAsWavelength
        | Slip::NodesCountedAsLoops
        | Slip::InnerNodesCounted => vec![Check::Wavelength],
        Slip::DialMultiplierLeftOut | Slip::CountNotDivided | Slip::PeriodAsFrequency => {
            vec![Check::Frequency]
        }
        Slip::UnitPowerOfTen => vec![Check::Unit],
        _ => Vec::new(),
    };
    checks.extend(of_step(step));
    checks
}

/// The checks of a figure of the working.
fn of_step(step: Field) -> &'static [Check] {
    match step {
        Field::Magnification => &[
            Check::EnlargementFound,
            Check::EnlargementApplied,
            Check::Wavelength,
        ],
        Field::Frequency => &[Check::Frequency],
        Field::Wavelength => &[Check::Wavelength],
        Field::Speed => &[Check::Speed],
        Field::MeanSpeed => &[Check::MeanWithoutAnomaly],
        Field::Reciprocal | Field::Gradient => &[Check::Gradient],
        _ => &[],
    }
}

/// The slips of a sheet, each at the point that it costs a mark: for each of
/// `checks` its flags. Flags of one slip at one point are one slip, whatever
/// rows they are in.
pub(super) fn charged<'a>(
    checks: &[Option<Check>],
    assessment: &'a Assessment,
) -> Vec<Vec<&'a Flag>> {
    let mut charged: Vec<Vec<&Flag>> = vec![Vec::new(); checks.len()];
    let slips = assessment
        .flags
        .iter()
        .filter(|flag| flag.slip.kind() == Kind::Slip);
    for flag in slips {
        let places = about(flag.slip, flag.step);
        let at = places
            .iter()
            .find_map(|check| checks.iter().position(|c| *c == Some(*check)));
        if let Some(at) = at {
            charged[at].push(flag);
        }
    }
    charged
}

/// How many slips these flags are.
pub(super) fn count(flags: &[&Flag]) -> usize {
    let slips: BTreeSet<Slip> = flags.iter().map(|flag| flag.slip).collect();
    slips.len()
}
