//! What is written as a readings file is read back to the letter.

use std::collections::BTreeSet;

use analysis::field::{Field, Place};
use analysis::method::Method;
use analysis::sheet::{Cell, Cells, TypedRow, TypedSheet};
use proptest::prelude::*;
use server::db::revision::{Answers, Entry};
use server::files::export;
use server::files::readings::Readings;

/// A class of some groups, each with what it wrote.
type Groups = Vec<(String, Entry)>;

fn written(class: &str, method: Method, groups: &Groups) -> String {
    let sheets = groups.iter().map(|(group, entry)| (group.as_str(), entry));
    let file = export::table(class, method, sheets).csv();
    String::from_utf8(file.expect("memory takes it")).expect("UTF-8 is written")
}

/// The class of a file and its groups; `None` where there is no line of any.
fn read(file: &str) -> Option<(String, Groups)> {
    let readings = Readings::open(file.as_bytes()).expect("a header");
    let whole = readings.whole();
    assert_eq!(whole.faults, [], "{file}");
    assert!(whole.classes.len() <= 1, "{file}");
    let class = whole.classes.into_iter().next()?;
    let sheets = class.sheets.into_iter();
    let groups = sheets.map(|sheet| (sheet.group, sheet.entry)).collect();
    Some((class.class, groups))
}

fn comes_back(class: &str, method: Method, groups: &Groups) -> Result<(), TestCaseError> {
    let file = written(class, method, groups);
    let read = read(&file);
    prop_assert_eq!(read.is_none(), groups.is_empty());
    if let Some((read_class, read_groups)) = read {
        prop_assert_eq!(&read_class, class);
        prop_assert_eq!(&read_groups, groups);
        prop_assert_eq!(written(&read_class, method, &read_groups), file);
    }
    Ok(())
}

/// Text that spreadsheets, separators and quotes make trouble of.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        Just("  ".to_owned()),
        "[=+@'\t\r-]{1,3}[A1]{0,2}",
        "[a-z ,;\"'\n]{1,12}",
        "\\PC{1,12}",
    ]
}

/// A figure as pupils type it, and what no sheet takes but a file may hold.
fn figure() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}([.,][0-9]{1,3})?",
        " ?[-+]?[0-9]{1,2} (cm|m|mm)? ?",
        "[x×]?[0-9]{1,2}x?",
        Just("½".to_owned()),
        any_text().prop_filter("blank is no figure", |text| !text.trim().is_empty()),
    ]
}

fn cell(field: Field) -> impl Strategy<Value = Cell> {
    let mut units = vec![String::new()];
    if field.asks_unit() {
        for unit in field.quantity().units() {
            units.push(unit.symbol().to_owned());
            units.push(format!(" {} ", unit.symbol()));
        }
    }
    (figure(), prop::sample::select(units)).prop_map(|(text, unit)| Cell { text, unit })
}

/// Any of a method's boxes of this place, at least so many.
fn cells(method: Method, place: Place, fewest: usize) -> impl Strategy<Value = Cells> {
    let fields: Vec<_> = method.fields().filter(|f| f.place() == place).collect();
    let all = fields.len();
    prop::sample::subsequence(fields, fewest..=all).prop_flat_map(|fields| {
        let filled = fields.into_iter().map(|field| (Just(field), cell(field)));
        let filled: Vec<_> = filled.collect();
        filled.prop_map(|filled| filled.into_iter().collect())
    })
}

/// Labels that differ in more than the blanks round them.
fn labels(most: usize) -> impl Strategy<Value = Vec<String>> {
    let label = any_text().prop_map(|text| text.trim().chars().take(8).collect::<String>());
    let label = label.prop_map(|text| text.trim().to_owned());
    prop::collection::vec(label, 0..=most).prop_map(|labels| {
        let labels: BTreeSet<_> = labels.into_iter().filter(|l| !l.is_empty()).collect();
        labels.into_iter().collect()
    })
}

fn rows(method: Method) -> impl Strategy<Value = Vec<TypedRow>> {
    labels(5).prop_flat_map(move |labels| {
        let row = |label: String| {
            let rest = (cells(method, Place::Row, 1), any::<bool>());
            rest.prop_map(move |(cells, left_out)| TypedRow {
                label: label.clone(),
                cells,
                left_out,
            })
        };
        labels.into_iter().map(row).collect::<Vec<_>>()
    })
}

fn entry(method: Method) -> impl Strategy<Value = Entry> {
    let answers = (any_text(), any_text(), any_text());
    let sheet = (cells(method, Place::Sheet, 0), rows(method));
    (sheet, any_text(), any_text(), answers).prop_map(move |((whole, rows), kit, shared, words)| {
        Entry {
            sheet: TypedSheet {
                method,
                whole,
                rows,
            },
            kit,
            shared,
            answers: Answers {
                method: words.0,
                conclusion: words.1,
                evaluation: words.2,
            },
        }
    })
}

fn class() -> impl Strategy<Value = (Method, String, Groups)> {
    let method = prop::sample::select(Method::ALL.to_vec());
    (method, labels(1), labels(4)).prop_flat_map(|(method, class, labels)| {
        let entries: Vec<_> = labels.iter().map(|_| entry(method)).collect();
        let class = class.first().cloned().unwrap_or_default();
        (Just(method), Just(class), Just(labels), entries).prop_map(
            |(method, class, labels, entries)| {
                (method, class, labels.into_iter().zip(entries).collect())
            },
        )
    })
}

proptest! {
    #[test]
    fn what_groups_wrote_comes_back_to_the_letter((method, class, groups) in class()) {
        comes_back(&class, method, &groups)?;
    }
}

#[test]
fn every_column_of_a_method_is_there_once() {
    for method in Method::ALL {
        let file = written("10B", method, &Vec::new());
        let names: Vec<_> = file.trim_end().split(',').collect();
        for field in method.fields() {
            let is_named = |name: &&&str| **name == field.name();
            assert_eq!(names.iter().filter(is_named).count(), 1, "{field:?}");
            let unit = format!("{}_unit", field.name());
            assert_eq!(names.contains(&unit.as_str()), field.asks_unit(), "{unit}");
        }
        for name in [
            "kit",
            "shared",
            "left_out",
            "method_text",
            "conclusion_text",
            "evaluation_text",
        ] {
            assert!(names.contains(&name), "{name}");
        }
    }
}

#[test]
fn a_group_that_wrote_only_its_kit_has_a_line_but_no_row() {
    let entry = Entry {
        sheet: TypedSheet {
            method: Method::StringLoops,
            whole: Cells::new(),
            rows: Vec::new(),
        },
        kit: "String 2".to_owned(),
        shared: String::new(),
        answers: Answers::default(),
    };
    let groups = vec![("A".to_owned(), entry)];
    let file = written("10B", Method::StringLoops, &groups);
    assert_eq!(file.lines().count(), 2);
    assert_eq!(read(&file), Some(("10B".to_owned(), groups)));
}
