//! What is kept of a sheet is the same when it is read again.

use analysis::year::{Comparison, Judgement, compare};

use super::{Department, year};

#[test]
fn judgement_is_the_same_after_being_written_and_read() {
    for sheet in year(&Department::WORN, 1).sheets {
        let written = serde_json::to_string(&sheet.judgement).unwrap();
        let read: Judgement = serde_json::from_str(&written).unwrap();
        // The three figures of the whole sheet are kept beside the text.
        let beside = Judgement {
            speed: sheet.judgement.speed,
            expected: sheet.judgement.expected,
            uncertainty: sheet.judgement.uncertainty,
            ..read
        };
        assert_eq!(beside, sheet.judgement);
    }
}

#[test]
fn comparison_is_the_same_after_being_written_and_read() {
    let comparison = compare(&year(&Department::WORN, 1));
    let written = serde_json::to_string(&comparison).unwrap();
    let read: Comparison = serde_json::from_str(&written).unwrap();
    assert_eq!(serde_json::to_string(&read).unwrap(), written);
}
