//! The kits of a year, and their lessons.

use analysis::year::Comparison;
use analysis::year::kits::{self, Fault, Kind, KitYear, Standing};

use super::{estimated, number, table, typed};
use crate::report::year::{Frame, Sheets};

/// The kits file: one line a kit. `before` is the year before, where there is
/// one.
///
/// # Errors
/// When the table cannot be written.
pub fn kits(frame: &Frame, now: &Comparison, before: Option<&Comparison>) -> csv::Result<Vec<u8>> {
    let columns = [
        "kit",
        "kind",
        "standing",
        "lessons",
        "sheets",
        "slips_taken_out",
        "dial_left_aside",
        "median_ratio",
        "median_low",
        "median_high",
        "ratio",
        "ratio_low",
        "ratio_high",
        "off",
        "off_low",
        "off_high",
        "standard_errors",
        "lessons_same_side",
        "looks_like",
        "off_year_before",
        "off_low_year_before",
        "off_high_year_before",
    ];
    let listed = frame.kits.iter().zip(&now.kits).enumerate();
    let lines = listed.map(|(at, (kit, year))| {
        let [ratio, low, high] = estimated(year.ratio);
        let [off, off_low, off_high] = estimated(year.off);
        let earlier = before.and_then(|before| before.kits.get(at)?.off);
        let [before, before_low, before_high] = estimated(earlier);
        [
            typed(&kit.label),
            kit.kind.code().to_owned(),
            standing(year.standing).to_owned(),
            year.lessons.to_string(),
            year.sheets.to_string(),
            year.slipped.to_string(),
            year.on_dial.to_string(),
            number(year.median),
            number(year.median_range.map(|[low, _]| low)),
            number(year.median_range.map(|[_, high]| high)),
            ratio,
            low,
            high,
            off,
            off_low,
            off_high,
            number(year.sigmas),
            year.same_side.made.to_string(),
            looks_like(year),
            before,
            before_low,
            before_high,
        ]
    });
    table(columns, lines)
}

/// The kits' lessons: one line for each lesson that a kit was used in.
///
/// # Errors
/// When the table cannot be written.
pub fn kit_lessons(frame: &Frame, sheets: &Sheets) -> csv::Result<Vec<u8>> {
    let year = &sheets.year;
    let compared = kits::compare(year);
    let mut lines = Vec::new();
    for kind in [Kind::Tank, Kind::Generator, Kind::String] {
        let of_kind = (0..year.kits.len()).filter(|at| year.kits[*at] == kind);
        for (at, kit) in of_kind.filter_map(|at| Some((at, kits::detail(year, &compared, at)?))) {
            for lesson in kit.lessons {
                let of = &frame.lessons[lesson.lesson];
                lines.push([
                    typed(&frame.kits[at].label),
                    of.held_on.clone(),
                    typed(&of.class_name),
                    of.method.clone(),
                    lesson.sheets.to_string(),
                    number(Some(lesson.median.exp())),
                    number(Some(kit.level.reference.exp())),
                    number(lesson.sigmas),
                ]);
            }
        }
    }
    let columns = [
        "kit",
        "date",
        "class",
        "method",
        "sheets",
        "median_ratio",
        "compared_with",
        "standard_errors",
    ];
    table(columns, lines)
}

fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::TooFew => "too few to say",
        Standing::Agrees => "agrees",
        Standing::May => "may be off",
        Standing::Reads => "off",
        Standing::Bends => "off at one end",
    }
}

fn looks_like(year: &KitYear) -> String {
    let faults = year.looks_like.iter().flat_map(|looks| &looks.faults);
    let names = faults.map(|fault| match fault {
        Fault::Lamp => "lamp",
        Fault::Surface => "surface",
        Fault::Depth => "depth",
        Fault::Dial => "dial",
        Fault::DialOffset => "dial offset",
        Fault::String => "string",
        Fault::Beside => "string or tank beside",
    });
    names.collect::<Vec<_>>().join(" or ")
}
