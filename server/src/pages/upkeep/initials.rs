//! Whether the register holds initials, and until when.

use axum::response::IntoResponse;
use jiff::civil::Date;

use crate::acts::{BlankInitials, Blanking, KeepInitials};
use crate::clock::long_date;
use crate::db::{department, register};
use crate::error::{AppError, Reply};
use crate::layout::{Layout, Page, go};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

/// What is chosen, as it stands or as it was typed.
#[derive(Debug)]
struct Typed {
    keep: String,
    until: String,
}

/// What is wrong with each box.
#[derive(Debug, Default)]
struct Wrong {
    keep: Option<&'static str>,
    until: Option<&'static str>,
}

#[derive(askama::Template)]
#[template(path = "upkeep/show.html")]
struct UpkeepPage {
    layout: Layout,
    /// Whether the reader may set anything.
    may_set: bool,
    /// Until when initials are kept now, spelt out; `None`: not at all.
    kept_until: Option<String>,
    /// How many pupils' initials there are.
    count: i64,
    typed: Typed,
    wrong: Wrong,
}

#[derive(askama::Template)]
#[template(path = "upkeep/confirm.html")]
struct ConfirmPage {
    layout: Layout,
    count: i64,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, by, None).await?.reply()
}

async fn page(
    state: &AppState,
    by: SignedIn,
    refused: Option<(Typed, Wrong)>,
) -> Result<Page<UpkeepPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let department = department::get(&mut db).await?;
    let count = register::count_initials(&mut db).await?;
    drop(db);
    let is_on = department.keeps_initials_on(state.zone.date(state.clock.now()));
    let until = department.initials_until.filter(|_| is_on);
    let (typed, wrong) = refused.unwrap_or_else(|| {
        let keep = if is_on { "yes" } else { "no" }.to_owned();
        let until = until.clone().unwrap_or_default();
        (Typed { keep, until }, Wrong::default())
    });
    Ok(Page(UpkeepPage {
        may_set: by.is_head(),
        layout: by.layout,
        kept_until: until.map(|until| long_date(&until)),
        count,
        typed,
        wrong,
    }))
}

/// What the head of department wants.
enum Wish {
    KeepUntil(Date),
    KeepNone,
}

/// Sets whether initials are kept, and until when. Before any are blanked, it
/// asks.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let StaffForm { by, pairs } = form;
    let typed = Typed {
        keep: pairs.get("keep").to_owned(),
        until: pairs.get("until").to_owned(),
    };
    match check(&typed, state.zone.date(state.clock.now())) {
        Ok(Wish::KeepUntil(until)) => state.act(&by, KeepInitials { until }).await?,
        Ok(Wish::KeepNone) => {
            let is_confirmed = pairs.get("confirm") == "yes";
            let asked = state.act(&by, BlankInitials { is_confirmed }).await?;
            if let Blanking::AskFirst(count) = asked {
                let layout = by.layout;
                return Ok(Page(ConfirmPage { layout, count }).into_response());
            }
        }
        Err(wrong) => {
            let page = page(&state, by, Some((typed, wrong))).await?;
            return page.refused();
        }
    }
    go("/upkeep")
}

fn check(typed: &Typed, today: Date) -> Result<Wish, Wrong> {
    match typed.keep.as_str() {
        "no" => return Ok(Wish::KeepNone),
        "yes" => {}
        _ => {
            return Err(Wrong {
                keep: Some("Choose one of the two."),
                ..Wrong::default()
            });
        }
    }
    let until = match typed.until.trim().parse::<Date>() {
        Ok(until) if until > today && until.year() < 2100 => return Ok(Wish::KeepUntil(until)),
        Ok(until) if until > today => "Choose a day before the year 2100.",
        Ok(_) => "Choose a day after today.",
        Err(_) => "Type the day as year-month-day, for instance 2027-08-31.",
    };
    Err(Wrong {
        until: Some(until),
        ..Wrong::default()
    })
}
