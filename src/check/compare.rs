//! One platform under two families of rules: which governs, and what makes the difference.
//!
//! The ratio of two ratios is taken apart into factors that multiply to it exactly, each from the numbers
//! of the two calculations, for one limit of one member in one case.

use super::capacity;
use super::verdict::{Assessment, Check, Member, Role, over};
use super::{CheckError, check_case};
use crate::derivation::Expression;
use crate::load::CaseKind;
use crate::platform::Platform;
use crate::quantity::Measure;

/// The worst member of a role under each family, in the order in which the families were given.
#[derive(Clone, Debug)]
pub struct RolePair<'a> {
    /// The role.
    pub role: Role,
    /// The worst member and its worst check; `None` where no rule of that family answers.
    pub worst: [Option<(&'a Member, &'a Check)>; 2],
    /// Which of the two has the greater ratio.
    pub governs: Option<usize>,
    /// Why they differ, where the limit that governs is one that both know.
    pub why: Option<Why>,
}

/// One limit of one member in one case, under both families.
#[derive(Clone, Debug)]
pub struct Why {
    /// The member.
    pub member: String,
    /// Its checks.
    pub checks: [Check; 2],
    /// Factors from the first family's ratio to the second's.
    pub parts: Vec<Part>,
}

/// What a factor between two ratios is from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cause {
    /// The force or moment: what each family multiplies timber and people by.
    Load {
        /// Factors on timber and bedding.
        permanent: [f64; 2],
        /// Factors on people.
        variable: [f64; 2],
    },
    /// How the demand is reckoned from the load: the contact that counts, the stiffness behind a sag.
    Reckoning,
    /// The factor for the load's duration.
    Duration([Option<f64>; 2]),
    /// The divisor that stands apart from the wood's values.
    Divisor([Option<f64>; 2]),
    /// What is left of each capacity without those two: the wood's and the screws' own values.
    Values([Measure; 2]),
}

/// One factor between two ratios.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// What it is from.
    pub cause: Cause,
    /// The second family's ratio over the first's, so far as this is the cause.
    pub factor: f64,
}

/// Compares two assessments of one platform.
///
/// # Errors
///
/// As [`check`](super::check).
pub fn compare<'a>(
    platforms: [&Platform; 2],
    assessments: [&'a Assessment; 2],
) -> Result<Vec<RolePair<'a>>, CheckError> {
    let governing = assessments.map(Assessment::governing);
    let mut roles: Vec<Role> = governing.iter().flatten().map(|m| m.role).collect();
    roles.sort_unstable();
    roles.dedup();
    let mut alone: Vec<(usize, CaseKind, Assessment)> = Vec::new();
    let mut out = Vec::new();
    for role in roles {
        let of = |all: &[&'a Member]| all.iter().find(|m| m.role == role).and_then(|m| Some((*m, m.worst()?)));
        let worst = [of(&governing[0]), of(&governing[1])];
        let governs = match worst {
            [Some((_, a)), Some((_, b))] if a.ratio == b.ratio => None,
            [Some((_, a)), Some((_, b))] => Some(usize::from(b.ratio > a.ratio)),
            [first, second] => first.map(|_| 0).or(second.map(|_| 1)),
        };
        let why = match governs.and_then(|g| Some((g, worst[g]?))) {
            Some((g, (member, check))) => {
                let other = 1 - g;
                let run = match alone.iter().position(|(i, case, _)| (*i, *case) == (other, check.case)) {
                    Some(at) => at,
                    None => {
                        alone.push((other, check.case, check_case(platforms[other], check.case)?));
                        alone.len() - 1
                    }
                };
                let found = alone[run].2.members.iter().find(|m| m.id == member.id);
                let same = found.and_then(|m| m.checks.iter().find(|c| c.limit == check.limit));
                same.map(|same| {
                    let checks = if g == 0 { [check.clone(), same.clone()] } else { [same.clone(), check.clone()] };
                    let parts = parts(platforms, &checks);
                    Why { member: member.id.clone(), checks, parts }
                })
            }
            None => None,
        };
        out.push(RolePair { role, worst, governs, why });
    }
    Ok(out)
}

/// A factor on a capacity, by the symbols each family has for it.
fn factor(check: &Check, symbols: &[&str]) -> Option<f64> {
    check.calculation.last().and_then(|capacity| {
        let steps = Expression::steps([capacity]);
        steps.iter().find(|s| symbols.contains(&s.symbol.as_ref())).map(|s| s.value.si)
    })
}

/// The factors that make the second check's ratio out of the first's.
fn parts(platforms: [&Platform; 2], checks: &[Check; 2]) -> Vec<Part> {
    let [first, second] = checks;
    if first.limit.stands_still() || !(first.ratio * second.ratio).is_finite() {
        return Vec::new();
    }
    let mut out = Vec::new();
    let demand = over(second.demand.si, first.demand.si);
    // The capacity stands last, the demand before it; a check may have earlier steps.
    let load = checks.each_ref().map(|c| c.calculation.iter().rev().nth(1).and_then(Expression::load));
    let by_load = match load {
        [Some(a), Some(b)] if a.dimension == b.dimension && a.si > 0.0 => b.si / a.si,
        _ => 1.0,
    };
    let actions = platforms.map(|p| capacity::rules(p).actions().strength);
    let (permanent, variable) = (actions.map(|a| a.permanent), actions.map(|a| a.variable));
    let factors = [permanent[1] / permanent[0], variable[1] / variable[0]];
    // A factor that neither load has is no factor on loads: the two families take different forces.
    let hair = 1e-6;
    let of_loads = by_load > factors[0].min(factors[1]) - hair && by_load < factors[0].max(factors[1]) + hair;
    let by_load = if of_loads { by_load } else { 1.0 };
    out.push(Part { cause: Cause::Load { permanent, variable }, factor: by_load });
    out.push(Part { cause: Cause::Reckoning, factor: demand / by_load });
    let duration = checks.each_ref().map(|c| factor(c, &["CD", "kmod"]));
    let divisor = checks.each_ref().map(|c| factor(c, &["γM"]));
    let over_both = |v: [Option<f64>; 2]| v[0].unwrap_or(1.0) / v[1].unwrap_or(1.0);
    out.push(Part { cause: Cause::Duration(duration), factor: over_both(duration) });
    out.push(Part { cause: Cause::Divisor(divisor), factor: 1.0 / over_both(divisor) });
    let values = [0, 1].map(|i| {
        let c: &Check = &checks[i];
        let bare = c.capacity.si / duration[i].unwrap_or(1.0) * divisor[i].unwrap_or(1.0);
        Measure { si: bare, ..c.capacity }
    });
    out.push(Part { cause: Cause::Values(values), factor: values[0].si / values[1].si });
    out
}
