//! Runs one problem so many times, for a profiler to count: `counted PROBLEM TIMES`. Prints the median time of
//! a run in seconds, the least, and the number that the problem comes to. Without arguments, names the problems.
//!
//! What instructions one run costs is the difference of two counts: see `instructions.py`.

#[path = "problems.rs"]
mod problems;

use std::io::Write;
use std::process::ExitCode;
use std::time::Instant;

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().collect();
    if args.len() == 1 {
        return print(&format!("{}\n", problems::names().join("\n")));
    }
    let (Some(name), Some(times)) = (args.get(1), args.get(2).and_then(|n| n.parse::<usize>().ok())) else {
        return ExitCode::from(2);
    };
    let Some(mut problem) = problems::named(name) else { return ExitCode::from(2) };
    let (mut result, mut seconds) = (0.0, Vec::with_capacity(times));
    for _ in 0..times {
        let start = Instant::now();
        result = problem();
        seconds.push(start.elapsed().as_secs_f64());
    }
    seconds.sort_by(f64::total_cmp);
    let [median, least] = [times / 2, 0].map(|k| seconds.get(k).copied().unwrap_or_default());
    print(&format!("{median:e} {least:e} {result:.17e}\n"))
}

fn print(line: &str) -> ExitCode {
    if std::io::stdout().write_all(line.as_bytes()).is_err() { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}
