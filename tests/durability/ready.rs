//! A class set whose benches have browsers already, so that a test can hand
//! in at once.

use std::path::Path;

use analysis::method::Method;
use server::clock::Clock;
use server::db::class_set::{self, NewClassSet};
use server::db::staff::{self, NewStaff, Role};
use server::db::{Error, Writing, bench, sign_in, visit};
use server::secret::sha256;

/// Cookie of the browser at bench `label`.
pub(super) fn cookie(label: &str) -> String {
    format!("browser at {label}").replace(' ', "-")
}

/// The session of the teacher.
pub(super) const SESSION: &str = "the-teachers-browser";

/// Makes a data file with one class set of so many groups, each with a
/// browser at its bench; the join code.
pub(super) async fn class_set(path: &Path, groups: u8) -> String {
    let (store, writing) = server::acts::open(path).await.unwrap();
    let code = store
        .writer()
        .run(move |db| Box::pin(make(db, groups)))
        .await
        .unwrap();
    drop(store);
    writing.await.unwrap().unwrap();
    code
}

async fn make(db: &mut Writing, groups: u8) -> Result<String, Error> {
    let now = Clock::System.now();
    let teacher = NewStaff {
        name: "Ms Fell".to_owned(),
        password_hash: "nobody signs in".to_owned(),
        role: Role::Teacher,
        made_at: now,
    };
    let teacher = staff::insert(db, &teacher).await?.unwrap();
    let new = NewClassSet {
        class_name: "10B/Ph2".to_owned(),
        method: Method::RippleTank,
        held_on: jiff::civil::date(2026, 11, 24),
        groups,
        is_live: true,
        created_by: teacher,
        made_at: now,
    };
    let id = class_set::insert(db, &new).await?;
    sign_in::insert(db, &sha256(SESSION), teacher, now).await?;
    for bench in bench::list(db, id).await? {
        visit::insert(db, &sha256(&cookie(&bench.label)), bench.id, now).await?;
    }
    Ok(class_set::get(db, id).await?.join_code)
}
