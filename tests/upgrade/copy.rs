//! The copy that is kept before a data file is changed.

use std::fs;
use std::path::{Path, PathBuf};

use server::acts;
use server::db::{Error, MIGRATOR, kit};
use sqlx::migrate::Migrator;
use sqlx::sqlite::{SqliteConnectOptions, SqliteConnection};
use sqlx::{ConnectOptions as _, Connection as _};

use crate::support::DEPARTMENT;

async fn connect(path: &Path) -> SqliteConnection {
    let options = SqliteConnectOptions::new().filename(path);
    options.create_if_missing(true).connect().await.unwrap()
}

/// A file that lacks the newest migration, with a kit of this label in it,
/// which is still in the write-ahead log.
async fn earlier(path: &Path, label: &str) -> SqliteConnection {
    let mut db = connect(path).await;
    let mode = "PRAGMA journal_mode = WAL";
    sqlx::query(mode).execute(&mut db).await.unwrap();
    let all = MIGRATOR.iter().cloned().collect::<Vec<_>>();
    let earlier = Migrator::with_migrations(all[..all.len() - 1].to_vec());
    earlier.run(&mut db).await.unwrap();
    add(&mut db, label).await;
    db
}

async fn add(db: &mut SqliteConnection, label: &str) {
    let sql =
        "INSERT INTO kit (department_id, label, label_key, kind) VALUES (1, $1, lower($1), 'tank')";
    sqlx::query(sql).bind(label).execute(db).await.unwrap();
}

async fn open(path: &Path) -> Result<Vec<String>, Error> {
    let (store, writing) = acts::open(path).await?;
    let kits = kit::list(&mut store.reader(DEPARTMENT).await?).await?;
    store.close().await;
    writing.await.unwrap()?;
    Ok(kits.into_iter().map(|kit| kit.label).collect())
}

/// What a file holds: its kits, and how many migrations it has seen.
async fn held(path: &Path) -> (Vec<String>, i64) {
    let mut db = connect(path).await;
    let kits = sqlx::query_scalar("SELECT label FROM kit ORDER BY id");
    let kits = kits.fetch_all(&mut db).await.unwrap();
    let run = sqlx::query_scalar("SELECT count(*) FROM _sqlx_migrations");
    let run = run.fetch_one(&mut db).await.unwrap();
    db.close().await.unwrap();
    (kits, run)
}

/// The copies beside a file, by name.
fn copies(path: &Path) -> Vec<PathBuf> {
    let files = fs::read_dir(path.parent().unwrap()).unwrap();
    let files = files.map(|file| file.unwrap().path());
    let mut copies: Vec<_> = files
        .filter(|file| file.to_str().unwrap().contains(".before-"))
        .collect();
    copies.sort();
    copies
}

fn newest() -> i64 {
    MIGRATOR.iter().last().unwrap().version
}

/// How many migrations an earlier file has seen.
fn earlier_ones() -> i64 {
    i64::try_from(MIGRATOR.iter().count()).unwrap() - 1
}

#[tokio::test]
async fn file_of_an_earlier_version_is_copied_before_it_is_changed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    // The earlier program did not get to writing its log back.
    let earlier = earlier(&path, "Tank 1").await;
    assert_eq!(open(&path).await.unwrap(), ["Tank 1"]);
    drop(earlier);
    let name = format!("data.db.before-{:04}", newest());
    assert_eq!(copies(&path), [folder.path().join(name)]);
    let (kits, run) = held(&copies(&path)[0]).await;
    assert_eq!((kits.len(), run), (1, earlier_ones()));
    // The next start has nothing to do.
    open(&path).await.unwrap();
    assert_eq!(copies(&path).len(), 1);
}

#[tokio::test]
async fn new_file_is_not_copied() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    open(&path).await.unwrap();
    assert!(copies(&path).is_empty(), "there was nothing to copy");
}

#[tokio::test]
async fn earlier_copy_is_never_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    earlier(&path, "Tank 1").await.close().await.unwrap();
    let before = fs::read(&path).unwrap();
    for (label, copies_then) in [(None, 1), (None, 1), (Some("Tank 2"), 2)] {
        // Somebody goes back to the file as it was, and works on.
        fs::write(&path, &before).unwrap();
        if let Some(label) = label {
            let mut db = connect(&path).await;
            add(&mut db, label).await;
            db.close().await.unwrap();
        }
        open(&path).await.unwrap();
        assert_eq!(copies(&path).len(), copies_then, "{label:?}");
    }
    let copies = copies(&path);
    assert_eq!(held(&copies[0]).await.0, ["Tank 1"]);
    assert_eq!(held(&copies[1]).await.0, ["Tank 1", "Tank 2"]);
}

#[tokio::test]
async fn without_a_copy_nothing_is_changed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    earlier(&path, "Tank 1").await.close().await.unwrap();
    // A folder in its place, which no file can take.
    let part = format!("data.db.before-{:04}.part", newest());
    let part = folder.path().join(part);
    fs::create_dir(&part).unwrap();
    let refused = open(&path).await.unwrap_err();
    assert!(matches!(refused, Error::Copy(_)), "{refused}");
    assert_eq!(held(&path).await.1, earlier_ones());
    fs::remove_dir(&part).unwrap();
    open(&path).await.unwrap();
}

#[cfg(unix)]
#[tokio::test]
async fn copy_is_as_private_as_the_file() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("data.db");
    earlier(&path, "Tank 1").await.close().await.unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
    open(&path).await.unwrap();
    let mode = fs::metadata(&copies(&path)[0])
        .unwrap()
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o600);
}
