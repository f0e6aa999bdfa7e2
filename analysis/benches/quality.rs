//! How well slips in readings are inferred, on simulated classes: the engine
//! on each sheet alone, the engine with the class and its kits, and the
//! optimal classifier that knows the simulator's own figures.
//!
//! `cargo bench -p crestcount-analysis --bench quality -- [--classes N]
//! [--seed N] [--noise K] [--school NAME] [--no-optimal] [--wrong JUDGE] [--of
//! CAUSE]`; `--wrong` prints the sheets that a judge (`alone`, `scatter`, `class` or
//! `optimal`) got wrong, `--of` those concerned with one cause only.

#[path = "../tests/reading/classes.rs"]
mod classes;
#[path = "../tests/reading/judges.rs"]
mod judges;
#[path = "../tests/reading/optimal/mod.rs"]
mod optimal;
#[path = "../tests/working/pupil.rs"]
#[expect(dead_code, reason = "the tests of working use the rest")]
mod pupil;
#[path = "../tests/reading/score.rs"]
mod score;

use std::io::{self, Write};
use std::time::Instant;

use analysis::assess::assess;
use analysis::field::{Field, Role};
use analysis::reading::Cause;
use analysis::slip::Kind;
use simulator::school::School;

use classes::{Event, SimClass, SimSheet};
use judges::Judge;
use score::{Score, Told};

/// The teacher's thresholds: for the summary, and at the bench.
const THRESHOLDS: [f64; 2] = [0.5, 0.8];

/// What is asked for on the command line.
struct Request {
    classes: usize,
    seed: u64,
    noises: Vec<f64>,
    school: School,
    judges: Vec<Judge>,
    wrong_of: Option<Judge>,
    of: Option<Cause>,
    shown_wrong: bool,
}

fn request() -> Result<Request, String> {
    let mut request = Request {
        classes: 120,
        seed: 1,
        noises: vec![1.0, 2.0, 3.0],
        school: School::usual(),
        judges: vec![
            Judge::Alone,
            Judge::ScatterOnly,
            Judge::WithClass,
            Judge::Optimal,
        ],
        wrong_of: None,
        of: None,
        shown_wrong: false,
    };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        let mut value = || words.next().ok_or(format!("{word} needs a value"));
        let number = |text: String| text.parse::<u64>().map_err(|e| format!("{text}: {e}"));
        match word.as_str() {
            "--classes" => request.classes = usize::try_from(number(value()?)?).unwrap_or(1),
            "--seed" => request.seed = number(value()?)?,
            "--noise" => {
                let noise = value()?;
                let noise = noise.parse().map_err(|e| format!("{noise}: {e}"))?;
                request.noises = vec![noise];
            }
            "--school" => {
                let name = value()?;
                let mut all = School::all().into_iter();
                request.school = all.find(|school| school.name == name).ok_or_else(|| {
                    let known = School::all().map(|school| school.name).join(", ");
                    format!("no school {name}; there are {known}")
                })?;
            }
            "--no-optimal" => request.judges.retain(|judge| *judge != Judge::Optimal),
            "--wrong" => {
                request.wrong_of = match value()?.as_str() {
                    "alone" => Some(Judge::Alone),
                    "scatter" => Some(Judge::ScatterOnly),
                    "class" => Some(Judge::WithClass),
                    "optimal" => Some(Judge::Optimal),
                    other => return Err(format!("no judge {other}")),
                };
            }
            "--wrong-working" => request.shown_wrong = true,
            "--of" => request.of = Cause::from_code(&value()?),
            // What cargo itself says.
            "--bench" => {}
            _ => return Err(format!("{word} is not known here")),
        }
    }
    Ok(request)
}

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    let request = match request() {
        Ok(request) => request,
        Err(reason) => return writeln!(out, "{reason}"),
    };
    for noise in &request.noises {
        run(&mut out, &request, *noise)?;
    }
    Ok(())
}

fn run(out: &mut impl Write, request: &Request, noise: f64) -> io::Result<()> {
    let school = &request.school;
    let classes = classes::classes(school, noise, request.classes, request.seed);
    let sheets: usize = classes.iter().map(|class| class.sheets.len()).sum();
    writeln!(
        out,
        "\n=== school “{}”, noise {noise}, seed {}: {} classes, {sheets} sheets ===",
        school.name, request.seed, request.classes
    )?;
    let mut all = Vec::new();
    for judge in &request.judges {
        let start = Instant::now();
        let said = judge.judge_all(school, &classes);
        let took = start.elapsed();
        let scores = THRESHOLDS.map(|threshold| judges::score(&classes, &said, threshold));
        print_summary(out, *judge, &scores)?;
        writeln!(out, "  {:.1} s on all cores", took.as_secs_f64())?;
        if request.wrong_of == Some(*judge) {
            print_wrong(out, &classes, &said, request.of)?;
        }
        all.push((*judge, scores));
    }
    if request.shown_wrong {
        print_shown_wrong(out, &classes)?;
    }
    print_causes(out, &all)?;
    for (judge, scores) in &all {
        writeln!(
            out,
            "{}: what was said, and how often it was so",
            judge.name()
        )?;
        write!(out, "{}", scores[0].reliability())?;
    }
    print_bars(out, &all, &classes)
}

fn print_summary(out: &mut impl Write, judge: Judge, scores: &[Score]) -> io::Result<()> {
    for (score, threshold) in scores.iter().zip(THRESHOLDS) {
        let (slips, faults) = (score.total(Kind::Slip), score.total(Kind::Apparatus));
        writeln!(
            out,
            "{} at {threshold}: precision {:.4} recall {:.4}  calibration error {:.4}  clean accused {} of {} ({:.2} %)  faults: precision {:.3} recall {:.3}",
            judge.name(),
            slips.precision(),
            slips.recall(),
            score.calibration_error(),
            score.accused,
            score.clean,
            100.0 * score.accused_share(),
            faults.precision(),
            faults.recall(),
        )?;
    }
    Ok(())
}

fn print_causes(out: &mut impl Write, all: &[(Judge, [Score; 2])]) -> io::Result<()> {
    write!(out, "{:27}", "right/false/missed at 0.5")?;
    for (judge, _) in all {
        write!(out, "{:>34}", judge.name())?;
    }
    writeln!(out)?;
    for cause in Cause::ALL {
        write!(out, "{:27}", cause.code())?;
        for (_, scores) in all {
            let counts = scores[0].of(cause);
            write!(
                out,
                "{:>12}/{:3}/{:3}  {:.3} {:.3}",
                counts.right,
                counts.wrong,
                counts.missed,
                counts.precision(),
                counts.recall()
            )?;
        }
        writeln!(out)?;
    }
    Ok(())
}

fn print_bars(
    out: &mut impl Write,
    all: &[(Judge, [Score; 2])],
    classes: &[SimClass],
) -> io::Result<()> {
    let slips = |judge| {
        let (_, scores) = all.iter().find(|(other, _)| *other == judge)?;
        Some(scores[0].total(Kind::Slip))
    };
    let mut bar = |name: &str, found: f64, holds: bool| {
        let verdict = if holds { "pass" } else { "FAIL" };
        writeln!(out, "  {verdict}  {name}: {found:.4}")
    };
    let shown = score::shown_in_all(classes);
    let (right, told) = (shown.precision(), shown.recall());
    bar("shown slips, precision ≥ 0.999", right, right >= 0.999)?;
    bar("shown slips, recall ≥ 0.99", told, told >= 0.99)?;
    for judge in [Judge::Alone, Judge::ScatterOnly] {
        if let (Some(counts), Some(limit)) = (slips(judge), slips(Judge::Optimal)) {
            let precision = counts.precision() - limit.precision();
            let recall = counts.recall() - limit.recall();
            let of = format!("{}, less the optimal’s", judge.name());
            bar(
                &format!("precision of {of} ≥ −0.02"),
                precision,
                precision >= -0.02,
            )?;
            bar(&format!("recall of {of} ≥ −0.02"), recall, recall >= -0.02)?;
        }
    }
    if let (Some(class), Some(limit)) = (slips(Judge::WithClass), slips(Judge::Optimal)) {
        let gain = class.precision() + class.recall() - limit.precision() - limit.recall();
        bar(
            "with class, precision + recall − optimal’s > 0",
            gain,
            gain > 0.0,
        )?;
    }
    for (judge, scores) in all {
        let (accused, error) = (scores[0].accused_share(), scores[0].calibration_error());
        let name = judge.name();
        bar(
            &format!("{name}, clean accused ≤ 0.01"),
            accused,
            accused <= 0.01,
        )?;
        bar(
            &format!("{name}, calibration error ≤ 0.03"),
            error,
            error <= 0.03,
        )?;
    }
    Ok(())
}

/// The sheets of which something false was told, or something missed.
fn print_wrong(
    out: &mut impl Write,
    classes: &[SimClass],
    said: &[Vec<Vec<Told>>],
    of: Option<Cause>,
) -> io::Result<()> {
    for (number, (class, said)) in classes.iter().zip(said).enumerate() {
        for (at, (sheet, told)) in class.sheets.iter().zip(said).enumerate() {
            let truth = score::slips(&sheet.truth);
            let loud = || {
                let slips = told.iter().filter(|t| t.event.0.kind() == Kind::Slip);
                slips.filter(|t| t.probability >= THRESHOLDS[0])
            };
            let all_right = loud().all(|told| told.is_right(&truth));
            let all_told = truth
                .iter()
                .all(|event| loud().any(|told| told.names(event)));
            let events = truth.iter().copied().chain(loud().map(|t| t.event));
            let concerned = of.is_none_or(|of| events.map(|e| e.0).any(|cause| cause == of));
            if concerned && !(all_right && all_told) {
                writeln!(out, "--- class {number}, sheet {at}, {}", sheet.kit)?;
                print_sheet(out, sheet, told)?;
            }
        }
    }
    Ok(())
}

/// The sheets whose working was judged wrong.
fn print_shown_wrong(out: &mut impl Write, classes: &[SimClass]) -> io::Result<()> {
    for sheet in classes.iter().flat_map(|class| &class.sheets) {
        let counts = score::shown(sheet);
        if counts.wrong + counts.missed > 0 {
            writeln!(out, "--- turn taken: {:?}", sheet.wrong_turn)?;
            for flag in assess(&sheet.sheet).flags {
                if flag.slip.kind() == Kind::Slip {
                    writeln!(out, "shown: {flag:?}")?;
                }
            }
            writeln!(out, "{:?}", sheet.typed)?;
        }
    }
    Ok(())
}

fn print_sheet(out: &mut impl Write, sheet: &SimSheet, told: &[Told]) -> io::Result<()> {
    let row = |row: Option<usize>| row.map_or(String::new(), |at| format!(" in row {}", at + 1));
    let event = |(cause, at): &Event| format!("{}{}", cause.code(), row(*at));
    let truth: Vec<_> = sheet.truth.iter().map(event).collect();
    writeln!(out, "happened: {}", truth.join(", "))?;
    for told in told {
        let tie = told
            .tied_with
            .iter()
            .map(|other| format!(" or {}", event(other)));
        let tie: String = tie.collect();
        writeln!(
            out,
            "told: {:.3} {}{tie}",
            told.probability,
            event(&told.event)
        )?;
    }
    let readings = |cells: &analysis::sheet::Cells| {
        let readings = cells
            .iter()
            .filter(|(field, _)| field.role() == Role::Reading);
        let one = |(field, cell): (&Field, &analysis::sheet::Cell)| {
            format!("{} {}{}", field.name(), cell.text, cell.unit)
        };
        readings.map(one).collect::<Vec<_>>().join("  ")
    };
    writeln!(out, "  {}", readings(&sheet.typed.whole))?;
    for row in &sheet.typed.rows {
        writeln!(out, "  {}: {}", row.label, readings(&row.cells))?;
    }
    Ok(())
}
