//! One sheet, for the teacher: readings, working beside ours, each wrong turn,
//! and the teacher's word on it.

pub(super) mod annotate;
pub(super) mod body;
mod decide;
mod show;

use crate::pages::access::Access::NotBlind;
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    let version = "/class-sets/{id}/sheets/{label}/versions/{version}";
    Routes::default()
        .get("/class-sets/{id}/sheets/{label}", NotBlind, show::get)
        .get(version, NotBlind, show::version)
        .post(
            "/class-sets/{id}/sheets/{label}/decision",
            NotBlind,
            decide::post,
        )
        .post(
            "/class-sets/{id}/sheets/{label}/notes",
            NotBlind,
            annotate::post,
        )
}
