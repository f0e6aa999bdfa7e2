//! A sheet as the teacher sees it, and the teacher's word on it.

mod annotate;
mod answers;
mod decide;
mod show;
mod suggested;

use crate::support::{Browser, Group, TestApp};

/// A teacher whose class set has one sheet, at bench A; the teacher, the
/// pupils' browser, its address and the teacher's.
pub(crate) struct Handed<'a> {
    pub(crate) teacher: Browser<'a>,
    pub(crate) pupil: Browser<'a>,
    /// Address of the sheet for pupils.
    pub(crate) bench: String,
    /// Address of the class set.
    pub(crate) set: String,
    /// Address of the sheet for the teacher.
    pub(crate) sheet: String,
}

/// The group hands its sheet in at bench A of a new class set.
pub(crate) async fn handed_in<'a>(app: &'a TestApp, group: &Group) -> Handed<'a> {
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    let (pupil, bench) = group.sends("hand_in", app, &code, "A").await;
    let sheet = format!("{set}/sheets/A");
    Handed {
        teacher,
        pupil,
        bench,
        set,
        sheet,
    }
}
