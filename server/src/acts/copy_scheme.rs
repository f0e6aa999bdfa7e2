//! A mark scheme is made from another.

use analysis::method::Method;
use analysis::text::folded;

use super::{Act, Doing, Event, NotDone, Staff, Taken, refuse_if};
use crate::db::Error;
use crate::db::scheme::{self, NewPoint};
use crate::ids::SchemeId;

/// Makes a scheme with the points of another's newest version. A method has
/// no two schemes of one name, however it is spaced and spelled.
#[derive(Debug)]
pub struct CopyScheme {
    /// The other.
    pub from: SchemeId,
    /// What staff will call it, at most 80 characters.
    pub name: String,
}

impl Act<Staff> for CopyScheme {
    type Done = SchemeId;
    type Stop = NotDone<Taken>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<SchemeId, Self::Stop> {
        let schemes = scheme::list(doing.db).await?;
        let from = schemes.iter().find(|scheme| scheme.id == self.from);
        let from = from.ok_or(Error::NoSuch)?;
        let mut others = schemes.iter().filter(|one| one.method == from.method);
        let name = folded(&self.name);
        refuse_if(others.any(|one| folded(&one.name) == name), Taken)?;
        let method = Method::from_code(&from.method).ok_or(Error::Missing)?;
        let points = scheme::list_points(doing.db, from.version_id).await?;
        let points = points.into_iter().map(|stored| NewPoint {
            key: None,
            point: stored.point,
        });
        let scheme_id = scheme::insert(doing.db, method, &self.name).await?;
        let (points, by_whom) = (points.collect::<Vec<_>>(), Some(by.id));
        scheme::insert_version(doing.db, scheme_id, &points, by_whom, doing.at).await?;
        doing.record(by, &Event::SchemeMade(self.name)).await?;
        Ok(scheme_id)
    }
}
