//! The department's apparatus, as it really is: what no group can read off.

use analysis::wave::water::Water;
use analysis::wave::{G_STANDARD, string};

/// A ripple tank with its lamp and screen.
#[derive(Debug)]
pub(crate) struct Tank {
    pub(crate) label: &'static str,
    /// Surface tension of its water, N/m.
    surface_tension: f64,
    /// Depth of its water, mm.
    pub(crate) depth: f64,
    /// How many times larger its picture is than the water.
    pub(crate) enlargement: f64,
    /// How many times larger it is while waves are counted than when the
    /// known object is measured: 1 where nobody moves the lamp in between.
    pub(crate) lamp: f64,
}

impl Tank {
    /// The speed of its ripples in m/s at a frequency in Hz and a temperature
    /// in °C.
    pub(crate) fn speed(&self, frequency: f64, temperature: f64) -> f64 {
        let clean = Water::clean(temperature, self.depth / 1000.0);
        let water = Water {
            surface_tension: self.surface_tension,
            ..clean
        };
        water.speed(frequency)
    }
}

/// A string between its vibrator and its pulley.
#[derive(Debug)]
pub(crate) struct Cord {
    pub(crate) label: &'static str,
    /// Mass of the two metres that are weighed, g.
    pub(crate) mass: f64,
    /// From vibrator to pulley, m.
    pub(crate) length: f64,
    /// The generator that it stands beside.
    pub(crate) beside: &'static Generator,
}

/// A signal generator with its vibrator.
#[derive(Debug)]
pub(crate) struct Generator {
    pub(crate) label: &'static str,
    /// How many times more its dial says than it gives.
    pub(crate) dial: f64,
}

/// Length of the string that is weighed, m.
pub(crate) const WEIGHED: f64 = 2.0;

impl Cord {
    /// The speed of its waves in m/s with so many grams hung on it.
    pub(crate) fn speed(&self, hung: f64) -> f64 {
        string::speed(hung / 1000.0, self.mass / 1000.0, WEIGHED, G_STANDARD)
    }
}

pub(crate) const TANK_1: &Tank = &Tank {
    label: "Tank 1",
    surface_tension: 0.066,
    depth: 6.0,
    enlargement: 1.78,
    lamp: 1.0,
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
    surface_tension: 0.045,
    depth: 5.0,
    enlargement: 1.62,
    lamp: 1.0,
};

pub(crate) const TANK_3: &Tank = &Tank {
    label: "Tank 3",
    surface_tension: 0.062,
    depth: 8.0,
    enlargement: 1.94,
    lamp: 1.0,
};

pub(crate) const GENERATOR_1: &Generator = &Generator {
    label: "Generator 1",
    dial: 1.0,
};

pub(crate) const GENERATOR_2: &Generator = &Generator {
    label: "Generator 2",
    dial: 1.0,
};

pub(crate) const GENERATOR_3: &Generator = &Generator {
    label: "Generator 3",
    dial: 1.0,
};

pub(crate) const GENERATOR_4: &Generator = &Generator {
    label: "Generator 4",
    dial: 1.0,
};

pub(crate) const STRING_1: &Cord = &Cord {
    label: "String 1",
    mass: 1.92,
    length: 1.304,
    beside: GENERATOR_1,
};

pub(crate) const STRING_2: &Cord = &Cord {
    label: "String 2",
    mass: 1.88,
    length: 1.451,
    beside: GENERATOR_2,
};

pub(crate) const STRING_3: &Cord = &Cord {
    label: "String 3",
    mass: 3.16,
    length: 1.196,
    beside: GENERATOR_3,
};

pub(crate) const STRING_4: &Cord = &Cord {
    label: "String 4",
    mass: 1.95,
    length: 1.248,
    beside: GENERATOR_4,
};

/// Its lamp stands too low: the waves are measured where the picture is
/// larger than where the object was.
pub(crate) const TANK_4: &Tank = &Tank {
    label: "Tank 4",
    surface_tension: 0.064,
    depth: 6.0,
    enlargement: 1.71,
    lamp: 1.06,
};

/// The tank when its water was last changed.
pub(crate) const TANK_2_CLEAN: &Tank = &Tank {
    surface_tension: 0.064,
    ..*TANK_2
};

/// The generator before it was mended: its dial read 8 % high.
pub(crate) const GENERATOR_2_HIGH: &Generator = &Generator {
    dial: 1.08,
    ..*GENERATOR_2
};

pub(crate) const TANKS: [&Tank; 4] = [TANK_1, TANK_2, TANK_3, TANK_4];
pub(crate) const GENERATORS: [&Generator; 4] = [GENERATOR_1, GENERATOR_2, GENERATOR_3, GENERATOR_4];
pub(crate) const STRINGS: [&Cord; 4] = [STRING_1, STRING_2, STRING_3, STRING_4];
