//! A department to look at: makes a data file with a year and a term of
//! invented lessons, and serves it.
//!
//! Everything goes in through the server's acts, as if pupils and teachers had
//! typed it. The same date gives the same sheets; codes, tokens
//! and salts are as random as ever.

mod department;
mod diary;
mod evening;
mod group;
mod kit;
mod lesson;
mod marker;
mod moderation;
mod pile;
mod register;
mod school;
mod term;
#[cfg(test)]
mod tests;
mod words;
mod year;

use std::io::Write as _;
use std::net::{IpAddr, SocketAddr};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::Parser;
use jiff::tz::TimeZone;
use server::clock::Zone;
use server::config::Config;
use server::db::class_set::ClassSet;
use server::serve::{DataFile, serve_file};
use server::words::Say;

use department::{COME_BACK, Contents, NAME, PASSWORD};

#[derive(Debug, Parser)]
#[command(about = "Makes a data file with an invented department, and serves it")]
struct CommandLine {
    /// The demo's data file. One that is there already is served as it is.
    #[arg(long, default_value = "crestcount-demo.db")]
    data: PathBuf,
    /// Make the demo anew, with today's dates. Only a demo is ever replaced.
    #[arg(long)]
    fresh: bool,
    /// Make the data file, print how to sign in, and stop.
    #[arg(long)]
    make_only: bool,
    /// Address to listen on.
    #[arg(long, default_value = "127.0.0.1")]
    address: IpAddr,
    /// Port to listen on; 0 takes any free one.
    #[arg(long, default_value_t = 8017)]
    port: u16,
}

#[tokio::main]
async fn main() -> ExitCode {
    match run(CommandLine::parse()).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "seed-demo: {error}");
            ExitCode::FAILURE
        }
    }
}

async fn run(line: CommandLine) -> Result<(), Box<dyn std::error::Error>> {
    let zone = Zone(TimeZone::get("Europe/London")?);
    if line.fresh {
        department::discard(&line.data).await?;
    }
    let file = DataFile::open(&line.data).await?;
    match department::contents(&file.store).await? {
        Contents::Nothing => department::fill(&file.store, &zone).await?,
        Contents::Demo => {}
        Contents::Other => return Err(department::foreign(&line.data)),
    }
    let open = department::find_open(&file.store).await?;
    if line.make_only {
        announce(None, open.as_ref())?;
        return file.close().await;
    }
    let config = Config {
        address: line.address,
        port: line.port,
        data: line.data,
        zone,
        pupils_address: None,
        language: Say::english(),
    };
    serve_file(file, config, |address| {
        announce(Some(address), open.as_ref())
    })
    .await
}

fn announce(address: Option<SocketAddr>, open: Option<&ClassSet>) -> std::io::Result<()> {
    let mut out = std::io::stdout().lock();
    if let Some(address) = address {
        writeln!(out, "The demo is at   http://{address}/")?;
    }
    writeln!(out, "Staff sign in as {NAME}, password: {PASSWORD}")?;
    match open {
        Some(set) => {
            writeln!(
                out,
                "Lesson code      {} ({}, still open)",
                set.join_code, set.class_name
            )?;
            writeln!(
                out,
                "Come-back number {COME_BACK} for every bench that is taken already"
            )?;
        }
        None => writeln!(
            out,
            "Every class set is closed: open one, or start with --fresh."
        )?,
    }
    if address.is_some() {
        writeln!(out, "Stop it with Ctrl+C.")?;
    }
    out.flush()
}
