//! A school year's figures for a spreadsheet: one table a file.
//!
//! Numbers are written to six significant figures, ratios as ratios and
//! shares as shares (0 to 1); what is not known is blank.

use analysis::year::cells::Cells;
use analysis::year::kits::{self, Fault, Kind, KitYear, Standing};
use analysis::year::share::Share;
use analysis::year::slips::{self, SlipYear};
use analysis::year::{Comparison, Made};

use crate::report::year::{Named, Sheets, YearFrame};
use crate::table::Table;

/// Makes the table of kits: one line a kit. `before` is the year before, where
/// there is one.
#[must_use]
pub fn kits(frame: &YearFrame, now: &Comparison, before: Option<&Comparison>) -> Table {
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
pub fn kit_lessons(frame: &YearFrame, sheets: &Sheets) -> Table {
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

/// Months as they stand in the file, September first.
const MONTHS: [&str; slips::MONTHS] = [
    "09", "10", "11", "12", "01", "02", "03", "04", "05", "06", "07", "08",
];

/// Makes the table of slips: shares of the groups for every slip that any made.
///
/// In the year and the one before (`before`), by class, by month, and in each
/// class's first practical and its later ones.
#[must_use]
pub fn slips(frame: &YearFrame, sheets: &Sheets, before: Option<&[SlipYear]>) -> Table {
    let mut lines = Vec::new();
    for counted in slips::count(&sheets.year) {
        let mut earlier = before.into_iter().flatten();
        let earlier = earlier.find(|earlier| earlier.slip == counted.slip);
        let earlier = earlier.map_or_else(Share::default, |slip| slip.whole);
        if counted.whole.made + earlier.made == 0 {
            continue;
        }
        let shares = shares(frame, sheets, &counted, earlier).into_iter();
        lines.extend(shares.map(|(split, name, share)| (counted.slip, split, name, share)));
    }
    Table::of(&lines)
        .text("slip", |(made, ..)| made.code())
        .text("where", |(made, ..)| made.place())
        .text("split", |(_, split, ..)| split)
        .text("name", |(.., name, _)| name)
        .figure("groups", |(.., share)| share.made)
        .figure("of", |(.., share)| share.of)
        .number("share", |(.., share)| share.value())
        .ends("share", |(.., share)| share.interval())
        .table()
}

fn shares(
    frame: &YearFrame,
    sheets: &Sheets,
    counted: &SlipYear,
    before: Share,
) -> Vec<(&'static str, String, Share)> {
    let mut shares = vec![
        ("year", frame.school_year.to_string(), counted.whole),
        ("year", (frame.school_year - 1).to_string(), before),
    ];
    let classes = || frame.classes.iter().map(|class| class.name.clone());
    let by_class = classes().zip(&counted.by_class);
    shares.extend(by_class.map(|(name, share)| ("class", name, *share)));
    let by_month = MONTHS.iter().zip(&counted.by_month);
    shares.extend(by_month.map(|(month, share)| ("month", (*month).to_owned(), *share)));
    let changes = slips::since_first(&sheets.year, counted.slip);
    for (name, change) in classes().zip(changes) {
        if let Some(change) = change {
            shares.push(("first practical", name.clone(), change.before));
            shares.push(("later practicals", name, change.after));
        }
    }
    shares.retain(|(.., share)| share.of > 0);
    shares
}

/// Makes the table of classes, or of teachers: `one` is what its first column
/// is called, `named` what the cells are of, in their order.
#[must_use]
pub fn cells<Id>(one: &'static str, named: &[Named<Id>], cells: &[Cells]) -> Table {
    let all = cells.iter().flat_map(|of_method| {
        let named = named.iter().zip(&of_method.cells);
        named.map(move |(named, cell)| (named.name.as_str(), cell, of_method))
    });
    let lines: Vec<_> = all.filter(|(_, cell, _)| cell.lessons > 0).collect();
    Table::of(&lines)
        .text(one, |(name, ..)| name)
        .text("method", |(.., of_method)| of_method.method.code())
        .figure("lessons", |(_, cell, _)| cell.lessons)
        .figure("groups", |(_, cell, _)| cell.handed_in.of)
        .figure("handed_in", |(_, cell, _)| cell.handed_in.made)
        .figure("complete", |(_, cell, _)| cell.complete.made)
        .figure("counted", |(_, cell, _)| cell.counted)
        .figure("left_aside", |(_, cell, _)| cell.left_aside)
        .figure("slips_taken_out", |(_, cell, _)| cell.slipped)
        .number("speed_median", |(_, cell, _)| cell.speed)
        .estimate("ratio", |(_, cell, _)| cell.ratio)
        .estimate("against_others", |(_, cell, _)| cell.against_others)
        .text("stands_apart", |(_, cell, _)| match cell.stands_apart {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        })
        .number("sd", |(_, cell, _)| cell.sd)
        .figure("marked", |(_, cell, _)| {
            cell.marks.map_or(0, |marks| marks.groups)
        })
        .estimate("mark_mean", |(_, cell, _)| cell.marks?.mean)
        .number("repeatability", |(.., of)| {
            Some(of.together.as_ref()?.repeatability)
        })
        .number("reproducibility", |(.., of)| {
            Some(of.together.as_ref()?.reproducibility)
        })
        .table()
}

/// Makes the table of the sheets in these places of the year.
#[must_use]
pub fn sheets(frame: &YearFrame, sheets: &Sheets, wanted: &[usize]) -> Table {
    let sheet = |at: usize| &sheets.year.sheets[at];
    let lesson = |at: usize| &frame.lessons[sheet(at).lesson];
    let judgement = |at: usize| &sheet(at).judgement;
    Table::of(wanted)
        .text("date", |at| &lesson(*at).held_on)
        .text("class", |at| &lesson(*at).class_name)
        .text("group", |at| &sheets.labels[*at])
        .text("method", |at| &lesson(*at).method)
        .text("kit", |at| &sheets.kits_as_written[*at])
        .number("speed", |at| judgement(*at).speed)
        .number("expected_speed", |at| judgement(*at).expected)
        .number("ratio", |at| judgement(*at).log_ratio().map(f64::exp))
        .number("speed_uncertainty", |at| judgement(*at).uncertainty)
        .text("slips_in_working", |at| {
            codes(&sheet(*at).made, |made| matches!(made, Made::Shown(_)))
        })
        .text("confirmed", |at| {
            codes(&sheet(*at).made, |made| matches!(made, Made::Confirmed(_)))
        })
        .text("slip_in_readings", |at| match sheet(*at).is_slipped {
            true => "yes",
            false => "",
        })
        .number("mark", |at| sheet(*at).mark)
        .table()
}

fn codes(made: &[Made], is_wanted: impl Fn(&Made) -> bool) -> String {
    let wanted = made.iter().filter(|made| is_wanted(made));
    let codes: Vec<&str> = wanted.map(|made| made.code()).collect();
    codes.join(" ")
}
