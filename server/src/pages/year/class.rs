//! One class over a year: its lessons with their groups.

use axum::extract::{Path, Query};

use super::{Nav, OneByOne, YearQuery};
use crate::ids::{ClassId, ClassSetId};
use crate::table::{PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::refusal;
use crate::words::time::long_date;
use crate::words::year;

#[derive(askama::Template)]
#[template(path = "year/class.html")]
struct ClassPage {
    layout: Layout,
    nav: Nav,
    id: ClassId,
    name: String,
    lessons: Vec<LessonPart>,
}

struct LessonPart {
    id: ClassSetId,
    date: String,
    practical: &'static str,
    groups: i64,
    sheets: PageTable,
}

/// Shows the page.
pub(super) async fn get(
    state: AppState,
    Path(id): Path<ClassId>,
    Query(asked): Query<YearQuery>,
    by: SignedIn,
) -> Reply {
    let loaded = asked.sheets(&state, &by).await?;
    let mut classes = loaded.frame.classes.iter();
    let class = classes.find(|class| class.id == id);
    let class = class.ok_or(match loaded.nav.left_out {
        0 => AppError::NotFound(refusal::NO_PRACTICAL),
        _ => AppError::Forbidden(refusal::NO_PRACTICAL_OR_BLIND),
    })?;
    Page(ClassPage {
        layout: by.layout,
        id,
        name: class.name.clone(),
        lessons: lessons(&loaded, id),
        nav: loaded.nav,
    })
    .reply()
}

fn lessons(loaded: &OneByOne, class: ClassId) -> Vec<LessonPart> {
    let lessons = loaded.frame.lessons.iter().enumerate();
    let of_class = lessons.filter(|(_, lesson)| lesson.class_id == class);
    of_class
        .map(|(at, lesson)| LessonPart {
            id: lesson.id,
            date: long_date(&lesson.held_on),
            practical: crate::words::title(loaded.sheets.year.lessons[at].method),
            groups: lesson.benches,
            sheets: sheets(loaded, at, &long_date(&lesson.held_on)),
        })
        .collect()
}

fn sheets(loaded: &OneByOne, lesson: usize, date: &str) -> PageTable {
    let all = 0..loaded.sheets.year.sheets.len();
    let in_lesson = all.filter(|at| loaded.sheet(*at).0.lesson == lesson);
    let sheets: Vec<usize> = in_lesson.collect();
    let groups = Table::of(&sheets).text("Group", |at| loaded.group(*at));
    loaded
        .figures(groups)
        .text("Remark", |at| match loaded.sheet(*at).0.is_slipped {
            true => year::SLIPPED,
            false => "",
        })
        .on_page(format!("Groups, {date}"), format!("The groups of {date}"))
}
