//! The lines of a CSV file, with their numbers, one at a time.
//!
//! The separator is found from the header line. A line is bounded, so that a
//! quotation mark left open cannot draw the rest of a long file into memory.

use std::io::{self, BufRead, BufReader, Cursor, Read};

use csv::ByteRecord;

use super::fault::{Fault, ReadError};
use crate::words::file;

/// The longest line, in bytes: a thousand times what a full one takes.
const LONGEST_LINE: u64 = 1 << 20;

/// The longest header line, in bytes. All the columns there are take 600.
const LONGEST_HEADER: u64 = 1 << 16;

pub(super) struct CsvLines<'r> {
    csv: csv::Reader<Bounded<'r>>,
    record: ByteRecord,
    line: u64,
    /// Fields in the header line.
    width: usize,
    semicolons: bool,
    is_broken: bool,
}

impl<'r> CsvLines<'r> {
    /// Opens a file and reads its header line; its names are then the cells
    /// of the current line.
    pub(super) fn open(input: impl Read + Send + 'r) -> Result<Self, ReadError> {
        let mut input = BufReader::new(input);
        let mut header = Vec::new();
        input
            .by_ref()
            .take(LONGEST_HEADER)
            .read_until(b'\n', &mut header)?;
        if header.starts_with(b"\xEF\xBB\xBF") {
            header.drain(..3);
        }
        if header.trim_ascii_end().contains(&b'\r') {
            return Err(Fault::in_line(1, file::CARRIAGE_RETURNS).into());
        }
        let semicolons = separated_by_semicolons(&header);
        // A last line feed of our own: every record then ends in one.
        let whole = Cursor::new(header).chain(input).chain(&b"\n"[..]);
        let csv = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .delimiter(if semicolons { b';' } else { b',' })
            .terminator(csv::Terminator::Any(b'\n'))
            .from_reader(Bounded::new(whole));
        let mut lines = Self {
            csv,
            record: ByteRecord::new(),
            line: 1,
            width: 0,
            semicolons,
            is_broken: false,
        };
        if !lines.advance()? {
            return Err(Fault::in_line(1, file::EMPTY).into());
        }
        lines.width = lines.record.len();
        Ok(lines)
    }

    /// Says whether `;` stands between the fields.
    pub(super) fn semicolons(&self) -> bool {
        self.semicolons
    }

    /// Says whether nothing after an error can be read.
    pub(super) fn is_broken(&self) -> bool {
        self.is_broken
    }

    /// Returns the number of the current line: of its first where a quoted
    /// field spreads over several.
    pub(super) fn line(&self) -> u64 {
        self.line
    }

    /// Goes to the next line that is not blank. `false` at the end.
    pub(super) fn next_line(&mut self) -> Result<bool, ReadError> {
        while self.advance()? {
            let blank = |cell: &[u8]| cell.trim_ascii().is_empty();
            if self.record.iter().all(blank) {
                continue;
            }
            if self.record.len() != self.width {
                let reason = file::fields(self.record.len(), self.width);
                return Err(Fault::in_line(self.line, reason).into());
            }
            return Ok(true);
        }
        Ok(false)
    }

    fn advance(&mut self) -> Result<bool, ReadError> {
        self.csv.get_mut().allowance = LONGEST_LINE;
        let start = self.csv.position().line();
        let read = self.csv.read_byte_record(&mut self.record);
        let after = self.csv.position().line();
        self.is_broken = read.is_err();
        match read {
            Ok(false) => Ok(false),
            Ok(true) => {
                let feeds = self.record.as_slice().iter().filter(|b| **b == b'\n');
                let inside: u64 = feeds.map(|_| 1).sum();
                // A quotation mark left open takes the last line feed inside.
                self.line = after.saturating_sub(1 + inside).max(start);
                Ok(true)
            }
            Err(_) if self.csv.get_ref().allowance == 0 => {
                Err(Fault::in_line(start, file::NO_END).into())
            }
            Err(error) => Err(ReadError::Io(error.into())),
        }
    }

    /// Returns a cell of the current line, of at most `longest` characters
    /// besides blanks round it; `name` is its column, for the message.
    pub(super) fn cell(&self, index: usize, name: &str, longest: usize) -> Result<&str, Fault> {
        let mut bytes = self.record.get(index).unwrap_or_default();
        if index + 1 == self.record.len() {
            bytes = bytes.strip_suffix(b"\r").unwrap_or(bytes);
        }
        let text = std::str::from_utf8(bytes)
            .map_err(|_| Fault::in_column(self.line, name, file::NOT_UTF8))?;
        if text.len() > longest && text.trim().chars().count() > longest {
            let reason = file::long_cell(longest);
            return Err(Fault::in_column(self.line, name, reason));
        }
        Ok(text)
    }

    /// Counts the cells of the current line.
    pub(super) fn cells(&self) -> usize {
        self.record.len()
    }
}

/// No column has a semicolon or a comma in its name, so the first of the two
/// outside quotation marks is the separator.
fn separated_by_semicolons(header: &[u8]) -> bool {
    let mut quoted = false;
    for byte in header {
        match byte {
            b'"' => quoted = !quoted,
            b';' if !quoted => return true,
            b',' if !quoted => return false,
            _ => {}
        }
    }
    false
}

/// An input that gives no more than its allowance, which is renewed for each
/// line.
struct Bounded<'r> {
    input: Box<dyn Read + Send + 'r>,
    allowance: u64,
}

impl<'r> Bounded<'r> {
    fn new(input: impl Read + Send + 'r) -> Self {
        Self {
            input: Box::new(input),
            allowance: LONGEST_LINE,
        }
    }
}

impl Read for Bounded<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.allowance == 0 {
            return Err(io::Error::new(io::ErrorKind::InvalidData, "line too long"));
        }
        let read = self.input.read(buffer)?;
        self.allowance = self
            .allowance
            .saturating_sub(u64::try_from(read).unwrap_or(u64::MAX));
        Ok(read)
    }
}
