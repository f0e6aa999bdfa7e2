//! One kit over a year: its sheets in date order.

use analysis::year::kits::{Aside, Detail, KitSheet, LessonLevel};
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Response};

use super::asked::{Asked, Nav, OneByOne};
use crate::chart::year::{DateGraph, Dated, DatesOf};
use crate::clock::long_date;
use crate::error::AppError;
use crate::ids::{ClassSetId, KitId};
use crate::layout::{Layout, Page};
use crate::off_thread::off_thread;
use crate::report::number::fixed;
use crate::report::year::words::{self, kit as kit_words};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words::counted;

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
    let page = off_thread(move || KitPage::of(by.layout, loaded, at)).await?;
    Ok(Page(page).into_response())
}

impl KitPage {
    fn of(layout: Layout, loaded: OneByOne, at: usize) -> Result<Self, AppError> {
        let kit = loaded.sheets.kit(at);
        let kit = kit.ok_or_else(|| AppError::internal("a listed kit is not judged"))?;
        let listed = &loaded.frame.kits[at];
        Ok(Self {
            layout,
            here: format!("/year/kits/{}", listed.id),
            id: listed.id,
            headline: kit_words::headline(&listed.label, &kit.year),
            details: kit_words::details(&kit.year),
            median: kit_words::median(&kit.year),
            compared_with: kit_words::compared_with(&kit.level),
            sigma_lines: sigma_lines(&kit),
            graph: graph(&loaded, &kit, &listed.label),
            lessons: lessons(&loaded, &kit.lessons),
            sheets: sheets(&loaded, &kit.sheets),
            label: listed.label.clone(),
            nav: loaded.nav,
        })
    }
}

fn graph(loaded: &OneByOne, kit: &Detail, label: &str) -> Option<DateGraph> {
    let year = &loaded.sheets.year;
    let dated = kit.sheets.iter().map(|sheet| Dated {
        day: day(
            &loaded.frame.lessons[year.sheets[sheet.at].lesson].held_on,
            loaded.nav.school_year,
        ),
        ratio: sheet.ratio,
        is_aside: sheet.aside != Aside::No,
    });
    let dated: Vec<Dated> = dated.collect();
    DateGraph::draw(DatesOf {
        id: "dates".to_owned(),
        title: format!("{label}: its sheets in date order"),
        description: format!(
            "{} from September to August. The tables say the same in numbers.",
            counted(dated.len(), "sheet", "sheets")
        ),
        reference: kit.level.reference.exp(),
        sigma_lines: kit.level.sigma_lines(),
        median: kit.year.median,
        sheets: dated,
    })
}

/// Where the lines of the graph are, in words, with what the kit is compared
/// with.
fn sigma_lines(kit: &Detail) -> String {
    let Some(lines) = kit.level.sigma_lines() else {
        return String::new();
    };
    let [low3, low2, high2, high3] = lines.map(|line| words::ratio(Some(line)));
    let reference = words::ratio(Some(kit.level.reference.exp()));
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

fn lessons(loaded: &OneByOne, lessons: &[LessonLevel]) -> Vec<LessonLine> {
    let line = |level: &LessonLevel| {
        let lesson = &loaded.frame.lessons[level.lesson];
        LessonLine {
            class_set: lesson.id,
            class: lesson.class_name.clone(),
            date: long_date(&lesson.held_on),
            sheets: level.sheets,
            median: words::ratio(Some(level.median.exp())),
            sigmas: fixed(level.sigmas, 1),
            remark: match level.lines_passed() {
                0 => "",
                1 => "beyond two standard errors",
                _ => "beyond three standard errors",
            },
        }
    };
    lessons.iter().map(line).collect()
}

fn sheets(loaded: &OneByOne, sheets: &[KitSheet]) -> Vec<SheetLine> {
    let line = |sheet: &KitSheet| {
        let lesson = &loaded.frame.lessons[loaded.sheets.year.sheets[sheet.at].lesson];
        SheetLine {
            class_set: lesson.id,
            class: lesson.class_name.clone(),
            date: long_date(&lesson.held_on),
            group: loaded.sheets.labels[sheet.at].clone(),
            ratio: words::ratio(Some(sheet.ratio)),
            remark: match sheet.aside {
                Aside::No => "",
                Aside::Slipped => "taken out: a slip in its readings was confirmed",
                Aside::OnDial => "left aside: the dial of its generator seems out",
            },
        }
    };
    sheets.iter().map(line).collect()
}
