//! What a comparison comes to, in sentences.

use analysis::moderation::comparison::{Agreement, Former, Verdict};

use super::number::signed;
use super::{capitalised, counted, plural, spelt};

sentences! {
    MEAN_IS: "Above 0 the second markers gave more: the first were the more severe.";
    SIZE_IS: "The same with signs dropped, so that nothing cancels.";
    SD_IS: "How far they scatter about their mean.";
    SAME_IS: "Both markings gave the same.";
    WITHIN_IS: "As close as the department asks for.";
    LIMITS_ARE: "Between the two limits lie about 95 % of differences, if they are normal.";
    KAPPA_IS: "Agreement beyond chance, 1 at best; a disagreement weighs as much as the marks are apart. None where either marking gave one total throughout.";
    INTRACLASS_IS: "How much of the scatter of marks is the sheets’, 1 at best. One-way, ICC(1,1): a marker who is severe throughout lowers it.";
}

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

/// Returns a verdict on some sheets as a sentence.
#[must_use]
pub fn words(verdict: &Verdict, agreement: &Agreement, whose: Whose) -> String {
    match *verdict {
        Verdict::TooFew { reach } => too_few(agreement.n, reach),
        Verdict::Same => format!("All {} got the same total both times.", sheets(agreement.n)),
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
        Verdict::Former(verdict) => former(verdict, whose),
    }
}

/// Says that a person's marks were compared with one colleague's alone. Returns
/// `None` where it was more than one.
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

/// `Six sheets fix`.
fn fix(n: usize) -> String {
    let verb = plural(n, "fixes", "fix");
    format!("{} {verb}", capitalised(&sheets(n)))
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
            capitalised(&sheets(n))
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

fn sheets(n: usize) -> String {
    format!("{} {}", spelt(n), plural(n, "sheet", "sheets"))
}

/// Verdicts of records of format 1 that no comparison comes to any more, in the
/// sentences that they always had.
fn former(verdict: Former, whose: Whose) -> String {
    match verdict {
        Former::Moved {
            marks,
            sheets: number,
        } => format!(
            "Totals hide that {} changed places between the points of {}: the marking points below tell where.",
            counted(marks, "mark", "marks"),
            sheets(number)
        ),
        Former::FirstBunches { slope } => bunches(whose, Whose::First, 10.0 / slope),
        Former::SecondBunches { slope } => bunches(whose, Whose::Second, 10.0 * slope),
        Former::Drifts {
            per_sheet,
            last_less_first_third,
        } => drifts(whose, per_sheet, last_less_first_third),
    }
}

/// `who` keeps to the middle: sheets that the others put ten marks apart are
/// `apart` marks apart with them.
fn bunches(whose: Whose, who: Whose, apart: f64) -> String {
    let (them, others) = match who {
        Whose::First => ("the first markers", "the second"),
        _ => ("the second markers", "the first"),
    };
    if whose == who {
        format!(
            "Bunches marks in the middle: sheets that {others} markers put ten marks apart are {apart:.1} apart here."
        )
    } else {
        format!(
            "Here {them} bunch marks in the middle: sheets that {others} put ten marks apart are {apart:.1} apart with them."
        )
    }
}

/// The first marker grows more severe where the second gives ever more beside
/// them.
fn drifts(whose: Whose, per_sheet: f64, last_less_first_third: f64) -> String {
    let rises = per_sheet > 0.0;
    let change = format!(
        "from the first third of these sheets to the last, the difference changed by {} marks",
        signed(last_less_first_third, 1)
    );
    match (whose, rises) {
        (Whose::Everyone, _) => {
            format!("The difference drifts over the order of the second marking: {change}.")
        }
        (Whose::First, true) | (Whose::Second, false) => {
            format!("Grew more severe on the way, or the others milder: {change}.")
        }
        (Whose::First, false) | (Whose::Second, true) => {
            format!("Grew milder on the way, or the others more severe: {change}.")
        }
    }
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

    #[test]
    fn whoever_kept_to_the_middle_is_said_to_have() {
        let first = Former::FirstBunches { slope: 2.5 };
        assert_eq!(
            former(first, Whose::First),
            "Bunches marks in the middle: sheets that the second markers put ten marks apart are 4.0 apart here."
        );
        assert_eq!(
            former(first, Whose::Everyone),
            "Here the first markers bunch marks in the middle: sheets that the second put ten marks apart are 4.0 apart with them."
        );
    }

    #[test]
    fn drift_was_a_growing_severity_of_the_first_or_lenience_of_the_second() {
        let drifts = Former::Drifts {
            per_sheet: 0.5,
            last_less_first_third: 2.5,
        };
        for (whose, start) in [
            (Whose::Everyone, "The difference drifts over the order"),
            (Whose::First, "Grew more severe on the way"),
            (Whose::Second, "Grew milder on the way"),
        ] {
            let told = former(drifts, whose);
            assert!(told.starts_with(start), "{told}");
            assert!(told.ends_with("the difference changed by +2.5 marks."));
        }
    }
}
