//! A published case, read from `cases/`, and what the program says to it.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

use serde::Deserialize;
use slatwright::source::Seen;

use crate::functions;
use crate::inputs::{Answer, Inputs};
use crate::printed::{self, Printed, Rounding};

/// Where a case was published and how it was seen.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Case {
    pub(crate) id: String,
    /// The functions the case holds. The first is asked, unless `ask` names a calculation that uses them all.
    pub(crate) functions: Vec<String>,
    pub(crate) ask: Option<String>,
    /// The clause or the formula.
    pub(crate) clause: String,
    pub(crate) source: String,
    #[serde(default)]
    pub(crate) edition: String,
    #[serde(default)]
    pub(crate) locator: String,
    pub(crate) seen: Seen,
    /// What a reader has to know about the source or the case.
    #[serde(default)]
    pub(crate) note: String,
    #[serde(default)]
    pub(crate) rounding: Rounding,
    /// The source prints something else than its own inputs give; `note` says why it is believed to.
    #[serde(default)]
    pub(crate) differs: bool,
    /// Inputs that all rows share.
    #[serde(default)]
    pub(crate) given: BTreeMap<String, String>,
    /// The only answer, where there is one row.
    pub(crate) answer: Option<String>,
    /// `symbol unit` for inputs, `= unit` for the answer, `=symbol unit` for a step on the way.
    #[serde(default)]
    pub(crate) columns: Vec<String>,
    #[serde(default)]
    pub(crate) rows: Vec<Vec<String>>,
    /// An input that runs along the top of a table; the rows' first cells are `columns`.
    pub(crate) across: Option<Across>,
    /// Rows and columns in a file beside, cells separated by commas.
    pub(crate) file: Option<String>,
}

#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Across {
    pub(crate) symbol: String,
    pub(crate) values: Vec<String>,
    #[serde(default)]
    pub(crate) answer: String,
}

/// A function without a case, and why.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Without {
    pub(crate) function: String,
    pub(crate) why: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cases {
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Withouts {
    function: Vec<Without>,
}

/// Inputs, and the answers wanted for them, each with the step it belongs to.
type Asked = (BTreeMap<String, String>, Vec<(String, String)>);

/// One printed answer beside what the program says.
pub(crate) struct Row {
    /// What is wrong, for a person to read.
    pub(crate) fault: Option<String>,
}

/// Every case of `cases/*.toml`, by file and in the order of the file, and the span tables.
pub(crate) fn all() -> Vec<Case> {
    let mut files: Vec<_> = std::fs::read_dir(crate::folder().join("cases"))
        .expect("the cases")
        .map(|e| e.expect("a file").path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .collect();
    files.sort();
    let mut out = Vec::new();
    for path in files {
        let text = std::fs::read_to_string(&path).expect("a file of cases");
        let file: Cases = toml::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        out.extend(file.case);
    }
    out.extend(crate::spans::cases());
    for (i, case) in out.iter().enumerate() {
        assert!(out[..i].iter().all(|c| c.id != case.id), "two cases are called {}", case.id);
        assert!(!case.differs || !case.note.is_empty(), "{} differs and does not say why", case.id);
    }
    out
}

/// Every function of which it is known that it has no case.
pub(crate) fn without() -> Vec<Without> {
    let text = std::fs::read_to_string(crate::folder().join("without.toml")).expect("without.toml");
    toml::from_str::<Withouts>(&text).unwrap_or_else(|e| panic!("without.toml: {e}")).function
}

impl Default for Case {
    fn default() -> Self {
        Case {
            id: String::new(),
            functions: Vec::new(),
            ask: None,
            clause: String::new(),
            source: String::new(),
            edition: String::new(),
            locator: String::new(),
            seen: Seen::Memory,
            note: String::new(),
            rounding: Rounding::Nearest,
            differs: false,
            given: BTreeMap::new(),
            answer: None,
            columns: Vec::new(),
            rows: Vec::new(),
            across: None,
            file: None,
        }
    }
}

impl Case {
    /// The functions it holds.
    pub(crate) fn functions(&self) -> impl Iterator<Item = &String> {
        self.functions.iter()
    }

    /// Whether it holds anything: it was seen, and its answers are met.
    pub(crate) fn is_outside(&self) -> bool {
        !self.differs && !matches!(self.seen, Seen::Memory | Seen::Judgement)
    }

    /// Source, edition and locator in one line.
    pub(crate) fn place(&self) -> String {
        let parts = [self.source.as_str(), &self.edition, &self.locator];
        parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join(", ")
    }

    /// Every printed answer, asked.
    pub(crate) fn run(&self) -> Vec<Row> {
        let mut out = Vec::new();
        for (given, wanted) in self.asked() {
            let inputs = Inputs::new(given.clone());
            let name = self.ask.as_ref().unwrap_or(&self.functions[0]);
            let answer = catch_unwind(AssertUnwindSafe(|| functions::answer(name, &inputs)));
            for (step, printed) in &wanted {
                let fault = match &answer {
                    Ok(Some(answer)) => self.compare(answer, step, printed),
                    Ok(None) => Some(format!("nothing is called {name:?}")),
                    Err(_) => Some("the function panicked, or the case is not written as it wants it".to_owned()),
                };
                let fault = fault.or_else(|| {
                    let unused = inputs.unused();
                    (!unused.is_empty()).then(|| format!("{name} does not use {unused:?}"))
                });
                out.push(Row { fault: fault.map(|f| format!("{} {given:?}: {f}", self.id)) });
            }
        }
        assert!(!out.is_empty(), "{} has no answers", self.id);
        out
    }

    /// What is wrong with an answer.
    fn compare(&self, answer: &Answer, step: &str, printed: &str) -> Option<String> {
        let reply = match (answer, printed) {
            (Err(_), "refused") => return None,
            (Ok(_), "allowed") => return None,
            (Ok(_), "refused") => return Some("it is not refused".to_owned()),
            (Err(e), _) => return Some(format!("refused: {e}")),
            (Ok(reply), _) => reply,
        };
        let value = if step.is_empty() {
            reply.value
        } else {
            let found = reply.steps.iter().find(|(symbol, _)| symbol == step);
            match found {
                Some((_, value)) => *value,
                None => {
                    let steps: Vec<_> = reply.steps.iter().map(|(s, _)| s).collect();
                    return Some(format!("there is no step {step:?} among {steps:?}"));
                }
            }
        };
        let number = match printed {
            "yes" => "1",
            "no" => "0",
            other => other,
        };
        let number = match Printed::read(number) {
            Ok(number) => number,
            Err(e) => return Some(e),
        };
        let met = number.is(value, self.rounding);
        let beside = number.beside(value);
        match (met, self.differs) {
            (true, false) | (false, true) => None,
            (false, false) => Some(format!("{printed} is printed, {beside} is computed")),
            (true, true) => Some(format!("{printed} is met, though the case says it is not")),
        }
    }

    /// Every row.
    fn asked(&self) -> Vec<Asked> {
        let (mut columns, mut rows) = (self.columns.clone(), self.rows.clone());
        if let Some(name) = &self.file {
            let text = std::fs::read_to_string(crate::folder().join("cases").join(name)).expect("a file beside");
            let mut lines = text.lines().filter(|l| !l.starts_with('#'));
            let split = |l: &str| l.split(',').map(|c| c.trim().to_owned()).collect::<Vec<_>>();
            let header = lines.next().map(split).unwrap_or_default();
            // The case says which columns of the file it takes, as `column: symbol unit`.
            let taken: Vec<(usize, String)> = columns
                .iter()
                .map(|c| {
                    let (column, meaning) = c.split_once(": ").expect("`column: symbol unit`");
                    let at = header.iter().position(|h| h == column);
                    (at.unwrap_or_else(|| panic!("{name} has no column {column}")), meaning.to_owned())
                })
                .collect();
            rows = lines.map(split).map(|r| taken.iter().map(|(i, _)| r[*i].clone()).collect()).collect();
            columns = taken.into_iter().map(|(_, meaning)| meaning).collect();
        }
        if let Some(answer) = &self.answer {
            let (mut columns, mut row) = (columns, rows.pop().unwrap_or_default());
            columns.push("=".to_owned());
            row.push(answer.clone());
            return vec![self.row(&columns, &row)];
        }
        let Some(across) = &self.across else {
            return rows.iter().map(|row| self.row(&columns, row)).collect();
        };
        let mut out = Vec::new();
        for row in &rows {
            let (own, cells) = row.split_at(columns.len());
            assert_eq!(cells.len(), across.values.len(), "{}: {row:?}", self.id);
            for (value, cell) in across.values.iter().zip(cells).filter(|(_, cell)| !cell.is_empty()) {
                let columns = [&columns[..], &[across.symbol.clone(), format!("= {}", across.answer)]].concat();
                out.push(self.row(&columns, &[own, &[value.clone(), cell.clone()]].concat()));
            }
        }
        out
    }

    fn row(&self, columns: &[String], row: &[String]) -> Asked {
        assert_eq!(columns.len(), row.len(), "{}: {row:?}", self.id);
        let (mut given, mut wanted) = (self.given.clone(), Vec::new());
        // A column that begins with # is for the reader.
        let used = columns.iter().zip(row).filter(|(column, cell)| !cell.is_empty() && !column.starts_with('#'));
        for (column, cell) in used {
            let (symbol, unit) = match column.rsplit_once(' ') {
                Some((symbol, last)) if printed::is_unit(last) => (symbol, last),
                _ => (column.as_str(), ""),
            };
            let words = matches!(cell.as_str(), "refused" | "allowed" | "yes" | "no");
            let cell = if unit.is_empty() || words { cell.clone() } else { format!("{cell} {unit}") };
            match symbol.strip_prefix('=') {
                Some(step) => wanted.push((step.to_owned(), cell)),
                None => drop(given.insert(symbol.to_owned(), cell)),
            }
        }
        (given, wanted)
    }
}
