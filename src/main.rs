//! The command-line program: parses, dispatches, and exits with a status.

use std::io::{self, Write};
use std::process::ExitCode;

use clap::Parser;
use slatwright::cli::{self, Arguments};

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    ExitCode::from(cli::run(arguments, &mut *standard_output(), &mut io::stderr().lock()))
}

/// Standard output as a plain file: `io::stdout` takes a stream that cannot be written for one that
/// swallows everything, and a report would be lost without a word.
fn standard_output() -> Box<dyn Write> {
    #[cfg(unix)]
    {
        use std::os::fd::AsFd;
        if let Ok(descriptor) = io::stdout().as_fd().try_clone_to_owned() {
            return Box::new(std::fs::File::from(descriptor));
        }
    }
    Box::new(io::stdout())
}
