//! Readings that agree beyond chance: honest classes are left in peace, and
//! sheets that were taken over are found. By simulation with fixed seeds.

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::copied::{Declared, Question, questions};
use analysis::reading::prior::agreement as prior;
use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
use analysis::wave::water::Water;
use rand::rngs::StdRng;
use rand::seq::SliceRandom;
use rand::{Rng, SeedableRng};

const DIALS: [f64; 6] = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0];

/// Normal, mean 0 and standard deviation 1 (Box and Muller).
fn normal(rng: &mut StdRng) -> f64 {
    let radius = (-2.0 * (1.0 - rng.random::<f64>()).ln()).sqrt();
    radius * (std::f64::consts::TAU * rng.random::<f64>()).cos()
}

fn row(label: usize, cells: &[(Field, String)]) -> TypedRow {
    let typed = |(field, text): &(Field, String)| (*field, cell(text));
    TypedRow {
        label: label.to_string(),
        cells: cells.iter().map(typed).collect(),
        left_out: false,
    }
}

fn cell(text: &str) -> Cell {
    Cell {
        text: text.to_owned(),
        unit: String::new(),
    }
}

/// How a class reads.
#[derive(Clone, Copy)]
struct Manner {
    /// Standard deviation of a span, mm.
    scatter: f64,
    /// Decimal places of a span in cm.
    places: usize,
    repeats: usize,
    /// The share of readings that end in 0 or 5 mm, as some like them to.
    half_centimetres: f64,
}

const CAREFUL: Manner = Manner {
    scatter: 1.0,
    places: 1,
    repeats: 1,
    half_centimetres: 0.0,
};

fn tank(rng: &mut StdRng) -> (Water, f64) {
    let water = Water {
        surface_tension: rng.random_range(0.05..0.0728),
        ..Water::clean(20.0, rng.random_range(0.004..0.012))
    };
    (water, rng.random_range(1.3..2.0))
}

/// A group's own readings on a tank, ten waves at each frequency.
fn measured(rng: &mut StdRng, (water, enlargement): (Water, f64), manner: Manner) -> TypedSheet {
    let mut span = |true_mm: f64| {
        let read = true_mm + manner.scatter * normal(rng);
        let step = if rng.random::<f64>() < manner.half_centimetres {
            5.0
        } else {
            10_f64.powi(1 - i32::try_from(manner.places).expect("few places"))
        };
        format!("{:.*}", manner.places, (read / step).round() * step / 10.0)
    };
    let settings = DIALS.iter().flat_map(|f| vec![*f; manner.repeats]);
    let rows = settings.enumerate().map(|(at, f)| {
        let length = 1e4 * water.wavelength(f) * enlargement;
        row(
            at + 1,
            &[
                (Field::Dial, f.to_string()),
                (Field::FirstCrest, "0".to_owned()),
                (Field::LastCrest, "10".to_owned()),
                (Field::Span, span(length)),
            ],
        )
    });
    let rows = rows.collect();
    let image = span(100.0 * enlargement);
    TypedSheet {
        method: Method::RippleTank,
        whole: [
            (Field::ScaleImage, cell(&image)),
            (Field::ScaleTrue, cell("10.0")),
        ]
        .into(),
        rows,
    }
}

fn asked(typed: &[TypedSheet], kit: &str) -> Vec<Question> {
    asked_of(typed, &vec![(kit, ""); typed.len()])
}

fn asked_of(typed: &[TypedSheet], places: &[(&str, &str)]) -> Vec<Question> {
    let sheets: Vec<_> = typed
        .iter()
        .map(|t| Sheet::check(t).expect("fine"))
        .collect();
    let declared: Vec<_> = sheets
        .iter()
        .zip(places)
        .map(|(sheet, &(kit, shared))| Declared { sheet, kit, shared })
        .collect();
    questions(&declared)
}

/// Twelve groups on one tank.
fn class(rng: &mut StdRng, manner: Manner) -> Vec<TypedSheet> {
    let tank = tank(rng);
    (0..12).map(|_| measured(rng, tank, manner)).collect()
}

/// The share of honest classes with a question at 0.5, and the mean number of
/// questions' probabilities a class.
fn honest(manner: Manner, kit: &str, seed: u64, trials: u32) -> (f64, f64) {
    let mut rng = StdRng::seed_from_u64(seed);
    let (mut accused, mut believed) = (0, 0.0);
    for _ in 0..trials {
        let found = asked(&class(&mut rng, manner), kit);
        accused += u32::from(found.iter().any(|q| q.probability >= 0.5));
        believed += found.iter().map(|q| q.probability).sum::<f64>();
    }
    (
        f64::from(accused) / f64::from(trials),
        believed / f64::from(trials),
    )
}

/// The shares of taken-over sheets found at 0.05 and at 0.5.
fn found(manner: Manner, kit: &str, seed: u64, trials: u32) -> (f64, f64) {
    let mut rng = StdRng::seed_from_u64(seed);
    let (mut told, mut likely) = (0, 0);
    for _ in 0..trials {
        let mut class = class(&mut rng, manner);
        let mut copy = class[3].clone();
        copy.rows.shuffle(&mut rng);
        class[7] = copy;
        let found = asked(&class, kit);
        let pair = found.iter().find(|q| q.sheets == [3, 7]);
        let probability = pair.map_or(0.0, |q| q.probability);
        told += u32::from(probability >= 0.05);
        likely += u32::from(probability >= 0.5);
    }
    (
        f64::from(told) / f64::from(trials),
        f64::from(likely) / f64::from(trials),
    )
}

/// The worst case: one tank, the same six frequencies, the same counts. Where
/// groups read the picture to half a millimetre, as many agree as there are.
#[test]
fn fewer_than_one_honest_class_in_a_hundred_is_asked_about() {
    let mut accused_of_all = 0.0;
    for (scatter, half_centimetres, seed) in [
        (0.3, 0.0, 1),
        (0.6, 0.0, 2),
        (1.0, 0.0, 3),
        (1.0, 0.5, 4),
        (2.0, 0.0, 5),
        (2.0, 0.8, 6),
        (3.0, 0.0, 7),
    ] {
        let manner = Manner {
            scatter,
            half_centimetres,
            ..CAREFUL
        };
        // Four standard errors of a rate of 1 % beyond it for each manner;
        // over all of them no allowance.
        let (accused, _) = honest(manner, "A", seed, 400);
        assert!(accused < 0.03, "{scatter} {half_centimetres}: {accused}");
        accused_of_all += accused / 7.0;
    }
    assert!(accused_of_all < 0.01, "{accused_of_all}");
}

#[test]
fn honest_classes_whose_kits_are_not_known_are_left_in_peace() {
    let (accused, _) = honest(CAREFUL, "", 8, 60);
    assert!(accused < 0.04, "{accused}");
}

#[test]
fn sheets_taken_over_are_found_in_whatever_order() {
    for (scatter, seed) in [(1.0, 11), (2.0, 12), (3.0, 13)] {
        let manner = Manner { scatter, ..CAREFUL };
        let (told, likely) = found(manner, "A", seed, 150);
        assert!(told > 0.95, "{scatter}: {told}");
        if scatter > 1.5 {
            assert!(likely > 0.95, "{scatter}: {likely}");
        }
    }
}

/// Were as many groups to take readings over as the prior says, the
/// probabilities would add up to as many as are true.
#[test]
fn probabilities_add_up_to_as_many_as_are_true() {
    for (scatter, seed) in [(0.6, 21), (1.0, 22), (2.0, 23)] {
        let manner = Manner { scatter, ..CAREFUL };
        let with_one = 12.0 * prior::COPIES;
        let (_, believed) = honest(manner, "A", seed, 400);
        let mut rng = StdRng::seed_from_u64(seed + 10);
        let mut of_true = 0.0;
        let mut seen = 0.0;
        let trials = 100;
        for _ in 0..trials {
            let mut class = class(&mut rng, manner);
            class[7] = class[3].clone();
            let found = asked(&class, "A");
            of_true += found.iter().map(|q| q.probability).sum::<f64>();
            seen += f64::from(u8::from(found.iter().any(|q| q.sheets == [3, 7])));
        }
        let trials = f64::from(trials);
        let told = (1.0 - with_one) * believed + with_one * of_true / trials;
        let is_true = with_one * seen / trials;
        assert!(
            (0.6..1.6).contains(&(told / is_true)),
            "{scatter}: {told} {is_true}"
        );
    }
}

fn alike(seed: u64, copies: &[usize]) -> Vec<TypedSheet> {
    let manner = Manner {
        scatter: 2.0,
        ..CAREFUL
    };
    let mut class = class(&mut StdRng::seed_from_u64(seed), manner);
    for copy in copies {
        class[*copy] = class[0].clone();
    }
    class
}

#[test]
fn a_declared_set_is_not_asked_about() {
    let class = alike(31, &[1]);
    let mut places = vec![("A", ""); 12];
    assert_eq!(asked_of(&class, &places).len(), 1, "undeclared");
    places[0].1 = "Demo";
    let one = asked_of(&class, &places);
    assert_eq!(one.len(), 1, "one of them");
    assert!(one[0].sentence.contains("Not all of them say"), "{one:?}");
    places[1].1 = " demo ";
    assert_eq!(asked_of(&class, &places), [], "both");
}

#[test]
fn sheets_that_agree_with_one_another_are_one_question() {
    for copies in [vec![2, 5], vec![3, 4, 5, 6, 7], (1..12).collect()] {
        let found = asked(&alike(32, &copies), "A");
        let sheets: Vec<usize> = std::iter::once(0).chain(copies).collect();
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].sheets, sheets, "who");
        assert!(found[0].probability > 0.9, "{found:?}");
        assert_eq!(found[0].rows[1], (sheets[1], (0..6).collect()), "where");
    }
}

#[test]
fn a_question_is_worded_as_one() {
    let found = asked(&alike(33, &[1]), "A");
    assert_eq!(
        found[0].sentence,
        "These groups’ readings agree to the last digit in 6 rows of 6. Did they share one set of readings?"
    );
    assert!(found[0].why.contains("66 pairs"), "{}", found[0].why);
}

#[test]
fn a_single_row_is_never_enough() {
    let mut class = alike(34, &[1]);
    for sheet in &mut class {
        sheet.rows.truncate(1);
    }
    assert_eq!(asked(&class, "A"), []);
}

#[test]
fn whole_centimetres_agree_by_themselves() {
    let manner = Manner {
        places: 0,
        ..CAREFUL
    };
    let (accused, believed) = honest(manner, "A", 35, 200);
    assert!(accused < 0.01 && believed < 0.01, "{accused} {believed}");
}

/// Three readings at each frequency, all made the first one's or not.
fn repeated(seed: u64, manner: Manner, made_up: bool) -> Vec<Question> {
    let mut rng = StdRng::seed_from_u64(seed);
    let tank = tank(&mut rng);
    let mut sheet = measured(
        &mut rng,
        tank,
        Manner {
            repeats: 3,
            ..manner
        },
    );
    for first in (0..sheet.rows.len()).step_by(3) {
        for repeat in first + 1..first + 3 {
            if made_up {
                sheet.rows[repeat] = sheet.rows[first].clone();
            }
        }
    }
    asked(&[sheet], "A")
}

#[test]
fn many_repeats_without_any_spread_are_asked_about() {
    let found = repeated(41, CAREFUL, true);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].rows, [(0, (0..18).collect())], "which");
    assert_eq!(
        found[0].sentence,
        "12 repeats in this sheet show no spread at all. Was each measured afresh?"
    );
    for seed in 42..142 {
        assert_eq!(repeated(seed, CAREFUL, false), [], "measured");
    }
    let coarse = Manner {
        places: 0,
        ..CAREFUL
    };
    assert_eq!(repeated(41, coarse, true), [], "whole centimetres");
}

/// A string from end to end: one length, dialled at multiples of the first
/// resonance.
fn string(first: f64, length: &str) -> TypedSheet {
    let rows = (1..=5).map(|loops| {
        let loops_text = loops.to_string();
        row(
            loops,
            &[
                (
                    Field::Dial,
                    format!(
                        "{:.1}",
                        first * f64::from(u32::try_from(loops).expect("few loops"))
                    ),
                ),
                (Field::Loops, loops_text.clone()),
                (Field::Length, length.to_owned()),
                (Field::LengthLoops, loops_text),
            ],
        )
    });
    TypedSheet {
        method: Method::StringLoops,
        whole: std::collections::BTreeMap::new(),
        rows: rows.collect(),
    }
}

#[test]
fn lengths_that_were_set_and_multiples_of_one_resonance_say_nothing() {
    let class: Vec<_> = (0..8)
        .map(|at| string([22.1, 22.3][at % 2], "1.000"))
        .collect();
    assert_eq!(asked(&class, "string 1"), []);
}

#[test]
fn resonances_found_one_by_one_are_compared() {
    let mut rng = StdRng::seed_from_u64(51);
    let mut class: Vec<_> = (0..8)
        .map(|_| {
            let mut sheet = string(22.1, "1.000");
            for row in &mut sheet.rows {
                let dial = row.cells.get_mut(&Field::Dial).expect("a dial");
                let found: f64 = dial.text.parse().expect("a number");
                dial.text = format!("{:.1}", found * (1.0 + 0.01 * normal(&mut rng)));
            }
            sheet
        })
        .collect();
    assert_eq!(asked(&class, "string 1"), [], "honest");
    class[2] = class[6].clone();
    let found = asked(&class, "string 1");
    assert!(
        found[0].sheets == [2, 6] && found[0].probability > 0.5,
        "{found:?}"
    );
}

#[test]
fn sheets_of_two_methods_and_no_sheets_are_no_matter() {
    let ripples = alike(36, &[]).swap_remove(0);
    assert_eq!(asked(&[ripples, string(22.1, "1.000")], "A"), []);
    assert_eq!(questions(&[]), []);
}

/// Two long sheets in steps so coarse that every row should agree, and one does.
#[test]
fn sheets_that_are_all_but_impossible_either_way_are_not_asked_about() {
    let sheet = |from: usize| TypedSheet {
        method: Method::RippleTank,
        whole: [].into(),
        rows: (0..130)
            .map(|at| {
                let metres = if at == 0 { 10 } else { 10 * (from + at) };
                row(
                    at + 1,
                    &[
                        (Field::Dial, (at + 1).to_string()),
                        (Field::LastCrest, "10".to_owned()),
                        (Field::Span, format!("{metres} m")),
                    ],
                )
            })
            .collect(),
    };
    let found = asked(&[sheet(1), sheet(500)], "T1");
    assert!(found.is_empty(), "{found:?}");
}
