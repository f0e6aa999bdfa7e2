//! A register as it is typed, box by box.

use crate::db::bench::Bench;
use crate::form::Pairs;

use super::set::SetRegister;

/// What stands in the boxes.
#[derive(Clone, Debug, Default)]
pub(super) struct Typed {
    /// Of each bench, in their order.
    pub(super) groups: Vec<TypedGroup>,
    /// How many were absent.
    pub(super) absent: String,
    /// Of each absentee.
    pub(super) absentees: Vec<TypedAbsentee>,
}

/// The boxes of one bench.
#[derive(Clone, Debug, Default)]
pub(super) struct TypedGroup {
    /// How many were there.
    pub(super) present: String,
    /// Their initials, with blanks between.
    pub(super) initials: String,
}

/// The boxes of one absentee.
#[derive(Clone, Debug, Default)]
pub(super) struct TypedAbsentee {
    pub(super) initials: String,
    /// The day of catching up.
    pub(super) caught_up: String,
}

impl TypedAbsentee {
    pub(super) fn is_blank(&self) -> bool {
        self.initials.trim().is_empty() && self.caught_up.trim().is_empty()
    }
}

impl Typed {
    /// What is stored. Where nothing is, the boxes are blank.
    pub(super) fn of(set: &SetRegister) -> Self {
        let count = |n: usize| match n {
            0 if set.lines.is_empty() => String::new(),
            n => n.to_string(),
        };
        let group = |bench: &Bench| {
            let pupils = set.lines.iter();
            let pupils = pupils.filter(|line| line.was_present && line.bench_id == Some(bench.id));
            let initials = pupils.clone().map(|line| line.initials.as_str());
            let initials: Vec<_> = initials.filter(|text| !text.is_empty()).collect();
            TypedGroup {
                present: count(pupils.count()),
                initials: initials.join(" "),
            }
        };
        let absent = set.lines.iter().filter(|line| !line.was_present);
        let absentees: Vec<_> = absent
            .map(|line| TypedAbsentee {
                initials: line.initials.clone(),
                caught_up: line.caught_up_on.clone().unwrap_or_default(),
            })
            .collect();
        Self {
            groups: set.benches.iter().map(group).collect(),
            absent: count(absentees.len()),
            absentees,
        }
    }

    /// Reads a form. Boxes that are not there are blank.
    pub(super) fn read(pairs: &Pairs, benches: &[Bench]) -> Self {
        let text = |name: String| pairs.get(&name).to_owned();
        let group = |bench: &Bench| TypedGroup {
            present: text(format!("present.{}", bench.label)),
            initials: text(format!("initials.{}", bench.label)),
        };
        let has = |n: &usize| {
            let name = format!("absent.{n}.caught_up");
            pairs.0.iter().any(|(of, _)| *of == name)
        };
        let absentee = |n: usize| TypedAbsentee {
            initials: text(format!("absent.{n}.initials")),
            caught_up: text(format!("absent.{n}.caught_up")),
        };
        Self {
            groups: benches.iter().map(group).collect(),
            absent: text("absent".to_owned()),
            absentees: (1..).take_while(has).map(absentee).collect(),
        }
    }
}
