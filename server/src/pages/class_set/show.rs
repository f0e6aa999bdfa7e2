//! A class set: its hand-out, its benches, closing it, and its settings.

use axum::extract::Path;
use axum::http::HeaderMap;

use super::thresholds::ThresholdsTyped;
use super::{help, qr};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::ids::ClassSetId;
use crate::pages::address::Address;
use crate::report;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::time::When;

#[derive(askama::Template)]
#[template(path = "class_set/show.html")]
pub(super) struct ShowPage {
    layout: Layout,
    /// The language of what is handed out.
    say: Say,
    class_set: ClassSet,
    address: Address,
    /// The address with the code in it, as a QR code.
    qr: qr::Qr,
    cautions: Vec<&'static str>,
    needs: Vec<&'static str>,
    /// What the practical is called in the language of what is handed out.
    practical: &'static str,
    benches: PageTable,
    /// What pupils may be told before their sheet is marked.
    look_again: Vec<help::Choice>,
    /// The thresholds as they are, or as they were typed.
    typed: ThresholdsTyped,
}

/// Says how far a bench has come; one without a sheet yet may have been
/// chosen.
fn state(bench: &Bench, when: &When) -> String {
    report::state(
        bench,
        when,
        match bench.come_back_hash {
            Some(_) => "Writing",
            None => "Not begun",
        },
    )
}

fn table(set: ClassSetId, benches: &[Bench], when: &When) -> PageTable {
    Table::of(benches)
        .text("Bench", |bench| &bench.label)
        .text("State", |bench| state(bench, when))
        .text("Sheet", |Bench { label, .. }| {
            let sheet = format!("/class-sets/{set}/sheets/{label}");
            Cell::from("Sheet").link_called(sheet, format!("Sheet of bench {label}"))
        })
        .text("Lost its number?", |bench| match bench.come_back_hash {
            Some(_) => {
                let label = &bench.label;
                let number = format!("/class-sets/{set}/benches/{label}/new-number");
                let says = format!("New number for bench {label}");
                Cell::from("New number").link_called(number, says)
            }
            None => Cell::from("Gets a number when it is chosen"),
        })
        .on_page("Table of benches", "How far each group has come")
}

pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path(id): Path<ClassSetId>,
    headers: HeaderMap,
) -> Reply {
    page(&state, &by, id, &headers, None).await?.reply()
}

/// Returns the page, perhaps with thresholds that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    headers: &HeaderMap,
    refused: Option<ThresholdsTyped>,
) -> Result<Page<ShowPage>, AppError> {
    let mut db = state.reader(by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let benches = bench::list(&mut db, class_set.id).await?;
    drop(db);
    let method = class_set.method()?;
    let address = Address::of(&state.pupils_address, headers);
    Ok(Page(ShowPage {
        layout: by.layout.clone(),
        say: state.say,
        qr: qr::Qr::of(&format!("{}/c/{}", address.text, class_set.join_code))?,
        address,
        cautions: state.say.cautions_of_hand_out(method),
        needs: state.say.needs(method),
        practical: state.say.method(method),
        benches: table(id, &benches, &state.when()),
        look_again: help::choices(class_set.look_again),
        typed: refused.unwrap_or_else(|| ThresholdsTyped::of(&class_set)),
        class_set,
    }))
}
