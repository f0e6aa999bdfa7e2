//! One class over a year: its lessons, and how the groups of each compare.

use analysis::year::groups::{self, GroupPlace, Groups};
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Response};

use super::asked::{Asked, Nav, OneByOne};
use super::line::SheetLine;
use crate::clock::long_date;
use crate::error::AppError;
use crate::ids::{ClassId, ClassSetId};
use crate::layout::{Layout, Page};
use crate::report::number::fixed;
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "year/class.html")]
struct ClassPage {
    layout: Layout,
    nav: Nav,
    here: String,
    id: ClassId,
    name: String,
    lessons: Vec<LessonPart>,
}

/// One lesson.
struct LessonPart {
    id: ClassSetId,
    date: String,
    practical: &'static str,
    groups: i64,
    lines: Vec<GroupLine>,
}

/// One group of it.
struct GroupLine {
    sheet: SheetLine,
    h: String,
    k: String,
    remark: &'static str,
}

/// The page.
pub(super) async fn get(
    State(state): State<AppState>,
    Path(id): Path<ClassId>,
    Query(asked): Query<Asked>,
    by: SignedIn,
) -> Result<Response, AppError> {
    let loaded = asked.sheets(&state, &by).await?;
    let mut classes = loaded.frame.classes.iter();
    let class = classes.find(|class| class.id == id);
    let class = class.ok_or(match loaded.nav.left_out {
        0 => AppError::NotFound("This class has no practical in that school year."),
        _ => AppError::Forbidden(
            "You mark a sheet of this class without seeing anybody else’s marks, or it has no practical in that school year.",
        ),
    })?;
    Ok(Page(ClassPage {
        layout: by.layout,
        here: format!("/year/classes/{id}"),
        id,
        name: class.name.clone(),
        lessons: lessons(&loaded, id),
        nav: loaded.nav,
    })
    .into_response())
}

fn lessons(loaded: &OneByOne, class: ClassId) -> Vec<LessonPart> {
    let lessons = loaded.frame.lessons.iter().enumerate();
    let of_class = lessons.filter(|(_, lesson)| lesson.class_id == class);
    of_class
        .map(|(at, lesson)| LessonPart {
            id: lesson.id,
            date: long_date(&lesson.held_on),
            practical: loaded.sheets.year.lessons[at].method.title(),
            groups: lesson.benches,
            lines: lines(loaded, at),
        })
        .collect()
}

fn lines(loaded: &OneByOne, lesson: usize) -> Vec<GroupLine> {
    let year = &loaded.sheets.year;
    let groups = groups::compare(year, lesson);
    let sheets = year.sheets.iter().enumerate();
    let in_lesson = sheets.filter(|(_, sheet)| sheet.lesson == lesson);
    in_lesson
        .zip(&groups.places)
        .map(|((at, _), place)| GroupLine {
            sheet: SheetLine::of(loaded, at),
            h: fixed(place.h, 2),
            k: fixed(place.k, 2),
            remark: remark(place, &groups),
        })
        .collect()
}

fn remark(place: &GroupPlace, groups: &Groups) -> &'static str {
    let is_beyond = |value: Option<f64>, line: Option<f64>| {
        value
            .zip(line)
            .is_some_and(|(value, line)| value.abs() > line)
    };
    match (
        is_beyond(place.h, groups.h_line),
        is_beyond(place.k, place.k_line),
    ) {
        (true, true) => "its level and its scatter are beyond the lines of 1 %",
        (true, false) => "its level is beyond the line of 1 %",
        (false, true) => "its rows scatter more than the others’, beyond the line of 1 %",
        (false, false) => "",
    }
}
