//! The units that pupils write, and what each is in SI.

use serde::{Deserialize, Serialize};

/// What kind of thing a figure measures. Two figures of one quantity can be
/// compared once both are in SI.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Quantity {
    /// A length; SI unit m.
    Length,
    /// One over a length; SI unit 1/m.
    PerLength,
    /// A speed; SI unit m/s.
    Speed,
    /// A frequency; SI unit Hz.
    Frequency,
    /// A time; SI unit s.
    Time,
    /// A mass; SI unit kg.
    Mass,
    /// A temperature in degrees Celsius (never converted).
    Temperature,
    /// A whole number of things counted; no unit.
    Count,
    /// A ratio of two like quantities; no unit.
    Ratio,
}

/// A unit that may stand beside a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Unit {
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
    /// Metre.
    Metre,
    /// One over a centimetre.
    PerCentimetre,
    /// One over a metre.
    PerMetre,
    /// Millimetre per second.
    MillimetrePerSecond,
    /// Centimetre per second.
    CentimetrePerSecond,
    /// Metre per second.
    MetrePerSecond,
    /// Hertz.
    Hertz,
    /// Second.
    Second,
    /// Gram.
    Gram,
    /// Kilogram.
    Kilogram,
    /// Degree Celsius.
    Celsius,
}

struct Entry {
    unit: Unit,
    quantity: Quantity,
    symbol: &'static str,
    /// Other ways in which pupils write it, in lower case without spaces.
    also: &'static [&'static str],
    si: f64,
}

/// The one table of units. The order is the order of choices on a page.
const TABLE: [Entry; 13] = {
    use Quantity as Q;
    use Unit as U;
    const fn entry(
        unit: Unit,
        quantity: Quantity,
        symbol: &'static str,
        also: &'static [&'static str],
        si: f64,
    ) -> Entry {
        Entry {
            unit,
            quantity,
            symbol,
            also,
            si,
        }
    }
    [
        entry(U::Millimetre, Q::Length, "mm", &[], 1e-3),
        entry(U::Centimetre, Q::Length, "cm", &[], 1e-2),
        entry(U::Metre, Q::Length, "m", &["metre", "metres"], 1.0),
        entry(
            U::PerCentimetre,
            Q::PerLength,
            "1/cm",
            &["/cm", "cm-1", "cm^-1", "cm⁻¹", "percm"],
            100.0,
        ),
        entry(
            U::PerMetre,
            Q::PerLength,
            "1/m",
            &["/m", "m-1", "m^-1", "m⁻¹", "perm"],
            1.0,
        ),
        entry(
            U::MillimetrePerSecond,
            Q::Speed,
            "mm/s",
            &["mms-1", "mms^-1", "mms⁻¹"],
            1e-3,
        ),
        entry(
            U::CentimetrePerSecond,
            Q::Speed,
            "cm/s",
            &["cms-1", "cms^-1", "cms⁻¹"],
            1e-2,
        ),
        entry(
            U::MetrePerSecond,
            Q::Speed,
            "m/s",
            &["ms-1", "ms^-1", "ms⁻¹", "mps"],
            1.0,
        ),
        entry(
            U::Hertz,
            Q::Frequency,
            "Hz",
            &["hz", "hertz", "1/s", "s-1", "s^-1", "s⁻¹"],
            1.0,
        ),
        entry(
            U::Second,
            Q::Time,
            "s",
            &["sec", "secs", "second", "seconds"],
            1.0,
        ),
        entry(U::Gram, Q::Mass, "g", &["gram", "grams"], 1e-3),
        entry(U::Kilogram, Q::Mass, "kg", &[], 1.0),
        entry(
            U::Celsius,
            Q::Temperature,
            "°C",
            &["c", "ºc", "degc", "deg"],
            1.0,
        ),
    ]
};

impl Unit {
    /// Reads a unit as somebody wrote it: spaces, dots and capitals do not
    /// matter (`CM`, `m s-1`, `1/ cm`). `None` for text that names no unit of
    /// the table.
    ///
    /// # Example
    /// ```
    /// use analysis::unit::Unit;
    /// assert_eq!(Unit::parse(" CM "), Some(Unit::Centimetre));
    /// assert_eq!(Unit::parse("m s⁻¹"), Some(Unit::MetrePerSecond));
    /// assert_eq!(Unit::parse("furlong"), None);
    /// ```
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        if text.len() > 24 {
            return None;
        }
        let plain: String = text
            .chars()
            .filter(|c| !c.is_whitespace() && *c != '.')
            .map(|c| if c == '−' { '-' } else { c })
            .flat_map(char::to_lowercase)
            .collect();
        TABLE
            .iter()
            .find(|e| e.symbol.to_lowercase() == plain || e.also.contains(&plain.as_str()))
            .map(|e| e.unit)
    }

    fn entry(self) -> &'static Entry {
        &TABLE[self as usize]
    }

    /// The unit as it is printed, for instance `cm/s`.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        self.entry().symbol
    }

    /// What this unit measures.
    #[must_use]
    pub fn quantity(self) -> Quantity {
        self.entry().quantity
    }

    /// How many SI units one of this is: 0.01 for the centimetre.
    #[must_use]
    pub fn si(self) -> f64 {
        self.entry().si
    }
}

impl Quantity {
    /// The units in which this quantity may be given, smallest first; empty
    /// for counts and ratios.
    #[must_use]
    pub fn units(self) -> Vec<Unit> {
        TABLE
            .iter()
            .filter(|e| e.quantity == self)
            .map(|e| e.unit)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn table_is_in_the_order_of_the_enum() {
        for (index, entry) in TABLE.iter().enumerate() {
            assert_eq!(entry.unit as usize, index, "{}", entry.symbol);
            assert_eq!(
                Unit::parse(entry.symbol),
                Some(entry.unit),
                "{}",
                entry.symbol
            );
        }
    }
}
