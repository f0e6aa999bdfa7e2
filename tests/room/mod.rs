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

use crate::support::{Browser, Group, Lesson, Part, Reply};

/// One minute of the application's clock, in ms.
const MINUTE: i64 = 60_000;

impl Lesson {
    /// The address of the room page, or of something below it.
    fn room(&self, below: &str) -> String {
        format!("{}/room{below}", self.set)
    }

    async fn room_page(&mut self) -> Reply {
        self.page("/room").await
    }

    /// The tile of one bench.
    async fn tile(&mut self, label: &str) -> Part {
        self.room_page().await.at(&format!("#bench-{label}"))
    }

    /// A careful group sends its sheet with this button.
    async fn sends(&self, act: &str, label: &str) -> (Browser, String) {
        let group = Group::CAREFUL;
        group.sends(act, &self.app, &self.code, label).await
    }

    async fn chooses(&self, label: &str) -> Browser {
        let mut pupil = self.app.browser();
        pupil.take_bench(&self.code, label).await;
        pupil
    }

    /// Ticks a bench, or takes the tick away, as the page would that shows
    /// this version of its sheet.
    async fn ticks(&mut self, label: &str, seen: &str, version: &str) -> Reply {
        let boxes = [("bench", label), ("seen", seen), ("version", version)];
        self.posts("/room/seen", &boxes).await
    }

    fn minutes_pass(&self, minutes: i64) {
        self.app.clock.advance(minutes * MINUTE);
    }

    /// Switches the live pages on or off.
    async fn live(&mut self, live: &str) {
        self.help(live, "nothing").await;
    }
}

/// Labels of the benches as they stand on a page.
fn labels(page: &Reply) -> String {
    let tiles = page.page().all("li[id^='bench-']");
    let label = |tile: &Part| tile.attr("id").replace("bench-", "");
    tiles.iter().map(label).collect()
}
