//! Judgements of sheets, kept for the pages that read thousands of them. Only
//! copies: a row may be deleted at any time and is made again.

use analysis::year::Judgement;

use super::revision::Entry;
use super::{Connection, Error, Writing};
use crate::ids::RevisionId;

/// A judgement of what one revision says.
#[derive(Clone, Debug, PartialEq)]
pub struct RevisionJudged {
    /// What the group wrote for its kit.
    pub kit: String,
    /// What its sheet says.
    pub judgement: Judgement,
}

/// Lists what was typed in some revisions, as it is stored.
pub async fn list_entries(
    db: &mut Connection,
    revisions: &[RevisionId],
) -> Result<Vec<(RevisionId, Entry)>, Error> {
    let sql = sql!("SELECT id, body FROM revision
               WHERE id IN (SELECT value FROM json_each($2))
               AND EXISTS (SELECT 1 FROM own_sheet WHERE own_sheet.id = revision.sheet_id AND own_sheet.department_id = $1) ORDER BY id");
    let bodies: Vec<(RevisionId, String)> = query_as!(db, sql; serde_json::to_string(revisions)?)
        .fetch_all(db)
        .await?;
    let entries = bodies.into_iter();
    entries
        .map(|(id, body)| Ok((id, serde_json::from_str(&body)?)))
        .collect()
}

/// Returns the judgements of some revisions, where this version of the
/// analysis made them.
pub async fn list(
    db: &mut Connection,
    version: &str,
    revisions: &[RevisionId],
) -> Result<Vec<(RevisionId, RevisionJudged)>, Error> {
    let sql = sql!(
        "SELECT revision_id, kit, speed, expected, uncertainty, body FROM judgement
               WHERE version = $2 AND revision_id IN (SELECT value FROM json_each($3))
               AND EXISTS (SELECT 1 FROM revision JOIN own_sheet ON own_sheet.id = sheet_id
                           WHERE revision.id = revision_id AND department_id = $1)"
    );
    let rows: Vec<JudgementRow> = query_as!(db, sql; version, serde_json::to_string(revisions)?)
        .fetch_all(db)
        .await?;
    let judged = rows.into_iter().filter_map(|row| {
        let figures = [row.speed, row.expected, row.uncertainty];
        Some((row.revision_id, read(row.kit, figures, &row.body)?))
    });
    Ok(judged.collect())
}

#[derive(sqlx::FromRow)]
struct JudgementRow {
    revision_id: RevisionId,
    kit: String,
    speed: Option<f64>,
    expected: Option<f64>,
    uncertainty: Option<f64>,
    body: String,
}

/// Returns the judgement in a row's columns; `None` where another version's
/// writing cannot be read: then it is made again.
pub(super) fn read(
    kit: String,
    [speed, expected, uncertainty]: [Option<f64>; 3],
    body: &str,
) -> Option<RevisionJudged> {
    let rest: Judgement = serde_json::from_str(body).ok()?;
    Some(RevisionJudged {
        kit,
        judgement: Judgement {
            speed,
            expected,
            uncertainty,
            ..rest
        },
    })
}

/// Keeps judgements, each in the place of the one before.
pub async fn keep(
    db: &mut Writing,
    version: &str,
    judged: &[(RevisionId, RevisionJudged)],
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO judgement (revision_id, version, kit, speed, expected, uncertainty, body)
               VALUES ((SELECT revision.id FROM revision JOIN own_sheet ON own_sheet.id = sheet_id
                       WHERE revision.id = $2 AND department_id = $1), $3, $4, $5, $6, $7, $8)
               ON CONFLICT (revision_id) DO UPDATE
               SET version = excluded.version, kit = excluded.kit, speed = excluded.speed,
                   expected = excluded.expected, uncertainty = excluded.uncertainty, body = excluded.body");
    for (revision, RevisionJudged { kit, judgement }) in judged {
        query!(db, sql;
            revision, version, kit, judgement.speed, judgement.expected, judgement.uncertainty,
            serde_json::to_string(judgement)?)
        .execute(&mut *db)
        .await?;
    }
    Ok(())
}
