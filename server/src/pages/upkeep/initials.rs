//! Whether the register holds initials, and until when.

use jiff::civil::Date;

use crate::acts::{BlankInitials, Blanking, KeepInitials};
use crate::db::{department, register};
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::refusal;
use crate::words::time::long_date;

/// What is chosen, as it stands or as it was typed.
#[derive(Debug)]
struct RetentionTyped {
    keep: TypedText,
    until: TypedText,
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
    typed: RetentionTyped,
}

#[derive(askama::Template)]
#[template(path = "upkeep/confirm.html")]
struct ConfirmPage {
    layout: Layout,
    count: i64,
}

pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, by, None).await?.reply()
}

async fn page(
    state: &AppState,
    by: SignedIn,
    refused: Option<RetentionTyped>,
) -> Result<Page<UpkeepPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let department = department::get(&mut db).await?;
    let count = register::count_initials(&mut db).await?;
    drop(db);
    let is_on = department.keeps_initials_on(state.zone.date(state.clock.now()));
    let until = department.initials_until.filter(|_| is_on);
    let typed = refused.unwrap_or_else(|| RetentionTyped {
        keep: TypedText::new(if is_on { "yes" } else { "no" }),
        until: TypedText::new(until.clone().unwrap_or_default()),
    });
    Ok(Page(UpkeepPage {
        may_set: by.is_head(),
        layout: by.layout,
        kept_until: until.map(|until| long_date(&until)),
        count,
        typed,
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
    let mut typed = RetentionTyped {
        keep: pairs.typed_in("keep"),
        until: pairs.typed_in("until"),
    };
    match check(&mut typed, state.zone.date(state.clock.now())) {
        Some(Wish::KeepUntil(until)) => state.act(&by, KeepInitials { until }).await?,
        Some(Wish::KeepNone) => {
            let is_confirmed = pairs.get("confirm") == "yes";
            let asked = state.act(&by, BlankInitials { is_confirmed }).await?;
            if let Blanking::AskFirst(count) = asked {
                let layout = by.layout;
                return Page(ConfirmPage { layout, count }).reply();
            }
        }
        None => return page(&state, by, Some(typed)).await?.refused(),
    }
    go("/upkeep")
}

fn check(typed: &mut RetentionTyped, today: Date) -> Option<Wish> {
    let keeps = typed.keep.check(|keep| match keep {
        "no" => Ok(false),
        "yes" => Ok(true),
        _ => Err(refusal::ONE_OF_TWO),
    });
    if !keeps? {
        return Some(Wish::KeepNone);
    }
    let until = typed.until.check(|text| match text.parse::<Date>() {
        Ok(until) if until > today && until.year() < 2100 => Ok(until),
        Ok(until) if until > today => Err(refusal::BEFORE_2100),
        Ok(_) => Err(refusal::AFTER_TODAY),
        Err(_) => Err(refusal::DAY_OF_WIPING),
    });
    until.map(Wish::KeepUntil)
}
