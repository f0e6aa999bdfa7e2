//! The kits of a year, and their lessons.

use analysis::year::Comparison;
use analysis::year::kits::{self, Fault, Kind, KitYear, Standing};

use crate::report::year::{Frame, Sheets};
use crate::table::Table;

/// Makes the table of kits: one line a kit. `before` is the year before, where
/// there is one.
#[must_use]
pub fn kits(frame: &Frame, now: &Comparison, before: Option<&Comparison>) -> Table {
    let earlier = |at: usize| before.and_then(|before| before.kits.get(at)?.off);
    let listed = frame.kits.iter().zip(&now.kits).enumerate();
    let lines: Vec<_> = listed
        .map(|(at, (kit, year))| (kit, year, earlier(at)))
        .collect();
    Table::of(&lines)
        .text("kit", |(kit, ..)| &kit.label)
        .text("kind", |(kit, ..)| kit.kind.code())
        .text("standing", |(_, year, _)| standing(year.standing))
        .figure("lessons", |(_, year, _)| year.lessons)
        .figure("sheets", |(_, year, _)| year.sheets)
        .figure("slips_taken_out", |(_, year, _)| year.slipped)
        .figure("dial_left_aside", |(_, year, _)| year.on_dial)
        .number("median_ratio", |(_, year, _)| year.median)
        .ends("median", |(_, year, _)| year.median_range)
        .estimate("ratio", |(_, year, _)| year.ratio)
        .estimate("off", |(_, year, _)| year.off)
        .number("standard_errors", |(_, year, _)| year.sigmas)
        .figure("lessons_same_side", |(_, year, _)| year.same_side.made)
        .text("looks_like", |(_, year, _)| looks_like(year))
        .number("off_year_before", |(.., off)| off.map(|off| off.value))
        .number("off_low_year_before", |(.., off)| off.map(|off| off.low))
        .number("off_high_year_before", |(.., off)| off.map(|off| off.high))
        .table()
}

/// Makes the table of the kits' lessons: one line for each lesson that a kit
/// was used in.
#[must_use]
pub fn kit_lessons(frame: &Frame, sheets: &Sheets) -> Table {
    let year = &sheets.year;
    let compared = kits::compare(year);
    let mut lines = Vec::new();
    for kind in [Kind::Tank, Kind::Generator, Kind::String] {
        let of_kind = (0..year.kits.len()).filter(|at| year.kits[*at] == kind);
        for (at, kit) in of_kind.filter_map(|at| Some((at, kits::detail(year, &compared, at)?))) {
            let lessons = kit.lessons.into_iter();
            let reference = kit.level.reference;
            lines.extend(lessons.map(|lesson| {
                let held = &frame.lessons[lesson.lesson];
                (&frame.kits[at], held, lesson, reference)
            }));
        }
    }
    Table::of(&lines)
        .text("kit", |(kit, ..)| &kit.label)
        .text("date", |(_, held, ..)| &held.held_on)
        .text("class", |(_, held, ..)| &held.class_name)
        .text("method", |(_, held, ..)| &held.method)
        .figure("sheets", |(.., lesson, _)| lesson.sheets)
        .number("median_ratio", |(.., of, _)| Some(of.median.exp()))
        .number("compared_with", |(.., to)| Some(to.exp()))
        .number("standard_errors", |(.., lesson, _)| lesson.sigmas)
        .table()
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
