//! The live page of a lesson, and the view of it for a projector.

mod changes;
mod kits;
mod off;
mod order;
mod pages;
mod seen;
mod stop;
mod stream;
mod tiles;
mod wall;

use analysis::field::Field;
use analysis::reading::{Cause, Finding};

use crate::support::{Browser, Group, Part, Reply, TestApp, finding};

/// One minute of the application's clock, in ms.
const MINUTE: i64 = 60_000;

const COUNTED: fn(f64) -> Finding =
    |share| finding(Cause::CountedFromOne, None, Field::LastCrest, share);
const MISCOUNT: fn(f64) -> Finding =
    |share| finding(Cause::CrestMiscount, Some(2), Field::LastCrest, share);
const LAMP: fn(f64) -> Finding = |share| Finding {
    mended: None,
    ..finding(Cause::LampOff, None, Field::ScaleImage, share)
};

/// A lesson of four benches at the ripple tank.
struct Lesson<'a> {
    app: &'a TestApp,
    teacher: Browser<'a>,
    /// Address of the class set.
    set: String,
    code: String,
}

impl<'a> Lesson<'a> {
    async fn new(app: &'a TestApp) -> Self {
        let mut teacher = app.teacher().await;
        let (set, code) = teacher.make_class_set("ripple-tank").await;
        Self {
            app,
            teacher,
            set,
            code,
        }
    }

    /// The address of the room page, or of something below it.
    fn room(&self, below: &str) -> String {
        format!("{}/room{below}", self.set)
    }

    async fn page(&mut self) -> Reply {
        let page = self.room("");
        self.teacher.opens(&page).await
    }

    /// The tile of one bench.
    async fn tile(&mut self, label: &str) -> Part {
        self.page().await.at(&format!("#bench-{label}"))
    }

    /// A careful group sends its sheet with this button.
    async fn sends(&self, act: &str, label: &str) -> (Browser<'a>, String) {
        let group = Group::CAREFUL;
        group.sends(act, self.app, &self.code, label).await
    }

    async fn chooses(&self, label: &str) -> Browser<'a> {
        let mut pupil = self.app.browser();
        pupil.take_bench(&self.code, label).await;
        pupil
    }

    /// Ticks a bench, or takes the tick away, as the page would that shows
    /// this version of its sheet.
    async fn ticks(&mut self, label: &str, seen: &str, version: &str) -> Reply {
        let boxes = [("bench", label), ("seen", seen), ("version", version)];
        let act = self.room("/seen");
        self.teacher.post_staff(&act, &boxes).await
    }

    fn minutes_pass(&self, minutes: i64) {
        self.app.clock.advance(minutes * MINUTE);
    }

    /// Switches the live pages on or off.
    async fn live(&mut self, live: &str) {
        let boxes = [("live", live), ("look_again", "nothing")];
        let act = format!("{}/help", self.set);
        self.teacher.sends(&act, &boxes).await;
    }

    async fn closes(&mut self) {
        let act = format!("{}/state", self.set);
        let closed = [("state", "closed")];
        self.teacher.sends(&act, &closed).await;
    }
}

/// Labels of the benches as they stand on a page.
fn labels(page: &Reply) -> String {
    let tiles = page.page().all("li[id^='bench-']");
    let label = |tile: &Part| tile.attr("id").replace("bench-", "");
    tiles.iter().map(label).collect()
}
