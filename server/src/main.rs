//! The command line.

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;
use server::config::{Command, CommandLine, Config};
use server::files::command::run;
use server::serve::serve;
use tracing_subscriber::EnvFilter;

fn main() -> ExitCode {
    let filter =
        EnvFilter::try_from_default_env().unwrap_or_else(|_| EnvFilter::new("info,sqlx=warn"));
    tracing_subscriber::fmt()
        .with_env_filter(filter)
        .with_writer(std::io::stderr)
        .init();
    let line = CommandLine::parse();
    match line.command {
        Some(Command::Assess(args)) => run(&args),
        Some(Command::Serve(config)) => serve_until_stopped(config),
        None => serve_until_stopped(line.serve),
    }
}

#[tokio::main]
async fn serve_until_stopped(config: Config) -> ExitCode {
    match serve(config).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "crestcount: {error}");
            ExitCode::FAILURE
        }
    }
}
