//! Pupils' pages in a made-up language: whatever is on one of them and is not
//! in it was not said by the catalogue.

mod page;
mod pseudo;
mod walk;
