//! From when on something that the readings suggest is told: two boxes on the
//! class set's own page.

use std::ops::RangeInclusive;

use axum::extract::Path;
use axum::http::HeaderMap;

use super::show;
use crate::acts::SetThresholds;
use crate::db::class_set::ClassSet;
use crate::ids::ClassSetId;
use crate::web::error::Reply;
use crate::web::form::TypedText;
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// The two boxes as typed.
#[derive(Debug)]
pub(super) struct ThresholdsTyped {
    pub(super) bench: TypedText,
    pub(super) summary: TypedText,
}

impl ThresholdsTyped {
    pub(super) fn of(class_set: &ClassSet) -> Self {
        Self {
            bench: TypedText::new(class_set.bench_threshold.to_string()),
            summary: TypedText::new(class_set.summary_threshold.to_string()),
        }
    }

    /// Both, in whole per cent.
    fn check(&mut self) -> Option<(i64, i64)> {
        let bench = self
            .bench
            .check(|text| per_cent(text, 50..=99).ok_or(refusal::FIFTY_TO_99));
        let summary = self
            .summary
            .check(|text| per_cent(text, 5..=99).ok_or(refusal::FIVE_TO_99));
        let (bench, summary) = bench.zip(summary)?;
        if summary > bench {
            self.summary.refuse(refusal::SUMMARY_BELOW_BENCH);
            return None;
        }
        Some((bench, summary))
    }
}

/// Returns a whole number; its sign of per cent may be typed too.
fn per_cent(text: &str, among: RangeInclusive<i64>) -> Option<i64> {
    let number = text.strip_suffix('%').unwrap_or(text).trim().parse().ok();
    number.filter(|number| among.contains(number))
}

/// Sets both.
pub(super) async fn post(
    state: AppState,
    Path(id): Path<ClassSetId>,
    headers: HeaderMap,
    form: StaffForm,
) -> Reply {
    let mut typed = ThresholdsTyped {
        bench: form.pairs.typed_in("bench"),
        summary: form.pairs.typed_in("summary"),
    };
    let Some((bench, summary)) = typed.check() else {
        let page = show::page(&state, &form.by, id, &headers, Some(typed)).await?;
        return page.refused();
    };
    let act = SetThresholds {
        class_set: id,
        bench,
        summary,
    };
    state.act(&form.by, act).await?;
    go(format!("/class-sets/{id}#thresholds"))
}
