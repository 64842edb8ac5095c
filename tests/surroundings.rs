//! Wherever the program runs, it ends with a status of its own and says why: no panic, no signal.
//!
//! Every brief of `tests/mistakes` and every demo, in surroundings a program may find itself in: another
//! language, no terminal, nowhere to write, little memory, little stack, and files that are none.
//!
//! A program built to abort on a panic would end by a signal where this one unwinds, so the tests are as strict
//! as one built so: nothing in the source holds a panic back or hides what it prints, which is tested, and so one
//! shows as status 101 and on standard error wherever it happens. `tests/evidence/mistakes.md` lists what is tried.
#![cfg(unix)]

use std::fs::{File, OpenOptions};
use std::os::unix::ffi::OsStrExt;
use std::os::unix::process::ExitStatusExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_slatwright"));
    command.stdin(Stdio::null()).env_remove("RUST_BACKTRACE").env_remove("RUST_LIB_BACKTRACE");
    command
}

fn toml_files(folder: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(root().join(folder)).expect("a folder");
    let mut out: Vec<PathBuf> = entries.map(|e| e.expect("a file").path()).collect();
    out.retain(|p| p.extension().is_some_and(|e| e == "toml"));
    out.sort();
    out
}

/// What every end must be like.
#[track_caller]
fn ends_well(what: &str, output: &Output) {
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.signal(), None, "{what}: {said}");
    assert!(matches!(output.status.code(), Some(0..=2)), "{what}: {:?} {said}", output.status);
    assert!(!said.contains("panicked") && !said.contains("RUST_BACKTRACE"), "{what}: {said}");
}

/// Refused, with a reason.
#[track_caller]
fn refused(what: &str, output: &Output) {
    ends_well(what, output);
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{what}: {said}");
    assert!(said.starts_with("error: "), "{what}: {said}");
    assert!(output.stdout.is_empty(), "{what} printed a report");
}

/// A panic that was caught, or whose message went elsewhere, would be missed by [`ends_well`].
#[test]
fn nothing_holds_a_panic_back() {
    let mut folders = vec![root().join("src")];
    let mut files = 0;
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("a file").path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            files += 1;
            let text = String::from_utf8_lossy(&std::fs::read(&path).expect("a file")).into_owned();
            for way in ["catch_unwind", "set_hook", "take_hook", "resume_unwind", "process::abort"] {
                assert!(!text.contains(way), "{} has {way}", path.display());
            }
        }
    }
    assert!(files > 100, "only {files} files were read");
}

/// Every mistake, with the demos; the ways of printing take turns.
#[test]
fn no_brief_brings_the_program_down() {
    let briefs = toml_files("tests/mistakes");
    assert!(briefs.len() > 240, "{} kinds of mistakes", briefs.len());
    let ways = [&["--every", "--steps"][..], &["--format", "json"], &["--rules", "ec5", "--units", "metric"], &[]];
    for (brief, more) in briefs.iter().chain(&toml_files("demo")).zip(ways.iter().cycle()) {
        let output = program().arg("check").arg(brief).args(*more).output().expect("the program runs");
        ends_well(&format!("{} {more:?}", brief.display()), &output);
    }
    for brief in briefs.iter().step_by(5) {
        let output = program().args(["timber", "oak", "--tables"]).arg(brief).output().expect("the program runs");
        ends_well(&format!("{} as tables", brief.display()), &output);
    }
}

/// Whatever the language, the terminal and the home are, a mistake reads the same.
#[test]
fn a_mistake_reads_the_same_everywhere() {
    for brief in toml_files("tests/mistakes").iter().step_by(23) {
        let check = |command: &mut Command| command.arg("check").arg(brief).output().expect("the program runs");
        let plain = check(&mut program());
        refused(&brief.display().to_string(), &plain);
        for (name, value) in [
            ("LANG", "C"),
            ("LC_ALL", "POSIX"),
            ("LC_ALL", "xx_XX.nonsense"),
            ("TERM", ""),
            ("TERM", "dumb"),
            ("COLUMNS", "0"),
            ("COLUMNS", "99999999999999999999"),
            ("CLICOLOR_FORCE", "1"),
            ("RUST_BACKTRACE", "full"),
        ] {
            let output = check(program().env(name, value));
            assert_eq!(output.stderr, plain.stderr, "{} {name}={value}", brief.display());
            assert_eq!(output.status, plain.status, "{} {name}={value}", brief.display());
        }
        let bare = check(program().env_clear());
        assert_eq!(bare.stderr, plain.stderr, "{} without an environment", brief.display());
    }
}

/// A brief may be named that is a device, a folder, a loop of links, or nothing a file can be called.
#[test]
fn what_is_no_file_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    std::os::unix::fs::symlink("loop.toml", folder.path().join("loop.toml")).expect("a link");
    std::os::unix::fs::symlink("nowhere.toml", folder.path().join("broken.toml")).expect("a link");
    let odd = std::ffi::OsStr::from_bytes(b"bed\xff.toml");
    File::create(folder.path().join(odd)).expect("a file with a name that is no text");
    let long = "x".repeat(5000);
    let mut names: Vec<&std::ffi::OsStr> =
        ["loop.toml", "broken.toml", "", ".", "..", "a\nb.toml", "\u{1b}[31m.toml", &long]
            .map(std::ffi::OsStr::new)
            .to_vec();
    names.push(odd);
    for device in ["/dev/null", "/dev/zero", "/dev/full", "/dev/urandom", "/proc/self/mem", "/dev/tty"] {
        if Path::new(device).exists() {
            names.push(std::ffi::OsStr::new(device));
        }
    }
    for name in names {
        for arguments in [&["check"][..], &["check", "-", "--tables"], &["timber", "oak", "--tables"]] {
            let mut command = program();
            let output =
                command.args(arguments).arg(name).current_dir(folder.path()).output().expect("the program runs");
            let what = format!("{arguments:?} {name:?}");
            ends_well(&what, &output);
            // An empty table file adds no rows, which is no mistake.
            let empty = arguments[0] == "timber" && (name == "/dev/null" || name == odd);
            if !empty {
                refused(&what, &output);
            }
            let said = String::from_utf8_lossy(&output.stderr);
            assert!(!said.contains('\u{1b}'), "{what}: an escape reaches the terminal: {said:?}");
        }
    }
}

/// Nowhere to write: a full disk, a pipe nobody reads, a file opened for reading, nothing at all. The status still is 0, 1
/// or 2, and a report that could not be written is an error; a reader who left is none.
#[cfg(target_os = "linux")]
#[test]
fn nowhere_to_write() {
    let full = || Stdio::from(OpenOptions::new().write(true).open("/dev/full").expect("the full device"));
    let read_only = || Stdio::from(File::open("/dev/null").expect("a file opened for reading"));
    let unread = || {
        let (reader, writer) = std::io::pipe().expect("a pipe");
        drop(reader);
        Stdio::from(writer)
    };
    type Place<'a> = (&'a str, &'a dyn Fn() -> Stdio);
    let places: [Place<'_>; 4] =
        [("full", &full), ("read-only", &read_only), ("unread", &unread), ("nothing", &Stdio::null)];
    let briefs = ["demo/two.toml", "tests/mistakes/several_mistakes.toml", "tests/mistakes/not_utf8.toml", "none.toml"];
    for brief in briefs {
        for (out_name, out) in places {
            for (err_name, err) in places {
                let output = program()
                    .args(["check", brief])
                    .current_dir(root())
                    .stdout(out())
                    .stderr(err())
                    .output()
                    .expect("the program runs");
                ends_well(&format!("{brief} to {out_name} and {err_name}"), &output);
                let written = matches!(out_name, "unread" | "nothing");
                let expected = if brief == "demo/two.toml" && written { 1 } else { 2 };
                assert_eq!(output.status.code(), Some(expected), "{brief} to {out_name} and {err_name}");
            }
        }
    }
}

/// A sheet for which there is no room, or no leave, is an error with its reason, and nothing of it is left.
#[cfg(target_os = "linux")]
#[test]
fn a_sheet_that_cannot_be_written() {
    let sheet = |out: &str| {
        let output = program().args(["sheet", "demo/child.toml", "--out", out]).current_dir(root()).output();
        output.expect("the program runs")
    };
    for ending in ["html", "md", "pdf"] {
        for (folder, why) in [("/proc", "No such file or directory"), ("/dev/null", "Not a directory")] {
            let out = format!("{folder}/sheet.{ending}");
            let output = sheet(&out);
            refused(&out, &output);
            let said = String::from_utf8_lossy(&output.stderr).into_owned();
            assert!(said.starts_with(&format!("error: {out} could not be written: {why} (os error ")), "{said}");
        }
    }
    // A disk of four pages. Where the system lets nobody make one, nothing is tried on one.
    let script = "mount -t tmpfs -o size=16k none /mnt || exit 77; cd \"$1\"; \"$2\" sheet demo/child.toml --out \
                  /mnt/sheet.html; echo $? $(ls -A /mnt | wc -l)";
    let mut small = Command::new("unshare");
    small.args(["-rm", "sh", "-c", script, "sh"]).arg(root()).arg(program().get_program());
    if let Ok(output) = small.output()
        && output.status.success()
    {
        assert_eq!(String::from_utf8_lossy(&output.stdout), "2 0\n");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        let full = "error: /mnt/sheet.html could not be written: No space left on device (os error 28)";
        assert!(said.starts_with(full), "{said}");
    }
}

/// The same through a shell that closes the streams altogether, or leaves little to live on.
#[test]
fn little_to_live_on() {
    let shell = |script: &str, brief: &Path| {
        Command::new("sh")
            .args(["-c", script, "sh"])
            .arg(env!("CARGO_BIN_EXE_slatwright"))
            .arg(brief)
            .env_remove("RUST_BACKTRACE")
            .stdin(Stdio::null())
            .output()
            .expect("a shell")
    };
    let deep = root().join("tests/mistakes/deep_nesting.toml");
    let briefs = [root().join("demo/two.toml"), deep, root().join("tests/mistakes/several_mistakes.toml")];
    for script in [
        "exec \"$1\" check \"$2\" <&- >&- 2>&-",
        "exec \"$1\" check - <\"$2\" >&-",
        "ulimit -s 512; exec \"$1\" check \"$2\"",
        "ulimit -v 262144; exec \"$1\" check \"$2\" --every --steps",
        "ulimit -n 4; exec \"$1\" check \"$2\"",
        "ulimit -f 0; exec \"$1\" check \"$2\"",
        "cd /; exec \"$1\" check \"$2\"",
    ] {
        for brief in &briefs {
            ends_well(&format!("{script} {}", brief.display()), &shell(script, brief));
        }
    }
}

/// Briefs too large to keep: up to a megabyte each is read, and answered.
#[test]
fn large_and_deep_briefs_end_well() {
    let folder = tempfile::tempdir().expect("a folder");
    let place = folder.path().join("brief.toml");
    let n = 1 << 20;
    let one_line = |text: &str| text.repeat(n / text.len());
    for (what, text) in [
        ("one byte too many", "#".repeat(n + 1)),
        ("ten megabytes", "a = 1\n".repeat(10 * n / 6)),
        ("one word", "x".repeat(n)),
        ("brackets", one_line("[")),
        ("braces", format!("a = {}", "{a=".repeat(n / 3 - 2))),
        ("dots", format!("{}a = 1", "a.".repeat(n / 2 - 4))),
        ("headings", one_line("[[sleeper]]\n")),
        ("quotes", one_line("\"")),
        ("escapes", format!("title = \"{}\"", "\\u0041".repeat(n / 6 - 4))),
        ("newlines", one_line("\n")),
        ("a long number", format!("[platform]\nlength = \"{} in\"", "9".repeat(n - 40))),
        ("a long fraction", format!("[platform]\nlength = \"{}1/2 in\"", "1-".repeat(n / 2 - 40))),
    ] {
        std::fs::write(&place, text).expect("a brief");
        refused(what, &program().arg("check").arg(&place).output().expect("the program runs"));
    }
}
