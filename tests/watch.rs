//! `check --watch` as it is run: a real process whose brief this test rewrites.

use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

const BRIEF: &str = include_str!("../demo/two.toml");

/// A watched brief. The process ends with it.
struct Watched {
    folder: tempfile::TempDir,
    process: Child,
    said: Receiver<String>,
}

impl Drop for Watched {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// Hands over everything up to each line that says it waits.
fn blocks(out: ChildStdout) -> Receiver<String> {
    let (send, receive) = channel();
    std::thread::spawn(move || {
        let mut block = String::new();
        for line in BufReader::new(out).lines().map_while(Result::ok) {
            if line.starts_with("Waiting for") {
                let _ = send.send(std::mem::take(&mut block));
            } else {
                block += &line;
                block.push('\n');
            }
        }
    });
    receive
}

impl Watched {
    fn new(brief: &str) -> Watched {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("bed.toml"), brief).expect("a file");
        let mut process = Command::new(env!("CARGO_BIN_EXE_slatwright"))
            .args(["check", "bed.toml", "--watch"])
            .current_dir(folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program runs");
        let said = blocks(process.stdout.take().expect("a pipe"));
        Watched { folder, process, said }
    }

    fn path(&self) -> PathBuf {
        self.folder.path().join("bed.toml")
    }

    /// What it says next.
    #[track_caller]
    fn next(&self) -> String {
        self.said.recv_timeout(Duration::from_secs(120)).expect("it says something")
    }

    fn save(&self, brief: &str) {
        std::fs::write(self.path(), brief).expect("a file");
    }

    /// As many editors save: under another name, then renamed.
    fn save_and_rename(&self, brief: &str) {
        let other = self.folder.path().join(".bed.toml.swp");
        std::fs::write(&other, brief).expect("a file");
        std::fs::rename(other, self.path()).expect("renamed");
    }
}

fn thicker() -> String {
    let text = BRIEF.replace("thickness = \"3/4 in\"", "thickness = \"1-5/8 in\"");
    assert_ne!(text, BRIEF);
    text
}

#[test]
fn every_save_says_what_changed() {
    let w = Watched::new(BRIEF);
    let first = w.next();
    let once =
        Command::new(env!("CARGO_BIN_EXE_slatwright")).args(["check", "demo/two.toml"]).output().expect("it runs");
    assert_eq!(first.trim_end(), String::from_utf8(once.stdout).expect("UTF-8").trim_end());

    w.save_and_rename(&thicker());
    let passes = w.next();
    assert!(passes.starts_with("PASS, was FAIL.\nWeakest: "), "{passes}");
    assert!(passes.contains("was slat 2 deflection 6.72."), "{passes}");

    // A mistake is told with its place, and what it was before is not forgotten.
    w.save(&thicker().replace("length = \"80 in\"", "length = 80"));
    let mistake = w.next();
    assert!(mistake.contains("`length` needs a unit") && mistake.contains("bed.toml:9:10"), "{mistake}");
    w.save(&thicker());
    let cured = w.next();
    assert!(cured.starts_with("Still PASS. It can be read again.\nWeakest as before: "), "{cured}");
    assert!(cured.contains("No ratio moved."), "{cured}");

    w.save(BRIEF);
    let fails = w.next();
    assert!(fails.starts_with("FAIL, was PASS.\nWeakest: slat 2 deflection 6.72, was "), "{fails}");
    assert!(fails.lines().any(|l| l.starts_with("slat 2 deflection") && l.ends_with("FAIL")), "{fails}");
    for line in [passes, cured, fails].iter().flat_map(|t| t.lines()) {
        assert!(line.len() <= 80, "{line}");
    }
}

#[test]
fn a_brief_that_is_gone_is_waited_for() {
    let w = Watched::new(BRIEF);
    w.next();
    std::fs::remove_file(w.path()).expect("removed");
    assert!(w.next().starts_with("error: bed.toml cannot be read: "));
    w.save(&thicker());
    assert!(w.next().starts_with("PASS, was FAIL. It can be read again."));
    // Gone for a moment, as while an editor saves, is not gone.
    std::fs::remove_file(w.path()).expect("removed");
    w.save(BRIEF);
    assert!(w.next().starts_with("FAIL, was PASS.\n"));
}

/// Touched, or saved as it was: nothing to say.
#[test]
fn what_did_not_change_is_not_told() {
    let w = Watched::new(BRIEF);
    w.next();
    w.save(BRIEF);
    assert!(w.said.recv_timeout(Duration::from_secs(2)).is_err());
    w.save(&format!("{BRIEF}\n# a remark\n"));
    assert!(w.next().starts_with("Still FAIL.\nWeakest as before: slat 2 deflection 6.72.\nNo ratio moved."));
}

/// The signal of Ctrl-C. A shell that runs the tests in the background has them, and all that they start, ignore it:
/// then the signal that asks a program to end.
#[cfg(unix)]
fn interrupt() -> &'static str {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ignored = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    let ignored = ignored.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok()).unwrap_or(0);
    if ignored & 0b10 == 0 { "-INT" } else { "-TERM" }
}

/// Ctrl-C ends it at once.
#[cfg(unix)]
#[test]
fn an_interrupt_ends_it() {
    let mut w = Watched::new(BRIEF);
    w.next();
    let sent = Command::new("kill").args([interrupt(), &w.process.id().to_string()]).status().expect("kill runs");
    assert!(sent.success());
    let status = w.process.wait().expect("it ends");
    assert!(!status.success());
}

#[test]
fn what_cannot_be_watched_is_refused() {
    for (arguments, because) in [
        (&["check", "-", "--watch"][..], "standard input cannot be watched"),
        (&["check", "demo/two.toml", "--watch", "--format", "json"], "--watch prints text"),
        (&["check", "demo/two.toml", "--watch", "--rules", "both"], "--watch prints text"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_slatwright")).args(arguments).output().expect("it runs");
        assert_eq!(output.status.code(), Some(2));
        assert!(String::from_utf8_lossy(&output.stderr).contains(because), "{output:?}");
    }
}
