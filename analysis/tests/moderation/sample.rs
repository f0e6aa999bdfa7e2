use std::collections::BTreeSet;

use analysis::moderation::sample::{Candidate, Drawn, Rule, draw};
use analysis::moderation::ticket::ticket;
use proptest::prelude::*;

/// Three classes of eight. Marker 1 marked the first and half of the second,
/// where marker 2 marked the other half with them; marker 3 the third.
fn department() -> Vec<Candidate> {
    let totals = [
        [11, 14, 9, 17, 0, 12, 15, 13],
        [18, 8, 12, 10, 16, 19, 8, 13],
        [12, 15, 14, 20, 5, 16, 11, 13],
    ];
    let mut sheets = Vec::new();
    for (class, totals) in (1..).zip(totals) {
        for (label, total) in ('A'..).zip(totals) {
            let markers = match class {
                1 => vec![1],
                2 if label < 'E' => vec![1],
                2 => vec![1, 2],
                _ => vec![3],
            };
            let name = format!("{class}/{label}");
            sheets.push(Candidate {
                name,
                class,
                markers,
                total,
            });
        }
    }
    sheets
}

const SEED: &str = "four crests, 20 November";

fn told(sheets: &[Candidate], drawn: &[Drawn]) -> Vec<(String, Rule, String)> {
    let tell = |drawn: &Drawn| {
        let name = sheets[drawn.at].name.clone();
        (name, drawn.rule, drawn.ticket[..8].to_owned())
    };
    drawn.iter().map(tell).collect()
}

/// Expected: worked out apart from this program, the tickets with
/// `printf 'four crests, 20 November\n2/B' | sha256sum` and so on, the rules by
/// hand.
#[test]
fn known_seed_draws_the_sheets_that_anybody_draws() {
    let sheets = department();
    let expected = [
        ("2/B", Rule::Class, "053811b5"),
        ("3/H", Rule::Middle, "1a76185e"),
        ("2/G", Rule::Marker, "2c85c20a"),
        ("1/H", Rule::Class, "477a05c9"),
        ("3/G", Rule::Random, "5bee6e1f"),
        ("2/E", Rule::Random, "65532694"),
        ("3/D", Rule::Highest, "6bbd9239"),
        ("3/E", Rule::Lowest, "99f0ec7a"),
    ]
    .map(|(name, rule, ticket)| (name.to_owned(), rule, ticket.to_owned()));
    assert_eq!(told(&sheets, &draw(&sheets, Some(8), SEED)), expected);
}

#[test]
fn rules_are_kept_where_they_need_more_than_was_asked_for() {
    let sheets = department();
    let drawn = draw(&sheets, Some(3), SEED);
    assert_eq!(drawn.len(), 6);
    assert!(drawn.iter().all(|sheet| sheet.rule != Rule::Random));
}

#[test]
fn all_of_a_small_cohort_are_taken_by_ticket() {
    let sheets = department();
    let drawn = draw(&sheets, None, SEED);
    assert_eq!(drawn.len(), 24);
    assert!(drawn.iter().all(|sheet| sheet.rule == Rule::All));
    assert!(drawn.is_sorted_by(|a, b| a.ticket < b.ticket));
}

#[test]
fn nothing_is_drawn_from_nothing() {
    assert_eq!(draw(&[], Some(15), SEED), []);
    assert_eq!(draw(&[], None, SEED), []);
}

#[test]
fn sheets_that_all_have_nought_have_no_lowest() {
    let mut sheets = department();
    for sheet in &mut sheets {
        sheet.total = 0;
    }
    let drawn = draw(&sheets, Some(8), SEED);
    assert_eq!(drawn.len(), 8);
    assert!(drawn.iter().all(|sheet| sheet.rule != Rule::Lowest));
}

/// The order in which sheets are marked must tell nothing of their marks.
#[test]
fn order_of_the_sample_is_that_of_the_tickets() {
    let sheets = department();
    for size in [3, 8, 15] {
        let drawn = draw(&sheets, Some(size), SEED);
        for sheet in &drawn {
            assert_eq!(sheet.ticket, ticket(SEED, &sheets[sheet.at].name));
        }
        assert!(drawn.is_sorted_by(|a, b| a.ticket < b.ticket));
    }
}

/// Over many seeds every sheet that no rule favours is taken about as often.
#[test]
fn random_part_favours_no_sheet() {
    let sheets = department();
    let mut times = vec![0_u32; sheets.len()];
    let seeds = 4000;
    for seed in 0..seeds {
        for sheet in draw(&sheets, Some(12), &format!("seed {seed}")) {
            if sheet.rule == Rule::Random {
                times[sheet.at] += 1;
            }
        }
    }
    // Sheets of the first class that are neither extreme nor in the middle:
    // the rules see no difference between them.
    let alike = [0, 1, 2, 3, 5, 6].map(|at| f64::from(times[at]));
    let mean = alike.iter().sum::<f64>() / 6.0;
    let share = mean / f64::from(seeds);
    let spread = (f64::from(seeds) * share * (1.0 - share)).sqrt();
    for n in alike {
        assert!((n - mean).abs() < 4.0 * spread, "{alike:?}");
    }
}

fn any_sheets() -> impl Strategy<Value = Vec<Candidate>> {
    let sheet = (
        0..5_i64,
        prop::collection::btree_set(1..5_i64, 1..3),
        0..=20_i64,
    );
    prop::collection::vec(sheet, 1..60).prop_map(|sheets| {
        let sheets = sheets.into_iter().enumerate();
        sheets
            .map(|(at, (class, markers, total))| Candidate {
                name: format!("{class}/{at}"),
                class,
                markers: markers.into_iter().collect(),
                total,
            })
            .collect()
    })
}

fn names(sheets: &[Candidate], drawn: &[Drawn]) -> Vec<(String, Rule)> {
    let named = drawn.iter();
    named
        .map(|drawn| (sheets[drawn.at].name.clone(), drawn.rule))
        .collect()
}

proptest! {
    #[test]
    fn every_class_and_every_marker_is_covered(sheets in any_sheets(), size in 0..30_usize) {
        let drawn = draw(&sheets, Some(size), SEED);
        let all = |part: &dyn Fn(&Candidate) -> Vec<i64>| -> BTreeSet<i64> {
            sheets.iter().flat_map(part).collect()
        };
        let taken = |part: &dyn Fn(&Candidate) -> Vec<i64>| -> BTreeSet<i64> {
            drawn.iter().flat_map(|drawn| part(&sheets[drawn.at])).collect()
        };
        let class = |sheet: &Candidate| vec![sheet.class];
        let markers = |sheet: &Candidate| sheet.markers.clone();
        prop_assert_eq!(all(&class), taken(&class));
        prop_assert_eq!(all(&markers), taken(&markers));
    }

    #[test]
    fn size_is_held_unless_the_rules_need_more(sheets in any_sheets(), size in 0..30_usize) {
        let drawn = draw(&sheets, Some(size), SEED);
        let by_rule = drawn.iter().filter(|drawn| drawn.rule != Rule::Random).count();
        prop_assert_eq!(drawn.len(), size.min(sheets.len()).max(by_rule));
        let once: BTreeSet<usize> = drawn.iter().map(|drawn| drawn.at).collect();
        prop_assert_eq!(once.len(), drawn.len());
    }

    #[test]
    fn extremes_are_taken(sheets in any_sheets(), size in 0..30_usize) {
        let drawn = draw(&sheets, Some(size), SEED);
        let totals: BTreeSet<i64> = drawn.iter().map(|drawn| sheets[drawn.at].total).collect();
        let all: BTreeSet<i64> = sheets.iter().map(|sheet| sheet.total).collect();
        prop_assert!(totals.contains(all.last().unwrap()));
        if let Some(lowest) = all.iter().find(|total| **total > 0) {
            prop_assert!(totals.contains(lowest));
        }
    }

    #[test]
    fn order_of_the_sheets_is_nothing_to_the_draw(
        (sheets, shuffled) in any_sheets().prop_flat_map(|sheets| {
            (Just(sheets.clone()), Just(sheets).prop_shuffle())
        }),
        size in 0..30_usize,
        seed in "[a-z0-9 ]{1,12}",
    ) {
        let one = draw(&sheets, Some(size), &seed);
        let other = draw(&shuffled, Some(size), &seed);
        prop_assert_eq!(names(&sheets, &one), names(&shuffled, &other));
    }
}
