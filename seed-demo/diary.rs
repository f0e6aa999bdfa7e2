//! What happened in the department, and when: its lessons and its rounds in
//! the order of their days.

use jiff::civil::{Date, Time, time};
use server::clock::{Clock, HOUR, Zone};
use server::db::event::{self, NewEvent};
use server::db::sample_size::{self, SampleSize};
use server::db::staff::{self, NewStaff, Role};
use server::db::{Connection, Error, department, kit};
use server::ids::{ClassSetId, StaffId};
use server::password::Passwords;

use crate::department::{COLLEAGUES, COME_BACK, Failure, NAME, PASSWORD, hashing};
use crate::kit::{GENERATORS, STRINGS, TANKS};
use crate::lesson::{self, hold};
use crate::moderation::{self, Plan, ROUNDS};
use crate::pile::Marker;
use crate::term::{self, Lesson, Teacher, When, day};
use crate::year;

/// When a head of department has time for a round.
const AFTER_SCHOOL: Time = time(16, 0, 0, 0);

/// The department's own sizes of samples: with 24 sheets each of four markers
/// has six or so, the fewest that say something of one.
const SIZES: [SampleSize; 4] = [
    SampleSize {
        up_to: Some(15),
        size: None,
    },
    SampleSize {
        up_to: Some(40),
        size: Some(15),
    },
    SampleSize {
        up_to: Some(200),
        size: Some(24),
    },
    SampleSize {
        up_to: None,
        size: Some(30),
    },
];

/// All that happens, with secrets hashed and dates fixed.
pub(crate) struct Diary {
    today: Date,
    staff: Vec<(Teacher, NewStaff)>,
    come_back_hash: String,
    entries: Vec<Entry>,
}

/// Something that happens.
struct Entry {
    on: Date,
    /// Unix ms.
    at: i64,
    what: What,
}

enum What {
    Lesson(Lesson),
    Round(&'static Plan),
}

impl Entry {
    fn new(today: Date, zone: &Zone, when: When, time: Time, what: What) -> Result<Self, Failure> {
        let on = day(today, when);
        let at = on.to_datetime(time).to_zoned_datetime(zone.0.clone())?;
        let at = at.timestamp().as_millisecond();
        Ok(Self { on, at, what })
    }
}

impl Diary {
    /// What has happened up to now.
    pub(crate) async fn prepare(zone: &Zone) -> Result<Self, Failure> {
        let now = Clock::System.now();
        let today = zone.date(now);
        let mut entries = Vec::new();
        for lesson in year::lessons().into_iter().chain(term::lessons()) {
            let (when, starts) = (lesson.when, lesson.starts);
            let what = What::Lesson(lesson);
            entries.push(Entry::new(today, zone, when, starts, what)?);
        }
        for plan in &ROUNDS {
            let what = What::Round(plan);
            entries.push(Entry::new(today, zone, plan.when, AFTER_SCHOOL, what)?);
        }
        entries.sort_by_key(|entry| entry.at);
        let first = entries.first().map_or(now, |entry| entry.at);
        let passwords = Passwords::default();
        let come_back = passwords.hash(COME_BACK.to_owned()).await;
        Ok(Self {
            today,
            staff: people(&passwords, first - 24 * HOUR).await?,
            come_back_hash: come_back.map_err(hashing)?,
            entries,
        })
    }

    /// Lets it happen.
    pub(crate) async fn live(self, db: &mut Connection) -> Result<(), Error> {
        let mut markers = Vec::new();
        for (teacher, new) in &self.staff {
            // The file was empty, so no name is taken.
            let id = staff::insert(db, new).await?.ok_or(Error::Stopped)?;
            markers.push(Marker {
                teacher: *teacher,
                id,
            });
        }
        let school = School { markers };
        stock(db).await?;
        sample_size::replace(db, &SIZES).await?;
        let begun = self.staff.first().map_or(0, |(_, new)| new.made_at);
        self.keep_initials(db, school.head()?, begun).await?;
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
                    held.push((hold(db, &at, lesson).await?, lesson));
                }
                What::Round(plan) => school.round(plan, entry, &held)?.hold(db).await?,
            }
        }
        Ok(())
    }

    /// The register may hold initials to the end of a summer to come.
    async fn keep_initials(
        &self,
        db: &mut Connection,
        head: StaffId,
        at: i64,
    ) -> Result<(), Error> {
        let until = Date::new(self.today.year() + 1, 8, 31).unwrap_or(self.today);
        department::update_initials_until(db, Some(until)).await?;
        let new = NewEvent {
            at,
            what: "initials_kept",
            staff_id: Some(head),
            class_set_id: None,
            detail: &format!("until {until}"),
        };
        event::insert(db, &new).await
    }
}

/// The staff in their data file.
struct School {
    markers: Vec<Marker>,
}

impl School {
    fn marker(&self, teacher: Teacher) -> Result<Marker, Error> {
        let mut found = self.markers.iter().filter(|one| one.teacher == teacher);
        found.next().copied().ok_or(Error::Stopped)
    }

    fn head(&self) -> Result<StaffId, Error> {
        Ok(self.marker(Teacher::Beck)?.id)
    }

    /// A round over those of the lessons so far that it is about.
    fn round(
        &self,
        plan: &'static Plan,
        made: &Entry,
        held: &[(ClassSetId, &Lesson)],
    ) -> Result<moderation::Held, Error> {
        let class_sets = held.iter().filter(|(_, lesson)| (plan.is_about)(lesson));
        let markers = plan.markers.iter().map(|teacher| self.marker(*teacher));
        Ok(moderation::Held {
            plan,
            on: made.on,
            from: made.at,
            head: self.head()?,
            markers: markers.collect::<Result<_, _>>()?,
            class_sets: class_sets.map(|(id, _)| *id).collect(),
        })
    }
}

/// The head of department, then her colleagues.
async fn people(passwords: &Passwords, made_at: i64) -> Result<Vec<(Teacher, NewStaff)>, Failure> {
    let head = [(Teacher::Beck, NAME)];
    let mut people = Vec::new();
    for (teacher, name) in head.into_iter().chain(COLLEAGUES) {
        let hashed = passwords.hash(PASSWORD.to_owned()).await;
        let new = NewStaff {
            name: name.to_owned(),
            password_hash: hashed.map_err(hashing)?,
            role: match teacher {
                Teacher::Beck => Role::Head,
                _ => Role::Teacher,
            },
            made_at,
        };
        people.push((teacher, new));
    }
    Ok(people)
}

async fn stock(db: &mut Connection) -> Result<(), Error> {
    for tank in TANKS {
        kit::insert(db, tank.label, kit::Kind::Tank).await?;
    }
    for generator in GENERATORS {
        kit::insert(db, generator.label, kit::Kind::Generator).await?;
    }
    for cord in STRINGS {
        kit::insert(db, cord.label, kit::Kind::String).await?;
    }
    Ok(())
}
