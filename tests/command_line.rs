//! The program as it is run: exit status, streams, and what is printed.

use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use unicode_width::UnicodeWidthStr;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn demo(name: &str) -> PathBuf {
    root().join("demo").join(name)
}

const DEMOS: [&str; 2] = ["two.toml", "child.toml"];

fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_slatwright"))
}

fn run<S: AsRef<std::ffi::OsStr>>(arguments: &[S]) -> Output {
    program().args(arguments).output().expect("the program runs")
}

fn check(brief: &Path, more: &[&str]) -> Output {
    program().arg("check").arg(brief).args(more).output().expect("the program runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("UTF-8")
}

fn json(brief: &Path, more: &[&str]) -> Value {
    let output = check(brief, &[&["--format", "json"], more].concat());
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {output:?}"))
}

/// A folder with one file in it.
fn folder_with(name: &str, contents: &[u8]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join(name), contents).expect("a file");
    folder
}

/// Two carpenter's beds for one child, one that passes and one whose slats are a quarter as thick.
const PASSES: &str = r#"
title = "A cot that passes"
[platform]
length = "60 in"
width = "28 in"
[mattress]
thickness = "4 in"
weight = "15 lb"
[[sleeper]]
weight = "30 lb"
[visitor]
weight = "none"
[slats]
wood = "douglas fir-larch select structural"
size = "2x4"
count = 12
fixed = true
[cleats]
wood = "douglas fir-larch select structural"
size = "2x4"
screws = { lag = "1/4 x 4 in", pitch = "5 in", first = "3 in" }
[rails]
wood = "douglas fir-larch select structural"
size = "4x10"
ends = { joint = "bearing", bearing = "3 in" }
"#;

fn fails() -> String {
    PASSES.replace("size = \"2x4\"\ncount", "size = \"2x4\"\nripped = true\nthickness = \"3/8 in\"\ncount").replacen(
        "wood = \"douglas fir-larch select structural\"",
        "wood = { species = \"yellow-poplar\", grade = \"ungraded\", knot = \"1/2 in\", slope_of_grain = \"1:8\" }",
        1,
    )
}

#[test]
fn the_exit_status_is_the_verdict() {
    for (brief, status, verdict) in [(PASSES.to_owned(), 0, "pass"), (fails(), 1, "fail")] {
        let folder = folder_with("brief.toml", brief.as_bytes());
        let path = folder.path().join("brief.toml");
        let output = check(&path, &[]);
        assert_eq!(output.status.code(), Some(status), "{}", text(&output.stdout));
        assert!(output.stderr.is_empty(), "{}", text(&output.stderr));
        assert_eq!(json(&path, &[])["verdict"], verdict);
        assert_eq!(check(&path, &["--format", "json"]).status.code(), Some(status));
    }
    let folder = folder_with("brief.toml", PASSES.replace("60 in", "60").as_bytes());
    assert_eq!(check(&folder.path().join("brief.toml"), &[]).status.code(), Some(2));
}

/// What no rule answers never looks like a pass: rails so slender that the clause on lateral stability
/// does not reach them.
#[test]
fn a_part_that_was_not_checked_is_no_pass() {
    let wood =
        "wood = { species = \"yellow-poplar\", grade = \"ungraded\", knot = \"1/4 in\", slope_of_grain = \"1:20\" }";
    let slender = format!("{wood}\nthickness = \"1-1/4 in\"\nwidth = \"15-1/4 in\"");
    let brief = PASSES
        .replace("wood = \"douglas fir-larch select structural\"\nsize = \"4x10\"", &slender)
        .replace("length = \"60 in\"", "length = \"140 in\"")
        .replace("count = 12", "count = 28")
        .replace("1/4 x 4 in", "1/4 x 3 in");
    let folder = folder_with("brief.toml", brief.as_bytes());
    let path = folder.path().join("brief.toml");
    let output = check(&path, &[]);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output.stdout));
    assert_eq!(json(&path, &[])["verdict"], "not checked");
    let first = text(&output.stdout).lines().take(3).collect::<String>();
    assert!(first.contains("NOT CHECKED") && !first.contains("PASS"), "{first}");
}

#[test]
fn a_wrong_command_line_exits_with_2() {
    for arguments in [
        &[][..],
        &["check"],
        &["chekc", "demo/two.toml"],
        &["check", "demo/two.toml", "--format", "yaml"],
        &["check", "demo/two.toml", "--rules", "lrfd"],
        &["timber", "--units", "cubits"],
        &["begin", "now"],
    ] {
        let output = run(arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(output.stdout.is_empty() && !output.stderr.is_empty(), "{arguments:?}");
    }
    for arguments in [&["--help"][..], &["check", "--help"], &["timber", "--help"], &["--version"]] {
        let output = run(arguments);
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
        assert!(text(&output.stdout).lines().all(|l| l.width() <= 80), "{arguments:?}");
    }
}

#[test]
fn the_text_fits_80_columns_and_promises_nothing() {
    for name in DEMOS {
        for more in [&[][..], &["--every"], &["--steps"], &["--units", "metric"], &["--units", "us", "--every"]] {
            let printed = text(&check(&demo(name), more).stdout);
            assert!(printed.ends_with('\n') && printed.lines().count() > 20);
            for line in printed.lines() {
                assert!(line.width() <= 80, "{name} {more:?}: {}: {line}", line.width());
                assert!(!line.ends_with(' '), "{name} {more:?}: `{line}`");
            }
            let lower = printed.to_lowercase();
            assert!(!lower.split(|c: char| !c.is_alphabetic()).any(|w| w == "safe" || w == "safety"), "{name}");
        }
    }
}

#[test]
fn the_json_follows_the_published_schema() {
    let schema = run(&["check", "--schema"]);
    assert_eq!(schema.status.code(), Some(0));
    let schema: Value = serde_json::from_slice(&schema.stdout).expect("the schema is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is a JSON Schema");
    for name in DEMOS {
        for more in [&[][..], &["--every"], &["--units", "metric"]] {
            let report = json(&demo(name), more);
            let errors: Vec<String> = validator.iter_errors(&report).map(|e| e.to_string()).collect();
            assert!(errors.is_empty(), "{name}: {errors:?}");
        }
        let mut broken = json(&demo(name), &[]);
        broken["verdict"] = Value::from(7);
        assert!(!validator.is_valid(&broken), "the schema refuses nothing");
    }
}

/// The verdicts follow from the ratios, and the ratios from demand and capacity, as far as they are printed:
/// six significant digits each, so a quotient of two is off by 10⁻⁵ at most.
#[test]
fn the_json_agrees_with_itself() {
    for name in DEMOS {
        let report = json(&demo(name), &[]);
        let (mut worst, mut fails) = (0.0_f64, false);
        for member in report["members"].as_array().expect("members") {
            let mut member_fails = false;
            for c in member["checks"].as_array().expect("checks") {
                assert_eq!(c["demand"]["unit"], c["capacity"]["unit"], "{c}");
                let Some(ratio) = c["ratio"].as_f64() else {
                    assert_eq!(c["verdict"], "fail", "{c}");
                    member_fails = true;
                    continue;
                };
                assert_eq!(c["verdict"], if ratio > 1.0 { "fail" } else { "pass" }, "{c}");
                let (d, r) = (c["demand"]["value"].as_f64(), c["capacity"]["value"].as_f64());
                let quotient = d.expect("a demand") / r.expect("a capacity");
                // A combined check prints its index as the demand and 1 as the capacity, so this holds for all.
                assert!((quotient - ratio).abs() <= 2e-5 * ratio.max(1e-9), "{name} {}: {c}", member["id"]);
                if let Some(margin) = c["margin"].as_f64() {
                    assert!((margin - (1.0 / ratio - 1.0)).abs() <= 2e-5 / ratio, "{c}");
                }
                worst = worst.max(ratio);
                member_fails |= ratio > 1.0;
            }
            assert_eq!(member["verdict"], if member_fails { "fail" } else { "pass" }, "{}", member["id"]);
            fails |= member_fails;
        }
        assert_eq!(report["weakest"]["ratio"].as_f64(), Some(worst), "{name}");
        if fails {
            assert_eq!(report["verdict"], "fail", "{name}");
        } else {
            assert_ne!(report["verdict"], "fail", "{name}");
        }
        assert_eq!(report["slatwright"], 1);
    }
}

/// Units are for the reader: the ratios, members and verdicts are the same to the last digit.
#[test]
fn units_change_no_ratio() {
    for name in DEMOS {
        let ratios = |units: &str| -> Vec<(String, String, Value)> {
            let report = json(&demo(name), &["--units", units]);
            let members = report["members"].as_array().expect("members").clone();
            let of = |m: &Value| -> Vec<(String, String, Value)> {
                let id = m["id"].to_string();
                let checks = m["checks"].as_array().expect("checks").clone();
                checks.iter().map(|c| (id.clone(), c["limit"].to_string(), c["ratio"].clone())).collect()
            };
            members.iter().flat_map(of).collect()
        };
        assert_eq!(ratios("us"), ratios("metric"), "{name}");
        let (us, metric) = (check(&demo(name), &["--units", "us"]), check(&demo(name), &["--units", "metric"]));
        assert_eq!(us.status, metric.status);
        assert!(text(&metric.stdout).contains(" kg, ") && text(&us.stdout).contains(" lb, "), "{name}");
    }
}

#[test]
fn a_brief_may_come_by_standard_input() {
    let brief = std::fs::read(demo("child.toml")).expect("a demo");
    for (bytes, status) in
        [(brief.clone(), check(&demo("child.toml"), &[]).status.code()), (b"slats = 3".into(), Some(2))]
    {
        let mut child = program()
            .args(["check", "-"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs");
        child.stdin.take().expect("a pipe").write_all(&bytes).expect("written");
        let output = child.wait_with_output().expect("an end");
        assert_eq!(output.status.code(), status);
        match status {
            Some(2) => assert!(text(&output.stderr).contains("--> standard input:1:9"), "{}", text(&output.stderr)),
            _ => assert_eq!(output.stdout, check(&demo("child.toml"), &[]).stdout),
        }
    }
}

/// Everything that is no brief is answered on one line that begins with `error:` and names the file.
#[test]
fn what_is_no_text_file_is_answered_in_one_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str, bytes: &[u8]| {
        std::fs::write(folder.path().join(name), bytes).expect("a file");
    };
    at("latin1.toml", b"title = \"Lits\"\n# caf\xe9\n");
    at("binary.toml", &[0x7f, b'E', b'L', b'F', 0xff, 0xfe]);
    at("utf16.toml", &[0xff, 0xfe, b's', 0, b'=', 0]);
    at("large.toml", "# a long comment\n".repeat(70_000).as_bytes());
    std::fs::create_dir(folder.path().join("folder.toml")).expect("a folder");
    for (name, said) in [
        ("none.toml", "none.toml cannot be read: No such file"),
        ("folder.toml", "folder.toml cannot be read: Is a directory"),
        ("latin1.toml", "latin1.toml:2:6: this is not UTF-8"),
        ("binary.toml", "binary.toml:1:5: this is not UTF-8"),
        ("utf16.toml", "utf16.toml:1:1: this is not UTF-8"),
        ("large.toml", "large.toml is larger than 1 MiB; a brief is a page of text"),
    ] {
        for arguments in
            [&["check", name][..], &["check", "-", "--tables", name], &["timber", "maple", "--tables", name]]
        {
            let output =
                program().args(arguments).current_dir(folder.path()).stdin(Stdio::null()).output().expect("runs");
            let printed = text(&output.stderr);
            assert_eq!(output.status.code(), Some(2), "{arguments:?}: {printed}");
            assert!(printed.starts_with("error: ") && printed.contains(said), "{arguments:?}: {printed}");
            assert_eq!(printed.lines().count(), 1, "{printed}");
            assert!(output.stdout.is_empty());
        }
    }
}

/// A brief of exactly 1 MiB is read.
#[test]
fn the_largest_brief_is_read() {
    let mut brief = std::fs::read(demo("child.toml")).expect("a demo");
    brief.push(b'#');
    brief.resize(1 << 20, b'x');
    let folder = folder_with("brief.toml", &brief);
    let output = check(&folder.path().join("brief.toml"), &[]);
    assert_eq!(output.stdout, check(&demo("child.toml"), &[]).stdout);
    brief.push(b'x');
    std::fs::write(folder.path().join("brief.toml"), &brief).expect("a file");
    assert_eq!(check(&folder.path().join("brief.toml"), &[]).status.code(), Some(2));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_an_error() {
    for arguments in [
        &["check", "demo/two.toml"][..],
        &["check", "demo/two.toml", "--format", "json"],
        &["check", "--schema"],
        &["timber"],
        &["begin"],
    ] {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("the full device");
        let output = program().args(arguments).current_dir(root()).stdout(full).output().expect("the program runs");
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        let printed = text(&output.stderr);
        assert_eq!(printed, "error: the report could not be written: No space left on device (os error 28)\n");
    }
}

/// A pager that is left early closes the pipe: the verdict still is the exit status, and nothing is said.
#[test]
fn a_closed_pipe_is_no_error() {
    for (arguments, status) in
        [(&["check", "demo/two.toml", "--steps"][..], 1), (&["timber", "lumber"], 0), (&["check", "--schema"], 0)]
    {
        let mut child = program()
            .args(arguments)
            .current_dir(root())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs");
        drop(child.stdout.take());
        let mut said = String::new();
        child.stderr.take().expect("a pipe").read_to_string(&mut said).expect("read");
        assert_eq!(child.wait().expect("an end").code(), Some(status), "{arguments:?}: {said}");
        assert_eq!(said, "", "{arguments:?}");
    }
}

/// Woods decide which rules can be asked for: no table takes a US grade to a strength class, or back.
#[test]
fn rules_without_values_for_the_wood_are_refused() {
    for (brief, rules, wood) in [("two.toml", "ec5", "ungraded wood"), ("deck_ec5.toml", "asd", "`C24` is a strength")]
    {
        let output = check(&demo(brief), &["--rules", rules]);
        assert_eq!(output.status.code(), Some(2));
        assert!(output.stdout.is_empty());
        let said = text(&output.stderr);
        assert!(said.contains(wood), "{said}");
    }
    let output = check(&demo("deck_ec5.toml"), &["--rules", "ec5"]);
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(check(&demo("two.toml"), &["--rules", "asd"]).stdout, check(&demo("two.toml"), &[]).stdout);
}

/// A row as a user writes it. Invented values.
const OWN_ROWS: &str = r#"[meta]
source = "A workshop's own bending tests"
locator = "sheet 3"
edition = "2020"
seen = "read"
units = "us"

[[clear_wood]]
name = "Moonwood, silver"
kind = "hardwood"
intersection_moisture = 25
green = { sg = 0.45, mor = 7000, moe = 1.2, cpar = 3000, cperp = 350, shear = 900 }
dry = { sg = 0.49, mor = 12000, moe = 1.6, cpar = 6000, cperp = 700, shear = 1400 }
"#;

#[test]
fn a_users_rows_are_used() {
    let brief = fails().replace("yellow-poplar", "silver moonwood");
    let folder = folder_with("brief.toml", brief.as_bytes());
    std::fs::write(folder.path().join("own.toml"), OWN_ROWS).expect("a file");
    let run = |arguments: &[&str]| program().args(arguments).current_dir(folder.path()).output().expect("runs");
    let without = run(&["check", "brief.toml"]);
    assert_eq!(without.status.code(), Some(2));
    assert!(text(&without.stderr).contains("silver moonwood"), "{}", text(&without.stderr));
    let with = run(&["check", "brief.toml", "--tables", "own.toml", "--every"]);
    assert_eq!(with.status.code(), Some(1), "{}", text(&with.stderr));
    let printed: Value =
        serde_json::from_slice(&run(&["check", "brief.toml", "--tables", "own.toml", "--format", "json"]).stdout)
            .expect("JSON");
    let slat = printed["members"].as_array().expect("members").iter().find(|m| m["role"] == "slat").expect("a slat");
    assert!(slat["made_of"].to_string().contains("Moonwood, silver"), "{}", slat["made_of"]);
    let entry = run(&["timber", "moonwood", "--tables", "own.toml"]);
    assert_eq!(entry.status.code(), Some(0));
    assert!(text(&entry.stdout).contains("A workshop's own bending tests"), "{}", text(&entry.stdout));
    assert_eq!(run(&["timber", "moonwood"]).status.code(), Some(2));
}

#[test]
fn a_wrong_row_is_shown_with_a_caret() {
    for (from, to, line, said) in [
        ("mor = 7000", "mor = 7", "9:8", "is not plausible"),
        ("mor = 7000", "more = 7000", "12:22", "more"),
        ("[[clear_wood]]", "[[clear_woods]]", "8:3", "there is no table `clear_woods`"),
        ("kind = \"hardwood\"", "kind = \"hardwoods\"", "10:8", "hardwoods"),
        ("name = \"Moonwood, silver\"", "name = \"Alder, red\"", "9:8", "is already in the tables"),
        ("seen = \"read\"", "seen = \"heard\"", "5:8", "heard"),
        ("kind = \"hardwood\"", "kind = \"hardwood", "10:17", ""),
    ] {
        let folder = folder_with("own.toml", OWN_ROWS.replacen(from, to, 1).as_bytes());
        let output = program()
            .args(["timber", "maple", "--tables", "own.toml"])
            .current_dir(folder.path())
            .output()
            .expect("runs");
        let printed = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{to}: {printed}");
        assert!(printed.contains(&format!("--> own.toml:{line}\n")) && printed.contains('^'), "{to}: {printed}");
        assert!(printed.contains(said) && printed.contains("= help: "), "{to}: {printed}");
        assert!(printed.contains("in own.toml; nothing was checked\n"), "{printed}");
    }
}

#[test]
fn timber_lists_searches_and_shows() {
    let kinds = text(&run(&["timber"]).stdout);
    for kind in ["lumber", "clear wood", "stock", "fasteners", "occupants", "mattresses", "durations"] {
        assert!(kinds.contains(kind), "{kinds}");
    }
    let list = run(&["timber", "maple"]);
    assert_eq!(list.status.code(), Some(0));
    assert!(text(&list.stdout).contains("Maple, sugar") && text(&list.stdout).contains("entries; name one"));
    for (asked, told) in [
        (&["timber", "#10"][..], "0.19 in"),
        (&["timber", "2x4"], "3-1/2"),
        (&["timber", "yellow-poplar"], "specific gravity, green"),
        (&["timber", "df-l", "select", "structural"], "Fb    1500 psi"),
        (&["timber", "man-95"], "mass"),
    ] {
        let output = run(asked);
        let printed = text(&output.stdout);
        assert_eq!(output.status.code(), Some(0), "{asked:?}");
        assert!(printed.contains(told) || told == "3-1/2" && printed.contains("3.5 in"), "{asked:?}: {printed}");
        assert!(printed.contains("source: ") && printed.contains("Seen: "), "{asked:?}: {printed}");
        assert!(printed.lines().all(|l| l.width() <= 80), "{asked:?}: {printed}");
    }
    let metric = text(&run(&["timber", "df-l select structural", "--units", "metric"]).stdout);
    assert!(metric.contains("Fb    10.34 N/mm²"), "{metric}");
    let unknown = run(&["timber", "unobtainium"]);
    assert_eq!(unknown.status.code(), Some(2));
    assert!(unknown.stdout.is_empty() && text(&unknown.stderr).starts_with("error: nothing in the tables is called"));
}

/// Whatever the language, the terminal and the folder are, the bytes are the same.
#[test]
fn the_same_brief_gives_the_same_bytes() {
    let elsewhere = tempfile::tempdir().expect("a folder");
    for name in DEMOS {
        for more in [&["--every", "--steps"][..], &["--format", "json"]] {
            let once = check(&demo(name), more);
            for (variable, value) in
                [("LANG", "C"), ("LC_ALL", "tr_TR.UTF-8"), ("TERM", "dumb"), ("COLUMNS", "40"), ("NO_COLOR", "1")]
            {
                let again = program()
                    .arg("check")
                    .arg(demo(name))
                    .args(more)
                    .env(variable, value)
                    .current_dir(elsewhere.path())
                    .output()
                    .expect("the program runs");
                assert_eq!(again.stdout, once.stdout, "{name} {variable}={value}");
                assert_eq!(again.status, once.status);
            }
            let bare = program().arg("check").arg(demo(name)).args(more).env_clear().output().expect("runs");
            assert_eq!(bare.stdout, once.stdout);
        }
    }
}
