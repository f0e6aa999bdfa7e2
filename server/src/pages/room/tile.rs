//! The tile of a bench: how far it has come, and why it stands where it does,
//! in words.

use analysis::room::{Need, Stage};

use crate::clock::Zone;
use crate::ids::StaffId;
use crate::report::room::{BenchInRoom, Pointer, PointerLine};
use crate::words::time::{ago, time_or_day};
use crate::words::{Say, room as words};

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
    pub(super) line: Option<PointerLine>,
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
        let class = match room.stage {
            Stage::NotBegun => "not-begun",
            Stage::Writing | Stage::Saved => "writing",
            Stage::HandedIn => "handed-in",
        };
        let bench = &room.bench;
        let ago = |at| ago(at, looks.now, looks.zone);
        let progress = words::progress(bench.handed_in_at, bench.saved_at, &ago);
        let silent = room.heard_at.map_or(0, |at| looks.now - at);
        Self {
            state: words::state(room.stage, room.heard_at, progress, &ago),
            why: words::why(room.need, looks.is_open, silent),
            line: line(&room),
            seen: seen(&room, looks),
            mark: format!("{class} {}", bench.version),
            news: words::news(&bench.label, room.stage, bench.saved_at.is_some()),
            class,
            version: room.bench.version,
            label: room.bench.label,
            kit: room.kit,
            pointers: room.pointers,
            more: room.more,
        }
    }
}

/// Returns a question for a bench that does not get on, where nothing else is
/// known.
fn line(room: &BenchInRoom) -> Option<PointerLine> {
    let text = match room.need {
        Need::Stuck => Say::english().ask("stuck"),
        Need::Late => Say::english().ask("not-begun"),
        Need::Reading | Need::Kit | Need::Working | Need::Nothing => return None,
    };
    Some(PointerLine {
        is_check: false,
        text,
    })
}

fn seen(room: &BenchInRoom, looks: &Looks<'_>) -> Option<String> {
    let seen = room.seen.as_ref()?;
    let by = (seen.staff_id != looks.by).then_some(seen.by.as_str());
    let at = time_or_day(looks.zone, seen.at, looks.now);
    Some(words::seen(by, &at, room.was_seen()))
}
