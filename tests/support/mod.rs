//! The application under test.

mod reply;
mod test_app;

pub(crate) use reply::Reply;
pub(crate) use test_app::{Browser, NAME, PASSWORD, TestApp};
