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

#[tokio::test]
async fn step_is_pointed_to_for_every_slip_and_the_answer_for_none() {
    for slip in Slip::ALL {
        let (method, boxes) = sheets::of(slip);
        let mut at = told(TestApp::new().await, method, "step").await;
        at.keeps("save", &boxes).await;
        let flag = flag(&at.app, slip).await;
        let page = at
            .look()
            .await
            .says(&format!(
                "Look again at {}",
                Say::english().look_at(slip, flag.step)
            ))
            .says_nothing_of(Say::english().slip_look(slip));
        page.at(&format!("a[href^='{}#']", at.bench));
        gives_nothing_away(page, &flag);
    }
}

#[tokio::test]
async fn step_is_explained_for_every_slip_and_the_answer_for_none() {
    for slip in Slip::ALL {
        let (method, boxes) = sheets::of(slip);
        let mut at = told(TestApp::new().await, method, "explain").await;
        at.keeps("save", &boxes).await;
        let flag = flag(&at.app, slip).await;
        let general = flag.rival.map_or(slip, |_| Slip::DoesNotFollow);
        let page = at
            .look()
            .await
            .says(&format!(
                "Look again at {}",
                Say::english().look_at(slip, flag.step)
            ))
            .says(Say::english().slip_look(general));
        gives_nothing_away(page, &flag);
    }
}
