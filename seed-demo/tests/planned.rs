//! Every group shows the slips that were planned for it, its readings suggest
//! those that were planned for them, and no others.

use std::collections::BTreeSet;

use analysis::assess::assess;
use analysis::field::{Field, Role};
use analysis::reading::copied::{Declared, questions};
use analysis::reading::{Cause, Placed, infer};
use analysis::sheet::{Asks, Sheet};
use analysis::slip::{Kind, Slip};
use jiff::civil::{Weekday, date};
use server::db::revision;
use server::report::shared::sets;

use crate::group::Group;
use crate::lesson::number;
use crate::term::{Lesson, lessons, school_day};
use crate::year::last_year;

type Codes = BTreeSet<&'static str>;

fn codes(slips: impl IntoIterator<Item = Slip>) -> Codes {
    slips.into_iter().map(Slip::code).collect()
}

/// Returns the wrong turns that were planned for a group's working.
fn wrong(group: &Group) -> impl Iterator<Item = &'static str> {
    group.habits.wrong.iter().map(|(slip, _)| *slip)
}

#[test]
fn every_sheet_shows_what_was_planned_for_it_and_nothing_else() {
    let mut unplanned = Vec::new();
    for (index, lesson) in lessons().iter().enumerate() {
        for (at, group) in lesson.groups.iter().enumerate() {
            let label = char::from(b'A' + u8::try_from(at).unwrap());
            for (kind, entry) in group.sends(number(index, at)) {
                let sheet = Sheet::check(&entry.sheet).expect("a sheet that its page would take");
                // A missing unit is asked for, and a dial far too low; nothing
                // else is odd.
                let is_low = group.bench.slip == Some("dial-multiplier-left-out");
                let mut asked = sheet.questions();
                asked.retain(|question| {
                    let is_of_dial = is_low && question.field == Field::Dial;
                    question.asks != Asks::Unit && !is_of_dial
                });
                assert_eq!(asked, [], "{} {label}", lesson.class);
                let flags = assess(&sheet).flags;
                let found = codes(flags.iter().map(|flag| flag.slip));
                let is_worked = kind == revision::Kind::HandedIn;
                let planned: Codes = wrong(group).filter(|_| is_worked).collect();
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
fn lessons_are_on_weekdays_of_the_past() {
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
    for later in 0..6 {
        let held = last_year(date(2026, 11, 3), 10, 13, later);
        assert!(
            held >= date(2025, 10, 13) && held <= date(2025, 10, 20),
            "{held}"
        );
        assert!(
            !matches!(held.weekday(), Weekday::Saturday | Weekday::Sunday),
            "{held}"
        );
    }
    assert_eq!(
        school_day(date(2026, 11, 16), 0),
        date(2026, 11, 13),
        "from Monday back to Friday"
    );
}

/// Lists what the readings of each group suggest, from one half on: which
/// group, its kit, the causes.
fn suggested(index: usize, lesson: &Lesson) -> Vec<(usize, String, BTreeSet<Cause>)> {
    let newest = lesson.groups.iter().enumerate().filter_map(|(at, group)| {
        let (_, entry) = group.sends(number(index, at)).pop()?;
        Some((at, Sheet::check(&entry.sheet).unwrap(), entry.kit))
    });
    let newest: Vec<_> = newest.collect();
    let placed: Vec<_> = newest
        .iter()
        .map(|(_, sheet, kit)| Placed { sheet, kit })
        .collect();
    let inferences = infer(&placed);
    newest
        .iter()
        .zip(inferences)
        .map(|((at, _, kit), inference)| {
            let likely = inference.findings.iter().filter(|f| f.probability >= 0.5);
            (*at, kit.clone(), likely.map(|f| f.cause).collect())
        })
        .collect()
}

/// Returns what was planned for the readings of a group.
fn planned(group: &Group) -> BTreeSet<Cause> {
    let row = group.slip_on.map(|(slip, _)| slip);
    let slips = group.bench.slip.into_iter().chain(row);
    slips.filter_map(Cause::from_code).collect()
}

#[test]
fn readings_suggest_what_was_planned_for_each_group_and_accuse_nobody_else() {
    let mut unplanned = Vec::new();
    for (index, lesson) in lessons().iter().enumerate() {
        for (at, _, mut found) in suggested(index, lesson) {
            found.retain(|cause| cause.kind() == Kind::Slip);
            if found != planned(&lesson.groups[at]) {
                unplanned.push(format!("{} {at}: {found:?}", lesson.class));
            }
        }
    }
    assert!(unplanned.is_empty(), "{}", unplanned.join("\n"));
}

#[test]
fn moved_lamp_and_dirty_tank_are_suspected_and_no_other_tank() {
    let mut suspected = BTreeSet::new();
    for (index, lesson) in lessons().iter().enumerate() {
        for (_, kit, found) in suggested(index, lesson) {
            let faults = found.into_iter().filter(|c| c.kind() == Kind::Apparatus);
            suspected.extend(faults.map(|cause| (index, kit.clone(), cause.code())));
        }
    }
    suspected.retain(|(_, kit, _)| kit.starts_with("Tank"));
    let expected = [
        (0, "Tank 2", "dirty-water"),
        (2, "Tank 1", "lamp-off"),
        (2, "Tank 2", "dirty-water"),
    ];
    let expected = expected.map(|(index, kit, code)| (index, kit.to_owned(), code));
    assert_eq!(suspected, BTreeSet::from(expected));
}

#[test]
fn two_groups_have_the_readings_of_others_and_one_of_them_says_so() {
    let mut copies = Vec::new();
    for (index, lesson) in lessons().iter().enumerate() {
        for (at, group) in lesson.groups.iter().enumerate() {
            let Some(before) = group.copies else { continue };
            let whose = at - usize::try_from(before).unwrap();
            let readings = |at: usize| {
                let (_, entry) = lesson.groups[at].sends(number(index, at)).pop().unwrap();
                let mut sheet = entry.sheet;
                sheet.whole.retain(|field, _| field.role() == Role::Reading);
                for row in &mut sheet.rows {
                    row.cells.retain(|field, _| field.role() == Role::Reading);
                }
                (sheet, entry.shared)
            };
            let (theirs, said) = readings(at);
            assert_eq!(theirs, readings(whose).0, "{} {at}", lesson.class);
            copies.push(said);
        }
    }
    copies.sort();
    assert_eq!(copies, ["", "group D"]);
}

#[test]
fn readings_that_were_taken_over_are_asked_about_unless_somebody_said_so() {
    let mut asked = Vec::new();
    for (index, lesson) in lessons().iter().enumerate() {
        let newest = lesson.groups.iter().enumerate().filter_map(|(at, group)| {
            let (_, entry) = group.sends(number(index, at)).pop()?;
            let label = char::from(b'A' + u8::try_from(at).unwrap()).to_string();
            Some((label, Sheet::check(&entry.sheet).unwrap(), entry))
        });
        let newest: Vec<_> = newest.collect();
        let said: Vec<_> = newest
            .iter()
            .map(|(label, _, entry)| (label.as_str(), entry.shared.as_str()))
            .collect();
        let sets = sets(&said);
        let declared: Vec<_> = newest
            .iter()
            .zip(&sets)
            .map(|((_, sheet, _), shared)| Declared { sheet, shared })
            .collect();
        let questions = questions(&declared).into_iter();
        for question in questions.filter(|question| question.probability >= 0.5) {
            let labels = question.sheets.iter().map(|at| newest[*at].0.as_str());
            asked.push(format!("{}: {}", lesson.class, labels.collect::<String>()));
        }
    }
    assert_eq!(asked, ["10A/Ph1: BF"]);
}
