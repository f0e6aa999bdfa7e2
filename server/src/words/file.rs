//! What is said of files: what is wrong in one, what was understood of it, and
//! what was taken in.

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
