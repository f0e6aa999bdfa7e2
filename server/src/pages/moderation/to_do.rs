//! What somebody has to do in a round.

use crate::db::round::{Round, Step};
use crate::db::round_sheet::{Kind, Progress};
use crate::db::settlement::ToMarkAgain;
use crate::report::moderation::workload::{Workload, being_marked};
use crate::session::SignedIn;

/// What somebody has to do.
#[derive(askama::Template)]
#[template(path = "moderation/to_do.html")]
pub(super) struct ToDos(Vec<ToDo>);

// A whole template, which has escaped what it was given.
impl askama::filters::HtmlSafe for ToDos {}

/// One thing to do.
struct ToDo {
    words: String,
    /// Where; blank where there is only to wait.
    href: String,
}

/// What somebody has to do; `is_marker`: they marked a sheet of the sample,
/// first or second; `again`: classes of theirs that are to be marked again, in
/// this round or another.
pub(super) fn to_do(
    round: &Round,
    by: &SignedIn,
    progress: &[Progress],
    is_marker: bool,
    again: &[ToMarkAgain],
) -> ToDos {
    let again = again.iter().filter(|line| line.round_id == round.id);
    let own = again.map(mark_again);
    ToDos(own.chain(of_step(round, by, progress, is_marker)).collect())
}

/// A class of one's own to mark again.
fn mark_again(line: &ToMarkAgain) -> ToDo {
    ToDo {
        words: format!(
            "Mark {} again for {}: {} of {} marks given anew",
            line.point_key.map_or("every point", |_| "a point"),
            line.called(),
            line.again.done,
            line.again.of
        ),
        href: line.href(),
    }
}

/// What the step that the round has come to asks of somebody.
fn of_step(round: &Round, by: &SignedIn, progress: &[Progress], is_marker: bool) -> Vec<ToDo> {
    let address = format!("/moderation/{}", round.id);
    let is_head = by.is_head();
    let go = |words: &str, to: &str| ToDo {
        words: words.to_owned(),
        href: format!("{address}{to}"),
    };
    match (round.step, being_marked(round.step)) {
        (_, Some(kind)) => marking(&address, by, is_head, &Workload::of(progress, kind), kind),
        (None, _) if is_head => vec![
            go("Pick anchor sheets for everyone to mark first", "/anchors"),
            go("Or draw the sample without a standard", "/sample"),
        ],
        (Some(Step::StandardShown), _) if is_head => vec![
            go("Read the differences and write the rulings", "/standard"),
            go("Draw the sample", "/sample"),
        ],
        (Some(Step::StandardShown), _) => {
            vec![go("Read the differences and the rulings", "/standard")]
        }
        (Some(Step::Shown), _) if is_head => vec![
            go("See how far the markers agree", "/comparison"),
            go(
                "Settle what they differ on, then close the round",
                "/settle",
            ),
        ],
        (Some(Step::Shown), _) if is_marker => vec![
            go("See how far you agree", "/comparison"),
            go("Settle what you differ on", "/settle"),
        ],
        (Some(Step::Closed), _) if is_head => vec![go("Read and file the record", "/record")],
        _ => Vec::new(),
    }
}

/// What there is to do while sheets are marked.
fn marking(address: &str, by: &SignedIn, is_head: bool, work: &Workload, kind: Kind) -> Vec<ToDo> {
    let own = work.find(by.staff_id);
    let mut to_do = Vec::new();
    if let Some(own) = own
        && let Some(next) = own.next
    {
        to_do.push(ToDo {
            words: match (kind, own.left()) {
                (Kind::Anchor, 1) => "Mark 1 anchor".to_owned(),
                (Kind::Anchor, n) => format!("Mark {n} anchors"),
                (Kind::Sample, 1) => "Mark 1 sheet a second time".to_owned(),
                (Kind::Sample, n) => format!("Mark {n} sheets a second time"),
            },
            href: format!("{address}/sheets/{next}"),
        });
    } else if work.is_complete() && (is_head || own.is_some()) {
        to_do.push(ToDo {
            words: "All have marked: show everyone’s marks".to_owned(),
            href: format!("{address}#show"),
        });
    } else if is_head || own.is_some() {
        to_do.push(ToDo {
            words: format!("Wait for {}", work.unfinished().join(", ")),
            href: String::new(),
        });
    }
    to_do
}
