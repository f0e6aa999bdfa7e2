//! The schemes that come with the program: twenty marks for each method.
//!
//! Common practice, no source: about half by check, about half by eye. They
//! are a department's own to change; no awarding body has any part in them.

use super::{Answer, Check, Judged, Level, Point};
use crate::method::Method;

/// A scheme of twenty marks for a method.
#[must_use]
pub fn house(method: Method) -> Vec<Point> {
    let mut points = vec![method_point(method)];
    points.push(eye(
        "Table with a quantity and a unit in every heading",
        "Every column is headed with its quantity and its unit, and no cell repeats the unit. On the screen: the unit chosen over a column is the one that was measured in.",
        1,
        None,
    ));
    points.extend(readings());
    points.extend(worked(method));
    points.push(eye(
        "Graph: axes, scales, points, line",
        "On paper. One mark: both axes with quantity and unit, and even scales over more than half of the grid. One mark: every point within half a small square, and one straight line or smooth curve with points on both sides of it, not dot to dot. An anomaly is plotted and ringed, and the line passes it by.",
        2,
        None,
    ));
    points.extend(results());
    points.push(eye(
        "Conclusion that quotes the group’s own figures",
        "It says what the speed is, with at least one figure of the group’s own and its unit. A figure that is wrong through an earlier slip still counts.",
        1,
        Some(Answer::Conclusion),
    ));
    points.push(eye(
        "Evaluation: one named weakness, and what would mend it",
        "It names one reading, says which way it may be out or that it scatters, and gives a change that would make that reading better. “Human error”, “be more careful” and “better equipment” earn nothing.",
        1,
        Some(Answer::Evaluation),
    ));
    points
}

fn check(check: Check, title: &str, marks: u32) -> Point {
    Point {
        title: title.to_owned(),
        guidance: String::new(),
        marks,
        judged: Judged::ByCheck(check),
        levels: Vec::new(),
    }
}

fn eye(title: &str, guidance: &str, marks: u32, answer: Option<Answer>) -> Point {
    Point {
        title: title.to_owned(),
        guidance: guidance.to_owned(),
        marks,
        judged: Judged::ByEye(answer),
        levels: Vec::new(),
    }
}

fn method_point(method: Method) -> Point {
    let level = |from, to, says: &str| Level {
        from,
        to,
        says: says.to_owned(),
    };
    Point {
        levels: vec![
            level(
                3,
                3,
                "Someone else could follow it and get the speed: the key steps are there, in an order that works.",
            ),
            level(
                2,
                2,
                "Most key steps are there, but one that the speed depends on is missing or out of order.",
            ),
            level(
                1,
                1,
                "Some steps that bear on the task, but following them would not give a speed.",
            ),
        ],
        ..eye("Method", method.spec().marks.steps, 3, Some(Answer::Method))
    }
}

fn readings() -> [Point; 3] {
    [
        check(
            Check::EnoughFrequencies,
            "Readings at five frequencies or more",
            1,
        ),
        check(Check::ManyWaves, "Many waves measured at once", 1),
        check(Check::Repeats, "A frequency measured again", 1),
    ]
}

fn worked(method: Method) -> Vec<Point> {
    let own = method.spec().marks.worked.iter();
    let mut points: Vec<_> = own
        .map(|(of, title, marks)| check(*of, title, *marks))
        .collect();
    points.push(check(
        Check::Frequency,
        "Frequency, with the dial’s multiplier",
        1,
    ));
    points.push(check(Check::Speed, "Speed: frequency × wavelength", 1));
    points.push(check(Check::Unit, "Unit of the speed", 1));
    points
}

fn results() -> [Point; 3] {
    [
        check(Check::MeanWithoutAnomaly, "Mean without the anomalies", 1),
        check(Check::Gradient, "Gradient from the line", 1),
        check(
            Check::Uncertainty,
            "Uncertainty: half the range of the speeds",
            1,
        ),
    ]
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
