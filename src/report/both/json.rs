//! Both families' reports as one JSON object.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::{Both, because, name, word};
use crate::check::{Check, Member, RolePair};
use crate::report::json::{ReportJson, VERSION, WeakestJson, ratio, report, six};

/// One factor between two ratios.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FactorJson {
    /// What it is from: `loads`, `demand`, `duration`, `divisor`, `values` or `allowed sag`.
    pub cause: &'static str,
    /// The ratio by ec5 over that by asd, so far as this is the cause.
    pub factor: f64,
    /// The numbers behind it, in words.
    pub because: String,
}

/// One limit of one member in one case by both families.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WhyJson {
    /// Member.
    pub member: String,
    /// Limit.
    pub limit: &'static str,
    /// Case.
    pub case: &'static str,
    /// Ratio by asd; null when there is no capacity at all.
    pub asd: Option<f64>,
    /// Ratio by ec5; null when there is no capacity at all.
    pub ec5: Option<f64>,
    /// Factors that multiply to the ratio by ec5 over that by asd.
    pub factors: Vec<FactorJson>,
}

/// The worst member of a role by each family.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RoleJson {
    /// The role.
    pub role: &'static str,
    /// By asd; null where none of its rules answers.
    pub asd: Option<WeakestJson>,
    /// By ec5; null where none of its rules answers.
    pub ec5: Option<WeakestJson>,
    /// `asd` or `ec5`, whichever has the greater ratio; null when they are equal.
    pub governs: Option<&'static str>,
    /// Why they differ, where both know the limit that governs.
    pub why: Option<WhyJson>,
}

/// What both families of rules say of one platform.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright report by both families of rules")]
pub struct BothJson {
    /// Version of this form.
    pub slatwright: u32,
    /// Title from the brief.
    pub title: String,
    /// The worse of the two: `fail`, else `not checked`, else `pass`.
    pub verdict: &'static str,
    /// `both`.
    pub rules: &'static str,
    /// Role by role.
    pub roles: Vec<RoleJson>,
    /// The report by US allowable stress design.
    pub asd: ReportJson,
    /// The report by EN 1995-1-1.
    pub ec5: ReportJson,
}

/// The JSON Schema of a report by both.
pub fn schema() -> Schema {
    schema_for!(BothJson)
}

/// Both reports as pretty JSON with a final line break, with or without the calculation.
pub fn write(b: &Both<'_>, steps: bool) -> String {
    let [asd, ec5] = b.reports.map(|r| report(&r, steps));
    let both = BothJson {
        slatwright: VERSION,
        title: asd.title.clone(),
        verdict: b.verdict().word(),
        rules: "both",
        roles: b.roles.iter().map(|r| role(r, b)).collect(),
        asd,
        ec5,
    };
    serde_json::to_string_pretty(&both).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}")) + "\n"
}

fn role(r: &RolePair<'_>, b: &Both<'_>) -> RoleJson {
    let worst = |w: Option<(&Member, &Check)>| {
        w.map(|(m, c)| WeakestJson {
            member: m.id.clone(),
            limit: c.limit.name(),
            case: c.case.name(),
            ratio: ratio(c),
        })
    };
    RoleJson {
        role: r.role.name(),
        asd: worst(r.worst[0]),
        ec5: worst(r.worst[1]),
        governs: r.governs.map(|g| word(b.reports[g].platform.rules)),
        why: r.why.as_ref().map(|w| WhyJson {
            member: w.member.clone(),
            limit: w.checks[0].limit.name(),
            case: w.checks[0].case.name(),
            asd: ratio(&w.checks[0]),
            ec5: ratio(&w.checks[1]),
            factors: w
                .parts
                .iter()
                .map(|p| FactorJson {
                    cause: name(&p.cause, w.checks[0].limit),
                    factor: six(p.factor),
                    because: because(&p.cause, w, b.words(), b.units()),
                })
                .collect(),
        }),
    }
}
