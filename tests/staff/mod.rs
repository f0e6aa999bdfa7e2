//! Accounts and sessions.

mod account;
mod colleagues;
mod session;
mod sign_in;
