//! Wilson's interval, at the four cases that Newcombe tabulates.

use analysis::stats::interval::wilson95;

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
