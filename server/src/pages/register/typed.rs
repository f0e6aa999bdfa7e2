//! A register as it is typed, box by box.

use crate::db::bench::Bench;
use crate::web::form::{Pairs, TypedText};

use super::set::SetRegister;

/// What stands in the boxes.
#[derive(Clone, Debug, Default)]
pub(super) struct RegisterTyped {
    /// Of each bench, in their order.
    pub(super) groups: Vec<TypedGroup>,
    /// How many were absent.
    pub(super) absent: TypedText,
    pub(super) absentees: Vec<TypedAbsentee>,
}

/// The boxes of one bench.
#[derive(Clone, Debug, Default)]
pub(super) struct TypedGroup {
    /// How many were there.
    pub(super) present: TypedText,
    /// Their initials, with blanks between.
    pub(super) initials: TypedText,
}

/// The boxes of one absentee.
#[derive(Clone, Debug, Default)]
pub(super) struct TypedAbsentee {
    pub(super) initials: TypedText,
    /// The day of catching up.
    pub(super) caught_up: TypedText,
}

impl TypedAbsentee {
    pub(super) fn is_blank(&self) -> bool {
        let boxes = [&self.initials, &self.caught_up];
        boxes.iter().all(|typed| typed.text.trim().is_empty())
    }
}

impl RegisterTyped {
    /// Counts the boxes that are wrong.
    pub(super) fn count_wrong(&self) -> usize {
        let of_groups = self.groups.iter();
        let of_groups = of_groups.flat_map(|group| [&group.present, &group.initials]);
        let of_absentees = self.absentees.iter();
        let of_absentees = of_absentees.flat_map(|one| [&one.initials, &one.caught_up]);
        let all = of_groups.chain(of_absentees).chain([&self.absent]);
        all.filter(|typed| typed.wrong.is_some()).count()
    }

    /// Returns what is stored. Where nothing is, the boxes are blank.
    pub(super) fn of(set: &SetRegister) -> Self {
        let count = |n: usize| match n {
            0 if set.lines.is_empty() => TypedText::default(),
            n => TypedText::new(n.to_string()),
        };
        let group = |bench: &Bench| {
            let pupils = set.lines.iter();
            let pupils = pupils.filter(|line| line.was_present && line.bench_id == Some(bench.id));
            let initials = pupils.clone().map(|line| line.initials.as_str());
            let initials: Vec<_> = initials.filter(|text| !text.is_empty()).collect();
            TypedGroup {
                present: count(pupils.count()),
                initials: TypedText::new(initials.join(" ")),
            }
        };
        let absent = set.lines.iter().filter(|line| !line.was_present);
        let absentees: Vec<_> = absent
            .map(|line| TypedAbsentee {
                initials: TypedText::new(&line.initials),
                caught_up: TypedText::new(line.caught_up_on.as_deref().unwrap_or_default()),
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
        let group = |bench: &Bench| TypedGroup {
            present: pairs.typed_in(&format!("present.{}", bench.label)),
            initials: pairs.typed_in(&format!("initials.{}", bench.label)),
        };
        let has = |n: &usize| {
            let name = format!("absent.{n}.caught_up");
            pairs.0.iter().any(|(of, _)| *of == name)
        };
        let absentee = |n: usize| TypedAbsentee {
            initials: pairs.typed_in(&format!("absent.{n}.initials")),
            caught_up: pairs.typed_in(&format!("absent.{n}.caught_up")),
        };
        Self {
            groups: benches.iter().map(group).collect(),
            absent: pairs.typed_in("absent"),
            absentees: (1..).take_while(has).map(absentee).collect(),
        }
    }
}
