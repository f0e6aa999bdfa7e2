//! Tests of the judging of working.
//!
//! - `slips`: every slip of the methods, once, on figures worked out by hand
//! - `honest`: sheets worked out correctly never get a slip
//! - `noughts`: final noughts hide no slip, and accuse nobody
//! - `injected`: a wrong turn is named when the figures can tell, and only then
//! - `tanks`: clean rows of used tanks are rarely called anomalous
//! - `typed_text`: nothing that can be typed makes the judge stumble

mod honest;
mod injected;
mod noughts;
pub(crate) mod pupil;
mod slips;
mod tanks;
mod typed_text;
