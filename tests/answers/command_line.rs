//! The commands as they are run: exit status, one clear message, 80 columns, JSON as its schema says.

use serde_json::Value;
use unicode_width::UnicodeWidthStr;

use super::support::{json, run, text};

/// Asserts that a command line is refused with one message and exit 2.
#[track_caller]
fn refused(arguments: &[&str], because: &str) {
    let output = run(arguments);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(output.stdout.is_empty(), "{}", text(&output.stdout));
    assert!(said.contains(because), "{said}");
    assert_eq!(said.matches("error:").count(), 1, "{said}");
}

/// Asserts that what is printed fits a terminal and promises nothing.
#[track_caller]
pub(crate) fn fits(printed: &str) {
    assert!(printed.ends_with('\n') && printed.lines().count() > 3, "{printed}");
    for line in printed.lines() {
        assert!(line.width() <= 80 && line.trim_end() == line, "`{line}`");
        assert!(!line.to_lowercase().contains("safe"), "{line}");
    }
}

#[test]
fn text_fits_and_leads_with_the_answer() {
    let asked: [&[&str]; 6] = [
        &["rate", "demo/child.toml"],
        &["rate", "demo/two.toml", "--units", "metric"],
        &["span", "demo/two.toml"],
        &["span", "demo/child.toml", "--units", "metric"],
        &["span", "demo/deck.toml", "--units", "us"],
        &["span", "demo/deck_ec5.toml"],
    ];
    for arguments in asked {
        let output = run(arguments);
        assert!(matches!(output.status.code(), Some(0 | 1)), "{}", text(&output.stderr));
        let printed = text(&output.stdout);
        fits(&printed);
        let lead = printed.lines().nth(2).unwrap();
        assert!(["UP TO", "NOBODY", "NO WIDTH"].iter().any(|w| lead.starts_with(w)), "{lead}");
    }
}

/// JSON is what its published schema says, and nothing else.
#[test]
fn json_keeps_to_its_schema() {
    let stock = ["span", "--table", "--wood", "spf no2", "--wood", "spf stud"];
    let asked: [&[&str]; 3] = [&["rate", "demo/child.toml"], &["span", "demo/child.toml"], &stock];
    for arguments in asked {
        let schema = run(&[arguments, &["--schema"]].concat());
        let schema: Value = serde_json::from_slice(&schema.stdout).expect("a schema");
        let validator = jsonschema::validator_for(&schema).expect("a valid schema");
        let answer = json(arguments);
        assert!(
            validator.is_valid(&answer),
            "{arguments:?}: {:?}",
            validator.iter_errors(&answer).next().map(|e| e.to_string())
        );
        assert_eq!(answer["slatwright"], 1);
        assert_eq!(answer["answer"], arguments[0]);
    }
}

#[test]
fn the_exit_status_says_whether_the_brief_is_within() {
    assert_eq!(run(&["rate", "demo/child.toml"]).status.code(), Some(0));
    assert_eq!(run(&["rate", "demo/two.toml"]).status.code(), Some(1));
    assert_eq!(run(&["span", "demo/child.toml"]).status.code(), Some(0));
    assert_eq!(run(&["span", "demo/two.toml"]).status.code(), Some(1));
}

/// Two runs on two cores say the same, whatever finishes first.
#[test]
fn same_question_same_bytes() {
    for command in ["rate", "span"] {
        assert_eq!(run(&[command, "demo/child.toml"]).stdout, run(&[command, "demo/child.toml"]).stdout);
    }
}

#[test]
fn one_clear_message_each() {
    refused(&["span"], "name a brief, or plain stock");
    refused(&["span", "demo/two.toml", "--wood", "spf no2"], "add --table");
    refused(&["span", "--wood", "spruce-pine-fur no2", "--table"], "Spruce-Pine-Fir");
    refused(&["span", "--wood", "spf no2", "--size", "2x7", "--spacing", "16 in"], "2x7");
    refused(&["span", "--wood", "spf no2", "--size", "2x8"], "--spacing");
    refused(&["span", "--wood", "spf stud", "--size", "2x8", "--spacing", "16 in"], "2x8");
    refused(&["span", "--wood", "spf no2", "--size", "8/4", "--spacing", "16 in"], "nominal");
    refused(&["span", "--wood", "spf no2", "--size", "2x8", "--spacing", "16"], "unit");
    refused(&["span", "--wood", "spf no2", "--size", "2x4", "--spacing", "16 in", "--live", "90000 psf"], "not even");
    refused(
        &["span", "--wood", "spf no2", "--size", "2x8", "--spacing", "30 in", "--repetitive"],
        "at most 24 in apart",
    );
    refused(&["span", "demo/two.toml", "--format", "csv"], "--table");
    refused(&["rate", "demo/nowhere.toml"], "cannot be read");
    refused(&["rate"], "BRIEF");
}
