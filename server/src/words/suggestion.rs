//! Why so many marks are suggested, for whoever marks.

use analysis::field::Field;
use analysis::scheme::{Place, Why};

use super::cause::many;
use super::{Say, capitalised, counted};

/// Returns the reason in a sentence or two.
#[must_use]
pub fn why(why: &Why) -> String {
    let say = Say::english();
    match why {
        Why::Slips { .. } => slips(why),
        Why::NoneWorked(field) => format!("No {} is worked out.", say.field(*field)),
        Why::AllWorked(field, rows) => format!(
            "{}, each following from the group’s own figures.",
            figures(*field, *rows)
        ),
        Why::SomeWorked(field, worked, rows) => format!(
            "{} worked out for {rows} rows, each following from the group’s own figures.",
            figures(*field, *worked)
        ),
        Why::Missing(field) => format!("There is no {}.", say.field(*field)),
        Why::Unjudged(field) => {
            format!("Nothing is known to judge the {} by.", say.field(*field))
        }
        Why::Follows(field) => format!(
            "The {} follows from the group’s own figures.",
            say.field(*field)
        ),
        Why::NoUnit(at) => format!("{}: there is no unit.", place(at)),
        Why::WithOddRows(first, rows) => format!(
            "{} Row {} does not belong with the others and was not marked as an anomaly: judge it by eye.",
            self::why(first),
            rows.join(", ")
        ),
        Why::Figures(at, given, slip) => {
            format!("{}, {given}: {}.", place(at), say.slip(*slip))
        }
        Why::Uncertainty(sum, given) => format!("{}; they have {given}.", say.sum(sum)),
        Why::Frequencies(found, enough) => format!(
            "Complete readings at {}; {enough} are enough.",
            counted(*found, "frequency", "different frequencies")
        ),
        Why::Repeats(0) => "No frequency was measured twice.".to_owned(),
        Why::Repeats(1) => "One frequency was measured again.".to_owned(),
        Why::Repeats(n) => format!("{n} frequencies were measured again."),
        Why::ManyWaves(good, of, method) => format!(
            "{good} of {} have {}.",
            counted(*of, "row", "rows"),
            many(*method)
        ),
        Why::Millimetre(fine, of) => format!(
            "{fine} of {} to the millimetre.",
            counted(*of, "length is", "lengths are")
        ),
        plain => of_itself(plain).to_owned(),
    }
}

/// Says what needs nothing put in.
fn of_itself(why: &Why) -> &'static str {
    match why {
        Why::EnlargementUnused => "The enlargement is neither written down nor used.",
        Why::EnlargementUsed => "Not written down, but the wavelengths were worked out with it.",
        Why::OneLength => "Only one of the object’s two lengths was measured.",
        Why::NoReadings => "There are no complete readings yet.",
        Why::NoObject => {
            "No object of known size was measured: right where the waves were measured in the water itself."
        }
        Why::NoSpeed => "There is no speed to give a unit to.",
        Why::UnitsKept => "Speeds have a unit, and no length was mixed up with another unit’s.",
        Why::UnsaidRow => "It is the mean without one reading that was not marked as left out.",
        Why::NothingWorked => "Nothing is worked out.",
        Why::FiguresCarried => "Worked figures carry what the readings carry.",
        _ => "",
    }
}

fn slips(why: &Why) -> String {
    let Why::Slips {
        place: at,
        slip,
        sum,
        given,
        more,
        cost,
    } = why
    else {
        return String::new();
    };
    let say = Say::english();
    let mut reason = format!("{}: {}", place(at), say.slip(*slip));
    if !sum.is_empty() {
        reason.push_str(&format!(" ({}; they have {given})", say.sum(sum)));
    }
    if *more > 0 {
        reason.push_str(&format!("; and {more} more"));
    }
    let cost = counted(*cost, "mark", "marks");
    format!("{reason}. That costs {cost} here; what follows from it costs nothing.")
}

/// Returns what is left to mark on a sheet, and how many of its marks were given
/// on an earlier version of it.
#[must_use]
pub fn to_mark(points: usize, earlier: usize) -> String {
    let open = match points {
        0 => "Complete.".to_owned(),
        open => format!("{} to mark.", counted(open, "point", "points")),
    };
    match earlier {
        0 => open,
        n => format!(
            "{open} {} given on an earlier revision: look again.",
            counted(n, "mark", "marks")
        ),
    }
}

/// Says where a figure is, to begin a sentence: `Wavelength, row 2`.
fn place(at: &Place) -> String {
    let label = capitalised(Say::english().field(at.field));
    match &at.row {
        Some(row) => format!("{label}, row {row}"),
        None => label,
    }
}

/// `1 frequency`, `6 frequencies`.
fn figures(field: Field, count: usize) -> String {
    let one = Say::english().field(field);
    match field {
        Field::Frequency => counted(count, one, "frequencies"),
        _ => counted(count, one, &format!("{one}s")),
    }
}
