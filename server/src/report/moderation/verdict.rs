//! What a comparison comes to, in sentences.

use analysis::moderation::comparison::{Agreement, Verdict};

use super::former;
use crate::words::{capitalised, plural, spelt};

/// Whose marks a line of figures is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// All sheets, whoever marked them.
    Everyone,
    /// Those that one person marked first.
    First,
    /// Those that one person marked second.
    Second,
}

/// A verdict on some sheets as a sentence.
#[must_use]
pub fn words(verdict: &Verdict, agreement: &Agreement, whose: Whose) -> String {
    match *verdict {
        Verdict::TooFew { reach } => too_few(agreement.n, reach),
        Verdict::Same => format!(
            "{} got the same total both times.",
            sentence_of(agreement.n, "sheet", "All ")
        ),
        Verdict::NoDifferenceShown { reach } => format!(
            "No difference is shown. {} the mean to about ±{reach:.1} marks, and a smaller difference would hardly show.",
            fix(agreement.n)
        ),
        Verdict::SecondHigher { at_least } => level(agreement, at_least, whose, true),
        Verdict::SecondLower { at_least } => level(agreement, at_least, whose, false),
        Verdict::Cancelling {
            outside,
            above,
            below,
        } => format!(
            "The mean hides differences that cancel: the second mark is higher on {} and lower on {}, by {:.1} marks on average, with {}.",
            sheets(above),
            sheets(below),
            agreement.mean_absolute,
            beyond(outside, agreement.n)
        ),
        Verdict::Scattered { outside } => format!(
            "The mean alone does not tell it, but the marks are apart, with {}.",
            beyond(outside, agreement.n)
        ),
        Verdict::Former(verdict) => former::words(verdict, whose),
    }
}

/// That a person's marks were compared with one colleague's alone; `None`
/// where it was more than one.
#[must_use]
pub fn one_colleague(names: &[String], whose: Whose) -> Option<String> {
    let [name] = names else {
        return None;
    };
    let marked = match whose {
        Whose::Second => "first",
        Whose::First | Whose::Everyone => "a second time",
    };
    Some(format!(
        "{name} alone marked these sheets {marked}: a difference may be either person’s, and these sheets cannot say whose."
    ))
}

/// `Six sheets`, `All six sheets`.
fn sentence_of(n: usize, noun: &str, before: &str) -> String {
    let plural = plural(n, "", "s");
    capitalised(&format!("{before}{} {noun}{plural}", spelt(n)))
}

/// `Six sheets fix`.
fn fix(n: usize) -> String {
    let verb = plural(n, "fixes", "fix");
    format!("{} {verb}", sentence_of(n, "sheet", ""))
}

fn too_few(n: usize, reach: Option<f64>) -> String {
    match reach {
        // Of two sheets Student's t makes nothing, or more than a sheet has.
        Some(reach) if (0.05..10.0).contains(&reach) => format!(
            "{} this to about ±{reach:.1} marks: too few to call a difference.",
            fix(n)
        ),
        _ if n == 1 => "One sheet is too few to call a difference.".to_owned(),
        _ => format!(
            "{} are too few to call a difference.",
            sentence_of(n, "sheet", "")
        ),
    }
}

fn level(agreement: &Agreement, at_least: f64, whose: Whose, is_second_higher: bool) -> String {
    let mean = agreement.mean.value.abs();
    let more = if is_second_higher { "more" } else { "less" };
    let least = if at_least < 0.05 {
        "the sample allows for hardly any at all".to_owned()
    } else {
        format!("at least {at_least:.1}")
    };
    let about = format!("{mean:.1} marks a sheet {more} on average ({least})");
    match (whose, is_second_higher) {
        (Whose::Everyone, _) => format!("The second markers gave {about}."),
        (Whose::First, true) => format!("Severe: the second markers gave {about}."),
        (Whose::First, false) => format!("Lenient: the second markers gave {about}."),
        (Whose::Second, true) => format!("Lenient: gave {about} than the first markers."),
        (Whose::Second, false) => format!("Severe: gave {about} than the first markers."),
    }
}

fn beyond(outside: usize, n: usize) -> String {
    match outside {
        0 => "none outside the tolerance".to_owned(),
        outside => format!("{} of {} outside the tolerance", spelt(outside), spelt(n)),
    }
}

pub(super) fn sheets(n: usize) -> String {
    format!("{} {}", spelt(n), plural(n, "sheet", "sheets"))
}

#[cfg(test)]
mod tests {
    use analysis::moderation::comparison::{Comparison, Marks, Sheet, compare};
    use analysis::moderation::settling::Tolerance;

    use super::*;

    /// Sheets with one point, first and second mark, one after the other.
    fn compared(marks: &[(i64, i64)]) -> Comparison {
        let sheets: Vec<Sheet> = (1..)
            .zip(marks)
            .map(|(id, (first, second))| Sheet {
                id,
                first_markers: vec![1],
                second_marker: 2,
                marks: vec![Marks {
                    point: 1,
                    most: 20,
                    first: Some(*first),
                    second: Some(*second),
                }],
            })
            .collect();
        compare(&sheets, Tolerance { total: 2, point: 1 })
    }

    fn told(marks: &[(i64, i64)], whose: Whose) -> Vec<String> {
        let compared = compared(marks);
        let whole = compared.whole.expect("a sheet or more");
        let verdicts = compared.verdicts.iter();
        verdicts
            .map(|verdict| words(verdict, &whole, whose))
            .collect()
    }

    #[test]
    fn few_sheets_say_what_they_leave_open_where_that_says_something() {
        let few = "One sheet is too few to call a difference.";
        assert_eq!(told(&[(10, 12)], Whose::First), [few]);
        let few = "Two sheets are too few to call a difference.";
        assert_eq!(told(&[(10, 12), (9, 9)], Whose::First), [few]);
        // 2, 0, 1: t/√3 for 2 degrees of freedom.
        let few = "Three sheets fix this to about ±2.5 marks: too few to call a difference.";
        assert_eq!(told(&[(10, 12), (9, 9), (5, 6)], Whose::First), [few]);
        let alike = "Three sheets are too few to call a difference.";
        assert_eq!(told(&[(10, 11), (9, 10), (5, 6)], Whose::First), [alike]);
    }

    #[test]
    fn same_marks_are_severe_in_one_and_lenient_in_the_other() {
        let marks = [(6, 7), (8, 10), (10, 11), (12, 14), (9, 10), (7, 9)];
        let severe =
            "Severe: the second markers gave 1.5 marks a sheet more on average (at least 0.9).";
        assert_eq!(told(&marks, Whose::First)[0], severe);
        let lenient = "Lenient: gave 1.5 marks a sheet more on average (at least 0.9) than the first markers.";
        assert_eq!(told(&marks, Whose::Second)[0], lenient);
        let turned = marks.map(|(first, second)| (second, first));
        assert!(
            told(&turned, Whose::First)[0]
                .starts_with("Lenient: the second markers gave 1.5 marks a sheet less")
        );
        assert!(told(&turned, Whose::Second)[0].starts_with("Severe: gave 1.5 marks a sheet less"));
    }

    #[test]
    fn same_totals_and_lone_colleagues_are_told() {
        let marks = [(5, 5), (6, 6), (7, 7), (8, 8), (9, 9), (10, 10)];
        assert_eq!(
            told(&marks, Whose::Everyone),
            ["All six sheets got the same total both times."]
        );
        let names = ["Mrs Gill".to_owned(), "Mr Tarn".to_owned()];
        assert_eq!(one_colleague(&names, Whose::First), None);
        let lone = one_colleague(&names[..1], Whose::First).expect("one colleague");
        assert!(
            lone.starts_with("Mrs Gill alone marked these sheets a second time"),
            "{lone}"
        );
        let lone = one_colleague(&names[..1], Whose::Second).expect("one colleague");
        assert!(
            lone.starts_with("Mrs Gill alone marked these sheets first"),
            "{lone}"
        );
    }
}
