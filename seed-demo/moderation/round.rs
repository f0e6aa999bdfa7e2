//! Moderation rounds, in the order of their pages: made, anchors marked by
//! everyone, ruled on, a sample drawn and marked blind, settled, closed.

use jiff::civil::Date;
use server::acts::{
    CloseRound, Doing, DrawSample, MakeRound, PickAnchors, ShowMarks, Staff, WriteRuling,
};
use server::clock::{HOUR, MINUTE};
use server::db::round::NewRound;
use server::db::round_sheet::Kind;
use server::db::{Error, release, round};
use server::ids::{ClassSetId, RoundId};
use server::report::desk::{Desk, first};
use server::report::moderation::anchors;
use server::report::moderation::draw::draw;

use super::{Plan, Reach};
use crate::department::done;
use crate::pile::{Marker, give_out};
use crate::term::nth_school_day;

/// A round while it is held.
pub(crate) struct Held {
    pub(crate) plan: &'static Plan,
    /// The day on which it is made.
    pub(crate) on: Date,
    /// When that is, Unix ms.
    pub(crate) from: i64,
    /// Who makes it, and takes its steps.
    pub(crate) head: Staff,
    pub(crate) markers: Vec<Marker>,
    /// Its class sets, all of one scheme.
    pub(crate) class_sets: Vec<ClassSetId>,
}

impl Held {
    /// Holds the round as far as it is planned.
    pub(crate) async fn hold(&self, doing: &mut Doing<'_>) -> Result<(), Error> {
        let first = self.class_sets.first().ok_or(Error::Missing)?;
        let desk = first::load(doing.read(), *first, None).await?;
        let round = self.make(doing, &desk).await?;
        self.pick_anchors(doing, round).await?;
        self.mark(doing, round, Kind::Anchor).await?;
        let shown = self.school_days_later(3);
        self.show(doing, round, shown).await?;
        self.rule(doing, round, shown + 20 * MINUTE, &desk).await?;
        self.draw(doing, round).await?;
        self.mark(doing, round, Kind::Sample).await?;
        if self.plan.reach == Reach::Closed {
            self.show(doing, round, self.school_days_later(8)).await?;
            self.settle(doing, round).await?;
            self.close(doing, round).await?;
        }
        Ok(())
    }

    /// Returns the same time so many school days later, from 1 on: Unix ms.
    pub(super) fn school_days_later(&self, days: u32) -> i64 {
        let after = std::iter::successors(self.on.tomorrow().ok(), |day| day.tomorrow().ok());
        let day = nth_school_day(after, days - 1).unwrap_or(self.on);
        let later = self.on.until(day).map_or(0, |span| span.get_days());
        self.from + i64::from(later) * 24 * HOUR
    }

    async fn make(&self, doing: &mut Doing<'_>, desk: &Desk) -> Result<RoundId, Error> {
        let new = NewRound {
            name: self.plan.name.to_owned(),
            scheme: desk.version.scheme_id,
            tolerance_total: 2,
            tolerance_point: 1,
            seed: self.plan.seed.to_owned(),
            class_sets: self.class_sets.clone(),
            markers: self.markers.iter().map(|marker| marker.staff.id).collect(),
        };
        done(doing.perform(self.from, self.head, MakeRound(new)).await?)
    }

    async fn pick_anchors(&self, doing: &mut Doing<'_>, round: RoundId) -> Result<(), Error> {
        let made = round::get(doing.read(), round).await?;
        let pool = anchors::load(doing.read(), &made).await?.judge();
        let sheets = pool.suggested();
        let at = self.from + 10 * MINUTE;
        let act = PickAnchors {
            round,
            pool,
            sheets,
        };
        done(doing.perform(at, self.head, act).await?)
    }

    /// Shows everyone's marks of the anchors, or of the sample.
    async fn show(&self, doing: &mut Doing<'_>, round: RoundId, at: i64) -> Result<(), Error> {
        let act = ShowMarks {
            round,
            kind: None,
            is_early: false,
        };
        done(doing.perform(at, self.head, act).await?)?;
        Ok(())
    }

    /// Stores what the markers agree on the points that they differ on.
    async fn rule(
        &self,
        doing: &mut Doing<'_>,
        round: RoundId,
        at: i64,
        desk: &Desk,
    ) -> Result<(), Error> {
        for (title, body) in self.plan.rulings {
            let mut points = desk.points.iter();
            let point = points.find(|point| point.point.title.starts_with(title));
            let act = WriteRuling {
                round,
                key: point.ok_or(Error::Missing)?.key,
                body: (*body).to_owned(),
                seen: None,
            };
            done(doing.perform(at, self.head, act).await?)?;
        }
        Ok(())
    }

    async fn draw(&self, doing: &mut Doing<'_>, round: RoundId) -> Result<(), Error> {
        let made = round::get(doing.read(), round).await?;
        let digest = draw(doing.read(), &made).await?.digest();
        let act = DrawSample { round, digest };
        done(
            doing
                .perform(self.school_days_later(4), self.head, act)
                .await?,
        )
    }

    /// Closes the round. Groups whose marks were settled otherwise read the
    /// new ones.
    async fn close(&self, doing: &mut Doing<'_>, round: RoundId) -> Result<(), Error> {
        let at = self.school_days_later(10);
        let act = CloseRound {
            round,
            although_pending: false,
        };
        done(doing.perform(at, self.head, act).await?)?;
        for id in &self.class_sets {
            let Some(out) = release::find_out(doing.read(), *id).await? else {
                continue;
            };
            if release::count_since(doing.read(), *id, &out).await?.marks > 0 {
                give_out(doing, at + 10 * MINUTE, self.head, *id).await?;
            }
        }
        Ok(())
    }
}
