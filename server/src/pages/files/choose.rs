//! Which sheets of a file are for a class set. What is not is said.

use analysis::method::Method;
use analysis::text::folded;

use crate::files::SheetReadings;
use crate::files::readings::ClassReadings;
use crate::words::file;
use crate::words::taking_in;

/// Returns the sheets of the class of this name; where the file names no
/// class, all.
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
    let others: Vec<_> = others.iter().map(|class| class.class.as_str()).collect();
    if !others.is_empty() {
        left_aside.push(taking_in::other_classes(&others, name, !ours.is_empty()));
    }
    ours.into_iter().flat_map(|class| class.sheets).collect()
}

/// Returns the sheets of the set's own method.
pub(super) fn method(
    sheets: Vec<SheetReadings>,
    method: Method,
    left_aside: &mut Vec<String>,
) -> Vec<SheetReadings> {
    let (ours, others): (Vec<_>, Vec<_>) = sheets
        .into_iter()
        .partition(|sheet| sheet.method() == method);
    if !others.is_empty() {
        left_aside.push(taking_in::other_methods(others.len(), method.code()));
    }
    ours
}

/// Returns the sheets in which anything stands.
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
            .map(|sheet| taking_in::blank_group(&sheet.group)),
    );
    if filled.is_empty() && left_aside.is_empty() {
        left_aside.push(file::NO_LINES.to_owned());
    }
    filled
}
