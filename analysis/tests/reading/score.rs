//! What was told against what happened: right, false and missed, for each
//! cause; how far probabilities mean what they say; clean groups accused.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use analysis::assess::assess;
use analysis::reading::{Cause, Finding, Inference};
use analysis::slip::Kind;
use analysis::working::Flag;

use super::classes::{Event, SimClass, SimSheet};

/// What something that judges readings says of a sheet.
#[derive(Clone, Debug)]
pub(crate) struct Told {
    pub(crate) event: Event,
    pub(crate) probability: f64,
    /// The other of the two, where it is *one of these two*.
    pub(crate) tied_with: Option<Event>,
}

impl Told {
    /// Whether it, or the rival that it is tied with, happened.
    pub(crate) fn is_right(&self, truth: &[Event]) -> bool {
        truth.contains(&self.event) || self.tied_with.is_some_and(|event| truth.contains(&event))
    }

    /// Whether it names this event, as itself or as the other of a tie.
    pub(crate) fn names(&self, event: &Event) -> bool {
        self.event == *event || self.tied_with == Some(*event)
    }
}

impl From<&Finding> for Told {
    fn from(finding: &Finding) -> Self {
        let rival = finding.rival.filter(|_| finding.is_tie);
        Self {
            event: (finding.cause, finding.row),
            probability: finding.probability,
            tied_with: rival.map(|rival| (rival.cause, rival.row)),
        }
    }
}

/// The findings of an inference, as told.
pub(crate) fn told(inference: &Inference) -> Vec<Told> {
    inference.findings.iter().map(Told::from).collect()
}

/// Right, false and missed.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Counts {
    pub(crate) right: u32,
    pub(crate) wrong: u32,
    pub(crate) missed: u32,
}

impl Counts {
    /// The share of what was told that is right; 1 where nothing was told.
    pub(crate) fn precision(self) -> f64 {
        share(self.right, self.right + self.wrong)
    }

    /// The share of what happened that was told; 1 where nothing happened.
    pub(crate) fn recall(self) -> f64 {
        share(self.right, self.right + self.missed)
    }

    fn add(&mut self, other: Self) {
        self.right += other.right;
        self.wrong += other.wrong;
        self.missed += other.missed;
    }
}

fn share(part: u32, whole: u32) -> f64 {
    if whole == 0 {
        1.0
    } else {
        f64::from(part) / f64::from(whole)
    }
}

/// One bin of the reliability table.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Bin {
    told: u32,
    right: u32,
    probability: f64,
}

/// The score of one judge over many sheets.
#[derive(Clone, Debug)]
pub(crate) struct Score {
    threshold: f64,
    /// By cause: slips for each sheet, faults of the apparatus for each kit.
    causes: BTreeMap<Cause, Counts>,
    /// Of slips, at tenths of probability.
    bins: [Bin; 10],
    pub(crate) clean: u32,
    pub(crate) accused: u32,
}

impl Score {
    /// Nothing judged yet; findings below the threshold count as not told.
    pub(crate) fn new(threshold: f64) -> Self {
        Self {
            threshold,
            causes: BTreeMap::new(),
            bins: [Bin::default(); 10],
            clean: 0,
            accused: 0,
        }
    }

    /// Counts the sheets of a class; `told` has one list for each sheet.
    pub(crate) fn add_class(&mut self, class: &SimClass, told: &[Vec<Told>]) {
        for (sheet, told) in class.sheets.iter().zip(told) {
            self.add_slips(sheet, told);
        }
        self.add_faults(class, told);
    }

    fn add_slips(&mut self, sheet: &SimSheet, told: &[Told]) {
        let truth = slips(&sheet.truth);
        let told: Vec<_> = told.iter().filter(|t| is_slip(&t.event)).collect();
        for told in &told {
            self.add_to_bins(told, &truth);
        }
        let loud: Vec<_> = told
            .into_iter()
            .filter(|told| told.probability >= self.threshold)
            .collect();
        if truth.is_empty() {
            self.clean += 1;
            self.accused += u32::from(!loud.is_empty());
        }
        for told in loud.iter().filter(|told| !told.is_right(&truth)) {
            self.causes.entry(told.event.0).or_default().wrong += 1;
        }
        for event in &truth {
            let counts = self.causes.entry(event.0).or_default();
            if loud.iter().any(|told| told.names(event)) {
                counts.right += 1;
            } else {
                counts.missed += 1;
            }
        }
    }

    fn add_to_bins(&mut self, told: &Told, truth: &[Event]) {
        let upper = (1..10).filter(|tenth| told.probability >= f64::from(*tenth) / 10.0);
        let bin = &mut self.bins[upper.count()];
        bin.told += 1;
        bin.right += u32::from(told.is_right(truth));
        bin.probability += told.probability;
    }

    /// A fault is a kit's: told on any of its sheets, it is told.
    fn add_faults(&mut self, class: &SimClass, told: &[Vec<Told>]) {
        let faults_of =
            |events: &mut dyn Iterator<Item = (&str, Cause)>| -> BTreeSet<(String, Cause)> {
                events
                    .filter(|(_, cause)| cause.kind() == Kind::Apparatus)
                    .map(|(kit, cause)| (kit.to_owned(), cause))
                    .collect()
            };
        let true_faults = faults_of(&mut class.sheets.iter().flat_map(|sheet| {
            let events = sheet.truth.iter();
            events.map(move |(cause, _)| (sheet.kit.as_str(), *cause))
        }));
        let told_faults = faults_of(&mut class.sheets.iter().zip(told).flat_map(
            |(sheet, told)| {
                let loud = told.iter().filter(|t| t.probability >= self.threshold);
                loud.map(move |t| (sheet.kit.as_str(), t.event.0))
            },
        ));
        for (kit, cause) in true_faults.union(&told_faults) {
            let key = (kit.clone(), *cause);
            let counts = self.causes.entry(*cause).or_default();
            match (true_faults.contains(&key), told_faults.contains(&key)) {
                (true, true) => counts.right += 1,
                (false, _) => counts.wrong += 1,
                (true, false) => counts.missed += 1,
            }
        }
    }

    /// Counts over all causes of a kind.
    pub(crate) fn total(&self, kind: Kind) -> Counts {
        let mut total = Counts::default();
        for (cause, counts) in &self.causes {
            if cause.kind() == kind {
                total.add(*counts);
            }
        }
        total
    }

    /// Counts of one cause.
    pub(crate) fn of(&self, cause: Cause) -> Counts {
        self.causes.get(&cause).copied().unwrap_or_default()
    }

    /// The share of clean groups that are told of a slip.
    pub(crate) fn accused_share(&self) -> f64 {
        if self.clean == 0 {
            0.0
        } else {
            share(self.accused, self.clean)
        }
    }

    /// The expected calibration error of slips told, all of them from the
    /// least probable.
    pub(crate) fn calibration_error(&self) -> f64 {
        let told: u32 = self.bins.iter().map(|bin| bin.told).sum();
        let gaps: f64 = self
            .bins
            .iter()
            .map(|bin| (bin.probability - f64::from(bin.right)).abs())
            .sum();
        if told == 0 {
            0.0
        } else {
            gaps / f64::from(told)
        }
    }

    /// The reliability table: what was said, and how often it was so.
    pub(crate) fn reliability(&self) -> String {
        let mut table = String::from("  probability    told   said     was so\n");
        for (tenth, bin) in (0_u32..).zip(&self.bins) {
            if bin.told > 0 {
                let told = f64::from(bin.told);
                let low = f64::from(tenth) / 10.0;
                let _ = writeln!(
                    table,
                    "  {low:.1} to {:.1}  {:6}   {:.3}    {:.3}",
                    low + 0.1,
                    bin.told,
                    bin.probability / told,
                    f64::from(bin.right) / told,
                );
            }
        }
        table
    }
}

fn is_slip(event: &Event) -> bool {
    event.0.kind() == Kind::Slip
}

/// The slips among what happened.
pub(crate) fn slips(truth: &[Event]) -> Vec<Event> {
    truth
        .iter()
        .filter(|event| is_slip(event))
        .copied()
        .collect()
}

/// How the judge of the working does on a sheet's wrong turn: a flag whose
/// rival was taken counts as right.
pub(crate) fn shown(sheet: &SimSheet) -> Counts {
    let flags = assess(&sheet.sheet).flags;
    let slips = flags.iter().filter(|flag| flag.slip.kind() == Kind::Slip);
    let is_right = |flag: &Flag| {
        sheet.wrong_turn.is_some_and(|slip| {
            (flag.slip == slip || flag.rival == Some(slip)) && flag.row.is_none()
        })
    };
    let (right, wrong): (Vec<_>, Vec<_>) = slips.partition(|flag| is_right(flag));
    Counts {
        right: u32::from(!right.is_empty()),
        wrong: u32::try_from(wrong.len()).expect("a few flags"),
        missed: u32::from(right.is_empty() && sheet.wrong_turn.is_some()),
    }
}

/// The same over all sheets.
pub(crate) fn shown_in_all(classes: &[SimClass]) -> Counts {
    let mut counts = Counts::default();
    for sheet in classes.iter().flat_map(|class| &class.sheets) {
        counts.add(shown(sheet));
    }
    counts
}
