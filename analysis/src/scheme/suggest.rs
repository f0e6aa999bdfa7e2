//! From the judged working to suggested marks, with error carried forward.
//!
//! Each figure was judged on the group's own figures before it, so that one
//! slip is one flag. Here each slip costs one mark at one point, the one that
//! is about it, and everything else that was worked out earns its marks. What
//! is inferred about readings costs nothing.
//!
//! Common practice, no source: substitution into f λ earns its mark though
//! the wavelength was not converted, and the final figure that follows from
//! it earns its own.

use super::charge::charged;
use super::evidence::Work;
use super::{Check, Judged, Point, Suggestion, readings, working};
use crate::assess::Assessment;
use crate::field::Field;
use crate::sheet::Sheet;
use crate::working::Flag;

/// What the judged working suggests for each of a scheme's points.
///
/// `None` for one that is judged by eye, or that looks at something which
/// sheets of this method do not have. `assessment` is that of `sheet`,
/// without the slips that people dismissed.
#[must_use]
pub fn suggest(
    points: &[&Point],
    sheet: &Sheet,
    assessment: &Assessment,
) -> Vec<Option<Suggestion>> {
    let checks: Vec<_> = points
        .iter()
        .map(|point| match point.judged {
            Judged::ByCheck(check) if check.is_for(sheet.method) => Some(check),
            _ => None,
        })
        .collect();
    let charged = charged(&checks, assessment);
    let work = Work { sheet, assessment };
    let asked = points.iter().zip(&checks).zip(&charged);
    asked
        .map(|((point, check), slips)| Some(of_check(&work, (*check)?, point.marks, slips)))
        .collect()
}

fn of_check(work: &Work<'_>, check: Check, marks: u32, slips: &[&Flag]) -> Suggestion {
    match check {
        Check::EnoughFrequencies => readings::enough_frequencies(work, marks),
        Check::ManyWaves => readings::many_waves(work, marks),
        Check::Repeats => readings::repeats(work, marks),
        Check::Resolution => readings::resolution(work, marks),
        Check::EnlargementFound => working::enlargement_found(work, marks, slips),
        Check::EnlargementApplied if work.assessment.magnification.is_none() => {
            working::no_enlargement(work, marks, slips)
        }
        Check::EnlargementApplied | Check::Wavelength => {
            let later = [Field::Wavelength, Field::Reciprocal, Field::Speed];
            working::column(work, marks, slips, &later)
        }
        Check::Frequency => {
            let later = [Field::Frequency, Field::Speed];
            working::column(work, marks, slips, &later)
        }
        Check::Speed => working::column(work, marks, slips, &[Field::Speed]),
        Check::Unit => working::unit(work, marks, slips),
        Check::MeanWithoutAnomaly => working::mean(work, marks, slips),
        Check::Gradient => working::whole(work, marks, slips, Field::Gradient),
        Check::Figures => working::figures(work, marks),
        Check::Uncertainty => working::uncertainty(work, marks),
    }
}
