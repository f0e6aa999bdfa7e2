//! What every page stands on: who asks, what was sent, how an answer looks.
//! It knows no page.

pub mod assets;
pub mod attachment;
pub mod error;
pub mod form;
pub mod layout;
pub mod password;
pub mod session;
pub mod state;
