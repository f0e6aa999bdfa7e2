//! The checks that can suggest marks, in one table.

macro_rules! checks {
    ($($(#[doc = $doc:literal])+ $variant:ident $code:literal $title:literal, $rule:literal;)+) => {
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

            /// What a choice on a page calls it.
            #[must_use]
            pub fn title(self) -> &'static str {
                match self { $(Self::$variant => $title,)+ }
            }

            /// What earns full marks, and what costs some.
            #[must_use]
            pub fn rule(self) -> &'static str {
                match self { $(Self::$variant => $rule,)+ }
            }
        }
    };
}

checks! {
    /// At least five frequencies.
    EnoughFrequencies "enough-frequencies" "enough frequencies",
        "Complete readings at five different frequencies or more. One mark less for each that is missing.";
    /// Many waves or loops in one measured length.
    ManyWaves "many-waves" "many waves in one length",
        "Ten waves or so in a span on most rows (eight or more counts); on a string, a length over every loop that is seen. One mark less where only some rows have it.";
    /// A frequency measured again.
    Repeats "repeats" "repeated readings",
        "At least one frequency measured twice or more. One mark for each frequency that was repeated.";
    /// Readings to the resolution of the instrument.
    Resolution "resolution" "readings to the instrument’s resolution",
        "Lengths written to the nearest millimetre, all to the same place. One mark less where a length is to the nearest centimetre only.";
    /// The enlargement, from an object of known size.
    EnlargementFound "enlargement-found" "enlargement found",
        "The enlargement follows from the object’s two lengths.";
    /// Wavelengths divided by the enlargement.
    EnlargementApplied "enlargement-applied" "enlargement applied",
        "The wavelength on the water is the one on the screen ÷ the enlargement, the group’s own if it is wrong.";
    /// Wavelength from the length and the count.
    Wavelength "wavelength" "wavelength",
        "Each wavelength follows from the group’s own readings. One slip costs one mark, however many rows it is in.";
    /// Frequency, with its multiplier or from a count.
    Frequency "frequency" "frequency, with its multiplier",
        "Each frequency follows from the dial and its multiplier, or from the count and the time.";
    /// Speed from the group's own frequency and wavelength.
    Speed "speed" "speed",
        "Each speed is the group’s own frequency × its own wavelength: an earlier slip costs nothing here.";
    /// Units given and kept straight.
    Unit "unit" "unit and conversion",
        "Speeds have a unit, and mm, cm and m are not mixed.";
    /// Mean over the rows that belong.
    MeanWithoutAnomaly "mean-without-anomaly" "mean without the anomaly",
        "The mean of the group’s own speeds, without the rows that it marked as anomalies.";
    /// Gradient of the group's own line.
    Gradient "gradient" "gradient from the line",
        "The gradient is one that a careful line through the group’s own points could have.";
    /// Significant figures that the readings carry.
    Figures "figures" "significant figures",
        "Worked figures carry as many significant figures as the readings do: at least two, and at most one more than the readings.";
    /// Half the range for the uncertainty.
    Uncertainty "uncertainty" "uncertainty as half the range",
        "The uncertainty is half the range of the group’s own speeds, without the rows that it marked as anomalies.";
}

impl Check {
    /// The check with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|check| check.code() == code)
    }
}
