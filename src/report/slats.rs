//! How far other slats could span, as text, as CSV, as JSON and as a chart.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::answer::{BEAR_IN_MIND, kg, metres, pretty, rules_word, table, weight};
use super::chart::{Axis, Chart, Course, Mark};
use super::joist::quoted;
use super::json::{VERSION, ValueJson};
use super::say::printable;
use super::text::wrap;
use super::widest::{PartSpanJson, part_json};
use crate::choose::{PartSpan, SlatCell, SlatRow, SlatTable};
use crate::platform::Platform;
use crate::quantity::unit::{METRE_PER_INCH, pound};
use crate::quantity::{Length, UnitSystem, length_for_builder, significant};

/// A length without its unit, as a column under a heading with it.
fn bare(l: Length, units: UnitSystem) -> String {
    length_for_builder(l, units).trim_end_matches(" in").trim_end_matches(" mm").to_owned()
}

fn unit(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Us => "in",
        UnitSystem::Metric => "mm",
    }
}

/// `1-1/2 x 3-1/2 in` or `2x4`.
fn size(row: &SlatRow, units: UnitSystem) -> String {
    match (row.section, &row.stock.size, row.stock.thickness) {
        (Some([t, w]), ..) => format!("{} x {}", bare(t, units), length_for_builder(w, units)),
        (None, Some(size), _) => size.clone(),
        (None, None, Some(t)) => format!("{} thick", length_for_builder(t, units)),
        (None, None, None) => "as drawn".into(),
    }
}

fn name(row: &SlatRow, units: UnitSystem) -> String {
    let drawn = if row.as_drawn { ", as drawn" } else { "" };
    let wood = if row.wood.is_empty() { String::new() } else { format!(", {}", row.wood) };
    format!("{}{wood}{drawn}", size(row, units))
}

/// The width, when there is one.
fn width(found: &Result<PartSpan, String>) -> Option<Length> {
    found.as_ref().ok().and_then(|f| f.width)
}

/// Whether another part of the platform stops sooner than the slats.
fn stops_sooner(c: &SlatCell) -> bool {
    width(&c.slats).is_some_and(|w| width(&c.whole).is_none_or(|all| all < w))
}

fn has_holes(c: &SlatCell) -> bool {
    c.slats.as_ref().is_ok_and(|s| !s.holes.is_empty())
}

fn cell(c: &SlatCell, units: UnitSystem) -> String {
    let Ok(s) = &c.slats else { return "-".into() };
    let Some(span) = s.slat_span else { return "none".into() };
    let more = if s.open { "+" } else { "" };
    let sooner = if stops_sooner(c) { "*" } else { "" };
    let holes = if has_holes(c) { "~" } else { "" };
    format!("{}{more}{sooner}{holes}", bare(span, units))
}

/// The table as text: 80 columns.
pub fn text(p: &Platform, t: &SlatTable) -> String {
    let mut out = String::new();
    wrap(&printable(&p.title), "", "", &mut out);
    out.push('\n');
    let say = format!(
        "Longest span of the slats in {}, between the middles of their bearings, when every sleeper weighs so much. \
         The platform's width is changed, all else is as in the brief.",
        if p.units == UnitSystem::Us { "inches" } else { "millimetres" }
    );
    wrap(&say, "", "", &mut out);
    out.push('\n');
    let count = t.rows.first().map_or(0, |r| r.cells.len());
    for from in (0..count).step_by(COLUMNS) {
        columns(p, t, from, &mut out);
        out.push('\n');
    }
    let cells = || t.rows.iter().flat_map(|r| &r.cells);
    let notes = [
        (cells().any(stops_sooner), "* another part of the platform stops sooner: see check, or --format csv"),
        (cells().any(|c| c.slats.as_ref().is_ok_and(|s| s.open)), "+ the widest a brief may have still passes"),
        (cells().any(has_holes), "~ not every narrower platform passes"),
        (cells().any(|c| c.slats.as_ref().is_ok_and(|s| s.width.is_none())), "none: no width passes"),
    ];
    notes.iter().filter(|(said, _)| *said).for_each(|(_, note)| wrap(note, "", "  ", &mut out));
    for r in &t.rows {
        let why = r.cells.iter().find_map(|c| c.slats.as_ref().err());
        why.into_iter().for_each(|why| wrap(&format!("- {}: {why}", name(r, p.units)), "", "  ", &mut out));
    }
    wrap(&drawn(p, t), "", "", &mut out);
    out.push('\n');
    wrap(BEAR_IN_MIND, "", "", &mut out);
    out
}

/// How many weights stand side by side.
const COLUMNS: usize = 6;

/// The weights from one on, as many as fit.
fn columns(p: &Platform, t: &SlatTable, from: usize, out: &mut String) {
    let shown = |r: &SlatRow| r.cells.iter().skip(from).take(COLUMNS).cloned().collect::<Vec<_>>();
    let weights: Vec<String> =
        t.rows.first().map(|r| shown(r).iter().map(|c| weight(c.sleeper, p.units)).collect()).unwrap_or_default();
    let header: Vec<&str> = ["slats"].into_iter().chain(weights.iter().map(String::as_str)).collect();
    let row = |r: &SlatRow| -> Vec<String> {
        [name(r, p.units)].into_iter().chain(shown(r).iter().map(|c| cell(c, p.units))).collect()
    };
    let right: Vec<usize> = (1..header.len()).collect();
    table(&header, t.rows.iter().map(row).collect(), &right, out);
}

fn drawn(p: &Platform, t: &SlatTable) -> String {
    format!(
        "As drawn the slats span {}, and the heaviest sleeper weighs {}.",
        length_for_builder(t.drawn_span, p.units),
        weight(t.drawn_sleeper, p.units)
    )
}

/// The table as CSV, a cell a line, in the reader's units.
pub fn csv(p: &Platform, t: &SlatTable) -> String {
    let units = p.units;
    let (metre, mass, kilogram) = match units {
        UnitSystem::Us => (METRE_PER_INCH, "lb", pound(1.0).value),
        UnitSystem::Metric => (1e-3, "kg", 1.0),
    };
    let u = unit(units);
    let mut out = format!(
        "wood,size,thickness_{u},width_{u},sleeper_{mass},slat_span_{u},platform_width_{u},whole_slat_span_{u},\
         whole_platform_width_{u},stopped_by,why_none\n"
    );
    let l = |v: Option<Length>| v.map_or(String::new(), |v| significant(v.value / metre, 8));
    for r in &t.rows {
        for c in &r.cells {
            let span = |f: &Result<PartSpan, String>| l(f.as_ref().ok().and_then(|s| s.slat_span));
            let whole = c.whole.as_ref().ok();
            let stopped = whole.and_then(|w| w.stopped_by.as_ref());
            let stopped = stopped.map_or(String::new(), |w| format!("{} {}", w.member, w.limit.name()));
            let line = [
                r.wood.clone(),
                r.stock.size.clone().unwrap_or_default(),
                l(r.section.map(|s| s[0])),
                l(r.section.map(|s| s[1])),
                significant(c.sleeper.value / kilogram, 6),
                span(&c.slats),
                l(width(&c.slats)),
                span(&c.whole),
                l(width(&c.whole)),
                stopped,
                c.slats.as_ref().err().cloned().unwrap_or_default(),
            ];
            out.push_str(&line.map(|t| quoted(&t)).join(","));
            out.push('\n');
        }
    }
    out
}

/// One stock under sleepers of one weight.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SlatCellJson {
    /// What every sleeper weighs.
    pub sleeper: ValueJson,
    /// The widest platform at which the slats carry their load; null where it cannot be built.
    pub slats: Option<PartSpanJson>,
    /// The widest at which the whole platform does.
    pub whole: Option<PartSpanJson>,
    /// Why it cannot be built.
    pub cannot: Option<String>,
}

/// One stock.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SlatRowJson {
    /// The slats of the brief.
    pub as_drawn: bool,
    /// The wood.
    pub wood: String,
    /// Stock size if one was asked for.
    pub size: Option<String>,
    /// Thickness and width as built.
    pub section: Option<[ValueJson; 2]>,
    /// Under every weight.
    pub cells: Vec<SlatCellJson>,
}

/// The answer to `span --table` for a brief.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright spans of other slats")]
pub struct SlatTableJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `span`.
    pub answer: &'static str,
    /// Title from the brief.
    pub title: String,
    /// `asd` or `ec5`.
    pub rules: &'static str,
    /// The slats' longest span as drawn.
    pub drawn_span: ValueJson,
    /// The heaviest sleeper in the brief.
    pub drawn_sleeper: ValueJson,
    /// Every stock.
    pub stock: Vec<SlatRowJson>,
}

/// The table as JSON.
pub fn json(p: &Platform, t: &SlatTable) -> String {
    let cell = |c: &SlatCell| SlatCellJson {
        sleeper: kg(c.sleeper),
        slats: c.slats.as_ref().ok().map(part_json),
        whole: c.whole.as_ref().ok().map(part_json),
        cannot: c.slats.as_ref().err().cloned(),
    };
    let row = |r: &SlatRow| SlatRowJson {
        as_drawn: r.as_drawn,
        wood: r.wood.clone(),
        size: r.stock.size.clone(),
        section: r.section.map(|s| s.map(metres)),
        cells: r.cells.iter().map(cell).collect(),
    };
    pretty(&SlatTableJson {
        slatwright: VERSION,
        answer: "span",
        title: p.title.clone(),
        rules: rules_word(p.rules),
        drawn_span: metres(t.drawn_span),
        drawn_sleeper: kg(t.drawn_sleeper),
        stock: t.rows.iter().map(row).collect(),
    })
}

/// The JSON Schema of that answer.
pub fn schema() -> Schema {
    schema_for!(SlatTableJson)
}

/// The table as a chart: span against the sleepers' weight, a line a stock.
pub fn chart(p: &Platform, t: &SlatTable) -> Chart {
    let mut courses = Vec::new();
    let mut said = Vec::new();
    for r in &t.rows {
        let mut stretches: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
        for c in &r.cells {
            match c.slats.as_ref().ok().and_then(|s| s.slat_span) {
                Some(span) => stretches.last_mut().into_iter().for_each(|s| s.push([c.sleeper.value, span.value])),
                None => stretches.push(Vec::new()),
            }
        }
        stretches.retain(|s| !s.is_empty());
        said.push(format!("{}: {}.", name(r, p.units), reached(r, p.units)));
        if !stretches.is_empty() {
            courses.push(Course { name: name(r, p.units), stretches });
        }
    }
    let spans = courses.iter().flat_map(|c| c.stretches.iter().flatten()).map(|at| at[1]);
    let highest = spans.fold(t.drawn_span.value, f64::max);
    let masses = t.rows.iter().flat_map(|r| r.cells.iter().map(|c| c.sleeper));
    let (least, most) = masses.fold((t.drawn_sleeper, t.drawn_sleeper), |(a, b), m| (a.min(m), b.max(m)));
    let mark = Mark {
        at: [t.drawn_sleeper.value, t.drawn_span.value],
        name: format!("drawn: {}", length_for_builder(t.drawn_span, p.units)),
    };
    said.push(drawn(p, t));
    Chart {
        title: format!("Longest slat span: {}", printable(&p.title)),
        description: said.join(" "),
        x: Axis::masses("every sleeper's weight", p.units, [least, most]),
        y: Axis::lengths("longest slat span", p.units, [Length::default(), crate::quantity::unit::metre(highest)]),
        courses,
        mark: Some(mark),
    }
}

/// `62 in at 100 lb, 55 in at 200 lb`.
fn reached(r: &SlatRow, units: UnitSystem) -> String {
    let of = |c: &SlatCell| {
        let span = c.slats.as_ref().ok().and_then(|s| s.slat_span);
        let span = span.map_or("none".into(), |s| length_for_builder(s, units));
        format!("{span} at {}", weight(c.sleeper, units))
    };
    r.cells.iter().map(of).collect::<Vec<_>>().join(", ")
}
