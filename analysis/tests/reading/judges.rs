//! The judges of readings that are set beside each other.

use analysis::reading::{Placed, infer};
use rayon::prelude::*;
use simulator::school::School;

use super::classes::SimClass;
use super::optimal::classify;
use super::score::{Score, Told, told};

/// Who judges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Judge {
    /// The engine, one sheet at a time.
    Alone,
    /// The engine, one kit at a time a sheet: it knows how the class scatters,
    /// as the optimal classifier does, and nothing else of the others.
    ScatterOnly,
    /// The engine, with the class and its kits.
    WithClass,
    /// The optimal classifier, one sheet at a time.
    Optimal,
}

impl Judge {
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Alone => "engine alone",
            Self::ScatterOnly => "engine, scatter",
            Self::WithClass => "engine, class",
            Self::Optimal => "optimal alone",
        }
    }

    /// What it says of each sheet of a class.
    pub(crate) fn judge(self, school: &School, class: &SimClass) -> Vec<Vec<Told>> {
        let placed = class.placed();
        match self {
            Self::Alone => {
                let alone = |sheet: &Placed<'_>| infer(std::slice::from_ref(sheet));
                placed.iter().flat_map(alone).map(|i| told(&i)).collect()
            }
            Self::ScatterOnly => {
                let apart: Vec<_> = placed.iter().map(|p| Placed { kit: "", ..*p }).collect();
                infer(&apart).iter().map(told).collect()
            }
            Self::WithClass => infer(&placed).iter().map(told).collect(),
            Self::Optimal => class
                .sheets
                .par_iter()
                .map(|sheet| classify(school, class.noise, &sheet.sheet))
                .collect(),
        }
    }

    /// What it says of each sheet of each class, on all cores.
    pub(crate) fn judge_all(self, school: &School, classes: &[SimClass]) -> Vec<Vec<Vec<Told>>> {
        let judged = classes.par_iter().map(|class| self.judge(school, class));
        judged.collect()
    }
}

/// The score of what was said, at a threshold.
pub(crate) fn score(classes: &[SimClass], said: &[Vec<Vec<Told>>], threshold: f64) -> Score {
    let mut score = Score::new(threshold);
    for (class, told) in classes.iter().zip(said) {
        score.add_class(class, told);
    }
    score
}
