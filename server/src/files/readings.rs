//! A readings file, class by class.
//!
//! One class is in memory at a time, and of the classes before it 16 bytes
//! each, so that one which comes back is noticed.

use std::collections::{HashMap, HashSet};
use std::io::Read;

use analysis::field::Field;
use analysis::method::Method;
use analysis::unit::Unit;
use sha2::{Digest as _, Sha256};

use super::assumed::Assumptions;
use super::column::{Column, columns};
use super::fault::{Fault, ReadError, quoted};
use super::sheet_lines::{LineCells, SheetReadings};
use super::suggested::PART;
use super::table::Table;

/// Methods of the format that are not built yet.
const NOT_BUILT: [&str; 2] = ["rod-ring", "timed-pulse"];

/// The sheets of one class, in the order in which they start in the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ClassReadings {
    /// The class set's label; blank where none was given.
    pub class: String,
    /// Its sheets: one a group and method.
    pub sheets: Vec<SheetReadings>,
}

impl ClassReadings {
    /// Which of its sheets are of a method, in their order.
    #[must_use]
    pub fn of_method(&self, method: Method) -> Vec<usize> {
        let is_of_method = |at: &usize| self.sheets[*at].typed.method == method;
        (0..self.sheets.len()).filter(is_of_method).collect()
    }
}

/// Reads a file class by class.
pub struct Readings<'r> {
    table: Table<'r>,
    columns: Vec<Column>,
    /// The current line of the table belongs to the class after this one.
    waiting: bool,
    /// What could not be read after the class given last.
    failed: Option<ReadError>,
    /// A digest of each class that has begun.
    begun: HashSet<[u8; 16]>,
    assumed: Assumptions,
}

impl std::fmt::Debug for Readings<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Readings")
            .field("columns", &self.columns)
            .finish_non_exhaustive()
    }
}

/// The cells of a line, each where it belongs.
#[derive(Default)]
struct Line<'t> {
    class: &'t str,
    group: &'t str,
    method: &'t str,
    cells: LineCells<'t>,
}

impl<'r> Readings<'r> {
    /// Opens a readings file and reads its header line.
    ///
    /// # Errors
    /// An unknown column, one that is there twice, one that must be there and
    /// is not; an input that cannot be read.
    pub fn open(input: impl Read + Send + 'r) -> Result<Self, ReadError> {
        let table = Table::open(input)?;
        let names: Result<Vec<_>, _> = (0..table.cells())
            .map(|index| table.cell(index, &format!("number {}", index + 1)))
            .collect();
        let columns = columns(table.line(), names?.into_iter())?;
        let assumed = Assumptions {
            semicolons: table.semicolons(),
            ..Assumptions::default()
        };
        Ok(Self {
            table,
            columns,
            waiting: false,
            failed: None,
            begun: HashSet::new(),
            assumed,
        })
    }

    /// What was assumed so far.
    #[must_use]
    pub fn assumed(&self) -> &Assumptions {
        &self.assumed
    }

    /// The next class; `None` at the end of the file. Where a line of a class
    /// cannot be read, the lines before it are given first and the error with
    /// the next call, so that whoever checks figures as they come finds the
    /// first error of the file first.
    ///
    /// # Errors
    /// Whatever cannot be read, with its line and column: see [`Fault`]. After
    /// an error nothing more can be read. Figures are checked later, by
    /// [`SheetReadings::check`].
    pub fn next_class(&mut self) -> Result<Option<ClassReadings>, ReadError> {
        if let Some(error) = self.failed.take() {
            return Err(error);
        }
        if !self.waiting && !self.table.next_line()? {
            return Ok(None);
        }
        let mut class = ClassReadings {
            class: line(&self.table, &self.columns)?.class.to_owned(),
            sheets: Vec::new(),
        };
        self.begin(&class.class)?;
        self.failed = self.fill(&mut class).err();
        note_depths(&mut self.assumed, &class);
        note_size(&mut self.assumed, &class);
        Ok(Some(class))
    }

    /// Reads the lines of a class from the current one on.
    fn fill(&mut self, class: &mut ClassReadings) -> Result<(), ReadError> {
        let mut at = HashMap::new();
        loop {
            let number = self.table.line();
            let line = line(&self.table, &self.columns)?;
            self.waiting = line.class != class.class;
            if self.waiting {
                return Ok(());
            }
            note(&mut self.assumed, number, &line.cells);
            add(class, &mut at, number, &line)?;
            if !self.table.next_line()? {
                return Ok(());
            }
        }
    }

    fn begin(&mut self, class: &str) -> Result<(), Fault> {
        let mut digest = [0; 16];
        digest.copy_from_slice(&Sha256::digest(class)[..16]);
        if self.begun.insert(digest) {
            return Ok(());
        }
        let reason = format!(
            "class {} has ended further up. The lines of one class must stand together.",
            quoted(class)
        );
        Err(Fault::in_column(self.table.line(), "class", reason))
    }
}

/// Sorts the cells of the current line.
fn line<'t>(table: &'t Table<'_>, columns: &[Column]) -> Result<Line<'t>, Fault> {
    let mut line = Line::default();
    let number = table.line();
    for (index, column) in columns.iter().enumerate() {
        let as_typed = table.cell(index, &column.name())?;
        let text = as_typed.trim();
        if text.is_empty() {
            continue;
        }
        match *column {
            Column::Class => line.class = text,
            Column::Group => line.group = text,
            Column::Method => line.method = text,
            Column::Kit => line.cells.kit = text,
            Column::Shared => line.cells.shared = text,
            Column::Row => line.cells.row = as_typed,
            Column::LeftOut => line.cells.left_out = yes_or_no(number, text)?,
            Column::Figure(field) => line.cells.figures.push((field, text)),
            Column::Unit(field) => {
                line.cells.units.push((field, unit(number, field, text)?));
            }
            Column::Lengths | Column::Nameless => {
                let reason = format!("{} cannot stand here.", quoted(text));
                return Err(Fault::in_column(number, &column.name(), reason));
            }
        }
    }
    Ok(line)
}

fn yes_or_no(number: u64, text: &str) -> Result<bool, Fault> {
    match text.to_ascii_lowercase().as_str() {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => {
            let reason = format!("{} should be yes, no or blank.", quoted(text));
            Err(Fault::in_column(number, "left_out", reason))
        }
    }
}

/// Units are looked at even beside a blank figure.
fn unit(number: u64, field: Field, text: &str) -> Result<&str, Fault> {
    let known = Unit::parse(text).is_some_and(|unit| unit.quantity() == field.quantity());
    if known {
        return Ok(text);
    }
    let units = field.quantity().units();
    let symbols: Vec<_> = units.iter().map(|unit| unit.symbol()).collect();
    let reason = format!(
        "{} is not a unit for this column. Use {}.",
        quoted(text),
        symbols.join(", ")
    );
    let column = Column::Unit(field);
    Err(Fault::in_column(number, &column.name(), reason))
}

/// Adds a line to the sheet that it belongs to.
fn add(
    class: &mut ClassReadings,
    at: &mut HashMap<(Method, String), usize>,
    number: u64,
    line: &Line<'_>,
) -> Result<(), Fault> {
    for (column, text) in [("group", line.group), ("row", line.cells.row)] {
        if text.is_empty() {
            let reason = "this cell is blank. Each line needs one.";
            return Err(Fault::in_column(number, column, reason));
        }
    }
    let method = method(number, line.method)?;
    let sheets = &mut class.sheets;
    let sheet = *at
        .entry((method, line.group.to_owned()))
        .or_insert_with(|| {
            sheets.push(SheetReadings::new(line.group, method, number));
            sheets.len() - 1
        });
    sheets[sheet].add(number, &line.cells)
}

fn method(number: u64, code: &str) -> Result<Method, Fault> {
    Method::from_code(code).ok_or_else(|| {
        let built = Method::ALL.map(Method::code).join(" or ");
        let reason = if NOT_BUILT.contains(&code) {
            format!("{} cannot be read yet. Use {built}.", quoted(code))
        } else if code.is_empty() {
            format!("this cell is blank. Use {built}.")
        } else {
            format!("{} is not a method. Use {built}.", quoted(code))
        };
        Fault::in_column(number, "method", reason)
    })
}

/// Notes what is assumed of a line's cells.
fn note(assumed: &mut Assumptions, number: u64, cells: &LineCells<'_>) {
    for (field, text) in &cells.figures {
        if text.contains(',') {
            assumed.decimal_commas.add(number, field.name());
        }
    }
    let given = |field| cells.figures.iter().any(|(given, _)| *given == field);
    for (first, last) in [
        (Field::FirstCrest, Field::LastCrest),
        (Field::PassesFirst, Field::PassesLast),
    ] {
        if given(last) && !given(first) {
            assumed.first_number_nought.add(number, first.name());
        }
    }
}

fn note_depths(assumed: &mut Assumptions, class: &ClassReadings) {
    for sheet in &class.sheets {
        let typed = &sheet.typed;
        if typed.method.has(Field::Depth) && !typed.whole.contains_key(&Field::Depth) {
            assumed.usual_depth.add(sheet.line, Field::Depth.name());
        }
    }
}

fn note_size(assumed: &mut Assumptions, class: &ClassReadings) {
    for method in Method::ALL {
        let of_method = class.of_method(method);
        if let Some(first) = of_method.first().filter(|_| of_method.len() > PART) {
            assumed.in_parts.add(class.sheets[*first].line, "class");
        }
    }
}
