//! Moderation rounds, in the order and by the functions of their pages: made,
//! anchors marked by everyone, ruled on, a sample drawn and marked blind,
//! settled, closed.

use jiff::civil::Date;
use server::clock::{HOUR, MINUTE};
use server::db::event::{self, NewEvent};
use server::db::round::{self, NewRound, Round, Step};
use server::db::round_sheet::{self, Kind};
use server::db::ruling::{self, NewRuling};
use server::db::{Error, Writing, class_set, release, scheme};
use server::ids::{ClassSetId, StaffId};
use server::report::moderation::anchors;
use server::report::moderation::draw::draw;

use super::blind::Share;
use super::settle::{close_round, settle_all};
use super::{Plan, Reach};
use crate::marker::EVEN;
use crate::pile::{self, Marker};
use crate::term::nth_school_day;

/// A round while it is held.
pub(crate) struct Held {
    pub(crate) plan: &'static Plan,
    /// The day on which it is made.
    pub(crate) on: Date,
    /// When that is, Unix ms.
    pub(crate) from: i64,
    /// Who makes it, and takes its steps.
    pub(crate) head: StaffId,
    /// Its markers.
    pub(crate) markers: Vec<Marker>,
    /// Its class sets, all of one scheme.
    pub(crate) class_sets: Vec<ClassSetId>,
}

impl Held {
    /// Holds the round as far as it is planned.
    pub(crate) async fn hold(&self, db: &mut Writing) -> Result<(), Error> {
        let round = self.make(db).await?;
        self.pick_anchors(db, &round, self.from + 10 * MINUTE)
            .await?;
        for marker in &self.markers {
            let share = Share {
                round: round.id,
                kind: Kind::Anchor,
                marker: *marker,
                temper: marker.temper(),
                from: self.school_days_later(1),
            };
            share.mark(db, |sheets| sheets).await?;
        }
        let shown = self.school_days_later(3);
        self.show(db, &round, Step::StandardShown, shown).await?;
        self.rule(db, &round, shown + 20 * MINUTE).await?;
        self.draw(db, &round, self.school_days_later(4)).await?;
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
            share.mark(db, some).await?;
        }
        if self.plan.reach == Reach::Closed {
            let shown = self.school_days_later(8);
            self.show(db, &round, Step::Shown, shown).await?;
            self.close(db, &round).await?;
        }
        Ok(())
    }

    /// What the markers differ on is settled, and the round is closed.
    async fn close(&self, db: &mut Writing, round: &Round) -> Result<(), Error> {
        let mut markers = self.markers.iter();
        let severe = markers.find(|marker| marker.temper() != EVEN);
        let severe = severe.copied().ok_or(Error::Stopped)?;
        settle_all(db, round, self.head, severe, self.school_days_later(9)).await?;
        let closed = self.school_days_later(10);
        close_round(db, round, self.head, closed).await?;
        self.give_out_again(db, closed + 10 * MINUTE).await
    }

    /// Groups whose marks were settled otherwise read the new ones.
    async fn give_out_again(&self, db: &mut Writing, at: i64) -> Result<(), Error> {
        for id in &self.class_sets {
            let Some(out) = release::find_out(db, *id).await? else {
                continue;
            };
            if release::count_since(db, *id, &out).await?.marks == 0 {
                continue;
            }
            pile::give_out(db, *id, self.head, at).await?;
            let new = NewEvent {
                at,
                what: "marks_released",
                staff_id: Some(self.head),
                class_set_id: Some(*id),
                detail: "",
            };
            event::insert(db, &new).await?;
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

    async fn make(&self, db: &mut Writing) -> Result<Round, Error> {
        let first = self.class_sets.first().ok_or(Error::Stopped)?;
        let version = class_set::get(db, *first).await?.scheme_version_id;
        let version = scheme::get_version(db, version.ok_or(Error::Stopped)?).await?;
        let new = NewRound {
            name: self.plan.name.to_owned(),
            scheme_id: version.scheme_id,
            tolerance_total: 2,
            tolerance_point: 1,
            seed: self.plan.seed.to_owned(),
            class_sets: self.class_sets.clone(),
            markers: self.markers.iter().map(|marker| marker.id).collect(),
            staff_id: self.head,
            made_at: self.from,
        };
        let id = round::insert(db, &new).await?;
        let detail = format!("round {id}: {}, seed {}", new.name, new.seed);
        self.tell(db, self.from, "round_made", &detail).await?;
        round::get(db, id).await
    }

    async fn pick_anchors(&self, db: &mut Writing, round: &Round, at: i64) -> Result<(), Error> {
        let pool = anchors::load(db, round).await?.judge();
        let rows = pool.rows(round, &pool.suggested());
        for row in &rows {
            round_sheet::insert(db, row).await?;
        }
        round::insert_step(db, round.id, Step::Standard, self.head, at).await?;
        let detail = format!("round {}: {} sheets", round.id, rows.len());
        self.tell(db, at, "anchors_picked", &detail).await
    }

    /// What the markers agree on the points that they differ on.
    async fn rule(&self, db: &mut Writing, round: &Round, at: i64) -> Result<(), Error> {
        let sheets = round_sheet::list(db, round.id).await?;
        let anchor = sheets.first().ok_or(Error::Stopped)?;
        let points = scheme::list_points(db, anchor.scheme_version_id).await?;
        for (title, body) in self.plan.rulings {
            let mut points = points.iter();
            let point = points.find(|point| point.point.title.starts_with(title));
            let new = NewRuling {
                round_id: round.id,
                scheme_id: round.scheme_id,
                point_key: point.ok_or(Error::Stopped)?.key,
                body: (*body).to_owned(),
                staff_id: self.head,
                at,
            };
            ruling::insert(db, &new).await?;
            let detail = format!("round {}, point {}", round.id, new.point_key);
            self.tell(db, at, "ruling_written", &detail).await?;
        }
        Ok(())
    }

    async fn draw(&self, db: &mut Writing, round: &Round, at: i64) -> Result<(), Error> {
        let draw = draw(db, round).await?;
        for row in draw.rows(round) {
            round_sheet::insert(db, &row).await?;
        }
        let names: Vec<&str> = draw
            .taken
            .iter()
            .map(|taken| draw.sheet(taken).name.as_str())
            .collect();
        round::insert_draw(db, round.id, draw.asked, self.head, at).await?;
        let detail = format!(
            "round {}, seed {}: {}",
            round.id,
            round.seed,
            names.join(" ")
        );
        self.tell(db, at, "sample_drawn", &detail).await
    }

    /// Shows everyone's marks of the anchors, or of the sample.
    async fn show(
        &self,
        db: &mut Writing,
        round: &Round,
        step: Step,
        at: i64,
    ) -> Result<(), Error> {
        round::insert_step(db, round.id, step, self.head, at).await?;
        let what = match step {
            Step::StandardShown => "standard_shown",
            _ => "second_marks_shown",
        };
        let detail = format!("round {}, all had finished", round.id);
        self.tell(db, at, what, &detail).await
    }

    /// Writes down what happened.
    async fn tell(&self, db: &mut Writing, at: i64, what: &str, detail: &str) -> Result<(), Error> {
        let new = NewEvent {
            at,
            what,
            staff_id: Some(self.head),
            class_set_id: None,
            detail,
        };
        event::insert(db, &new).await
    }
}
