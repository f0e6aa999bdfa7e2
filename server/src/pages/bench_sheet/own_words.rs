//! The boxes in which a group answers in its own words.

use analysis::scheme::Answer;

use crate::db::revision::Answers;
use crate::words::Say;

/// What the names of these boxes begin with.
pub(super) const PLACE: &str = "words";

/// Longest answer, in characters.
const LONGEST: usize = 3000;
/// Rows of an empty box; a long answer makes it taller, up to a limit.
const FEWEST_ROWS: usize = 5;
const MOST_ROWS: usize = 30;
/// Characters that one row of a box holds, roughly.
const ROW: usize = 60;

#[derive(Debug)]
pub(super) struct AnswerBox {
    /// Its name, and its id as well.
    pub(super) name: String,
    /// The question.
    pub(super) label: &'static str,
    /// What it is called in the list of errors.
    pub(super) short: &'static str,
    pub(super) hint: &'static str,
    /// As typed.
    pub(super) text: String,
    /// How tall it is, in rows of text.
    pub(super) rows: usize,
    /// What is wrong with it, as a sentence.
    pub(super) wrong: Option<String>,
}

/// Returns an answer as it is stored: browsers send other line ends than they
/// show, and a tab comes in with what is pasted. Nothing but blanks is no
/// answer.
pub(in crate::pages) fn read(typed: &str) -> String {
    if typed.trim().is_empty() {
        return String::new();
    }
    typed
        .replace("\r\n", "\n")
        .replace('\r', "\n")
        .replace('\t', " ")
}

/// Says whether one of the answers cannot be kept.
pub(super) fn are_wrong(answers: &Answers) -> bool {
    let mut texts = Answer::ALL.into_iter().map(|answer| answers.get(answer));
    texts.any(|text| !fits(text))
}

/// Says what is wrong with an answer. Returns `None` where it can be kept.
pub(in crate::pages) fn fault(say: Say, text: &str) -> Option<String> {
    let length = text.chars().count();
    if length > LONGEST {
        return Some(say.sheet_words_long(length, LONGEST));
    }
    text.contains(is_hidden).then(|| say.sheet_words_hidden())
}

fn fits(text: &str) -> bool {
    text.chars().count() <= LONGEST && !text.contains(is_hidden)
}

fn is_hidden(c: char) -> bool {
    c.is_control() && c != '\n'
}

/// Returns the boxes, with what is wrong with them where that is to be said.
pub(super) fn boxes(say: Say, answers: &Answers, is_refused: bool) -> Vec<AnswerBox> {
    let of = |answer: Answer| {
        let text = answers.get(answer);
        AnswerBox {
            name: format!("{PLACE}.{}", answer.code()),
            label: say.answer_question(answer),
            hint: say.answer_hint(answer),
            short: say.answer(answer),
            rows: rows(text),
            text: text.to_owned(),
            wrong: fault(say, text).filter(|_| is_refused),
        }
    };
    Answer::ALL.map(of).into()
}

fn rows(text: &str) -> usize {
    let rows = text.split('\n').map(|line| 1 + line.chars().count() / ROW);
    rows.sum::<usize>().clamp(FEWEST_ROWS, MOST_ROWS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_ends_become_one_kind_and_blanks_are_no_answer() {
        assert_eq!(read("a\r\nb\rc\n\n d\t1 "), "a\nb\nc\n\n d 1 ");
        assert_eq!(read(" \r\n\t "), "");
    }

    #[test]
    fn longest_answer_is_taken_and_one_more_is_not() {
        let fault = |text: &str| fault(Say::english(), text);
        assert_eq!(fault(&"é\n".repeat(LONGEST / 2)), None);
        let reason = fault(&"é".repeat(LONGEST + 1)).unwrap();
        assert!(reason.contains("3001"), "{reason}");
    }

    #[test]
    fn sign_that_cannot_be_shown_is_refused() {
        let fault = |text: &str| fault(Say::english(), text);
        for sign in ['\u{1}', '\u{b}', '\u{1b}', '\u{7f}', '\u{85}'] {
            assert!(fault(&format!("crest{sign}s")).is_some(), "{sign:?}");
        }
        assert_eq!(fault("λ = 2 cm – “crests”\nétés 👋"), None);
    }
}
