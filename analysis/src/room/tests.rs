use super::*;

const NOW: i64 = 1000 * MINUTE;

/// A bench that handed in a minute ago and needs nobody.
const FINE: Bench = Bench {
    stage: Stage::HandedIn,
    began: Some(NOW - 20 * MINUTE),
    heard: Some(NOW - MINUTE),
    reading: None,
    kit: None,
    has_slip: false,
    was_seen: false,
};

/// A bench that nobody chose.
const EMPTY: Bench = Bench {
    stage: Stage::NotBegun,
    began: None,
    heard: None,
    ..FINE
};

/// A bench at this stage that was last heard of so many ms ago.
fn silent(stage: Stage, ago: i64) -> Bench {
    Bench {
        stage,
        heard: Some(NOW - ago),
        ..FINE
    }
}

fn reading(probability: f64) -> Bench {
    Bench {
        reading: Some(probability),
        ..FINE
    }
}

fn places(benches: &[Bench]) -> Vec<usize> {
    let order = order(benches, NOW, true).into_iter();
    order.map(|(at, _)| at).collect()
}

fn need(bench: Bench) -> Need {
    order(&[bench, FINE, FINE], NOW, true)
        .into_iter()
        .find_map(|(at, need)| (at == 0).then_some(need))
        .unwrap()
}

#[test]
fn readings_come_first_then_kits_then_the_stuck_then_working() {
    let benches = [
        FINE,
        Bench {
            has_slip: true,
            ..FINE
        },
        silent(Stage::Saved, STUCK_AFTER),
        EMPTY,
        Bench {
            kit: Some(0.99),
            ..FINE
        },
        reading(0.8),
    ];
    let expected = [
        (5, Need::Reading),
        (4, Need::Kit),
        (2, Need::Stuck),
        (3, Need::Late),
        (1, Need::Working),
        (0, Need::Nothing),
    ];
    assert_eq!(order(&benches, NOW, true), expected);
}

#[test]
fn bench_with_several_needs_stands_where_the_most_pressing_is() {
    let all = Bench {
        kit: Some(0.9),
        has_slip: true,
        reading: Some(0.85),
        ..silent(Stage::Saved, STUCK_AFTER)
    };
    assert_eq!(need(all), Need::Reading);
    let without = Bench {
        reading: None,
        kit: None,
        ..all
    };
    assert_eq!(need(without), Need::Stuck);
}

#[test]
fn more_probable_reading_comes_first_and_equal_ones_keep_their_order() {
    assert_eq!(places(&[reading(0.81), reading(0.97)]), [1, 0]);
    // Both read 92 %.
    assert_eq!(places(&[reading(0.918), reading(0.922)]), [0, 1]);
}

#[test]
fn bench_that_was_seen_goes_to_the_end_of_its_kind_and_no_further() {
    let seen = Bench {
        was_seen: true,
        ..reading(0.99)
    };
    let slip = Bench {
        has_slip: true,
        ..FINE
    };
    assert_eq!(places(&[slip, seen, reading(0.8)]), [2, 1, 0]);
}

#[test]
fn bench_is_stuck_from_five_silent_minutes_on_until_it_hands_in() {
    for stage in [Stage::Writing, Stage::Saved] {
        assert_eq!(need(silent(stage, STUCK_AFTER)), Need::Stuck);
        assert_eq!(need(silent(stage, STUCK_AFTER - 1)), Need::Nothing);
    }
    assert_eq!(need(silent(Stage::HandedIn, 60 * MINUTE)), Need::Nothing);
}

#[test]
fn bench_that_has_not_come_back_since_another_lesson_is_not_stuck() {
    assert_eq!(need(silent(Stage::Saved, LESSON - 1)), Need::Stuck);
    assert_eq!(need(silent(Stage::Saved, LESSON)), Need::Nothing);
}

#[test]
fn bench_is_late_ten_minutes_after_half_of_them_began() {
    let began = |ago| Bench {
        began: Some(NOW - ago),
        ..FINE
    };
    let late = |first: i64, second: i64| {
        let benches = [EMPTY, EMPTY, began(first), began(second)];
        order(&benches, NOW, true)[0].1 == Need::Late
    };
    assert!(late(LATE_AFTER, LATE_AFTER));
    assert!(!late(LATE_AFTER, LATE_AFTER - 1), "the second made it half");
    let one_of_three = [EMPTY, EMPTY, began(LATE_AFTER)];
    assert_eq!(order(&one_of_three, NOW, true)[0].1, Need::Nothing);
}

#[test]
fn bench_that_was_chosen_and_left_is_late_like_one_that_was_not() {
    let left = Bench {
        stage: Stage::Writing,
        ..EMPTY
    };
    assert_eq!(need(left), Need::Late);
}

#[test]
fn nobody_is_stuck_or_late_when_the_set_is_closed_or_the_lesson_over() {
    let benches = [silent(Stage::Saved, STUCK_AFTER), EMPTY, FINE, FINE];
    let last_heard = NOW - MINUTE;
    let none = |now, is_open| {
        let order = order(&benches, now, is_open);
        order.iter().all(|(_, need)| *need == Need::Nothing)
    };
    assert!(!none(NOW, true));
    assert!(none(NOW, false), "closed");
    assert!(!none(last_heard + LESSON - 1, true));
    assert!(none(last_heard + LESSON, true), "over");
}

#[test]
fn empty_room_is_no_trouble() {
    assert!(order(&[], NOW, true).is_empty());
    let two = [(0, Need::Nothing), (1, Need::Nothing)];
    assert_eq!(order(&[EMPTY, EMPTY], NOW, true), two);
}
