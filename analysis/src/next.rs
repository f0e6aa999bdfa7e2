//! One thing to do next, for a group that gets its sheet back: what most helps
//! it.

use crate::scheme::Judged;
use crate::slip::{Kind, Slip};
use crate::working::Flag;

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// Mend this slip, or heed this remark.
    Slip(Slip),
    /// Do again what this point asks.
    Point(Judged),
    /// Nothing to mend: something to go on with.
    GoOn,
}

/// Where a point lost marks.
#[derive(Clone, Copy, Debug)]
pub struct Lost {
    /// How the point is judged.
    pub judged: Judged,
    /// Marks that were not awarded.
    pub marks: i64,
}

/// Chooses one thing to do next.
///
/// The first slip that their figures show, else the point judged by eye that
/// lost most, else a remark, else something to go on with. `flags` are those
/// that nobody dismissed.
#[must_use]
pub fn next(flags: &[Flag], lost: &[Lost]) -> Next {
    let first = |kind: Kind| flags.iter().find(|flag| flag.slip.kind() == kind);
    if let Some(flag) = first(Kind::Slip) {
        return Next::Slip(flag.slip);
    }
    let by_eye = lost
        .iter()
        .filter(|lost| lost.marks > 0 && matches!(lost.judged, Judged::ByEye(_)));
    // Of equals the first: the order of the work.
    let most = by_eye.rev().max_by_key(|lost| lost.marks);
    if let Some(lost) = most {
        return Next::Point(lost.judged);
    }
    first(Kind::Remark).map_or(Next::GoOn, |flag| Next::Slip(flag.slip))
}

#[cfg(test)]
mod tests {
    use super::{Lost, Next, next};
    use crate::field::Field;
    use crate::scheme::{Answer, Check, Judged};
    use crate::slip::Slip;
    use crate::sum::Sum;
    use crate::working::Flag;

    fn flag(slip: Slip) -> Flag {
        Flag {
            row: None,
            step: Field::Speed,
            slip,
            given: String::new(),
            expected: String::new(),
            rival: None,
            arithmetic: Sum::None,
        }
    }

    const EVALUATION: Lost = Lost {
        judged: Judged::ByEye(Some(Answer::Evaluation)),
        marks: 1,
    };
    const METHOD: Lost = Lost {
        judged: Judged::ByEye(Some(Answer::Method)),
        marks: 2,
    };

    #[test]
    fn first_slip_comes_before_everything() {
        let flags = [
            flag(Slip::UnitMissing),
            flag(Slip::SpeedDivided),
            flag(Slip::MeanNotDivided),
        ];
        assert_eq!(next(&flags, &[METHOD]), Next::Slip(Slip::SpeedDivided));
    }

    #[test]
    fn without_a_slip_it_is_the_point_by_eye_that_lost_most() {
        let checked = Lost {
            judged: Judged::ByCheck(Check::ManyWaves),
            marks: 5,
        };
        let flags = [flag(Slip::UnitMissing)];
        let lost = [checked, EVALUATION, METHOD];
        assert_eq!(next(&flags, &lost), Next::Point(METHOD.judged));
        assert_eq!(next(&flags, &[checked]), Next::Slip(Slip::UnitMissing));
    }

    #[test]
    fn who_has_nothing_to_mend_goes_on() {
        let full = Lost {
            marks: 0,
            ..EVALUATION
        };
        assert_eq!(next(&[], &[full]), Next::GoOn);
    }
}
