//! A class set whose benches have browsers already, so that a test can hand
//! in at once.

use std::path::Path;

use analysis::method::Method;
use server::acts::{Act, Anyone, Doing, MakeClassSet, SignIn, TakeBench};
use server::clock::Clock;
use server::db::{Error, bench, class_set};
use server::secret::sha256;

use crate::support::{Join, act};

/// Cookie of the browser at bench `label`.
pub(super) fn cookie(label: &str) -> String {
    format!("browser at {label}").replace(' ', "-")
}

/// The session of the teacher.
pub(super) const SESSION: &str = "the-teachers-browser";

/// Makes a data file with one class set of so many groups, each with a
/// browser at its bench; the join code.
pub(super) async fn class_set(path: &Path, groups: u8) -> String {
    let (store, writing) = server::acts::open(path).await.unwrap();
    let now = Clock::System.now();
    let code = act(&store, now, Anyone, Ready(groups)).await.unwrap();
    drop(store);
    writing.await.unwrap().unwrap();
    code
}

struct Ready(u8);

impl Act<Anyone> for Ready {
    type Done = String;
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<String, Error> {
        let now = doing.at();
        let teacher = doing.perform(now, by, Join("Ms Fell")).await?;
        let sign_in = SignIn {
            token_hash: sha256(SESSION),
            old_token_hash: None,
        };
        doing.perform(now, teacher, sign_in).await?;
        let make = MakeClassSet {
            class_name: "10B/Ph2".to_owned(),
            method: Method::RippleTank,
            held_on: jiff::civil::date(2026, 11, 24),
            groups: self.0,
            is_live: true,
        };
        let class_set = doing.perform(now, teacher, make).await?;
        for bench in bench::list(doing.read(), class_set).await? {
            let take = TakeBench {
                class_set,
                token_hash: sha256(&cookie(&bench.label)),
                label: bench.label,
                number_hash: "nobody comes back".to_owned(),
            };
            doing.perform(now, by, take).await?.unwrap();
        }
        Ok(class_set::get(doing.read(), class_set).await?.join_code)
    }
}
