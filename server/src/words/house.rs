//! What the schemes and the comments that come with the program say. From then
//! on the wording is the department's own.

use analysis::method::Method;
use analysis::scheme::{HousePoint, Level, Point, house};

/// Comments that come with the program: each says which reading, which way,
/// and what to do.
pub(crate) const COMMENTS: [&str; 10] = [
    "Well counted: nought for the first line, and ten waves at once.",
    "Count the gaps, not the lines: the first line is nought.",
    "The picture is larger than the water: divide by the enlargement.",
    "Say which way a reading was out, and by about how much.",
    "Repeat one row. If it agrees, your reading is repeatable.",
    "Quote one of your own speeds in the conclusion, with its unit.",
    "An anomaly stays in the table. Say why it is left out of the mean.",
    "Draw one smooth line near all of the points, not from dot to dot.",
    "Use a triangle longer than half of your line for the gradient.",
    "Give the mean to as many figures as your readings have.",
];

/// Titles of points, by their keys.
type Titles = &'static [(&'static str, &'static str)];

/// Of each method, by its code: the key steps of a good account of it, and
/// titles of points that are its own.
const OF_METHODS: [(&str, &str, Titles); 2] = [
    (
        "ripple-tank",
        "Key steps: a lamp above the tank and a screen below it; an object of known length, measured again in its picture on the screen; a pattern still enough to measure, by a flashing lamp or in a photograph; a ruler square across the lines; about ten waves at once, the first line called nought; the frequency off the dial with its multiplier, or counted over ten seconds or more; speed = frequency × wavelength on the water; five frequencies, one of them again; a hazard and what is done about it, for instance water near the mains or a flashing lamp.",
        &[
            ("enlargement-found", "Enlargement: image ÷ object"),
            (
                "enlargement-applied",
                "Wavelength divided by the enlargement",
            ),
            ("wavelength", "Wavelength: the span ÷ the number of waves"),
        ],
    ),
    (
        "string-loops",
        "Key steps: the same masses on the string throughout; the frequency changed until the loops are largest and stand still; a length over every loop that is seen, node to node; wavelength = two loops; the frequency off the dial with its multiplier; speed = frequency × wavelength; other numbers of loops at the same tension, one of them again; a hazard and what is done about it, for instance a string that may snap or masses that may fall.",
        &[
            (
                "wavelength",
                "Wavelength: two loops, from the length and the loops in it",
            ),
            ("resolution", "Lengths to the nearest millimetre"),
        ],
    ),
];

/// Returns a scheme of twenty marks for a method.
#[must_use]
pub fn scheme(method: Method) -> Vec<Point> {
    let points = house(method).into_iter();
    points.map(|point| worded(method, point)).collect()
}

fn worded(method: Method, point: HousePoint) -> Point {
    let HousePoint { key, judged, marks } = point;
    let (mut steps, mut own): (&str, Titles) = ("", &[]);
    for (code, of_steps, titles) in OF_METHODS {
        if code == method.code() {
            (steps, own) = (of_steps, titles);
        }
    }
    let own = own.iter().find(|(of, _)| *of == key);
    Point {
        title: own
            .map_or_else(|| title(key), |(_, title)| title)
            .to_owned(),
        guidance: match key {
            "method" => steps,
            _ => guidance(key),
        }
        .to_owned(),
        marks,
        judged,
        levels: match key {
            "method" => levels().into(),
            _ => Vec::new(),
        },
    }
}

fn title(key: &str) -> &'static str {
    match key {
        "enough-frequencies" => "Readings at five frequencies or more",
        "many-waves" => "Many waves measured at once",
        "repeats" => "A frequency measured again",
        "frequency" => "Frequency, with the dial’s multiplier",
        "speed" => "Speed: frequency × wavelength",
        "unit" => "Unit of the speed",
        "mean-without-anomaly" => "Mean without the anomalies",
        "gradient" => "Gradient from the line",
        "uncertainty" => "Uncertainty: half the range of the speeds",
        "method" => "Method",
        "table" => "Table with a quantity and a unit in every heading",
        "graph" => "Graph: axes, scales, points, line",
        "conclusion" => "Conclusion that quotes the group’s own figures",
        "evaluation" => "Evaluation: one named weakness, and what would mend it",
        _ => "",
    }
}

fn guidance(key: &str) -> &'static str {
    match key {
        "table" => {
            "Every column is headed with its quantity and its unit, and no cell repeats the unit. On the screen: the unit chosen over a column is the one that was measured in."
        }
        "graph" => {
            "On paper. One mark: both axes with quantity and unit, and even scales over more than half of the grid. One mark: every point within half a small square, and one straight line or smooth curve with points on both sides of it, not dot to dot. An anomaly is plotted and ringed, and the line passes it by."
        }
        "conclusion" => {
            "It says what the speed is, with at least one figure of the group’s own and its unit. A figure that is wrong through an earlier slip still counts."
        }
        "evaluation" => {
            "It names one reading, says which way it may be out or that it scatters, and gives a change that would make that reading better. “Human error”, “be more careful” and “better equipment” earn nothing."
        }
        _ => "",
    }
}

/// Returns what earns how many of the marks for the method.
fn levels() -> [Level; 3] {
    let level = |from, to, says: &str| Level {
        from,
        to,
        says: says.to_owned(),
    };
    [
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
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_point_has_a_title_of_its_own() {
        for method in Method::ALL {
            let points = scheme(method);
            for point in &points {
                let alike = points.iter().filter(|other| other.title == point.title);
                assert_eq!(alike.count(), 1, "{method:?}: {:?}", point.title);
                assert!(!point.title.is_empty(), "{method:?}");
            }
            assert!(!points[0].guidance.is_empty(), "{method:?}: key steps");
        }
    }
}
