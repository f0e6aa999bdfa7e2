//! The physics of the waves, and nothing else.
