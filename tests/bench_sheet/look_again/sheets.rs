//! A sheet for every slip and remark, each worked out by hand.

use analysis::slip::Slip;

/// A box and what is typed in it.
pub(crate) type Typed = (&'static str, &'static str);

/// Enlargement 1.75; eight waves in 22.4 cm: 1.60 cm on the water; 12 Hz.
const WATER: &[Typed] = &[
    ("w.scale_true", "8.0"),
    ("unit.scale_true", "cm"),
    ("w.scale_image", "14.0"),
    ("unit.scale_image", "cm"),
    ("unit.span", "cm"),
    ("r1.dial", "12"),
    ("r1.first_crest", "0"),
    ("r1.last_crest", "8"),
    ("r1.span", "22.4"),
];

/// Twenty waves in 8.0 s: 2.5 Hz.
const COUNTED: &[Typed] = &[
    ("r1.passes_first", "0"),
    ("r1.passes_last", "20"),
    ("r1.seconds", "8.0"),
];

/// Three loops in 1.20 m: 0.80 m.
const STRING: &[Typed] = &[
    ("r1.dial", "30"),
    ("r1.length", "1.20"),
    ("unit.length", "m"),
    ("r1.length_loops", "3"),
    ("unit.wavelength", "m"),
];

/// Four loops in 1.20 m: 0.60 m. There are three nodes between the ends.
const FOUR_LOOPS: &[Typed] = &[
    ("r1.dial", "30"),
    ("r1.length", "1.20"),
    ("unit.length", "m"),
    ("r1.length_loops", "4"),
    ("unit.wavelength", "m"),
    ("r1.wavelength", "0.80"),
];

/// 0.192, 0.208 and 0.300 m/s; the first two have a mean of 0.200.
const SPEEDS: &[Typed] = &[
    ("unit.wavelength", "cm"),
    ("unit.speed", "m/s"),
    ("unit.mean_speed", "m/s"),
    ("unit.gradient", "m/s"),
    ("r1.wavelength", "1.60"),
    ("r1.speed", "0.192"),
    ("r2.dial", "16"),
    ("r2.first_crest", "0"),
    ("r2.last_crest", "8"),
    ("r2.span", "18.2"),
    ("r2.wavelength", "1.30"),
    ("r2.speed", "0.208"),
];

/// A third row, which gives 0.300 m/s.
const ODD_ROW: &[Typed] = &[
    ("r3.dial", "20"),
    ("r3.first_crest", "0"),
    ("r3.last_crest", "8"),
    ("r3.span", "21.0"),
    ("r3.wavelength", "1.50"),
    ("r3.speed", "0.300"),
];

/// A third row, worked with the 1.30 cm of the second.
const OTHER_ROWS_WAVELENGTH: &[Typed] = &[
    ("r3.dial", "20"),
    ("r3.first_crest", "0"),
    ("r3.last_crest", "8"),
    ("r3.span", "21.0"),
    ("r3.wavelength", "1.50"),
    ("r3.speed", "0.260"),
];

/// Points of a line that misses the origin: 8, 16, 24 and 32 Hz at 40, 60, 80
/// and 100 per metre.
const STEEP: &[Typed] = &[
    ("unit.wavelength", "m"),
    ("unit.gradient", "m/s"),
    ("r1.frequency", "8.00"),
    ("r1.wavelength", "0.02500"),
    ("r2.frequency", "16.00"),
    ("r2.wavelength", "0.01667"),
    ("r3.frequency", "24.00"),
    ("r3.wavelength", "0.01250"),
    ("r4.frequency", "32.00"),
    ("r4.wavelength", "0.01000"),
    ("r1.dial", "8.00"),
    ("r2.dial", "16.00"),
    ("r3.dial", "24.00"),
    ("r4.dial", "32.00"),
];

/// A sheet that shows this slip or remark before any other: its method and
/// its boxes.
pub(crate) fn of(slip: Slip) -> (&'static str, Vec<Typed>) {
    let water = |more: &[Typed]| ("ripple-tank", [WATER, more].concat());
    let wavelength = |text| water(&[("r1.wavelength", text), ("unit.wavelength", "cm")]);
    let speed = |text| {
        water(&[
            ("r1.wavelength", "1.60"),
            ("unit.wavelength", "cm"),
            ("r1.speed", text),
            ("unit.speed", "m/s"),
        ])
    };
    let counted = |text| {
        let more = [("r1.frequency", text)];
        ("ripple-tank", [COUNTED, &more].concat())
    };
    let string = |text| {
        (
            "string-loops",
            [STRING, &[("r1.wavelength", text)]].concat(),
        )
    };
    let rows = |more: &[Typed]| water(&[SPEEDS, more].concat());
    let three = |more: &[Typed]| rows(&[ODD_ROW, more].concat());
    match slip {
        Slip::CountedFromOne => wavelength("1.42"),
        Slip::SpanNotDivided => wavelength("12.8"),
        Slip::ScaleLeftOut => wavelength("2.80"),
        Slip::ScaleMultiplied => wavelength("4.90"),
        Slip::ScaleUpsideDown => water(&[("w.magnification", "0.571")]),
        Slip::CrestToTrough => wavelength("0.80"),
        Slip::LoopTakenAsWavelength => string("0.40"),
        Slip::NodesCountedAsLoops => string("0.60"),
        Slip::InnerNodesCounted => ("string-loops", FOUR_LOOPS.to_vec()),
        Slip::DialMultiplierLeftOut => water(&[("r1.dial_times", "10"), ("r1.frequency", "12")]),
        Slip::CountNotDivided => counted("20"),
        Slip::PeriodAsFrequency => counted("0.40"),
        Slip::SpeedDivided => speed("750"),
        Slip::SpeedInverted => speed("0.00133"),
        Slip::ReciprocalLeftOut => water(&[
            ("r1.wavelength", "1.60"),
            ("unit.wavelength", "cm"),
            ("r1.reciprocal", "1.60"),
            ("unit.reciprocal", "1/cm"),
        ]),
        Slip::MeanNotDivided => rows(&[("w.mean_speed", "0.400")]),
        Slip::MeanWrongCount => rows(&[("w.mean_speed", "0.133")]),
        Slip::MeansMultiplied => rows(&[("w.mean_speed", "0.203")]),
        Slip::AnomalyAveragedIn => three(&[("r3.left_out", "yes"), ("w.mean_speed", "0.233")]),
        Slip::GradientUpsideDown => rows(&[("w.gradient", "5.0")]),
        Slip::GradientFromOnePoint => ("ripple-tank", [STEEP, &[("w.gradient", "0.200")]].concat()),
        Slip::UnitPowerOfTen => speed("19.2"),
        Slip::OtherRowsFigure => rows(OTHER_ROWS_WAVELENGTH),
        Slip::DoesNotFollow => wavelength("3.47"),
        Slip::TooFewFigures => speed("0.2"),
        Slip::TooManyFigures => speed("0.19200"),
        Slip::UnitMissing => water(&[("r1.wavelength", "1.60")]),
        Slip::RowLeftOutUnsaid => three(&[("w.mean_speed", "0.200")]),
    }
}
