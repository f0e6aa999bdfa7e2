//! What pupils are told for each slip: the step, never the answer.

use analysis::reading::Cause;
use analysis::slip::{Kind, Slip};
use analysis::working::Flag;
use server::words::Say;

use super::{judged, sheets, told};
use crate::support::{Part, TestApp};

/// The flag that is to be shown of a sheet which was made for this slip.
async fn flag(app: &TestApp, slip: Slip) -> Flag {
    let flags = judged(app).await.flags;
    let slips = flags.iter().filter(|flag| flag.slip.kind() == Kind::Slip);
    let first = slips.clone().next().or(flags.first());
    let first = first.unwrap_or_else(|| panic!("{slip:?}: nothing is shown"));
    assert_eq!(first.slip, slip, "{flags:?}");
    first.clone()
}

fn gives_nothing_away(page: Part, flag: &Flag) {
    let slip = flag.slip;
    let mut page = page
        .says_nothing_of(Say::english().slip(slip))
        .says_nothing_of(Say::english().slip_sentence(slip))
        .says_nothing_of(slip.code());
    let answers = flag.arithmetic.parts().into_iter();
    for answer in answers.chain([flag.expected.as_str()]) {
        if !answer.is_empty() {
            page = page.says_nothing_of(answer);
        }
    }
    for cause in Cause::ALL {
        page = page
            .says_nothing_of(server::words::cause::short(cause))
            .says_nothing_of(cause.code());
    }
}

/// Pointed to, and explained where that is allowed.
#[tokio::test]
async fn step_is_told_for_every_slip_and_the_answer_for_none() {
    let say = Say::english();
    for (slip, setting) in Slip::ALL
        .into_iter()
        .flat_map(|s| [(s, "step"), (s, "explain")])
    {
        let (method, boxes) = sheets::of(slip);
        let mut at = told(TestApp::new().await, method, setting).await;
        at.keeps("save", &boxes).await;
        let flag = flag(&at.app, slip).await;
        let step = say.look_at(slip, flag.step);
        let page = at.look().await.says(&format!("Look again at {step}"));
        page.at(&format!("a[href^='{}#']", at.bench));
        let general = flag.rival.map_or(slip, |_| Slip::DoesNotFollow);
        let page = match setting {
            "step" => page.says_nothing_of(say.slip_look(slip)),
            _ => page.says(say.slip_look(general)),
        };
        gives_nothing_away(page, &flag);
    }
}
