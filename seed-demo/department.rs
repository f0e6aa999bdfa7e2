//! The invented department in its data file: who signs in, and which files it
//! may replace.

use std::path::Path;

use server::acts::{self, Anyone};
use server::changes::Changes;
use server::clock::Zone;
use server::db::class_set::ClassSet;
use server::db::{Connection, Error, Store, class_set, staff};
use server::ids::DepartmentId;
use server::serve::DataFile;
use server::web::error::AppError;
use server::web::password::Passwords;

use crate::diary::Diary;
use crate::term::Teacher;

/// Who signs in to look at the demo.
pub(crate) const NAME: &str = "Dr Beck";
/// Her password: printed at every start, so no secret.
pub(crate) const PASSWORD: &str = "eleven crests";
/// The come-back number of every bench.
pub(crate) const COME_BACK: &str = "4071";
/// Her colleagues; they have the same password.
pub(crate) const COLLEAGUES: [(Teacher, &str); 3] = [
    (Teacher::Tarn, "Mr Tarn"),
    (Teacher::Holm, "Ms Holm"),
    (Teacher::Rook, "Mr Rook"),
];

pub(crate) type Failure = Box<dyn std::error::Error>;

/// What a data file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Contents {
    /// Nobody has an account in it.
    Nothing,
    Demo,
    /// Somebody else's work.
    Other,
}

/// Looks whether a data file is empty, the demo's, or somebody's.
pub(crate) async fn contents(store: &Store) -> Result<Contents, Failure> {
    let mut db = read(store).await?;
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

/// Returns the refusal to touch a file that holds somebody's work.
pub(crate) fn foreign(path: &Path) -> Failure {
    format!(
        "{} was not made by seed-demo; name another file with --data",
        path.display()
    )
    .into()
}

/// Fills an empty data file.
pub(crate) async fn fill(store: &Store, zone: &Zone) -> Result<(), Failure> {
    let diary = Diary::prepare(zone).await?;
    let nobody_listens = Changes::new(0);
    let by = (department(store).await?, Anyone);
    Ok(acts::perform(store, &nobody_listens, diary.begins(), &by, diary).await?)
}

/// Takes what an act did: the demo is planned so that nothing is refused.
pub(crate) fn done<T, R: std::fmt::Debug>(outcome: Result<T, R>) -> Result<T, Error> {
    outcome.map_err(|refused| Error::Panicked(format!("refused: {refused:?}")))
}

/// Returns the newest class set that is still open.
pub(crate) async fn find_open(store: &Store) -> Result<Option<ClassSet>, Error> {
    let listed = class_set::list(&mut read(store).await?).await?;
    let mut sets = listed.into_iter().map(|line| line.class_set);
    Ok(sets.find(ClassSet::is_open))
}

/// Returns the one department of the file.
async fn department(store: &Store) -> Result<DepartmentId, Error> {
    let departments = store.door().await?.list().await?;
    departments.first().copied().ok_or(Error::Missing)
}

async fn read(store: &Store) -> Result<Connection, Error> {
    store.reader(department(store).await?).await
}

pub(crate) fn hashing(error: AppError) -> Failure {
    match error {
        AppError::Internal(cause) => cause,
        other => format!("a password cannot be hashed or checked: {other:?}").into(),
    }
}
