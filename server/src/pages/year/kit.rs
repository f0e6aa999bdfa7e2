//! One kit over a year: its sheets in date order.

use analysis::year::kits::{Aside, Detail, KitSheet, LessonLevel};
use axum::extract::{Path, Query};

use super::{Nav, OneByOne, YearQuery};
use crate::chart::dates::{Dated, Dates};
use crate::chart::{Graph, dates};
use crate::db::year::YearLesson;
use crate::ids::KitId;
use crate::off_thread::off_thread;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::kit_year::{compared_with, details, headline, median};
use crate::words::number::fixed;
use crate::words::refusal;
use crate::words::share::ratio;
use crate::words::time::long_date;
use crate::words::year;

#[derive(askama::Template)]
#[template(path = "year/kit.html")]
struct KitPage {
    layout: Layout,
    nav: Nav,
    id: KitId,
    label: String,
    headline: String,
    details: Vec<String>,
    /// Its median, what it is compared with, and where the lines of the graph
    /// are; those that there are.
    figures: Vec<String>,
    graph: Option<Graph>,
    lessons: PageTable,
    sheets: PageTable,
}

pub(super) async fn get(
    state: AppState,
    Path(id): Path<KitId>,
    Query(asked): Query<YearQuery>,
    by: SignedIn,
) -> Reply {
    let loaded = asked.sheets(&state, &by).await?;
    let mut listed = loaded.frame.kits.iter();
    let at = listed
        .position(|kit| kit.id == id)
        .ok_or(AppError::NotFound(refusal::NO_KIT))?;
    let page = off_thread(move || KitPage::of(by.layout, loaded, at)).await?;
    Page(page).reply()
}

impl KitPage {
    fn of(layout: Layout, loaded: OneByOne, at: usize) -> Result<Self, AppError> {
        let kit = loaded.sheets.kit(at);
        let kit = kit.ok_or_else(|| AppError::internal("a listed kit is not judged"))?;
        let listed = &loaded.frame.kits[at];
        let mut figures = vec![
            median(&kit.year),
            compared_with(&kit.level),
            sigma_lines(&kit),
        ];
        figures.retain(|sentence| !sentence.is_empty());
        Ok(Self {
            layout,
            id: listed.id,
            headline: headline(&listed.label, &kit.year),
            details: details(&kit.year),
            figures,
            graph: graph(&loaded, &kit, &listed.label),
            lessons: lessons(&loaded, &kit.lessons),
            sheets: sheets(&loaded, &kit.sheets, &listed.label),
            label: listed.label.clone(),
            nav: loaded.nav,
        })
    }
}

fn lesson_of<'a>(loaded: &'a OneByOne, sheet: &KitSheet) -> &'a YearLesson {
    &loaded.frame.lessons[loaded.sheets.year.sheets[sheet.at].lesson]
}

fn graph(loaded: &OneByOne, kit: &Detail, label: &str) -> Option<Graph> {
    let dated = kit.sheets.iter().map(|sheet| Dated {
        day: day(&lesson_of(loaded, sheet).held_on, loaded.nav.school_year),
        ratio: sheet.ratio,
        is_aside: sheet.aside != Aside::No,
    });
    dates(Dates {
        id: "dates".to_owned(),
        title: format!("{label}: its sheets in date order"),
        description: year::dated(kit.sheets.len()),
        reference: kit.level.reference.exp(),
        sigma_lines: kit.level.sigma_lines(),
        median: kit.year.median,
        sheets: dated.collect(),
    })
}

/// Says where the lines of the graph are, in words, with what the kit is
/// compared with.
fn sigma_lines(kit: &Detail) -> String {
    let lines = kit.level.sigma_lines();
    lines.map_or_else(String::new, |lines| {
        year::sigma_lines(lines, kit.level.reference.exp())
    })
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

fn lessons(loaded: &OneByOne, lessons: &[LessonLevel]) -> PageTable {
    let of = |level: &LessonLevel| &loaded.frame.lessons[level.lesson];
    Table::of(lessons)
        .name("Date", |level| {
            let (lesson, date) = (of(level), long_date(&of(level).held_on));
            let says = format!("Summary of {}, {date}", lesson.class_name);
            Cell::from(date).link_called(format!("/class-sets/{}/summary", lesson.id), says)
        })
        .text("Class", |level| &of(level).class_name)
        .figure("Sheets", |level| level.sheets)
        .figure("Median", |level| ratio(Some(level.median.exp())))
        .figure("Standard errors", |level| fixed(level.sigmas, 1))
        .name("Remark", |level| match level.lines_passed() {
            0 => "",
            1 => year::TWO_ERRORS,
            _ => year::THREE_ERRORS,
        })
        .on_page(
            "Table of lessons",
            "The middle sheet of each lesson, and how many standard errors of so many sheets it is from what the kit is compared with",
        )
}

fn sheets(loaded: &OneByOne, sheets: &[KitSheet], label: &str) -> PageTable {
    Table::of(sheets)
        .name("Date", |sheet| long_date(&lesson_of(loaded, sheet).held_on))
        .text("Class", |sheet| &lesson_of(loaded, sheet).class_name)
        .text("Group", |sheet| loaded.group(sheet.at))
        .figure("Speed ÷ expected", |sheet| ratio(Some(sheet.ratio)))
        .text("Remark", |sheet| match sheet.aside {
            Aside::No => "",
            Aside::Slipped => year::TAKEN_OUT,
            Aside::OnDial => year::DIAL_OUT,
        })
        .on_page(
            "The sheets as a table",
            format!("{label}: every sheet that names it and has an expected speed"),
        )
}
