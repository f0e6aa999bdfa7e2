//! Bringing a data file up to date. A copy of it is kept beside it first.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use sqlx::sqlite::SqliteConnection;

use super::{Error, MIGRATOR};

/// Runs the migrations that a data file lacks. Before that, the file as it is
/// is copied to `data.db.before-0006`, named after the first of them, and no
/// earlier copy is ever overwritten. A new file is not copied.
///
/// # Errors
/// [`Error::Copy`] when no copy can be made: then nothing was changed. When a
/// migration fails, or the file is from a newer program.
pub(super) async fn upgrade(db: &mut SqliteConnection, path: &Path) -> Result<(), Error> {
    if let Some(version) = find_first_missing(db).await? {
        let copy = keep_copy(db, path, version).await.map_err(Error::Copy)?;
        tracing::info!(copy = %copy.display(), "the data file is brought up to date; a copy was kept");
    }
    Ok(MIGRATOR.run(db).await?)
}

/// Returns the first migration that the file lacks. Returns `None` when it
/// lacks none, and where it is new.
async fn find_first_missing(db: &mut SqliteConnection) -> Result<Option<i64>, Error> {
    let sql = "SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE name = '_sqlx_migrations')";
    let is_ours: bool = sqlx::query_scalar(sql).fetch_one(&mut *db).await?;
    if !is_ours {
        return Ok(None);
    }
    let sql = "SELECT version FROM _sqlx_migrations";
    let run: Vec<i64> = sqlx::query_scalar(sql).fetch_all(db).await?;
    let mut all = MIGRATOR.iter().map(|migration| migration.version);
    Ok(all.find(|version| !run.is_empty() && !run.contains(version)))
}

/// Copies the file with all that was committed, the write-ahead log included,
/// and returns when the copy is on the disk. A start that failed half-way left
/// the same copy already: that one stays.
async fn keep_copy(db: &mut SqliteConnection, path: &Path, version: i64) -> io::Result<PathBuf> {
    let name = format!("{}.before-{version:04}", path.display());
    let new = PathBuf::from(format!("{name}.part"));
    remove_left_over(&new)?;
    // Nobody may read the copy who may not read the file.
    let file = File::create_new(&new)?;
    file.set_permissions(fs::metadata(path)?.permissions())?;
    sqlx::query("VACUUM INTO $1")
        .bind(utf8(&new)?)
        .execute(db)
        .await
        .map_err(io::Error::other)?;
    File::open(&new)?.sync_all()?;
    let mut copy = PathBuf::from(&name);
    let mut number = 1;
    while copy.exists() {
        if is_same(&copy, &new)? {
            fs::remove_file(&new)?;
            return Ok(copy);
        }
        number += 1;
        copy = PathBuf::from(format!("{name}-{number}"));
    }
    fs::rename(&new, &copy)?;
    sync_folder(&copy)?;
    Ok(copy)
}

fn remove_left_over(part: &Path) -> io::Result<()> {
    match fs::remove_file(part) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}

fn utf8(path: &Path) -> io::Result<&str> {
    let why = "the path of the data file is not UTF-8";
    path.to_str().ok_or_else(|| io::Error::other(why))
}

/// Says whether two files hold the same, byte for byte.
fn is_same(one: &Path, other: &Path) -> io::Result<bool> {
    if fs::metadata(one)?.len() != fs::metadata(other)?.len() {
        return Ok(false);
    }
    Ok(fs::read(one)? == fs::read(other)?)
}

/// Writes the name of a new file to the disk. Only Unix lets a program do so.
fn sync_folder(file: &Path) -> io::Result<()> {
    match file.parent() {
        Some(folder) if cfg!(unix) => {
            let folder = if folder == Path::new("") {
                Path::new(".")
            } else {
                folder
            };
            File::open(folder)?.sync_all()
        }
        _ => Ok(()),
    }
}
