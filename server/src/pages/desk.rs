//! A point of a sheet on a desk, ready for a page, and its form: the same for
//! first and second marks.

use std::collections::HashMap;

use analysis::scheme::Judged;

use crate::db::ruling::Ruling;
use crate::db::scheme::MarkingPoint;
use crate::ids::RevisionId;
use crate::report::Work;
use crate::report::desk::{Desk, PointStanding, Unfit, Whose};
use crate::web::form::Pairs;
use crate::words::refusal;

/// A point as a marker sees it.
pub(super) struct PointView<'a> {
    pub(super) asked: &'a MarkingPoint,
    pub(super) standing: &'a PointStanding,
    /// What was ruled on it in a moderation round.
    pub(super) ruling: Option<&'a Ruling>,
    /// Whether a mark on it can only be the reader's.
    pub(super) is_own: bool,
    /// What the group wrote that the point is judged on, with what it is
    /// called; the text is blank where they wrote nothing.
    pub(super) answer: Option<(&'static str, &'a str)>,
    pub(super) earlier: Option<EarlierView>,
    /// `None` once the marks stand as they are.
    pub(super) form: Option<FormView>,
}

impl PointView<'_> {
    /// Says what full marks are earned by, where a check suggests them.
    pub(super) fn rule(&self) -> Option<&'static str> {
        match self.asked.point.judged {
            Judged::ByCheck(check) => Some(crate::words::check::rule(check)),
            Judged::ByEye(_) => None,
        }
    }

    /// Says whether it is judged on what is on paper alone.
    pub(super) fn is_on_paper(&self) -> bool {
        self.asked.point.judged == Judged::ByEye(None)
    }

    pub(super) fn is_given(&self, marks: u32) -> bool {
        self.standing.awarded() == Some(i64::from(marks))
    }

    pub(super) fn is_suggested(&self, marks: u32) -> bool {
        let suggestion = self.standing.suggestion.as_ref();
        suggestion.is_some_and(|suggestion| suggestion.marks == marks)
    }

    /// Says whether its mark is more than the point has now.
    pub(super) fn is_too_many(&self) -> bool {
        let most = i64::from(self.asked.point.marks);
        self.standing.awarded().is_some_and(|marks| marks > most)
    }
}

/// That a mark may not hold any more.
pub(super) struct EarlierView {
    pub(super) words: String,
    /// Where the sheet is as it was then.
    pub(super) as_it_was: Option<String>,
    /// Where it is said that it still holds.
    pub(super) holds: String,
}

/// The form that gives a mark.
pub(super) struct FormView {
    pub(super) action: String,
    /// What it carries beside the token.
    pub(super) carries: Vec<(&'static str, String)>,
    /// What the choices are called together.
    pub(super) label: String,
    /// The box of the reason, and what to say to it.
    pub(super) box_id: String,
    pub(super) box_name: &'static str,
    pub(super) hint: &'static str,
    pub(super) text: String,
    /// The own mark as the form sends it, to keep a reason without another
    /// mark; `None` where a reason goes with a mark alone.
    pub(super) kept: Option<String>,
    pub(super) wrong: Option<String>,
}

/// The versions of a sheet by the revision that they are: to say which one a
/// mark was given on.
pub(super) type Versions = HashMap<RevisionId, i64>;

/// A form that could not be taken.
#[derive(Clone, Debug)]
pub(super) struct RefusedMark {
    /// The places of its sheet and point.
    at: (usize, usize),
    sentence: &'static str,
    /// As typed.
    reason: String,
    /// As chosen.
    marks: String,
}

/// Returns the marks that a form gives; `None` takes them back. What is no
/// number is no mark that a point has.
pub(super) fn marks(pairs: &Pairs) -> Option<i64> {
    match pairs.get("marks") {
        "none" => None,
        typed => Some(typed.parse().unwrap_or(-1)),
    }
}

/// Says why a mark cannot be given.
pub(super) fn unfit(why: Unfit) -> &'static str {
    match why {
        Unfit::NoSuchMarks => refusal::NO_SUCH_MARKS,
        Unfit::LongReason => refusal::LONG_REASON,
        Unfit::NoReason => refusal::REASON_NEEDED,
    }
}

impl RefusedMark {
    /// Keeps what a form gave, to be shown again.
    pub(super) fn new(
        desk: &Desk,
        at: (usize, usize),
        sentence: &'static str,
        pairs: &Pairs,
    ) -> Self {
        Self {
            at,
            sentence,
            reason: pairs.get(box_name(&desk.whose)).to_owned(),
            marks: pairs.get("marks").to_owned(),
        }
    }
}

/// Says what the box of the reason is called in the form.
fn box_name(whose: &Whose) -> &'static str {
    match whose {
        Whose::First => "reason",
        Whose::Second(_) => "note",
    }
}

/// What all points of a page have in common.
pub(super) struct DeskFrame<'a, 'f> {
    pub(super) desk: &'a Desk,
    pub(super) versions: &'f Versions,
    pub(super) refused: Option<&'f RefusedMark>,
    /// The page to go back to, as a first marker's form says it.
    pub(super) back: &'static str,
    /// Whether marks may still be given.
    pub(super) is_open: bool,
}

impl<'a> DeskFrame<'a, '_> {
    /// Returns the points of a sheet, by its place.
    pub(super) fn points(&self, sheet: usize) -> Vec<PointView<'a>> {
        let points = 0..self.desk.points.len();
        points.map(|point| self.view(sheet, point)).collect()
    }

    /// Returns a point of a sheet, by their places.
    pub(super) fn view(&self, sheet: usize, point: usize) -> PointView<'a> {
        let desk = self.desk;
        let (on_desk, asked) = (&desk.sheets[sheet], &desk.points[point]);
        let standing = desk.standing(sheet, point);
        let mut rulings = desk.rulings.iter();
        PointView {
            ruling: rulings.find(|ruling| ruling.point_key == asked.key),
            is_own: matches!(desk.whose, Whose::Second(_)),
            answer: answer(on_desk.work.as_ref(), asked.point.judged),
            earlier: self.earlier(sheet, standing),
            form: self.is_open.then(|| self.form(sheet, point)),
            asked,
            standing,
        }
    }

    fn earlier(&self, sheet: usize, standing: &PointStanding) -> Option<EarlierView> {
        let mark = standing.mark.as_ref().filter(|_| standing.is_earlier())?;
        let mut words = Vec::new();
        if standing.is_on_earlier_revision {
            words.push(refusal::ON_EARLIER_REVISION.to_owned());
        }
        if standing.is_of_earlier_version {
            words.push(refusal::BY_EARLIER_SCHEME.to_owned());
        }
        let now = standing.suggestion.as_ref().map(|s| i64::from(s.marks));
        if now != mark.suggested {
            words.push(refusal::suggested_then(mark.suggested, now));
        }
        let (set, label) = (self.desk.class_set.id, &self.desk.sheets[sheet].label);
        let version = mark.revision_id.and_then(|id| self.versions.get(&id));
        let version = version.filter(|_| standing.is_on_earlier_revision);
        Some(EarlierView {
            words: words.join(" "),
            as_it_was: version
                .map(|version| format!("/class-sets/{set}/sheets/{label}/versions/{version}")),
            holds: format!("/class-sets/{set}/marking/sheets/{label}/holds"),
        })
    }

    fn form(&self, sheet: usize, point: usize) -> FormView {
        let (on_desk, asked) = (&self.desk.sheets[sheet], &self.desk.points[point]);
        let standing = self.desk.standing(sheet, point);
        let (key, title, label) = (asked.key, &asked.point.title, &on_desk.label);
        let refused = self.refused.filter(|refused| refused.at == (sheet, point));
        let typed = refused.map(|refused| refused.reason.clone());
        let form = FormView {
            action: String::new(),
            carries: Vec::new(),
            label: format!("Marks for {title}, group {label}"),
            box_id: String::new(),
            box_name: box_name(&self.desk.whose),
            hint: "",
            text: String::new(),
            kept: None,
            wrong: refused.map(|one| refusal::chosen(one.sentence, &one.marks)),
        };
        match &self.desk.whose {
            Whose::First => FormView {
                action: format!(
                    "/class-sets/{}/marking/sheets/{label}/award/{key}",
                    self.desk.class_set.id
                ),
                carries: vec![
                    ("version", self.desk.version.id.to_string()),
                    ("revision", or_nought(on_desk.revision_id().map(|id| id.0))),
                    ("newest", or_nought(standing.newest.map(|id| id.0))),
                    ("back", self.back.to_owned()),
                ],
                box_id: format!("p-{label}-{key}-reason"),
                hint: match standing.suggestion.as_ref().is_some_and(|s| s.is_shown) {
                    true => refusal::REASON_HINT_AGAINST,
                    false => refusal::REASON_HINT,
                },
                text: typed.unwrap_or_default(),
                ..form
            },
            Whose::Second(of_round) => FormView {
                action: format!("/moderation/{}/sheets/{}", of_round.round_id, of_round.id),
                carries: vec![("point", key.to_string())],
                box_id: format!("note-{key}"),
                hint: refusal::NOTE_HINT,
                text: typed.unwrap_or_else(|| {
                    let mark = standing.mark.as_ref();
                    mark.map(|mark| mark.reason.clone()).unwrap_or_default()
                }),
                kept: Some(
                    standing
                        .awarded()
                        .map_or_else(|| "none".to_owned(), |marks| marks.to_string()),
                ),
                ..form
            },
        }
    }
}

/// Returns an id as forms carry it.
fn or_nought(id: Option<i64>) -> String {
    id.unwrap_or(0).to_string()
}

/// Returns the group's own words that a point is judged on, with what they are
/// called.
fn answer(work: Option<&Work>, judged: Judged) -> Option<(&'static str, &str)> {
    let Judged::ByEye(Some(answer)) = judged else {
        return None;
    };
    let text = work.map_or("", |work| work.revision.entry.answers.get(answer).trim());
    Some((crate::words::check::answer(answer), text))
}
