//! A class set with its register.

use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::register::{self, RegisterGroup, RegisterLine};
use crate::db::{Connection, Error, department};
use crate::files::register::Register;
use crate::ids::ClassSetId;

/// A class set, its benches and its pupils.
#[derive(Debug)]
pub(in crate::pages) struct SetRegister {
    pub(in crate::pages) class_set: ClassSet,
    /// Its benches, by label.
    pub(in crate::pages) benches: Vec<Bench>,
    /// Its pupils.
    pub(in crate::pages) lines: Vec<RegisterLine>,
    /// Whether initials may be kept today.
    pub(in crate::pages) keeps_initials: bool,
}

impl SetRegister {
    pub(in crate::pages) async fn load(
        db: &mut Connection,
        id: ClassSetId,
        today: jiff::civil::Date,
    ) -> Result<Self, Error> {
        let class_set = class_set::get(db, id).await?;
        Ok(Self {
            class_set,
            benches: bench::list(db, id).await?,
            lines: register::list(db, id).await?,
            keeps_initials: department::get(db).await?.keeps_initials_on(today),
        })
    }

    /// Returns it as a file has it.
    #[must_use]
    pub(in crate::pages) fn for_file(&self) -> Register {
        let groups = self.benches.iter().map(|bench| RegisterGroup {
            class_set_id: self.class_set.id,
            bench_id: bench.id,
            label: bench.label.clone(),
            handed_in_at: bench.handed_in_at,
        });
        Register {
            class: self.class_set.class_name.clone(),
            method: self.class_set.method.clone(),
            date: self.class_set.held_on.clone(),
            groups: groups.collect(),
            lines: self.lines.clone(),
        }
    }
}
