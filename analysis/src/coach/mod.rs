//! What to say about a slip, and to whom: a question for the teacher to ask
//! at the bench, a hint for the group before its sheet is marked, one thing to
//! do next after it.
//!
//! All words are for people of fourteen, in the vocabulary of measurement:
//! repeatable, precise, anomaly.

pub mod ask;
pub mod explain;
pub mod next;
pub mod told;
