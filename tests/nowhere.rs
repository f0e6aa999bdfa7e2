//! What is not there, and forms that no page gave out: on every route that
//! the router has.

use axum::http::Method;

use crate::moderation::department::marked;
use crate::roles::{addresses, asks, form};

/// What leads on to a page that refuses, or asks for its form or for a mark
/// first.
const OTHERWISE: [&str; 5] = [
    "GET /class-sets/{id}/import",
    "POST /class-sets/{id}/import",
    "POST /class-sets/{id}/import/keep",
    "POST /class-sets/{id}/marking/scheme",
    "POST /class-sets/{id}/marking/undo",
];

/// A form that would be taken.
fn good(path: &str) -> Vec<(&'static str, &'static str)> {
    match path {
        "/class-sets/{id}/state" => vec![("state", "closed")],
        "/class-sets/{id}/help" => vec![("live", "on"), ("look_again", "step")],
        _ => form(path, 4),
    }
}

#[tokio::test]
async fn class_set_or_bench_that_is_none_is_404_on_every_route() {
    let mut at = marked().await;
    let mut ash = at.head.colleague("Mr Ash").await;
    let addresses = addresses(&mut at, &mut ash).await;
    let mut wrong = Vec::new();
    let mut asked = 0;
    let of_class_sets = asks().into_iter().filter(|ask| ask.path.contains("{id}"));
    for ask in of_class_sets {
        let name = format!("{} {}", ask.method, ask.path);
        let unknown = [("{id}", "99"), ("{label}", "Z")].into_iter();
        for (part, none) in unknown.filter(|(part, _)| ask.path.contains(part)) {
            let url = addresses.fill(&ask.path.replace(part, none));
            let reply = match ask.method {
                Method::GET => at.head.get(&url).await,
                _ => at.head.post_staff(&url, &good(&ask.path)).await,
            };
            asked += 1;
            if reply.status != 404 && !OTHERWISE.contains(&name.as_str()) {
                wrong.push(format!("{name} without {part}: {}", reply.status));
            }
        }
    }
    assert!(wrong.is_empty() && asked > 50, "{asked}: {wrong:#?}");
}

#[tokio::test]
async fn staff_form_without_the_sessions_token_is_refused_on_every_route() {
    let mut at = marked().await;
    let mut ash = at.head.colleague("Mr Ash").await;
    let addresses = addresses(&mut at, &mut ash).await;
    let before = crate::scope::contents(&at.app).await;
    let mut wrong = Vec::new();
    let for_staff = asks().into_iter().filter(|ask| {
        let is_open = ask.path == "/join" || ask.path == "/staff/sign-in";
        let is_of_pupils = ask.path.starts_with("/c/") || ask.path.contains("{token}");
        ask.method == Method::POST && !is_open && !is_of_pupils
    });
    for ask in for_staff {
        let url = addresses.fill(&ask.path);
        for token in [None, Some(""), Some("0")] {
            let mut boxes = form(&ask.path, 4);
            boxes.extend(token.map(|token| ("token", token)));
            let reply = at.head.post(&url, &boxes).await;
            if !matches!(reply.status.as_u16(), 400 | 403) {
                wrong.push(format!("{} with {token:?}: {}", ask.path, reply.status));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert_eq!(crate::scope::contents(&at.app).await, before);
}
