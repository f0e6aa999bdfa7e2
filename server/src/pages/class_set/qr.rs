//! A QR code as the figures of an SVG path.

use std::fmt::Write as _;

use fast_qr::{ECL, QRBuilder};

use crate::web::error::AppError;

/// Quiet zone around a QR code, in modules (ISO/IEC 18004 asks for four).
const QUIET: usize = 4;

/// A QR code, ready to be drawn.
#[derive(Debug)]
pub(super) struct Qr {
    /// Width and height of the drawing, in modules, quiet zone included.
    pub(super) size: usize,
    /// The `d` of a path: a run of dark modules to each piece.
    pub(super) path: String,
}

impl Qr {
    /// Returns the code of a text.
    pub(super) fn of(text: &str) -> Result<Self, AppError> {
        let code = QRBuilder::new(text)
            .ecl(ECL::M)
            .build()
            .map_err(|e| AppError::internal(e.to_string()))?;
        let mut path = String::new();
        for y in 0..code.size {
            let mut x = 0;
            while x < code.size {
                let run = (x..code.size).take_while(|&at| code[y][at].value()).count();
                if run > 0 {
                    let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + QUIET, y + QUIET);
                }
                x += run.max(1);
            }
        }
        Ok(Self {
            size: code.size + 2 * QUIET,
            path,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_are_finder_patterns() {
        let qr = Qr::of("http://192.168.1.20:8017/c/BCDFG").unwrap();
        assert!(qr.path.starts_with("M4 4h7v1h-7z"), "{}", qr.path);
        assert_eq!((qr.size - 2 * QUIET) % 4, 1, "17 + 4 × version");
    }
}
