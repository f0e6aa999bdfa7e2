//! Algorithm A on any values.

use analysis::stats::robust::algorithm_a;
use analysis::stats::spread::{mean, median, sample_sd};
use proptest::prelude::*;

use super::near;

/// Values as instruments give them, with ties, and some of them wild.
fn values() -> impl Strategy<Value = Vec<f64>> {
    let value = prop_oneof![
        9 => (0_u32..60).prop_map(|tenths| f64::from(tenths) / 10.0),
        1 => -1e4..1e4_f64,
    ];
    prop::collection::vec(value, 2..40)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn it_settles_and_stays(values in values()) {
        let Some(found) = algorithm_a(&values) else {
            let wild = values.iter().filter(|x| !(0.0..6.0).contains(*x)).count();
            prop_assert!(5 * wild >= values.len(), "{wild} of {}", values.len());
            return Ok(());
        };
        let lowest = values.iter().copied().fold(f64::INFINITY, f64::min);
        let highest = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        prop_assert!(found.mean >= lowest - 1e-9 && found.mean <= highest + 1e-9);
        prop_assert!(found.sd >= 0.0 && found.sd.is_finite());
        if found.sd > 0.0 {
            // One more round changes nothing.
            let reach = 1.5 * found.sd;
            let pulled_in: Vec<f64> =
                values.iter().map(|x| x.clamp(found.mean - reach, found.mean + reach)).collect();
            prop_assert!(near(mean(&pulled_in).unwrap(), found.mean));
            prop_assert!(near(1.134 * sample_sd(&pulled_in).unwrap(), found.sd));
        } else {
            prop_assert!(near(found.mean, median(&values).unwrap()));
        }
    }

    #[test]
    fn it_moves_and_scales_with_the_values(values in values(), zero in -99_i32..99, scale in 1_u32..50) {
        let (zero, scale) = (f64::from(zero), f64::from(scale) / 4.0);
        let moved: Vec<f64> = values.iter().map(|x| zero - scale * x).collect();
        // Where it does not settle, the last rounding decides after which round.
        if let (Some(before), Some(after)) = (algorithm_a(&values), algorithm_a(&moved)) {
            prop_assert!(near(zero - scale * before.mean, after.mean), "{before:?} {after:?}");
            prop_assert!(near(scale * before.sd, after.sd), "{before:?} {after:?}");
        }
    }

    #[test]
    fn the_order_does_not_matter(
        (values, other) in values().prop_flat_map(|values| (Just(values.clone()), Just(values).prop_shuffle())),
    ) {
        if let (Some(one), Some(other)) = (algorithm_a(&values), algorithm_a(&other)) {
            prop_assert!(near(one.mean, other.mean) && near(one.sd, other.sd));
        }
    }
}
