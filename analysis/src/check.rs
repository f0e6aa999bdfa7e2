//! The checks that can suggest marks, in one table.

macro_rules! checks {
    ($($(#[doc = $doc:literal])+ $variant:ident $code:literal;)+) => {
        /// A check that suggests the marks of a point from the judged working.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Check {
            $($(#[doc = $doc])+ $variant,)+
        }

        impl Check {
            /// All of them, in the order of the work.
            pub const ALL: [Self; [$($code),+].len()] = [$(Self::$variant),+];

            /// The code in forms, files and tables.
            #[must_use]
            pub fn code(self) -> &'static str {
                match self { $(Self::$variant => $code,)+ }
            }
        }
    };
}

checks! {
    /// At least five frequencies.
    EnoughFrequencies "enough-frequencies";
    /// Many waves or loops in one measured length.
    ManyWaves "many-waves";
    /// A frequency measured again.
    Repeats "repeats";
    /// Readings to the resolution of the instrument.
    Resolution "resolution";
    /// The enlargement, from an object of known size.
    EnlargementFound "enlargement-found";
    /// Wavelengths divided by the enlargement.
    EnlargementApplied "enlargement-applied";
    /// Wavelength from the length and the count.
    Wavelength "wavelength";
    /// Frequency, with its multiplier or from a count.
    Frequency "frequency";
    /// Speed from the group's own frequency and wavelength.
    Speed "speed";
    /// Units given and kept straight.
    Unit "unit";
    /// Mean over the rows that belong.
    MeanWithoutAnomaly "mean-without-anomaly";
    /// Gradient of the group's own line.
    Gradient "gradient";
    /// Significant figures that the readings carry.
    Figures "figures";
    /// Half the range for the uncertainty.
    Uncertainty "uncertainty";
}

impl Check {
    /// The check with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|check| check.code() == code)
    }
}
