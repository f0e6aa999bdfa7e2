//! My class sets, newest lesson first.

use crate::db::class_set::{self, Listed};
use crate::table::{Cell, PageTable, Table};
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "class_set/list.html")]
struct ListPage {
    layout: Layout,
    table: PageTable,
}

pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let listed = class_set::list(&mut state.reader(&by).await?).await?;
    Page(ListPage {
        layout: by.layout,
        table: table(&listed),
    })
    .reply()
}

fn table(listed: &[Listed]) -> PageTable {
    Table::of(listed)
        .text("Class", |line| {
            let set = &line.class_set;
            Cell::from(&set.class_name).link(format!("/class-sets/{}", set.id))
        })
        .text("Practical", |line| line.class_set.practical())
        .name("Date", |line| line.class_set.date())
        .text("Code", |line| &line.class_set.join_code)
        .text("State", |line| match line.class_set.is_open() {
            true => "Open",
            false => "Closed",
        })
        .text("Handed in", |line| {
            format!("{} of {}", line.handed_in, line.benches)
        })
        .text("Summary", |line| {
            let set = &line.class_set;
            Cell::from("Summary").link_called(
                format!("/class-sets/{}/summary", set.id),
                format!("Summary of {}, {}", set.class_name, set.date()),
            )
        })
        .on_page("Class sets", "Newest lesson first")
}
