//! What the year's pages say of the demo's kits.

use analysis::year::kits::Fault;
use server::clock::Zone;
use server::db::class::list_years;
use server::db::round_sheet::Closed;
use server::report::year::{YearReport, load};

use super::{demo, open};

/// This year, and the one before.
async fn years() -> [YearReport; 2] {
    let mut db = open(demo()).await;
    let zone = Zone(jiff::tz::TimeZone::UTC);
    let listed = list_years(&mut db).await.unwrap();
    let mut years = Vec::new();
    for year in &listed {
        let stored = load(&mut db, &zone, *year, &Closed::default()).await;
        years.push(stored.unwrap().compare().await);
    }
    years.try_into().expect("two years")
}

/// The kits that are said to be off, with how far, in whole per cent, and
/// what they look like.
fn off(year: &YearReport) -> Vec<(&str, f64, Vec<Fault>)> {
    let kits = year.frame.kits.iter().zip(&year.comparison.kits);
    kits.filter(|(_, kit)| kit.is_off())
        .map(|(listed, kit)| {
            let looks_like = kit.looks_like.as_ref();
            let faults = looks_like.map_or_else(Vec::new, |looks| looks.faults.clone());
            let off = kit.off.map_or(f64::NAN, |figure| figure.value);
            (listed.label.as_str(), (100.0 * off).round(), faults)
        })
        .collect()
}

#[tokio::test]
async fn year_before_shows_the_low_lamp_and_the_dial_and_nothing_else() {
    let [_, before] = years().await;
    let found = off(&before);
    let [(dial, high, dial_faults), (tank, higher, lamp_faults)] = {
        let mut found = found.clone();
        found.sort_by_key(|(label, ..)| *label);
        <[_; 2]>::try_from(found).unwrap_or_else(|found| panic!("{found:?}"))
    };
    assert_eq!((dial, dial_faults), ("Generator 2", vec![Fault::Dial]));
    assert!((7.0..=10.0).contains(&high), "{found:?}");
    assert_eq!((tank, lamp_faults), ("Tank 4", vec![Fault::Lamp]));
    assert!((5.0..=7.0).contains(&higher), "{found:?}");
}

/// Its groups show every slip there is, many of them confirmed by nobody: one
/// group that took nodes for loops does not make its string look bent.
#[tokio::test]
async fn this_term_shows_the_dirty_water_and_nothing_else() {
    let [now, _] = years().await;
    let found = off(&now);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "Tank 2");
    assert_eq!(found[0].2, [Fault::Surface]);
}
