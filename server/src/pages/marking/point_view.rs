//! One point of one sheet, ready for a page.

use std::collections::HashMap;

use analysis::scheme::{Judged, Level};

use super::given::Refused;
use crate::ids::RevisionId;
use crate::report::marking::{MarkingReport, PointStanding};
use crate::report::moderation::ruling::RulingLine;

/// A point as a marker sees it.
pub(super) struct PointView {
    pub(super) key: i64,
    pub(super) number: i64,
    pub(super) title: String,
    pub(super) guidance: String,
    /// What full marks are earned by, where a check suggests them.
    pub(super) rule: Option<&'static str>,
    pub(super) levels: Vec<Level>,
    /// What was ruled on it in a moderation round.
    pub(super) ruling: Option<RulingLine>,
    pub(super) most: u32,
    pub(super) suggestion: Option<SuggestionView>,
    pub(super) given: Option<GivenView>,
    /// What the group wrote that the point is judged on, with what it is
    /// called; the text is blank where they wrote nothing.
    pub(super) answer: Option<(&'static str, String)>,
    pub(super) is_on_paper: bool,
    pub(super) choices: Vec<Choice>,
    /// What the form carries to notice other markers.
    pub(super) revision: i64,
    pub(super) newest: i64,
    pub(super) refused: Option<Refused>,
}

/// What the tool suggests.
pub(super) struct SuggestionView {
    pub(super) marks: u32,
    pub(super) reason: String,
    pub(super) is_shown: bool,
}

/// The mark that stands.
pub(super) struct GivenView {
    pub(super) marks: i64,
    pub(super) by: String,
    pub(super) when: String,
    pub(super) reason: String,
    /// Why it may not hold any more.
    pub(super) earlier: Option<String>,
    /// The version of the sheet that it was given on, where that is not the
    /// newest.
    pub(super) version: Option<i64>,
    /// Whether it is more than the point has now.
    pub(super) is_too_many: bool,
}

/// One mark that can be given.
pub(super) struct Choice {
    pub(super) marks: u32,
    pub(super) is_given: bool,
    pub(super) is_suggested: bool,
}

/// The versions of a sheet by the revision that they are: to say which one a
/// mark was given on.
pub(super) type Versions = HashMap<RevisionId, i64>;

impl PointView {
    /// Whether a mark that goes against the suggestion wants a reason.
    pub(super) fn is_shown(&self) -> bool {
        self.suggestion.as_ref().is_some_and(|s| s.is_shown)
    }
}

pub(super) fn view(
    report: &MarkingReport,
    sheet: usize,
    point: usize,
    versions: &Versions,
    when: &dyn Fn(i64) -> String,
    refused: Option<&Refused>,
) -> PointView {
    let standing = &report.sheets[sheet].points[point];
    let group = &report.class.groups[sheet];
    let asked = &report.points[point];
    let suggestion = standing.suggestion.as_ref();
    let mut rulings = report.rulings.iter();
    let ruling = rulings.find(|ruling| ruling.point_key == asked.key);
    let answer = match asked.point.judged {
        Judged::ByEye(Some(answer)) => {
            let work = group.work.as_ref();
            let text = work.map(|work| work.revision.entry.answers.get(answer).to_owned());
            Some((answer.label(), text.unwrap_or_default()))
        }
        _ => None,
    };
    PointView {
        key: asked.key,
        number: asked.number,
        title: asked.point.title.clone(),
        guidance: asked.point.guidance.clone(),
        rule: match asked.point.judged {
            Judged::ByCheck(check) => Some(check.rule()),
            Judged::ByEye(_) => None,
        },
        levels: asked.point.levels.clone(),
        ruling: ruling.map(|ruling| RulingLine::of(ruling.clone(), when)),
        most: asked.point.marks,
        suggestion: suggestion.map(|s| SuggestionView {
            marks: s.marks,
            reason: s.reason.clone(),
            is_shown: s.is_shown,
        }),
        given: given(standing, asked.point.marks, versions, when),
        is_on_paper: asked.point.judged == Judged::ByEye(None),
        answer,
        choices: (0..=asked.point.marks)
            .map(|marks| Choice {
                marks,
                is_given: standing.awarded() == Some(i64::from(marks)),
                is_suggested: suggestion.is_some_and(|s| s.marks == marks),
            })
            .collect(),
        revision: group.work.as_ref().map_or(0, |work| work.revision.id.0),
        newest: standing.newest.map_or(0, |id| id.0),
        refused: refused
            .filter(|r| r.label == group.bench.label && r.key == asked.key)
            .cloned(),
    }
}

fn given(
    standing: &PointStanding,
    most: u32,
    versions: &Versions,
    when: &dyn Fn(i64) -> String,
) -> Option<GivenView> {
    let mark = standing.mark.as_ref()?;
    let marks = mark.awarded?;
    let now = standing.suggestion.as_ref().map(|s| i64::from(s.marks));
    let mut earlier = Vec::new();
    if standing.is_on_earlier_revision {
        earlier.push("Given on an earlier revision of the sheet.");
    }
    if standing.is_of_earlier_version {
        earlier.push("Given by an earlier version of the scheme, which asked something else here.");
    }
    let mut earlier = earlier.join(" ");
    if !earlier.is_empty() && now != mark.suggested {
        let words = |marks: Option<i64>| {
            marks.map_or_else(|| "nothing".to_owned(), |marks| marks.to_string())
        };
        earlier.push_str(&format!(
            " Suggested then: {}; now: {}.",
            words(mark.suggested),
            words(now)
        ));
    }
    let version = mark.revision_id.and_then(|id| versions.get(&id).copied());
    Some(GivenView {
        marks,
        by: mark.by.clone(),
        when: when(mark.marked_at),
        reason: mark.reason.clone(),
        version: version.filter(|_| standing.is_on_earlier_revision),
        earlier: (!earlier.is_empty()).then_some(earlier),
        is_too_many: marks > i64::from(most),
    })
}
