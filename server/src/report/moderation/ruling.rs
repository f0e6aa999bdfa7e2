//! Rulings as they stand beside their marking points, on every page on which
//! marks are given. `db::ruling::list_standing` has those of a scheme.

use std::collections::HashMap;

use crate::db::ruling::Ruling;

/// A ruling as `moderation/ruling.html` shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RulingLine {
    /// What was agreed.
    pub body: String,
    /// Who wrote it down.
    pub by: String,
    /// When.
    pub when: String,
    /// In which round.
    pub round: String,
}

impl RulingLine {
    /// A ruling in words, as `when` writes times.
    #[must_use]
    pub fn of(ruling: Ruling, when: &dyn Fn(i64) -> String) -> Self {
        Self {
            when: when(ruling.at),
            body: ruling.body,
            by: ruling.by,
            round: ruling.round_name,
        }
    }
}

/// Rulings that stand, by the key of their point.
#[must_use]
pub fn by_key(standing: Vec<Ruling>, when: &dyn Fn(i64) -> String) -> HashMap<i64, RulingLine> {
    let standing = standing.into_iter();
    standing
        .map(|ruling| (ruling.point_key, RulingLine::of(ruling, when)))
        .collect()
}
