//! The invented department: its people, its apparatus, its term.

use std::path::Path;

use jiff::civil::Date;
use server::clock::{Clock, HOUR, Zone};
use server::db::class_set::ClassSet;
use server::db::staff::{self, NewStaff, Role};
use server::db::{Connection, Error, Store, class_set, kit};
use server::error::AppError;
use server::ids::StaffId;
use server::password::Passwords;
use server::secret;
use server::serve::DataFile;

use crate::kit::{STRINGS, TANKS};
use crate::lesson::{Held, hold};
use crate::term::{Lesson, lessons, school_day};

/// Who signs in to look at the demo.
pub(crate) const NAME: &str = "Dr Beck";
/// Her password: printed at every start, so no secret.
pub(crate) const PASSWORD: &str = "eleven crests";
/// The come-back number of every bench.
pub(crate) const COME_BACK: &str = "4071";
/// A colleague.
const COLLEAGUE: &str = "Mr Tarn";

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
    head: NewStaff,
    colleague: NewStaff,
    come_back_hash: String,
    term: Vec<(Date, i64, Lesson)>,
}

impl Department {
    async fn prepare(zone: &Zone) -> Result<Self, Failure> {
        let now = Clock::System.now();
        let today = zone.date(now);
        let mut term = Vec::new();
        for lesson in lessons() {
            let on = school_day(today, lesson.school_days_ago);
            let starts = on
                .to_datetime(lesson.starts)
                .to_zoned_datetime(zone.0.clone())?;
            term.push((on, starts.timestamp().as_millisecond(), lesson));
        }
        let first = term.first().map_or(now, |(_, starts, _)| *starts);
        let beforehand = first - 24 * HOUR;
        let passwords = Passwords::default();
        let hash = async |secret: String| passwords.hash(secret).await.map_err(hashing);
        let person = |name: &str, role, password_hash| NewStaff {
            name: name.to_owned(),
            password_hash,
            role,
            made_at: beforehand,
        };
        Ok(Self {
            head: person(NAME, Role::Head, hash(PASSWORD.to_owned()).await?),
            // Nobody signs in with this one: its password is not written down.
            colleague: person(COLLEAGUE, Role::Teacher, hash(secret::token()).await?),
            come_back_hash: hash(COME_BACK.to_owned()).await?,
            term,
        })
    }

    async fn store(self, db: &mut Connection) -> Result<(), Error> {
        let head = join(db, &self.head).await?;
        let colleague = join(db, &self.colleague).await?;
        stock(db).await?;
        for (index, (on, starts, lesson)) in self.term.iter().enumerate() {
            let held = Held {
                on: *on,
                starts: *starts,
                teacher: if is_taught_by_head(lesson) {
                    head
                } else {
                    colleague
                },
                come_back_hash: self.come_back_hash.clone(),
            };
            hold(db, &held, index, lesson).await?;
        }
        Ok(())
    }
}

fn is_taught_by_head(lesson: &Lesson) -> bool {
    lesson.class != "10A/Ph1"
}

async fn join(db: &mut Connection, new: &NewStaff) -> Result<StaffId, Error> {
    // The file was empty, so no name is taken.
    staff::insert(db, new).await?.ok_or(Error::Stopped)
}

async fn stock(db: &mut Connection) -> Result<(), Error> {
    for tank in TANKS {
        kit::insert(db, tank.label, kit::Kind::Tank).await?;
    }
    for number in 1..=4 {
        kit::insert(db, &format!("Generator {number}"), kit::Kind::Generator).await?;
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
