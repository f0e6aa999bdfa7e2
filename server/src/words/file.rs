//! What is said of files: what is wrong in one, what was understood of it, and
//! what was taken in.

sentences! {
    NO_LINES: "The file has no lines below its column names.";
    NO_SUCH_FILE: "There is no such file. Open the page of files and choose one.";
    CHOOSE_FILE: "Choose a file first.";
    LONG_FILE: "This file is longer than 2 MB, more than a class writes. Choose another.";
    NO_READINGS_SENT: "The readings did not come with this form. Nothing was kept: choose the file again.";
    NO_GROUP_TICKED: "No group is ticked, so nothing was kept.";
    BAD_LABEL: "a bench’s label has at most 8 letters and figures, without spaces or signs. Write another in the file.";
    TOO_MANY_GROUPS: "a class set has at most 40 groups.";
    WORKBOOK_HOLDS: "For a spreadsheet: a sheet for each of the files below.";
    READINGS_HOLD: "A line for each row of a group’s table, to the letter as it was typed. This file can be taken in again.";
    GROUPS_HOLD: "A line for each group: its speed as recomputed, what was expected, and how it stands in the class.";
    FLAGS_HOLD: "A line for each thing to say of a sheet, before anybody confirmed or dismissed it. Not for pupils: it has what is only inferred, and questions.";
    MARKS_HOLD: "A line for each group and marking point: what is awarded, by whom and why, and what is suggested; and each group’s total.";
    REGISTER_HOLDS: "A line for each group and each absentee.";
}

/// Returns of which groups a file was taken in: the version that their readings
/// became, or none of a bench that it added.
#[must_use]
pub fn taken_in(groups: &[(String, Option<i64>)]) -> String {
    let said = groups.iter().map(|(label, version)| match version {
        Some(version) => format!("{label} (version {version})"),
        None => format!("{label} (new bench)"),
    });
    said.collect::<Vec<_>>().join(", ")
}
