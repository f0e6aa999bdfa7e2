//! What the command line and the environment say, typed and checked.

use std::net::IpAddr;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};
use jiff::tz::TimeZone;

use crate::clock::Zone;
use crate::files::command::AssessArgs;
use crate::words::Say;

/// The whole command line.
#[derive(Debug, Parser)]
#[command(
    name = "crestcount",
    version,
    about = "Class-set marking for the speed-of-waves practical"
)]
pub struct CommandLine {
    /// What to do; serves when nothing is said.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Settings of `serve`, so that it need not be named.
    #[command(flatten)]
    pub serve: Config,
}

/// What the program can do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Serve the pages (the default).
    Serve(Config),
    /// Recompute a file of readings without a server.
    Assess(AssessArgs),
}

/// How to serve.
#[derive(Clone, Debug, Args)]
pub struct Config {
    /// Address to listen on: `0.0.0.0` for the school's network.
    #[arg(long, env = "CRESTCOUNT_ADDRESS", default_value = "127.0.0.1")]
    pub address: IpAddr,
    /// Port to listen on; 0 takes any free one.
    #[arg(long, env = "CRESTCOUNT_PORT", default_value_t = 8017)]
    pub port: u16,
    /// The data file, made at the first start.
    #[arg(long, env = "CRESTCOUNT_DATA", default_value = "crestcount.db")]
    pub data: PathBuf,
    /// The school's time zone, by its IANA name.
    #[arg(long, env = "CRESTCOUNT_ZONE", default_value = "Europe/London", value_parser = zone)]
    pub zone: Zone,
    /// Address that pupils type, without a last slash: `http://192.168.1.20:8017`.
    /// Without it, hand-outs show the address in the teacher's own browser.
    #[arg(long, env = "CRESTCOUNT_PUPILS_ADDRESS", value_parser = pupils_address)]
    pub pupils_address: Option<String>,
    /// The language of pupils' pages, by its tag.
    #[arg(long, env = "CRESTCOUNT_LANGUAGE", default_value = "en-GB", value_parser = language)]
    pub language: Say,
}

fn zone(name: &str) -> Result<Zone, String> {
    TimeZone::get(name)
        .map(Zone)
        .map_err(|_| format!("there is no time zone {name:?}"))
}

fn language(tag: &str) -> Result<Say, String> {
    Say::of(tag).ok_or_else(|| format!("there is no catalogue for {tag:?}"))
}

fn pupils_address(text: &str) -> Result<String, String> {
    let plain = text.trim_end_matches('/');
    if plain.starts_with("http://") || plain.starts_with("https://") {
        Ok(plain.to_owned())
    } else {
        Err("the address must start with http:// or https://".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn serve_is_the_default_and_may_be_named() {
        let plain = CommandLine::try_parse_from(["crestcount", "--port", "9000"]).unwrap();
        assert_eq!(plain.serve.port, 9000);
        let named = CommandLine::try_parse_from(["crestcount", "serve", "--port", "9001"]).unwrap();
        assert!(
            matches!(named.command, Some(Command::Serve(c)) if c.port == 9001),
            "the port is read"
        );
    }

    #[test]
    fn zones_and_addresses_that_make_no_sense_are_refused() {
        for wrong in [
            ["--zone", "Mars/Olympus"],
            ["--pupils-address", "lab"],
            ["--port", "70000"],
            ["--language", "tlh"],
        ] {
            let line = ["crestcount"].into_iter().chain(wrong);
            assert!(CommandLine::try_parse_from(line).is_err(), "{wrong:?}");
        }
    }
}
