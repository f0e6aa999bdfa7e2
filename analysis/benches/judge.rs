//! The cost of judging one full sheet (six rows, every working), beside one
//! least-squares fit of the same rows; and of inferring what happened at the
//! bench, beside the judge of the working. Prints times and ratios.

use std::collections::BTreeMap;
use std::hint::black_box;
use std::io::{self, Write as _};
use std::time::{Duration, Instant};

use analysis::assess::assess;
use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::{Placed, infer};
use analysis::sheet::{Cell, Sheet, TypedRow, TypedSheet};
use linregress::{FormulaRegressionBuilder, RegressionDataBuilder, fit_low_level_regression_model};

/// What was done to the wavelengths (and, for nothing that explains, to every
/// worked figure).
#[derive(Clone, Copy)]
enum Working {
    Clean,
    SlipOnEveryRow,
    SlipsOnSingleRows,
    NothingExplains,
}

/// Dial (tens of Hz) and span of ten wavelengths on the screen, in cm.
const READINGS: [(f64, f64); 6] = [
    (1.0, 38.9),
    (1.5, 26.6),
    (2.0, 20.8),
    (2.5, 17.2),
    (3.0, 15.1),
    (3.5, 13.5),
];

fn cell(text: &str, unit: &str) -> Cell {
    Cell {
        text: text.to_owned(),
        unit: unit.to_owned(),
    }
}

fn sheet(working: Working) -> TypedSheet {
    let mut rows = Vec::new();
    let mut speeds = 0.0;
    for (at, (dial, span)) in READINGS.into_iter().enumerate() {
        let (f, ours) = (dial * 10.0, span / 10.0 / 1.75);
        let (wavelength, off) = match working {
            Working::Clean => (ours, 1.0),
            Working::SlipOnEveryRow => (ours * 1.75, 1.0),
            // A different turn on each row: no column is explained at once.
            Working::SlipsOnSingleRows => (ours * [1.75, 10.0, 0.5][at % 3], 1.0),
            Working::NothingExplains => (ours * (1.23 + 0.071 * dial), 1.37 + 0.043 * dial),
        };
        let speed = f * wavelength / 100.0 * off;
        speeds += speed;
        let cells = BTreeMap::from([
            (Field::Dial, cell(&dial.to_string(), "")),
            (Field::DialTimes, cell("10", "")),
            (Field::FirstCrest, cell("0", "")),
            (Field::LastCrest, cell("10", "")),
            (Field::Span, cell(&format!("{span:.1}"), "cm")),
            (Field::Frequency, cell(&format!("{:.1}", f * off), "")),
            (Field::Wavelength, cell(&format!("{wavelength:.3}"), "cm")),
            (
                Field::Reciprocal,
                cell(&format!("{:.1}", 100.0 / wavelength * off), "1/m"),
            ),
            (Field::Speed, cell(&format!("{speed:.4}"), "m/s")),
        ]);
        rows.push(TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        });
    }
    let mean = speeds / 6.0;
    let whole = BTreeMap::from([
        (Field::ScaleImage, cell("17.5", "cm")),
        (Field::ScaleTrue, cell("10.0", "cm")),
        (Field::Magnification, cell("1.75", "")),
        (Field::MeanSpeed, cell(&format!("{mean:.4}"), "m/s")),
        (Field::Gradient, cell(&format!("{:.3}", mean * 1.1), "m/s")),
    ]);
    TypedSheet {
        method: Method::RippleTank,
        whole,
        rows,
    }
}

/// The shortest of several rounds: the one that was least disturbed.
fn time(mut work: impl FnMut()) -> Duration {
    const ROUNDS: u32 = 40;
    const TIMES: u32 = 100;
    let round = |_| {
        let start = Instant::now();
        (0..TIMES).for_each(|_| work());
        start.elapsed() / TIMES
    };
    (0..ROUNDS).map(round).min().unwrap_or_default()
}

fn micros(time: Duration) -> f64 {
    time.as_secs_f64() * 1e6
}

/// f against 1/λ with an intercept: by linregress's formula interface, with
/// its standard errors and p-values, and by its bare fit.
fn fits() -> (Duration, Duration) {
    let along: Vec<f64> = READINGS.iter().map(|(_, span)| 1750.0 / span).collect();
    let up: Vec<f64> = READINGS.iter().map(|(dial, _)| dial * 10.0).collect();
    let whole = time(|| {
        let columns = vec![("f", up.clone()), ("x", along.clone())];
        let data = RegressionDataBuilder::new().build_from(columns);
        let data = data.expect("two columns of six");
        let fit = FormulaRegressionBuilder::new()
            .data(&data)
            .formula("f ~ x")
            .fit();
        black_box(fit.expect("a line"));
    });
    let matrix: Vec<f64> = up
        .iter()
        .zip(&along)
        .flat_map(|(f, x)| [*f, 1.0, *x])
        .collect();
    let bare = time(|| {
        let fit = fit_low_level_regression_model(black_box(&matrix), 6, 3);
        black_box(fit.expect("a line"));
    });
    (whole, bare)
}

/// A group's sheet, with a span of its own, and what happened at the bench: its
/// depth written down or not, so many waves too many in every row.
fn at_bench(group: usize, depth: Option<&str>, too_many: u32) -> Sheet {
    let mut typed = sheet(Working::Clean);
    let (_, span) = READINGS[group % 6];
    let span = span + if group < 6 { 0.1 } else { -0.1 };
    let own = cell(&format!("{span:.1}"), "cm");
    typed.rows[group % 6].cells.insert(Field::Span, own);
    if let Some(depth) = depth {
        typed.whole.insert(Field::Depth, cell(depth, ""));
    }
    for row in &mut typed.rows {
        let last = (10 + too_many).to_string();
        row.cells.insert(Field::LastCrest, cell(&last, ""));
    }
    Sheet::check(&typed).expect("a sheet that can be read")
}

/// Inference for one sheet and for a class of twelve on three kits, beside the
/// judge of one sheet's working.
fn inferences(out: &mut impl io::Write) -> io::Result<()> {
    let working = Sheet::check(&sheet(Working::Clean)).expect("a sheet that can be read");
    let judge = time(|| drop(black_box(assess(black_box(&working)))));
    for (name, depth, too_many) in [
        ("clean, depth written down", Some("5"), 0),
        ("clean, no depth", None, 0),
        ("counted from one, depth written down", Some("5"), 1),
        ("half waves, no depth", None, 10),
    ] {
        let sheets: Vec<_> = (0..12)
            .map(|group| at_bench(group, depth, if group % 4 == 0 { too_many } else { 0 }))
            .collect();
        let placed: Vec<_> = sheets
            .iter()
            .zip(["Tank 1", "Tank 2", "Tank 3"].into_iter().cycle())
            .map(|(sheet, kit)| Placed { sheet, kit })
            .collect();
        let one = time(|| drop(black_box(infer(black_box(&placed[..1])))));
        let class = time(|| drop(black_box(infer(black_box(&placed)))));
        writeln!(
            out,
            "infer, {name}: one sheet {:.0} µs ({:.1} judgements of the working), class of 12 {:.2} ms",
            micros(one),
            one.as_secs_f64() / judge.as_secs_f64(),
            micros(class) / 1000.0,
        )?;
    }
    Ok(())
}

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    inferences(&mut out)?;
    let (whole, bare) = fits();
    writeln!(
        out,
        "least-squares fit of six rows, linregress: {:.1} µs by formula, {:.1} µs bare",
        micros(whole),
        micros(bare)
    )?;
    for (name, working) in [
        ("clean", Working::Clean),
        ("one slip on every row", Working::SlipOnEveryRow),
        ("slips row by row", Working::SlipsOnSingleRows),
        ("nothing explains", Working::NothingExplains),
    ] {
        let typed = sheet(working);
        let checked = Sheet::check(&typed).expect("a sheet that can be read");
        let flags = assess(&checked).flags.len();
        let check = time(|| drop(black_box(Sheet::check(black_box(&typed)))));
        let judge = time(|| drop(black_box(assess(black_box(&checked)))));
        writeln!(
            out,
            "{name}: check {:.1} µs, recompute and judge {:.1} µs ({flags} flags); {:.2} fits by formula, {:.1} bare",
            micros(check),
            micros(judge),
            judge.as_secs_f64() / whole.as_secs_f64(),
            judge.as_secs_f64() / bare.as_secs_f64(),
        )?;
    }
    Ok(())
}
