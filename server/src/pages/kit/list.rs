//! The list of kits, and adding one.

use crate::acts::{ListKit, Taken};
use crate::db::kit::{self, Kind};
use crate::table::{PageTable, Table};
use crate::web::error::Reply;
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::refusal;

#[derive(askama::Template)]
#[template(path = "kit/list.html")]
struct ListPage {
    layout: Layout,
    kits: PageTable,
    label: TypedText,
    /// Code of the kind.
    kind: TypedText,
}

async fn page(
    state: &AppState,
    by: SignedIn,
    label: TypedText,
    kind: TypedText,
) -> Result<Page<ListPage>, crate::web::error::AppError> {
    let kits = kit::list(&mut state.reader(&by).await?).await?;
    Ok(Page(ListPage {
        layout: by.layout,
        kits: Table::of(&kits)
            .text("Label", |kit| &kit.label)
            .text("Kind", |kit| crate::words::kit(kit.kind))
            .on_page("", "Kits of the department"),
        label,
        kind,
    }))
}

/// Shows the list, with a form to add one.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let kind = TypedText::new(Kind::Tank.code());
    let page = page(&state, by, TypedText::default(), kind).await?;
    page.reply()
}

/// Adds a kit.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let mut label = TypedText::new(form.pairs.trimmed("label"));
    let mut kind = form.pairs.typed_in("kind");
    let named = label.check(|label| match label.chars().count() {
        0 => Err(refusal::LABEL_OF_KIT),
        1..=40 => Ok(label.to_owned()),
        _ => Err(refusal::AT_MOST_40),
    });
    let chosen = kind.check(|code| Kind::from_code(code).ok_or(refusal::KIND_OF_KIT));
    if let Some((named, kind)) = named.zip(chosen) {
        let act = ListKit { label: named, kind };
        match state.act(&form.by, act).await? {
            Ok(_) => return go("/kits"),
            Err(Taken) => label.refuse(refusal::KIT_LISTED),
        }
    }
    page(&state, form.by, label, kind).await?.refused()
}
