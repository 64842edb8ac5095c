//! The command-line program: parses, dispatches, and exits with a status.

use std::process::ExitCode;

use clap::Parser;
use slatwright::cli::{self, Arguments};

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    ExitCode::from(cli::run(arguments, &mut std::io::stdout().lock(), &mut std::io::stderr().lock()))
}
