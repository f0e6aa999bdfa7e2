//! What to set out and what to be careful about. It repeats the usual
//! cautions and replaces no risk assessment.

use analysis::method::Method;

/// Cautions by their keys, one sentence or two each.
const CAUTIONS: [(&str, &str); 6] = [
    (
        "flashing",
        "A flashing lamp can bring on a seizure in people with photosensitive epilepsy; 3 to 30 flashes a second is the \
         usual range of concern. Ask before the lesson. Do not use the strobe with anyone sensitive: let them count slow \
         waves under steady light.",
    ),
    (
        "water",
        "Keep mains leads and plugs away from the water. Wipe up spilt water at once.",
    ),
    (
        "dark",
        "The room is darkened: clear bags and stools from the floor first.",
    ),
    ("eyes", "A stretched string can snap: wear eye protection."),
    (
        "feet",
        "The mass can fall: keep feet clear, and put something soft beneath it.",
    ),
    (
        "vibrator",
        "Hang no more mass than the maker of the vibrator allows.",
    ),
];

/// What one group needs, by the code of its method.
const KIT_LISTS: [(&str, &[&str]); 2] = [
    (
        "ripple-tank",
        &[
            "ripple tank with legs, beaches and clean water 4 to 12 mm deep",
            "straight dipper with motor or vibrator, and signal generator or motor supply with a dial",
            "lamp (steady, and stroboscope if it is used)",
            "white screen or paper beneath the tank",
            "ruler, 30 cm or longer, and an object of known length to lay in the tank",
            "stopwatch, if crests are counted",
        ],
    ),
    (
        "string-loops",
        &[
            "vibrator and signal generator",
            "string, pulley on a clamp, and stand",
            "hanger and slotted masses of known value",
            "metre ruler",
            "balance that reads to 0.01 g, one for the class",
            "eye protection for everyone, and a soft landing for the masses",
        ],
    ),
];

fn find<T: Copy>(all: &[(&str, T)], key: &str) -> Option<T> {
    all.iter().find(|(of, _)| *of == key).map(|(_, what)| *what)
}

/// Returns the cautions of a method.
pub(super) fn cautions(method: Method) -> Vec<&'static str> {
    let keys = method.spec().cautions.iter();
    keys.filter_map(|key| find(&CAUTIONS, key)).collect()
}

/// Returns what one group needs.
pub(super) fn kit_list(method: Method) -> &'static [&'static str] {
    find(&KIT_LISTS, method.code()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_method_has_its_cautions_and_its_kit_list() {
        for method in Method::ALL {
            let keys = method.spec().cautions;
            assert_eq!(cautions(method).len(), keys.len(), "{method:?}");
            assert!(!kit_list(method).is_empty(), "{method:?}");
        }
    }
}
