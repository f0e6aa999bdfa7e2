//! The checks that can suggest marks, in one table.

coded! {
    /// A check that suggests the marks of a point from the judged working, in
    /// the order of the work.
    pub enum Check {
        /// At least five frequencies.
        EnoughFrequencies = "enough-frequencies",
        /// Many waves or loops in one measured length.
        ManyWaves = "many-waves",
        /// A frequency measured again.
        Repeats = "repeats",
        /// Readings to the resolution of the instrument.
        Resolution = "resolution",
        /// The enlargement, from an object of known size.
        EnlargementFound = "enlargement-found",
        /// Wavelengths divided by the enlargement.
        EnlargementApplied = "enlargement-applied",
        /// Wavelength from the length and the count.
        Wavelength = "wavelength",
        /// Frequency, with its multiplier or from a count.
        Frequency = "frequency",
        /// Speed from the group's own frequency and wavelength.
        Speed = "speed",
        /// Units given and kept straight.
        Unit = "unit",
        /// Mean over the rows that belong.
        MeanWithoutAnomaly = "mean-without-anomaly",
        /// Gradient of the group's own line.
        Gradient = "gradient",
        /// Significant figures that the readings carry.
        Figures = "figures",
        /// Half the range for the uncertainty.
        Uncertainty = "uncertainty",
    }
}
