//! Statistics: each formula with its source, checked against published data.
