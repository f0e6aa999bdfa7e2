//! The sheet's page, put together from a form and the remarks on it.

use analysis::field::Field;

use super::boxes::{self, BoxView, Column, Remarks, UnitList};
use super::form::SheetForm;
use super::own_words::{self, AnswerBox};
use super::rows::MOST_ROWS;
use crate::db::kit::{Kind, Kit};
use crate::pages::front::AtBench;
use crate::web::layout::Layout;
use crate::words::Say;

/// One line of the list of errors.
#[derive(Debug)]
pub(super) struct Complaint {
    /// Id of the box.
    pub(super) target: String,
    pub(super) text: String,
}

impl Complaint {
    fn new(say: Say, target: &str, name: &str, reason: &str) -> Self {
        Self {
            target: target.to_owned(),
            text: say.sheet_complaint(name, reason),
        }
    }
}

/// One row of the two tables.
pub(super) struct RowView {
    /// Number from 1, as in the names of its boxes.
    pub(super) number: usize,
    pub(super) label: String,
    pub(super) readings: Vec<BoxView>,
    pub(super) counted: Vec<BoxView>,
    pub(super) working: Vec<BoxView>,
    pub(super) left_out: bool,
}

#[derive(askama::Template)]
#[template(path = "bench_sheet/show.html")]
pub(super) struct SheetPage {
    pub(super) layout: Layout,
    pub(super) code: String,
    pub(super) label: String,
    pub(super) practical: &'static str,
    pub(super) class_name: String,
    /// Date of the lesson, spelt out.
    pub(super) date: String,
    /// Whether a span of crests is drawn, and loops are.
    pub(super) has_span: bool,
    pub(super) has_loops: bool,
    pub(super) draft: String,
    /// That the sheet was kept, and when; `None` where this page was not.
    pub(super) receipt: Option<String>,
    /// Something to know before anything else.
    pub(super) notice: Option<String>,
    /// That a row was made ready, to be typed in.
    pub(super) ready: Option<String>,
    pub(super) complaints: Vec<Complaint>,
    /// Whether a sheet with nothing on it was handed in.
    pub(super) is_empty_hand_in: bool,
    pub(super) kit: String,
    pub(super) wrong_kit: Option<String>,
    /// Whose readings these are.
    pub(super) shared: String,
    pub(super) wrong_shared: Option<String>,
    /// Labels of kits of the right kind.
    pub(super) kits: Vec<String>,
    pub(super) cautions: Vec<&'static str>,
    pub(super) first_heading: &'static str,
    pub(super) first_lead: &'static str,
    pub(super) first: Vec<BoxView>,
    pub(super) readings_lead: &'static str,
    pub(super) reading_columns: Vec<Column>,
    pub(super) counted_columns: Vec<Column>,
    /// Whether the part for counted crests is folded out.
    pub(super) is_counted: bool,
    pub(super) working_columns: Vec<Column>,
    pub(super) rows: Vec<RowView>,
    pub(super) may_add_rows: bool,
    pub(super) result: Vec<BoxView>,
    /// The boxes for the group's own words.
    pub(super) answers: Vec<AnswerBox>,
    /// Whether the group may be told what to look at again.
    pub(super) may_look_again: bool,
    /// Whether the group can read its marks.
    pub(super) has_feedback: bool,
}

impl SheetPage {
    /// Puts the page together.
    pub(super) fn new(at: &AtBench, form: SheetForm, remarks: &Remarks, kits: &[Kit]) -> Self {
        let (say, method) = (at.say, form.method);
        let [first_heading, first_lead, readings_lead] = say.leads(method);
        let spec = method.spec();
        let worked: Vec<_> = method.working_columns().collect();
        let columns = |fields: &[Field]| {
            fields
                .iter()
                .map(|f| boxes::column(say, &form, remarks, *f))
                .collect()
        };
        let whole = |fields: &[Field]| {
            fields
                .iter()
                .map(|f| boxes::whole(say, &form, remarks, *f))
                .collect()
        };
        let rows: Vec<_> = (0..form.rows.len())
            .map(|index| RowView::new(say, &form, remarks, index))
            .collect();
        let mut page = Self {
            layout: Layout::public(say),
            code: at.class_set.join_code.clone(),
            label: at.bench.label.clone(),
            practical: say.method(method),
            class_name: at.class_set.class_name.clone(),
            date: say.date(&at.class_set.held_on),
            has_span: method.has(Field::Span),
            has_loops: method.has(Field::Loops),
            receipt: None,
            notice: None,
            ready: None,
            complaints: Vec::new(),
            is_empty_hand_in: false,
            wrong_kit: None,
            wrong_shared: None,
            kits: labels(kits, method.kit()),
            cautions: say.cautions(method),
            first_heading,
            first_lead,
            first: whole(spec.whole),
            readings_lead,
            reading_columns: columns(spec.columns),
            counted_columns: columns(spec.counted),
            is_counted: rows
                .iter()
                .flat_map(|r| &r.counted)
                .any(|b| !b.value.trim().is_empty()),
            working_columns: columns(&worked),
            may_add_rows: form.rows.len() < MOST_ROWS,
            result: whole(spec.results),
            rows,
            answers: own_words::boxes(say, &form.answers, false),
            may_look_again: false,
            has_feedback: false,
            kit: form.kit,
            shared: form.shared,
            draft: form.draft,
        };
        page.complaints = page.complaints();
        page
    }

    /// Says that a row (from 0) was made ready, and has its first empty box
    /// typed in next.
    pub(super) fn make_ready(&mut self, row: usize, sentence: String) {
        self.ready = Some(sentence);
        let row = self.rows.get_mut(row);
        let empty = row.and_then(|row| {
            let mut boxes = row.readings.iter_mut();
            boxes.find(|b| b.choices.is_empty() && b.value.trim().is_empty())
        });
        if let Some(empty) = empty {
            empty.is_next = true;
        }
    }

    /// Says what the list of errors is headed with.
    fn complaints_heading(&self) -> String {
        let say = self.layout.say;
        if self.is_empty_hand_in {
            say.sheet_complaints_empty()
        } else {
            say.sheet_complaints(self.complaints.len())
        }
    }

    /// Says what is wrong with the boxes that hold no figure.
    pub(super) fn refuse_words(
        &mut self,
        wrong_kit: Option<String>,
        wrong_shared: Option<String>,
        answers: Vec<AnswerBox>,
    ) {
        let say = self.layout.say;
        let complaint = |target: &str, name: &str, wrong: Option<&String>| {
            wrong.map(|reason| Complaint::new(say, target, name, reason))
        };
        let kit = complaint("kit", &say.sheet_kit_short(), wrong_kit.as_ref());
        let name = say.sheet_shared_short();
        let shared = complaint("shared", &name, wrong_shared.as_ref());
        self.complaints.splice(0..0, kit.into_iter().chain(shared));
        (self.wrong_kit, self.wrong_shared) = (wrong_kit, wrong_shared);
        let wrong = answers
            .iter()
            .filter_map(|answer| complaint(&answer.name, answer.short, answer.wrong.as_ref()));
        self.complaints.extend(wrong);
        self.answers = answers;
    }

    /// Lists what is wrong, in the order of the page.
    fn complaints(&self) -> Vec<Complaint> {
        let say = self.layout.say;
        let of_box = |b: &BoxView| {
            let reason = b.wrong.as_ref()?;
            Some(Complaint::new(say, &b.name, &b.label, reason))
        };
        let of_unit = |list: &UnitList| {
            let reason = list.wrong.as_ref()?;
            Some(Complaint::new(say, &list.name, &list.label, reason))
        };
        let mut all = Vec::new();
        let whole = |all: &mut Vec<Complaint>, boxes: &[BoxView]| {
            for b in boxes {
                all.extend(of_box(b));
                all.extend(b.unit.as_ref().and_then(&of_unit));
            }
        };
        let table =
            |all: &mut Vec<Complaint>, columns: &[Column], boxes: fn(&RowView) -> &Vec<BoxView>| {
                all.extend(
                    columns
                        .iter()
                        .filter_map(|c| c.unit.as_ref().and_then(&of_unit)),
                );
                all.extend(self.rows.iter().flat_map(boxes).filter_map(&of_box));
            };
        whole(&mut all, &self.first);
        table(&mut all, &self.reading_columns, |r| &r.readings);
        table(&mut all, &self.counted_columns, |r| &r.counted);
        table(&mut all, &self.working_columns, |r| &r.working);
        whole(&mut all, &self.result);
        all
    }
}

fn labels(kits: &[Kit], kind: Kind) -> Vec<String> {
    let kits = kits.iter().filter(|kit| kit.kind == kind);
    kits.map(|kit| kit.label.clone()).collect()
}

impl RowView {
    fn new(say: Say, form: &SheetForm, remarks: &Remarks, index: usize) -> Self {
        let boxes = |fields: &[Field]| {
            fields
                .iter()
                .map(|f| boxes::in_row(say, form, remarks, index, *f))
                .collect()
        };
        let row = &form.rows[index];
        let spec = form.method.spec();
        let worked: Vec<_> = form.method.working_columns().collect();
        Self {
            number: index + 1,
            label: row.label.clone(),
            readings: boxes(spec.columns),
            counted: boxes(spec.counted),
            working: boxes(&worked),
            left_out: row.left_out,
        }
    }
}
