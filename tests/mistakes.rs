//! Every way a brief can be wrong that we could think of, with the message a builder reads.
//!
//! `tests/mistakes/NAME.toml` is the brief and `tests/mistakes/NAME.txt` what the program prints for it,
//! compared byte for byte. After a message was changed on purpose,
//! `UPDATE=1 cargo test --test mistakes` writes the texts anew: read every difference before
//! it is committed.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use annotate_snippets::Renderer;
use slatwright::brief::{Brief, Mistake, render};
use slatwright::platform::Platform;
use slatwright::tables::Tables;
use unicode_width::UnicodeWidthStr;

fn fixtures() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/mistakes");
    let entries = std::fs::read_dir(folder).expect("the fixtures are there");
    let mut out: Vec<PathBuf> = entries.map(|e| e.expect("a fixture").path()).collect();
    out.retain(|p| p.extension().is_some_and(|e| e == "toml"));
    out.sort();
    assert!(out.len() > 150, "only {} fixtures were found", out.len());
    out
}

/// Runs the program on a fixture that it sees as `brief.toml`.
fn check(fixture: &Path) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::copy(fixture, folder.path().join("brief.toml")).expect("a copy");
    Command::new(env!("CARGO_BIN_EXE_slatwright"))
        .args(["check", "brief.toml"])
        .current_dir(folder.path())
        .output()
        .expect("the program runs")
}

fn printed(fixture: &Path) -> String {
    String::from_utf8(check(fixture).stderr).unwrap_or_else(|e| panic!("{}: {e}", fixture.display()))
}

/// The mistakes the library finds; none for a file that is no text, which never reaches it.
fn mistakes(fixture: &Path) -> Vec<Mistake> {
    let bytes = std::fs::read(fixture).expect("a fixture");
    let Ok(text) = String::from_utf8(bytes) else { return Vec::new() };
    Platform::build(&Brief::read(&text), Tables::embedded()).err().unwrap_or_default()
}

#[test]
fn every_mistake_is_answered_as_written_down() {
    let rewrite = std::env::var_os("UPDATE").is_some();
    let mut wrong = Vec::new();
    for fixture in fixtures() {
        let (got, place) = (printed(&fixture), fixture.with_extension("txt"));
        if rewrite {
            std::fs::write(&place, &got).expect("a text is written");
        }
        let want = std::fs::read_to_string(&place).unwrap_or_default();
        if got != want {
            wrong.push(format!("{}\n--- expected\n{want}--- got\n{got}", fixture.display()));
        }
    }
    assert!(wrong.is_empty(), "{} of the messages differ:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn every_text_has_its_brief() {
    for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/mistakes")).expect("fixtures") {
        let path = entry.expect("a fixture").path();
        let twin = path.with_extension(if path.extension().is_some_and(|e| e == "txt") { "toml" } else { "txt" });
        let known = path.file_name().is_some_and(|n| n == ".gitattributes") || twin.exists();
        assert!(known, "{} stands alone", path.display());
    }
}

#[test]
fn every_mistake_exits_with_2_and_prints_no_report() {
    for fixture in fixtures() {
        let output = check(&fixture);
        assert_eq!(output.status.code(), Some(2), "{}", fixture.display());
        assert!(output.stdout.is_empty(), "{}", fixture.display());
    }
}

/// The page that says which kinds are tried names briefs and tests that are there.
#[test]
fn the_page_of_kinds_names_what_exists() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = std::fs::read_to_string(root.join("tests/evidence/mistakes.md")).expect("the page");
    let (mut names, mut file) = (0, None);
    for row in page.lines().filter(|l| l.starts_with("| ")).skip(1) {
        let tried = row.trim_end_matches('|').rsplit('|').next().unwrap_or_default();
        for name in tried.split('`').skip(1).step_by(2) {
            if name.contains('/') {
                file = Some(std::fs::read_to_string(root.join(name)).expect(name));
            } else if let Some(text) = file.take() {
                assert!(text.contains(&format!("fn {name}()")), "no test {name}");
            } else {
                assert!(root.join(format!("tests/mistakes/{name}.toml")).exists(), "no brief {name}");
            }
            names += 1;
        }
    }
    assert!(names > 80, "only {names} names were found");
}

/// What a message must never hold: a trace of the program's insides, or a promise.
#[test]
fn no_message_shows_the_insides_or_promises_anything() {
    for fixture in fixtures() {
        let text = printed(&fixture);
        let lower = text.to_lowercase();
        // `Some(`, `Err(`, `Typed {` and the like are how values look when they are printed for programmers.
        let insides =
            ["panic", "unwrap", "some(", "none)", "ok(", "err(", "typed {", "span:", "error {", "src/", ".rs:"];
        for word in insides {
            assert!(!lower.contains(word), "{}: {word}: {text}", fixture.display());
        }
        let promises = lower.split(|c: char| !c.is_alphabetic()).any(|w| ["safe", "safely", "safety"].contains(&w));
        assert!(!promises, "{}: {text}", fixture.display());
        assert!(!text.contains('\u{1b}'), "{}: an escape reaches the terminal", fixture.display());
    }
}

#[test]
fn every_message_says_what_would_be_right_on_one_line() {
    for fixture in fixtures() {
        for m in mistakes(&fixture) {
            let shown = format!("{}: {m:?}", fixture.display());
            assert!(!m.message.trim().is_empty() && !m.help.trim().is_empty(), "{shown}");
            assert!(!m.message.ends_with('.') && !m.help.ends_with('.'), "{shown}");
            let long = m.message.chars().count().max(m.help.chars().count());
            assert!(long <= 401, "{long} characters: {shown}");
            assert!(!format!("{}{}{}", m.message, m.label, m.help).contains(char::is_control), "{shown}");
        }
    }
}

/// The name of a fixture says how many mistakes it holds only if it holds more than one.
#[test]
fn one_mistake_gives_one_message() {
    let several = [
        ("bracing_diagonals_without_sides", 2),
        ("bracing_diagonals_without_wood_and_screws", 2),
        ("bracing_knees_without_legs", 2),
        ("bracing_knees_without_screws", 2),
        ("bracing_unknown", 2),
        ("comma_separated", 2),
        ("crlf", 2),
        ("declared_absurd", 4),
        ("end_rails_several", 3),
        ("markup_page", 2),
        ("mattress_empty", 2),
        ("merge_conflict", 3),
        ("missing_tables", 4),
        ("not_toml_at_all", 3),
        ("platform_empty", 2),
        ("several_mistakes", 6),
        ("size_bad_and_wood_bad", 2),
        ("toml_several", 3),
        ("ungraded_without_both", 2),
        ("wide_characters", 2),
        ("wood_both_swapped", 2),
        ("wood_both_wrong", 2),
        ("wood_wrong_everywhere", 3),
        ("yaml", 3),
    ];
    for fixture in fixtures() {
        let name = fixture.file_stem().and_then(|n| n.to_str()).unwrap_or_default().to_owned();
        let want = several.iter().find(|(n, _)| *n == name).map_or(1, |(_, count)| *count);
        let got = printed(&fixture).lines().filter(|l| l.starts_with("error: ")).count();
        assert_eq!(got, want, "{name}: {}", printed(&fixture));
    }
}

#[test]
fn mistakes_are_in_the_order_of_the_brief() {
    for fixture in fixtures() {
        let places: Vec<usize> = mistakes(&fixture).iter().map(|m| m.span.start).collect();
        assert!(places.is_sorted(), "{}: {places:?}", fixture.display());
    }
}

/// The caret stands under the text that is wrong, whatever stands before it on the line: both columns are
/// counted by the width that Unicode gives each character (UAX 11, by the unicode-width crate).
#[test]
fn the_caret_stands_under_the_value() {
    for (title, value, end) in [
        ("bed", "2x44", "\n"),
        ("\u{feff}bed", "2x44", "\n"),
        ("マツ材のベッド", "二×四", "\n"),
        ("e\u{301}te\u{301}", "2x44", "\n"),
        ("\u{5de}\u{5d9}\u{5d8}\u{5d4}", "2x44", "\r\n"),
    ] {
        let text = format!("slats = {{ wood = \"{title}\", size = \"{value}\" }}{end}");
        let found = Platform::build(&Brief::read(&text), Tables::embedded()).err().unwrap_or_default();
        let m = found.iter().find(|m| m.message.contains("stock size")).unwrap_or_else(|| panic!("{found:?}"));
        let quoted = format!("\"{value}\"");
        assert_eq!(text.get(m.span.clone()), Some(quoted.as_str()));
        let shown = render(std::slice::from_ref(m), "brief.toml", &text, &Renderer::plain());
        let mut lines = shown.lines().skip_while(|l| !l.contains("slats = "));
        let (line, carets) = (lines.next().unwrap_or_default(), lines.next().unwrap_or_default());
        let before = line.split_once(&quoted).map_or("", |(before, _)| before);
        let caret = carets.split_once('^').map_or("", |(before, _)| before);
        assert_eq!(before.width(), caret.width(), "{shown}");
        assert_eq!(carets.matches('^').count(), quoted.width(), "{shown}");
    }
}
