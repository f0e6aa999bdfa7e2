//! The yardstick against itself: the same seed gives the same classes, and
//! the optimal classifier's probabilities mean what they say.

use analysis::slip::Kind;

use super::judges::{Judge, score};
use super::score::shown;
use super::simulator::classes;
use super::simulator::school::School;

#[test]
fn one_seed_gives_the_same_classes() {
    for school in School::all() {
        let (once, again) = (classes(&school, 2.0, 6, 5), classes(&school, 2.0, 6, 5));
        for (one, other) in once.iter().zip(&again) {
            for (one, other) in one.sheets.iter().zip(&other.sheets) {
                assert_eq!(one.typed, other.typed, "{}", school.name);
                assert_eq!(one.truth, other.truth, "{}", school.name);
            }
        }
    }
}
