//! The schemes that come with the program: twenty marks for each method.
//!
//! Common practice, no source: about half by check, about half by eye. They
//! are a department's own to change; no awarding body has any part in them.

use super::{Answer, Check, Judged};
use crate::method::Method;

/// A point of a scheme that comes with the program. Its words are the server's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HousePoint {
    /// Its key among those of its scheme.
    pub key: &'static str,
    /// How it is judged.
    pub judged: Judged,
    /// At most so many.
    pub marks: u32,
}

/// Returns the points of a scheme of twenty marks for a method, in the order of
/// the work.
#[must_use]
pub fn house(method: Method) -> Vec<HousePoint> {
    let own = method.spec().marks.worked.iter();
    let mut points = vec![
        eye("method", 3, Some(Answer::Method)),
        eye("table", 1, None),
        check(Check::EnoughFrequencies, 1),
        check(Check::ManyWaves, 1),
        check(Check::Repeats, 1),
    ];
    points.extend(own.map(|(of, marks)| check(*of, *marks)));
    points.extend([
        check(Check::Frequency, 1),
        check(Check::Speed, 1),
        check(Check::Unit, 1),
        eye("graph", 2, None),
        check(Check::MeanWithoutAnomaly, 1),
        check(Check::Gradient, 1),
        check(Check::Uncertainty, 1),
        eye("conclusion", 1, Some(Answer::Conclusion)),
        eye("evaluation", 1, Some(Answer::Evaluation)),
    ]);
    points
}

fn check(check: Check, marks: u32) -> HousePoint {
    HousePoint {
        key: check.code(),
        judged: Judged::ByCheck(check),
        marks,
    }
}

fn eye(key: &'static str, marks: u32, answer: Option<Answer>) -> HousePoint {
    HousePoint {
        key,
        judged: Judged::ByEye(answer),
        marks,
    }
}

#[cfg(test)]
mod tests {
    use super::house;
    use crate::method::Method;
    use crate::scheme::Judged;

    #[test]
    fn each_method_has_twenty_marks_about_half_of_them_by_check() {
        for method in Method::ALL {
            let points = house(method);
            let total: u32 = points.iter().map(|point| point.marks).sum();
            let by_check: u32 = points
                .iter()
                .filter(
                    |point| matches!(point.judged, Judged::ByCheck(check) if check.is_for(method)),
                )
                .map(|point| point.marks)
                .sum();
            assert_eq!(total, 20, "{method:?}");
            assert!((9..=13).contains(&by_check), "{method:?}: {by_check}");
        }
    }
}
