//! How long each problem takes, and the program itself on a demo.

#[path = "problems.rs"]
mod problems;

use divan::Bencher;
use std::process::Command;

fn main() {
    divan::main();
}

#[divan::bench(args = problems::names())]
fn problem(bencher: Bencher<'_, '_>, name: &str) {
    let mut problem = problems::named(name).unwrap_or_else(|| panic!("no problem {name}"));
    bencher.bench_local(&mut *problem);
}

/// The whole process: start, read, check, print.
#[divan::bench(sample_count = 40)]
fn process(bencher: Bencher<'_, '_>) {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/demo/two.toml");
    bencher.bench(|| Command::new(env!("CARGO_BIN_EXE_slatwright")).args(["check", demo]).output().map(|o| o.status));
}
