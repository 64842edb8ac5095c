//! A test before first use as JSON.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::complete;
use crate::check::{Area, Dip, Proof, TestStep, Turn};
use crate::platform::Platform;
use crate::report::answer::{kg, metres, pretty, rules_word};
use crate::report::json::{VERSION, ValueJson, six};

/// A stretch of slats and the weight on it.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AreaJson {
    /// Metres from the head, from and to.
    pub from_head: [f64; 2],
    /// Metres from the left rail, from and to.
    pub from_left: [f64; 2],
    /// Kilograms on it in the end.
    pub mass: ValueJson,
}

/// A part that a step brings to what its people do to it.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReachJson {
    /// Member.
    pub member: String,
    /// What it is.
    pub role: &'static str,
    /// How it would fail.
    pub limit: &'static str,
    /// What the step does over what the people do.
    pub share: f64,
    /// What the check says of the people: demand over capacity.
    pub ratio: f64,
}

/// How far a member dips.
#[derive(Debug, Serialize, JsonSchema)]
pub struct DipJson {
    /// Member, and which of its spans where it has two.
    pub member: String,
    /// What it is.
    pub role: &'static str,
    /// Metres along it: from the left rail for a slat, from the head for a rail.
    pub at: f64,
    /// Metres, by the table's mean modulus.
    pub mean: f64,
    /// Metres, with the stiffest and the softest 5 in 100 boards left out.
    pub ordinary: [f64; 2],
}

/// What comes nearest to failing under a step.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NearestJson {
    /// Member.
    pub member: String,
    /// How it would fail.
    pub limit: &'static str,
    /// What the step does over what it may carry for ten minutes.
    pub ratio: f64,
}

/// One place to load.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StepJson {
    /// Whose load it stands for.
    pub case: &'static str,
    /// That load in words.
    pub load: String,
    /// Stretches and weights.
    pub areas: Vec<AreaJson>,
    /// All of it.
    pub mass: ValueJson,
    /// What it is for.
    pub reaches: Vec<ReachJson>,
    /// The weight stops short of the people's, for more would be too much.
    pub short: bool,
    /// What comes nearest to failing.
    pub nearest: Option<NearestJson>,
    /// Every slat, both rails and the centre beam under the full weight.
    pub dips: Vec<DipJson>,
}

/// One slat by itself.
#[derive(Debug, Serialize, JsonSchema)]
pub struct TurnJson {
    /// Counted from one at the head.
    pub slat: usize,
    /// Stretches and weights.
    pub areas: Vec<AreaJson>,
    /// All of it.
    pub mass: ValueJson,
    /// The slat's bending over what its people do to it.
    pub share: f64,
    /// The weight stops short of the people's.
    pub short: bool,
    /// How far the slat dips.
    pub dip: DipJson,
}

/// How much stiffness scatters.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SpreadJson {
    /// The wood.
    pub wood: String,
    /// What 95 of 100 boards exceed, and what 5 exceed, over the mean.
    pub of_the_mean: [f64; 2],
    /// Where that is from.
    pub source: String,
    /// How that was seen.
    pub seen: String,
}

/// What is not tried.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UntriedJson {
    /// What.
    pub what: String,
    /// Why.
    pub why: &'static str,
}

/// The answer to `proof`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright test before first use")]
pub struct ProofJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `proof`.
    pub answer: &'static str,
    /// Title from the brief.
    pub title: String,
    /// `asd` or `ec5`.
    pub rules: &'static str,
    /// What the check says of the platform as drawn.
    pub verdict: &'static str,
    /// Every step reaches what the people do, on a platform that passes its check.
    pub complete: bool,
    /// Places to load, lightest first.
    pub steps: Vec<StepJson>,
    /// Each slat in turn.
    pub slats: Vec<TurnJson>,
    /// Scatter of stiffness.
    pub spreads: Vec<SpreadJson>,
    /// What no step tries.
    pub untried: Vec<UntriedJson>,
}

fn dip_json(d: &Dip) -> DipJson {
    DipJson {
        member: d.member.clone(),
        role: d.role.name(),
        at: six(d.at.value),
        mean: six(d.mean.value),
        ordinary: d.ordinary.map(|v| six(v.value)),
    }
}

fn area_json(a: &Area) -> AreaJson {
    AreaJson { from_head: a.x.map(|v| metres(v).value), from_left: a.y.map(|v| metres(v).value), mass: kg(a.mass) }
}

fn turn_json(t: &Turn) -> TurnJson {
    TurnJson {
        slat: t.slat,
        areas: t.areas.iter().map(area_json).collect(),
        mass: kg(t.mass),
        share: six(t.share),
        short: t.short,
        dip: dip_json(&t.dip),
    }
}

fn step_json(s: &TestStep) -> StepJson {
    StepJson {
        case: s.case.name(),
        load: s.load.clone(),
        areas: s.areas.iter().map(area_json).collect(),
        mass: kg(s.mass),
        reaches: s
            .reaches
            .iter()
            .map(|r| ReachJson {
                member: r.member.clone(),
                role: r.role.name(),
                limit: r.limit.name(),
                share: six(r.share),
                ratio: six(r.ratio),
            })
            .collect(),
        short: s.short,
        nearest: s.nearest.as_ref().map(|n| NearestJson {
            member: n.member.clone(),
            limit: n.limit.name(),
            ratio: six(n.ratio),
        }),
        dips: s.dips.iter().map(dip_json).collect(),
    }
}

/// A plan as JSON.
pub fn write(p: &Platform, proof: &Proof) -> String {
    pretty(&ProofJson {
        slatwright: VERSION,
        answer: "proof",
        title: p.title.clone(),
        rules: rules_word(p.rules),
        verdict: proof.verdict.word(),
        complete: complete(proof),
        steps: proof.steps.iter().map(step_json).collect(),
        slats: proof.slats.iter().map(turn_json).collect(),
        spreads: proof
            .spreads
            .iter()
            .map(|s| SpreadJson {
                wood: s.wood.clone(),
                of_the_mean: [six(s.low), six(s.high)],
                source: s.source.to_string(),
                seen: s.source.seen.to_string(),
            })
            .collect(),
        untried: proof.untried.iter().map(|(what, why)| UntriedJson { what: what.clone(), why }).collect(),
    })
}

/// The JSON Schema of a plan.
pub fn schema() -> Schema {
    schema_for!(ProofJson)
}
