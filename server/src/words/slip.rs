//! What is said of a slip, of what may have happened at the bench, and what to
//! do about either: all by its code, in one entry of the catalogue.

use analysis::field::{Field, Role};
use analysis::next::Next;
use analysis::scheme::{Answer, Judged};
use analysis::slip::Slip;

use super::Say;

impl Say {
    /// Returns a slip in a few words, for a list or a heading.
    #[must_use]
    pub fn slip(self, slip: Slip) -> &'static str {
        self.coded("slip", slip.code(), None)
    }

    /// Returns one sentence about what the group did.
    #[must_use]
    pub fn slip_sentence(self, slip: Slip) -> &'static str {
        self.coded("slip", slip.code(), Some("said"))
    }

    /// Returns a question for the teacher to ask at the bench.
    #[must_use]
    pub fn slip_ask(self, slip: Slip) -> &'static str {
        self.coded("slip", slip.code(), Some("ask"))
    }

    /// Returns a question for the group before its sheet is marked.
    #[must_use]
    pub fn slip_look(self, slip: Slip) -> &'static str {
        self.coded("slip", slip.code(), Some("look"))
    }

    /// Returns what the group did, as its feedback tells it.
    #[must_use]
    pub fn slip_told(self, slip: Slip) -> &'static str {
        self.coded("slip", slip.code(), Some("told"))
    }

    /// Returns what to do next about a slip, or about a remark.
    #[must_use]
    pub fn slip_next(self, slip: Slip) -> &'static str {
        self.coded("slip", slip.code(), Some("next"))
    }

    /// Returns what to look at again, to stand after *Look again at*: `your
    /// wavelength`, `the unit of your wavelength`.
    #[must_use]
    pub fn look_at(self, slip: Slip, step: Field) -> String {
        let label = self.field(step);
        match (slip, step.role()) {
            (Slip::UnitMissing, Role::Working) => self.look_unit_of_yours(label),
            (Slip::UnitMissing, Role::Reading) => self.look_unit_of_reading(label),
            (Slip::TooFewFigures | Slip::TooManyFigures, Role::Working) => {
                self.look_figures_of_yours(label)
            }
            (Slip::TooFewFigures | Slip::TooManyFigures, Role::Reading) => {
                self.look_figures_of_reading(label)
            }
            (Slip::RowLeftOutUnsaid, _) => self.look_rows_in_mean(),
            (_, Role::Working) => self.look_yours(label),
            (_, Role::Reading) => self.look_reading(label),
        }
    }

    /// Returns what to ask where nothing is known but that a bench does not get
    /// on: `stuck`, `not-begun`.
    #[must_use]
    pub fn ask(self, state: &str) -> &'static str {
        self.coded("ask", state, None)
    }

    /// Returns what to do next, on a group's feedback.
    pub(crate) fn next(self, next: Next) -> String {
        match next {
            Next::Slip(slip) => self.slip_next(slip).to_owned(),
            Next::Point(Judged::ByEye(Some(Answer::Method))) => self.next_method(),
            Next::Point(Judged::ByEye(Some(Answer::Conclusion))) => self.next_conclusion(),
            Next::Point(Judged::ByEye(Some(Answer::Evaluation))) => self.next_evaluation(),
            Next::Point(_) => self.next_graph(),
            Next::GoOn => self.next_go_on(),
        }
    }
}

#[cfg(test)]
mod tests {
    use analysis::reading::Cause;
    use analysis::slip::Kind;

    use super::super::cause;
    use super::*;

    const TEXTS: [fn(Say, Slip) -> &'static str; 6] = [
        Say::slip,
        Say::slip_sentence,
        Say::slip_ask,
        Say::slip_look,
        Say::slip_told,
        Say::slip_next,
    ];

    /// Returns the longest sentence of a text, in words.
    fn longest(text: &str) -> usize {
        let sentences = text.split_inclusive(['.', '?', ':']);
        let words = sentences.map(|sentence| sentence.split_whitespace().count());
        words.max().unwrap_or(0)
    }

    #[test]
    fn everything_is_said_of_every_slip_and_in_words_of_its_own() {
        let say = Say::english();
        for say in Say::all() {
            let has_all = |slip| TEXTS.iter().all(|text| !text(say, slip).is_empty());
            assert!(Slip::ALL.into_iter().all(has_all), "{say:?}");
        }
        // Without what to do next: two slips of one step are mended alike.
        for text in &TEXTS[..5] {
            for slip in Slip::ALL {
                let alike = Slip::ALL
                    .iter()
                    .filter(|s| text(say, **s) == text(say, slip));
                assert_eq!(alike.count(), 1, "{slip:?}: {}", text(say, slip));
            }
        }
        for slip in Slip::ALL {
            assert_ne!(say.slip_ask(slip), say.slip_look(slip), "{slip:?}");
        }
    }

    #[test]
    fn what_is_said_to_a_group_is_nothing_but_questions() {
        let say = Say::english();
        let asked = Slip::ALL.map(|slip| say.slip_ask(slip)).into_iter();
        for line in asked.chain([say.ask("stuck"), say.ask("not-begun")]) {
            assert!(line.ends_with('?'), "{line}");
        }
    }

    #[test]
    fn questions_give_no_answer_and_have_no_number() {
        let say = Say::english();
        let slips = Slip::ALL.into_iter();
        let slips = slips.flat_map(|slip| [say.slip_ask(slip), say.slip_look(slip)]);
        for line in slips {
            let said = line.to_lowercase();
            assert!(!said.contains("reliab"), "{line}");
            assert!(!said.contains(|c: char| c.is_ascii_digit()), "{line}");
            for slip in Slip::ALL {
                for answer in [say.slip(slip), say.slip_sentence(slip)] {
                    assert!(!said.contains(&answer.to_lowercase()), "{line}");
                }
            }
        }
        for slip in Slip::ALL {
            let look = say.slip_look(slip);
            assert!(look.ends_with('?'), "{look}");
            for cause in Cause::ALL {
                assert!(!look.contains(cause::short(cause)), "{look}");
            }
        }
    }

    #[test]
    fn sentences_are_short_enough_for_those_who_read_or_say_them() {
        let say = Say::english();
        for slip in Slip::ALL {
            for text in [say.slip_told(slip), say.slip_next(slip)] {
                assert!(longest(text) <= 20, "{text}");
                assert!(!text.to_lowercase().contains("reliab"), "{text}");
            }
            assert!(longest(say.slip_look(slip)) <= 26, "{slip:?}");
            let asked = say.slip_ask(slip).split_whitespace().count();
            assert!(asked <= 20, "{slip:?}: said while walking up");
        }
    }

    #[test]
    fn remark_says_which_side_of_a_figure_is_meant() {
        let say = Say::english();
        for slip in Slip::ALL {
            let said = say.look_at(slip, Field::Speed);
            assert_eq!(said == "your speed", slip.kind() == Kind::Slip, "{said}");
        }
        let unit = say.look_at(Slip::UnitMissing, Field::Span);
        assert_eq!(unit, "the unit of the distance between the crests");
    }
}
