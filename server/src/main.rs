//! The command line.

use std::io::Write as _;
use std::process::ExitCode;

use clap::Parser as _;
use server::config::{Command, CommandLine, Config};
use server::files::command::run;
use server::serve::serve;
use tracing_subscriber::filter::{LevelFilter, Targets};
use tracing_subscriber::fmt;
use tracing_subscriber::prelude::*;

fn main() -> ExitCode {
    tracing_subscriber::registry()
        .with(fmt::layer().with_writer(std::io::stderr))
        .with(what_is_logged())
        .init();
    let line = CommandLine::parse();
    match line.command {
        Some(Command::Assess(args)) => run(&args),
        Some(Command::Serve(config)) => serve_until_stopped(config),
        None => serve_until_stopped(line.serve),
    }
}

/// Levels by crate: those of `RUST_LOG` (`warn,server=debug`) where it can be
/// read.
fn what_is_logged() -> Targets {
    let asked = std::env::var("RUST_LOG").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or_else(|| {
        Targets::new()
            .with_default(LevelFilter::INFO)
            .with_target("sqlx", LevelFilter::WARN)
    })
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
