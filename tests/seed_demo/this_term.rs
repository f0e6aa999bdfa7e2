//! This term: three classes whose every group is planned.

use std::collections::BTreeSet;

use analysis::slip::{Kind, Slip};
use server::report::finding::lines;

use super::{this_term, works};

#[tokio::test]
async fn demo_shows_every_slip_among_clean_sheets() {
    let reports = this_term().await;
    let groups = reports.iter().flat_map(|report| &report.groups);
    let handed_in: Vec<_> = groups.filter(|group| group.standing.is_some()).collect();
    let flags = |kind: Kind| {
        let sheets = handed_in.iter().filter_map(|group| group.work.as_ref());
        sheets.map(move |work| {
            work.assessment
                .flags
                .iter()
                .filter(move |f| f.slip.kind() == kind)
                .count()
        })
    };
    let shown: BTreeSet<_> = handed_in
        .iter()
        .filter_map(|group| group.work.as_ref())
        .flat_map(|work| work.assessment.flags.iter().map(|flag| flag.slip))
        .collect();
    assert_eq!(shown, BTreeSet::from(Slip::ALL), "every slip and remark");
    let clean = flags(Kind::Slip).filter(|slips| *slips == 0).count();
    assert!(
        3 * clean >= handed_in.len(),
        "{clean} clean sheets of {}",
        handed_in.len()
    );
}

#[tokio::test]
async fn demo_has_six_class_sets_and_the_newest_is_open() {
    let reports = this_term().await;
    let open: Vec<_> = reports
        .iter()
        .map(|report| report.class_set.is_open())
        .collect();
    assert_eq!(
        open,
        [true, false, false, false, false, false],
        "newest first"
    );
    let classes: BTreeSet<_> = reports
        .iter()
        .map(|report| &report.class_set.class_name)
        .collect();
    assert_eq!(classes.len(), 3);
    let newest = &reports[0].groups;
    let begun = newest.iter().filter(|group| group.work.is_some()).count();
    let handed_in = newest
        .iter()
        .filter(|group| group.bench.handed_in_at.is_some())
        .count();
    assert_eq!(
        (newest.len(), begun, handed_in),
        (8, 7, 6),
        "groups, begun, handed in"
    );
    assert!(
        newest.iter().any(|group| group.bench.version >= 4),
        "one with several revisions"
    );
    let decided = |verdict| {
        let decisions = works(&reports).flat_map(|work| &work.decisions);
        decisions.filter(|d| d.verdict == verdict).count()
    };
    assert!(
        decided(server::db::decision::Verdict::Confirmed) > 0,
        "some confirmed"
    );
    assert!(
        decided(server::db::decision::Verdict::Dismissed) > 0,
        "some dismissed"
    );
}

#[tokio::test]
async fn nothing_is_to_be_done_while_the_apparatus_is_up_when_it_is_not() {
    let mut cut = 0;
    let reports = this_term().await;
    for line in works(&reports).flat_map(lines) {
        let (up, down) = (line.invitation(true), line.invitation(false));
        assert!(!down.is_empty() && !down.contains("is up"), "{down}");
        assert!(up.starts_with(down), "{up}");
        cut += usize::from(up != down);
    }
    assert!(cut > 3, "{cut} invitations name what is up");
}

#[tokio::test]
async fn only_groups_without_their_hanger_or_their_multiplier_stand_apart() {
    let mut apart = Vec::new();
    for report in this_term().await {
        for group in report.groups {
            if group.standing.is_some_and(|standing| standing.outlier) {
                apart.push((
                    report.class_set.class_name.clone(),
                    report.method.code(),
                    group.bench.label,
                ));
            }
        }
    }
    let expected = [
        ("11C/Ph1", "string-loops", "D"),
        ("10B/Ph2", "string-loops", "H"),
    ];
    let expected =
        expected.map(|(class, method, label)| (class.to_owned(), method, label.to_owned()));
    assert_eq!(apart, expected);
}

#[tokio::test]
async fn dirty_tank_is_slower_than_the_others_above_15_hz() {
    let (mut dirty, mut others) = (Vec::new(), Vec::new());
    let reports = this_term().await;
    for work in works(&reports) {
        let rows = work.assessment.rows.iter().filter(|row| !row.left_out);
        let ratios = rows
            .filter(|row| row.frequency.is_some_and(|f| f >= 15.0))
            .filter_map(|row| Some(row.speed? / row.expected_speed?));
        let ratios: Vec<_> = ratios.collect();
        match work.revision.entry.kit.as_str() {
            "Tank 2" => dirty.push(ratios),
            "Tank 1" | "Tank 3" => others.extend(ratios),
            _ => {}
        }
    }
    assert!(dirty.len() >= 7, "{} groups at the dirty tank", dirty.len());
    others.sort_by(f64::total_cmp);
    let usual = others[others.len() / 2];
    for ratios in dirty.iter().filter(|ratios| !ratios.is_empty()) {
        let mean = ratios.iter().sum::<f64>() / f64::from(u32::try_from(ratios.len()).unwrap());
        assert!(mean < 0.96 * usual, "{ratios:?} beside {usual}");
    }
}
