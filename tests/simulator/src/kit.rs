//! The apparatus as it really is: what no group can read off.

use crate::physics;

/// A ripple tank with its lamp, screen and dial.
#[derive(Clone, Copy, Debug)]
pub struct Tank {
    /// What groups write for it.
    pub label: &'static str,
    /// Surface tension of its water, N/m.
    pub tension: f64,
    /// Depth of its water, mm.
    pub depth: f64,
    /// How many times more than the true depth its card says.
    pub card: f64,
    /// How many times larger its picture is than the water.
    pub enlargement: f64,
    /// How many times larger it is while waves are counted than when the
    /// known object is measured: 1 where nobody moves the lamp in between.
    pub lamp: f64,
    /// How many times more its dial says than it gives.
    pub dial: f64,
}

impl Tank {
    /// A tank with nothing wrong.
    pub const SOUND: Self = Self {
        label: "",
        tension: 0.064,
        depth: 5.0,
        card: 1.0,
        enlargement: 1.75,
        lamp: 1.0,
        dial: 1.0,
    };

    /// The wavelength on its screen (mm) of ripples of a frequency (Hz).
    #[must_use]
    pub fn picture(&self, frequency: f64) -> f64 {
        let wavelength = physics::ripple(self.tension, self.depth / 1000.0, frequency);
        self.enlargement * self.lamp * wavelength * 1000.0
    }
}

/// A string between its vibrator and its pulley.
#[derive(Clone, Copy, Debug)]
pub struct Cord {
    /// What groups write for it.
    pub label: &'static str,
    /// From end to end, mm.
    pub length: f64,
    /// Hung on it, g.
    pub hung: f64,
    /// Mass (g) and length (m) of the piece that was weighed.
    pub mass: f64,
    /// See `mass`.
    pub weighed: f64,
    /// How many times faster its waves are than its masses foretell.
    pub faster: f64,
    /// How many times more its dial says than it gives.
    pub dial: f64,
}

impl Cord {
    /// A string with nothing wrong.
    pub const SOUND: Self = Self {
        label: "",
        length: 1200.0,
        hung: 200.0,
        mass: 1.5,
        weighed: 1.5,
        faster: 1.0,
        dial: 1.0,
    };

    /// The frequency (Hz) at which it shows so many loops.
    #[must_use]
    pub fn resonance(&self, loops: u32) -> f64 {
        let speed = self.faster * physics::string(self.hung, self.mass, self.weighed);
        speed * f64::from(loops) / (2.0 * self.length / 1000.0)
    }
}
