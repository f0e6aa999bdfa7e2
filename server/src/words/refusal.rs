//! Why something is refused, and what is asked of whoever typed it.

sentences! {
    NO_FILE_HERE: "There is no such file.";
    HEAD_DOES_THIS: "A head of department does this.";
    NAME_OF_CLASS: "Type the name of the class, for instance 10B/Ph2.";
    AT_MOST_40: "Use at most 40 characters.";
    WHICH_PRACTICAL: "Choose the practical.";
    DATE_OF_LESSON: "Type the date of the lesson as year-month-day, for instance 2026-11-24.";
    HOW_MANY_GROUPS: "Type a whole number of groups, from 1 to 20.";
    HELP_UNCHANGED: "Choose whether the live pages are on, and what pupils are told. Nothing was changed.";
    NO_NUMBER_YET: "This bench has no number yet: it gets one when a group chooses it. Nothing was changed.";
    NO_BENCH: "There is no bench with this letter in this class set.";
    STATE_UNCHANGED: "A class set is open or closed. Nothing was changed.";
    FIFTY_TO_99: "Type a whole number of per cent, from 50 to 99.";
    FIVE_TO_99: "Type a whole number of per cent, from 5 to 99.";
    SUMMARY_BELOW_BENCH: "The summary tells at least what the bench is told: type no more than for the bench.";
    NO_SUCH_MARKS: "Choose one of the marks that the point has.";
    LONG_REASON: "Use at most 1000 characters for the reason, then choose the mark again.";
    REASON_NEEDED: "Their own figures show otherwise: say why, then choose the mark again. It stays on record.";
    ON_EARLIER_REVISION: "Given on an earlier revision of the sheet.";
    BY_EARLIER_SCHEME: "Given by an earlier version of the scheme, which asked something else here.";
    REASON_HINT_AGAINST: "Needed where the mark goes against what their figures show.";
    REASON_HINT: "If you want one on record.";
    NOTE_HINT: "If it needs saying: for the meeting after.";
    RELEASE_UNCHANGED: "Marks are released or taken back. Nothing was changed.";
    LABEL_OF_KIT: "Type what is written on the kit, for instance Tank 3.";
    KIND_OF_KIT: "Choose what kind of kit it is.";
    KIT_LISTED: "There is a kit with this label already.";
    MET_AT_POINT: "This point was marked by somebody else, or the sheet was stored again, while this page was open. Nothing was awarded: look at what is here now.";
    MET_AT_POINTS: "Somebody else marked one of these points, or a sheet was stored again, while this page was open, so nothing was awarded. Open the page again.";
    HOLDS_NO_MORE: "Their figures now show otherwise, or the point has fewer marks now: award the mark again, with a reason where one is asked for.";
    NOTHING_TO_UNDO: "You have given no mark in this class set that could be undone.";
    MET_BY_UNDOING: "Somebody else has marked one of these points since, so nothing was undone. Give the marks that you want instead.";
    COMMENT_FIRST: "Type the comment first.";
    AT_MOST_500: "Use at most 500 characters.";
    NO_COMMENT: "There is no such comment.";
    NO_POINT_IN_SCHEME: "There is no such point in this scheme.";
    LONG_NOTE: "Use at most 500 characters: the slip has one side.";
    NOTE_OR_COMMENT: "Type the note first, or pick a comment.";
    AT_MOST_2000: "Use at most 2000 characters.";
    NO_ROW: "There is no such row now. Choose again.";
    WHICH_FIGURE: "Choose a figure from the list.";
    NOTE_GONE: "This note is not on the sheet any more.";
    WHICH_SCHEME: "Choose a scheme from the list.";
    ANOTHER_SCHEME: "Marks have been given by another scheme, and are of its points. Only a newer version of the same scheme can be used now.";
    NO_SCHEME: "There is no such scheme.";
    AT_MOST_80: "Use at most 80 characters.";
    AT_MOST_800: "Use at most 800 characters.";
    NO_MARKING_POINT: "There is no such marking point.";
    REGISTER_MET: "Somebody else has changed this register since you opened it, so yours is not kept yet. What you typed is still below. Look at theirs in another window; if yours should stand, press the button again.";
    DAY_CAUGHT_UP: "Type the day as year-month-day, for instance 2026-12-01.";
    BEFORE_LESSON: "That day is before the lesson.";
    DAY_TO_COME: "That day has not come yet. Type it once the pupil has caught up.";
    NO_REGISTERS: "There are no registers of that year.";
    SEEN_UNCHANGED: "A bench is seen or not. Nothing was changed.";
    TIME_PASSED: "That time has passed already today. Type a later one, or leave the box blank.";
    TIME_OF_DAY: "Type a time of day, hours and minutes: 10:50.";
    NAME_OF_SCHEME: "Give the new scheme a name.";
    SCHEME_NAME_TAKEN: "There is a scheme of this name already. Choose another.";
    ONLY_SCHEME: "This is the only scheme that is offered for its method. Offer another one first.";
    NO_POINT: "A scheme has one point or more: add one.";
    SCHEME_MET: "A colleague has saved a newer version while you were writing. What you have typed is still here, and nothing is saved. Look at the newer version first; then save again to put yours after it.";
    WHAT_POINT_ASKS: "Say what the point asks.";
    AT_MOST_120: "Use at most 120 characters.";
    ONE_TO_20: "Type a whole number from 1 to 20.";
    HOW_JUDGED: "Choose how it is judged.";
    LEVELS: "Write one level a line, the best first, as “5-6: what it is like”. Levels stay within the marks of the point and do not overlap.";
    NO_VERSION: "There is no such version of the scheme.";
    NOTE_FIRST: "Type the note first.";
    SLIP_GONE: "The sheet does not show this slip any more. Open it again to see what it shows now.";
    VERDICT_UNCHANGED: "A slip is confirmed or dismissed. Nothing was changed.";
    WHY_NO_SLIP: "Say why it is no slip.";
    AT_MOST_1000: "Use at most 1000 characters.";
    NO_BENCH_OR_VERSION: "There is no such bench or version in this class set.";
    OLD_LINK: "This link has been used, or it is too old. Ask for a new one.";
    NAME_TAKEN: "Somebody has an account with this name. Add an initial.";
    OWN_NAME: "Type your name as colleagues know it, for instance Ms Fell.";
    PASSWORDS_DIFFER: "The two passwords are not the same. Type them again.";
    HEAD_ADDS_COLLEAGUES: "Only a head of department can add a colleague.";
    TOO_MANY_TRIES: "That was too many tries. Wait a minute, then try again.";
    NO_SUCH_SIGN_IN: "This name and password do not belong together.";
    ONE_OF_TWO: "Choose one of the two.";
    BEFORE_2100: "Choose a day before the year 2100.";
    AFTER_TODAY: "Choose a day after today.";
    DAY_OF_WIPING: "Type the day as year-month-day, for instance 2027-08-31.";
    HEAD_SETS_WHAT_IS_KEPT: "Only a head of department can set what is kept.";
    NO_PRACTICAL: "This class has no practical in that school year.";
    NO_PRACTICAL_OR_BLIND: "You mark a sheet of this class without seeing anybody else’s marks, or it has no practical in that school year.";
    NO_FILE_OF_YEAR: "There is no such file of the year.";
    NO_KIT: "There is no such kit.";
    TEACHERS_FOR_HEAD: "Teachers are compared for the head of department alone.";
    NO_SCHOOL_YEAR: "There is no such school year.";
    NO_SLIP: "There is no such slip.";
    DATE_OF_CHANGE: "Type the date as 2027-01-15.";
    SHORT_PASSWORD: "Use at least 10 characters. Three or four words make a good password.";
    AT_MOST_128: "Use at most 128 characters.";
    COMMON_PASSWORD: "This is one of the commonest passwords. Choose another.";
    NAME_AS_PASSWORD: "The password must not be your name.";
    OLD_FORM: "This form is from an earlier session. Open the page again and try once more.";
}

/// Returns that a group has more initials than pupils present.
#[must_use]
pub fn more_initials(count: usize) -> String {
    format!("There are initials of {count}. Type {count} present, or take some away.")
}

/// Returns that a group is too large.
#[must_use]
pub fn large_group(most: usize) -> String {
    format!("A group has at most {most} pupils.")
}

/// Returns which whole numbers may be typed.
#[must_use]
pub fn up_to(most: usize) -> String {
    format!("Type a whole number from 0 to {most}.")
}

/// Returns that something is no pupil's initials.
#[must_use]
pub fn no_initials(text: &str, longest: usize) -> String {
    format!(
        "“{text}” cannot be kept: initials are at most {longest} letters, with a space between two pupils’."
    )
}

/// Returns that a smaller number would drop an absentee.
#[must_use]
pub fn absentee_filled(number: usize) -> String {
    format!("Something is filled in for absentee {number}. Clear that first, or type {number}.")
}

/// Returns what is wrong with a mark, and which was chosen.
#[must_use]
pub fn chosen(sentence: &str, marks: &str) -> String {
    match marks {
        "" | "none" => sentence.to_owned(),
        marks => format!("{sentence} You chose {marks}."),
    }
}

/// Returns what was suggested when a mark was given, and what is now.
#[must_use]
pub fn suggested_then(then: Option<i64>, now: Option<i64>) -> String {
    let told = |marks: Option<i64>| marks.map_or("nothing".to_owned(), |marks| marks.to_string());
    format!("Suggested then: {}; now: {}.", told(then), told(now))
}
