//! Moderation rounds, in the order and by the acts of their pages: made,
//! anchors marked by everyone, ruled on, a sample drawn and marked blind,
//! settled, closed.

use jiff::civil::Date;
use server::acts::{
    Doing, DrawSample, MakeRound, PickAnchors, ReleaseMarks, ShowMarks, Staff, WriteRuling,
};
use server::clock::{HOUR, MINUTE};
use server::db::round::{self, Round};
use server::db::round_sheet::{self, Kind};
use server::db::{Error, class_set, release, scheme};
use server::ids::ClassSetId;
use server::report::moderation::anchors;
use server::report::moderation::draw::draw;

use super::blind::Share;
use super::settle::{close_round, settle_all};
use super::{Plan, Reach};
use crate::department::done;
use crate::marker::EVEN;
use crate::pile::Marker;
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
    /// Its markers.
    pub(crate) markers: Vec<Marker>,
    /// Its class sets, all of one scheme.
    pub(crate) class_sets: Vec<ClassSetId>,
}

impl Held {
    /// Holds the round as far as it is planned.
    pub(crate) async fn hold(&self, doing: &mut Doing<'_>) -> Result<(), Error> {
        let round = self.make(doing).await?;
        self.pick_anchors(doing, &round, self.from + 10 * MINUTE)
            .await?;
        for marker in &self.markers {
            let share = Share {
                round: round.id,
                kind: Kind::Anchor,
                marker: *marker,
                temper: marker.temper(),
                from: self.school_days_later(1),
            };
            share.mark(doing, |sheets| sheets).await?;
        }
        let shown = self.school_days_later(3);
        self.show(doing, &round, shown).await?;
        self.rule(doing, &round, shown + 20 * MINUTE).await?;
        self.draw(doing, &round, self.school_days_later(4)).await?;
        for marker in &self.markers {
            let share = Share {
                round: round.id,
                kind: Kind::Sample,
                marker: *marker,
                // Whoever has agreed a standard marks by it.
                temper: EVEN,
                from: self.school_days_later(5),
            };
            let reach = self.plan.reach;
            let some = |sheets| reach.of(marker.teacher, sheets);
            share.mark(doing, some).await?;
        }
        if self.plan.reach == Reach::Closed {
            let shown = self.school_days_later(8);
            self.show(doing, &round, shown).await?;
            self.close(doing, &round).await?;
        }
        Ok(())
    }

    /// What the markers differ on is settled, and the round is closed.
    async fn close(&self, doing: &mut Doing<'_>, round: &Round) -> Result<(), Error> {
        let mut markers = self.markers.iter();
        let severe = markers.find(|marker| marker.temper() != EVEN);
        let severe = severe.copied().ok_or(Error::Missing)?;
        settle_all(doing, round, self.head, severe, self.school_days_later(9)).await?;
        let closed = self.school_days_later(10);
        close_round(doing, round, self.head, closed).await?;
        self.give_out_again(doing, closed + 10 * MINUTE).await
    }

    /// Groups whose marks were settled otherwise read the new ones.
    async fn give_out_again(&self, doing: &mut Doing<'_>, at: i64) -> Result<(), Error> {
        for id in &self.class_sets {
            let Some(out) = release::find_out(doing.read(), *id).await? else {
                continue;
            };
            if release::count_since(doing.read(), *id, &out).await?.marks > 0 {
                let act = ReleaseMarks {
                    class_set: *id,
                    is_out: true,
                };
                doing.perform(at, self.head, act).await?;
            }
        }
        Ok(())
    }

    /// The same time so many school days later, from 1 on: Unix ms.
    fn school_days_later(&self, days: u32) -> i64 {
        let after = std::iter::successors(self.on.tomorrow().ok(), |day| day.tomorrow().ok());
        let day = nth_school_day(after, days - 1).unwrap_or(self.on);
        let later = self.on.until(day).map_or(0, |span| span.get_days());
        self.from + i64::from(later) * 24 * HOUR
    }

    async fn make(&self, doing: &mut Doing<'_>) -> Result<Round, Error> {
        let first = self.class_sets.first().ok_or(Error::Missing)?;
        let version = class_set::get(doing.read(), *first)
            .await?
            .scheme_version_id;
        let version = scheme::get_version(doing.read(), version.ok_or(Error::Missing)?).await?;
        let act = MakeRound {
            name: self.plan.name.to_owned(),
            scheme: version.scheme_id,
            tolerance_total: 2,
            tolerance_point: 1,
            seed: self.plan.seed.to_owned(),
            class_sets: self.class_sets.clone(),
            markers: self.markers.iter().map(|marker| marker.staff.id).collect(),
        };
        let id = done(doing.perform(self.from, self.head, act).await?)?;
        round::get(doing.read(), id).await
    }

    async fn pick_anchors(
        &self,
        doing: &mut Doing<'_>,
        round: &Round,
        at: i64,
    ) -> Result<(), Error> {
        let pool = anchors::load(doing.read(), round).await?.judge();
        let act = PickAnchors {
            round: round.id,
            sheets: pool.suggested(),
        };
        done(doing.perform(at, self.head, act).await?)
    }

    /// What the markers agree on the points that they differ on.
    async fn rule(&self, doing: &mut Doing<'_>, round: &Round, at: i64) -> Result<(), Error> {
        let sheets = round_sheet::list(doing.read(), round.id).await?;
        let anchor = sheets.first().ok_or(Error::Missing)?;
        let points = scheme::list_points(doing.read(), anchor.scheme_version_id).await?;
        for (title, body) in self.plan.rulings {
            let mut points = points.iter();
            let point = points.find(|point| point.point.title.starts_with(title));
            let act = WriteRuling {
                round: round.id,
                key: point.ok_or(Error::Missing)?.key,
                body: (*body).to_owned(),
                seen: None,
            };
            done(doing.perform(at, self.head, act).await?)?;
        }
        Ok(())
    }

    async fn draw(&self, doing: &mut Doing<'_>, round: &Round, at: i64) -> Result<(), Error> {
        let act = DrawSample {
            round: round.id,
            digest: draw(doing.read(), round).await?.digest(),
        };
        done(doing.perform(at, self.head, act).await?)
    }

    /// Shows everyone's marks of the anchors, or of the sample.
    async fn show(&self, doing: &mut Doing<'_>, round: &Round, at: i64) -> Result<(), Error> {
        let act = ShowMarks {
            round: round.id,
            kind: None,
            is_early: false,
        };
        done(doing.perform(at, self.head, act).await?)?;
        Ok(())
    }
}
