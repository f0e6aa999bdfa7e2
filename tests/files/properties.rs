//! What holds for every file.

use proptest::prelude::*;
use proptest::sample::Index;

use super::{THEIR_GROUPS, TWO_CLASSES, assessed, cells, joined, plainly};

proptest! {
    #[test]
    fn bytes_of_any_kind_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = assessed(&bytes);
    }

    #[test]
    fn cells_of_any_kind_are_read_or_refused(
        changes in prop::collection::vec((any::<Index>(), any::<Index>(), "\\PC{0,12}|[\"\r\n;,0-9.]{0,6}"), 1..4),
    ) {
        let mut lines = cells(TWO_CLASSES);
        for (line, column, text) in &changes {
            let line = line.index(lines.len());
            let column = column.index(lines[line].len());
            lines[line][column] = text;
        }
        let file = joined(&lines, ",");
        if let Err(error) = assessed(file.as_bytes()) {
            let said = error.to_string();
            prop_assert!(said.starts_with("line ") && !said.contains('\n'), "{}", said);
        }
    }

    #[test]
    fn columns_in_any_order_give_the_same_results(order in Just((0..36).collect::<Vec<usize>>()).prop_shuffle()) {
        let shuffled: Vec<Vec<_>> = cells(TWO_CLASSES)
            .iter()
            .map(|line| order.iter().map(|at| line[*at]).collect())
            .collect();
        let results = assessed(joined(&shuffled, ",").as_bytes()).expect("a good file");
        prop_assert_eq!(&results.flags, &plainly().flags);
        prop_assert_eq!(results.groups, THEIR_GROUPS);
    }

    #[test]
    fn a_file_cut_short_anywhere_is_read_or_refused(at in any::<Index>()) {
        let bytes = TWO_CLASSES.as_bytes();
        let _ = assessed(&bytes[..at.index(bytes.len())]);
    }
}
