//! Slips of single rows of a ripple tank's sheet.

use analysis::reading::Cause;
use simulator::slip::SWAPS_IN_SPAN;

use super::rows::{Alternative, Rows};
use super::tank::{Band, Bench, Config, band};
use super::water::{Fault, Node};
use super::{Evidence, row_share};

impl Bench<'_> {
    /// Adds what one slip or two in rows would explain, with a slip of every row
    /// or none.
    pub(super) fn add_single(
        &self,
        evidence: &mut Evidence,
        fault: &Fault,
        config: &Config,
        node: &Node,
        bands: &[Band],
        levels: &[(f64, f64)],
    ) {
        let most = self.rows.iter().map(|row| row.times).fold(1.0, f64::max);
        let swapped: Vec<Vec<Band>> = self
            .rows
            .iter()
            .map(|row| {
                let reach = |f: f64| row.reach * row.frequency / f;
                let others = row.frequencies.iter();
                others
                    .map(|(f, _)| band(node, *f, reach(*f).min(0.9)))
                    .collect()
            })
            .collect();
        let missing: Vec<Option<Band>> = self
            .rows
            .iter()
            .map(|row| (row.times < most).then(|| band(node, row.frequency * most, row.reach)))
            .collect();
        for (level, chance) in levels {
            let likelihood = |at: usize, band: &Band| {
                let (seen, sd) = config.seen[at];
                self.row(band, seen - level, sd)
            };
            let fine: Vec<f64> = (0..self.rows.len())
                .map(|at| {
                    if missing[at].is_some() {
                        0.0
                    } else {
                        likelihood(at, &bands[at])
                    }
                })
                .collect();
            if fine.iter().filter(|l| **l < 1e-9).count() > 2 {
                continue;
            }
            let others: Vec<_> = (0..self.rows.len())
                .map(|at| match &missing[at] {
                    Some(band) => vec![self.alternative(
                        Cause::DialMultiplierLeftOut,
                        1.0,
                        likelihood(at, band),
                    )],
                    None => {
                        self.alternatives(at, config.seen[at], &bands[at], &swapped[at], *level)
                    }
                })
                .collect();
            let weight = node.weight * config.weight * chance;
            let rows = Rows {
                rates: &self.school.tank,
                fine: &fine,
                alternatives: &others,
                faults: &fault.event,
            };
            rows.add(evidence, weight);
        }
    }

    fn alternatives(
        &self,
        at: usize,
        (seen, sd): (f64, f64),
        band: &Band,
        swapped: &[Band],
        level: f64,
    ) -> Vec<Alternative> {
        let row = &self.rows[at];
        let x = seen - level;
        let mut all = Vec::new();
        for waves in [row.waves - 1.0, row.waves + 1.0] {
            if waves > 0.5 {
                let likelihood = self.row(band, x + (row.waves / waves).ln(), sd);
                all.push(self.alternative(Cause::CrestMiscount, 0.5, likelihood));
            }
        }
        let swap = Cause::DigitsSwapped;
        for ((_, chance), band) in row.frequencies.iter().zip(swapped) {
            let chance = chance * (1.0 - SWAPS_IN_SPAN);
            all.push(self.alternative(swap, chance, self.row(band, x, sd)));
        }
        for (span, chance) in &row.spans {
            // A density per mm, where the rows' are per logarithm.
            let ratio = row.span / span;
            let likelihood = ratio * self.row(band, x - ratio.ln(), sd * ratio);
            all.push(self.alternative(swap, chance * SWAPS_IN_SPAN, likelihood));
        }
        all
    }

    fn alternative(&self, cause: Cause, chance: f64, likelihood: f64) -> Alternative {
        let rates = &self.school.tank;
        Alternative {
            cause,
            weight: chance * row_share(rates, cause) / rates.single(),
            likelihood,
        }
    }
}
