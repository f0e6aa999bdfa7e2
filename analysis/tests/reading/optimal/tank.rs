//! One sheet of a ripple tank: the integral over surface tension, depth, the
//! level that enlargement and dial leave open, and a ruler's zero error, on
//! grids.

use analysis::field::Field;
use analysis::reading::Cause;
use analysis::sheet::{Row, Sheet};
use simulator::school::{self, School};

use super::super::classes::Event;
use super::density::{cumulative, midpoints, normal};
use super::water::{Fault, Node};
use super::{Evidence, unswapped, whole_share};

/// The variance of rounding to whole mm, mm².
pub(super) const ROUNDING: f64 = 1.0 / 12.0;

/// How ln λ falls with ln f, about: for the part of a dial's error that all
/// rows share.
const USUAL_SLOPE: f64 = 1.0;

/// A row as read.
pub(super) struct Reading {
    /// Frequency as written, Hz.
    pub(super) frequency: f64,
    /// The largest error of the dial, a share.
    pub(super) reach: f64,
    pub(super) times: f64,
    first: f64,
    pub(super) waves: f64,
    /// In mm.
    pub(super) span: f64,
    /// Other frequencies it may be, with their chance: digits swapped.
    pub(super) frequencies: Vec<(f64, f64)>,
    /// Other spans (mm) likewise.
    pub(super) spans: Vec<(f64, f64)>,
}

fn reading(row: &Row, noise: f64) -> Reading {
    let entry = |field| row.entries.get(field);
    let count = |field| row.entries.si(field).expect("every row is counted");
    let dial = entry(Field::Dial).expect("every row has a dial");
    let span = entry(Field::Span).expect("every row has a span");
    let times = row.entries.si(Field::DialTimes).unwrap_or(1.0);
    let in_mm = 1000.0 * span.si() / span.figure.value();
    let scaled =
        |all: Vec<(f64, f64)>, by: f64| all.into_iter().map(|(x, w)| (x * by, w)).collect();
    Reading {
        frequency: dial.figure.value() * times,
        reach: (noise * dial.figure.resolution() / 2.0 / dial.figure.value()).min(0.9),
        times,
        first: count(Field::FirstCrest),
        waves: count(Field::LastCrest) - count(Field::FirstCrest),
        span: 1000.0 * span.si(),
        frequencies: scaled(unswapped(dial.figure.text()), times),
        spans: scaled(unswapped(span.figure.text()), in_mm),
    }
}

/// What is known of one sheet.
pub(super) struct Bench<'s> {
    pub(super) school: &'s School,
    pub(super) noise: f64,
    pub(super) rows: Vec<Reading>,
    /// In mm.
    image: f64,
    length: f64,
    /// In mm, where it was written down.
    pub(super) depth: Option<f64>,
}

/// A slip in every row, or none.
pub(super) struct Config {
    event: Vec<Event>,
    pub(super) weight: f64,
    /// Index into [`RATES`].
    rate: usize,
    upside_down: bool,
    /// ln λ (mm on the water) by each row, and its standard deviation.
    pub(super) seen: Vec<(f64, f64)>,
}

/// True ÷ written frequency.
const RATES: [f64; 3] = [1.0, 2.0, 10.0];

/// Where a row's ln λ (mm) lies as its dial errs.
#[derive(Clone, Copy)]
pub(super) struct Band {
    low: f64,
    high: f64,
    centre: f64,
    slope: f64,
}

pub(super) fn evidence(school: &School, noise: f64, sheet: &Sheet) -> Evidence {
    let mm = |field| sheet.whole.si(field).map(|metres| 1000.0 * metres);
    let bench = Bench {
        school,
        noise,
        rows: sheet.rows.iter().map(|row| reading(row, noise)).collect(),
        image: mm(Field::ScaleImage).expect("every sheet has a scale"),
        length: mm(Field::ScaleTrue).expect("every sheet has a scale"),
        depth: mm(Field::Depth),
    };
    let configs = bench.configs();
    let mut evidence = Evidence::default();
    for fault in bench.faults() {
        bench.add(&mut evidence, &fault, &configs);
    }
    evidence
}

impl Bench<'_> {
    /// Slips in every row; the first is none.
    fn configs(&self) -> Vec<Config> {
        let rates = &self.school.tank;
        let plain = self.rows.iter().all(|row| row.times < 2.0);
        let ten = self.school.times_ten;
        let as_written = if plain { 1.0 - ten } else { ten };
        let config = |cause: Option<Cause>, weight: f64, rate, seen| Config {
            event: cause.map(|cause| (cause, None)).into_iter().collect(),
            weight: weight * cause.map_or(1.0, |cause| whole_share(rates, cause)),
            rate,
            upside_down: cause == Some(Cause::ScaleUpsideDown),
            seen,
        };
        let plainly = |waves: &dyn Fn(f64) -> f64| self.seen(waves, self.length / self.image, 0.0);
        let same: &dyn Fn(f64) -> f64 = &|n| n;
        let mut all = vec![
            config(None, as_written, 0, plainly(same)),
            config(Some(Cause::StrobeAtHalf), as_written, 1, plainly(same)),
            config(
                Some(Cause::ScaleUpsideDown),
                as_written,
                0,
                self.seen(same, self.image / self.length, 0.0),
            ),
        ];
        if self.rows.iter().all(|row| row.first < 0.5) {
            // Whoever slips so calls nought; of the others, most do.
            let weight = as_written / school::CALLS_NOUGHT;
            let seen = plainly(&|n| n - 1.0);
            all.push(config(Some(Cause::CountedFromOne), weight, 0, seen));
        }
        if self.rows.iter().all(|row| row.waves % 2.0 < 0.5) {
            let seen = plainly(&|n| n / 2.0);
            all.push(config(Some(Cause::CrestToTrough), as_written, 0, seen));
        }
        if plain {
            let cause = Some(Cause::DialMultiplierLeftOut);
            all.push(config(cause, ten, 2, plainly(same)));
        }
        let (small, large) = school::ZERO_ERROR;
        for size in midpoints(small, large, 8).0 {
            for zero in [size, -size] {
                let seen = self.seen(same, self.length / self.image, zero);
                // Densities are per logarithm of the span without the error.
                let stretch = self.rows.iter().map(|r| r.span / (r.span - zero).max(1.0));
                let weight = as_written / 16.0 * stretch.product::<f64>();
                all.push(config(Some(Cause::ZeroError), weight, 0, seen));
            }
        }
        all
    }

    fn span_variance(&self) -> f64 {
        (self.noise * self.school.hand.span).powi(2) + ROUNDING
    }

    /// ln λ on the water by each row, and its standard deviation.
    fn seen(&self, waves: &dyn Fn(f64) -> f64, scale: f64, zero: f64) -> Vec<(f64, f64)> {
        self.rows
            .iter()
            .map(|row| {
                let span = (row.span - zero).max(1.0);
                let wavelength = span / waves(row.waves) * scale;
                (wavelength.ln(), self.span_variance().sqrt() / span)
            })
            .collect()
    }

    /// Standard deviation of the level: the scale's two lengths, and what all
    /// rows share of the dial's error.
    fn level_sd(&self, upside_down: bool) -> f64 {
        let (image, length) = if upside_down {
            (self.length, self.image)
        } else {
            (self.image, self.length)
        };
        let variance = |sd: f64| (self.noise * sd).powi(2) + ROUNDING;
        let scale = variance(self.school.hand.image) / image.powi(2)
            + variance(self.school.hand.object) / length.powi(2);
        let dial = USUAL_SLOPE * self.noise * self.school.dial_factor_sd;
        (scale + dial * dial).sqrt()
    }

    /// Levels with their probability.
    fn levels(&self, fault: &Fault, upside_down: bool) -> Vec<(f64, f64)> {
        let sd = self.level_sd(upside_down);
        let widths = self
            .rows
            .iter()
            .map(|row| self.span_variance().sqrt() / row.span + 0.7 * row.reach);
        let narrowest = widths.fold(sd, f64::min);
        let furthest = fault.shifts.iter().map(|s| s.0.abs()).fold(0.0, f64::max);
        let reach = furthest + 4.0 * sd;
        let step = 0.9 * narrowest;
        let mut levels = Vec::new();
        let mut at = -reach;
        while at <= reach {
            let density = |(shift, chance): &(f64, f64)| chance * normal(at - shift, sd);
            let chance = step * fault.shifts.iter().map(density).sum::<f64>();
            levels.push((at, chance));
            at += step;
        }
        levels
    }

    fn add(&self, evidence: &mut Evidence, fault: &Fault, configs: &[Config]) {
        let levels = [self.levels(fault, false), self.levels(fault, true)];
        for node in &fault.nodes {
            let bands = self.bands(node, configs);
            for config in &configs[1..] {
                let levels = &levels[usize::from(config.upside_down)];
                let sum = self.whole(config, &bands[config.rate], levels);
                if sum > 0.0 {
                    let mut events = config.event.clone();
                    events.extend(&fault.event);
                    evidence.add(node.weight * config.weight * sum, &events);
                }
            }
            self.add_single(evidence, fault, &configs[0], node, &bands[0], &levels[0]);
        }
    }

    fn bands(&self, node: &Node, configs: &[Config]) -> Vec<Vec<Band>> {
        let bands = |(at, rate): (usize, &f64)| {
            let wanted = configs.iter().any(|config| config.rate == at);
            let rows = self.rows.iter().filter(|_| wanted);
            rows.map(|row| band(node, row.frequency * rate, row.reach))
                .collect()
        };
        RATES.iter().enumerate().map(bands).collect()
    }

    /// The likelihood of all rows under a slip in every one, the level
    /// integrated out.
    fn whole(&self, config: &Config, bands: &[Band], levels: &[(f64, f64)]) -> f64 {
        let mut low = f64::NEG_INFINITY;
        let mut high = f64::INFINITY;
        for (band, (seen, sd)) in bands.iter().zip(&config.seen) {
            let sd = self.row_sd(band, *sd);
            low = low.max(seen - band.high - 5.0 * sd);
            high = high.min(seen - band.low + 5.0 * sd);
        }
        if low > high {
            return 0.0;
        }
        let near = levels
            .iter()
            .filter(|(level, _)| (low..=high).contains(level));
        near.map(|(level, chance)| {
            let rows = bands.iter().zip(&config.seen);
            chance
                * rows
                    .map(|(band, (seen, sd))| self.row(band, seen - level, *sd))
                    .product::<f64>()
        })
        .sum()
    }

    /// A row's standard deviation, with what it does not share of the dial's
    /// error.
    fn row_sd(&self, band: &Band, sd: f64) -> f64 {
        let own = (band.slope - USUAL_SLOPE) * self.noise * self.school.dial_factor_sd;
        (sd * sd + own * own).sqrt()
    }

    /// Density of a row's ln λ. The frequency is uniform over its reach, so
    /// that ln λ leans to the side where f changes fast with it.
    pub(super) fn row(&self, band: &Band, seen: f64, sd: f64) -> f64 {
        let sd = self.row_sd(band, sd);
        let width = band.high - band.low;
        let lean = |y: f64| (-(y - band.centre) / band.slope).exp();
        let norm = band.slope * (lean(band.low) - lean(band.high));
        let within = cumulative((band.high - seen) / sd) - cumulative((band.low - seen) / sd);
        let leaning = if width < 0.02 {
            1.0
        } else {
            lean(seen.clamp(band.low, band.high))
        };
        (within * leaning / norm).max(0.0)
    }
}

pub(super) fn band(node: &Node, frequency: f64, reach: f64) -> Band {
    let f = frequency / node.dial.exp();
    let ln_wavelength = |f: f64| (1000.0 * node.water.wavelength(f)).ln();
    // A reach of nothing would leave no band to integrate over.
    let reach = reach.max(1e-4);
    let (low, high) = (
        ln_wavelength(f * (1.0 + reach)),
        ln_wavelength(f * (1.0 - reach)),
    );
    Band {
        low,
        high,
        centre: ln_wavelength(f),
        slope: (high - low) / ((1.0 + reach) / (1.0 - reach)).ln(),
    }
}
