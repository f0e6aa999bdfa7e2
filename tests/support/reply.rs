//! What came back.

use std::collections::HashMap;
use std::io::Cursor;

use axum::body::Body;
use axum::http::{HeaderMap, Response, StatusCode};
use calamine::{Reader as _, Xlsx};
use http_body_util::BodyExt as _;

use super::Part;

/// A response, read to its end.
#[derive(Debug)]
pub(crate) struct Reply {
    pub(crate) status: StatusCode,
    pub(crate) headers: HeaderMap,
    pub(crate) text: String,
    /// The body as it came, where it is no text.
    pub(crate) bytes: Vec<u8>,
}

impl Reply {
    pub(crate) async fn read(response: Response<Body>) -> Self {
        let (parts, body) = response.into_parts();
        let bytes = body.collect().await.unwrap().to_bytes();
        Self {
            status: parts.status,
            headers: parts.headers,
            text: String::from_utf8_lossy(&bytes).into_owned(),
            bytes: bytes.into(),
        }
    }

    /// Checks the status; shows the page if it is another.
    pub(crate) fn expect(self, status: u16) -> Self {
        assert_eq!(self.status.as_u16(), status, "{}", self.text);
        self
    }

    /// Checks that the page says something.
    pub(crate) fn says(self, text: &str) -> Self {
        assert!(
            self.text.contains(text),
            "{text:?} is not in:\n{}",
            self.text
        );
        self
    }

    /// Checks that the page does not say something.
    pub(crate) fn says_nothing_of(self, text: &str) -> Self {
        assert!(!self.text.contains(text), "{text:?} is in:\n{}", self.text);
        self
    }

    /// Checks that a selector finds nothing on the page.
    pub(crate) fn lacks(self, selector: &str) -> Self {
        self.page().lacks(selector);
        self
    }

    /// How often the page says something.
    pub(crate) fn count(&self, text: &str) -> usize {
        self.text.matches(text).count()
    }

    /// The page, to be asked by selectors.
    pub(crate) fn page(&self) -> Part {
        Part::page(&self.text)
    }

    /// The first element that a selector finds.
    pub(crate) fn at(&self, selector: &str) -> Part {
        self.page().at(selector)
    }

    /// The section under the heading with this name.
    pub(crate) fn section(&self, name: &str) -> Part {
        self.page().section(name)
    }

    /// The lines of a CSV file, by the names of its columns.
    pub(crate) fn lines(&self) -> Vec<HashMap<String, String>> {
        let mut table = csv::Reader::from_reader(&self.bytes[..]);
        table.deserialize().map(Result::unwrap).collect()
    }

    /// The workbook, as other programs read it.
    pub(crate) fn workbook(self) -> Xlsx<Cursor<Vec<u8>>> {
        Xlsx::new(Cursor::new(self.bytes)).expect("a workbook")
    }

    /// Where it leads.
    pub(crate) fn location(&self) -> &str {
        self.header("location")
    }

    /// A header as text; blank if absent.
    pub(crate) fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", |v| v.to_str().unwrap())
    }

    /// The value of the first box of a name.
    pub(crate) fn hidden(&self, name: &str) -> String {
        self.page().value(name)
    }
}
