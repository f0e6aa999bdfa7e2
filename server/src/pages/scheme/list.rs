//! The schemes of the department.

use analysis::method::Method;

use crate::db::scheme::{self, Scheme};
use crate::ids::SchemeId;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "scheme/list.html")]
pub(super) struct ListPage {
    layout: Layout,
    methods: Vec<(Method, Vec<Scheme>)>,
    refused: Option<RefusedCopy>,
}

/// A name that could not be taken.
pub(super) struct RefusedCopy {
    /// The scheme that was to be copied.
    pub(super) from: SchemeId,
    /// As typed.
    pub(super) name: String,
    pub(super) fault: &'static str,
}

impl ListPage {
    /// Says what stands in the box for a copy's name.
    fn typed(&self, from: &SchemeId) -> &str {
        let refused = self.refused.as_ref().filter(|one| one.from == *from);
        refused.map_or("", |one| one.name.as_str())
    }
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, &by, None).await?.reply()
}

/// Returns the page, perhaps with a name that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: &SignedIn,
    refused: Option<RefusedCopy>,
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
