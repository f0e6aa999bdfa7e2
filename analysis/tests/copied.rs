//! Readings that are another group's: honest classes are left in peace, and
//! sheets that were taken over are found. By simulation with fixed seeds.

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::copied::{Declared, Found, Question, questions};
use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
use analysis::wave::water::Water;
use rand::rngs::StdRng;
use rand::seq::SliceRandom;
use rand::{Rng, SeedableRng};

const DIALS: [u32; 6] = [10, 15, 20, 25, 30, 40];

/// Normal, mean 0 and standard deviation 1 (Box and Muller).
fn normal(rng: &mut StdRng) -> f64 {
    let radius = (-2.0 * (1.0 - rng.random::<f64>()).ln()).sqrt();
    radius * (std::f64::consts::TAU * rng.random::<f64>()).cos()
}

fn sheet_of(method: Method, rows: impl Iterator<Item = Vec<(Field, String)>>) -> TypedSheet {
    let cell = |text| Cell {
        text,
        unit: String::new(),
    };
    let rows = rows.enumerate().map(|(at, cells)| TypedRow {
        label: (at + 1).to_string(),
        cells: cells.into_iter().map(|(f, text)| (f, cell(text))).collect(),
        left_out: false,
    });
    TypedSheet {
        method,
        whole: [].into(),
        rows: rows.collect(),
    }
}

/// How a class reads.
#[derive(Clone, Copy)]
struct Manner {
    tanks: usize,
    /// Standard deviations of a span, mm: the groups of a tank in turn.
    scatter: [f64; 2],
    /// Steps in which spans are read, mm: likewise.
    step: [f64; 2],
    repeats: usize,
}

const CAREFUL: Manner = Manner {
    tanks: 1,
    scatter: [1.0; 2],
    step: [1.0; 2],
    repeats: 1,
};
const ROUGH: Manner = Manner {
    scatter: [2.0; 2],
    ..CAREFUL
};
const WHOLE_CENTIMETRES: Manner = Manner {
    step: [10.0; 2],
    ..CAREFUL
};

/// A group's own readings on a tank, ten waves at each frequency.
fn measured(
    rng: &mut StdRng,
    (water, enlargement): (Water, f64),
    manner: Manner,
    group: usize,
) -> TypedSheet {
    let in_turn = group / manner.tanks % 2;
    let (scatter, step) = (manner.scatter[in_turn], manner.step[in_turn]);
    let settings = DIALS.iter().flat_map(|f| vec![*f; manner.repeats]);
    let rows = settings.map(|f| {
        let span = 1e4 * water.wavelength(f.into()) * enlargement + scatter * normal(rng);
        vec![
            (Field::Dial, f.to_string()),
            (Field::LastCrest, "10".to_owned()),
            (Field::Span, format!("{} mm", (span / step).round() * step)),
        ]
    });
    sheet_of(Method::RippleTank, rows)
}

/// Twelve groups, on their tanks in turn.
fn class(rng: &mut StdRng, manner: Manner) -> Vec<TypedSheet> {
    let tanks: Vec<_> = (0..manner.tanks)
        .map(|_| {
            let water = Water {
                surface_tension: rng.random_range(0.05..0.0728),
                ..Water::clean(20.0, rng.random_range(0.004..0.012))
            };
            (water, rng.random_range(1.3..2.0))
        })
        .collect();
    (0..12)
        .map(|group| measured(rng, tanks[group % manner.tanks], manner, group))
        .collect()
}

fn asked(typed: &[TypedSheet]) -> Vec<Question> {
    asked_of(typed, &vec![""; typed.len()])
}

fn asked_of(typed: &[TypedSheet], shared: &[&str]) -> Vec<Question> {
    let checked = typed.iter().map(|t| Sheet::check(t).expect("fine"));
    let sheets: Vec<Sheet> = checked.collect();
    let declared = sheets.iter().zip(shared);
    let declared = declared.map(|(sheet, shared)| Declared { sheet, shared });
    questions(&declared.collect::<Vec<_>>())
}

/// The share of classes of which something is asked with a probability of one
/// half, after a change to each.
fn rate(
    manner: Manner,
    seed: u64,
    trials: u32,
    change: impl Fn(&mut StdRng, &mut Vec<TypedSheet>),
) -> f64 {
    let mut rng = StdRng::seed_from_u64(seed);
    let asked_about = (0..trials).filter(|_| {
        let mut class = class(&mut rng, manner);
        change(&mut rng, &mut class);
        asked(&class)
            .iter()
            .any(|question| question.probability >= 0.5)
    });
    f64::from(u32::try_from(asked_about.count()).expect("few")) / f64::from(trials)
}

/// The same six frequencies and counts in all groups, and whatever makes some
/// of them agree more than others: one tank or several, groups with a sharper
/// eye, groups that like half centimetres.
#[test]
fn fewer_than_one_honest_class_in_a_hundred_is_asked_about() {
    let manners = [0.15, 0.3, 0.6, 1.0, 2.0, 3.0].map(|scatter| Manner {
        scatter: [scatter; 2],
        ..CAREFUL
    });
    let mixed = [[0.5, 2.0], [0.3, 1.0]].map(|scatter| Manner { scatter, ..CAREFUL });
    let rounding = Manner {
        step: [1.0, 5.0],
        ..CAREFUL
    };
    let several = [0.3, 1.0].map(|scatter| Manner {
        tanks: 4,
        scatter: [scatter; 2],
        ..CAREFUL
    });
    let all = manners.into_iter().chain(mixed).chain(several);
    let all: Vec<Manner> = all.chain([rounding, WHOLE_CENTIMETRES]).collect();
    let mut together = 0.0;
    for (seed, manner) in (1..).zip(&all) {
        // Four standard errors of a rate of 1 % beyond it for each manner;
        // over all of them no allowance.
        let asked_about = rate(*manner, seed, 400, |_, _| ());
        assert!(asked_about < 0.03, "{seed}: {asked_about}");
        together += asked_about / all.len() as f64;
    }
    assert!(together < 0.01, "{together}");
}

#[test]
fn sheets_taken_over_are_found_in_whatever_order() {
    let take_over = |rng: &mut StdRng, class: &mut Vec<TypedSheet>| {
        class[7] = class[3].clone();
        class[7].rows.shuffle(rng);
    };
    let on_tanks = Manner {
        tanks: 4,
        ..CAREFUL
    };
    for (seed, manner) in [(31, ROUGH), (32, on_tanks)] {
        let found = rate(manner, seed, 200, take_over);
        assert!(found > 0.85, "{seed}: {found}");
    }
}

/// A rough class in which some have the first group's readings.
fn alike(copies: &[usize]) -> Vec<TypedSheet> {
    let mut class = class(&mut StdRng::seed_from_u64(41), ROUGH);
    for copy in copies {
        class[*copy] = class[0].clone();
    }
    class
}

#[test]
fn a_declared_set_is_not_asked_about() {
    let class = alike(&[1]);
    let mut shared = [""; 12];
    for (said, is_declared) in [
        (["", ""], Some(false)),
        (["Demo", ""], Some(true)),
        (["Demo", " demo "], None),
    ] {
        shared[..2].copy_from_slice(&said);
        let found = asked_of(&class, &shared);
        let found = found.first().map(|question| question.found);
        let expected = is_declared.map(|is_declared| Found::Same {
            rows: 6,
            is_declared,
        });
        assert_eq!(found, expected, "{said:?}");
    }
}

#[test]
fn sheets_that_agree_with_one_another_are_one_question() {
    for copies in [vec![1], vec![2, 5], vec![3, 4, 5, 6, 7]] {
        let found = asked(&alike(&copies));
        let sheets: Vec<usize> = std::iter::once(0).chain(copies).collect();
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].sheets, sheets, "who");
        assert!(found[0].probability > 0.5, "{found:?}");
    }
}

#[test]
fn a_row_that_differs_and_a_few_rows_that_agree_are_no_matter() {
    let mut class = alike(&[1]);
    let span = class[1].rows[0].cells.get_mut(&Field::Span);
    span.expect("a span").text = "401 mm".to_owned();
    assert_eq!(asked(&class), [], "one row apart");
    let mut class = alike(&[1]);
    for sheet in &mut class {
        sheet.rows.truncate(3);
    }
    assert_eq!(asked(&class), [], "three rows");
}

/// Five readings at each frequency, all made the first one's or not.
fn repeated(seed: u64, manner: Manner, made_up: bool) -> Vec<Question> {
    let manner = Manner {
        repeats: 5,
        ..manner
    };
    let mut sheet = class(&mut StdRng::seed_from_u64(seed), manner).swap_remove(0);
    for at in 0..sheet.rows.len() {
        if made_up {
            sheet.rows[at] = sheet.rows[at - at % 5].clone();
        }
    }
    asked(&[sheet])
}

#[test]
fn many_repeats_without_any_spread_are_asked_about() {
    let found = repeated(51, CAREFUL, true);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(
        (found[0].found, &found[0].sheets[..]),
        (Found::NoSpread { repeats: 24 }, &[0][..])
    );
    assert!(found[0].probability > 0.5, "{found:?}");
    for seed in 52..152 {
        assert_eq!(repeated(seed, CAREFUL, false), [], "measured");
    }
    assert_eq!(
        repeated(51, WHOLE_CENTIMETRES, true),
        [],
        "whole centimetres"
    );
}

/// A string from end to end, with the frequency of its first resonance as each
/// loop tells it.
fn string(mut first: impl FnMut() -> f64) -> TypedSheet {
    let rows = (1_u32..=5).map(|loops| {
        vec![
            (Field::Dial, format!("{:.1}", f64::from(loops) * first())),
            (Field::Loops, loops.to_string()),
            (Field::Length, "1.000".to_owned()),
            (Field::LengthLoops, loops.to_string()),
        ]
    });
    sheet_of(Method::StringLoops, rows)
}

#[test]
fn lengths_that_were_set_and_multiples_of_one_resonance_say_nothing() {
    let class: Vec<_> = (0..8).map(|at| string(|| [22.1, 22.3][at % 2])).collect();
    assert_eq!(asked(&class), []);
}

#[test]
fn resonances_found_one_by_one_are_compared() {
    let mut rng = StdRng::seed_from_u64(61);
    let mut class: Vec<_> = (0..8)
        .map(|_| string(|| 22.1 * (1.0 + 0.01 * normal(&mut rng))))
        .collect();
    assert_eq!(asked(&class), [], "honest");
    class[2] = class[6].clone();
    let found = asked(&class);
    assert!(
        found[0].sheets == [2, 6] && found[0].probability > 0.5,
        "{found:?}"
    );
}

#[test]
fn sheets_of_two_methods_and_no_sheets_are_no_matter() {
    let ripples = alike(&[]).swap_remove(0);
    assert_eq!(asked(&[ripples, string(|| 22.1)]), []);
    assert_eq!(questions(&[]), []);
}
