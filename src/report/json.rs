//! The report as JSON: stable, versioned, described by a JSON Schema.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::{Report, say};
use crate::brief::RuleFamily;
use crate::check::{Check, Member, Verdict};
use crate::derivation::Step;
use crate::quantity::{Measure, Measured};

/// Version of this form of report.
pub const VERSION: u32 = 1;

/// A value in coherent SI units, to six significant digits.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ValueJson {
    /// The number.
    pub value: f64,
    /// Its unit: `Pa`, `N`, `m`, `N m`, `N/m` or `1`.
    pub unit: &'static str,
}

/// Where the load is.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PlaceJson {
    /// Metres from the head.
    pub from_head: f64,
    /// Metres from the left rail.
    pub from_left: f64,
    /// Which slat is under it, counted from the head.
    pub over_slat: Option<usize>,
    /// The place in words.
    pub words: String,
}

/// One step of a calculation.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StepJson {
    /// The standard's symbol.
    pub symbol: String,
    /// Its expression.
    pub expression: String,
    /// The expression with numbers in it, in the report's units.
    pub substituted: String,
    /// Its value.
    pub value: ValueJson,
    /// The clause it follows.
    pub source: String,
    /// How that clause was seen: read, computed, secondary, memory or judgement.
    pub seen: String,
}

/// One check.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CheckJson {
    /// The way the member could fail.
    pub limit: &'static str,
    /// The case that governs.
    pub case: &'static str,
    /// Demand.
    pub demand: ValueJson,
    /// Capacity.
    pub capacity: ValueJson,
    /// Demand over capacity, rounded up in the sixth digit; null when there is no capacity at all.
    pub ratio: Option<f64>,
    /// Capacity over demand, less one; null when there is no demand or no capacity.
    pub margin: Option<f64>,
    /// `pass` or `fail`.
    pub verdict: &'static str,
    /// The clause behind the capacity.
    pub source: String,
    /// Where the load is at the worst, unless it has no place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceJson>,
    /// What a reader must know about this check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remark: Option<String>,
    /// The calculation, when it was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub steps: Option<Vec<StepJson>>,
}

/// One member.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MemberJson {
    /// Its name.
    pub id: String,
    /// What it is.
    pub role: &'static str,
    /// Wood and size, or screw.
    pub made_of: String,
    /// `fail` if any of its checks fails.
    pub verdict: &'static str,
    /// Its checks, each limit at its worst.
    pub checks: Vec<CheckJson>,
}

/// The member and check with the greatest ratio.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WeakestJson {
    /// Member.
    pub member: String,
    /// Limit.
    pub limit: &'static str,
    /// Case.
    pub case: &'static str,
    /// Ratio; null when there is no capacity at all.
    pub ratio: Option<f64>,
}

/// A load case that was run.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CaseJson {
    /// Name.
    pub case: &'static str,
    /// Who and how hard.
    pub load: String,
    /// Why this magnitude.
    pub reason: String,
    /// How many positions were tried.
    pub positions: usize,
    /// Whether the brief changed it.
    pub changed: bool,
}

/// A load that decides nothing: a floor's point load, or that of a furniture test. It claims no conformity.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PredictionJson {
    /// Name.
    pub case: &'static str,
    /// The load.
    pub load: String,
    /// Where the load is from, and how that was seen.
    pub reason: String,
    /// How many positions were tried.
    pub positions: usize,
    /// The member with the greatest ratio.
    pub member: Option<String>,
    /// Its limit.
    pub limit: Option<&'static str>,
    /// The ratio, rounded up in the sixth digit; null when there is no capacity at all.
    pub ratio: Option<f64>,
    /// Parts that no rule answered for.
    pub not_checked: Vec<String>,
}

/// The rules for guards, openings and heights. Their checks are members with the role `opening`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct OpeningsJson {
    /// Whose: `us`, `eu` or `au`.
    pub jurisdiction: &'static str,
    /// How many rules apply at this height.
    pub applied: usize,
    /// The thickest mattress with which the guard is high enough.
    pub thickest_mattress: Option<ValueJson>,
}

/// Something that was not checked.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NotCheckedJson {
    /// What.
    pub what: String,
    /// Why.
    pub why: String,
    /// Whether it is a part of the load path that the brief describes.
    pub carries_load: bool,
}

/// A whole report.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright report")]
pub struct ReportJson {
    /// Version of this form.
    pub slatwright: u32,
    /// Title from the brief.
    pub title: String,
    /// `pass` when every check passes; `fail` when one fails; `not checked` when none fails but a part
    /// that carries load has no rule that answers.
    pub verdict: &'static str,
    /// `asd` or `ec5`.
    pub rules: &'static str,
    /// The weakest link.
    pub weakest: Option<WeakestJson>,
    /// Every member.
    pub members: Vec<MemberJson>,
    /// Changes that would make it pass, each tried by checking again.
    pub would_pass: Vec<String>,
    /// The load cases that were run.
    pub cases: Vec<CaseJson>,
    /// What the rules for openings came to; null where none reaches a platform of this height.
    pub openings: Option<OpeningsJson>,
    /// Loads that decide nothing.
    pub predictions: Vec<PredictionJson>,
    /// Load cases the brief dropped.
    pub dropped: Vec<&'static str>,
    /// What the brief left open and how it was filled in.
    pub assumptions: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// What was not checked, and why.
    pub not_checked: Vec<NotCheckedJson>,
}

/// The JSON Schema of a report.
pub fn schema() -> Schema {
    schema_for!(ReportJson)
}

/// The report as pretty JSON with a final line break, with or without the calculation.
pub fn write(r: &Report<'_>, steps: bool) -> String {
    let text = serde_json::to_string_pretty(&report(r, steps)).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"));
    text + "\n"
}

/// The report as a value.
pub fn report(r: &Report<'_>, steps: bool) -> ReportJson {
    let a = r.assessment;
    ReportJson {
        slatwright: VERSION,
        title: r.platform.title.clone(),
        verdict: a.verdict().word(),
        rules: match r.platform.rules {
            RuleFamily::AllowableStress => "asd",
            RuleFamily::LimitState => "ec5",
        },
        weakest: a.weakest().map(|(m, c)| WeakestJson {
            member: m.id.clone(),
            limit: c.limit.name(),
            case: c.case.name(),
            ratio: ratio(c),
        }),
        members: a.members.iter().map(|m| member(m, r, steps)).collect(),
        would_pass: if a.verdict() == Verdict::Pass {
            Vec::new()
        } else {
            r.remedies.iter().map(|m| m.sentence(r.platform.units)).collect()
        },
        cases: a
            .cases
            .iter()
            .map(|c| CaseJson {
                case: c.kind.name(),
                load: c.load.clone(),
                reason: c.reason.clone(),
                positions: c.positions,
                changed: c.changed,
            })
            .collect(),
        openings: a.openings.as_ref().map(|o| OpeningsJson {
            jurisdiction: o.jurisdiction.word(),
            applied: o.applied,
            thickest_mattress: o.thickest_mattress.map(|t| value(t.measure())),
        }),
        predictions: a
            .predictions
            .iter()
            .map(|p| PredictionJson {
                case: p.case,
                load: p.load.clone(),
                reason: p.reason.clone(),
                positions: p.positions,
                member: p.weakest.as_ref().map(|(m, ..)| m.clone()),
                limit: p.weakest.as_ref().map(|(_, l, _)| l.name()),
                ratio: p.weakest.as_ref().filter(|(.., r)| r.is_finite()).map(|(.., r)| six_up(*r)),
                not_checked: p.unanswered.clone(),
            })
            .collect(),
        dropped: r.platform.changes.iter().filter(|c| c.dropped).map(|c| c.key).collect(),
        assumptions: a.assumptions.clone(),
        cautions: a.cautions.clone(),
        not_checked: a
            .not_checked
            .iter()
            .map(|n| NotCheckedJson { what: n.what.clone(), why: n.why.clone(), carries_load: n.carries_load })
            .collect(),
    }
}

fn member(m: &Member, r: &Report<'_>, steps: bool) -> MemberJson {
    MemberJson {
        id: m.id.clone(),
        role: m.role.name(),
        made_of: m.made_of.clone(),
        verdict: m.verdict().word(),
        checks: m.checks.iter().map(|c| check(c, r, steps)).collect(),
    }
}

fn check(c: &Check, r: &Report<'_>, with_steps: bool) -> CheckJson {
    CheckJson {
        limit: c.limit.name(),
        case: c.case.name(),
        demand: value(c.demand),
        capacity: value(c.capacity),
        ratio: ratio(c),
        margin: c.margin().map(six),
        verdict: c.verdict.word(),
        source: c.source.clone(),
        place: c.place.as_ref().map(|w| PlaceJson {
            from_head: six(w.place.x.value),
            from_left: six(w.place.y.value),
            over_slat: w.over_slat,
            words: say::place(w, r.platform),
        }),
        remark: c.remark.clone(),
        steps: with_steps.then(|| c.steps().iter().map(|s| step(s, r)).collect()),
    }
}

fn step(s: &Step, r: &Report<'_>) -> StepJson {
    StepJson {
        symbol: s.symbol.to_string(),
        expression: s.expression.symbols(r.platform.units),
        substituted: s.expression.substituted(r.platform.units),
        value: value(s.value),
        source: s.citation.to_string(),
        seen: s.citation.seen.to_string(),
    }
}

fn value(m: Measure) -> ValueJson {
    let d = m.dimension;
    let unit = match (d.length, d.mass, d.time) {
        (0, 0, 0) => "1",
        (1, 0, 0) => "m",
        (2, 0, 0) => "m2",
        (3, 0, 0) => "m3",
        (4, 0, 0) => "m4",
        (1, 1, -2) => "N",
        (-1, 1, -2) => "Pa",
        (0, 1, -2) => "N/m",
        (2, 1, -2) => "N m",
        (3, 1, -2) => "N m2",
        (-3, 1, 0) => "kg/m3",
        _ => "SI",
    };
    ValueJson { value: six(m.si), unit }
}

/// Six significant digits: the last bits of a double differ between machines' mathematics.
pub(super) fn six(v: f64) -> f64 {
    format!("{v:.5e}").parse().unwrap_or(v)
}

/// A ratio above one must not round to one.
pub(super) fn ratio(c: &Check) -> Option<f64> {
    c.ratio.is_finite().then(|| six_up(c.ratio))
}

fn six_up(ratio: f64) -> f64 {
    let rounded = six(ratio);
    if ratio > 1.0 && rounded <= 1.0 { 1.00001 } else { rounded }
}
