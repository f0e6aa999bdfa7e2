//! The data file: one writer, append-only history, durable settings.

mod settings;
mod writer;
