//! The numbers along an axis that need not begin at 0: from one to another in
//! steps of 1, 2 or 5 of some power of ten.

use crate::chart::scale::Tick;

/// An axis from a multiple of its step to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The value at its start.
    pub low: f64,
    /// The value at its end.
    pub high: f64,
    step: f64,
    decimals: usize,
}

impl Span {
    /// The axis with the smallest step that reaches from `low` to `high` in at
    /// most `most` steps. `None` where either is not finite, or beyond
    /// anything that pages of a year show.
    #[must_use]
    pub fn around(low: f64, high: f64, most: u32) -> Option<Self> {
        // Before `min` and `max`, which pass a NaN over.
        if !(low.abs() < 1e6 && high.abs() < 1e6) {
            return None;
        }
        let (low, high) = (low.min(high), low.max(high));
        for power in -4_i32..=6 {
            for mantissa in [1.0, 2.0, 5.0] {
                let step = mantissa * 10_f64.powi(power);
                let (first, last) = ((low / step).floor(), (high / step).ceil());
                if last - first <= f64::from(most) && last > first {
                    return Some(Self {
                        low: first * step,
                        high: last * step,
                        step,
                        decimals: usize::try_from(-power).unwrap_or(0),
                    });
                }
            }
        }
        None
    }

    /// Where a value is, as a share of the axis; one beyond it, at its end.
    #[must_use]
    pub fn share(&self, value: f64) -> f64 {
        ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }

    /// Whether a value is on the axis.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// The numbered lines, both ends among them.
    #[must_use]
    pub fn ticks(&self) -> Vec<Tick> {
        let steps = ((self.high - self.low) / self.step).round();
        let mut ticks = Vec::new();
        let mut at = 0.0;
        while at <= steps {
            let value = self.low + at * self.step;
            // No minus before a nought that is one only by rounding.
            let value = if value.abs() < 1e-9 { 0.0 } else { value };
            let text = format!("{value:.*}", self.decimals);
            ticks.push(Tick {
                share: at / steps,
                text: text.replace('-', "−"),
            });
            at += 1.0;
        }
        ticks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(low: f64, high: f64, most: u32) -> Vec<String> {
        let span = Span::around(low, high, most).unwrap();
        span.ticks().into_iter().map(|tick| tick.text).collect()
    }

    #[test]
    fn axis_reaches_both_values_in_easy_steps() {
        assert_eq!(
            texts(0.93, 1.07, 8),
            [
                "0.92", "0.94", "0.96", "0.98", "1.00", "1.02", "1.04", "1.06", "1.08"
            ]
        );
        assert_eq!(texts(-7.0, 12.0, 6), ["−10", "−5", "0", "5", "10", "15"]);
        assert_eq!(texts(0.0, 100.0, 5), ["0", "20", "40", "60", "80", "100"]);
    }

    #[test]
    fn nothing_can_be_drawn_of_what_is_no_number() {
        assert_eq!(Span::around(f64::NAN, 1.0, 5), None);
        assert_eq!(Span::around(0.0, f64::INFINITY, 5), None);
        assert_eq!(Span::around(f64::NEG_INFINITY, f64::NAN, 5), None);
    }

    #[test]
    fn axis_about_one_value_has_room_for_it() {
        for value in [1.0, -0.03, 0.0] {
            let span = Span::around(value, value, 5);
            assert!(span.is_none_or(|span| span.holds(value)), "{value}");
        }
        assert_eq!(texts(1.0, 1.0, 5), ["0", "2"]);
    }

    #[test]
    fn value_beyond_the_axis_is_at_its_end() {
        let span = Span::around(0.0, 10.0, 5).unwrap();
        assert!((span.share(25.0) - 1.0).abs() < 1e-12);
        assert!(!span.holds(25.0) && span.holds(10.0));
    }
}
