use analysis::moderation::anchors::{Candidate, Standing, suggest};

fn sheets(levels: &[i64]) -> Vec<Candidate> {
    let sheets = levels.iter().enumerate();
    sheets
        .map(|(at, level)| Candidate {
            name: format!("1/{at}"),
            level: *level,
        })
        .collect()
}

#[test]
fn a_weak_a_middling_and_a_strong_sheet_are_suggested() {
    let levels = [12, 3, 17, 8, 15, 20, 6, 10, 14, 1, 19, 11];
    let suggested = suggest(&sheets(&levels), "seed");
    let told: Vec<_> = suggested
        .iter()
        .map(|(at, standing)| (levels[*at], standing.word()))
        .collect();
    assert_eq!(told, [(6, "weak"), (12, "middling"), (19, "strong")]);
}

#[test]
fn few_sheets_are_each_suggested_once() {
    assert_eq!(suggest(&[], "seed"), []);
    assert_eq!(suggest(&sheets(&[5]), "seed"), [(0, Standing::Weak)]);
    let two = suggest(&sheets(&[5, 9]), "seed");
    assert_eq!(two, [(0, Standing::Weak), (1, Standing::Middling)]);
    assert_eq!(suggest(&sheets(&[5, 9, 7]), "seed").len(), 3);
}

#[test]
fn equal_sheets_are_told_apart_by_the_seed_alone() {
    let equal = sheets(&[7; 30]);
    let mut turned = equal.clone();
    turned.reverse();
    let name = |sheets: &[Candidate], seed: &str| -> Vec<String> {
        let suggested = suggest(sheets, seed).into_iter();
        suggested.map(|(at, _)| sheets[at].name.clone()).collect()
    };
    assert_eq!(name(&equal, "one"), name(&turned, "one"));
    assert_ne!(name(&equal, "one"), name(&equal, "two"));
}
