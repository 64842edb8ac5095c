//! The client's page: what was built and for whom, whether it carries them, and by what margin.

use super::document::{Block, Table, heading, numbers, words};
use super::{Sheet, program};
use crate::brief::{Edge, LayWord, RuleFamily};
use crate::check::{Check, Limit, Verdict};
use crate::platform::{EndJoint, EndKind, Fixing, Holder, LongSide, Platform, Stick, Top};
use crate::quantity::{Length, Mass, Measured, length_for_builder};
use crate::report::drawing::{across, elevation, plan, sections};
use crate::report::{Report, say, text};

pub(super) fn blocks(s: &Sheet<'_>) -> Vec<Block> {
    let r = &s.report;
    let verdict = r.assessment.verdict();
    let mut out = vec![
        Block::Verdict(verdict, say::verdict(r)),
        heading(2, "What was built, and for whom"),
        Block::Facts(rating(s).into_iter().chain(facts(r)).collect()),
        heading(2, "What is in hand"),
        Block::Paragraph(
            "The governing part of each kind. The ratio is demand over capacity, rounded up: 1.00 passes. The \
             margin is capacity over demand, less one."
                .into(),
        ),
        Block::Table(margins(r)),
    ];
    if verdict != Verdict::Pass && !r.remedies.is_empty() {
        out.push(heading(2, "What would make it pass"));
        out.push(Block::Paragraph("Each was tried by checking the changed platform.".into()));
        out.push(Block::List(r.remedies.iter().map(|m| m.sentence(r.platform.units)).collect()));
    }
    out.push(heading(2, "The platform to scale"));
    out.push(Block::Figure {
        drawings: vec![plan(r)],
        caption: "Plan. Shading and hatching tell how much of its capacity each part uses at its worst; the ratio \
                  of each slat stands at the right."
            .into(),
    });
    out.push(Block::Figure {
        drawings: vec![across(r)],
        caption: "Section across the middle, looking towards the head. What is behind the cut is drawn too: posts, \
                  legs, the guard's posts, the ladder."
            .into(),
    });
    out.extend(elevation(r).map(|drawing| Block::Figure {
        drawings: vec![drawing],
        caption: "A long side from outside, its slats and what stands beyond it left out.".into(),
    }));
    out.push(Block::Figure {
        drawings: sections(r),
        caption: "Section through a long side. Each kind of part is shaded by its worst.".into(),
    });
    out.push(heading(2, "What it is to carry"));
    out.push(Block::Table(carries(r)));
    if !r.assessment.predictions.is_empty() {
        out.push(heading(2, "What is predicted, and decides nothing"));
        out.push(Block::Paragraph(
            "A bed is no floor, and no test was made: these are the loads of codes for floors and of published \
             tests for furniture, and what they would do."
                .into(),
        ));
        out.push(Block::List(text::prediction_lines(r)));
    }
    if let Some(o) = &r.assessment.openings {
        out.push(heading(2, "Guards, openings and heights"));
        out.push(Block::Paragraph(format!(
            "Figures of {}; what is kept here conforms to nothing by that.",
            o.jurisdiction.place()
        )));
        out.push(Block::List(text::opening_lines(r)));
    }
    out.push(heading(2, "What was taken for granted"));
    out.push(Block::List(assumed(r)));
    out.push(heading(2, "Before anyone sleeps on it"));
    out.push(Block::List(r.assessment.cautions.clone()));
    if !r.assessment.not_checked.is_empty() {
        out.push(heading(2, "What was not checked"));
        let not: Vec<_> = r.assessment.not_checked.iter().map(|n| format!("{}: {}", n.what, n.why)).collect();
        out.push(Block::List(not));
    }
    out.push(heading(2, "Signed"));
    out.push(Block::Paragraph(
        "Local codes come first, and where they ask for it so does the judgement of a licensed engineer: this \
         sheet is what such a person may check, and does not stand in their place."
            .into(),
    ));
    out.push(Block::ToFill(vec!["Built by", "Checked by", "Received by", "Date"]));
    out
}

/// The rules in words.
pub(super) fn rules(p: &Platform) -> &'static str {
    match p.rules {
        RuleFamily::AllowableStress => "US allowable stress design (NDS 2018)",
        RuleFamily::LimitState => "Eurocode 5 (EN 1995-1-1)",
    }
}

fn facts(r: &Report<'_>) -> Vec<(String, String)> {
    let p = r.platform;
    let l = |v: Length| length_for_builder(v, p.units);
    let mut out = Vec::new();
    let mut fact = |name: &str, text: String| out.push((name.to_owned(), text));
    let height = p.height.map(|h| format!("; slat tops {} above the floor", l(h))).unwrap_or_default();
    fact("Platform", format!("{} along the rails, {} between them, both clear{height}", l(p.length), l(p.width)));
    fact("Sleepers", people(p));
    if let Some(v) = &p.visitor {
        fact("Visitor", format!("somebody of {} who sits down", v.mass.measure().show_to(p.units, 3)));
    }
    let mattress = match p.mattress.thickness == Length::default() {
        true => "none: bare slats".into(),
        false => format!("{} thick, {}", l(p.mattress.thickness), p.mattress.mass.measure().show_to(p.units, 3)),
    };
    fact("Mattress", mattress);
    let s = &p.slats;
    let lay = if s.lay == LayWord::Flat { "laid flat" } else { "on edge" };
    let held = if s.fixed { "screwed down" } else { "loose" };
    let (size, wood) = (s.stick.size_text(p.units), s.stick.wood.name());
    fact("Slats", format!("{} of {size}, {wood}; {lay}, {} apart, {held}", s.count, l(s.gap)));
    let texts = [cleat, rail, ends].map(|say| [say(&p.sides[0], p), say(&p.sides[1], p)]);
    for (name, [left, right]) in ["Cleats", "Rails", "Rails held by"].into_iter().zip(texts) {
        fact(name, if left == right { left } else { format!("left: {left}; right: {right}") });
    }
    if let Some(e) = &p.end_rails {
        let (size, wood, held) = (e.stick.size_text(p.units), e.stick.wood.name(), joint(&e.ends, p));
        let beside = match e.inset == Length::default() {
            true => "right beside what holds them".into(),
            false => format!("{} in from what holds them", l(e.inset)),
        };
        fact("End rails", format!("{size}, {wood}; the side rails {beside}; held by {held}"));
    }
    if let Some(beam) = &p.centre_beam {
        let (size, wood) = (beam.stick.size_text(p.units), beam.stick.wood.name());
        let legs = beam.legs.as_ref().map(|legs| {
            let (n, size) = (legs.positions.len(), legs.stick.size_text(p.units));
            let each = if n == 1 { "a leg" } else { &format!("{n} legs") };
            format!("; on {each} of {size}, {}, {} long", legs.stick.wood.name(), l(legs.length))
        });
        let held = if beam.fixed { "screwed to it" } else { "not screwed to it" };
        let at = l(beam.at);
        let legs = legs.unwrap_or_default();
        fact("Centre beam", format!("{size}, {wood}, its middle {at} from the left rail; slats {held}{legs}"));
    }
    if let Some(posts) = &p.posts {
        let top = match posts.top {
            Top::Free => "swaying with the platform",
            Top::Braced => "braced",
            Top::Wall => "held by a wall",
        };
        let [left, right] = posts.lengths;
        let length = if left == right { l(left) } else { format!("{} and {}", l(left), l(right)) };
        let (size, wood) = (posts.stick.size_text(p.units), posts.stick.wood.name());
        fact("Posts", format!("{size}, {wood}, {length} long, their tops {top}"));
    }
    if let Some(text) = braces(p) {
        fact("Braces", text);
    }
    if let Some(g) = &p.guard {
        let edges: Vec<&str> = g.edges.iter().map(|e| e.name()).collect();
        let rail = format!("{}, {}", g.rail.size_text(p.units), g.rail.wood.name());
        let posts = format!("{}, {}", g.posts.stick.size_text(p.units), g.posts.stick.wood.name());
        let top = l(g.top);
        fact("Guard", format!("{}; its top {top} above the slats; rail {rail}; posts {posts}", edges.join(", ")));
    }
    if let Some(ladder) = &p.ladder {
        let (rungs, wide, apart) = (ladder.rungs().len(), l(ladder.width), l(ladder.pitch));
        let text = format!("{}; {rungs} rungs, {wide} between the stringers, {apart} apart", ladder.edge.name());
        fact("Ladder", text);
    }
    fact("Rules", format!("{}, wood {} in use", rules(p), if p.damp { "damp" } else { "dry" }));
    fact("Computed by", program());
    out
}

/// What keeps the posts upright, so far as the brief describes it.
fn braces(p: &Platform) -> Option<String> {
    let l = |v: Length| length_for_builder(v, p.units);
    let made = |stick: &Stick, screws: &Fixing| {
        let (size, wood, screw) = (stick.size_text(p.units), stick.wood.name(), &screws.screw.designation);
        format!("{size}, {wood}, {} screws {screw} in each end", screws.count)
    };
    let edges = |edges: &[Edge]| edges.iter().map(|e| e.name()).collect::<Vec<_>>().join(", ");
    let bracing = &p.bracing;
    let mut out = Vec::new();
    if !bracing.walls.is_empty() {
        out.push(format!("fixed to a wall ({})", edges(&bracing.walls)));
    }
    if p.posts.is_some() {
        out.extend(bracing.knees.as_ref().map(|k| {
            let (down, along, made) = (l(k.rise), l(k.run), made(&k.stick, &k.screws));
            format!("knee braces {down} down and {along} along the rails, {made}")
        }));
        let crossed = bracing.diagonals.as_ref();
        out.extend(crossed.map(|d| format!("crossed diagonals ({}), {}", edges(&d.edges), made(&d.stick, &d.screws))));
    }
    if !bracing.panels.is_empty() {
        out.push(format!("panels ({})", edges(&bracing.panels)));
    }
    (!out.is_empty()).then(|| out.join("; "))
}

/// The load rating, in the client's units.
fn rating(s: &Sheet<'_>) -> Option<(String, String)> {
    let (h, units) = (s.rating.as_ref()?, s.report.platform.units);
    let weight = |m: Mass| m.measure().show_to(units, 3);
    let holes = h.holes.iter().map(|[a, b]| format!(", but not from {} to {}", weight(*a), weight(*b)));
    let text = match h.mass {
        Some(m) => format!("every sleeper may weigh up to {}{}", weight(m), holes.collect::<String>()),
        None => "no sleeper is light enough for it as drawn".into(),
    };
    Some(("Load rating".into(), text))
}

/// `2 sleepers of 90 kg, 1 of 60 kg`.
fn people(p: &Platform) -> String {
    let mut weights: Vec<(String, usize)> = Vec::new();
    for s in &p.sleepers {
        let w = s.mass.measure().show_to(p.units, 3);
        match weights.iter_mut().find(|(known, _)| *known == w) {
            Some((_, n)) => *n += 1,
            None => weights.push((w, 1)),
        }
    }
    let each = weights.iter().map(|(w, n)| if *n == 1 { format!("one of {w}") } else { format!("{n} of {w}") });
    each.collect::<Vec<_>>().join(", ")
}

fn cleat(side: &LongSide, p: &Platform) -> String {
    let row = &side.screws;
    format!(
        "{}, {}; {} screws {}, {} apart",
        side.cleat.size_text(p.units),
        side.cleat.wood.name(),
        row.positions.len(),
        row.screw.designation,
        length_for_builder(row.spacing(), p.units)
    )
}

fn rail(side: &LongSide, p: &Platform) -> String {
    format!("{}, {}", side.rail.stick.size_text(p.units), side.rail.stick.wood.name())
}

fn ends(side: &LongSide, p: &Platform) -> String {
    let mut parts: Vec<String> = side.rail.ends.iter().map(|e| joint(e, p)).collect();
    if let Some(s) = &side.rail.studs {
        parts.push(format!("{} screws {} in each of {} studs", s.count, s.screw.designation, s.positions.len()));
    }
    parts.join(", and ")
}

/// What holds the ends of a rail.
fn joint(e: &EndJoint, p: &Platform) -> String {
    let holder = match e.holder {
        Holder::Post => "a post",
        Holder::EndRail => "an end rail",
    };
    match &e.kind {
        EndKind::SideGrain { screw, count } => {
            format!("{count} screws {} into {holder} at each end", screw.designation)
        }
        EndKind::EndGrain { screw, count, .. } => {
            format!("{count} screws {} through {holder} into each end", screw.designation)
        }
        EndKind::Bolts(bolts) => {
            format!("{} bolts {} through {holder} at each end", bolts.count, bolts.bolt.designation)
        }
        EndKind::Pocket { screw, count } => format!("{count} pocket screws {} at each end", screw.designation),
        EndKind::Bearing { length } => {
            let on = if e.holder == Holder::EndRail { " on an end rail" } else { "" };
            format!("resting {}{on} at each end", length_for_builder(*length, p.units))
        }
        EndKind::Notch(notch) => {
            let (on, deep) = (length_for_builder(notch.length, p.units), length_for_builder(notch.depth, p.units));
            format!("resting {on} at each end in a notch {deep} deep in {holder}")
        }
        EndKind::Glue => "glue alone".into(),
    }
}

/// The load cases as a client reads them.
fn carries(r: &Report<'_>) -> Table {
    let mut table = Table::new("Loads it was checked for", &[words("what happens", 0.3), words("load", 0.7)]);
    for c in &r.assessment.cases {
        let changed = if c.changed { " (changed by the brief)" } else { "" };
        table.rows.push(vec![c.kind.name().into(), format!("{}{changed}", c.load)]);
    }
    for d in r.platform.changes.iter().filter(|c| c.dropped) {
        table.rows.push(vec![d.key.into(), "left out by the brief".into()]);
    }
    table
}

/// One row a role, and each further limit that fails.
fn margins(r: &Report<'_>) -> Table {
    let columns = [
        words("part", 0.3),
        words("limit", 0.18),
        words("worst case", 0.22),
        numbers("ratio", 0.1),
        numbers("margin", 0.1),
        words("verdict", 0.1),
    ];
    let mut table = Table::new("The governing part of each kind", &columns);
    for m in r.assessment.governing() {
        let mut shown: Vec<&Check> = m.checks.iter().filter(|c| c.verdict == Verdict::Fail).collect();
        if shown.is_empty() {
            shown.extend(m.worst());
        }
        shown.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
        for c in shown {
            if c.verdict == Verdict::Fail {
                table.failing.push(table.rows.len());
            }
            table.rows.push(row(&m.id, c));
        }
    }
    table
}

/// A check as a row.
pub(super) fn row(id: &str, c: &Check) -> Vec<String> {
    let texts = [id, c.limit.name(), say::case(c)].map(str::to_owned);
    texts.into_iter().chain([say::ratio(c), say::margin(c), c.verdict.word().into()]).collect()
}

/// What the brief left open, and the models that stand in for a missing rule.
fn assumed(r: &Report<'_>) -> Vec<String> {
    let mut out = r.assessment.assumptions.clone();
    for m in r.assessment.governing() {
        for c in m.checks.iter().filter(|c| matches!(c.limit, Limit::Joint | Limit::Screw)) {
            let Some(remark) = &c.remark else { continue };
            let said = format!("{}: {remark}", m.role.name());
            if !out.contains(&said) {
                out.push(said);
            }
        }
    }
    if out.is_empty() {
        out.push("Nothing beyond what the brief says.".into());
    }
    out
}
