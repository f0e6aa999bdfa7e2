//! The tile of a bench: how far it has come, and why it stands where it does,
//! in words.

use analysis::room::{LATE_AFTER, Need, Stage};

use crate::clock::{MINUTE, Zone};
use crate::ids::StaffId;
use crate::report::room::{BenchInRoom, Line, Pointer};
use crate::words::Say;
use crate::words::time::{ago, minutes, time_or_day};

/// The tile of a bench.
pub(super) struct Tile {
    pub(super) label: String,
    pub(super) kit: String,
    /// How far it has come, and when that last changed.
    pub(super) state: String,
    /// Why it stands where it does.
    pub(super) why: String,
    pub(super) pointers: Vec<Pointer>,
    /// How many more there are, on the sheet.
    pub(super) more: usize,
    /// What to ask, where no pointer asks.
    pub(super) line: Option<Line>,
    /// Version of the sheet that the tile is made from.
    pub(super) version: i64,
    /// What the teacher's tick says; `None` where there is none.
    pub(super) seen: Option<String>,
    /// Changes when something happens at the bench that is worth telling.
    pub(super) mark: String,
    /// That thing as a sentence.
    pub(super) news: String,
    /// Name of its kind in the style sheet.
    pub(super) class: &'static str,
}

/// Who looks, and when.
pub(super) struct Looks<'a> {
    pub(super) now: i64,
    pub(super) zone: &'a Zone,
    pub(super) by: StaffId,
    /// Whether groups may still write.
    pub(super) is_open: bool,
}

impl Tile {
    pub(super) fn of(room: BenchInRoom, looks: &Looks<'_>) -> Self {
        let label = &room.bench.label;
        let (word, happened) = match room.stage {
            Stage::NotBegun => ("not-begun", "has not begun"),
            Stage::Writing => ("writing", "has begun"),
            Stage::Saved => ("writing", "saved its sheet"),
            Stage::HandedIn if room.bench.saved_at.is_some() => ("handed-in", "changed its sheet"),
            Stage::HandedIn => ("handed-in", "handed in"),
        };
        Self {
            state: state(&room, looks),
            why: why(&room, looks),
            line: line(&room),
            seen: seen(&room, looks),
            mark: format!("{word} {}", room.bench.version),
            news: format!("Bench {label} {happened}."),
            class: word,
            version: room.bench.version,
            label: room.bench.label,
            kit: room.kit,
            pointers: room.pointers,
            more: room.more,
        }
    }
}

/// How far it has come, and when that last changed.
fn state(room: &BenchInRoom, looks: &Looks<'_>) -> String {
    let ago = |at| ago(at, looks.now, looks.zone);
    let last = |at: Option<i64>| at.map_or_else(String::new, &ago);
    match room.stage {
        Stage::NotBegun => "Not begun".to_owned(),
        Stage::Writing => match room.heard_at {
            Some(at) => format!("Writing: chosen {}, nothing saved yet", ago(at)),
            None => "Chosen and left again, nothing saved".to_owned(),
        },
        Stage::Saved => format!("Writing: saved {}, not handed in", last(room.changed_at)),
        Stage::HandedIn => match (room.bench.handed_in_at, room.bench.saved_at) {
            (Some(handed_in), Some(changed)) => {
                format!("Handed in {}, changed {}", ago(handed_in), ago(changed))
            }
            _ => format!("Handed in {}", last(room.changed_at)),
        },
    }
}

fn why(room: &BenchInRoom, looks: &Looks<'_>) -> String {
    let silent = room.heard_at.map_or(0, |at| (looks.now - at) / MINUTE);
    match room.need {
        Need::Reading if looks.is_open => {
            "A reading to take again while the apparatus is up.".to_owned()
        }
        Need::Reading => "Something to ask about: a reading does not fit.".to_owned(),
        Need::Kit if looks.is_open => "A kit to check while it is up.".to_owned(),
        Need::Kit => "Something to check: the kit may be out.".to_owned(),
        Need::Stuck => format!("Stuck, it seems: nothing new for {}.", minutes(silent)),
        Need::Late => format!(
            "Nothing entered, though half the benches began over {} ago.",
            minutes(LATE_AFTER / MINUTE)
        ),
        Need::Working => "A slip in the working: it can wait for the readings.".to_owned(),
        Need::Nothing => "Nothing that calls for a visit.".to_owned(),
    }
}

/// What to ask where nothing is known but that the bench does not get on.
fn line(room: &BenchInRoom) -> Option<Line> {
    let text = match room.need {
        Need::Stuck => Say::english().ask("stuck"),
        Need::Late => Say::english().ask("not-begun"),
        Need::Reading | Need::Kit | Need::Working | Need::Nothing => return None,
    };
    Some(Line {
        is_check: false,
        text,
    })
}

fn seen(room: &BenchInRoom, looks: &Looks<'_>) -> Option<String> {
    let seen = room.seen.as_ref()?;
    let is_mine = seen.staff_id == looks.by;
    let at = time_or_day(looks.zone, seen.at, looks.now);
    Some(match (room.was_seen(), is_mine) {
        (true, true) => format!("Seen {at}, so it comes after others like it."),
        (true, false) => format!(
            "Seen by {} {at}, so it comes after others like it.",
            seen.by
        ),
        (false, true) => format!("Changed since you were there {at}."),
        (false, false) => format!("Changed since {} was there {at}.", seen.by),
    })
}
