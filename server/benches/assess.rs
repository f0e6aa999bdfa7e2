//! `assess` on a file of many sheets: sheets a second with one thread and with
//! all cores, and the most memory that it took. Each run is a process of its
//! own, so that one's memory is not counted as another's.

use std::env;
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use server::files::assess::assess;

/// Set in a run: the file to assess.
const FILE: &str = "CRESTCOUNT_BENCH_FILE";
/// Set in a run: the threads to use, 0 for all.
const THREADS: &str = "CRESTCOUNT_BENCH_THREADS";

const SHEETS_A_CLASS: usize = 8;

fn main() -> io::Result<()> {
    if let (Ok(file), Ok(threads)) = (env::var(FILE), env::var(THREADS)) {
        return run(Path::new(&file), threads.parse().unwrap_or(0));
    }
    let folder = tempfile::tempdir()?;
    for (sheets, threads) in [(20_000, 1), (20_000, 0), (2_000, 1), (2_000, 0)] {
        let file = folder.path().join(format!("{sheets}.csv"));
        if !file.exists() {
            write_file(&file, sheets)?;
        }
        let child = Command::new(env::current_exe()?)
            .env(FILE, &file)
            .env(THREADS, threads.to_string())
            .status()?;
        if !child.success() {
            return Err(io::Error::other("a run failed"));
        }
    }
    Ok(())
}

fn run(file: &Path, threads: usize) -> io::Result<()> {
    let folder = tempfile::tempdir()?;
    let result = |name| File::create(folder.path().join(name)).map(BufWriter::new);
    let (flags, groups) = (result("flags.csv")?, result("groups.csv")?);
    let start = Instant::now();
    let report = assess(File::open(file)?, flags, groups, threads).map_err(io::Error::other)?;
    let seconds = start.elapsed().as_secs_f64();
    let cores = match threads {
        0 => format!("{} threads", std::thread::available_parallelism()?),
        _ => format!("{threads} thread"),
    };
    writeln!(
        io::stdout(),
        "{} sheets ({} MB, {} flags), {cores}: {:.2} s, {:.0} sheets a second, at most {} of memory",
        report.sheets,
        fs::metadata(file)?.len() / 1_000_000,
        report.flags,
        seconds,
        report.sheets as f64 / seconds,
        peak_memory(),
    )
}

/// The most memory that this process has held, as Linux tells it.
fn peak_memory() -> String {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.map_or("(not known)", str::trim).to_owned()
}

/// Ripple-tank sheets of six rows with every working; every third has a slip
/// on all its rows, and every seventh one on a single row.
fn write_file(path: &Path, sheets: usize) -> io::Result<()> {
    let mut out = BufWriter::new(File::create(path)?);
    writeln!(
        out,
        "class,group,method,kit,row,dial,dial_times,first_crest,last_crest,span,span_unit,\
         scale_image,scale_image_unit,scale_true,scale_true_unit,magnification,frequency,\
         wavelength,wavelength_unit,reciprocal,reciprocal_unit,speed,speed_unit,mean_speed,mean_speed_unit"
    )?;
    for sheet in 0..sheets {
        write_sheet(&mut out, sheet)?;
    }
    out.flush()
}

fn write_sheet(out: &mut impl Write, sheet: usize) -> io::Result<()> {
    const READINGS: [(f64, f64); 6] = [
        (1.0, 38.9),
        (1.5, 26.6),
        (2.0, 20.8),
        (2.5, 17.2),
        (3.0, 15.1),
        (3.5, 13.5),
    ];
    // A per cent or two of scatter, the same at every run.
    let scatter = |row: usize| 1.0 + 0.001 * ((sheet * 31 + row * 17) % 21) as f64;
    let mut lines = Vec::new();
    let mut speeds = 0.0;
    for (row, (dial, span)) in READINGS.into_iter().enumerate() {
        let span = (span * scatter(row) * 10.0).round() / 10.0;
        let slip = sheet.is_multiple_of(3) || sheet.is_multiple_of(7) && row == 2;
        let wavelength = span / 10.0 / if slip { 1.0 } else { 1.75 };
        let (f, speed) = (dial * 10.0, dial * 10.0 * wavelength / 100.0);
        speeds += speed;
        lines.push(format!(
            "{},{dial},10,0,10,{span:.1},cm,17.5,cm,10.0,cm,1.75,{f:.0},{wavelength:.2},cm,{:.1},1/m,{speed:.3},m/s",
            row + 1,
            100.0 / wavelength,
        ));
    }
    let (class, group) = (sheet / SHEETS_A_CLASS, sheet % SHEETS_A_CLASS + 1);
    for line in lines {
        let mean = speeds / 6.0;
        writeln!(
            out,
            "C{class},G{group},ripple-tank,T{},{line},{mean:.3},m/s",
            group % 4
        )?;
    }
    Ok(())
}
