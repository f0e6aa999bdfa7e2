//! The department before its first lesson: its people, its apparatus, its
//! sizes of samples.

use jiff::civil::Date;
use server::acts::{
    Anyone, Doing, Invite, InviteFirst, KeepInitials, ListKit, MakeAccount, SetSampleSizes,
};
use server::db::Error;
use server::db::kit::Kind;
use server::db::sample_size::SampleSize;
use server::secret::{sha256, token};
use server::web::password::Passwords;

use crate::department::{COLLEAGUES, Failure, NAME, PASSWORD, done, hashing};
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

/// Somebody before they have an account.
pub(crate) struct Person {
    teacher: Teacher,
    name: &'static str,
    password_hash: String,
}

/// Returns the head of department, then her colleagues.
pub(crate) async fn people(passwords: &Passwords) -> Result<Vec<Person>, Failure> {
    let head = [(Teacher::Beck, NAME)];
    let mut people = Vec::new();
    for (teacher, name) in head.into_iter().chain(COLLEAGUES) {
        let hashed = passwords.hash(PASSWORD.to_owned()).await;
        people.push(Person {
            teacher,
            name,
            password_hash: hashed.map_err(hashing)?,
        });
    }
    Ok(people)
}

/// The staff in their data file.
pub(crate) struct School {
    /// The head of department is the first.
    markers: Vec<Marker>,
}

impl School {
    /// Gives everybody their account, the head of department first.
    pub(crate) async fn join(
        doing: &mut Doing<'_>,
        people: Vec<Person>,
        at: i64,
    ) -> Result<Self, Error> {
        let mut markers: Vec<Marker> = Vec::new();
        for person in people {
            let token_hash = sha256(&token());
            let link = token_hash.clone();
            if let Some(head) = markers.first() {
                let invite = Invite { token_hash: link };
                doing.perform(at, head.staff, invite).await?;
            } else {
                let invite = InviteFirst { token_hash: link };
                doing.perform(at, Anyone, invite).await?;
            }
            let account = MakeAccount {
                token_hash,
                name: person.name.to_owned(),
                password_hash: person.password_hash,
            };
            markers.push(Marker {
                teacher: person.teacher,
                staff: done(doing.perform(at, Anyone, account).await?)?,
            });
        }
        Ok(Self { markers })
    }

    /// Lists the apparatus, decides on the sizes of samples, and lets the
    /// register hold initials to a day.
    pub(crate) async fn stock(
        &self,
        doing: &mut Doing<'_>,
        until: Date,
        at: i64,
    ) -> Result<(), Error> {
        let head = self.marker(Teacher::Beck)?.staff;
        let table = SIZES.to_vec();
        doing.perform(at, head, SetSampleSizes { table }).await?;
        let tanks = TANKS.map(|tank| (tank.label, Kind::Tank));
        let generators = GENERATORS.map(|generator| (generator.label, Kind::Generator));
        let strings = STRINGS.map(|string| (string.cord.label, Kind::String));
        for (label, kind) in tanks.into_iter().chain(generators).chain(strings) {
            let label = label.to_owned();
            done(doing.perform(at, head, ListKit { label, kind }).await?)?;
        }
        doing.perform(at, head, KeepInitials { until }).await
    }

    /// Somebody, as they mark.
    pub(crate) fn marker(&self, teacher: Teacher) -> Result<Marker, Error> {
        let mut found = self.markers.iter().filter(|one| one.teacher == teacher);
        found.next().copied().ok_or(Error::Missing)
    }
}
