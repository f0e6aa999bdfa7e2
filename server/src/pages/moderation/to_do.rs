//! What somebody has to do in a round.

use crate::db::round::{Round, Step};
use crate::db::round_sheet::{Kind, Progress};
use crate::db::settlement::ToMarkAgain;
use crate::report::moderation::workload::{Workload, being_marked};
use crate::web::session::SignedIn;
use crate::words::moderation as words;

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

/// Lists what somebody has to do. `is_marker` says that they marked a sheet of
/// the sample, first or second. `again` lists their classes that are to be
/// marked again, in this round or another.
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

/// Returns a class of one's own to mark again.
fn mark_again(line: &ToMarkAgain) -> ToDo {
    ToDo {
        words: words::mark_again(
            line.point_key.is_some(),
            &line.called(),
            line.again.done,
            line.again.of,
        ),
        href: line.href(),
    }
}

/// Lists what the step that the round has come to asks of somebody.
fn of_step(round: &Round, by: &SignedIn, progress: &[Progress], is_marker: bool) -> Vec<ToDo> {
    let address = format!("/moderation/{}", round.id);
    let is_head = by.is_head();
    let go = |says: &str, to: &str| ToDo {
        words: says.to_owned(),
        href: format!("{address}{to}"),
    };
    match (round.step, being_marked(round.step)) {
        (_, Some(kind)) => marking(&address, by, is_head, &Workload::of(progress, kind), kind),
        (None, _) if is_head => vec![
            go(words::PICK_ANCHORS, "/anchors"),
            go(words::OR_DRAW, "/sample"),
        ],
        (Some(Step::StandardShown), _) if is_head => vec![
            go(words::WRITE_RULINGS, "/standard"),
            go(words::DRAW, "/sample"),
        ],
        (Some(Step::StandardShown), _) => {
            vec![go(words::READ_RULINGS, "/standard")]
        }
        (Some(Step::Shown), _) if is_head => vec![
            go(words::SEE_THEM_AGREE, "/comparison"),
            go(words::SETTLE_AND_CLOSE, "/settle"),
        ],
        (Some(Step::Shown), _) if is_marker => vec![
            go(words::SEE_YOU_AGREE, "/comparison"),
            go(words::SETTLE, "/settle"),
        ],
        (Some(Step::Closed), _) if is_head => vec![go(words::FILE_RECORD, "/record")],
        _ => Vec::new(),
    }
}

/// Lists what there is to do while sheets are marked.
fn marking(address: &str, by: &SignedIn, is_head: bool, work: &Workload, kind: Kind) -> Vec<ToDo> {
    let own = work.find(by.staff_id);
    let mut to_do = Vec::new();
    if let Some(own) = own
        && let Some(next) = own.next
    {
        to_do.push(ToDo {
            words: match kind {
                Kind::Anchor => words::mark_anchors(own.left()),
                Kind::Sample => words::mark_sample(own.left()),
            },
            href: format!("{address}/sheets/{next}"),
        });
    } else if work.is_complete() && (is_head || own.is_some()) {
        to_do.push(ToDo {
            words: words::SHOW_ALL.to_owned(),
            href: format!("{address}#show"),
        });
    } else if is_head || own.is_some() {
        to_do.push(ToDo {
            words: words::wait_for(&work.unfinished()),
            href: String::new(),
        });
    }
    to_do
}
