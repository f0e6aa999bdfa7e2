//! The pages: one folder a feature, one file a page or an act.

mod address;
pub mod bench_sheet;
pub mod class_set;
pub mod feedback;
pub mod files;
pub mod front;
pub mod kit;
pub mod marking;
pub mod moderation;
pub mod register;
pub mod room;
pub mod scheme;
pub mod sheet;
pub mod staff;
pub mod upkeep;
pub mod year;
