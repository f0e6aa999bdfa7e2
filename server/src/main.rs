//! The command line.

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;
use server::config::{Command, CommandLine};
use server::serve::serve;
use tracing_subscriber::EnvFilter;

#[tokio::main]
async fn main() -> ExitCode {
    let filter =
        EnvFilter::try_from_default_env().unwrap_or_else(|_| EnvFilter::new("info,sqlx=warn"));
    tracing_subscriber::fmt()
        .with_env_filter(filter)
        .with_writer(std::io::stderr)
        .init();
    let line = CommandLine::parse();
    let done = match line.command {
        Some(Command::Serve(config)) => serve(config).await,
        None => serve(line.serve).await,
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "crestcount: {error}");
            ExitCode::FAILURE
        }
    }
}
