//! The engineer's part: loads with reasons, diagrams, every check step by step, sources.

use super::client::{row, rules};
use super::document::{Block, Column, Table, heading, numbers, words};
use super::{Sheet, program};
use crate::check::{Check, MemberDiagrams, Verdict};
use crate::platform::{Platform, WoodChoice};
use crate::report::drawing::courses;
use crate::report::{Report, say};
use crate::source::Provenance;
use crate::tables::{Fact, Tables};

pub(super) fn blocks(s: &Sheet<'_>) -> Vec<Block> {
    let r = &s.report;
    let mut out = vec![
        Block::Heading { level: 2, text: "Loads and their reasons".into(), new_page: true },
        Block::Table(loads(r)),
        heading(2, "Shear, moment and sag"),
        Block::Paragraph(
            "The governing member of each kind that bends, each effect drawn with the load where it is worst for \
             that effect. Shear is drawn upwards where it is positive, moment and sag downwards. The greatest value \
             is the demand of the check."
                .into(),
        ),
    ];
    out.extend(s.diagrams.iter().map(|m| figure(m, r)));
    out.push(Block::Heading { level: 2, text: "The calculation".into(), new_page: true });
    out.push(Block::Paragraph(format!(
        "By {}. Each line is symbol = expression = numbers = result, its clause, and how whoever entered it saw the \
         clause: read, computed, secondary (somebody's summary), memory, or judgement (a choice made here). A line \
         that stands above for the same part is not repeated.",
        rules(r.platform)
    )));
    for m in r.assessment.governing() {
        out.push(heading(3, format!("{} ({})", m.id, m.made_of)));
        let mut above = Vec::new();
        for c in &m.checks {
            out.extend(calculation(c, r, &mut above));
        }
    }
    out.push(Block::Heading { level: 2, text: "Every check of every part".into(), new_page: true });
    out.push(Block::Table(every(r)));
    out.push(heading(2, "Values from tables"));
    out.extend(values(r.platform, s.tables));
    out.push(heading(2, "To do it again"));
    out.push(Block::Paragraph(format!(
        "{}, on the brief below, whose bytes have this SHA-256 checksum. The same program and brief give this sheet to the byte.",
        program()
    )));
    out.push(Block::Verbatim(s.checksum.clone()));
    if let Some(sum) = &s.own_tables {
        out.push(Block::Paragraph("Rows were added to the tables from a file with this checksum:".into()));
        out.push(Block::Verbatim(sum.clone()));
    }
    out.push(Block::Verbatim(s.brief.to_owned()));
    out
}

fn loads(r: &Report<'_>) -> Table {
    let mut table = Table::new(
        "Load cases",
        &[words("case", 0.18), words("load", 0.3), numbers("places tried", 0.1), words("why this much", 0.42)],
    );
    for c in &r.assessment.cases {
        let changed = if c.changed { " (changed by the brief)" } else { "" };
        table.rows.push(vec![
            c.kind.name().into(),
            format!("{}{changed}", c.load),
            c.positions.to_string(),
            c.reason.clone(),
        ]);
    }
    table
}

fn figure(m: &MemberDiagrams, r: &Report<'_>) -> Block {
    let p = r.platform;
    let each = m.diagrams.iter().map(|d| {
        let place = d.place.as_ref().map(|w| format!(", {}", say::place(w, p))).unwrap_or_default();
        let g = d.greatest();
        format!(
            "{} {} at {} ({}{place})",
            d.effect.name(),
            g.value.show(p.units),
            say::about(g.at, p.units),
            d.case.name()
        )
    });
    let from = if m.member.starts_with("slat") { "from the left rail" } else { "from the head" };
    let caption = format!("{}, measured {from}: {}.", m.member, each.collect::<Vec<_>>().join("; "));
    Block::Figure { drawings: vec![courses(m, p.units)], caption }
}

/// A check step by step, without the steps that stand above already for the same member.
fn calculation(c: &Check, r: &Report<'_>, above: &mut Vec<String>) -> Vec<Block> {
    let units = r.platform.units;
    let mut steps = c.steps();
    steps.retain(|s| {
        let line = format!("{} {}", s.line(units), s.citation);
        let new = !above.contains(&line);
        if new {
            above.push(line);
        }
        new
    });
    let place = c.place.as_ref().map(|w| format!(", {}", say::place(w, r.platform))).unwrap_or_default();
    let when = if c.limit.stands_still() { String::new() } else { format!(": {}{place}", c.case.name()) };
    let (demand, capacity) = (c.demand.show(units), c.capacity.show(units));
    let remark = c.remark.as_ref().map(|t| format!(" Note: {t}.")).unwrap_or_default();
    let result = format!("Demand {demand} / capacity {capacity} = {}: {}.{remark}", say::ratio(c), c.verdict.word());
    vec![heading(4, format!("{}{when}", c.limit.name())), Block::Calculation(steps), Block::Paragraph(result)]
}

/// A row a check.
fn every(r: &Report<'_>) -> Table {
    let columns: [Column; 8] = [
        words("part", 0.2),
        words("limit", 0.13),
        words("worst case", 0.15),
        numbers("ratio", 0.07),
        numbers("margin", 0.09),
        words("verdict", 0.08),
        numbers("demand", 0.14),
        numbers("capacity", 0.14),
    ];
    let mut table = Table::new("All parts and limits", &columns);
    let units = r.platform.units;
    for m in &r.assessment.members {
        for c in &m.checks {
            if c.verdict == Verdict::Fail {
                table.failing.push(table.rows.len());
            }
            let mut cells = row(&m.id, c);
            cells.extend([c.demand.show(units), c.capacity.show(units)]);
            table.rows.push(cells);
        }
    }
    table
}

/// The woods and screws in use, with their values and where those come from.
fn values(p: &Platform, tables: &Tables) -> Vec<Block> {
    let mut names: Vec<String> = vec![wood(&p.slats.stick.wood)];
    for side in &p.sides {
        names.extend([wood(&side.cleat.wood), wood(&side.rail.stick.wood), side.screws.screw.designation.clone()]);
        if let Some(ends) = &side.rail.ends {
            names.extend(ends.kind.screws().map(|(s, _)| s.designation.clone()));
            names.push(wood(&ends.post));
        }
        if let Some(studs) = &side.rail.studs {
            names.extend([studs.screw.designation.clone(), wood(&studs.wood)]);
        }
    }
    names.extend(p.posts.as_ref().map(|posts| wood(&posts.stick.wood)));
    if let Some(g) = &p.guard {
        let screws = [&g.rail_screws.screw, &g.posts.screw].map(|s| s.designation.clone());
        names.extend([wood(&g.rail.wood), wood(&g.posts.stick.wood)].into_iter().chain(screws));
    }
    names.extend(p.ladder.iter().flat_map(|l| [wood(&l.stringer.wood), l.top.screw.designation.clone()]));
    let mut table = Table::new(
        "Woods and screws",
        &[words("entry", 0.22), words("values", 0.44), words("source, and how seen", 0.34)],
    );
    let mut done: Vec<&String> = Vec::new();
    for name in &names {
        if done.contains(&name) {
            continue;
        }
        done.push(name);
        let Ok(entry) = tables.entry(name) else { continue };
        let facts = entry.facts.iter().map(|(label, fact)| match fact {
            Fact::Measure(m) => format!("{label} {}", m.show(p.units)),
            Fact::Text(t) => format!("{label} {t}"),
        });
        let sources: Vec<String> = entry.provenance.iter().map(source).collect();
        table.rows.push(vec![entry.name.clone(), facts.collect::<Vec<_>>().join("; "), sources.join("; ")]);
    }
    vec![Block::Table(table)]
}

/// The name under which a wood stands in its table.
fn wood(w: &WoodChoice) -> String {
    match w {
        WoodChoice::Graded { name, .. } | WoodChoice::Ungraded { name, .. } => name.clone(),
        WoodChoice::Class { name, .. } => name.split(',').next().unwrap_or(name).to_owned(),
    }
}

fn source(p: &Provenance) -> String {
    let note = p.note.as_ref().map(|n| format!(" ({n})")).unwrap_or_default();
    format!("{}, {}, {}: {}{note}", p.source, p.locator, p.edition, p.seen)
}
