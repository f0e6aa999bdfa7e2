//! A school year: its sheets judged and compared, and kept until something
//! changes.
//!
//! Two things are kept. A sheet's judgement, by revision, since thousands are
//! read at once; and the year's comparison, with a digest of what it was made
//! from. Both may be deleted at any time. Nobody waits for either to be
//! written.

mod newest;
pub mod sheets;

use std::collections::HashMap;

use analysis::method::Method;
use analysis::year::{Comparison, compare};
use jiff::civil::{Date, Time};

use crate::clock::Zone;
use crate::db::derived::Derived;
use crate::db::kit::{self, Kit};
use crate::db::round_sheet::Closed;
use crate::db::year::{self, NewSummary, Newest, YearLesson};
use crate::db::{Connection, Error};
use crate::ids::{ClassId, StaffId};
use crate::off_thread::off_thread;
use crate::secret;

pub use newest::NewestRows;
pub use sheets::Sheets;

/// A year compared.
#[derive(Debug)]
pub struct YearReport {
    /// What it is arranged by.
    pub frame: YearFrame,
    /// The figures, by the frame's order of classes, teachers and kits.
    pub comparison: Comparison,
    /// What had to be made again, to be kept.
    pub to_keep: Vec<Derived>,
}

/// What a year's figures are made from, or the figures that are kept.
#[derive(Debug)]
pub struct Stored {
    frame: YearFrame,
    state: String,
    figures: Figures,
}

#[derive(Debug)]
enum Figures {
    Kept(Comparison),
    Of(Sheets),
}

/// Loads a year's figures where nothing has changed since they were kept, else
/// its sheets.
///
/// Class sets that are `closed` to whoever asks are no part of them: figures
/// of the others are made each time, and not kept.
pub async fn load(
    db: &mut Connection,
    newest: &NewestRows,
    zone: &Zone,
    school_year: i64,
    closed: &Closed,
) -> Result<Stored, Error> {
    let frame = YearFrame::load(db, zone, school_year, closed).await?;
    let state = frame.state(&newest.of_year(db, school_year).await?)?;
    let kept = match frame.left_out {
        0 => year::find_summary(db, school_year, &state).await?,
        _ => None,
    };
    let figures = match kept {
        Some(comparison) => Figures::Kept(comparison),
        None => Figures::Of(sheets::load(db, &frame).await?),
    };
    Ok(Stored {
        frame,
        state,
        figures,
    })
}

impl Stored {
    /// Compares the year, away from the threads that answer requests.
    pub async fn compare(self) -> YearReport {
        let frame = self.frame;
        let sheets = match self.figures {
            Figures::Of(sheets) => sheets,
            Figures::Kept(comparison) => {
                return YearReport {
                    frame,
                    comparison,
                    to_keep: Vec::new(),
                };
            }
        };
        let mut to_keep = sheets.to_keep;
        let comparison = off_thread(move || compare(&sheets.year)).await;
        if frame.left_out == 0 {
            to_keep.push(Derived::Year(NewSummary {
                school_year: frame.school_year,
                state: self.state,
                comparison: comparison.clone(),
            }));
        }
        YearReport {
            frame,
            comparison,
            to_keep,
        }
    }
}

/// A year's lessons, and what they have in common.
#[derive(Clone, Debug)]
pub struct YearFrame {
    /// The calendar year in which the school year starts.
    pub school_year: i64,
    /// By date.
    pub lessons: Vec<YearLesson>,
    /// Class sets of the year that are closed to whoever asks, and so no part
    /// of it.
    pub left_out: usize,
    /// In the order of the timetable: by the weekday of their first lesson,
    /// by the time of day at which its first sheet was stored, by name.
    pub classes: Vec<Named<ClassId>>,
    pub teachers: Vec<Named<StaffId>>,
    /// By kind and label.
    pub kits: Vec<Kit>,
}

/// Something with a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named<Id> {
    pub id: Id,
    pub name: String,
}

impl YearFrame {
    /// Loads a year's lessons and the department's kits, without the class
    /// sets that are closed to whoever asks.
    pub async fn load(
        db: &mut Connection,
        zone: &Zone,
        school_year: i64,
        closed: &Closed,
    ) -> Result<Self, Error> {
        let mut lessons = year::list_lessons(db, school_year).await?;
        let all = lessons.len();
        lessons.retain(|lesson| closed.class_set(lesson.id).is_none());
        let times = year::list_first_times(db, school_year).await?;
        Ok(Self {
            school_year,
            left_out: all - lessons.len(),
            classes: classes(&lessons, &times, zone),
            teachers: teachers(&lessons),
            lessons,
            kits: kit::list(db).await?,
        })
    }

    /// Returns a digest of all that the year's comparison rests on.
    ///
    /// # Errors
    /// When it cannot be written out.
    pub fn state(&self, newest: &Newest) -> Result<String, Error> {
        let kits = self.kits.iter().map(|k| (k.id, &k.label, k.kind.code()));
        let kits: Vec<_> = kits.collect();
        let classes: Vec<_> = self.classes.iter().map(|class| class.id).collect();
        let basis = (version(), &self.lessons, classes, kits, newest);
        Ok(secret::sha256(&serde_json::to_string(&basis)?))
    }

    /// Returns the same for the analysis, without any sheet.
    ///
    /// # Errors
    /// When a class set's method is none that this program knows.
    pub(super) fn without_sheets(&self) -> Result<analysis::year::Year, Error> {
        let lessons = self.lessons.iter().map(|lesson| {
            Ok(analysis::year::Lesson {
                class: place(&self.classes, &lesson.class_id),
                teacher: place(&self.teachers, &lesson.staff_id),
                method: Method::from_code(&lesson.method)
                    .ok_or_else(|| Error::Sql(sqlx::Error::Decode("unknown method".into())))?,
                month: month(&lesson.held_on),
                groups: usize::try_from(lesson.benches).unwrap_or(0),
            })
        });
        Ok(analysis::year::Year {
            lessons: lessons.collect::<Result<_, Error>>()?,
            classes: self.classes.len(),
            teachers: self.teachers.len(),
            kits: self.kits.iter().map(|kit| kit.kind).collect(),
            sheets: Vec::new(),
        })
    }
}

/// Returns the version of the analysis that a judgement is of.
pub(super) fn version() -> String {
    format!("{}/{}", analysis::VERSION, analysis::year::VERSION)
}

fn place<Id: PartialEq>(all: &[Named<Id>], id: &Id) -> usize {
    all.iter().position(|one| one.id == *id).unwrap_or(0)
}

/// Months from September on; 0 for what is no date.
fn month(held_on: &str) -> usize {
    let month = held_on.parse::<Date>().map_or(9, Date::month);
    usize::try_from((month + 3) % 12).unwrap_or(0)
}

fn classes(lessons: &[YearLesson], times: &[(ClassId, i64)], zone: &Zone) -> Vec<Named<ClassId>> {
    let times: HashMap<ClassId, Time> = times
        .iter()
        .map(|(class, at)| (*class, zone.time_of_day(*at)))
        .collect();
    let mut classes: Vec<(i8, Option<Time>, Named<ClassId>)> = Vec::new();
    // Lessons come by date, so the first of a class is its first.
    for lesson in lessons {
        if classes
            .iter()
            .all(|(.., class)| class.id != lesson.class_id)
        {
            let held_on = lesson.held_on.parse::<Date>();
            let weekday = held_on.map_or(0, |date| date.weekday().to_monday_zero_offset());
            let named = Named {
                id: lesson.class_id,
                name: lesson.class_name.clone(),
            };
            classes.push((weekday, times.get(&lesson.class_id).copied(), named));
        }
    }
    // A class of which nothing is stored yet comes last on its day.
    classes.sort_by(|(day, time, class), (other_day, other_time, other)| {
        let late = Time::MAX;
        (day, time.unwrap_or(late), &class.name).cmp(&(
            other_day,
            other_time.unwrap_or(late),
            &other.name,
        ))
    });
    classes.into_iter().map(|(.., class)| class).collect()
}

fn teachers(lessons: &[YearLesson]) -> Vec<Named<StaffId>> {
    let mut teachers: Vec<Named<StaffId>> = Vec::new();
    for lesson in lessons {
        if teachers.iter().all(|teacher| teacher.id != lesson.staff_id) {
            teachers.push(Named {
                id: lesson.staff_id,
                name: lesson.staff_name.clone(),
            });
        }
    }
    teachers.sort_by_key(|teacher| teacher.name.to_lowercase());
    teachers
}
