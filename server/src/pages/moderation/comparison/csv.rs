//! The comparison as a file, with what its reader may see on the page.

use analysis::moderation::comparison::{Coefficients, Largest, Person};
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::view::{View, sentences};
use super::{Reader, open};
use crate::attachment::Attachment;
use crate::db::round::Round;
use crate::error::AppError;
use crate::files::comparison::{self, About, Line};
use crate::ids::RoundId;
use crate::report::moderation::comparison::Compared;
use crate::report::moderation::name;
use crate::report::moderation::verdict::Whose;
use crate::session::SignedIn;
use crate::state::AppState;

/// The file.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path(id): Path<RoundId>,
) -> Result<Response, AppError> {
    open(&state, by, id, |_, round, reader, compared| {
        let table = comparison::table(&lines(&compared, &round, reader));
        Ok(Attachment::csv(format!("round-{id}-comparison.csv"), &table)?.into_response())
    })
    .await
}

fn lines<'a>(compared: &'a Compared, round: &'a Round, reader: Reader) -> Vec<Line<'a>> {
    let (view, found) = (View::of(compared, round, reader), &compared.comparison);
    let sheet = |largest: Largest| {
        let pair = compared.pair(largest.sheet);
        pair.filter(|pair| reader.may_name(pair))
            .map_or_else(String::new, |pair| {
                name(pair.sheet.class_set_id, &pair.sheet.label)
            })
    };
    let person = |line: &'a Person, about, whose| Line {
        about,
        name: view.name(line.person),
        agreement: &line.agreement,
        coefficients: Coefficients::default(),
        largest_sheet: sheet(line.agreement.largest),
        part: None,
        colleagues: line.colleagues.iter().map(|who| view.name(*who)).collect(),
        says: sentences(&line.verdicts, &line.agreement, whose),
    };
    let whole = found.whole.iter().map(|agreement| Line {
        about: About::Whole,
        name: String::new(),
        agreement,
        coefficients: found.coefficients,
        largest_sheet: sheet(agreement.largest),
        part: None,
        colleagues: Vec::new(),
        says: sentences(&found.verdicts, agreement, Whose::Everyone),
    });
    let seen = |line: &&Person| reader.may_see(line.person);
    let first = found.first_markers.iter().filter(seen);
    let second = found.second_markers.iter().filter(seen);
    let points = found.points.iter().map(|point| Line {
        about: About::Point,
        name: view.point(point.point),
        agreement: &point.agreement,
        coefficients: Coefficients::default(),
        largest_sheet: sheet(point.agreement.largest),
        part: point.part,
        colleagues: Vec::new(),
        says: Vec::new(),
    });
    whole
        .chain(first.map(|line| person(line, About::FirstMarker, Whose::First)))
        .chain(second.map(|line| person(line, About::SecondMarker, Whose::Second)))
        .chain(points)
        .collect()
}
