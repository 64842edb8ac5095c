//! `slatwright timber`

use comfy_table::{ContentArrangement, Table};

use super::{NOT_COMPUTED, PASSES, Streams, TimberArguments, input};
use crate::quantity::UnitSystem;
use crate::tables::{Entry, Fact};

pub(super) fn run(a: &TimberArguments, streams: &mut Streams<'_>) -> u8 {
    let tables = match input::tables(a.tables.as_deref(), streams) {
        Ok(t) => t,
        Err(status) => return status,
    };
    let asked = a.words.join(" ");
    let units = a.units.into();
    if asked.trim().is_empty() {
        return streams.print(&kinds(&tables.search("")), PASSES);
    }
    if let Ok(entry) = tables.entry(&asked) {
        return streams.print(&one(&entry, units), PASSES);
    }
    match tables.search(&asked).as_slice() {
        [] => {
            let help = tables.entry(&asked).err().map(|e| e.help()).unwrap_or_default();
            streams.fail(&format!("nothing in the tables is called `{asked}`; {help}"));
            NOT_COMPUTED
        }
        [entry] => streams.print(&one(entry, units), PASSES),
        several => streams.print(&list(several), PASSES),
    }
}

/// How much there is of each kind, for somebody who named nothing.
fn kinds(all: &[Entry]) -> String {
    let mut out = String::from("The tables hold:\n\n");
    let mut kinds: Vec<&str> = all.iter().map(|e| e.table).collect();
    kinds.dedup();
    for kind in kinds {
        let of_kind: Vec<&Entry> = all.iter().filter(|e| e.table == kind).collect();
        let first = of_kind.first().map_or("", |e| e.name.as_str());
        out.push_str(&format!("  {kind:<14} {:>4} entries, such as `{first}`\n", of_kind.len()));
    }
    out.push_str("\nName a kind, a word or an entry: `slatwright timber lumber`, `slatwright timber maple`,\n");
    out.push_str("`slatwright timber spruce-pine-fir no2`. One entry is shown with its sources.\n");
    out
}

fn list(entries: &[Entry]) -> String {
    let mut table = Table::new();
    table.load_style(comfy_table::presets::NOTHING).set_content_arrangement(ContentArrangement::Disabled);
    for e in entries {
        table.add_row([e.table, e.name.as_str()]);
    }
    let mut out: String = table.to_string().lines().map(|l| l.trim_end().to_owned() + "\n").collect();
    out.push_str(&format!("\n{} entries; name one to see its values and sources\n", entries.len()));
    out
}

fn one(e: &Entry, units: UnitSystem) -> String {
    let mut out = format!("{} ({})\n\n", e.name, e.table);
    let width = e.facts.iter().map(|(l, _)| l.chars().count()).max().unwrap_or(0);
    for (n, (label, fact)) in e.facts.iter().enumerate() {
        // Values for another size begin a block of their own.
        if n > 0 && label == "for" {
            out.push('\n');
        }
        let value = match fact {
            Fact::Measure(m) => m.show(units),
            Fact::Text(t) => t.clone(),
        };
        let pad = " ".repeat(width - label.chars().count());
        let first = format!("  {label}{pad}  ");
        let rest = " ".repeat(width + 4);
        wrap(&value, &first, &rest, &mut out);
    }
    out.push('\n');
    for p in &e.provenance {
        let text = format!("source: {}, {}, {}. Seen: {}.", p.source, p.locator, p.edition, p.seen);
        wrap(&text, "  ", "    ", &mut out);
        if let Some(note) = &p.note {
            wrap(note, "    note: ", "      ", &mut out);
        }
    }
    out
}

fn wrap(text: &str, first: &str, rest: &str, out: &mut String) {
    let options = textwrap::Options::new(80).initial_indent(first).subsequent_indent(rest);
    for line in textwrap::wrap(text, options) {
        out.push_str(line.trim_end());
        out.push('\n');
    }
}
