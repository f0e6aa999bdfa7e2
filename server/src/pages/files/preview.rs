//! The page that shows what would be taken in, and the form that it carries.

use super::plan::{Plan, Planned, Standing};
use super::stored::StoredClass;
use crate::db::class_set::ClassSet;
use crate::pages::bench_sheet::lines::Pair;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::AppError;
use crate::web::form::Pairs;
use crate::web::layout::Layout;
use crate::words::taking_in::{self, Does};

/// What the form of a preview carries.
#[derive(Debug)]
pub(super) struct Carried {
    pub(super) file: String,
    /// Labels of the groups that are to be kept.
    pub(super) ticked: Vec<String>,
    /// The version that each group had stored when it was shown.
    bases: Vec<(String, i64)>,
}

impl Carried {
    /// Of a file just chosen: groups that have a bench are ticked, benches to
    /// be added are not, since a bench is never taken away again.
    pub(super) fn first(file: String, plan: &Plan) -> Self {
        let ticked = plan.groups.iter().filter(|g| g.is_open() && !g.is_new());
        Self {
            file,
            ticked: ticked.map(|group| group.label.clone()).collect(),
            bases: Vec::new(),
        }
    }

    /// Reads the form. Returns `None` when no file came with it.
    pub(super) fn read(pairs: &Pairs) -> Option<Self> {
        let mut file: String = serde_json::from_str(pairs.get("readings")).ok()?;
        file.retain(|c| c != '\0');
        let mut carried = Self {
            file,
            ticked: Vec::new(),
            bases: Vec::new(),
        };
        for (name, value) in &pairs.0 {
            match name.split_once('.') {
                Some(("take", label)) => carried.ticked.push(label.to_owned()),
                Some(("base", label)) => {
                    let base = value.parse().ok()?;
                    carried.bases.push((label.to_owned(), base));
                }
                _ => {}
            }
        }
        Some(carried)
    }

    /// Returns the version that a group had stored when it was shown. Returns
    /// `None` when it had no bench.
    pub(super) fn base(&self, label: &str) -> Option<i64> {
        let mut bases = self.bases.iter();
        bases.find(|(of, _)| of == label).map(|(_, base)| *base)
    }
}

#[derive(askama::Template)]
#[template(path = "files/preview.html")]
pub(super) struct PreviewPage {
    layout: Layout,
    class_set: ClassSet,
    /// Why it is shown again.
    notice: Option<String>,
    assumed: Vec<String>,
    left_aside: Vec<String>,
    groups: Vec<PreviewGroup>,
    /// Whether there is anything to keep.
    is_open: bool,
    /// How many of the groups are of each standing: a phrase each.
    counts: Vec<String>,
    /// The file as JSON: browsers change line ends, but not those in there.
    readings: String,
}

struct PreviewGroup {
    planned: Planned,
    is_ticked: bool,
}

impl PreviewPage {
    pub(super) fn new(
        layout: Layout,
        stored: StoredClass,
        plan: Plan,
        carried: &Carried,
        notice: Option<String>,
    ) -> Result<Self, AppError> {
        let counts = counts(&plan.groups);
        let is_open = plan.groups.iter().any(Planned::is_open);
        let groups = plan.groups.into_iter().map(|planned| PreviewGroup {
            is_ticked: carried.ticked.contains(&planned.label),
            planned,
        });
        Ok(Self {
            layout,
            class_set: stored.class_set,
            notice,
            assumed: plan.assumed,
            left_aside: plan.left_aside,
            is_open,
            counts,
            groups: groups.collect(),
            readings: serde_json::to_string(&carried.file).map_err(AppError::internal)?,
        })
    }
}

impl Planned {
    /// Returns the boxes that would change.
    fn what_changes(&self, differences: &[Pair]) -> PageTable {
        let typed = |text: &str| match text {
            "" => Cell::from("(blank)"),
            text => Cell::from(text).class("as-typed"),
        };
        Table::of(differences)
            .text("Box", |pair| &pair.label)
            .text("Stored now", |pair| typed(&pair.stored))
            .text("In the file", |pair| typed(&pair.yours))
            .on_page(
                format!("What would change for group {}", self.label),
                "What would change",
            )
    }

    /// Returns what was understood, line by line.
    fn understood(&self) -> PageTable {
        Table::of(&self.lines)
            .figure("Line", |line| line.number)
            .text("Row", |line| &line.row)
            .text("What stands there", |line| match line.words.is_empty() {
                true => taking_in::NO_ROW.to_owned(),
                false => line.words.join("; "),
            })
            .on_page(
                format!("Lines of group {}", self.label),
                format!("Group {} in the file", self.label),
            )
    }
}

/// Says how many groups are new to the class set, how many would change, and
/// so on.
fn counts(groups: &[Planned]) -> Vec<String> {
    let does = |group: &Planned| match group.standing {
        Standing::First => Does::First,
        Standing::Change { .. } => Does::Change,
        Standing::Same => Does::Same,
        Standing::New | Standing::Impossible(_) => Does::NewBench,
    };
    let counted = Does::ALL.map(|one| (one, groups.iter().filter(|g| does(g) == one).count()));
    let counted = counted.into_iter().filter(|(_, count)| *count > 0);
    counted
        .map(|(one, count)| taking_in::groups(one, count))
        .collect()
}
