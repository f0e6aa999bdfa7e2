//! Which sheets of a file are for a class set. What is not is said.

use analysis::method::Method;
use analysis::text::folded;

use crate::files::SheetReadings;
use crate::files::readings::ClassReadings;
use crate::words::file;

/// The sheets of the class of this name; where the file names no class, all.
pub(super) fn class(
    classes: Vec<ClassReadings>,
    name: &str,
    left_aside: &mut Vec<String>,
) -> Vec<SheetReadings> {
    let is_ours = |class: &ClassReadings| folded(&class.class) == folded(name);
    let is_named = classes.iter().any(|class| !class.class.is_empty());
    let (ours, others): (Vec<_>, Vec<_>) = classes
        .into_iter()
        .partition(|class| is_ours(class) || !is_named);
    let other_names: Vec<_> = others
        .iter()
        .map(|class| match class.class.as_str() {
            "" => "no class".to_owned(),
            name => name.to_owned(),
        })
        .collect();
    if !other_names.is_empty() {
        let mut said = format!(
            "The file has lines of {}. They are left out",
            other_names.join(", ")
        );
        said.push_str(&if ours.is_empty() {
            format!(
                ": this class set is of {name}. Write that name in the column class, or leave the column blank."
            )
        } else {
            format!("; those of {name} are taken.")
        });
        left_aside.push(said);
    }
    ours.into_iter().flat_map(|class| class.sheets).collect()
}

/// The sheets of the set's own method.
pub(super) fn method(
    sheets: Vec<SheetReadings>,
    method: Method,
    left_aside: &mut Vec<String>,
) -> Vec<SheetReadings> {
    let (ours, others): (Vec<_>, Vec<_>) = sheets
        .into_iter()
        .partition(|sheet| sheet.method() == method);
    if !others.is_empty() {
        left_aside.push(format!(
            "Sheets of another practical are left out ({}): this class set is of {}.",
            others.len(),
            method.code()
        ));
    }
    ours
}

/// The sheets in which anything stands.
pub(super) fn filled(
    sheets: Vec<SheetReadings>,
    left_aside: &mut Vec<String>,
) -> Vec<SheetReadings> {
    let (filled, blank): (Vec<_>, Vec<_>) = sheets
        .into_iter()
        .partition(|sheet| !sheet.entry.is_blank());
    left_aside.extend(
        blank
            .iter()
            .map(|sheet| format!("Nothing stands in the lines of group {}.", sheet.group)),
    );
    if filled.is_empty() && left_aside.is_empty() {
        left_aside.push(file::NO_LINES.to_owned());
    }
    filled
}
