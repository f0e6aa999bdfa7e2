//! The invented department: its people, its apparatus, its lessons.

use std::path::Path;

use jiff::civil::Date;
use server::clock::{Clock, HOUR, Zone};
use server::db::class_set::ClassSet;
use server::db::staff::{self, NewStaff, Role};
use server::db::{Connection, Error, Store, class_set, department, kit};
use server::error::AppError;
use server::ids::StaffId;
use server::password::Passwords;
use server::serve::DataFile;

use crate::kit::{GENERATORS, STRINGS, TANKS};
use crate::lesson::{Held, hold};
use crate::pile::Marker;
use crate::term::{self, Lesson, Teacher, day};
use crate::year;

/// Who signs in to look at the demo.
pub(crate) const NAME: &str = "Dr Beck";
/// Her password: printed at every start, so no secret.
pub(crate) const PASSWORD: &str = "eleven crests";
/// The come-back number of every bench.
pub(crate) const COME_BACK: &str = "4071";
/// Her colleagues.
const COLLEAGUES: [(Teacher, &str); 3] = [
    (Teacher::Tarn, "Mr Tarn"),
    (Teacher::Holm, "Ms Holm"),
    (Teacher::Rook, "Mr Rook"),
];

type Failure = Box<dyn std::error::Error>;

/// What a data file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Contents {
    /// Nobody has an account in it.
    Nothing,
    /// The demo department.
    Demo,
    /// Somebody else's work.
    Other,
}

/// Looks whether a data file is empty, the demo's, or somebody's.
pub(crate) async fn contents(store: &Store) -> Result<Contents, Failure> {
    let mut db = store.reader().await?;
    if staff::count(&mut db).await? == 0 {
        return Ok(Contents::Nothing);
    }
    let Some(head) = staff::find_by_name(&mut db, NAME).await? else {
        return Ok(Contents::Other);
    };
    drop(db);
    let passwords = Passwords::default();
    let is_ours = passwords
        .is_right(PASSWORD.to_owned(), Some(head.password_hash))
        .await;
    Ok(if is_ours.map_err(hashing)? {
        Contents::Demo
    } else {
        Contents::Other
    })
}

/// Takes an earlier demo away; anything else is left as it is.
pub(crate) async fn discard(path: &Path) -> Result<(), Failure> {
    if !path.exists() {
        return Ok(());
    }
    let file = DataFile::open(path).await?;
    let contents = contents(&file.store).await?;
    file.close().await?;
    if contents == Contents::Other {
        return Err(foreign(path));
    }
    Ok(std::fs::remove_file(path)?)
}

/// The refusal to touch a file that holds somebody's work.
pub(crate) fn foreign(path: &Path) -> Failure {
    format!(
        "{} was not made by seed-demo; name another file with --data",
        path.display()
    )
    .into()
}

/// Fills an empty data file, all in one transaction: a demo that was
/// interrupted is no demo, and the next start makes it.
pub(crate) async fn fill(store: &Store, zone: &Zone) -> Result<(), Failure> {
    let department = Department::prepare(zone).await?;
    let made = store
        .writer()
        .run(move |db| Box::pin(async move { department.store(db).await }));
    Ok(made.await?)
}

/// All that is to be stored, with secrets hashed and dates fixed.
struct Department {
    today: Date,
    staff: Vec<(Teacher, NewStaff)>,
    come_back_hash: String,
    lessons: Vec<(Date, i64, Lesson)>,
}

impl Department {
    async fn prepare(zone: &Zone) -> Result<Self, Failure> {
        let now = Clock::System.now();
        let today = zone.date(now);
        let mut dated = Vec::new();
        let lessons = year::lessons().into_iter().chain(term::lessons());
        for lesson in lessons {
            let on = day(today, lesson.when);
            let starts = on
                .to_datetime(lesson.starts)
                .to_zoned_datetime(zone.0.clone())?;
            dated.push((on, starts.timestamp().as_millisecond(), lesson));
        }
        let first = dated.first().map_or(now, |(_, starts, _)| *starts);
        let beforehand = first - 24 * HOUR;
        let passwords = Passwords::default();
        let hash = async |secret: String| passwords.hash(secret).await.map_err(hashing);
        let person = |name: &str, role, password_hash| NewStaff {
            name: name.to_owned(),
            password_hash,
            role,
            made_at: beforehand,
        };
        let head = person(NAME, Role::Head, hash(PASSWORD.to_owned()).await?);
        let mut staff = vec![(Teacher::Beck, head)];
        for (teacher, name) in COLLEAGUES {
            let hash = hash(PASSWORD.to_owned()).await?;
            staff.push((teacher, person(name, Role::Teacher, hash)));
        }
        Ok(Self {
            today,
            staff,
            come_back_hash: hash(COME_BACK.to_owned()).await?,
            lessons: dated,
        })
    }

    async fn store(self, db: &mut Connection) -> Result<(), Error> {
        let mut staff = Vec::new();
        for (teacher, new) in &self.staff {
            staff.push((*teacher, join(db, new).await?));
        }
        stock(db).await?;
        department::update_initials_until(db, Some(self.initials_until())).await?;
        for (on, starts, lesson) in &self.lessons {
            let held = Held {
                on: *on,
                starts: *starts,
                today: self.today,
                marker: Marker {
                    teacher: lesson.teacher,
                    id: id_of(&staff, lesson.teacher)?,
                },
                come_back_hash: self.come_back_hash.clone(),
            };
            hold(db, &held, lesson).await?;
        }
        Ok(())
    }
}

impl Department {
    /// The end of a summer to come.
    fn initials_until(&self) -> Date {
        Date::new(self.today.year() + 1, 8, 31).unwrap_or(self.today)
    }
}

fn id_of(staff: &[(Teacher, StaffId)], teacher: Teacher) -> Result<StaffId, Error> {
    let mut found = staff.iter().filter(|(one, _)| *one == teacher);
    found.next().map(|(_, id)| *id).ok_or(Error::Stopped)
}

async fn join(db: &mut Connection, new: &NewStaff) -> Result<StaffId, Error> {
    // The file was empty, so no name is taken.
    staff::insert(db, new).await?.ok_or(Error::Stopped)
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

/// The newest class set that is still open.
pub(crate) async fn find_open(store: &Store) -> Result<Option<ClassSet>, Error> {
    let listed = class_set::list(&mut *store.reader().await?).await?;
    Ok(listed
        .into_iter()
        .map(|line| line.class_set)
        .find(ClassSet::is_open))
}

fn hashing(error: AppError) -> Failure {
    match error {
        AppError::Internal(cause) => cause,
        other => format!("a password cannot be hashed or checked: {other:?}").into(),
    }
}
