//! The register file: one line a group, then one an absentee.

use crate::clock::Zone;
use crate::db::register::{RegisterGroup, RegisterLine};
use crate::table::Table;

/// The register of one class set.
#[derive(Clone, Debug)]
pub struct Register {
    /// Name of the class.
    pub class: String,
    /// Code of the method.
    pub method: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub date: String,
    /// Its groups, in their order.
    pub groups: Vec<RegisterGroup>,
    /// Its pupils.
    pub lines: Vec<RegisterLine>,
}

/// Makes the table of the registers of some class sets, in the school's time.
#[must_use]
pub fn table(registers: &[Register], zone: &Zone) -> Table {
    let lines: Vec<_> = registers.iter().flat_map(Register::rows).collect();
    Table::of(&lines)
        .text("class", |row| &row.register.class)
        .text("method", |row| &row.register.method)
        .text("date", |row| &row.register.date)
        .text("group", |row| row.group.map_or("", |group| &group.label))
        .text("handed_in", |row| {
            let at = row.group.and_then(|group| group.handed_in_at);
            at.map_or_else(String::new, |at| zone.stamp(at))
        })
        .figure("present", RegisterRow::present)
        .text("initials", |row| {
            let initials = row.pupils.iter().map(|pupil| pupil.initials.as_str());
            let initials: Vec<_> = initials.filter(|text| !text.is_empty()).collect();
            initials.join(" ")
        })
        .figure("absent", |row| row.group.map_or("1", |_| ""))
        .text("caught_up_on", |row| {
            let days = row.pupils.iter().map(|pupil| pupil.caught_up_on.as_deref());
            days.flatten().collect::<String>()
        })
        .table()
}

struct RegisterRow<'a> {
    register: &'a Register,
    /// `None` for an absentee.
    group: Option<&'a RegisterGroup>,
    /// Those of the group that were present, or the absentee.
    pupils: Vec<&'a RegisterLine>,
}

impl Register {
    fn rows(&self) -> impl Iterator<Item = RegisterRow<'_>> {
        let row = |group, pupils| RegisterRow {
            register: self,
            group,
            pupils,
        };
        let groups = self.groups.iter().map(move |group| {
            let present = self.lines.iter().filter(|line| line.was_present);
            let of_group = present.filter(|line| line.bench_id == Some(group.bench_id));
            row(Some(group), of_group.collect())
        });
        let absentees = self.lines.iter().filter(|line| !line.was_present);
        groups.chain(absentees.map(move |line| row(None, vec![line])))
    }
}

impl RegisterRow<'_> {
    fn present(&self) -> String {
        match self.pupils.len() {
            _ if self.group.is_none() || self.register.lines.is_empty() => String::new(),
            count => count.to_string(),
        }
    }
}
