//! One kit over a year: its sheets in date order.

use analysis::year::kits::{self, Aside, KitYear, LessonLevel, Level};
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Response};

use super::asked::{Asked, Nav, OneByOne};
use crate::chart::year::{DateGraph, Dated, DatesOf};
use crate::clock::long_date;
use crate::error::AppError;
use crate::ids::{ClassSetId, KitId};
use crate::layout::{Layout, Page};
use crate::report::number::fixed;
use crate::report::year::words::{self, kit as kit_words};
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "year/kit.html")]
struct KitPage {
    layout: Layout,
    nav: Nav,
    here: String,
    id: KitId,
    label: String,
    headline: String,
    details: Vec<String>,
    median: String,
    compared_with: String,
    /// Where the lines of the graph are; blank where it has none.
    sigma_lines: String,
    graph: Option<DateGraph>,
    lessons: Vec<LessonLine>,
    sheets: Vec<SheetLine>,
}

/// The kit in one lesson.
struct LessonLine {
    class_set: ClassSetId,
    class: String,
    date: String,
    sheets: usize,
    median: String,
    sigmas: String,
    remark: &'static str,
}

/// One sheet that names the kit.
struct SheetLine {
    class_set: ClassSetId,
    class: String,
    date: String,
    group: String,
    ratio: String,
    remark: &'static str,
}

/// The page.
pub(super) async fn get(
    State(state): State<AppState>,
    Path(id): Path<KitId>,
    Query(asked): Query<Asked>,
    by: SignedIn,
) -> Result<Response, AppError> {
    let loaded = asked.sheets(&state, &by).await?;
    let mut listed = loaded.frame.kits.iter();
    let at = listed
        .position(|kit| kit.id == id)
        .ok_or(AppError::NotFound("There is no such kit."))?;
    let page = KitPage::of(by.layout, loaded, at)?;
    Ok(Page(page).into_response())
}

/// A kit with all that its pages need.
struct Judged {
    at: usize,
    year: KitYear,
    level: Level,
    asides: Vec<Aside>,
}

impl KitPage {
    fn of(layout: Layout, loaded: OneByOne, at: usize) -> Result<Self, AppError> {
        let year = &loaded.sheets.year;
        let (kits, levels) = kits::compare(year);
        let kit = kits[at].clone();
        let level = levels.into_iter().find(|level| level.kind == kit.kind);
        let judged = Judged {
            at,
            asides: kits::asides(year, &kits, kit.kind),
            level: level.ok_or_else(|| AppError::internal("a kind of kits has no level"))?,
            year: kit,
        };
        let listed = &loaded.frame.kits[at];
        Ok(Self {
            layout,
            here: format!("/year/kits/{}", listed.id),
            id: listed.id,
            headline: kit_words::headline(&listed.label, &judged.year),
            details: kit_words::details(&judged.year),
            median: kit_words::median(&judged.year),
            compared_with: kit_words::compared_with(&judged.level),
            sigma_lines: sigma_lines(&judged),
            graph: graph(&loaded, &judged),
            lessons: lessons(&loaded, &judged),
            sheets: sheets(&loaded, &judged),
            label: listed.label.clone(),
            nav: loaded.nav,
        })
    }
}

fn graph(loaded: &OneByOne, judged: &Judged) -> Option<DateGraph> {
    let year = &loaded.sheets.year;
    let dated = kits::sheets_of(year, judged.at)
        .into_iter()
        .map(|(at, value)| Dated {
            day: day(
                &loaded.frame.lessons[year.sheets[at].lesson].held_on,
                loaded.nav.school_year,
            ),
            ratio: value.exp(),
            is_aside: judged.asides[at] != Aside::No,
        });
    let dated: Vec<Dated> = dated.collect();
    let label = &loaded.frame.kits[judged.at].label;
    let reference = judged.level.reference;
    DateGraph::draw(DatesOf {
        id: "dates".to_owned(),
        title: format!("{label}: its sheets in date order"),
        description: format!(
            "{} from September to August. The tables say the same in numbers.",
            words::counted(dated.len(), "sheet", "sheets")
        ),
        reference: reference.exp(),
        sigma_lines: lines_of(judged),
        median: judged.year.median,
        sheets: dated,
    })
}

/// Three and two standard deviations of a sheet below what the kit is compared
/// with, then two and three above.
fn lines_of(judged: &Judged) -> Option<[f64; 4]> {
    let reference = judged.level.reference;
    let sd = judged.level.sd?;
    Some([-3.0, -2.0, 2.0, 3.0].map(|sigmas| (reference + sigmas * sd).exp()))
}

/// The same in words, with what it is compared with.
fn sigma_lines(judged: &Judged) -> String {
    let Some(lines) = lines_of(judged) else {
        return String::new();
    };
    let [low3, low2, high2, high3] = lines.map(|line| words::ratio(Some(line)));
    let reference = words::ratio(Some(judged.level.reference.exp()));
    format!(
        "The graph has {reference} for its middle line; single sheets are marked beyond two standard deviations ({low2} and {high2}) and beyond three ({low3} and {high3})."
    )
}

/// Days from 1 September of a school year to a date.
fn day(held_on: &str, school_year: i64) -> f64 {
    let starts = i16::try_from(school_year)
        .ok()
        .and_then(|year| jiff::civil::Date::new(year, 9, 1).ok());
    let held_on = held_on.parse::<jiff::civil::Date>().ok();
    let days = starts
        .zip(held_on)
        .and_then(|(from, to)| from.until(to).ok());
    days.map_or(0.0, |days| f64::from(days.get_days()))
}

fn lessons(loaded: &OneByOne, judged: &Judged) -> Vec<LessonLine> {
    let year = &loaded.sheets.year;
    let lessons = kits::by_lesson(year, judged.at, &judged.level, &judged.asides);
    let line = |level: LessonLevel| {
        let lesson = &loaded.frame.lessons[level.lesson];
        LessonLine {
            class_set: lesson.id,
            class: lesson.class_name.clone(),
            date: long_date(&lesson.held_on),
            sheets: level.sheets,
            median: words::ratio(Some(level.median.exp())),
            sigmas: fixed(level.sigmas, 1),
            remark: match level.sigmas.map_or(0.0, f64::abs) {
                sigmas if sigmas > 3.0 => "beyond three standard errors",
                sigmas if sigmas > 2.0 => "beyond two standard errors",
                _ => "",
            },
        }
    };
    lessons.into_iter().map(line).collect()
}

fn sheets(loaded: &OneByOne, judged: &Judged) -> Vec<SheetLine> {
    let year = &loaded.sheets.year;
    let line = |(at, value): (usize, f64)| {
        let lesson = &loaded.frame.lessons[year.sheets[at].lesson];
        SheetLine {
            class_set: lesson.id,
            class: lesson.class_name.clone(),
            date: long_date(&lesson.held_on),
            group: loaded.sheets.labels[at].clone(),
            ratio: words::ratio(Some(value.exp())),
            remark: match judged.asides[at] {
                Aside::No => "",
                Aside::Slipped => "taken out: a slip in its readings was confirmed",
                Aside::OnDial => "left aside: the dial of its generator seems out",
            },
        }
    };
    kits::sheets_of(year, judged.at)
        .into_iter()
        .map(line)
        .collect()
}
