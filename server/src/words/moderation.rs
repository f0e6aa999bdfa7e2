//! What is said of a moderation round: how far it has come, what its sheets
//! are called, and what was settled. Steps and decisions come by their codes.

use super::counted;
use super::time::long_date;
use super::verdict::Whose;

sentences! {
    TO_SETTLE: "To settle";
    PAST_PICKING: "The anchors of this round are past picking.";
    ONE_MARKER: "The round has one marker only: there is nothing to compare.";
    TWO_ANCHORS: "Choose at least two sheets; three or four are usual.";
    SIX_ANCHORS: "Choose at most six sheets; three or four are usual.";
    ANCHORS_MET: "A sheet was handed in or marked at this very moment, so nothing was picked. Look at the sheets once more.";
    BLIND_YET: "The second marks of this round are still blind. They are compared with the first when they are shown.";
    COMPARISON_FOR_MARKERS: "The comparison is for those who marked in this round. What was ruled stands beside each marking point.";
    ONE_CLASS_SET: "Choose at least one class set.";
    ONE_MARKER_AT_LEAST: "Choose at least one marker.";
    SCHEME_FIRST: "Choose the scheme first.";
    HOW_MANY_MARKS: "Type a whole number of marks, from 0 to 50.";
    NAME_OF_ROUND: "Type what to call it, for instance Autumn ripple tank.";
    SEED: "Type the seed, at most 40 characters.";
    POINT_OR_ALL: "Choose a point, or all of them.";
    ROUND_CLOSED: "The round is closed: its record does not change. What is decided later is written to the record as a later entry.";
    NO_SHEET_OF_YOURS: "There is no such sheet of yours in this round.";
    WHICH_CLASS: "Choose the class.";
    NO_FIRST_MARK: "There is no such marking point with a first mark.";
    WHY: "Write down why. It stays on record.";
    SETTLING_MET: "Somebody has marked or settled this point while this page was open. Nothing was settled: look at what is here now.";
    SAMPLE_BLIND: "You are marking sheets of this sample without seeing other marks, and why each was taken would tell of them. This page opens when the marks are shown.";
    NO_SAMPLE: "No sample was drawn in this round.";
    NO_SHEET_IN_ROUND: "There is no such sheet in this round.";
    SHEET_OF_OTHERS: "Only those who have to mark this sheet in the round can open it here.";
    SHOWN_MEANWHILE: "Everyone’s marks have been shown in the meantime, so they stand as they are. This one was not kept.";
    HEAD_MAKES_ROUNDS: "A head of department makes rounds, picks anchors and draws samples.";
    RECORD_FOR_HEADS: "A record compares colleagues, so it is for heads of department alone. Both marks of your own sheets stand on the page of settling.";
    NO_RECORD: "There is no record at this address. A round has one once it is closed.";
    DIFFERENCES_LEFT: "Some sheets have differences to settle first, so the round was not closed.";
    STILL_TO_MARK: "Something is still to be marked. To close the round all the same, tick that you mean it.";
    FOUND_OR_DONE: "Write down what was found or done.";
    ANCHORS_BEING_MARKED: "The anchors are being marked. The sample is drawn when their marks have been shown.";
    SAMPLE_MET: "Marks have changed since this page was opened, so the sample would be another. Nothing was drawn. Open the page again and look.";
    WHICH_MARK_HOLDS: "Choose the mark that holds.";
    BLIND_ELSEWHERE: "In another round you mark sheets of these classes without seeing other marks. This page opens to you when those are shown.";
    SECOND_NOT_SHOWN: "The second marks of this round are not shown yet.";
    NONE_OF_YOURS: "You marked none of the sheets of this round, neither first nor second.";
    ROUND_WENT_ON: "The round has gone on since this page was opened, and other sheets are being marked now. Nothing was shown. Open the page again and look.";
    NOT_ALL_FINISHED: "Not everyone has finished. Nothing was shown.";
    WHO_SHOWS: "A marker of the round shows the marks once all have finished; before that only a head of department does.";
    UP_TO_HOW_MANY: "Type for cohorts of up to how many sheets this is.";
    SIZE_TWICE: "This size of cohort is in the table already.";
    ONE_TO_10_000: "Type a whole number from 1 to 10 000, or leave the box blank.";
    RULING_MET: "This ruling was changed while you wrote. Yours is not kept yet: read the one that stands, then keep yours in its place or put both together.";
    ROUND_CLOSED_TO_RULINGS: "The round is closed. A new ruling belongs to a new round.";
    ANCHORS_NOT_SHOWN: "Everyone’s marks of the anchors are not shown yet.";
    STANDARD_FOR_MARKERS: "The markers’ marks are for the markers of the round. What was ruled stands beside each marking point.";
    ANCHORS_BLIND: "You are marking one of these anchors once more, without seeing other marks of it. This page opens when those are shown.";
}

/// Writes a class set as staff call it: `10B/Ph2, 24 November 2026`.
#[must_use]
pub fn class_called(class_name: &str, held_on: &str) -> String {
    format!("{class_name}, {}", long_date(held_on))
}

/// Writes a sheet as staff call it: `10B/Ph2, 24 November 2026, group A`.
#[must_use]
pub fn sheet_called(class_name: &str, held_on: &str, label: &str) -> String {
    format!("{}, group {label}", class_called(class_name, held_on))
}

/// Returns where a round stands, by its newest step.
#[must_use]
pub fn stands(step: Option<&str>) -> &'static str {
    match step {
        Some("standard") => "Everyone marks the anchors",
        Some("standard_shown") => "The standard is shown; no sample drawn yet",
        Some("drawn") => "The sample is marked a second time",
        Some("shown") => "First and second marks are side by side",
        Some("closed") => "Closed",
        _ => "Made, not begun",
    }
}

/// Returns what was done. Other text is of a record that was closed when words
/// were kept, and comes back.
#[must_use]
pub fn done(step: &str) -> &str {
    match step {
        "made" => "Made",
        "standard" => "Anchors picked",
        "standard_shown" => "Everyone’s marks of the anchors shown",
        "drawn" => "Sample drawn",
        "shown" => "Second marks shown beside the first",
        "closed" => "Closed",
        words => words,
    }
}

/// Returns what was decided, to stand by what it was decided about: a point,
/// or all that is left of a sheet or a class.
#[must_use]
pub fn settled(kind: &str, agreed: Option<i64>, is_of_a_point: bool) -> String {
    let words = match (kind, agreed) {
        ("agreed", Some(marks)) => return format!("Agreed: {marks}"),
        ("again", _) => "Marked again",
        ("not_again", _) => "Not marked again after all",
        _ if is_of_a_point => "The first mark stands",
        _ => "All other first marks of the sheet stand",
    };
    words.to_owned()
}

/// Returns what was decided and of which point, for a record.
#[must_use]
pub fn decided(kind: &str, agreed: Option<i64>, point: Option<&str>) -> String {
    let what = match (kind, agreed) {
        ("agreed", Some(marks)) => format!("Agreed {marks}"),
        ("again", _) => "To be marked again".to_owned(),
        ("not_again", _) => "Not to be marked again after all".to_owned(),
        _ if point.is_none() => return "First marks stand: all other points".to_owned(),
        _ => "The first mark stands".to_owned(),
    };
    format!("{what}: {}", point_called(point))
}

/// Returns which points something is about: one by its title, or every one.
#[must_use]
pub fn point_called(title: Option<&str>) -> String {
    title.map_or_else(
        || "every point".to_owned(),
        |title| format!("point {title}"),
    )
}

/// Returns why a mark was given that settles a difference: in which round, and
/// what the two wrote down.
#[must_use]
pub fn given(kind: &str, round: &str, reason: &str) -> String {
    let holds = match kind {
        "agreed" => "Agreed",
        _ => "The first mark stands",
    };
    format!("{holds} in the moderation round {round}: {reason}")
}

sentences! {
    PICK_ANCHORS: "Pick anchor sheets for everyone to mark first";
    OR_DRAW: "Or draw the sample without a standard";
    WRITE_RULINGS: "Read the differences and write the rulings";
    DRAW: "Draw the sample";
    READ_RULINGS: "Read the differences and the rulings";
    SEE_THEM_AGREE: "See how far the markers agree";
    SETTLE_AND_CLOSE: "Settle what they differ on, then close the round";
    SEE_YOU_AGREE: "See how far you agree";
    SETTLE: "Settle what you differ on";
    FILE_RECORD: "Read and file the record";
    SHOW_ALL: "All have marked: show everyone’s marks";
    AGAIN_FOR_CLASS: "Marked again for the whole class";
    STANDS_WITH_ALL: "The first mark stands, with all others of the sheet";
    WITHIN: "Within the tolerance";
    AGREED: "You agree";
    GONE_POINT: "a point that is no longer in the scheme";
}

/// Returns that a class is to be marked again, on a point or on every one, and
/// how far that has come.
#[must_use]
pub fn mark_again(is_point: bool, class: &str, done: i64, of: i64) -> String {
    let what = if is_point { "a point" } else { "every point" };
    format!("Mark {what} again for {class}: {done} of {of} marks given anew")
}

/// Returns how many anchors there are to mark.
#[must_use]
pub fn mark_anchors(count: usize) -> String {
    format!("Mark {}", counted(count, "anchor", "anchors"))
}

/// Returns how many sheets of a sample there are to mark.
#[must_use]
pub fn mark_sample(count: usize) -> String {
    format!("Mark {} a second time", counted(count, "sheet", "sheets"))
}

/// Returns for whom there is to wait.
#[must_use]
pub fn wait_for(names: &[String]) -> String {
    format!("Wait for {}", names.join(", "))
}

/// Returns sheets that the reader may not see by name, after those that they
/// may.
#[must_use]
pub fn of_colleagues(count: usize) -> String {
    match count {
        1 => "a sheet of colleagues".to_owned(),
        n => format!("{n} sheets of colleagues"),
    }
}

/// Returns where a sheet stands among those of the reader: `Anchor 2 of 4`.
#[must_use]
pub fn place_among(is_anchor: bool, number: usize, of: usize) -> String {
    let what = if is_anchor { "Anchor" } else { "Sheet" };
    format!("{what} {number} of {of}")
}

/// Returns what figures of agreement are of: all sheets, or those that somebody
/// marked first or second.
#[must_use]
pub fn sheets_of(name: &str, whose: Whose) -> String {
    match whose {
        Whose::Everyone => "all sheets".to_owned(),
        Whose::First => format!("sheets that {name} marked first"),
        Whose::Second => format!("sheets that {name} marked a second time"),
    }
}

/// Returns on how many points two markers agree, after that they differ.
#[must_use]
pub fn you_agree(points: usize) -> String {
    let points = counted(points, "point", "points");
    format!("; you agree on the other {points}")
}

/// Returns who wrote a decision down, and when.
#[must_use]
pub fn written_down(by: &str, when: &str) -> String {
    format!("Written down by {by}, {when}")
}

/// Returns the mark that somebody gave since a point was settled. Returns
/// `None` when they took one back.
#[must_use]
pub fn marked_since(awarded: Option<i64>, by: &str, when: &str) -> String {
    awarded.map_or_else(
        || format!("no mark now: taken back by {by}, {when}"),
        |marks| format!("{marks} now, given by {by}, {when}"),
    )
}
