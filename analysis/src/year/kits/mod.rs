//! Whether a kit reads high or low, and what that looks like.
//!
//! A sheet's value is ln(speed/expected). Sheets whose readings hold a slip
//! that a person confirmed are taken out; gross ones that nobody has looked
//! at are borne by the robust mean (ISO 13528, Algorithm A), which gives no
//! single value more pull than one and a half standard deviations.
//!
//! A tank is compared with the other tanks, since a used tank's water runs
//! some per cent slower than the clean water that is expected; a string or a
//! generator likewise, as long as there are others ([`level`]).
//!
//! # What the data allow
//! A sheet names one kit, seldom two. A generator is judged by the sheets that
//! name it, and only those; where a sheet names its string alone, nobody can
//! tell which generator drove it, and a dial that is out looks like a string
//! that is not the one recorded.
//!
//! A generator that always stands beside the same string says no more: only
//! one that is off the same way on two kits beside it is told from them
//! ([`KitYear::is_dial`]), and only then its sheets say nothing of a string.
//!
//! # Why dates make no verdict
//! A kit is judged by all its sheets of the year, about a robust mean, and
//! shown in date order so that people see a step; where it bends over frequency
//! it must do so without any one of its lessons. A sheet names one kit, or two
//! (*String 2, Generator 3*), and both are then judged; sheets of a dial that
//! is out are left aside for the strings beside it. What cannot be told apart
//! is named together.

pub mod fingerprint;
pub mod level;
mod standing;

use serde::{Deserialize, Serialize};

use super::share::Share;
use super::{Estimated, Year, YearSheet};
use crate::cause::Cause;
use crate::interval::Interval;
use crate::stats::spread;

pub use crate::kit::Kind;
pub use fingerprint::{Fault, Fingerprint};
pub use level::{Level, Reference};
pub use standing::LessonLevel;

/// Lessons from which on a kit is judged. Our choice: two lessons of one
/// class may share a teacher's way of setting the lamp.
pub const FEWEST_LESSONS: usize = 3;
/// Sheets from which on a kit is judged. Our choice.
pub const FEWEST_SHEETS: usize = 5;

/// Kits beside a generator on which it must be off the same way before its
/// dial is blamed, and not what it drives.
pub const FEWEST_BESIDE: usize = 2;

/// How a kit stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Too few lessons or sheets to say.
    TooFew,
    /// Within two standard errors of what it is compared with, or by less
    /// than 2 % off.
    Agrees,
    /// Two to three standard errors off.
    May,
    /// More than three standard errors off.
    Reads,
    /// Hardly off on the whole, but off at one end of its frequencies.
    Bends,
}

/// Why a sheet does not count for its kit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aside {
    /// It counts.
    No,
    /// A slip in its readings was confirmed.
    Slipped,
    /// It names a generator whose dial is out.
    OnDial,
}

/// One kit over a year.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KitYear {
    /// What it is.
    pub kind: Kind,
    /// Sheets that count for it.
    pub sheets: usize,
    /// Sheets taken out for a confirmed slip in their readings.
    pub slipped: usize,
    /// Sheets left aside since the dial of the generator that they name is out.
    pub on_dial: usize,
    /// Lessons that those which count come from.
    pub lessons: usize,
    /// Median of speed ÷ expected speed.
    pub median: Option<f64>,
    /// Its 95 % interval, whatever the distribution; `None` for fewer than six
    /// sheets.
    pub median_range: Option<Interval>,
    /// The robust mean of speed ÷ expected speed, with its 95 % interval.
    pub ratio: Option<Estimated>,
    /// The same against what it is compared with: 0.06 for 6 % high.
    pub off: Option<Estimated>,
    /// Standard errors between the two.
    pub sigmas: Option<f64>,
    /// How it stands.
    pub standing: Standing,
    /// Lessons whose median lies on the side to which the kit is off.
    pub same_side: Share,
    /// For a generator: strings and tanks named beside it, and those of them
    /// on which it is off to the same side, by two standard errors at least.
    pub beside: Share,
    /// Faults of the apparatus that people confirmed on its sheets, with the
    /// number of sheets.
    pub confirmed: Vec<(Cause, usize)>,
    /// What it looks like, where it is off.
    pub looks_like: Option<Fingerprint>,
}

impl KitYear {
    /// Returns whether it is said to be off.
    #[must_use]
    pub fn is_off(&self) -> bool {
        matches!(self.standing, Standing::Reads | Standing::Bends)
    }

    /// Whether it is a generator that is off whatever it drives: its dial is
    /// out, and not a string or a tank that stands beside it.
    #[must_use]
    pub fn is_dial(&self) -> bool {
        self.kind == Kind::Generator
            && self.standing == Standing::Reads
            && self.beside.made >= FEWEST_BESIDE
    }
}

/// Compares the kits, each with the others of its kind.
#[must_use]
pub fn compare(year: &Year) -> (Vec<KitYear>, Vec<Level>) {
    // Generators first: a sheet that names one whose dial is out says nothing
    // of the string beside it.
    let with_all = asides_without(year, &[]);
    let generators = level::of(year, Kind::Generator, &with_all);
    let judged = (0..year.kits.len())
        .filter(|kit| year.kits[*kit] == Kind::Generator)
        .map(|kit| (kit, standing::judge(year, kit, &generators, &with_all)));
    let off: Vec<usize> = judged
        .filter(|(_, kit)| kit.is_dial())
        .map(|(kit, _)| kit)
        .collect();
    let without = asides_without(year, &off);
    let tanks = level::of(year, Kind::Tank, &without);
    let strings = level::of(year, Kind::String, &without);
    let kits = year.kits.iter().enumerate().map(|(kit, kind)| match kind {
        Kind::Generator => standing::judge(year, kit, &generators, &with_all),
        Kind::Tank => standing::judge(year, kit, &tanks, &without),
        Kind::String => standing::judge(year, kit, &strings, &without),
    });
    (kits.collect(), vec![tanks, generators, strings])
}

/// One kit with what its verdict rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Detail {
    /// The verdict.
    pub year: KitYear,
    /// What it is compared with.
    pub level: Level,
    /// Its lessons, by date.
    pub lessons: Vec<LessonLevel>,
    /// The sheets that name it and have a value for it.
    pub sheets: Vec<KitSheet>,
}

/// A sheet of a kit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KitSheet {
    /// Its place in the year.
    pub at: usize,
    /// Speed ÷ expected speed, as the kit counts it.
    pub ratio: f64,
    /// Why it does not count for the kit.
    pub aside: Aside,
}

/// Lays one kit of those [`compare`]d open. Returns `None` where there is no
/// such kit.
#[must_use]
pub fn detail(
    year: &Year,
    (kits, levels): &(Vec<KitYear>, Vec<Level>),
    kit: usize,
) -> Option<Detail> {
    let judged = kits.get(kit)?;
    let level = levels.iter().find(|level| level.kind == judged.kind)?;
    let is_out = |kit: &KitYear| judged.kind != Kind::Generator && kit.is_dial();
    let off = kits.iter().enumerate().filter(|(_, kit)| is_out(kit));
    let asides = asides_without(year, &off.map(|(at, _)| at).collect::<Vec<_>>());
    let sheets = sheets_of(year, kit)
        .into_iter()
        .map(|(at, value)| KitSheet {
            at,
            ratio: value.exp(),
            aside: asides[at],
        });
    Some(Detail {
        year: judged.clone(),
        level: level.clone(),
        lessons: standing::lesson_levels(year, &counted(year, kit, &asides), level),
        sheets: sheets.collect(),
    })
}

/// Whether each sheet of the year counts for kits, where the dials of these
/// generators are out.
fn asides_without(year: &Year, off: &[usize]) -> Vec<Aside> {
    let aside = |sheet: &YearSheet| match sheet {
        sheet if sheet.is_slipped => Aside::Slipped,
        sheet if sheet.kits.iter().any(|kit| off.contains(kit)) => Aside::OnDial,
        _ => Aside::No,
    };
    year.sheets.iter().map(aside).collect()
}

/// What a sheet says of a kit of this kind: ln(speed/expected), for a
/// generator that drives a ripple tank less what tanks usually give.
fn value(year: &Year, sheet: &YearSheet, kind: Kind) -> Option<f64> {
    let ratio = sheet.judgement.log_ratio()?;
    let method = year.lesson(sheet).method;
    if kind != Kind::Generator {
        return (kind == method.kit()).then_some(ratio);
    }
    if !method.spec().is_dispersive {
        return Some(ratio);
    }
    let rows = sheet.judgement.rows.iter();
    let moves: Vec<_> = rows.map(|row| row.by_surface_tension).collect();
    Some(ratio - level::USED_WATER * spread::mean(&moves)?)
}

/// The sheets that name a kit and have a value for it, as indices with it.
pub(super) fn sheets_of(year: &Year, kit: usize) -> Vec<(usize, f64)> {
    let kind = year.kits[kit];
    let sheets = year.sheets.iter().enumerate();
    sheets
        .filter(|(_, sheet)| sheet.kits.contains(&kit))
        .filter_map(|(at, sheet)| Some((at, value(year, sheet, kind)?)))
        .collect()
}

/// Those of them that count.
pub(super) fn counted(year: &Year, kit: usize, asides: &[Aside]) -> Vec<(usize, f64)> {
    let mut sheets = sheets_of(year, kit);
    sheets.retain(|(at, _)| asides[*at] == Aside::No);
    sheets
}
