//! A sum written out on a group's own figures.

use serde::{Deserialize, Serialize};

/// How a figure follows from those before it. Its numbers are written, with
/// their units and signs; what words there are besides is told by the kind.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Sum {
    /// There is none.
    #[default]
    None,
    /// Nothing but figures: `22.4 cm ÷ 8 = 2.80 cm`.
    Figures(String),
    /// In the picture, and from that on the water.
    OnWater(String, String),
    /// What the dial reads, as it stands.
    Dial(String),
    /// So many waves, divided by a time: `20`, `8.0 s = 2.5 Hz`.
    Waves(String, String),
    /// Half of a range, where theirs is the whole of it.
    WholeRange(String),
    /// The gradients, from one to another with its unit, of the lines that
    /// could be drawn.
    Lines(String, String),
}

impl Sum {
    /// Returns whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::None
    }

    /// Returns its parts as they are written, one or two of them.
    #[must_use]
    pub fn parts(&self) -> Vec<&str> {
        match self {
            Self::None => Vec::new(),
            Self::Figures(one) | Self::Dial(one) | Self::WholeRange(one) => vec![one],
            Self::OnWater(one, two) | Self::Waves(one, two) | Self::Lines(one, two) => {
                vec![one, two]
            }
        }
    }
}
