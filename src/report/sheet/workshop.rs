//! The workshop's page: what to cut, what to buy, where to drill, in both systems of units.

use super::Sheet;
use super::document::{Block, Table, numbers, words};
use crate::check::{Hardware, Section};
use crate::quantity::unit::{METRE_PER_INCH, inch};
use crate::quantity::{Length, UnitSystem, fraction_of_inch, length_for_builder, significant};

pub(super) fn blocks(s: &Sheet<'_>) -> Vec<Block> {
    let (schedule, units) = (&s.schedule, s.report.platform.units);
    let mut pieces = Table::new(
        "Cut list",
        &[
            words("piece", 0.14),
            numbers("count", 0.08),
            words("section", 0.3),
            words("length", 0.22),
            words("wood", 0.26),
        ],
    );
    for p in &schedule.pieces {
        let section = both(units, |u| section(&p.section, u));
        let stock = match &p.section {
            Section::Pipe(name, _) => format!(", pipe {name}"),
            _ => p.stock.as_ref().map(|s| format!(", from {s}")).unwrap_or_default(),
        };
        let note = p.note.as_ref().map(|n| format!(", {n}")).unwrap_or_default();
        let length = format!("{}{note}", both(units, |u| length_for_builder(p.length, u)));
        pieces.rows.push(vec![p.what.clone(), p.count.to_string(), section + &stock, length, p.wood.clone()]);
    }
    let mut hardware = Table::new(
        "Hardware",
        &[
            words("joint", 0.18),
            words("screw", 0.16),
            numbers("count", 0.08),
            words("pattern", 0.3),
            words("holes", 0.28),
        ],
    );
    for h in &schedule.hardware {
        hardware.rows.push(vec![
            h.what.clone(),
            h.screw.clone(),
            if h.count == 0 { "none".into() } else { h.count.to_string() },
            pattern(h, units),
            holes(h, units),
        ]);
    }
    vec![
        Block::Heading { level: 2, text: "Cut and hardware schedule".into(), new_page: true },
        Block::Table(pieces),
        Block::Table(hardware),
        Block::List(schedule.notes.clone()),
    ]
}

fn section(s: &Section, units: UnitSystem) -> String {
    match (s, units) {
        (Section::Rectangle([t, w]), UnitSystem::Us) => format!("{} x {}", bare(*t), fraction_of_inch(*w)),
        (Section::Rectangle([t, w]), UnitSystem::Metric) => {
            format!("{} x {}", bare_millimetres(*t), length_for_builder(*w, units))
        }
        (Section::Round(d), _) => format!("round, {}", length_for_builder(*d, units)),
        (Section::Pipe(_, d), _) => format!("{} outside", length_for_builder(*d, units)),
    }
}

/// A measure in the reader's units with the other system's after it.
fn both(units: UnitSystem, say: impl Fn(UnitSystem) -> String) -> String {
    let other = match units {
        UnitSystem::Us => UnitSystem::Metric,
        UnitSystem::Metric => UnitSystem::Us,
    };
    format!("{} ({})", say(units), say(other))
}

fn bare(l: Length) -> String {
    fraction_of_inch(l).trim_end_matches(" in").to_owned()
}

fn bare_millimetres(l: Length) -> String {
    length_for_builder(l, UnitSystem::Metric).trim_end_matches(" mm").to_owned()
}

fn pattern(h: &Hardware, units: UnitSystem) -> String {
    let each = h.pattern.iter().map(|(what, l)| format!("{what} {}", both(units, |u| length_for_builder(*l, u))));
    let all = each.collect::<Vec<_>>().join("; ");
    if all.is_empty() { "the brief gives none".into() } else { all }
}

fn holes(h: &Hardware, units: UnitSystem) -> String {
    let mut each: Vec<String> = Vec::new();
    for hole in &h.holes {
        let [least, most] = hole.diameter;
        let size = both(units, |u| if least == most { drill(least, u) } else { range(least, most, u) });
        each.push(format!("{size} {} [{}]", hole.place, hole.source));
    }
    each.extend(h.no_holes.clone());
    if each.is_empty() { "none asked for".into() } else { each.join("; ") }
}

/// A drill no larger than the hole: sixty-fourths of an inch, or tenths of a millimetre.
fn drill(d: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => {
            let mut top = (d.value / METRE_PER_INCH * 64.0 + 1e-9).floor() as u64;
            let mut bottom = 64;
            while top > 0 && top.is_multiple_of(2) && bottom > 1 {
                top /= 2;
                bottom /= 2;
            }
            let whole = inch(1.0);
            if bottom == 1 || d >= whole { fraction_of_inch(d) } else { format!("{top}/{bottom} in") }
        }
        UnitSystem::Metric => format!("{} mm", significant((d.value * 1e4 + 1e-6).floor() / 10.0, 3)),
    }
}

fn range(least: Length, most: Length, units: UnitSystem) -> String {
    let (a, b) = (drill(least, units), drill(most, units));
    format!("{} to {b}", a.trim_end_matches(" in").trim_end_matches(" mm"))
}
