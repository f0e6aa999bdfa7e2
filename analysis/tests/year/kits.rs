//! Which kits are said to be off, and what they are said to look like.

use analysis::year::compare;
use analysis::year::kits::{Fault, Kind, KitYear, Reference, Standing};

use super::{Department, KITS, year};

/// Years that each kind of department is looked at.
const SEEDS: std::ops::Range<u64> = 0..20;

fn kits(department: &Department, seed: u64) -> Vec<KitYear> {
    compare(&year(department, seed)).kits
}

fn of<'k>(kits: &'k [KitYear], label: &str) -> &'k KitYear {
    &kits[KITS.iter().position(|kit| *kit == label).unwrap()]
}

fn is_off(kit: &KitYear) -> bool {
    matches!(kit.standing, Standing::Reads | Standing::Bends)
}

/// The kit is said to be off in every year, with this one fault alone, and no
/// other kit is.
fn is_the_only_one(department: &Department, label: &str, fault: Fault) {
    for seed in SEEDS {
        let kits = kits(department, seed);
        let found = of(&kits, label);
        assert!(is_off(found), "{label}, year {seed}: {found:#?}");
        let looks_like = found.looks_like.as_ref().unwrap();
        assert_eq!(looks_like.faults, [fault], "{label}, year {seed}");
        for (other, name) in kits.iter().zip(KITS).filter(|(_, name)| *name != label) {
            assert!(!is_off(other), "{name}, year {seed}: {other:#?}");
        }
    }
}

#[test]
fn lamp_too_low_is_the_tanks_own_at_all_frequencies() {
    let department = Department {
        lamp: 0.08,
        ..Department::SOUND
    };
    is_the_only_one(&department, "Tank 2", Fault::Lamp);
    let kits = kits(&department, 1);
    let off = of(&kits, "Tank 2").off.unwrap();
    assert!(off.low < 0.08 && 0.08 < off.high, "{off:?}");
}

#[test]
fn soapy_water_is_low_at_high_frequencies() {
    let department = Department {
        film: -0.025,
        ..Department::SOUND
    };
    is_the_only_one(&department, "Tank 3", Fault::Surface);
    let kits = kits(&department, 1);
    let [low, high] = of(&kits, "Tank 3").looks_like.clone().unwrap().ends;
    assert!(low.frequency < 10.0 && -0.06 < low.off, "{low:?}");
    assert!(high.frequency > 20.0 && high.off < -0.08, "{high:?}");
}

#[test]
fn deeper_water_than_is_written_down_is_high_at_low_frequencies() {
    let department = Department {
        depth: 1.6,
        ..Department::SOUND
    };
    is_the_only_one(&department, "Tank 1", Fault::Depth);
    // A sheet's speed rests on its high frequencies: they do not show it.
    let kits = kits(&department, 1);
    let tank = of(&kits, "Tank 1");
    assert_eq!(tank.standing, Standing::Bends);
    assert!(tank.looks_like.clone().unwrap().ends[0].off > 0.1);
}

#[test]
fn dial_that_is_out_is_the_generators_and_not_the_strings() {
    let department = Department {
        dial: 0.08,
        ..Department::SOUND
    };
    is_the_only_one(&department, "Generator 3", Fault::Dial);
    let kits = kits(&department, 1);
    let generator = of(&kits, "Generator 3");
    assert!(generator.beside.of > 1, "{generator:?}");
    assert_eq!(generator.beside.made, generator.beside.of);
    assert!(generator.is_dial());
    // Its sheets are left aside where its strings are judged.
    let strings = ["String 1", "String 2", "String 3"];
    let aside = strings.map(|string| of(&kits, string).on_dial);
    assert_eq!(aside.iter().sum::<usize>(), generator.sheets);
}

/// Generator 3 stands beside String 3 always, and nothing else does.
fn paired(department: &Department, seed: u64) -> analysis::year::Year {
    let [generator, string] =
        ["Generator 3", "String 3"].map(|label| KITS.iter().position(|kit| *kit == label).unwrap());
    let mut year = year(department, seed);
    year.sheets
        .retain(|sheet| sheet.kits.contains(&generator) == sheet.kits.contains(&string));
    year
}

#[test]
fn dial_beside_one_string_alone_is_not_told_from_it() {
    let department = Department {
        dial: 0.08,
        ..Department::SOUND
    };
    for seed in SEEDS {
        let kits = compare(&paired(&department, seed)).kits;
        let [generator, string] = ["Generator 3", "String 3"].map(|label| of(&kits, label));
        assert_eq!(generator.standing, Standing::Reads, "year {seed}");
        assert_eq!((generator.beside.made, generator.beside.of), (1, 1));
        assert!(!generator.is_dial());
        let generators = &generator.looks_like.as_ref().unwrap().faults;
        assert!(generators.contains(&Fault::Beside), "{generators:?}");
        // The string's sheets are left in, and it may be the string as well.
        assert_eq!(string.on_dial, 0);
        assert_eq!(string.sheets, generator.sheets);
        assert_eq!(string.standing, Standing::Reads, "year {seed}");
        let strings = &string.looks_like.as_ref().unwrap().faults;
        assert!(strings.contains(&Fault::String) && strings.contains(&Fault::Dial));
    }
}

#[test]
fn sound_kits_are_left_in_peace() {
    let mut off = 0;
    let mut judged = 0;
    for lessons in [2, 6] {
        let department = Department {
            lessons,
            ..Department::SOUND
        };
        for kit in (0..40).flat_map(|seed| kits(&department, seed)) {
            judged += usize::from(kit.standing != Standing::TooFew);
            off += usize::from(is_off(&kit));
        }
    }
    assert!(judged > 500, "{judged}");
    // Three standard errors: one in 370 by chance alone.
    assert!(off * 200 <= judged, "{off} of {judged}");
}

#[test]
fn kit_of_two_lessons_is_not_judged() {
    let department = Department::WORN;
    let mut few = year(&department, 1);
    few.sheets.retain(|sheet| sheet.lesson < 2);
    for kit in compare(&few).kits {
        assert!(kit.lessons <= 2);
        assert_eq!(kit.standing, Standing::TooFew);
        assert_eq!(kit.looks_like, None);
    }
}

#[test]
fn two_tanks_are_compared_with_physics() {
    let mut two = year(&Department::WORN, 1);
    two.sheets.retain(|sheet| !sheet.kits.contains(&2));
    let found = compare(&two);
    let tanks = found.levels.iter().find(|level| level.kind == Kind::Tank);
    assert_eq!(tanks.unwrap().by, Reference::Physics);
    assert_eq!(of(&found.kits, "Tank 2").standing, Standing::Reads);
    assert_eq!(of(&found.kits, "Tank 1").standing, Standing::Agrees);
}

#[test]
fn confirmed_slips_are_taken_out_before_kits_are_judged() {
    // Half of the groups at Tank 1 count from one, and a teacher finds all
    // of them.
    let mut found_out = year(&Department::SOUND, 3);
    let mut at_tank_1 = 0;
    for sheet in found_out.sheets.iter_mut().filter(|s| s.kits.contains(&0)) {
        at_tank_1 += 1;
        if at_tank_1 % 2 == 0 {
            sheet.judgement.speed = sheet.judgement.speed.map(|speed| 0.85 * speed);
            sheet.is_slipped = true;
        }
    }
    let out = compare(&found_out);
    assert_eq!(of(&out.kits, "Tank 1").standing, Standing::Agrees);
    assert!(of(&out.kits, "Tank 1").slipped >= at_tank_1 / 2);

    // Left in, they would be taken for the tank's fault.
    for sheet in &mut found_out.sheets {
        sheet.is_slipped = false;
    }
    let left_in = compare(&found_out);
    assert_eq!(of(&left_in.kits, "Tank 1").standing, Standing::Reads);
}

#[test]
fn few_gross_values_do_not_move_a_kit() {
    let mut gross = year(&Department::SOUND, 5);
    let at_tank = gross.sheets.iter_mut().filter(|s| s.kits.contains(&1));
    for sheet in at_tank.step_by(10) {
        sheet.judgement.speed = sheet.judgement.speed.map(|speed| speed / 2.0);
    }
    let kits = compare(&gross).kits;
    assert_eq!(of(&kits, "Tank 2").standing, Standing::Agrees);
}
