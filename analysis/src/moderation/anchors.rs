//! Which sheets might serve as anchors: a weak, a middling and a strong one.

use super::ticket::ticket;

/// A sheet that might be an anchor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// What its ticket is made from.
    pub name: String,
    /// How good it seems, in marks of any scale: more is better.
    pub level: i64,
}

/// How good an anchor is beside the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// In the middle of the weakest third.
    Weak,
    /// In the middle.
    Middling,
    /// In the middle of the strongest third.
    Strong,
}

impl Standing {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Weak => "weak",
            Self::Middling => "middling",
            Self::Strong => "strong",
        }
    }
}

/// One sheet from the middle of each third, weakest first, by its place among
/// the candidates; fewer where there are fewer than three.
///
/// That is: one sixth, a half and five sixths of the way up, equal levels by
/// their tickets. Seldom the very worst or the very best, which teach little
/// about where marks are won.
#[must_use]
pub fn suggest(candidates: &[Candidate], seed: &str) -> Vec<(usize, Standing)> {
    let mut order: Vec<usize> = (0..candidates.len()).collect();
    order.sort_by_cached_key(|at| {
        let sheet = &candidates[*at];
        (sheet.level, ticket(seed, &sheet.name))
    });
    let sixths = [
        (1, Standing::Weak),
        (3, Standing::Middling),
        (5, Standing::Strong),
    ];
    let mut suggested: Vec<(usize, Standing)> = sixths
        .into_iter()
        .filter_map(|(sixths, standing)| {
            let at = order.get(candidates.len() * sixths / 6)?;
            Some((*at, standing))
        })
        .collect();
    suggested.dedup_by_key(|(at, _)| *at);
    suggested
}
