//! What every question about a brief is asked with, and the count of what was tried.

use std::io::IsTerminal;
use std::path::PathBuf;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::input::Known;
use super::{Format, Rules, Streams, Units, input};
use crate::brief::{Boards, Brief};
use crate::platform::Platform;
use crate::quantity::{self, AreaLoad, Length, Mass, Measured, ReadError};

/// The brief and how to read and print it.
#[derive(Debug, clap::Args)]
pub(super) struct Asked {
    /// The brief, a TOML file; - reads standard input
    #[arg(required_unless_present = "schema")]
    pub(super) brief: Option<PathBuf>,
    /// How to print the answer
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    #[command(flatten)]
    pub(super) how: How,
}

/// How to read a brief.
#[derive(Debug, clap::Args)]
pub(super) struct How {
    /// Rules to check by, whatever the brief says
    #[arg(long, value_enum)]
    rules: Option<Rules>,
    /// Units to print in, whatever the brief says
    #[arg(long, value_enum)]
    pub(super) units: Option<Units>,
    /// A file with your own table rows
    #[arg(long, value_name = "FILE")]
    tables: Option<PathBuf>,
    /// Print the JSON Schema of the JSON answer and stop
    #[arg(long)]
    pub(super) schema: bool,
}

/// Reads a length on the command line.
pub(super) fn length(text: &str) -> Result<Length, String> {
    said(quantity::length(text))
}

/// Reads a weight on the command line.
pub(super) fn mass(text: &str) -> Result<Mass, String> {
    said(quantity::mass(text))
}

/// Reads an area load on the command line.
pub(super) fn area_load(text: &str) -> Result<AreaLoad, String> {
    said(quantity::pressure(text))
}

/// Reads a part of a span on the command line.
pub(super) fn part_of_span(text: &str) -> Result<f64, String> {
    quantity::ratio_to(text).map_err(|_| "write it as L/360".to_owned())
}

fn said<Q: Measured>(read: Result<Q, ReadError>) -> Result<Q, String> {
    match read {
        Ok(q) if q.si() > 0.0 => Ok(q),
        Ok(_) => Err("it must be more than nothing".into()),
        Err(e) => Err(format!("{e}; {}", e.help())),
    }
}

/// A brief without mistakes, and its tables.
pub(super) struct Opened {
    pub(super) brief: Brief,
    pub(super) tables: Known,
    pub(super) platform: Platform,
}

impl How {
    /// Reads the tables.
    pub(super) fn tables(&self, streams: &mut Streams<'_>) -> Result<Known, u8> {
        input::tables(self.tables.as_deref(), streams)
    }

    /// Rules and units of a list of boards, whatever it says.
    pub(super) fn override_list(&self, list: &mut Boards) {
        if let Some(rules) = self.rules {
            list.rules = rules.into();
        }
        if let Some(units) = self.units {
            list.units = units.into();
        }
    }

    /// Reads a brief and builds it, or says what is wrong with it.
    pub(super) fn open(&self, path: &Option<PathBuf>, streams: &mut Streams<'_>) -> Result<Opened, u8> {
        let Some(path) = path else { return Err(streams.fail("no brief was named")) };
        let tables = self.tables(streams)?;
        let source = input::read(path, streams)?;
        let mut brief = Brief::read(&source.text);
        if let Some(rules) = self.rules {
            brief.rules.value = rules.into();
        }
        if let Some(units) = self.units {
            brief.units = units.into();
        }
        match Platform::build(&brief, &tables) {
            Ok(platform) => Ok(Opened { brief, tables, platform }),
            Err(m) => Err(input::explain(&m, &source, streams)),
        }
    }
}

/// Counts the platforms that were checked. The count is shown on a terminal only, and only when the
/// answer takes more than a second.
pub(super) struct Count {
    bar: ProgressBar,
    since: Instant,
    shown: OnceLock<()>,
    terminal: bool,
}

impl Count {
    pub(super) fn new() -> Count {
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::hidden());
        if let Ok(style) = ProgressStyle::with_template("{human_pos} platforms checked, {per_sec}") {
            bar.set_style(style);
        }
        Count { bar, since: Instant::now(), shown: OnceLock::new(), terminal: std::io::stderr().is_terminal() }
    }

    /// One more.
    pub(super) fn one(&self) {
        self.bar.inc(1);
        if self.terminal && self.since.elapsed() > Duration::from_secs(1) {
            self.shown.get_or_init(|| self.bar.set_draw_target(ProgressDrawTarget::stderr()));
        }
    }
}

impl Drop for Count {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
