//! What is said of a kit over a year. What a kit looks like is never
//! said to be certain.

use analysis::year::kits::fingerprint::End;
use analysis::year::kits::{Fault, Fingerprint, Kind, KitYear, Level, Reference, Standing};

use super::share::{off, off_range, ratio_range};
use super::{capitalised, cause, counted, plural, spelt};

/// Returns how a kit stands: `Tank 2 reads 6 % high in four lessons of four: check
/// the lamp’s height.`
#[must_use]
pub fn headline(label: &str, kit: &KitYear) -> String {
    let lessons = format!(
        "in {} {} of {}",
        spelt(kit.same_side.made),
        plural(kit.same_side.made, "lesson", "lessons"),
        spelt(kit.same_side.of)
    );
    let size = off(kit.off.map(|figure| figure.value));
    let check = check(kit).map_or_else(String::new, |check| format!(": {check}"));
    match kit.standing {
        Standing::TooFew => format!("{label}: {}", too_few(kit)),
        Standing::Agrees => format!("{label} reads neither high nor low."),
        Standing::May => format!("{label} may read {size}, {lessons}."),
        Standing::Reads => format!("{label} reads {size} {lessons}{check}."),
        Standing::Bends => format!("{label} reads {}{check}.", ends(kit)),
    }
}

/// Lists more of the same: how sure, and what it looks like.
#[must_use]
pub fn details(kit: &KitYear) -> Vec<String> {
    let mut sentences = Vec::new();
    match kit.standing {
        Standing::TooFew => (),
        Standing::Bends => sentences.push(format!(
            "On the whole it is hardly off: {} (95 % interval).",
            off_range(kit.off)
        )),
        Standing::Agrees | Standing::May | Standing::Reads => {
            sentences.push(format!("95 % interval: {}.", off_range(kit.off)));
        }
    }
    if let Some(fingerprint) = &kit.looks_like {
        sentences.push(looks_like(kit, fingerprint));
    }
    if kit.kind == Kind::Generator && kit.is_off() {
        sentences.push(beside(kit));
    }
    for (cause, sheets) in &kit.confirmed {
        sentences.push(format!(
            "On {} a teacher confirmed: {}.",
            counted(*sheets, "sheet", "sheets"),
            cause::short(*cause)
        ));
    }
    sentences.extend(left_out(kit));
    sentences
}

/// Returns its figures before they are compared: the median, which bears most, and
/// the robust mean. Blank where no sheet counts.
#[must_use]
pub fn median(kit: &KitYear) -> String {
    let Some(median) = kit.median else {
        return String::new();
    };
    let with = |range: String| match range.as_str() {
        "" => String::new(),
        range => format!(" (95 % interval {range})"),
    };
    let mean = kit.ratio.map_or_else(String::new, |mean| {
        format!(
            "; their robust mean {:.3}{}",
            mean.value,
            with(ratio_range(kit.ratio))
        )
    });
    format!(
        "The median of speed ÷ expected speed over its sheets is {median:.3}{}{mean}.",
        with(ratio_range(kit.median_range))
    )
}

/// Returns what kits of a kind are compared with.
#[must_use]
pub fn compared_with(level: &Level) -> String {
    let kind = many(level.kind);
    match (level.by, level.kind) {
        (Reference::Kits(kits), _) => format!(
            "Each is compared with the middle one of the {} {kind} that have enough lessons.",
            spelt(kits)
        ),
        (Reference::Physics, Kind::Tank) => format!(
            "Fewer than three {kind} have enough lessons, so each is compared with what a used tank’s water should give (63 mN/m)."
        ),
        (Reference::Physics, _) => format!(
            "Fewer than three {kind} have enough lessons, so each is compared with what physics gives."
        ),
    }
}

/// Returns what several kits of a kind are called.
#[must_use]
pub fn many(kind: Kind) -> &'static str {
    match kind {
        Kind::Tank => "tanks",
        Kind::Generator => "generators",
        Kind::String => "strings",
    }
}

/// Returns a few words for a fault.
fn name_of(fault: Fault) -> &'static str {
    match fault {
        Fault::Lamp => {
            "the lamp or the screen, at another height than when the enlargement was measured"
        }
        Fault::Surface => "the water’s surface",
        Fault::Depth => "the depth, which is not the one written down",
        Fault::Dial => "the dial, out by the same factor everywhere",
        Fault::DialOffset => "the dial, out by the same number of hertz everywhere",
        Fault::String => "the string, its masses or its pulley",
        Fault::Beside => "the string or the tank that stands beside it",
    }
}

fn too_few(kit: &KitYear) -> String {
    match kit.sheets {
        0 => "no sheet yet.".to_owned(),
        sheets => format!(
            "{} from {}, too few to say.",
            counted(sheets, "sheet", "sheets"),
            counted(kit.lessons, "lesson", "lessons")
        ),
    }
}

/// Says what to do about a kit that is off.
fn check(kit: &KitYear) -> Option<&'static str> {
    let fingerprint = kit.looks_like.as_ref()?;
    let is_high = fingerprint.ends.iter().any(|end| end.off > 0.02);
    Some(match (fingerprint.faults.as_slice(), kit.kind) {
        ([Fault::Lamp], _) => "check the lamp’s height",
        ([Fault::Surface], _) if is_high => "its water is cleaner than the others’",
        ([Fault::Surface], _) => "change its water and wipe the tray",
        ([Fault::Depth], _) => "check its depth",
        (faults, _) if faults.contains(&Fault::Beside) => {
            "check its dial against a counted frequency, and the string or the tank beside it"
        }
        ([Fault::Dial], _) => "check its dial against a counted frequency",
        ([Fault::DialOffset], _) => "check its dial’s zero against a counted frequency",
        (_, Kind::Tank) => "check the lamp’s height, the depth and the water",
        (_, Kind::Generator) => "check its dial against a counted frequency",
        (_, Kind::String) => "check the string, its masses, its pulley, and the generator’s dial",
    })
}

/// What is less than this off, a share, agrees. Our choice.
const HARDLY: f64 = 0.01;

fn at(end: &End) -> String {
    format!("{} at {:.0} Hz", off(Some(end.off)), end.frequency)
}

fn ends(kit: &KitYear) -> String {
    let Some(Fingerprint {
        ends: [low, high], ..
    }) = &kit.looks_like
    else {
        return "unevenly".to_owned();
    };
    match (low.off.abs() < HARDLY, high.off.abs() < HARDLY) {
        (false, true) => format!("{}, but agrees at {:.0} Hz", at(low), high.frequency),
        (true, false) => format!("{}, but agrees at {:.0} Hz", at(high), low.frequency),
        _ => format!("{} and {}", at(low), at(high)),
    }
}

fn looks_like(kit: &KitYear, fingerprint: &Fingerprint) -> String {
    let [low, high] = fingerprint.ends;
    let shape = if (low.off - high.off).abs() < HARDLY {
        "The same factor at all frequencies".to_owned()
    } else {
        format!("{} and {}", capitalised(&at(&low)), at(&high))
    };
    match fingerprint.faults.as_slice() {
        [fault] => format!("{shape}: it looks like {}.", name_of(*fault)),
        faults => {
            let names: Vec<_> = faults.iter().map(|fault| name_of(*fault)).collect();
            let tell = match kit.kind {
                Kind::Tank => " Measure at 5 Hz and at 25 Hz to tell them apart.",
                Kind::String => " Write the generator down beside the string to tell them apart.",
                Kind::Generator if faults.contains(&Fault::Beside) => {
                    " The sheets cannot tell them apart: drive another string or tank with it."
                }
                Kind::Generator => "",
            };
            format!("It looks like one of these: {}.{tell}", names.join("; or "))
        }
    }
}

/// On how much of what it drives a generator is off.
fn beside(kit: &KitYear) -> String {
    let side = kit.off.map_or(
        "off",
        |figure| if figure.value < 0.0 { "low" } else { "high" },
    );
    match kit.beside.of {
        0 => "No string or tank is named beside it.".to_owned(),
        1 => "Only one string or tank is named beside it.".to_owned(),
        named => format!(
            "It is {side} on {} of the {} strings and tanks that are named beside it, by two standard errors at least.",
            spelt(kit.beside.made),
            spelt(named)
        ),
    }
}

/// Says what was taken out, and why.
fn left_out(kit: &KitYear) -> Vec<String> {
    let were = |n: usize| plural(n, "was", "were");
    let mut sentences = Vec::new();
    if kit.slipped > 0 {
        sentences.push(format!(
            "{} with a confirmed slip in the readings {} taken out first.",
            counted(kit.slipped, "sheet", "sheets"),
            were(kit.slipped)
        ));
    }
    if kit.on_dial > 0 {
        sentences.push(format!(
            "{} that {} a generator whose dial seems out {} left aside.",
            counted(kit.on_dial, "sheet", "sheets"),
            plural(kit.on_dial, "names", "name"),
            were(kit.on_dial)
        ));
    }
    sentences
}
