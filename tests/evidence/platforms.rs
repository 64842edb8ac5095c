//! Whole platforms put through the program, against what others have printed for the same timber.

use std::collections::BTreeMap;
use std::io::Write as _;
use std::process::{Command, Stdio};

use serde::Deserialize;
use serde_json::Value;
use slatwright::source::Seen;

/// Briefs made from one template, each with what must hold.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Group {
    pub(crate) id: String,
    source: String,
    #[serde(default)]
    edition: String,
    #[serde(default)]
    locator: String,
    pub(crate) seen: Seen,
    /// What must hold, for a reader.
    pub(crate) holds: String,
    /// The brief, with `{name}` where a row's cell goes.
    brief: String,
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
    /// Which check of the report is looked at.
    member: String,
    limit: String,
    case: Option<String>,
    /// The length printed in the last column, rounded to so many inches: at half of that less the ratio is at most 1, at
    /// half of that more at least 1. `{printed}` in the brief is the trial length.
    #[serde(default)]
    bracket: Option<f64>,
    /// Added to the printed length to make it the program's.
    #[serde(default)]
    added: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    group: Vec<Group>,
}

/// All of `platforms.toml`.
pub(crate) fn all() -> Vec<Group> {
    let text = std::fs::read_to_string(crate::folder().join("platforms.toml")).expect("platforms.toml");
    toml::from_str::<File>(&text).unwrap_or_else(|e| panic!("platforms.toml: {e}")).group
}

impl Group {
    /// Source, edition and locator in one line.
    pub(crate) fn place(&self) -> String {
        let parts = [self.source.as_str(), &self.edition, &self.locator];
        parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join(", ")
    }

    /// How often the program is run.
    pub(crate) fn runs(&self) -> usize {
        self.rows.len() * if self.bracket.is_some() { 2 } else { 1 }
    }

    /// What does not hold.
    pub(crate) fn faults(&self) -> Vec<String> {
        let mut out = Vec::new();
        for row in &self.rows {
            assert_eq!(row.len(), self.columns.len(), "{}: {row:?}", self.id);
            let cells: BTreeMap<&str, &str> =
                self.columns.iter().map(String::as_str).zip(row.iter().map(String::as_str)).collect();
            let half = self.bracket.expect("only lengths are compared so far") / 2.0;
            let printed = inches(cells["printed"]);
            for (length, passes) in [(printed - half, true), (printed + half, false)] {
                let ratio = self.ratio(&cells, length + self.added);
                // The printed table rounds to the nearest; a tie may have gone either way.
                let holds = if passes { ratio <= 1.0 + 1e-9 } else { ratio >= 1.0 - 1e-9 };
                if !holds {
                    out.push(format!("{} {row:?}: at {length} in the ratio is {ratio}", self.id));
                }
            }
        }
        out
    }

    /// The ratio of the check that is looked at.
    fn ratio(&self, cells: &BTreeMap<&str, &str>, length: f64) -> f64 {
        let mut brief = self.brief.replace("{printed}", &length.to_string());
        for (name, cell) in cells {
            brief = brief.replace(&format!("{{{name}}}"), cell);
        }
        let report = check(&brief);
        let members = report["members"].as_array().expect("members");
        let member = members.iter().find(|m| m["id"] == self.member.as_str());
        let member = member.unwrap_or_else(|| panic!("{}: no {} in\n{brief}", self.id, self.member));
        let checks = member["checks"].as_array().expect("checks");
        let found = checks
            .iter()
            .find(|c| c["limit"] == self.limit.as_str() && self.case.as_deref().is_none_or(|case| c["case"] == case));
        found
            .and_then(|c| c["ratio"].as_f64())
            .unwrap_or_else(|| panic!("{}: {} has no {}: {member}", self.id, self.member, self.limit))
    }
}

/// `10-9` or `129`, in inches.
fn inches(text: &str) -> f64 {
    match text.split_once('-') {
        Some((feet, inches)) => feet.parse::<f64>().expect("feet") * 12.0 + inches.parse::<f64>().expect("inches"),
        None => text.parse().expect("inches"),
    }
}

/// The program's report on a brief.
fn check(brief: &str) -> Value {
    let mut child = Command::new(env!("CARGO_BIN_EXE_slatwright"))
        .args(["check", "-", "--format", "json"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    child.stdin.take().expect("a pipe").write_all(brief.as_bytes()).expect("the brief is taken");
    let output = child.wait_with_output().expect("the program ends");
    let said = String::from_utf8_lossy(&output.stderr);
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {said}\n{brief}"))
}
