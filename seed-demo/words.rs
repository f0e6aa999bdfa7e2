//! What groups write in their own words: some of it good, some of it thin.

use analysis::field::Field;
use analysis::sheet::TypedSheet;
use server::db::revision::Answers;

/// What groups say of a method.
struct Words {
    code: &'static str,
    /// What they call its waves.
    wave: &'static str,
    /// How they say that they measured.
    accounts: &'static [&'static str],
}

const WORDS: [Words; 2] = [
    Words {
        code: "ripple-tank",
        wave: "ripples",
        accounts: &RIPPLES,
    },
    Words {
        code: "string-loops",
        wave: "waves on the string",
        accounts: &LOOPS,
    },
];

fn of(sheet: &TypedSheet) -> &'static Words {
    let of_method = |words: &&Words| words.code == sheet.method.code();
    WORDS.iter().find(of_method).unwrap_or(&WORDS[0])
}

const RIPPLES: [&str; 4] = [
    "We put the lamp above the tank and the white card under it. We laid a 10 cm ruler in the water and measured its shadow to find the enlargement.\nWe set the dial, wrote down its multiplier, and froze the pattern with the card. We laid the metre rule square across the lines, called the first line nought and measured about ten waves at once. Wavelength on the card = length ÷ waves, then ÷ enlargement.\nSpeed = frequency × wavelength. We did it at five or more frequencies and one of them twice. We kept the leads and the supply away from the water.",
    "We measured the shadow of a ruler to get the enlargement. Then we counted the waves on the card and measured how long they were together, and divided. We did this for different frequencies and multiplied.",
    "First we filled the tank and put the lamp on. Then we measured the waves and wrote down the frequency. Then we worked out the speed.",
    "",
];

const LOOPS: [&str; 4] = [
    "We hung the masses over the pulley and turned the dial up until the loops stood still. We measured from node to node over all the loops, with the metre rule beside the string. One wave is two loops, so wavelength = 2 × length ÷ loops. The frequency is the dial times its multiplier.\nSpeed = frequency × wavelength. We changed the number of loops but not the masses. We wore goggles and put a box of foam under the masses.",
    "We changed the frequency until we saw loops. We measured the loops and doubled it to get the wavelength. Then frequency × wavelength for each.",
    "We made the string vibrate and measured the waves. The more loops the higher the frequency.",
    "",
];

const EVALUATIONS: [&str; 5] = [
    "The edges of the shadows are fuzzy by about 2 mm at each end, so short spans are worst. Measuring more waves at once would share that out.",
    "The highest frequencies were hard to see, so the last row is the least precise. A photograph would freeze it.",
    "Our repeat agreed to 2 %, so it is repeatable. The dial was never checked: we could count the slow waves once to see if it reads high.",
    "Human error. Do it more times.",
    "",
];

/// Returns what group `number` writes under the sheet that it hands in.
pub(crate) fn answers(sheet: &TypedSheet, number: u64) -> Answers {
    let pick = |texts: &[&str], at: u64| {
        let at = usize::try_from(at).unwrap_or(0) % texts.len();
        texts[at].to_owned()
    };
    Answers {
        method: pick(of(sheet).accounts, number),
        conclusion: conclusion(sheet, number),
        evaluation: pick(&EVALUATIONS, number / 2),
    }
}

fn conclusion(sheet: &TypedSheet, number: u64) -> String {
    let Some(mean) = sheet.whole.get(&Field::MeanSpeed) else {
        return String::new();
    };
    let wave = of(sheet).wave;
    let speed = format!("{} {}", mean.text, mean.unit);
    match number % 3 {
        0 => format!("The mean speed of the {wave} was {speed}. It hardly changed with frequency."),
        1 => format!("The {wave} went at {speed}."),
        _ => "When the frequency went up the wavelength went down.".to_owned(),
    }
}
