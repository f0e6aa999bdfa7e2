//! `crestcount assess`.

use std::fmt::Display;
use std::fs::{self, File};
use std::io::{self, BufWriter, Read, Write as _};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Args;

use super::assess::{AssessError, Report, assess};
use super::fault::ReadError;
use super::output::Output;

/// The path that means a standard stream.
const STANDARD: &str = "-";

/// The exit code for readings that say something that cannot be.
const BAD_READINGS: u8 = 2;

/// Recompute a file of readings without a server.
#[derive(Clone, Debug, Args)]
pub struct AssessArgs {
    /// The readings, as CSV; `-` for standard input.
    pub readings: PathBuf,
    /// Where the flags go, one line each; `-` for standard output.
    #[arg(long, value_name = "FLAGS.csv")]
    pub flags: PathBuf,
    /// Where the groups go, one line a sheet; `-` for standard output.
    #[arg(long, value_name = "GROUPS.csv")]
    pub groups: PathBuf,
    /// Cores to use; 0 for all of them.
    #[arg(long, default_value_t = 0, value_name = "N")]
    pub threads: usize,
}

/// Runs the command; what it has to say goes to standard error. The exit code
/// is 2 for readings that cannot be read, 1 for anything else that fails.
#[must_use]
pub fn run(args: &AssessArgs) -> ExitCode {
    let (said, code) = match assess_files(args) {
        Ok(report) => (sentences(&report), ExitCode::SUCCESS),
        Err(Failure { message, code }) => (vec![message], ExitCode::from(code)),
    };
    let mut to = io::stderr().lock();
    for sentence in said {
        // Nobody is left to tell when standard error is gone.
        let _ = writeln!(to, "{sentence}");
    }
    code
}

struct Failure {
    message: String,
    code: u8,
}

impl Failure {
    fn of_readings(path: &Path, error: &dyn Display) -> Self {
        Self::of(path, "standard input", error)
    }

    fn of_results(path: &Path, error: &dyn Display) -> Self {
        Self::of(path, "standard output", error)
    }

    fn of(path: &Path, standard: &str, error: &dyn Display) -> Self {
        let name = if path == Path::new(STANDARD) {
            standard.to_owned()
        } else {
            path.display().to_string()
        };
        let message = format!("{name}: {error}");
        Self { message, code: 1 }
    }
}

fn assess_files(args: &AssessArgs) -> Result<Report, Failure> {
    apart(args)?;
    let readings = open(&args.readings).map_err(|e| Failure::of_readings(&args.readings, &e))?;
    let mut flags = Output::to(&args.flags).map_err(|e| Failure::of_results(&args.flags, &e))?;
    let mut groups = Output::to(&args.groups).map_err(|e| Failure::of_results(&args.groups, &e))?;
    let (flags_to, groups_to) = (BufWriter::new(flags.file()), BufWriter::new(groups.file()));
    let report = assess(readings, flags_to, groups_to, args.threads).map_err(|error| {
        let mut failure = Failure::of_readings(&args.readings, &error);
        if matches!(error, AssessError::Read(ReadError::Fault(_))) {
            failure.code = BAD_READINGS;
        }
        failure
    })?;
    // Both are safe on the disk before either takes its place.
    flags
        .sync()
        .map_err(|e| Failure::of_results(&args.flags, &e))?;
    groups
        .sync()
        .map_err(|e| Failure::of_results(&args.groups, &e))?;
    flags
        .keep()
        .map_err(|e| Failure::of_results(&args.flags, &e))?;
    groups
        .keep()
        .map_err(|e| Failure::of_results(&args.groups, &e))?;
    Ok(report)
}

/// Two results in one place would mix, and a result in the place of the
/// readings would lose them.
fn apart(args: &AssessArgs) -> Result<(), Failure> {
    let same = |one: &Path, other: &Path| {
        let ordinary = |path: &Path| fs::metadata(path).is_ok_and(|there| there.is_file());
        let both_files = |path: &Path| ordinary(path) || !path.exists();
        one == other || both_files(one) && both_files(other) && place(one) == place(other)
    };
    let over = |path: &Path| path != Path::new(STANDARD) && same(path, &args.readings);
    let problem = if same(&args.flags, &args.groups) && args.flags != Path::new("/dev/null") {
        "flags and groups cannot go to the same place."
    } else if over(&args.flags) || over(&args.groups) {
        "the results would be written over the readings."
    } else {
        return Ok(());
    };
    Err(Failure::of_results(&args.flags, &problem))
}

/// Where a path leads, as far as that can be told before the file is there:
/// `out.csv` and `./out.csv` are one place.
fn place(path: &Path) -> PathBuf {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    fs::canonicalize(path)
        .or_else(|_| {
            Ok::<_, io::Error>(fs::canonicalize(folder)?.join(path.file_name().unwrap_or_default()))
        })
        .unwrap_or_else(|_| path.to_owned())
}

fn open(path: &Path) -> io::Result<Box<dyn Read + Send>> {
    Ok(if path == Path::new(STANDARD) {
        Box::new(io::stdin())
    } else {
        Box::new(File::open(path)?)
    })
}

fn sentences(report: &Report) -> Vec<String> {
    let mut sentences = vec![format!(
        "Classes: {}. Sheets: {}. Flags: {}.",
        report.classes, report.sheets, report.flags
    )];
    let assumed = report.assumed.sentences();
    sentences.extend(assumed.iter().map(|what| format!("Assumed: {what}")));
    sentences
}
