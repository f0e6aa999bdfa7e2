//! The schemes of the department.

use analysis::method::Method;

use crate::db::scheme::{self, Scheme};
use crate::error::{AppError, Reply};
use crate::layout::{Layout, Page};
use crate::session::SignedIn;
use crate::state::AppState;

/// The page.
#[derive(askama::Template)]
#[template(path = "scheme/list.html")]
pub(super) struct ListPage {
    layout: Layout,
    methods: Vec<(Method, Vec<Scheme>)>,
    /// A name that could not be taken, and why.
    refused: Option<(String, &'static str)>,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, &by, None).await?.reply()
}

/// The page, perhaps with a name that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: &SignedIn,
    refused: Option<(String, &'static str)>,
) -> Result<Page<ListPage>, AppError> {
    let schemes = scheme::list(&mut state.reader(by).await?).await?;
    let methods = Method::ALL.map(|method| {
        let own = schemes
            .iter()
            .filter(|scheme| scheme.method == method.code());
        (method, own.cloned().collect())
    });
    Ok(Page(ListPage {
        layout: by.layout.clone(),
        methods: methods.into(),
        refused,
    }))
}
