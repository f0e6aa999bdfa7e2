//! What happened in the department, and when: its lessons and its rounds in
//! the order of their days.

use jiff::civil::{Date, Time, time};
use server::acts::{Act, Anyone, Doing};
use server::clock::{Clock, HOUR, Zone};
use server::db::Error;
use server::ids::ClassSetId;
use server::web::password::Passwords;

use crate::department::{COME_BACK, Failure, hashing};
use crate::lesson::{self, hold};
use crate::moderation::{self, Plan, ROUNDS};
use crate::school::{Person, School, people};
use crate::term::{self, Lesson, Teacher, When, day};
use crate::year;

/// When a head of department has time for a round.
const AFTER_SCHOOL: Time = time(16, 0, 0, 0);

/// All that happens, with secrets hashed and dates fixed.
pub(crate) struct Diary {
    today: Date,
    people: Vec<Person>,
    come_back_hash: String,
    entries: Vec<DiaryEntry>,
}

/// Something that happens.
struct DiaryEntry {
    on: Date,
    /// Unix ms.
    at: i64,
    what: What,
}

enum What {
    Lesson(Lesson),
    Round(&'static Plan),
}

impl DiaryEntry {
    fn new(today: Date, zone: &Zone, when: When, time: Time, what: What) -> Result<Self, Failure> {
        let on = day(today, when);
        let at = on.to_datetime(time).to_zoned_datetime(zone.0.clone())?;
        let at = at.timestamp().as_millisecond();
        Ok(Self { on, at, what })
    }
}

impl Diary {
    /// Prepares the diary with what has happened up to now.
    pub(crate) async fn prepare(zone: &Zone) -> Result<Self, Failure> {
        let now = Clock::System.now();
        let today = zone.date(now);
        let mut entries = Vec::new();
        for lesson in year::lessons().into_iter().chain(term::lessons()) {
            let (when, starts) = (lesson.when, lesson.starts);
            let what = What::Lesson(lesson);
            entries.push(DiaryEntry::new(today, zone, when, starts, what)?);
        }
        for plan in &ROUNDS {
            let what = What::Round(plan);
            entries.push(DiaryEntry::new(today, zone, plan.when, AFTER_SCHOOL, what)?);
        }
        entries.sort_by_key(|entry| entry.at);
        let passwords = Passwords::default();
        let come_back = passwords.hash(COME_BACK.to_owned()).await;
        Ok(Self {
            today,
            people: people(&passwords).await?,
            come_back_hash: come_back.map_err(hashing)?,
            entries,
        })
    }

    /// Returns when it begins, Unix ms: the day before the first entry.
    pub(crate) fn begins(&self) -> i64 {
        self.entries.first().map_or(0, |entry| entry.at) - 24 * HOUR
    }
}

/// All of it is one act, and in one transaction: a demo that was interrupted is
/// no demo, and the next start makes it.
impl Act<Anyone> for Diary {
    type Done = ();
    type Stop = Error;

    /// Lets it happen.
    async fn perform(self, _: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        let begun = doing.at();
        let school = School::join(doing, self.people, begun).await?;
        // To the end of a summer to come.
        let until = Date::new(self.today.year() + 1, 8, 31).unwrap_or(self.today);
        school.stock(doing, until, begun).await?;
        let mut held: Vec<(ClassSetId, &Lesson)> = Vec::new();
        for entry in &self.entries {
            match &entry.what {
                What::Lesson(lesson) => {
                    let at = lesson::Held {
                        on: entry.on,
                        today: self.today,
                        starts: entry.at,
                        marker: school.marker(lesson.teacher)?,
                        come_back_hash: self.come_back_hash.clone(),
                    };
                    held.push((hold(doing, &at, lesson).await?, lesson));
                }
                What::Round(plan) => round(&school, plan, entry, &held)?.hold(doing).await?,
            }
        }
        Ok(())
    }
}

/// Returns a round over those of the lessons so far that it is about.
fn round(
    school: &School,
    plan: &'static Plan,
    made: &DiaryEntry,
    held: &[(ClassSetId, &Lesson)],
) -> Result<moderation::Held, Error> {
    let class_sets = held.iter().filter(|(_, lesson)| (plan.is_about)(lesson));
    let markers = plan.markers.iter().map(|teacher| school.marker(*teacher));
    Ok(moderation::Held {
        plan,
        on: made.on,
        from: made.at,
        head: school.marker(Teacher::Beck)?.staff,
        markers: markers.collect::<Result<_, _>>()?,
        class_sets: class_sets.map(|(id, _)| *id).collect(),
    })
}
