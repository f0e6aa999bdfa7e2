//! Every box of a bench sheet, in one table: its name, where it stands, what
//! it measures. Forms, stored revisions and CSV columns all use these names,
//! which are those of the readings format.

use serde::{Deserialize, Serialize};

use crate::unit::{Quantity, Unit};

/// Whether a field belongs to the whole sheet or to each row of its table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Given once for the sheet.
    Sheet,
    /// Given in each row.
    Row,
}

/// Whether a figure was read off an instrument or worked out from readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Read off an instrument, or counted.
    Reading,
    /// Worked out by the group.
    Working,
}

macro_rules! fields {
    ($($(#[doc = $doc:literal])+ $variant:ident $name:literal $place:ident $role:ident $quantity:ident $fixed:expr;)+) => {
        /// One box of a bench sheet. The name is the column of the readings
        /// format.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Field {
            $($(#[doc = $doc])+ #[serde(rename = $name)] $variant,)+
        }

        impl Field {
            /// All fields, in the order of the work.
            pub const ALL: [Self; [$($name),+].len()] = [$(Self::$variant),+];

            fn info(self) -> Info {
                match self {
                    $(Self::$variant => Info {
                        name: $name,
                        place: Place::$place,
                        role: Role::$role,
                        quantity: Quantity::$quantity,
                        fixed_unit: $fixed,
                    },)+
                }
            }
        }
    };
}

struct Info {
    name: &'static str,
    place: Place,
    role: Role,
    quantity: Quantity,
    /// The unit that the column's name or the instrument fixes; `None` where
    /// the sheet asks for a unit beside the figure.
    fixed_unit: Option<Unit>,
}

fields! {
    /// Length of the known object in the picture on the screen.
    ScaleImage "scale_image" Sheet Reading Length None;
    /// True length of the known object.
    ScaleTrue "scale_true" Sheet Reading Length None;
    /// Depth of the water, in mm.
    Depth "depth_mm" Sheet Reading Length Some(Unit::Millimetre);
    /// Temperature of the water, in degrees Celsius.
    Temperature "temperature_c" Sheet Reading Temperature Some(Unit::Celsius);
    /// Mass hung on the string, hanger included, in g.
    HangingMass "hanging_mass_g" Sheet Reading Mass Some(Unit::Gram);
    /// Mass of the measured piece of string, in g.
    StringMass "string_mass_g" Sheet Reading Mass Some(Unit::Gram);
    /// Length of the piece of string that was weighed, in m.
    StringLength "string_length_m" Sheet Reading Length Some(Unit::Metre);
    /// Dial of the generator, in Hz before its multiplier.
    Dial "dial" Row Reading Frequency Some(Unit::Hertz);
    /// Multiplier of the dial; 1 where blank.
    DialTimes "dial_times" Row Reading Ratio None;
    /// Number called at the first crest counted past a point.
    PassesFirst "passes_first" Row Reading Count None;
    /// Number called at the last crest counted past a point.
    PassesLast "passes_last" Row Reading Count None;
    /// Time from the first call to the last, in s.
    Seconds "seconds" Row Reading Time Some(Unit::Second);
    /// Number called at the ruler's zero.
    FirstCrest "first_crest" Row Reading Count None;
    /// Number called at the far end of the ruler.
    LastCrest "last_crest" Row Reading Count None;
    /// Distance between the first and the last crest.
    Span "span" Row Reading Length None;
    /// Loops seen between the two ends of the string.
    Loops "loops" Row Reading Count None;
    /// A length measured along the string.
    Length "length" Row Reading Length None;
    /// How many loops that length covers.
    LengthLoops "length_loops" Row Reading Count None;
    /// Worked frequency, in Hz.
    Frequency "frequency" Row Working Frequency Some(Unit::Hertz);
    /// Worked wavelength.
    Wavelength "wavelength" Row Working Length None;
    /// Worked 1 / wavelength.
    Reciprocal "reciprocal" Row Working PerLength None;
    /// Worked speed.
    Speed "speed" Row Working Speed None;
    /// Worked magnification, image ÷ true.
    Magnification "magnification" Sheet Working Ratio None;
    /// Worked mean of the speeds.
    MeanSpeed "mean_speed" Sheet Working Speed None;
    /// Worked uncertainty of the mean: half the range of the speeds in it.
    Uncertainty "uncertainty" Sheet Working Speed None;
    /// Worked gradient of f (up) against 1/wavelength (along).
    Gradient "gradient" Sheet Working Speed None;
}

impl Field {
    /// The column of the readings format, the name in stored revisions and in
    /// forms.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.info().name
    }

    /// The field with this column name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|f| f.name() == name)
    }

    /// Sheet or row.
    #[must_use]
    pub fn place(self) -> Place {
        self.info().place
    }

    /// Reading or working.
    #[must_use]
    pub fn role(self) -> Role {
        self.info().role
    }

    /// What it measures.
    #[must_use]
    pub fn quantity(self) -> Quantity {
        self.info().quantity
    }

    /// The unit that is fixed by the column or instrument, if one is.
    #[must_use]
    pub fn fixed_unit(self) -> Option<Unit> {
        self.info().fixed_unit
    }

    /// The unit in its heading, where a method has no other there: the one in
    /// which a figure without a unit is read first. `None` for counts and
    /// ratios.
    #[must_use]
    pub fn heading_unit(self) -> Option<Unit> {
        self.fixed_unit().or(match self.quantity() {
            Quantity::Length => Some(Unit::Metre),
            Quantity::PerLength => Some(Unit::PerMetre),
            Quantity::Speed => Some(Unit::MetrePerSecond),
            _ => None,
        })
    }

    /// Whether the sheet has a box for a unit beside this figure.
    #[must_use]
    pub fn asks_unit(self) -> bool {
        self.fixed_unit().is_none() && !self.quantity().units().is_empty()
    }
}
