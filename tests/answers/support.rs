//! Running the program and the library.

use std::process::{Command, Output};

use serde_json::Value;
use slatwright::brief::Brief;
use slatwright::check::{Assessment, check};
use slatwright::platform::Platform;
use slatwright::tables::Tables;

pub(crate) fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_slatwright")).args(arguments).output().expect("the program runs")
}

pub(crate) fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("UTF-8")
}

pub(crate) fn json(arguments: &[&str]) -> Value {
    let output = run(&[arguments, &["--format", "json"]].concat());
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {output:?}"))
}

/// A brief in a file that lasts as long as the test.
pub(crate) fn file(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("brief.toml");
    std::fs::write(&path, text).expect("a file");
    let name = path.to_str().expect("a name").to_owned();
    (folder, name)
}

pub(crate) fn built(text: &str) -> Option<Platform> {
    Platform::build(&Brief::read(text), Tables::embedded()).ok()
}

/// What the check says of a brief; `None` when it cannot be built.
pub(crate) fn checked(text: &str) -> Option<Assessment> {
    built(text).map(|p| check(&p).expect("a platform that can be built can be analysed"))
}
