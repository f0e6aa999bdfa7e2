//! The application under test.

mod act;
mod browser;
mod chromium;
mod form;
mod group;
mod lesson;
mod part;
mod reply;
mod sql;
pub(crate) mod stored_year;
mod suggest;
mod test_app;
mod typed;

pub(crate) use act::{DEPARTMENT, HEAD, Join, act};
pub(crate) use browser::{Browser, NAME, PASSWORD};
pub(crate) use chromium::walk;
pub(crate) use form::{CLASS_SET, but, pairs};
pub(crate) use group::Group;
pub(crate) use lesson::Lesson;
pub(crate) use part::Part;
pub(crate) use reply::Reply;
pub(crate) use sql::sql;
pub(crate) use suggest::{counted, finding, lamp, made_at, miscount, suggest, tied};
pub(crate) use test_app::{Nothing, TestApp, teacher};
