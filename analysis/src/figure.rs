//! A number as somebody typed it.
//!
//! A figure keeps its text, and stands for every value that rounds to it:
//! `0.56` for 0.555 to 0.565. A whole number that ends in noughts is given
//! the benefit of the doubt: `170` stands for 165 to 175, until its column
//! shows that the noughts are figures (`sheet/noughts.rs`). (Half a unit in
//! the last place: common practice, no source.)

use crate::interval::Interval;
use crate::unit::Unit;

/// The longest text that is looked at, in characters. A reading of ten
/// digits with its unit fits three times over.
const LONGEST: usize = 40;

/// The largest power of ten that a figure may carry, either way. Everything
/// on a bench lies well inside it, and products of four figures stay finite.
const LARGEST_EXPONENT: i32 = 15;

/// A number as typed: its value, the place of its last digit, its figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    text: String,
    value: f64,
    last_place: i32,
    last_digit: i32,
    least_figures: u32,
    most_figures: u32,
    unit: Option<Unit>,
}

/// Why a text is no figure.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no figure: {self:?}")]
pub enum FigureError {
    /// No digit in it.
    NoDigits,
    /// More than one decimal point or comma.
    TwoPoints,
    /// More characters than a figure has.
    TooLong,
    /// Further from 1 than 10 to the power 15, either way.
    OutOfRange,
    /// Something after the number that is no unit of the table.
    UnknownUnit(String),
    /// Letters or signs where digits should be.
    NotANumber,
}

impl Figure {
    /// Reads a figure as typed. `None` for blank text.
    ///
    /// Read are a decimal point or comma, a missing nought before it, spaces
    /// round it, a power of ten (`1.2e-2`, `1.2×10^-2`) and a unit after it.
    ///
    /// # Errors
    /// A [`FigureError`] that says what is wrong.
    ///
    /// # Example
    /// ```
    /// use analysis::figure::Figure;
    /// let figure = Figure::parse(" 5,60 cm ")?.expect("not blank");
    /// assert_eq!((figure.value(), figure.figures()), (5.6, 3));
    /// assert!(Figure::parse("5.6.0").is_err());
    /// # Ok::<(), analysis::figure::FigureError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Option<Self>, FigureError> {
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return Ok(None);
        }
        if trimmed.chars().count() > LONGEST {
            return Err(FigureError::TooLong);
        }
        let (mantissa, rest) = Mantissa::read(trimmed)?;
        let (exponent, rest) = read_exponent(rest)?;
        let unit = match rest.trim() {
            "" => None,
            unit => Some(Unit::parse(unit).ok_or_else(|| unknown(unit))?),
        };
        mantissa.figure(text, exponent, unit).map(Some)
    }

    /// The text, exactly as typed.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The number, in whatever unit it was typed.
    #[must_use]
    pub fn value(&self) -> f64 {
        self.value
    }

    /// The unit typed after the number, if one was.
    #[must_use]
    pub fn unit(&self) -> Option<Unit> {
        self.unit
    }

    /// Significant figures, as many as the figure can be said to have: 3 for
    /// `0.560`, 2 for `50`.
    #[must_use]
    pub fn figures(&self) -> u32 {
        self.most_figures
    }

    /// Significant figures, as few as the figure can be said to have: 3 for
    /// `0.560`, 1 for `50`.
    #[must_use]
    pub fn least_figures(&self) -> u32 {
        self.least_figures
    }

    /// Whether it is a whole number.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.value.fract() == 0.0
    }

    /// One unit of the last digit typed, in the unit in which it was typed:
    /// 0.1 for `5.6`, 1 for `50`. An instrument's resolution where the figure
    /// is a reading.
    #[must_use]
    pub fn resolution(&self) -> f64 {
        10_f64.powi(self.last_digit)
    }

    /// Every value that rounds to this figure, in the unit in which it was
    /// typed: half a unit of its last place each way. Below `100` written to
    /// one figure it is a twentieth: 72 to one figure is 70.
    #[must_use]
    pub fn interval(&self) -> Interval {
        let half = 0.5 * 10_f64.powi(self.last_place);
        let (down, up) = if self.is_one_and_noughts() {
            (0.1 * half, half)
        } else {
            (half, half)
        };
        let away = up.copysign(self.value);
        let back = down.copysign(self.value);
        Interval::new(self.value - back, self.value + away)
    }

    /// Whether it is 10, 100 … written to one figure.
    fn is_one_and_noughts(&self) -> bool {
        let one = 10_f64.powi(self.last_place);
        self.last_place > self.last_digit && (self.value.abs() - one).abs() < 1e-9 * one
    }

    /// The power of ten of the last place that is surely a figure: 1 for `50`.
    pub(crate) fn last_place(&self) -> i32 {
        self.last_place
    }

    /// The power of ten of its last place, were it written to so many figures.
    pub(crate) fn place_of(&self, figures: u32) -> i32 {
        let first = self.last_place + i32::try_from(self.least_figures).unwrap_or(0) - 1;
        first + 1 - i32::try_from(figures).unwrap_or(0)
    }

    /// Takes final noughts for figures, down to this power of ten.
    pub(crate) fn noughts_count_to(&mut self, place: i32) {
        let place = place.clamp(self.last_digit, self.last_place);
        self.least_figures += self.last_place.abs_diff(place);
        self.last_place = place;
    }
}

/// The digits before any power of ten.
struct Mantissa {
    negative: bool,
    digits: String,
    /// Digits after the point; `None` where no point was typed.
    decimals: Option<u32>,
}

impl Mantissa {
    fn read(text: &str) -> Result<(Self, &str), FigureError> {
        let (negative, unsigned) = match text.strip_prefix(['-', '−', '–']) {
            Some(rest) => (true, rest.trim_start()),
            None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
        };
        let end = unsigned
            .find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
            .unwrap_or(unsigned.len());
        let (number, rest) = unsigned.split_at(end);
        let mut parts = number.split(['.', ',']);
        let whole = parts.next().unwrap_or_default();
        let fraction = parts.next();
        if parts.next().is_some() {
            return Err(FigureError::TwoPoints);
        }
        let digits = format!("{whole}{}", fraction.unwrap_or_default());
        if digits.is_empty() {
            let letters = text.chars().any(char::is_alphanumeric);
            return Err(if letters {
                FigureError::NotANumber
            } else {
                FigureError::NoDigits
            });
        }
        let decimals = fraction.map(|f| f.len().try_into().unwrap_or(u32::MAX));
        Ok((
            Self {
                negative,
                digits,
                decimals,
            },
            rest,
        ))
    }

    fn figure(self, text: &str, exponent: i32, unit: Option<Unit>) -> Result<Figure, FigureError> {
        let decimals =
            i32::try_from(self.decimals.unwrap_or(0)).map_err(|_| FigureError::TooLong)?;
        let sign = if self.negative { "-" } else { "" };
        let value: f64 = format!("{sign}{}e{}", self.digits, exponent - decimals)
            .parse()
            .map_err(|_| FigureError::NotANumber)?;
        let limit = 10_f64.powi(LARGEST_EXPONENT);
        if !value.is_finite() || value.abs() > limit || (value != 0.0 && value.abs() < 1.0 / limit)
        {
            return Err(FigureError::OutOfRange);
        }
        let significant = self.digits.trim_start_matches('0');
        let noughts = if self.decimals.is_none() {
            significant.len() - significant.trim_end_matches('0').len()
        } else {
            0
        };
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        // A typed nought has no first figure; it counts as one.
        let most = count(significant.len()).max(1);
        let least = count(significant.len() - noughts).max(1);
        let last_place = exponent - decimals + i32::try_from(noughts).unwrap_or(0);
        Ok(Figure {
            text: text.to_owned(),
            value,
            last_place,
            last_digit: exponent - decimals,
            least_figures: least,
            most_figures: most,
            unit,
        })
    }
}

/// A power of ten after the digits: `e-2`, `E3`, `×10^-2`, `x 10^3`, `*10⁻²`.
fn read_exponent(rest: &str) -> Result<(i32, &str), FigureError> {
    let rest = rest.trim_start();
    let after = if let Some(after) = rest.strip_prefix(['e', 'E']) {
        after
    } else if let Some(after) = rest.strip_prefix(['x', 'X', '×', '*']) {
        let Some(after) = after.trim_start().strip_prefix("10") else {
            return Ok((0, rest));
        };
        after.strip_prefix('^').unwrap_or(after)
    } else {
        return Ok((0, rest));
    };
    let plain = |c: char| {
        "⁰¹²³⁴⁵⁶⁷⁸⁹"
            .chars()
            .position(|s| s == c)
            .map_or(c, |d| char::from(b'0' + u8::try_from(d).unwrap_or(0)))
    };
    let sign = |c: char| matches!(c, '-' | '−' | '⁻' | '+');
    let end = after
        .char_indices()
        .find(|&(at, c)| !(plain(c).is_ascii_digit() || (at == 0 && sign(c))))
        .map_or(after.len(), |(at, _)| at);
    let digits: String = after[..end]
        .chars()
        .filter(|c| !sign(*c))
        .map(plain)
        .collect();
    let size: i32 = digits.parse().map_err(|_| {
        if digits.is_empty() {
            FigureError::NotANumber
        } else {
            FigureError::OutOfRange
        }
    })?;
    let negative = after.starts_with(['-', '−', '⁻']);
    if size > 4 * LARGEST_EXPONENT {
        return Err(FigureError::OutOfRange);
    }
    Ok((if negative { -size } else { size }, &after[end..]))
}

/// What stands after the number and is no unit of the table: another number
/// or a slip of the finger (`2O.4`), else a unit that is not used here.
fn unknown(rest: &str) -> FigureError {
    let letter_for_digit = rest.starts_with(['o', 'O', 'l', 'I']);
    let other_number = rest.contains(|c: char| c.is_ascii_digit() || "½¼¾⅓⅔".contains(c));
    if letter_for_digit || other_number || rest.chars().count() > 12 {
        FigureError::NotANumber
    } else {
        FigureError::UnknownUnit(rest.to_owned())
    }
}

/// A number written to `figures` significant figures, without a power of ten:
/// `significant(0.25649, 3)` is `0.256`, `significant(4400.0, 2)` is `4400`.
#[must_use]
pub fn significant(value: f64, figures: u32) -> String {
    let figures = i32::try_from(figures.clamp(1, 17)).unwrap_or(17);
    if value == 0.0 || !value.is_finite() {
        return if value.is_finite() {
            "0".to_owned()
        } else {
            "–".to_owned()
        };
    }
    // Rounding may carry into the next decade (9.96 to two figures is 10), so
    // decade and digits are both read off the number as it rounds.
    let rounded = format!("{:.*e}", usize::try_from(figures - 1).unwrap_or(0), value);
    let (mantissa, exponent) = rounded.split_once('e').unwrap_or((&rounded, "0"));
    let (sign, mantissa) = match mantissa.strip_prefix('-') {
        Some(mantissa) => ("-", mantissa),
        None => ("", mantissa),
    };
    let digits = mantissa.bytes().filter(u8::is_ascii_digit).map(char::from);
    let exponent: i32 = exponent.parse().unwrap_or(0);
    let noughts = |count: i32| "0".repeat(usize::try_from(count).unwrap_or(0));
    let mut text = String::with_capacity(24);
    text.push_str(sign);
    if exponent < 0 {
        text.push_str("0.");
        text.push_str(&noughts(-exponent - 1));
        text.extend(digits);
        return text;
    }
    for (at, digit) in (0..).zip(digits) {
        if at == exponent + 1 {
            text.push('.');
        }
        text.push(digit);
    }
    text.push_str(&noughts(exponent + 1 - figures));
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figure(text: &str) -> Figure {
        Figure::parse(text).expect(text).expect(text)
    }

    #[test]
    fn figures_are_read_as_physicists_read_them() {
        for (text, value, low, high, least, most) in [
            ("0.56", 0.56, 0.555, 0.565, 2, 2),
            (".56", 0.56, 0.555, 0.565, 2, 2),
            ("5,6", 5.6, 5.55, 5.65, 2, 2),
            ("1.2e-2", 0.012, 0.0115, 0.0125, 2, 2),
            ("1.2 × 10^-2", 0.012, 0.0115, 0.0125, 2, 2),
            ("1.2x10⁻²", 0.012, 0.0115, 0.0125, 2, 2),
            ("  5.60  ", 5.6, 5.595, 5.605, 3, 3),
            ("0.560", 0.56, 0.5595, 0.5605, 3, 3),
            ("50", 50.0, 45.0, 55.0, 1, 2),
            ("50.", 50.0, 49.5, 50.5, 2, 2),
            ("170", 170.0, 165.0, 175.0, 2, 3),
            ("170e1", 1700.0, 1650.0, 1750.0, 2, 3),
            ("0", 0.0, -0.5, 0.5, 1, 1),
            ("−3", -3.0, -3.5, -2.5, 1, 1),
        ] {
            let f = figure(text);
            let i = f.interval();
            let close = |a: f64, b: f64| (a - b).abs() < 1e-12 * b.abs().max(1.0);
            assert!(close(f.value(), value), "{text}: {}", f.value());
            assert!(close(i.low, low) && close(i.high, high), "{text}: {i:?}");
            assert_eq!((f.least_figures(), f.figures()), (least, most), "{text}");
        }
    }

    #[test]
    fn one_with_noughts_to_one_figure_is_never_rounded_up_from_far_below() {
        for (text, low, high) in [
            ("100", 95.0, 150.0),
            ("10", 9.5, 15.0),
            ("-10", -15.0, -9.5),
            ("200", 150.0, 250.0),
            ("110", 105.0, 115.0),
            ("1", 0.5, 1.5),
        ] {
            let i = figure(text).interval();
            assert!(
                (i.low - low).abs() < 1e-9 && (i.high - high).abs() < 1e-9,
                "{text}: {i:?}"
            );
        }
    }

    #[test]
    fn noughts_may_be_figures() {
        for (text, place, low, high, least) in [
            ("100", 1, 95.0, 105.0, 2),
            ("100", 0, 99.5, 100.5, 3),
            ("100", -3, 99.5, 100.5, 3),
            ("100", 5, 95.0, 150.0, 1),
            ("10.0", 1, 9.95, 10.05, 3),
        ] {
            let mut f = figure(text);
            f.noughts_count_to(place);
            let i = f.interval();
            assert!(
                (i.low - low).abs() < 1e-9 && (i.high - high).abs() < 1e-9,
                "{text}: {i:?}"
            );
            assert_eq!(f.least_figures(), least, "{text} to {place}");
        }
        assert_eq!(figure("5020").place_of(2), 2, "50 hundreds");
        assert_eq!(figure("22.4").place_of(2), 0, "22 units");
    }

    #[test]
    fn a_unit_after_the_number_is_kept() {
        assert_eq!(figure("5.60 cm").unit(), Some(Unit::Centimetre), "cm");
        assert_eq!(figure("0.26m/s").unit(), Some(Unit::MetrePerSecond), "m/s");
        assert_eq!(figure("45 1/m").unit(), Some(Unit::PerMetre), "1/m");
    }

    #[test]
    fn what_is_no_figure_gets_a_reason() {
        use FigureError as E;
        let digits = "1".repeat(400);
        for (text, error) in [
            ("abc", E::NotANumber),
            ("5.6.0", E::TwoPoints),
            ("5,6.0", E::TwoPoints),
            ("-", E::NoDigits),
            ("inf", E::NotANumber),
            ("NaN", E::NotANumber),
            ("1e999", E::OutOfRange),
            ("1e-99", E::OutOfRange),
            ("1e", E::NotANumber),
            (digits.as_str(), E::TooLong),
            ("5 3", E::NotANumber),
            ("2O.4 or so", E::NotANumber),
            ("2o", E::NotANumber),
            ("2½", E::NotANumber),
            ("5 furlong", E::UnknownUnit("furlong".to_owned())),
        ] {
            assert_eq!(Figure::parse(text), Err(error), "{text}");
        }
        assert_eq!(Figure::parse("  \u{a0} "), Ok(None), "blank");
    }

    #[test]
    fn numbers_are_written_to_so_many_figures() {
        for (value, figures, text) in [
            (0.256_49, 3, "0.256"),
            (9.96, 2, "10"),
            (0.099_96, 3, "0.100"),
            (4404.0, 2, "4400"),
            (45.454, 4, "45.45"),
            (-2.5, 3, "-2.50"),
            (0.0, 3, "0"),
        ] {
            assert_eq!(significant(value, figures), text, "{value} to {figures}");
        }
    }

    /// Rust's own formatting with so many decimals is the second opinion.
    #[test]
    fn numbers_are_written_as_rust_rounds_them() {
        for step in 1..2000_i32 {
            let value = f64::from(step).powi(3) * 1e-6 - 0.5;
            for figures in 1..8_u32 {
                let text = significant(value, figures);
                let decimals = text.split_once('.').map_or(0, |(_, tail)| tail.len());
                if decimals > 0 {
                    assert_eq!(text, format!("{value:.decimals$}"), "to {figures}");
                }
                let read: f64 = text.parse().expect("a number");
                let tolerance =
                    0.5001 * 10_f64.powf(value.abs().log10().floor() + 1.0 - f64::from(figures));
                assert!(
                    (read - value).abs() <= tolerance,
                    "{value} to {figures}: {text}"
                );
            }
        }
    }
}
