//! Every group shows the slips that were planned for it, and no others.

use std::collections::BTreeSet;

use analysis::assess::assess;
use analysis::class_set::summarise;
use analysis::sheet::Sheet;
use analysis::slip::Slip;
use jiff::civil::{Weekday, date};
use server::db::revision;

use crate::lesson::number;
use crate::term::{lessons, school_day};

type Codes = BTreeSet<&'static str>;

fn codes(slips: impl IntoIterator<Item = Slip>) -> Codes {
    slips.into_iter().map(Slip::code).collect()
}

#[test]
fn every_sheet_shows_what_was_planned_for_it_and_nothing_else() {
    let mut unplanned = Vec::new();
    for (index, lesson) in lessons().iter().enumerate() {
        for (at, group) in lesson.groups.iter().enumerate() {
            let label = char::from(b'A' + u8::try_from(at).unwrap());
            for (kind, entry) in group.sends(number(index, at)) {
                let sheet = Sheet::check(&entry.sheet).expect("a sheet that its page would take");
                // A missing unit is asked for; nothing else is odd.
                let mut asked = sheet.questions();
                asked.retain(|question| !question.sentence.starts_with("Choose the unit"));
                assert_eq!(asked, [], "{} {label}", lesson.class);
                let flags = assess(&sheet).flags;
                let found = codes(flags.iter().map(|flag| flag.slip));
                let is_worked = kind == revision::Kind::HandedIn;
                let planned = codes(
                    group
                        .pupil
                        .wrong
                        .iter()
                        .map(|(slip, _)| *slip)
                        .filter(|_| is_worked),
                );
                // The second hand-in of a group that corrects itself is clean.
                let is_clean_again =
                    group.progress == crate::group::Progress::Corrected && found.is_empty();
                if found != planned && !is_clean_again {
                    unplanned.push(format!("{} {label}: {flags:#?}", lesson.class));
                }
            }
        }
    }
    assert!(unplanned.is_empty(), "{}", unplanned.join("\n"));
}

#[test]
fn every_slip_and_remark_is_planned_somewhere() {
    let lessons = lessons();
    let groups = lessons.iter().flat_map(|lesson| &lesson.groups);
    let planned = codes(groups.flat_map(|group| group.pupil.wrong.iter().map(|(slip, _)| *slip)));
    assert_eq!(planned, codes(Slip::ALL));
}

#[test]
fn only_the_group_that_forgot_its_hanger_stands_apart() {
    let mut apart = Vec::new();
    for (index, lesson) in lessons().iter().enumerate() {
        let handed_in = lesson.groups.iter().enumerate().filter_map(|(at, group)| {
            let (kind, entry) = group.sends(number(index, at)).pop()?;
            (kind == revision::Kind::HandedIn)
                .then(|| (at, assess(&Sheet::check(&entry.sheet).unwrap())))
        });
        let handed_in: Vec<_> = handed_in.collect();
        let summary = summarise(&handed_in.iter().map(|(_, sheet)| sheet).collect::<Vec<_>>());
        for ((at, _), standing) in handed_in.iter().zip(&summary.standings) {
            if standing.outlier {
                apart.push((lesson.class, lesson.method.code(), *at));
            }
        }
    }
    assert_eq!(apart, [("11C/Ph1", "string-loops", 3)]);
}

#[test]
fn lessons_are_on_weekdays_before_today() {
    for day in 1..=14 {
        let today = date(2026, 11, day);
        for ago in [0, 4, 38] {
            let held = school_day(today, ago);
            assert!(held < today, "{held} before {today}");
            assert!(
                !matches!(held.weekday(), Weekday::Saturday | Weekday::Sunday),
                "{held}"
            );
        }
    }
    assert_eq!(
        school_day(date(2026, 11, 16), 0),
        date(2026, 11, 13),
        "from Monday back to Friday"
    );
}
