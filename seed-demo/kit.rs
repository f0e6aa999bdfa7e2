//! The department's apparatus, as it really is: what no group can read off.

use simulator::kit::{Cord, Tank};

/// A signal generator with its vibrator.
#[derive(Debug)]
pub(crate) struct Generator {
    pub(crate) label: &'static str,
    /// How many times more its dial says than it gives.
    pub(crate) dial: f64,
}

/// A string with the generator that it stands beside.
#[derive(Debug)]
pub(crate) struct Strung {
    pub(crate) cord: Cord,
    pub(crate) beside: &'static Generator,
}

pub(crate) const TANK_1: &Tank = &Tank {
    label: "Tank 1",
    tension: 0.066,
    depth: 6.0,
    enlargement: 1.78,
    ..Tank::SOUND
};

/// The same in the lesson in which its lamp had slipped down its rod after the
/// object was measured.
pub(crate) const TANK_1_LAMP_MOVED: &Tank = &Tank {
    lamp: 1.1,
    ..*TANK_1
};

/// Nobody has changed its water since the summer.
pub(crate) const TANK_2: &Tank = &Tank {
    label: "Tank 2",
    tension: 0.045,
    enlargement: 1.62,
    ..Tank::SOUND
};

/// The tank when its water was last changed.
pub(crate) const TANK_2_CLEAN: &Tank = &Tank {
    tension: 0.064,
    ..*TANK_2
};

pub(crate) const TANK_3: &Tank = &Tank {
    label: "Tank 3",
    tension: 0.062,
    depth: 8.0,
    enlargement: 1.94,
    ..Tank::SOUND
};

/// Its lamp stands too low: the waves are measured where the picture is
/// larger than where the object was.
pub(crate) const TANK_4: &Tank = &Tank {
    label: "Tank 4",
    depth: 6.0,
    enlargement: 1.71,
    lamp: 1.06,
    ..Tank::SOUND
};

const fn sound(label: &'static str) -> Generator {
    Generator { label, dial: 1.0 }
}

pub(crate) const GENERATOR_1: &Generator = &sound("Generator 1");
pub(crate) const GENERATOR_2: &Generator = &sound("Generator 2");
pub(crate) const GENERATOR_3: &Generator = &sound("Generator 3");
pub(crate) const GENERATOR_4: &Generator = &sound("Generator 4");

/// The generator before it was mended: its dial read 8 % high.
pub(crate) const GENERATOR_2_HIGH: &Generator = &Generator {
    label: "Generator 2",
    dial: 1.08,
};

/// Returns a string of which two metres were weighed, in g; its length is in
/// mm.
const fn strung(label: &'static str, mass: f64, length: f64, beside: &'static Generator) -> Strung {
    let cord = Cord {
        label,
        length,
        mass,
        weighed: 2.0,
        ..Cord::SOUND
    };
    Strung { cord, beside }
}

pub(crate) const STRING_1: &Strung = &strung("String 1", 1.92, 1304.0, GENERATOR_1);
pub(crate) const STRING_2: &Strung = &strung("String 2", 1.88, 1451.0, GENERATOR_2);
pub(crate) const STRING_3: &Strung = &strung("String 3", 3.16, 1196.0, GENERATOR_3);
pub(crate) const STRING_4: &Strung = &strung("String 4", 1.95, 1248.0, GENERATOR_4);

pub(crate) const TANKS: [&Tank; 4] = [TANK_1, TANK_2, TANK_3, TANK_4];
pub(crate) const GENERATORS: [&Generator; 4] = [GENERATOR_1, GENERATOR_2, GENERATOR_3, GENERATOR_4];
pub(crate) const STRINGS: [&Strung; 4] = [STRING_1, STRING_2, STRING_3, STRING_4];
