//! What was acknowledged is on disk, however the program ends.

mod kill;
mod ready;
#[cfg(unix)]
mod stop;
