//! What to set out and what to be careful about. It repeats the usual
//! cautions and replaces no risk assessment.

use analysis::method::Method;

/// Cautions of a method, one sentence or two each.
pub(super) fn cautions(method: Method) -> &'static [&'static str] {
    match method {
        Method::RippleTank => &[
            "A flashing lamp can bring on a seizure in people with photosensitive epilepsy; 3 to 30 flashes a second is the \
             usual range of concern. Ask before the lesson. Do not use the strobe with anyone sensitive: let them count slow \
             waves under steady light.",
            "Keep mains leads and plugs away from the water. Wipe up spilt water at once.",
            "The room is darkened: clear bags and stools from the floor first.",
        ],
        Method::StringLoops => &[
            "A stretched string can snap: wear eye protection.",
            "The mass can fall: keep feet clear, and put something soft beneath it.",
            "Hang no more mass than the maker of the vibrator allows.",
        ],
    }
}

/// What one group needs.
pub(super) fn kit_list(method: Method) -> &'static [&'static str] {
    match method {
        Method::RippleTank => &[
            "ripple tank with legs, beaches and clean water 4 to 12 mm deep",
            "straight dipper with motor or vibrator, and signal generator or motor supply with a dial",
            "lamp (steady, and stroboscope if it is used)",
            "white screen or paper beneath the tank",
            "ruler, 30 cm or longer, and an object of known length to lay in the tank",
            "stopwatch, if crests are counted",
        ],
        Method::StringLoops => &[
            "vibrator and signal generator",
            "string, pulley on a clamp, and stand",
            "hanger and slotted masses of known value",
            "metre ruler",
            "balance that reads to 0.01 g, one for the class",
            "eye protection for everyone, and a soft landing for the masses",
        ],
    }
}
