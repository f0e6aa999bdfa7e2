//! The pages: one folder a feature, one file a page or an act. Each feature says
//! which routes it has, and who may use them.

mod address;
pub(crate) mod bench_sheet;
mod class_set;
mod desk;
mod feedback;
mod files;
pub(crate) mod front;
mod kit;
mod marking;
pub(crate) mod moderation;
mod note;
mod register;
mod room;
mod scheme;
mod sheet;
mod staff;
mod upkeep;
mod year;

use crate::access::Routes;
use crate::assets;

/// Every route there is.
#[must_use]
pub fn routes() -> Routes {
    Routes::default()
        .with(assets::routes())
        .with(front::routes())
        .with(bench_sheet::routes())
        .with(staff::routes())
        .with(class_set::routes())
        .with(room::routes())
        .with(sheet::routes())
        .with(marking::routes())
        .with(feedback::routes())
        .with(files::routes())
        .with(register::routes())
        .with(kit::routes())
        .with(scheme::routes())
        .with(moderation::routes())
        .with(year::routes())
        .with(upkeep::routes())
}
