//! The command line: what is typed, what is printed, and the exit status.
//!
//! Exit status: 0 every check passes, 1 at least one fails, 2 it could not be computed.

mod ask;
mod check;
mod file;
mod input;
mod proof;
mod rate;
mod sheet;
mod size;
mod span;
mod timber;
mod watch;

use std::io::Write;
use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use crate::brief::RuleFamily;
use crate::quantity::UnitSystem;

/// Exit status when everything passes.
pub const PASSES: u8 = 0;
/// Exit status when at least one check fails.
pub const FAILS: u8 = 1;
/// Exit status when nothing could be computed.
pub const NOT_COMPUTED: u8 = 2;

/// Checks the slats, cleats, rails and joints of a sleeping platform before they are cut.
#[derive(Debug, Parser)]
#[command(name = "slatwright", version, max_term_width = 80, disable_help_subcommand = true)]
pub struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Check a platform described in a brief, member by member
    #[command(after_help = "Exit status: 0 every check passes, 1 at least one fails, 2 it could not be computed.")]
    Check(CheckArguments),
    /// Say how heavy the sleepers may be: by case, by place, and if something is worse than drawn
    Rate(rate::RateArguments),
    /// Say how wide a platform may be, or how far plain stock may span
    Span(span::SpanArguments),
    /// Say how to try a platform before its first use: weights, places, and how far it should dip
    Proof(proof::ProofArguments),
    /// Say what slats, rails or cleat screws are enough: the thinnest, and those that take least
    Size(size::SizeArguments),
    /// Write the sheet that is handed over: for the client, the workshop and the engineer
    #[command(after_help = "Exit status: as for check. The file's ending says what is written: .html, .pdf or .md.")]
    Sheet(SheetArguments),
    /// List, search and show woods, stock sizes, screws, people and mattresses
    Timber(TimberArguments),
    /// Print a brief to start from
    Begin,
}

#[derive(Debug, clap::Args)]
struct CheckArguments {
    /// The brief, a TOML file; - reads standard input
    #[arg(required_unless_present = "schema")]
    brief: Option<PathBuf>,
    /// How to print the report
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Rules to check by, whatever the brief says
    #[arg(long, value_enum)]
    rules: Option<Families>,
    /// Units to print in, whatever the brief says
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// A row for every member, not only the governing one of each kind
    #[arg(long)]
    every: bool,
    /// Print the calculation, step by step with its clauses
    #[arg(long)]
    steps: bool,
    /// A file with your own table rows
    #[arg(long, value_name = "FILE")]
    tables: Option<PathBuf>,
    /// Print the JSON Schema of the JSON report and stop
    #[arg(long)]
    schema: bool,
    /// Check again whenever the brief is saved, and say what changed; Ctrl-C ends it
    #[arg(long, conflicts_with = "schema")]
    watch: bool,
}

#[derive(Debug, clap::Args)]
struct SheetArguments {
    /// The brief, a TOML file; - reads standard input
    brief: PathBuf,
    /// The file to write
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Replace the file if it exists
    #[arg(long)]
    force: bool,
    /// A file with your own table rows
    #[arg(long, value_name = "FILE")]
    tables: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
struct TimberArguments {
    /// Words to look for, such as `spruce no2`, `poplar`, `2x4`, `#10` or `queen`
    words: Vec<String>,
    /// A file with your own table rows
    #[arg(long, value_name = "FILE")]
    tables: Option<PathBuf>,
    /// Units to print in
    #[arg(long, value_enum, default_value_t = Units::Us)]
    units: Units,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Format {
    Text,
    Json,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Rules {
    /// US allowable stress design
    Asd,
    /// EN 1995-1-1
    Ec5,
}

/// One family of rules, or both side by side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Families {
    /// US allowable stress design
    Asd,
    /// EN 1995-1-1
    Ec5,
    /// The two side by side; a wood may have a name in each
    Both,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Units {
    Us,
    Metric,
}

impl From<Rules> for RuleFamily {
    fn from(r: Rules) -> Self {
        match r {
            Rules::Asd => RuleFamily::AllowableStress,
            Rules::Ec5 => RuleFamily::LimitState,
        }
    }
}

impl From<Units> for UnitSystem {
    fn from(u: Units) -> Self {
        match u {
            Units::Us => UnitSystem::Us,
            Units::Metric => UnitSystem::Metric,
        }
    }
}

/// The brief that `begin` prints.
const STARTER: &str = include_str!("starter.toml");

/// Runs the program on its arguments, writing to the two streams, and returns the exit status.
pub fn run(arguments: Arguments, out: &mut dyn Write, err: &mut dyn Write) -> u8 {
    let mut streams = Streams { out, err };
    match arguments.command {
        Command::Check(a) if a.watch => watch::run(&a, &mut streams),
        Command::Check(a) => check::run(&a, &mut streams),
        Command::Rate(a) => rate::run(&a, &mut streams),
        Command::Span(a) => span::run(&a, &mut streams),
        Command::Proof(a) => proof::run(&a, &mut streams),
        Command::Size(a) => size::run(&a, &mut streams),
        Command::Sheet(a) => sheet::run(&a, &mut streams),
        Command::Timber(a) => timber::run(&a, &mut streams),
        Command::Begin => streams.print(STARTER, PASSES),
    }
}

/// Where a command writes.
struct Streams<'a> {
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
}

impl Streams<'_> {
    /// Prints a result. A reader who stops reading, such as a pager, is no error; a full disk is.
    fn print(&mut self, text: &str, status: u8) -> u8 {
        match self.out.write_all(text.as_bytes()).and_then(|()| self.out.flush()) {
            Ok(()) => status,
            Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => status,
            Err(e) => self.fail(&format!("the report could not be written: {e}")),
        }
    }

    /// Prints a JSON Schema.
    fn schema(&mut self, schema: &schemars::Schema) -> u8 {
        let text = serde_json::to_string_pretty(schema).unwrap_or_default();
        self.print(&(text + "\n"), PASSES)
    }

    /// Says why nothing could be computed.
    fn fail(&mut self, message: &str) -> u8 {
        // If even that cannot be written there is nowhere left to say it.
        let _ = writeln!(self.err, "error: {message}");
        NOT_COMPUTED
    }

    /// Writes diagnostics that are laid out already.
    fn diagnose(&mut self, text: &str) -> u8 {
        let _ = self.err.write_all(text.as_bytes());
        NOT_COMPUTED
    }
}
