//! Two departments in one file: whoever is head of one asks every route for
//! what the other owns, and neither sees nor changes any of it.

use axum::http::Method;
use server::secret::sha256;
use sqlx::{AssertSqlSafe, Row as _};

use crate::moderation::department::{Department, marked};
use crate::roles::{addresses, asks, form};
use crate::support::{Browser, NAME, TestApp};

/// What pages of the first department are known by.
const NAMES: [&str; 5] = [NAME, "Mr Tarn", "Mrs Gill", "Class of theirs", "Tank 1"];

/// The head of a second department, signed in.
async fn stranger(app: &TestApp) -> Browser {
    let session = "ab".repeat(32);
    let sql = "UPDATE class SET name = 'Class of theirs';
               INSERT INTO department (id, name) VALUES (2, 'Other department');
               INSERT INTO staff (id, department_id, name, name_key, password_hash, role, made_at)
               SELECT 99, 2, 'Mx Reed', 'mx reed', password_hash, 'head', made_at FROM staff LIMIT 1;";
    let mut db = app.sql().await;
    sqlx::raw_sql(sql).execute(&mut db).await.unwrap();
    sqlx::query(
        "INSERT INTO sign_in (token_hash, staff_id, made_at, seen_at) VALUES ($1, 99, $2, $2)",
    )
    .bind(sha256(&session))
    .bind(app.clock.now())
    .execute(&mut db)
    .await
    .unwrap();
    let mut browser = app.browser();
    browser.set_cookie("sid", &session);
    browser
}

/// Every row of every table that is not the stranger's own.
pub(crate) async fn contents(app: &TestApp) -> Vec<String> {
    let mut db = app.sql().await;
    let tables: Vec<String> = sqlx::query_scalar(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name",
    )
    .fetch_all(&mut db)
    .await
    .unwrap();
    let mut all = Vec::new();
    for table in tables {
        let columns: Vec<String> = sqlx::query_scalar("SELECT name FROM pragma_table_info($1)")
            .bind(&table)
            .fetch_all(&mut db)
            .await
            .unwrap();
        let text: Vec<String> = columns.iter().map(|c| format!("quote({c})")).collect();
        let own = if columns.iter().any(|c| c == "department_id") {
            "WHERE department_id <> 2"
        } else {
            ""
        };
        let sql = format!("SELECT {} FROM {table} {own}", text.join(" || ', ' || "));
        let rows = sqlx::query(AssertSqlSafe(sql)).fetch_all(&mut db).await;
        for row in rows.unwrap() {
            all.push(format!("{table}: {}", row.get::<String, _>(0)));
        }
    }
    all
}

async fn first_department() -> (Department, Browser) {
    let mut at = marked().await;
    let ash = at.head.colleague("Mr Ash").await;
    (at, ash)
}

#[tokio::test]
async fn nothing_of_one_department_is_seen_or_changed_by_another() {
    let (mut at, mut ash) = first_department().await;
    let app = at.app.clone();
    let addresses = addresses(&mut at, &mut ash).await;
    let mut stranger = stranger(&app).await;
    // Comes with its own sign-in, of which the table has no department.
    stranger.opens("/class-sets").await;
    let before = contents(&app).await;
    let mut wrong = Vec::new();
    // A class's code and its benches are for whoever has the code; a link to
    // an account leads to its own department.
    let for_staff = asks().into_iter().filter(|ask| {
        let path = &ask.path;
        !(path.starts_with("/c/") || path.starts_with("/static") || path.contains("{token}"))
            && path != "/join"
            && path != "/staff/sign-in"
            && path != "/staff/sign-out"
            && path != "/staff/invite"
    });
    for ask in for_staff {
        let url = addresses.fill(&ask.path);
        let is_about_one = ask.path.contains('{') && !ask.path.starts_with("/year/slips");
        let reply = if ask.method == Method::GET {
            stranger.get(&url).await
        } else {
            stranger.post_staff(&url, &form(&ask.path, 4)).await
        };
        let name = format!("{} {}: {}", ask.method, ask.path, reply.status);
        // That page only leads on to the page of files, which refuses.
        let leads_on = url.ends_with("/import") && reply.status == 303;
        let is_refused = leads_on || matches!(reply.status.as_u16(), 400 | 403 | 404 | 422);
        if is_about_one && !is_refused {
            wrong.push(name.clone());
        }
        for told in NAMES.iter().filter(|told| reply.text.contains(**told)) {
            wrong.push(format!("{name} tells of {told}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    let after = contents(&app).await;
    for row in &before {
        assert!(after.contains(row), "{row} was changed or taken away");
    }
}
