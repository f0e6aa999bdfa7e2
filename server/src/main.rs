//! The command line.

use std::process::ExitCode;

use clap::{Parser, Subcommand};
use server::files::command::{AssessArgs, run};

#[derive(Debug, Parser)]
#[command(name = "crestcount", version)]
struct CommandLine {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Recompute a file of readings without a server.
    Assess(AssessArgs),
}

fn main() -> ExitCode {
    let Command::Assess(args) = CommandLine::parse().command;
    run(&args)
}
