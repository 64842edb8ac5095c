//! How wide a platform may be, as text and as JSON.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::answer::{self, WeakJson, briefly, fails, metres, pretty, rules_word, table, the, weak_json};
use super::json::{VERSION, ValueJson};
use super::say::printable;
use super::text::wrap;
use crate::choose::{PartSpan, Widest};
use crate::platform::Platform;
use crate::quantity::{Length, UnitSystem, length_for_builder};

/// Widths as text: 80 columns, the answer first.
pub fn text(p: &Platform, w: &Widest) -> String {
    let mut out = String::new();
    wrap(&printable(&p.title), "", "", &mut out);
    out.push('\n');
    wrap(&answer(p, w), "", "", &mut out);
    out.push('\n');
    for [from, to] in &w.whole.holes {
        let l = |v: Length| length_for_builder(v, p.units);
        wrap(&format!("Not every narrower one passes: from {} to {} it fails.", l(*from), l(*to)), "", "", &mut out);
        out.push('\n');
    }
    let mut rows = Vec::new();
    for part in w.parts.iter().chain([&w.whole]) {
        let name = part.role.map_or("the whole".into(), |r| format!("{}s", r.name()));
        let l = |v: Option<Length>| v.map_or("none".into(), |v| length_for_builder(v, p.units));
        let width = if part.open { "any".into() } else { l(part.width) };
        let span = if part.open { String::new() } else { l(part.slat_span) };
        rows.push(vec![name, width, span, stopped(part)]);
    }
    table(&["part by itself", "widest", "slat span", "a step wider fails"], rows, &[1, 2], &mut out);
    out.push_str("\nwidest: clear between the rails. slat span: between the middles of its bearings.\n\n");
    wrap(answer::BEAR_IN_MIND, "", "", &mut out);
    out
}

fn stopped(part: &PartSpan) -> String {
    match (&part.stopped_by, &part.cannot) {
        (Some(w), _) => briefly(w),
        (None, Some(why)) => why.clone(),
        (None, None) => String::new(),
    }
}

/// The answer in a builder's words.
fn answer(p: &Platform, w: &Widest) -> String {
    let l = |v: Length| length_for_builder(v, p.units);
    let drawn = l(w.as_drawn);
    let Some(width) = w.whole.width else {
        let why = w.whole.stopped_by.as_ref().map(|f| format!(": {} {}", the(&f.member), fails(f)));
        let slats = w.parts.iter().find(|s| s.role == Some(crate::check::Role::Slat)).and_then(|s| s.width);
        let slats = slats.map_or(String::new(), |s| format!(" The slats by themselves would do up to {}.", l(s)));
        return format!("NO WIDTH. However narrow, this platform does not pass{}.{slats}", why.unwrap_or_default());
    };
    let mut say =
        format!("UP TO {}. This platform may be {} wide between its rails", l(width).to_uppercase(), l(width));
    if w.whole.open {
        say.push_str(", the widest a brief may have");
    }
    say.push('.');
    let step = match p.units {
        UnitSystem::Us => "A sixteenth of an inch more",
        UnitSystem::Metric => "One millimetre more",
    };
    match (&w.whole.stopped_by, &w.whole.cannot) {
        (Some(f), _) => say.push_str(&format!(" {step} and {} {}.", the(&f.member), fails(f))),
        (None, Some(why)) => say.push_str(&format!(" {step} cannot be built: {why}.")),
        (None, None) => {}
    }
    let verdict = if within(w) { "within it" } else { "TOO WIDE" };
    say.push_str(&format!(" As drawn it is {drawn}: {verdict}."));
    say
}

/// Whether the platform as drawn is no wider than it may be.
pub fn within(w: &Widest) -> bool {
    let in_hole = w.whole.holes.iter().any(|[a, b]| (*a..=*b).contains(&w.as_drawn));
    w.whole.width.is_some_and(|m| m >= w.as_drawn) && !in_hole
}

/// The greatest width for one part.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PartSpanJson {
    /// The part; null for the whole platform.
    pub role: Option<&'static str>,
    /// Metres, clear between the rails; null when no width passes.
    pub width: Option<ValueJson>,
    /// Metres, between the middles of the slats' bearings.
    pub slat_span: Option<ValueJson>,
    /// The widest a brief may have still passes.
    pub open: bool,
    /// Runs of smaller widths that fail, from and to.
    pub narrower_that_fail: Vec<[ValueJson; 2]>,
    /// What fails one step wider, or at the narrowest when none passes.
    pub stopped_by: Option<WeakJson>,
    /// Why one step wider cannot be built.
    pub cannot: Option<String>,
}

/// The answer to `span` for a brief.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright widest platform")]
pub struct WidestJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `span`.
    pub answer: &'static str,
    /// Title from the brief.
    pub title: String,
    /// `asd` or `ec5`.
    pub rules: &'static str,
    /// The width in the brief.
    pub as_drawn: ValueJson,
    /// Whether that is within the answer.
    pub within: bool,
    /// The step to which widths are found.
    pub step: ValueJson,
    /// The whole platform.
    pub whole: PartSpanJson,
    /// Each part by itself.
    pub parts: Vec<PartSpanJson>,
}

pub(super) fn part_json(s: &PartSpan) -> PartSpanJson {
    PartSpanJson {
        role: s.role.map(|r| r.name()),
        width: s.width.map(metres),
        slat_span: s.slat_span.map(metres),
        open: s.open,
        narrower_that_fail: s.holes.iter().map(|[a, b]| [metres(*a), metres(*b)]).collect(),
        stopped_by: s.stopped_by.as_ref().map(weak_json),
        cannot: s.cannot.clone(),
    }
}

/// Widths as JSON.
pub fn json(p: &Platform, w: &Widest) -> String {
    pretty(&WidestJson {
        slatwright: VERSION,
        answer: "span",
        title: p.title.clone(),
        rules: rules_word(p.rules),
        as_drawn: metres(w.as_drawn),
        within: within(w),
        step: metres(w.step),
        whole: part_json(&w.whole),
        parts: w.parts.iter().map(part_json).collect(),
    })
}

/// The JSON Schema of that answer.
pub fn schema() -> Schema {
    schema_for!(WidestJson)
}
