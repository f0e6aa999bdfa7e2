//! The pages: one folder a feature, one file a page or an act. Each feature says
//! which routes it has, and who may use them.

pub mod access;
mod address;
mod bench_sheet;
mod class_set;
mod desk;
mod feedback;
mod files;
mod front;
mod kit;
mod marking;
mod moderation;
mod note;
mod register;
mod room;
mod scheme;
mod sheet;
mod staff;
mod upkeep;
mod year;

use self::access::{Access, Routes};
use crate::web::assets;

/// Returns every route there is.
#[must_use]
pub fn routes() -> Routes {
    Routes::default()
        .get("/static/{stamp}/{*name}", Access::Anyone, assets::get)
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
