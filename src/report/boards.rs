//! What a weight and a dip say of boards, as text and as JSON.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::answer::{pretty, table};
use super::json::{VERSION, ValueJson, six};
use super::say::printable;
use super::text::wrap;
use crate::check::{Batch, BoardStiffness};
use crate::platform::Board;
use crate::quantity::unit::PASCAL_PER_PSI;
use crate::quantity::{Measured, Stress, UnitSystem, length_for_builder, significant};

/// Boards, what they come to one by one, and together.
#[derive(Clone, Copy, Debug)]
pub struct Hung<'a> {
    /// Units to print in.
    pub units: UnitSystem,
    /// The boards.
    pub boards: &'a [Board],
    /// Their stiffness, in the same order.
    pub found: &'a [BoardStiffness],
    /// The lot, from three boards on.
    pub batch: Option<&'a Batch>,
}

/// Stiffness as text.
pub fn text(h: &Hung<'_>) -> String {
    let mut out = String::new();
    match (h.boards, h.found) {
        ([board], [found]) => one(h, board, found, &mut out),
        _ => many(h, &mut out),
    }
    for taken in taken(h) {
        wrap(&format!("Taken for granted: {taken}."), "", "  ", &mut out);
    }
    wrap(
        "The depth counts to its third power: measure it in three places, for 1 % of it is 3 % of the stiffness. Stiffness \
         was measured and strength was not: a stiff board may still have the knot that breaks it, and no value here raises \
         any strength.",
        "",
        "",
        &mut out,
    );
    out
}

/// Errors that nobody gave, each once.
fn taken(h: &Hung<'_>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for t in h.boards.iter().flat_map(|b| &b.taken) {
        if !out.contains(t) {
            out.push(t.clone());
        }
    }
    out
}

/// `1.45e6 psi` or `10000 N/mm²`.
fn shown(e: Stress, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{:.2}e6 psi", e.value / PASCAL_PER_PSI / 1e6),
        UnitSystem::Metric => format!("{} N/mm²", significant(e.value / 1e6, 3)),
    }
}

/// As a brief takes it, rounded down.
fn for_brief(e: Stress, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{:.2}e6 psi", (e.value / PASCAL_PER_PSI / 1e4).floor() / 100.0),
        UnitSystem::Metric => format!("{:.0} N/mm2", (e.value / 1e8).floor() * 100.0),
    }
}

/// Above or below the table's mean, in whole percent.
fn beside(found: &BoardStiffness) -> Option<String> {
    let t = found.table.as_ref()?;
    let more = ((found.modulus.value / t.mean).value - 1.0) * 100.0;
    Some(match more.round() {
        0.0 => "as the mean".to_owned(),
        n if n > 0.0 => format!("{n:.0} % above"),
        n => format!("{:.0} % below", -n),
    })
}

fn one(h: &Hung<'_>, board: &Board, found: &BoardStiffness, out: &mut String) {
    let units = h.units;
    let [breadth, depth] = board.section.map(|l| length_for_builder(l, units));
    let wood = board.wood.as_ref().map_or("a board".to_owned(), |w| w.name());
    wrap(&printable(&format!("{wood}, {breadth} wide and {depth} deep as it lies")), "", "", out);
    out.push('\n');
    let [low, high] = found.range;
    let e = shown(found.modulus.value, units);
    let opening = format!(
        "E = {e}, from {} to {} by the readings. That is {}; shear taken out it is {}.",
        shown(low, units),
        shown(high, units),
        found.convention,
        shown(found.free, units)
    );
    wrap(&opening, "", "", out);
    out.push('\n');
    of_table(found, units, out);
    for step in found.modulus.steps() {
        // A constant says itself once.
        let mut sides =
            vec![step.expression.symbols(units), step.expression.substituted(units), step.value.show(units)];
        sides.dedup();
        let text = format!("{} = {} ({}, {})", step.symbol, sides.join(" = "), step.citation, step.citation.seen);
        wrap(&text, "  ", "    ", out);
    }
    out.push('\n');
    let text = format!(
        "In a brief, measured = \"{}\" under the stick takes the low end of the readings for it.",
        for_brief(low, units)
    );
    wrap(&text, "", "", out);
}

fn of_table(found: &BoardStiffness, units: UnitSystem, out: &mut String) {
    let (Some(t), Some(beside)) = (&found.table, beside(found)) else { return };
    let low = t.mean * t.spread.low;
    let where_ = if found.modulus.value < low { ", fewer than 5 in 100 are so soft" } else { "" };
    let text = format!(
        "The table's mean for {} is {}: {beside}{where_}. 95 of 100 boards exceed {} ({}, {}).",
        t.spread.wood,
        shown(t.mean, units),
        shown(low, units),
        t.spread.source,
        t.spread.source.seen
    );
    wrap(&text, "", "", out);
    out.push('\n');
}

fn many(h: &Hung<'_>, out: &mut String) {
    let units = h.units;
    let least = h.found.iter().map(|f| f.modulus.value).reduce(Stress::min);
    let most = h.found.iter().map(|f| f.modulus.value).reduce(Stress::max);
    if let (Some(least), Some(most)) = (least, most) {
        let text = format!("{} BOARDS, E from {} to {}.", h.found.len(), shown(least, units), shown(most, units));
        wrap(&text, "", "", out);
        out.push('\n');
    }
    let rows = h.found.iter().map(|f| {
        let [low, high] = f.range;
        vec![
            printable(&f.name),
            shown(f.modulus.value, units),
            format!("{} to {}", shown(low, units), shown(high, units)),
            beside(f).unwrap_or_default(),
        ]
    });
    table(&["board", "E", "by the readings", "beside the table"], rows.collect(), &[1, 2], out);
    out.push('\n');
    let mut conventions: Vec<&str> = h.found.iter().map(|f| f.convention).collect();
    conventions.dedup();
    conventions.into_iter().for_each(|c| wrap(&format!("E is {c}."), "", "", out));
    let mut named: Vec<&str> = Vec::new();
    for f in h.found {
        if let Some(t) = f.table.as_ref().filter(|t| !named.contains(&t.spread.wood.as_str())) {
            named.push(&t.spread.wood);
            let (mean, low) = (shown(t.mean, units), shown(t.mean * t.spread.low, units));
            let text = format!(
                "{}: the table's mean is {mean}; 95 of 100 boards exceed {low} ({}, {}).",
                t.spread.wood, t.spread.source, t.spread.source.seen
            );
            wrap(&text, "", "  ", out);
        }
    }
    out.push('\n');
    match h.batch {
        Some(b) => {
            let text = format!(
                "Mean {}, standard deviation {} ({:.0} %). From {} boards, 95 of 100 of the same lot exceed {} with a \
                 confidence of 75 %: mean - {} s ({}, {}). That is of the lot, if these were taken from it blindly.",
                shown(b.mean, units),
                shown(b.deviation, units),
                (b.deviation / b.mean).value * 100.0,
                b.count,
                shown(b.low.value, units),
                b.factor.factor,
                b.factor.provenance.source,
                b.factor.provenance.seen
            );
            wrap(&text, "", "", out);
        }
        None => wrap("For an estimate of the lot it takes three boards or more.", "", "", out),
    }
    let lowest = h.found.iter().map(|f| f.range[0]).reduce(Stress::min);
    if let Some(low) = lowest {
        let text = format!(
            "In a brief, measured = \"{}\" holds for these boards and no others: the softest of them by the low end of its \
             readings.",
            for_brief(low, units)
        );
        wrap(&text, "", "", out);
    }
}

/// One board.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BoardJson {
    /// What it is called.
    pub board: String,
    /// Its modulus, as the table of its wood states moduli.
    pub modulus: ValueJson,
    /// How that is.
    pub convention: &'static str,
    /// With the shear part taken out.
    pub shear_free: ValueJson,
    /// From the least to the most that the readings allow.
    pub range: [ValueJson; 2],
    /// The table's mean for the wood, and what 95 of 100 boards exceed; null where no wood was named.
    pub table: Option<[ValueJson; 2]>,
}

/// A lot of boards.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BatchJson {
    /// How many.
    pub count: usize,
    /// Mean.
    pub mean: ValueJson,
    /// Standard deviation.
    pub deviation: ValueJson,
    /// The factor of the lower estimate.
    pub factor: f64,
    /// What 95 of 100 exceed, with a confidence of 75 %.
    pub low: ValueJson,
}

/// The answer to `proof --measured`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright measured stiffness")]
pub struct HungJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `proof --measured`.
    pub answer: &'static str,
    /// One by one.
    pub boards: Vec<BoardJson>,
    /// Together; null for fewer than three.
    pub batch: Option<BatchJson>,
}

fn value(e: Stress) -> ValueJson {
    ValueJson { value: six(e.si()), unit: "Pa" }
}

/// Stiffness as JSON.
pub fn json(h: &Hung<'_>) -> String {
    let board = |f: &BoardStiffness| BoardJson {
        board: f.name.clone(),
        modulus: value(f.modulus.value),
        convention: f.convention,
        shear_free: value(f.free),
        range: f.range.map(value),
        table: f.table.as_ref().map(|t| [t.mean, t.mean * t.spread.low].map(value)),
    };
    let batch = h.batch.map(|b| BatchJson {
        count: b.count,
        mean: value(b.mean),
        deviation: value(b.deviation),
        factor: b.factor.factor,
        low: value(b.low.value),
    });
    let boards = h.found.iter().map(board).collect();
    pretty(&HungJson { slatwright: VERSION, answer: "proof --measured", boards, batch })
}

/// The JSON Schema of that answer.
pub fn schema() -> Schema {
    schema_for!(HungJson)
}
