//! What can happen: every act names one. Its code and detail are what the
//! table of events keeps.

use jiff::civil::Date;
use serde::Serialize;
use serde_json::json;

use crate::db::class_set::LookAgain;
use crate::db::decision::Verdict;
use crate::db::round_sheet;
use crate::ids::{ClassSetId, RoundId, SettlementId};

/// The code of an event by which readings were taken in from a file.
pub const IMPORTED: &str = "readings_imported";

/// The label of a group, and the version that its readings became; `None`: the
/// first of a new bench.
pub type TakenIn = (String, Option<i64>);

/// How many pupils a register has. Numbers alone: an event is for ever, and
/// initials are not.
#[derive(Clone, Debug, Serialize)]
pub struct RegisterCounts {
    pub absent: usize,
    /// Of those, how many have caught up.
    pub caught_up: usize,
    pub present: usize,
}

/// Something that happened. Most name the class set that it happened to.
#[derive(Clone, Debug)]
pub enum Event {
    /// Somebody signed in.
    SignedIn,
    /// An account was made, with this name.
    AccountMade(String),
    /// A kit was listed, with this label.
    KitAdded(String),
    /// Initials are kept up to a day.
    InitialsKept(Date),
    /// Initials of so many pupils were blanked.
    InitialsBlanked(u64),

    /// A class set was made; whether its live pages may be on.
    SetMade(ClassSetId, bool),
    /// Groups may write again.
    SetOpened(ClassSetId),
    /// Groups may write no more.
    SetClosed(ClassSetId),
    /// The live pages were switched, and what pupils are told.
    HelpSet(ClassSetId, bool, LookAgain),
    /// From how many per cent on findings are told: at the bench, in the summary.
    ThresholdsSet(ClassSetId, i64, i64),
    /// When measuring stops was set or taken back. Not kept.
    StopSet(ClassSetId),
    /// A teacher has been at a bench. Not kept.
    BenchSeen(ClassSetId),
    /// A browser came to a bench or left it. Its visit is what is kept.
    Visited(ClassSetId),
    /// A bench, by its label, has a new number.
    NumberRenewed(ClassSetId, String),
    /// A sheet was saved or handed in. Its revision is what is kept.
    Stored(ClassSetId),
    /// Readings were taken in from a file: of these groups.
    ReadingsImported(ClassSetId, Vec<TakenIn>),
    /// A register was kept.
    RegisterKept(ClassSetId, RegisterCounts),
    /// Somebody said whether a slip, by its code, is one.
    SlipDecided(ClassSetId, Verdict, String),

    /// A mark scheme was made, with this name.
    SchemeMade(String),
    /// A scheme has a new version.
    SchemeSaved(String, i64),
    /// A scheme is no more offered, or is again.
    SchemeRetired(String, bool),
    /// A class set is marked with a version of a scheme.
    SchemeChosen(ClassSetId, String, i64),
    /// Groups may read their marks, or no more.
    MarksReleased(ClassSetId, bool),

    /// The sizes of samples: for cohorts up to how many, and how many then.
    SampleSizesSet(Vec<(Option<i64>, Option<i64>)>),
    /// A round was made.
    RoundMade(RoundId),
    /// So many anchors were picked.
    AnchorsPicked(RoundId, usize),
    /// A ruling on the point with this key.
    RulingWritten(RoundId, i64),
    /// The sample was drawn: the sheets, by their names in draws.
    SampleDrawn(RoundId, Vec<String>),
    /// Marks were shown; who had not finished.
    MarksShown(RoundId, round_sheet::Kind, Vec<String>),
    /// A difference was settled, where it is about one class with that class set.
    Settled(RoundId, SettlementId, Option<ClassSetId>),
    /// A round was closed, perhaps though something was still to be marked.
    RoundClosed(RoundId, bool),
    /// Something was written below a closed record.
    RecordEntry(RoundId),
}

impl Event {
    /// Returns the code that is kept. Returns `None` when the row that the act
    /// wrote says it all.
    pub(super) fn code(&self) -> Option<&'static str> {
        Some(match self {
            Self::SignedIn => "signed_in",
            Self::AccountMade(_) => "account_made",
            Self::KitAdded(_) => "kit_added",
            Self::InitialsKept(_) => "initials_kept",
            Self::InitialsBlanked(_) => "initials_blanked",
            Self::SetMade(..) => "set_made",
            Self::SetOpened(_) => "set_opened",
            Self::SetClosed(_) => "set_closed",
            Self::HelpSet(..) => "help_set",
            Self::ThresholdsSet(..) => "thresholds_set",
            Self::StopSet(_) | Self::BenchSeen(_) | Self::Visited(_) | Self::Stored(_) => {
                return None;
            }
            Self::NumberRenewed(..) => "number_renewed",
            Self::ReadingsImported(..) => IMPORTED,
            Self::RegisterKept(..) => "register_kept",
            Self::SlipDecided(_, Verdict::Confirmed, _) => "slip_confirmed",
            Self::SlipDecided(_, Verdict::Dismissed, _) => "slip_dismissed",
            Self::SchemeMade(_) => "scheme_made",
            Self::SchemeSaved(..) => "scheme_saved",
            Self::SchemeRetired(_, true) => "scheme_retired",
            Self::SchemeRetired(_, false) => "scheme_offered",
            Self::SchemeChosen(..) => "scheme_chosen",
            Self::MarksReleased(_, true) => "marks_released",
            Self::MarksReleased(_, false) => "marks_taken_back",
            Self::SampleSizesSet(_) => "sample_sizes_set",
            Self::RoundMade(..) => "round_made",
            Self::AnchorsPicked(..) => "anchors_picked",
            Self::RulingWritten(..) => "ruling_written",
            Self::SampleDrawn(..) => "sample_drawn",
            Self::MarksShown(_, round_sheet::Kind::Anchor, _) => "standard_shown",
            Self::MarksShown(_, round_sheet::Kind::Sample, _) => "second_marks_shown",
            Self::Settled(..) => "settled",
            Self::RoundClosed(..) => "round_closed",
            Self::RecordEntry(_) => "record_entry",
        })
    }

    /// Returns the class set that it happened to.
    pub(super) fn class_set(&self) -> Option<ClassSetId> {
        match self {
            Self::SetMade(id, _)
            | Self::SetOpened(id)
            | Self::SetClosed(id)
            | Self::HelpSet(id, ..)
            | Self::ThresholdsSet(id, ..)
            | Self::StopSet(id)
            | Self::BenchSeen(id)
            | Self::Visited(id)
            | Self::NumberRenewed(id, _)
            | Self::Stored(id)
            | Self::ReadingsImported(id, _)
            | Self::RegisterKept(id, _)
            | Self::SlipDecided(id, ..)
            | Self::SchemeChosen(id, ..)
            | Self::MarksReleased(id, _) => Some(*id),
            Self::Settled(_, _, id) => *id,
            _ => None,
        }
    }

    /// Returns the class set whose open pages show something else now.
    pub(super) fn changes(&self) -> Option<ClassSetId> {
        match self {
            Self::SetMade(..)
            | Self::RegisterKept(..)
            | Self::SchemeChosen(..)
            | Self::MarksReleased(..)
            | Self::Settled(..) => None,
            _ => self.class_set(),
        }
    }

    /// Returns what more there is to it: a name, a label or a code as it is, all
    /// else as JSON. Never a secret.
    pub(super) fn detail(&self) -> String {
        let facts = match self {
            Self::SignedIn
            | Self::SetMade(_, true)
            | Self::SetOpened(_)
            | Self::SetClosed(_)
            | Self::StopSet(_)
            | Self::BenchSeen(_)
            | Self::Visited(_)
            | Self::Stored(_)
            | Self::MarksReleased(..) => return String::new(),
            Self::AccountMade(text)
            | Self::KitAdded(text)
            | Self::NumberRenewed(_, text)
            | Self::SlipDecided(_, _, text)
            | Self::SchemeMade(text)
            | Self::SchemeRetired(text, _) => return text.clone(),
            Self::SetMade(_, false) => json!({"live": false}),
            Self::InitialsKept(day) => json!({"until": day.to_string()}),
            Self::InitialsBlanked(count) => json!({"pupils": count}),
            Self::HelpSet(_, is_live, look_again) => {
                json!({"live": is_live, "look_again": look_again.code()})
            }
            Self::ThresholdsSet(_, bench, summary) => json!({"bench": bench, "summary": summary}),
            Self::ReadingsImported(_, groups) => json!(groups),
            Self::RegisterKept(_, counts) => json!(counts),
            Self::SchemeSaved(name, number) | Self::SchemeChosen(_, name, number) => {
                json!({"name": name, "version": number})
            }
            Self::SampleSizesSet(lines) => json!(lines),
            Self::RoundMade(RoundId(round)) | Self::RecordEntry(RoundId(round)) => {
                json!({"round": round})
            }
            Self::AnchorsPicked(RoundId(round), count) => json!({"round": round, "sheets": count}),
            Self::RulingWritten(RoundId(round), key) => json!({"round": round, "point": key}),
            Self::SampleDrawn(RoundId(round), names) => {
                json!({"round": round, "sheets": names.join(" ")})
            }
            Self::MarksShown(RoundId(round), _, unfinished) => {
                json!({"round": round, "unfinished": unfinished})
            }
            Self::Settled(RoundId(round), SettlementId(id), _) => {
                json!({"round": round, "settlement": id})
            }
            Self::RoundClosed(RoundId(round), is_pending) => {
                json!({"round": round, "is_pending": is_pending})
            }
        };
        facts.to_string()
    }
}

/// Reads which groups a file was taken in of, from the detail of such an event.
/// Returns `None` where it is text of an earlier version.
#[must_use]
pub fn taken_in(detail: &str) -> Option<Vec<TakenIn>> {
    serde_json::from_str(detail).ok()
}
