//! The register file: one line a group, then one an absentee.

use std::io::Write;

use super::cell;
use crate::db::register::Line;
use crate::ids::BenchId;

/// The columns, in their order.
pub const COLUMNS: [&str; 9] = [
    "class",
    "method",
    "date",
    "group",
    "handed_in",
    "present",
    "initials",
    "absent",
    "caught_up_on",
];

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
    pub groups: Vec<Group>,
    /// Its pupils.
    pub lines: Vec<Line>,
}

/// A group in the register.
#[derive(Clone, Debug)]
pub struct Group {
    /// Its bench.
    pub bench_id: BenchId,
    /// The label of its bench.
    pub label: String,
    /// When it last handed in, in the school's time, `yyyy-mm-dd hh:mm`;
    /// blank if never.
    pub handed_in: String,
}

/// Writes the registers of some class sets.
///
/// # Errors
/// When the output cannot be written.
pub fn write(out: impl Write, registers: &[Register]) -> csv::Result<()> {
    let mut out = csv::Writer::from_writer(out);
    out.write_record(COLUMNS)?;
    for register in registers {
        for group in &register.groups {
            out.write_record(register.group(group))?;
        }
        for line in register.lines.iter().filter(|line| !line.was_present) {
            out.write_record(register.absentee(line))?;
        }
    }
    Ok(out.flush()?)
}

impl Register {
    fn group(&self, group: &Group) -> [String; COLUMNS.len()] {
        let present = self
            .lines
            .iter()
            .filter(|line| line.was_present && line.bench_id == Some(group.bench_id));
        let initials = present.clone().map(|line| line.initials.as_str());
        let initials: Vec<_> = initials.filter(|text| !text.is_empty()).collect();
        let count = match present.count() {
            0 if self.lines.is_empty() => String::new(),
            count => count.to_string(),
        };
        [
            cell::typed(&self.class).into_owned(),
            self.method.clone(),
            self.date.clone(),
            cell::typed(&group.label).into_owned(),
            group.handed_in.clone(),
            count,
            cell::typed(&initials.join(" ")).into_owned(),
            String::new(),
            String::new(),
        ]
    }

    fn absentee(&self, line: &Line) -> [String; COLUMNS.len()] {
        [
            cell::typed(&self.class).into_owned(),
            self.method.clone(),
            self.date.clone(),
            String::new(),
            String::new(),
            String::new(),
            cell::typed(&line.initials).into_owned(),
            "1".to_owned(),
            line.caught_up_on.clone().unwrap_or_default(),
        ]
    }
}
