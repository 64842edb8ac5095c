//! What the faces of all answers share: tables, masses, and what fails in words.

use comfy_table::{CellAlignment, ContentArrangement, Table};
use schemars::JsonSchema;
use serde::Serialize;

use super::json::{ValueJson, six};
use super::say;
use crate::brief::RuleFamily;
use crate::check::{Limit, Verdict};
use crate::choose::Weakest;
use crate::quantity::unit::{kilogram, pound};
use crate::quantity::{Length, Mass, UnitSystem, round_up};

/// A member's worst check.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WeakJson {
    /// Member.
    pub member: String,
    /// What it is.
    pub role: &'static str,
    /// Limit.
    pub limit: &'static str,
    /// Case.
    pub case: &'static str,
    /// Demand over capacity, rounded up; null when there is no capacity at all.
    pub ratio: Option<f64>,
}

/// A member's worst check for a program.
pub(super) fn weak_json(w: &Weakest) -> WeakJson {
    let rounded = six(w.ratio);
    let ratio = if !w.passes() && rounded <= 1.0 { 1.00001 } else { rounded };
    WeakJson {
        member: w.member.clone(),
        role: w.role.name(),
        limit: w.limit.name(),
        case: w.case.name(),
        ratio: w.ratio.is_finite().then_some(ratio),
    }
}

/// A mass in kilograms.
pub(super) fn kg(m: Mass) -> ValueJson {
    ValueJson { value: six(m.value), unit: "kg" }
}

/// A length in metres.
pub(super) fn metres(l: Length) -> ValueJson {
    ValueJson { value: six(l.value), unit: "m" }
}

/// `asd` or `ec5`.
pub(super) fn rules_word(r: RuleFamily) -> &'static str {
    match r {
        RuleFamily::AllowableStress => "asd",
        RuleFamily::LimitState => "ec5",
    }
}

/// Whole pounds or kilograms.
pub(super) fn weight(m: Mass, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{:.0} lb", m.value / pound(1.0).value),
        UnitSystem::Metric => format!("{:.0} kg", m.value / kilogram(1.0).value),
    }
}

/// A ratio for a column.
pub(super) fn ratio(r: f64) -> String {
    if r.is_finite() { round_up(r, 2) } else { "none".into() }
}

/// `slat 7`, `left cleat screw 3`, or `the left rail`.
pub(super) fn the(member: &str) -> String {
    if member.ends_with(|c: char| c.is_ascii_digit()) { member.to_owned() } else { format!("the {member}") }
}

/// What a worst check means, as the end of a sentence that begins with the member.
pub(super) fn fails(w: &Weakest) -> String {
    let (r, when) = (ratio(w.ratio), say::when(w.case));
    let times = if Verdict::of(w.ratio) == Verdict::Fail { "times " } else { "of " };
    match w.limit {
        _ if !w.ratio.is_finite() => "has nothing to hold with".into(),
        Limit::Deflection => format!("sags {r} {times}what is allowed {when}"),
        Limit::Creep => format!("sags {r} {times}what is allowed after years of use"),
        Limit::Spacing => format!("needs {r} {times}the distance a screw or bolt has to an edge, an end or the next"),
        Limit::Opening => format!("is {r} {times}what public rules for openings allow"),
        Limit::Washer => format!("needs {r} {times}the washers its bolts have"),
        Limit::Penetration => format!("needs {r} {times}the depth a screw reaches"),
        Limit::Uplift => format!("lifts with {r} {times}the weight that holds it down {when}"),
        Limit::Screw | Limit::Joint => format!("carries {r} {times}what it may {when}"),
        limit => format!("reaches {r} {times}what is allowed in {} {when}", limit.name()),
    }
}

/// What fails, for a column.
pub(super) fn briefly(w: &Weakest) -> String {
    format!("{} {} {}", w.member.replace(',', ""), w.limit.name(), ratio(w.ratio))
}

/// Rows under a heading, columns from `right` on set to the right.
pub(super) fn table(header: &[&str], rows: Vec<Vec<String>>, right: &[usize], out: &mut String) {
    let mut table = Table::new();
    table.load_style(comfy_table::presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic).set_width(81);
    if !header.is_empty() {
        table.set_header(header);
    }
    for row in rows {
        table.add_row(row);
    }
    for column in right {
        if let Some(c) = table.column_mut(*column) {
            c.set_cell_alignment(CellAlignment::Right);
        }
    }
    for line in table.to_string().lines() {
        // The style leaves a margin that a narrow terminal has no room for.
        out.push_str(line.strip_prefix(' ').unwrap_or(line).trim_end());
        out.push('\n');
    }
}

/// What stands under every answer.
pub(super) const BEAR_IN_MIND: &str = "Local codes and a licensed engineer come first. Every value was found by \
    running the check itself; `slatwright check` says what it covers, what it takes for granted and what it does not \
    check. Rules for guards, openings and heights are left to it: no weight and no width meets them.";

/// An answer as pretty JSON with a final line break.
pub(super) fn pretty<T: Serialize>(value: &T) -> String {
    serde_json::to_string_pretty(value).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}")) + "\n"
}
