//! The server from outside: requests through the router on a fresh data file.
//!
//! `support` holds the application under test, whose methods are what people
//! do. Folders follow the pages, files the acts.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on should stop"
)]

mod app;
mod bench_sheet;
mod chart;
mod class_set;
mod db;
mod durability;
mod feedback;
mod files;
mod front;
mod kit;
mod lesson;
mod listener;
mod marking;
mod moderation;
mod nowhere;
mod off_thread;
mod order;
mod register;
mod roles;
mod room;
mod scheme;
mod scope;
mod seed_demo;
mod sheet;
mod staff;
mod support;
mod upgrade;
mod walk;
mod words;
mod year;
