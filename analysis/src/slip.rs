//! The named wrong turns, remarks included. The codes are fixed by the flags
//! format.

coded! {
    /// What a flag is.
    pub enum Kind {
        /// A wrong turn.
        Slip = "slip",
        /// Something worth saying that is no slip.
        Remark = "remark",
        /// A fault of the apparatus, not of the group.
        Apparatus = "apparatus",
        /// Something for the teacher alone to ask about.
        Question = "question",
    }
}

/// Makes an enum of what a flag may say, each with the code of the flags
/// format and the kind of flag.
macro_rules! flagged {
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$each:meta])* $variant:ident = $code:literal is $kind:ident,)+ }) => {
        coded! {
            $(#[$about])*
            pub enum $name { $($(#[$each])* $variant = $code,)+ }
        }

        impl $name {
            /// Returns what a flag that says it is.
            #[must_use]
            pub fn kind(self) -> $crate::slip::Kind {
                match self {
                    $(Self::$variant => $crate::slip::Kind::$kind,)+
                }
            }
        }
    };
}
pub(crate) use flagged;

flagged! {
    /// A named wrong turn or remark. Slips come first.
    pub enum Slip {
       /// Counted lines for gaps: the last number called, where the first was
        /// one, or one more than it, where the first was nought.
        CountedFromOne = "counted-from-one" is Slip,
        /// Took the whole span, or the whole length of a string, for one
        /// wavelength.
        SpanNotDivided = "span-not-divided" is Slip,
        /// Did not divide by the enlargement.
        ScaleLeftOut = "scale-left-out" is Slip,
        /// Multiplied by the enlargement.
        ScaleMultiplied = "scale-multiplied" is Slip,
        /// True ÷ image for the enlargement.
        ScaleUpsideDown = "scale-upside-down" is Slip,
        /// Half a wave for one, or one for a half.
        CrestToTrough = "crest-to-trough" is Slip,
        /// Length of one loop for the wavelength.
        LoopTakenAsWavelength = "loop-taken-as-wavelength" is Slip,
        /// Divided by the number of nodes.
        NodesCountedAsLoops = "nodes-counted-as-loops" is Slip,
        /// Divided by the number of nodes between the ends.
        InnerNodesCounted = "inner-nodes-counted" is Slip,
        /// Used the dial alone.
        DialMultiplierLeftOut = "dial-multiplier-left-out" is Slip,
        /// Gave the count for the frequency.
        CountNotDivided = "count-not-divided" is Slip,
        /// Gave the period for the frequency.
        PeriodAsFrequency = "period-as-frequency" is Slip,
        /// f ÷ λ for the speed.
        SpeedDivided = "speed-divided" is Slip,
        /// λ ÷ f for the speed.
        SpeedInverted = "speed-inverted" is Slip,
        /// λ where 1/λ is asked.
        ReciprocalLeftOut = "reciprocal-left-out" is Slip,
        /// Sum for the mean.
        MeanNotDivided = "mean-not-divided" is Slip,
        /// Divided by another count.
        MeanWrongCount = "mean-wrong-count" is Slip,
        /// Mean frequency × mean wavelength for the mean of the speeds.
        MeansMultiplied = "means-multiplied" is Slip,
        /// The mean holds a row marked as anomalous.
        AnomalyAveragedIn = "anomaly-averaged-in" is Slip,
        /// Δ(1/λ)/Δf for the gradient.
        GradientUpsideDown = "gradient-upside-down" is Slip,
        /// A single row's f ÷ (1/λ) for the gradient.
        GradientFromOnePoint = "gradient-from-one-point" is Slip,
        /// mm, cm and m mixed.
        UnitPowerOfTen = "unit-power-of-ten" is Slip,
        /// Worked with another row's figure.
        OtherRowsFigure = "other-rows-figure" is Slip,
        /// Nothing above explains it.
        DoesNotFollow = "does-not-follow" is Slip,
        /// Fewer than two significant figures.
        TooFewFigures = "too-few-figures" is Remark,
        /// Two significant figures more than the readings carry, or more.
        TooManyFigures = "too-many-figures" is Remark,
        /// No unit.
        UnitMissing = "unit-missing" is Remark,
        /// A row left out of the mean without saying so.
        RowLeftOutUnsaid = "row-left-out-unsaid" is Remark,
    }
}
