//! Acts: all that anybody can do to the data file. One file an act.
//!
//! An act is a value: what was asked for. [`Act::perform`] takes who does it
//! and a [`Doing`], checks the act's rules on the writer's own connection,
//! where nothing can change between the check and the write, writes its rows
//! and names its [`Event`]. The one runner gives it a savepoint, stores the
//! event and tells the open pages. Where an act refuses or fails, whatever it
//! wrote is undone.
//!
//! Nothing else can write: only this module can look into a [`Doing`], and the
//! functions of `db/` that write take what is in it.

mod add_comment;
mod add_note;
mod award;
mod award_second;
mod award_suggested;
mod blank_due_initials;
mod blank_initials;
mod choose_scheme;
mod close_round;
mod come_back;
mod copy_scheme;
mod decide_slip;
mod draw_sample;
mod enter_record;
pub mod event;
mod hand_in;
mod invite;
mod invite_first;
mod keep_derived;
mod keep_initials;
mod keep_register;
mod keep_seen;
mod leave_bench;
mod list_kit;
mod make_account;
mod make_class_set;
mod make_round;
mod mark_again;
mod not_done;
mod note_marking;
mod open;
mod open_draft;
mod pick_anchors;
mod release_marks;
mod renew_number;
mod retire_comment;
mod retire_scheme;
mod save_scheme;
mod set_help;
mod set_sample_sizes;
mod set_state;
mod set_stop;
mod set_thresholds;
mod settle;
mod show_marks;
mod sign_in;
mod sign_out;
mod still_holds;
mod take_bench;
mod take_in_readings;
mod tick_bench;
mod undo_marks;
mod withdraw_note;
mod write_ruling;

use std::future::Future;

pub use add_comment::AddComment;
pub use add_note::{AddNote, NotNoted};
pub use award::{Award, Given, NotAwarded};
pub use award_second::{AwardSecond, NotMarked};
pub use award_suggested::{AwardSuggested, NotAsSeen, Places};
pub use blank_due_initials::BlankDueInitials;
pub use blank_initials::{BlankInitials, Blanking};
pub use choose_scheme::{ChooseScheme, NotChosen};
pub use close_round::{CloseRound, NotClosed};
pub use come_back::ComeBack;
pub use copy_scheme::CopyScheme;
pub use decide_slip::{DecideSlip, NotDecided};
pub use draw_sample::{DrawSample, DrawnOtherwise};
pub use enter_record::{EnterRecord, NotEntered};
pub use event::Event;
pub use hand_in::{HandIn, Sent};
pub use invite::Invite;
pub use invite_first::InviteFirst;
pub use keep_derived::keep_derived;
pub use keep_initials::KeepInitials;
pub use keep_register::{KeepRegister, RegisterChanged};
pub use keep_seen::KeepSeen;
pub use leave_bench::LeaveBench;
pub use list_kit::ListKit;
pub use make_account::{MakeAccount, NoAccount};
pub use make_class_set::MakeClassSet;
pub use make_round::{MakeRound, NotMade};
pub use mark_again::MarkAgain;
pub use not_done::{NotDone, Stop};
pub use note_marking::{NotKept, NoteMarking};
pub use open::{BATCH, open, open_with};
pub use open_draft::{NoDraft, OpenDraft};
pub use pick_anchors::{NotPicked, PickAnchors};
pub use release_marks::ReleaseMarks;
pub use renew_number::{NoNumberYet, RenewNumber};
pub use retire_comment::RetireComment;
pub use retire_scheme::{LastOfMethod, RetireScheme};
pub use save_scheme::{NotSaved, SaveScheme};
pub use set_help::SetHelp;
pub use set_sample_sizes::SetSampleSizes;
pub use set_state::SetState;
pub use set_stop::{NoStop, SetStop};
pub use set_thresholds::SetThresholds;
pub use settle::{Holds, NotSettled, Settle};
pub use show_marks::{NotShown, ShowMarks, Shown};
pub use sign_in::SignIn;
pub use sign_out::SignOut;
pub use still_holds::{HoldsNoMore, StillHolds};
pub use take_bench::{NotTaken, TakeBench};
pub use take_in_readings::{GroupWork, NoBench, ReadingsMet, TakeInReadings, why_no_bench};
pub use tick_bench::{NotTicked, TickBench};
pub use undo_marks::{NotUndone, UndoMarks};
pub use withdraw_note::{NoSuchNote, WithdrawNote};
pub use write_ruling::{NotRuled, WriteRuling};

use NotDone::Refused;
use not_done::refuse_if;

use crate::changes::Changes;
use crate::db::{self, Connection, Error, Store, Writing};
use crate::ids::{ClassSetId, DepartmentId, StaffId, VisitId};

/// Something that can be done, by a `B`.
pub trait Act<B: By>: Send + Sized + 'static {
    /// What comes of it.
    type Done: Send + 'static;
    /// What there is where it is not done.
    type Stop: Stop;

    /// Checks and writes.
    fn perform(
        self,
        by: B,
        doing: &mut Doing<'_>,
    ) -> impl Future<Output = Result<Self::Done, Self::Stop>> + Send;
}

/// What is told of an act, refusals included.
pub type Told<A, B> = <<A as Act<B>>::Stop as Stop>::Told<<A as Act<B>>::Done>;

/// Who does something, for the record.
pub trait By: Copy + Send + 'static {
    /// Returns the member of staff, if it is one.
    fn staff(self) -> Option<StaffId>;
}

/// A member of staff.
#[derive(Clone, Copy, Debug)]
pub struct Staff {
    pub id: StaffId,
    /// Whether they are a head of department.
    pub is_head: bool,
}

impl By for Staff {
    fn staff(self) -> Option<StaffId> {
        Some(self.id)
    }
}

impl By for VisitId {
    fn staff(self) -> Option<StaffId> {
        None
    }
}

/// Checks that it is a head of department.
fn head(by: Staff) -> Result<(), Error> {
    match by.is_head {
        true => Ok(()),
        false => Err(Error::HeadOnly),
    }
}

/// Somebody who is neither signed in nor at a bench, or the program itself.
#[derive(Clone, Copy, Debug)]
pub struct Anyone;

impl By for Anyone {
    fn staff(self) -> Option<StaffId> {
        None
    }
}

/// Somebody of a department, who may do what takes their kind of [`By`].
pub trait Actor {
    type By: By;

    /// Returns their department and who they are.
    fn acting(&self) -> (DepartmentId, Self::By);
}

impl<B: By> Actor for (DepartmentId, B) {
    type By = B;

    fn acting(&self) -> (DepartmentId, B) {
        *self
    }
}

/// There is one of this name already. Nothing was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taken;

/// Acts under way, in one savepoint of the writer.
#[derive(Debug)]
pub struct Doing<'w> {
    db: &'w mut Writing,
    at: i64,
    changed: Vec<ClassSetId>,
}

impl Doing<'_> {
    /// Returns a connection to read with, which sees what was just written.
    pub fn read(&mut self) -> &mut Connection {
        self.db
    }

    /// Returns the moment of the act, Unix ms.
    #[must_use]
    pub fn at(&self) -> i64 {
        self.at
    }

    /// Performs an act at a moment (Unix ms), as a part of what is under way.
    ///
    /// # Errors
    /// As of the act.
    pub async fn perform<A: Act<B>, B: By>(
        &mut self,
        at: i64,
        by: B,
        act: A,
    ) -> Result<Told<A, B>, Error> {
        let outer = std::mem::replace(&mut self.at, at);
        let done = act.perform(by, self).await;
        self.at = outer;
        A::Stop::told(done)
    }

    /// Records that something was done, and by whom. Open pages of its class
    /// set are told once it is on disk.
    async fn record(&mut self, by: impl By, event: &Event) -> Result<(), Error> {
        if let Some(id) = event.changes() {
            self.changed.push(id);
        }
        let Some(what) = event.code() else {
            return Ok(());
        };
        let (on, detail) = (event.class_set(), event.detail());
        db::event::insert(self.db, self.at, what, by.staff(), on, &detail).await
    }
}

/// Performs an act now, at `at` (Unix ms), and returns what came of it once
/// that is on disk.
///
/// # Errors
/// As of the act; when the writer takes no more or stops.
pub async fn perform<A: Act<B>, B: By>(
    store: &Store,
    changes: &Changes,
    at: i64,
    actor: &impl Actor<By = B>,
    act: A,
) -> Result<Told<A, B>, Error> {
    let (department, by) = actor.acting();
    let changes = changes.clone();
    let tell = move |(_, changed): &(A::Done, Vec<ClassSetId>)| {
        for id in changed {
            changes.announce(*id);
        }
    };
    let work = store.writer().run(department, tell, move |db| {
        Box::pin(async move {
            let changed = Vec::new();
            let mut doing = Doing { db, at, changed };
            let done = act.perform(by, &mut doing).await?;
            Ok((done, doing.changed))
        })
    });
    let done = work.await.map(|(done, _)| done);
    A::Stop::told(done).map_err(missing)
}

/// Performs an act of the program itself, about which no open page is told.
///
/// # Errors
/// As of the act; when the writer takes no more or stops.
pub async fn perform_unheard<A: Act<Anyone>>(
    store: &Store,
    at: i64,
    department: DepartmentId,
    act: A,
) -> Result<Told<A, Anyone>, Error> {
    let nobody_listens = Changes::new(0);
    perform(store, &nobody_listens, at, &(department, Anyone), act).await
}

/// A row that is missing inside an act is a fault of ours. What an address
/// names and is not there an act answers with [`Error::NoSuch`].
fn missing(error: Error) -> Error {
    match error {
        Error::Sql(sqlx::Error::RowNotFound) => Error::Missing,
        other => other,
    }
}

/// A row that an address or a form names need not be there.
fn named<T>(row: Result<T, Error>) -> Result<T, Error> {
    row.map_err(|error| match error {
        Error::Sql(sqlx::Error::RowNotFound) => Error::NoSuch,
        other => other,
    })
}
