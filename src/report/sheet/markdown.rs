//! The sheet as Markdown, for sheets kept in a repository: words and tables, formulas on one line.

use super::Sheet;
use super::document::{Block, Table};
use crate::quantity::UnitSystem;

pub(super) fn write(s: &Sheet<'_>) -> String {
    let units = s.report.platform.units;
    let mut out = format!("# {}\n", escaped(&s.title()));
    for block in s.blocks() {
        out.push('\n');
        put(&block, units, &mut out);
    }
    out
}

fn put(block: &Block, units: UnitSystem, out: &mut String) {
    match block {
        Block::Heading { level, text, .. } => {
            let marks = "#".repeat(usize::from(*level));
            out.push_str(&format!("{marks} {}\n", escaped(text)));
        }
        Block::Paragraph(text) => out.push_str(&format!("{}\n", escaped(text))),
        Block::Verdict(verdict, text) => {
            out.push_str(&format!("**{}.** {}\n", verdict.word().to_uppercase(), escaped(text)));
        }
        Block::List(items) => items.iter().for_each(|i| out.push_str(&format!("- {}\n", escaped(i)))),
        Block::Facts(facts) => {
            facts.iter().for_each(|(name, text)| out.push_str(&format!("- {name}: {}\n", escaped(text))));
        }
        Block::Table(t) => table(t, out),
        Block::Figure { drawings, caption } => {
            out.push_str(&format!("{}\n", escaped(caption)));
            drawings.iter().for_each(|d| out.push_str(&format!("\n> {}: {}\n", d.title, escaped(&d.description))));
        }
        Block::Calculation(steps) => {
            for step in steps {
                out.push_str(&format!(
                    "- {} [{}, {}]\n",
                    escaped(&step.line(units)),
                    step.citation,
                    step.citation.seen
                ));
            }
        }
        Block::Verbatim(text) => {
            let fence = "`".repeat(longest_run(text, '`').max(2) + 1);
            out.push_str(&format!("{fence}text\n{}\n{fence}\n", text.trim_end_matches('\n')));
        }
        Block::ToFill(lines) => lines.iter().for_each(|l| out.push_str(&format!("- {l}: ____________________\n"))),
    }
}

fn table(t: &Table, out: &mut String) {
    out.push_str(&format!("{}:\n\n", t.caption));
    let names: Vec<&str> = t.columns.iter().map(|c| c.name).collect();
    out.push_str(&format!("| {} |\n", names.join(" | ")));
    let rules: Vec<&str> = t.columns.iter().map(|c| if c.numbers { "---:" } else { "---" }).collect();
    out.push_str(&format!("|{}|\n", rules.join("|")));
    for row in &t.rows {
        let cells: Vec<String> = row.iter().map(|c| escaped(c)).collect();
        out.push_str(&format!("| {} |\n", cells.join(" | ")));
    }
}

/// Text that Markdown must not read as markup.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | '\r' => out.push(' '),
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '&' | '~' | '!' | '$' => {
                out.push('\\');
                out.push(c);
            }
            _ => out.push(c),
        }
    }
    out
}

fn longest_run(text: &str, of: char) -> usize {
    text.split(|c| c != of).map(str::len).max().unwrap_or(0)
}
