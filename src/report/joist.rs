//! How far plain stock may span, as text, as CSV and as JSON.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::answer::{metres, pretty, ratio, table};
use super::chart::{Axis, Chart, Course};
use super::json::{VERSION, ValueJson, six};
use super::text::wrap;
use crate::choose::{Governs, PlainCell, PlainSpan, Use};
use crate::quantity::unit::{METRE_PER_INCH, metre, pascal, psf};
use crate::quantity::{AreaLoad, Length, UnitSystem, length_for_builder, significant};
use crate::rules::allowable_stress::factors::Duration;

/// The cells of a table, and how the stock is used.
#[derive(Clone, Copy, Debug)]
pub struct Joists<'a> {
    /// How it is used; the spacing stands in each cell.
    pub used: &'a Use,
    /// Every wood at every spacing in every size.
    pub cells: &'a [PlainCell],
    /// The reader's units.
    pub units: UnitSystem,
}

impl Governs {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            Governs::Bending => "bending",
            Governs::Shear => "shear",
            Governs::Deflection => "deflection",
            Governs::Cap => "the longest asked for",
        }
    }
}

/// The words of a duration.
pub const DURATIONS: [(&str, Duration); 5] = [
    ("permanent", Duration::Permanent),
    ("ten years", Duration::TenYears),
    ("two months", Duration::TwoMonths),
    ("seven days", Duration::SevenDays),
    ("ten minutes", Duration::TenMinutes),
];

/// Feet and inches to the nearest inch, as span tables print them: `12-3`.
fn feet_inches(s: &PlainSpan) -> String {
    format!("{}-{}", s.nearest_inch / 12, s.nearest_inch % 12)
}

/// One span alone, or a table of them.
pub fn text(j: &Joists<'_>) -> String {
    let mut out = String::new();
    match j.cells {
        [one] => single(j, one, &mut out),
        several => rows(j, several, &mut out),
    }
    wrap(&format!("Loads: {}.", loads(j)), "", "", &mut out);
    wrap(
        "A simple span under an even load, clear between its supports, its upper edge held sideways. Bending and \
         shear under all of the load, sag under the live load alone. What it rests on is not checked, nor are \
         notches, holes and point loads. Local codes and a licensed engineer come first.",
        "",
        "",
        &mut out,
    );
    out
}

fn area(load: AreaLoad, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{} psf", significant(load.value / psf(1.0).value, 3)),
        UnitSystem::Metric => format!("{} kN/m²", significant(load.value / pascal(1e3).value, 3)),
    }
}

fn loads(j: &Joists<'_>) -> String {
    let u = j.used;
    let duration = DURATIONS.iter().find(|(_, d)| *d == u.duration).map_or("", |(w, _)| w);
    let mut parts = vec![
        format!("{} live for {duration}", area(u.live, j.units)),
        format!("{} dead", area(u.dead, j.units)),
        format!("sag at most L/{}", significant(u.limit, 4)),
    ];
    parts.push(if u.conditions.repetitive { "three or more share the load" } else { "each by itself" }.into());
    if u.conditions.wet {
        parts.push("damp".into());
    }
    if u.conditions.incised {
        parts.push("incised".into());
    }
    parts.join(", ")
}

fn single(j: &Joists<'_>, cell: &PlainCell, out: &mut String) {
    let Ok(s) = &cell.longest else { return };
    let l = length_for_builder(s.span, j.units);
    let feet = match j.units {
        UnitSystem::Us => format!(" ({} to the nearest inch)", feet_inches(s)),
        UnitSystem::Metric => String::new(),
    };
    let stop = match s.governs {
        Governs::Cap => "That is the longest that was asked for.".into(),
        g => format!("One step more and its {} reaches {} times what is allowed.", g.name(), ratio(s.beyond)),
    };
    let spacing = spaced(cell.spacing, j.units);
    let say = format!(
        "UP TO {}. A {} of {} on edge, {spacing} centre to centre, may span {l}{feet}. {stop}",
        l.to_uppercase(),
        cell.size,
        cell.wood
    );
    wrap(&say, "", "", out);
    out.push('\n');
    for value in &s.values {
        for step in value.steps().iter().rev().take(1) {
            let source = format!("[{}, {}]", step.citation, step.citation.seen);
            wrap(&format!("{} {source}", step.line(j.units)), "  ", "    ", out);
        }
    }
    out.push('\n');
}

/// A spacing, whose 19.2 in is no fraction on a tape.
fn spaced(spacing: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{} in", significant(spacing.value / METRE_PER_INCH, 4)),
        UnitSystem::Metric => format!("{} mm", significant(spacing.value * 1e3, 4)),
    }
}

fn rows(j: &Joists<'_>, cells: &[PlainCell], out: &mut String) {
    let mut sizes: Vec<&str> = Vec::new();
    for c in cells {
        if !sizes.contains(&c.size.as_str()) {
            sizes.push(&c.size);
        }
    }
    let unit = match j.units {
        UnitSystem::Us => "Longest spans in feet and inches, to the nearest inch",
        UnitSystem::Metric => "Longest spans in millimetres",
    };
    wrap(&format!("{unit}; B bending, S shear, D deflection, M the longest asked for."), "", "", out);
    out.push('\n');
    let cell = |s: &PlainSpan| {
        let letter = match s.governs {
            Governs::Bending => "B",
            Governs::Shear => "S",
            Governs::Deflection => "D",
            Governs::Cap => "M",
        };
        let l = match j.units {
            UnitSystem::Us => feet_inches(s),
            UnitSystem::Metric => format!("{:.0}", s.span.value * 1e3),
        };
        format!("{l} {letter}")
    };
    let mut lines: Vec<Vec<String>> = Vec::new();
    for row in cells.chunks(sizes.len().max(1)) {
        let Some(first) = row.first() else { continue };
        let mut line = vec![spaced(first.spacing, j.units), first.wood.clone()];
        line.extend(row.iter().map(|c| c.longest.as_ref().map_or("none".into(), cell)));
        lines.push(line);
    }
    let header: Vec<&str> = ["spacing", "wood"].into_iter().chain(sizes.iter().copied()).collect();
    let right: Vec<usize> = (2..2 + sizes.len()).collect();
    table(&header, lines, &right, out);
    let mut said: Vec<String> = Vec::new();
    for c in cells {
        if let Err(e) = &c.longest {
            let why = format!("none for {}: {}", c.wood, e.describe(j.units));
            if !said.contains(&why) {
                said.push(why);
            }
        }
    }
    out.push('\n');
    said.iter().for_each(|why| wrap(why, "", "  ", out));
}

/// A cell as CSV has it: quoted where a comma or a quote would break the row.
pub(super) fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.to_owned() }
}

/// The cells as CSV, one a line, lengths in the reader's units.
pub fn csv(j: &Joists<'_>) -> String {
    let (unit, metre) = match j.units {
        UnitSystem::Us => ("in", METRE_PER_INCH),
        UnitSystem::Metric => ("mm", 1e-3),
    };
    let mut out = format!("wood,size,spacing_{unit},span_{unit},span_feet_inches,governs\n");
    for c in j.cells {
        let spacing = significant(c.spacing.value / metre, 6);
        let (span, feet, why) = match &c.longest {
            Ok(s) => (significant(s.span.value / metre, 8), feet_inches(s), s.governs.name().to_owned()),
            Err(e) => (String::new(), String::new(), e.describe(j.units)),
        };
        let line = [c.wood.clone(), c.size.clone(), spacing, span, feet, why].map(|t| quoted(&t)).join(",");
        out.push_str(&line);
        out.push('\n');
    }
    out
}

/// The spans as a chart: span against spacing, a line a size and wood.
pub fn chart(j: &Joists<'_>) -> Chart {
    let mut courses: Vec<Course> = Vec::new();
    for c in j.cells {
        let (name, span) = (format!("{} {}", c.size, c.wood), c.longest.as_ref().ok().map(|s| s.span));
        let k = courses.iter().position(|known| known.name == name).unwrap_or_else(|| {
            courses.push(Course { name, stretches: vec![Vec::new()] });
            courses.len() - 1
        });
        match span {
            Some(span) => {
                courses[k].stretches.last_mut().into_iter().for_each(|s| s.push([c.spacing.value, span.value]))
            }
            None => courses[k].stretches.push(Vec::new()),
        }
    }
    for c in &mut courses {
        c.stretches.retain(|s| !s.is_empty());
    }
    courses.retain(|c| !c.stretches.is_empty());
    let spacings = j.cells.iter().map(|c| c.spacing);
    let (least, most) = spacings.fold((metre(f64::MAX), Length::default()), |(a, b), s| (a.min(s), b.max(s)));
    let spans = courses.iter().flat_map(|c| c.stretches.iter().flatten()).map(|at| at[1]);
    let highest = spans.fold(0.0, f64::max);
    let each = j.cells.iter().map(|c| {
        let span = c.longest.as_ref().map_or("none".into(), |s| length_for_builder(s.span, j.units));
        format!("{} {} at {}: {span}.", c.size, c.wood, spaced(c.spacing, j.units))
    });
    Chart {
        title: format!("Longest span: {}", loads(j)),
        description: each.collect::<Vec<_>>().join(" "),
        x: Axis::lengths("spacing", j.units, [least, most]),
        y: Axis::lengths("longest span", j.units, [Length::default(), metre(highest)]),
        courses,
        mark: None,
    }
}

/// One piece at one spacing.
#[derive(Debug, Serialize, JsonSchema)]
pub struct JoistJson {
    /// Species and grade.
    pub wood: String,
    /// Stock size.
    pub size: String,
    /// Metres, centre to centre.
    pub spacing: ValueJson,
    /// Metres, clear between supports; null when there is none.
    pub span: Option<ValueJson>,
    /// Feet and inches to the nearest inch, halves down.
    pub feet_inches: Option<String>,
    /// What fails one step longer.
    pub governs: Option<&'static str>,
    /// Its ratio one step longer.
    pub beyond: Option<f64>,
    /// Why there is no span.
    pub why: Option<String>,
}

/// The answer to `span` for plain stock.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright spans of plain stock")]
pub struct JoistsJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `span`.
    pub answer: &'static str,
    /// Live load in pascals.
    pub live: ValueJson,
    /// Dead load in pascals.
    pub dead: ValueJson,
    /// The span over this is the most it may sag under the live load.
    pub limit: f64,
    /// How long the live load acts in all.
    pub duration: &'static str,
    /// Three or more share the load.
    pub repetitive: bool,
    /// Damp in use.
    pub damp: bool,
    /// Incised for treatment.
    pub incised: bool,
    /// Every wood at every spacing in every size.
    pub spans: Vec<JoistJson>,
}

/// The cells as JSON.
pub fn json(j: &Joists<'_>) -> String {
    let u = j.used;
    let pascals = |load: AreaLoad| ValueJson { value: six(load.value), unit: "Pa" };
    let one = |c: &PlainCell| {
        let s = c.longest.as_ref().ok();
        JoistJson {
            wood: c.wood.clone(),
            size: c.size.clone(),
            spacing: metres(c.spacing),
            span: s.map(|s| metres(s.span)),
            feet_inches: s.map(feet_inches),
            governs: s.map(|s| s.governs.name()),
            beyond: s.map(|s| six(s.beyond)),
            why: c.longest.as_ref().err().map(|e| e.describe(j.units)),
        }
    };
    pretty(&JoistsJson {
        slatwright: VERSION,
        answer: "span",
        live: pascals(u.live),
        dead: pascals(u.dead),
        limit: u.limit,
        duration: DURATIONS.iter().find(|(_, d)| *d == u.duration).map_or("", |(w, _)| w),
        repetitive: u.conditions.repetitive,
        damp: u.conditions.wet,
        incised: u.conditions.incised,
        spans: j.cells.iter().map(one).collect(),
    })
}

/// The JSON Schema of that answer.
pub fn schema() -> Schema {
    schema_for!(JoistsJson)
}
