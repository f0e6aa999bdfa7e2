//! Differences of proportions.

use analysis::stats::interval::newcombe95;
use proptest::prelude::*;

proptest! {
    #[test]
    fn a_change_lies_in_its_interval(n1 in 1_usize..60, n2 in 1_usize..60, s1 in 0.0..=1.0_f64, s2 in 0.0..=1.0_f64) {
        let upto = |n: usize, share: f64| (0..=n).filter(|i| (*i as f64) < share * n as f64).count();
        let (before, after) = ((upto(n1, s1), n1), (upto(n2, s2), n2));
        let found = newcombe95(before, after).unwrap();
        let change = after.0 as f64 / n2 as f64 - before.0 as f64 / n1 as f64;
        prop_assert!(found.contains(change) && found.low >= -1.0 && found.high <= 1.0);
    }
}
