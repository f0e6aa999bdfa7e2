//! The front page: one box, for the lesson code, which leads to its benches.

use crate::web::error::Reply;
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::{Layout, Page, go};
use crate::web::state::AppState;

/// The page, also as it comes back after a code that is none.
#[derive(askama::Template)]
#[template(path = "front/welcome.html")]
struct WelcomePage {
    layout: Layout,
    code: TypedText,
}

/// Asks for the lesson code.
pub(super) async fn get(state: AppState) -> Reply {
    page(&state, TypedText::default()).reply()
}

/// Looks the code up. Spaces, hyphens and small letters do not matter.
pub(super) async fn post(state: AppState, pairs: Pairs) -> Reply {
    let mut typed = pairs.typed_in("code");
    let letters = typed.text.chars().filter(char::is_ascii_alphabetic).take(6);
    let code = letters.collect::<String>().to_uppercase();
    let found = state.store.door().await?.find_by_code(&code).await?;
    if found.is_some() {
        return go(format!("/c/{code}"));
    }
    typed.refuse(match typed.text.trim() {
        "" => state.say.join_empty(),
        _ => state.say.join_no_such_code(),
    });
    page(&state, typed).refused()
}

fn page(state: &AppState, code: TypedText) -> Page<WelcomePage> {
    let layout = Layout::public(state.say);
    Page(WelcomePage { layout, code })
}
