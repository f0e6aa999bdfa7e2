//! The year before: six classes, four teachers, eight kits, two of them off.

use std::collections::{BTreeMap, BTreeSet};

use analysis::stats::spread::median;
use server::clock::school_year;
use server::report::class_set::ClassReport;

use super::{works, year_before};

/// Measured over expected speed of every sheet, by what it writes for its kit.
fn ratios(reports: &[ClassReport]) -> BTreeMap<String, Vec<f64>> {
    let mut by_kit: BTreeMap<String, Vec<f64>> = BTreeMap::new();
    for work in works(reports) {
        let rows = work.assessment.rows.iter().filter(|row| !row.left_out);
        let ratios = rows.filter_map(|row| Some(row.speed? / row.expected_speed?));
        let kit = work.revision.entry.kit.clone();
        let ratio = median(&ratios.collect::<Vec<_>>()).unwrap();
        by_kit.entry(kit).or_default().push(ratio);
    }
    by_kit
}

#[tokio::test]
async fn year_before_has_six_classes_with_three_practicals_each_on_eight_kits() {
    let reports = year_before().await;
    let mut practicals: BTreeMap<&str, usize> = BTreeMap::new();
    for report in &reports {
        *practicals.entry(&report.class_set.class_name).or_default() += 1;
        assert!(!report.class_set.is_open());
        let handed_in = report.groups.iter().filter(|g| g.standing.is_some());
        assert_eq!(handed_in.count(), 8, "{}", report.class_set.class_name);
    }
    assert_eq!(practicals.len(), 6, "{practicals:?}");
    assert!(practicals.values().all(|n| *n == 3), "{practicals:?}");
    let ratios = ratios(&reports);
    let kits: BTreeSet<&str> = ratios.keys().flat_map(|kit| kit.split(", ")).collect();
    assert_eq!(kits.len(), 8, "{kits:?}");
    let years = reports.iter().map(|report| {
        let day: jiff::civil::Date = report.class_set.held_on.parse().unwrap();
        school_year(day)
    });
    let years: BTreeSet<i64> = years.collect();
    assert_eq!(years.len(), 1, "one school year");
}

#[tokio::test]
async fn lamp_of_tank_4_makes_its_speeds_6_percent_high_and_those_of_no_other_tank() {
    let ratios = ratios(&year_before().await);
    let of = |tank: &str| median(&ratios[tank]).unwrap();
    let sound = ["Tank 1", "Tank 2", "Tank 3"].map(of);
    let usual = median(&sound).unwrap();
    for (tank, ratio) in sound.iter().enumerate() {
        assert!(
            (ratio / usual - 1.0).abs() < 0.025,
            "Tank {}: {sound:?}",
            tank + 1
        );
    }
    let off = of("Tank 4") / usual;
    assert!((1.04..1.08).contains(&off), "{off}");
    assert_eq!(ratios["Tank 4"].len(), 24, "sheets");
}

#[tokio::test]
async fn dial_of_generator_2_reads_8_percent_high_on_every_string_and_no_string_is_off() {
    let ratios = ratios(&year_before().await);
    for string in ["String 1", "String 2"] {
        let on = |generator: &str| {
            let sheets = &ratios[&format!("{string}, {generator}")];
            assert!(
                sheets.len() >= 10,
                "{string}, {generator}: {}",
                sheets.len()
            );
            median(sheets).unwrap()
        };
        let (sound, high) = (on("Generator 1"), on("Generator 2"));
        assert!((sound - 1.0).abs() < 0.02, "{string}: {sound}");
        assert!(
            (1.06..1.10).contains(&(high / sound)),
            "{string}: {high} and {sound}"
        );
    }
}
