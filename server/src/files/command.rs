//! `crestcount assess`.

use std::fmt::Display;
use std::fs::{self, File};
use std::io::{self, BufWriter, Read, Seek as _, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Args;
use tempfile::tempfile;

use super::assess::{AssessError, Report, assess};
use super::fault::ReadError;
use crate::words::file;

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
    fn of_readings(args: &AssessArgs, error: impl Display) -> Self {
        Self::of(&args.readings, "standard input", error)
    }

    fn of_results(path: &Path, error: impl Display) -> Self {
        Self::of(path, "standard output", error)
    }

    fn of(path: &Path, standard: &str, error: impl Display) -> Self {
        let message = match is_standard(path) {
            true => format!("{standard}: {error}"),
            false => format!("{}: {error}", path.display()),
        };
        Self { message, code: 1 }
    }
}

/// Writes the results to temporary files first, so that readings with a fault
/// on their last line leave everything as it was.
fn assess_files(args: &AssessArgs) -> Result<Report, Failure> {
    let readings = open(&args.readings).map_err(|e| Failure::of_readings(args, e))?;
    apart(args)?;
    let temporary = |path| tempfile().map_err(|e| Failure::of_results(path, e));
    let (flags, groups) = (temporary(&args.flags)?, temporary(&args.groups)?);
    let (flags_to, groups_to) = (BufWriter::new(&flags), BufWriter::new(&groups));
    let report = assess(readings, flags_to, groups_to, args.threads).map_err(|error| {
        let is_fault = matches!(error, AssessError::Read(ReadError::Fault(_)));
        let failure = Failure::of_readings(args, error);
        let code = if is_fault { BAD_READINGS } else { failure.code };
        Failure { code, ..failure }
    })?;
    for (file, path) in [(flags, &args.flags), (groups, &args.groups)] {
        keep(file, path).map_err(|e| Failure::of_results(path, e))?;
    }
    Ok(report)
}

/// Two results in one place would mix, and a result in the place of the
/// readings would lose them.
fn apart(args: &AssessArgs) -> Result<(), Failure> {
    let place = |path| place(path).map_err(|e| Failure::of_results(path, e));
    let (flags, groups) = (place(&args.flags)?, place(&args.groups)?);
    let readings = place(&args.readings)?;
    let over = |to: &Path| to == readings && !is_standard(to);
    let problem = if flags == groups && flags != Path::new("/dev/null") {
        file::SAME_PLACE
    } else if over(&flags) || over(&groups) {
        file::OVER_READINGS
    } else {
        return Ok(());
    };
    Err(Failure::of_results(&args.flags, problem))
}

fn is_standard(path: &Path) -> bool {
    path == Path::new(STANDARD)
}

/// Returns where a path leads: `out.csv` and `./out.csv` are one place. The
/// file need not be there, its folder must.
fn place(path: &Path) -> io::Result<PathBuf> {
    if is_standard(path) {
        return Ok(path.to_owned());
    }
    let path = Path::new(".").join(path);
    fs::canonicalize(&path).or_else(|_| {
        let folder = path.parent().unwrap_or(&path);
        Ok(fs::canonicalize(folder)?.join(path.file_name().unwrap_or_default()))
    })
}

fn open(path: &Path) -> io::Result<Box<dyn Read + Send>> {
    Ok(match is_standard(path) {
        true => Box::new(io::stdin()),
        false => Box::new(File::open(path)?),
    })
}

fn keep(mut file: File, path: &Path) -> io::Result<()> {
    let mut to: Box<dyn Write> = match is_standard(path) {
        true => Box::new(io::stdout()),
        false => Box::new(File::create(path)?),
    };
    file.rewind()?;
    io::copy(&mut file, &mut to)?;
    to.flush()
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
