//! The department before its first lesson: its people, its apparatus, its
//! sizes of samples.

use server::db::sample_size::{self, SampleSize};
use server::db::staff::{self, NewStaff, Role};
use server::db::{Error, Writing, kit};
use server::ids::StaffId;
use server::password::Passwords;

use crate::department::{COLLEAGUES, Failure, NAME, PASSWORD, hashing};
use crate::kit::{GENERATORS, STRINGS, TANKS};
use crate::pile::Marker;
use crate::term::Teacher;

/// The department's own sizes of samples: with 24 sheets each of four markers
/// has six or so, the fewest that say something of one.
const SIZES: [SampleSize; 4] = [
    SampleSize {
        up_to: Some(15),
        size: None,
    },
    SampleSize {
        up_to: Some(40),
        size: Some(15),
    },
    SampleSize {
        up_to: Some(200),
        size: Some(24),
    },
    SampleSize {
        up_to: None,
        size: Some(30),
    },
];

/// The staff in their data file.
pub(crate) struct School {
    markers: Vec<Marker>,
}

impl School {
    /// Gives everybody their account.
    pub(crate) async fn join(
        db: &mut Writing,
        staff: &[(Teacher, NewStaff)],
    ) -> Result<Self, Error> {
        let mut markers = Vec::new();
        for (teacher, new) in staff {
            // The file was empty, so no name is taken.
            let id = staff::insert(db, new).await?.ok_or(Error::Stopped)?;
            markers.push(Marker {
                teacher: *teacher,
                id,
            });
        }
        Ok(Self { markers })
    }

    /// Somebody, as they mark.
    pub(crate) fn marker(&self, teacher: Teacher) -> Result<Marker, Error> {
        let mut found = self.markers.iter().filter(|one| one.teacher == teacher);
        found.next().copied().ok_or(Error::Stopped)
    }

    /// The head of department.
    pub(crate) fn head(&self) -> Result<StaffId, Error> {
        Ok(self.marker(Teacher::Beck)?.id)
    }
}

/// The head of department, then her colleagues.
pub(crate) async fn people(
    passwords: &Passwords,
    made_at: i64,
) -> Result<Vec<(Teacher, NewStaff)>, Failure> {
    let head = [(Teacher::Beck, NAME)];
    let mut people = Vec::new();
    for (teacher, name) in head.into_iter().chain(COLLEAGUES) {
        let hashed = passwords.hash(PASSWORD.to_owned()).await;
        let new = NewStaff {
            name: name.to_owned(),
            password_hash: hashed.map_err(hashing)?,
            role: match teacher {
                Teacher::Beck => Role::Head,
                _ => Role::Teacher,
            },
            made_at,
        };
        people.push((teacher, new));
    }
    Ok(people)
}

/// Lists the apparatus, and decides on the sizes of samples.
pub(crate) async fn stock(db: &mut Writing) -> Result<(), Error> {
    sample_size::replace(db, &SIZES).await?;
    for tank in TANKS {
        kit::insert(db, tank.label, kit::Kind::Tank).await?;
    }
    for generator in GENERATORS {
        kit::insert(db, generator.label, kit::Kind::Generator).await?;
    }
    for cord in STRINGS {
        kit::insert(db, cord.label, kit::Kind::String).await?;
    }
    Ok(())
}
