//! From when on something that the readings suggest is told: two boxes on the
//! class set's own page.

use axum::extract::Path;
use axum::http::HeaderMap;

use super::show;
use crate::acts::SetThresholds;
use crate::db::class_set::ClassSet;
use crate::error::Reply;
use crate::form::Pairs;
use crate::ids::ClassSetId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;

/// The two boxes as typed.
#[derive(Debug)]
pub(super) struct Typed {
    pub(super) bench: String,
    pub(super) summary: String,
}

/// What is wrong with each box.
#[derive(Debug, Default)]
pub(super) struct Wrong {
    pub(super) bench: Option<&'static str>,
    pub(super) summary: Option<&'static str>,
}

impl Typed {
    /// What the class set has.
    pub(super) fn of(class_set: &ClassSet) -> Self {
        Self {
            bench: class_set.bench_threshold.to_string(),
            summary: class_set.summary_threshold.to_string(),
        }
    }

    fn read(pairs: &Pairs) -> Self {
        Self {
            bench: pairs.get("bench").to_owned(),
            summary: pairs.get("summary").to_owned(),
        }
    }

    /// Both, in whole per cent.
    fn check(&self) -> Result<(i64, i64), Wrong> {
        let bench = per_cent(&self.bench).filter(|n| (50..=99).contains(n));
        let summary = per_cent(&self.summary).filter(|n| (5..=99).contains(n));
        match (bench, summary) {
            (Some(bench), Some(summary)) if summary <= bench => Ok((bench, summary)),
            (Some(_), Some(_)) => Err(Wrong {
                summary: Some(
                    "The summary tells at least what the bench is told: type no more than for the bench.",
                ),
                ..Wrong::default()
            }),
            _ => Err(Wrong {
                bench: bench
                    .is_none()
                    .then_some("Type a whole number of per cent, from 50 to 99."),
                summary: summary
                    .is_none()
                    .then_some("Type a whole number of per cent, from 5 to 99."),
            }),
        }
    }
}

/// A whole number; its sign of per cent may be typed too.
fn per_cent(text: &str) -> Option<i64> {
    let text = text.trim();
    text.strip_suffix('%').unwrap_or(text).trim().parse().ok()
}

/// Sets both.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    headers: HeaderMap,
    form: StaffForm,
) -> Reply {
    let typed = Typed::read(&form.pairs);
    match typed.check() {
        Ok((bench, summary)) => {
            let act = SetThresholds {
                class_set: id,
                bench,
                summary,
            };
            state.act(&form.by, act).await?;
            go(format!("/class-sets/{id}#thresholds"))
        }
        Err(wrong) => {
            let refused = Some((typed, wrong));
            show::page(&state, &form.by, id, &headers, refused)
                .await?
                .refused()
        }
    }
}
