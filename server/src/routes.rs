//! Every route, by who asks for it.

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};

use crate::pages::{
    bench_sheet, class_set, feedback, files, front, kit, marking, moderation, register, room,
    scheme, sheet, staff, upkeep, year,
};
use crate::state::AppState;

/// Longest form of a mark scheme: forty points with all that may stand in
/// each.
const LONGEST_SCHEME: usize = 1024 * 1024;
/// Longest body of a form with a file in it, in bytes: twice the longest file,
/// since a preview carries it with every quotation mark doubled.
const LONGEST_UPLOAD: usize = 4 * 1024 * 1024;

/// What anybody may ask for, and the benches.
pub(crate) fn for_pupils() -> Router<AppState> {
    Router::new()
        .route("/", get(front::welcome::get))
        .route("/join", post(front::join::post))
        .route("/privacy", get(front::privacy))
        .route("/about", get(front::about))
        .route(
            "/c/{code}",
            get(front::benches::get).post(front::benches::post),
        )
        .route(
            "/c/{code}/{label}",
            get(bench_sheet::show::get).post(bench_sheet::hand_in::post),
        )
        .route(
            "/c/{code}/{label}/come-back",
            get(front::come_back::get).post(front::come_back::post),
        )
        .route(
            "/c/{code}/{label}/look-again",
            get(bench_sheet::look_again::get),
        )
        .route("/c/{code}/{label}/leave", post(front::leave::post))
        .route("/c/{code}/{label}/feedback", get(feedback::own))
}

/// Class sets, kits, schemes and comments, for all staff.
pub(crate) fn for_staff() -> Router<AppState> {
    Router::new()
        .route("/staff", get(staff::colleagues::get))
        .route("/staff/invite", post(staff::colleagues::post))
        .route(
            "/staff/first/{token}",
            get(staff::account::get).post(staff::account::post),
        )
        .route(
            "/staff/sign-in",
            get(staff::sign_in::get).post(staff::sign_in::post),
        )
        .route("/staff/sign-out", post(staff::sign_out::post))
        .route("/class-sets", get(class_set::list::get))
        .route(
            "/class-sets/new",
            get(class_set::create::get).post(class_set::create::post),
        )
        .route("/class-sets/{id}", get(class_set::show::get))
        .route("/class-sets/{id}/state", post(class_set::state::post))
        .route("/class-sets/{id}/help", post(class_set::help::post))
        .route(
            "/class-sets/{id}/thresholds",
            post(class_set::thresholds::post),
        )
        .route("/class-sets/{id}/room/wall", get(room::wall::get))
        .route(
            "/class-sets/{id}/room/wall/benches",
            get(room::wall::benches),
        )
        .route("/kits", get(kit::get).post(kit::post))
        .route(
            "/comments",
            get(marking::comments::get).post(marking::comments::post),
        )
        .route("/comments/retire", post(marking::comments::retire))
        .route("/schemes", get(scheme::list))
        .route("/schemes/{id}", get(scheme::show))
        .route("/schemes/{id}/versions/{number}", get(scheme::version))
        .route(
            "/schemes/{id}/edit",
            get(scheme::edit)
                .post(scheme::save)
                .layer(DefaultBodyLimit::max(LONGEST_SCHEME)),
        )
        .route("/schemes/{id}/copy", post(scheme::copy))
        .route("/schemes/{id}/retire", post(scheme::retire))
}

/// Pages of a class set that show first marks, or anything that was made
/// while they were given: what is confirmed or dismissed, notes. Whoever has
/// to mark a sheet of it blind does not get them.
pub(crate) fn with_first_marks() -> Router<AppState> {
    Router::new()
        .route("/class-sets/{id}/summary", get(class_set::summary::get))
        .route("/class-sets/{id}/sheets/{label}", get(sheet::show::get))
        .route(
            "/class-sets/{id}/sheets/{label}/versions/{version}",
            get(sheet::show::version),
        )
        .route(
            "/class-sets/{id}/sheets/{label}/decision",
            post(sheet::decide::post),
        )
        .route(
            "/class-sets/{id}/sheets/{label}/notes",
            post(sheet::annotate::post),
        )
        .route("/class-sets/{id}/room", get(room::show::get))
        .route("/class-sets/{id}/room/tiles", get(room::tiles::get))
        .route("/class-sets/{id}/room/changes", get(room::changes::get))
        .route("/class-sets/{id}/room/seen", post(room::seen::post))
        .route("/class-sets/{id}/room/stop", post(room::stop::post))
        .route("/class-sets/{id}/files/{name}", get(files::download::get))
        // With its number anybody reads a bench's feedback.
        .route(
            "/class-sets/{id}/benches/{label}/new-number",
            get(class_set::new_number::get).post(class_set::new_number::post),
        )
        .merge(for_markers())
}

/// Marking and feedback.
fn for_markers() -> Router<AppState> {
    Router::new()
        .route("/class-sets/{id}/feedback", get(feedback::overview))
        .route("/class-sets/{id}/feedback/print", get(feedback::all))
        .route(
            "/class-sets/{id}/feedback/sheets/{label}",
            get(feedback::one),
        )
        .route("/class-sets/{id}/release", post(feedback::release))
        .route("/class-sets/{id}/marking", get(marking::overview))
        .route("/class-sets/{id}/marking/scheme", post(marking::scheme))
        .route("/class-sets/{id}/marking/undo", post(marking::undo))
        .route("/class-sets/{id}/marking/points/{key}", get(marking::point))
        .route(
            "/class-sets/{id}/marking/points/{key}/all",
            post(marking::award_point),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}",
            get(marking::sheet),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/all",
            post(marking::award_sheet),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/holds",
            post(marking::still_holds),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/notes",
            post(marking::note),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/withdraw",
            post(marking::withdraw),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/award/{key}",
            post(marking::award),
        )
}

/// Moderation rounds: who may see what of a round is for each page to say.
pub(crate) fn for_moderation() -> Router<AppState> {
    Router::new()
        .route("/moderation", get(moderation::list::get))
        .route(
            "/moderation/new",
            get(moderation::create::get).post(moderation::create::post),
        )
        .route(
            "/moderation/sizes",
            get(moderation::sizes::get).post(moderation::sizes::post),
        )
        .route("/moderation/{round}", get(moderation::show::get))
        .route(
            "/moderation/{round}/anchors",
            get(moderation::anchors::get).post(moderation::anchors::post),
        )
        .route(
            "/moderation/{round}/standard",
            get(moderation::standard::get),
        )
        .route("/moderation/{round}/rulings", post(moderation::rule::post))
        .route(
            "/moderation/{round}/sample",
            get(moderation::sample::get).post(moderation::sample::post),
        )
        .route(
            "/moderation/{round}/sheets/{sheet}",
            get(moderation::mark::get).post(moderation::give::post),
        )
        .route(
            "/moderation/{round}/show",
            post(moderation::show_marks::post),
        )
        .route(
            "/moderation/{round}/settle",
            get(moderation::settle::show::get).post(moderation::settle::decide::post),
        )
        .route(
            "/moderation/{round}/again",
            post(moderation::settle::again::post),
        )
        .route(
            "/moderation/{round}/comparison",
            get(moderation::comparison::get),
        )
        .route(
            "/moderation/{round}/comparison.csv",
            get(moderation::comparison::csv::get),
        )
        .route(
            "/moderation/{round}/close",
            post(moderation::record::close::post),
        )
        .route(
            "/moderation/{round}/record",
            get(moderation::record::show::get).post(moderation::record::enter::post),
        )
        .route(
            "/moderation/{round}/record.csv",
            get(moderation::record::csv::get),
        )
}

/// Files, and the register.
pub(crate) fn for_records() -> Router<AppState> {
    let taken_in = Router::new()
        .route(
            "/class-sets/{id}/import",
            get(files::import::get).post(files::import::post),
        )
        .route("/class-sets/{id}/import/keep", post(files::keep::post))
        .layer(DefaultBodyLimit::max(LONGEST_UPLOAD));
    Router::new()
        .route("/class-sets/{id}/files", get(files::show::get))
        .merge(taken_in)
        .route(
            "/class-sets/{id}/register",
            get(register::show::get).post(register::keep::post),
        )
        .route("/registers", get(register::year::get))
        .route("/registers.csv", get(register::year::csv))
        .route("/upkeep", get(upkeep::get).post(upkeep::post))
}

/// The year comparison.
pub(crate) fn for_the_year() -> Router<AppState> {
    Router::new()
        .route("/year", get(year::start::get))
        .route("/year/kits", get(year::kits::get))
        .route("/year/kits/{id}", get(year::kit::get))
        .route("/year/slips", get(year::slips::get))
        .route("/year/slips/{place}/{code}", get(year::slip::get))
        .route("/year/classes", get(year::classes::get))
        .route("/year/classes/{id}", get(year::class::get))
        .route("/year/teachers", get(year::teachers::get))
        .route("/year/sheets", get(year::sheets::get))
        .route("/year/{file}", get(year::files::get))
}
