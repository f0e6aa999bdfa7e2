//! Everything that the server promises, by feature.

mod files;
