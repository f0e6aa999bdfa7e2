//! Intervals of proportions and of their differences, at the cases that
//! Newcombe tabulates.

use analysis::stats::interval::{newcombe95, wilson95};
use serde_json::Value;

use super::{count, load, rounds_to, rows};

#[test]
fn wilson_as_newcombe_prints_it() {
    let data = load(include_str!("data/wilson.json"));
    for row in rows(&data["rows"]) {
        let found = wilson95(count(&row["successes"]), count(&row["trials"])).unwrap();
        assert!(rounds_to(found.low, &row["low"]), "{row}: {found:?}");
        assert!(rounds_to(found.high, &row["high"]), "{row}: {found:?}");
        assert!(found.low >= 0.0 && found.high <= 1.0, "{found:?}");
    }
}

#[test]
fn a_proportion_never_leaves_its_range() {
    for trials in 1..300 {
        let (none, all) = (
            wilson95(0, trials).unwrap(),
            wilson95(trials, trials).unwrap(),
        );
        assert!(
            none.low >= 0.0 && all.high <= 1.0,
            "{trials}: {none:?} {all:?}"
        );
        assert!(
            none.low < 1e-15 && all.high > 1.0 - 1e-15,
            "{trials}: {none:?} {all:?}"
        );
    }
}

#[test]
fn no_trials_and_too_many_successes_have_none() {
    assert_eq!(wilson95(0, 0), None);
    assert_eq!(wilson95(3, 2), None);
    let all = wilson95(20, 20).unwrap();
    let none = wilson95(0, 20).unwrap();
    // One is the other seen from the far side; a few roundings apart.
    assert!(
        (all.low - (1.0 - none.high)).abs() < 1e-15,
        "{all:?} {none:?}"
    );
}

#[test]
fn differences_as_newcombe_prints_them() {
    let data = load(include_str!("data/newcombe.json"));
    let sample = |counts: &Value| (count(&counts[0]), count(&counts[1]));
    for row in rows(&data["rows"]) {
        let (first, second) = (sample(&row["first"]), sample(&row["second"]));
        let found = newcombe95(first, second).unwrap();
        assert!(rounds_to(found.low, &row["low"]), "{row}: {found:?}");
        assert!(rounds_to(found.high, &row["high"]), "{row}: {found:?}");
    }
}

#[test]
fn a_change_never_leaves_its_range_and_turns_with_its_samples() {
    for (before, after) in [
        ((0, 3), (3, 3)),
        ((2, 7), (1, 9)),
        ((5, 5), (5, 5)),
        ((1, 1), (0, 1)),
    ] {
        let found = newcombe95(before, after).unwrap();
        let turned = newcombe95(after, before).unwrap();
        assert!(found.low >= -1.0 && found.high <= 1.0, "{found:?}");
        let mirrored = (found.low + turned.high).abs() + (found.high + turned.low).abs();
        assert!(mirrored < 1e-15, "{found:?} {turned:?}");
    }
    assert_eq!(
        (newcombe95((0, 0), (1, 2)), newcombe95((1, 2), (3, 2))),
        (None, None)
    );
}
