//! Guards, openings and heights against public law and published rules: sizes, before any strength.

use super::desk::Desk;
use super::notes::NotChecked;
use super::verdict::{Check, Limit, Member, Role, Verdict, over};
use crate::brief::{Edge, Spot};
use crate::load::CaseKind;
use crate::platform::{Platform, Rung};
use crate::quantity::unit::metre;
use crate::quantity::{Length, Measure, Measured as _, length_for_builder, number};
use crate::tables::openings::{HeightOf, Held, Jurisdiction, Measured, OpeningRule};

/// What the rules for openings came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Openings {
    /// Whose rules.
    pub jurisdiction: Jurisdiction,
    /// How many of them apply to a platform of this height.
    pub applied: usize,
    /// The thickest mattress with which the guard is high enough; `None` without a guard or a rule for it.
    pub thickest_mattress: Option<Length>,
}

/// Holds every rule that reaches a platform of this height. Nothing here is strength.
pub(super) fn check(desk: &mut Desk<'_>) -> Option<Openings> {
    let p = desk.p;
    let jurisdiction = p.jurisdiction?;
    let Some(height) = p.height else {
        note(desk, "guards, openings and heights", "the brief does not say how high the platform is");
        return None;
    };
    let rules: Vec<&OpeningRule> = p.opening_rules.iter().filter(|r| reaches(r, height, p.slats.depth())).collect();
    for rule in &rules {
        match measures(p, rule.what) {
            Ok(found) => {
                let checks: Vec<Check> = found.into_iter().map(|v| held(p, rule, v)).collect();
                let worst = checks.into_iter().reduce(|a, b| if b.ratio > a.ratio { b } else { a });
                if let Some(check) = worst {
                    desk.member(Member {
                        id: rule.name(),
                        role: Role::Opening,
                        made_of: rule.provenance.source.clone(),
                        checks: vec![check],
                    });
                }
            }
            Err(why) => note(desk, rule.what.name(), why),
        }
    }
    if rules.is_empty() {
        return None;
    }
    desk.caution(
        "The figures for guards and openings are single ones out of laws and standards: a bed that keeps them \
         conforms to nothing by that. Read the law of the place."
            .into(),
    );
    note(
        desk,
        "bed ends, gaps to walls and ceilings, protrusions, and what a sleeper may be caught by",
        "the brief does not describe them, and rules reach them",
    );
    Some(Openings { jurisdiction, applied: rules.len(), thickest_mattress: thickest(p) })
}

/// The thickest mattress with which the guard is high enough; `None` without a guard, or where not even none is.
pub(super) fn thickest(p: &Platform) -> Option<Length> {
    let (height, guard) = (p.height?, p.guard.as_ref()?);
    let room = |r: &OpeningRule| match (r.what, r.held) {
        (Measured::AboveMattress, Held::AtLeast(needed)) => Some(guard.top - metre(needed)),
        _ => None,
    };
    let all = p.opening_rules.iter().filter(|r| reaches(r, height, p.slats.depth())).filter_map(room);
    all.reduce(|a, b| if b < a { b } else { a }).filter(|t| t.value > 0.0)
}

fn note(desk: &mut Desk<'_>, what: &str, why: &str) {
    desk.note(NotChecked { what: what.into(), why: why.into(), carries_load: false });
}

/// Whether a rule applies at this height of the slats' top.
fn reaches(rule: &OpeningRule, top: Length, depth: Length) -> bool {
    let height = match rule.height_of {
        HeightOf::Underside => top - depth,
        HeightOf::Top => top,
    };
    // A height typed in inches must not miss the limit by the last bit.
    let hair = 1e-9;
    let by = (height - rule.above).value;
    if rule.from { by >= -hair } else { by > hair }
}

/// What there is to measure; nothing where the brief has no such part, or why it cannot be measured.
fn measures(p: &Platform, what: Measured) -> Result<Vec<f64>, &'static str> {
    let guarded = |edges: &[Edge]| p.guard.as_ref().map_or(0, |g| edges.iter().filter(|e| g.edges.contains(e)).count());
    let one = |l: Option<Length>| Ok(l.map(|l| l.value).into_iter().collect());
    let guard = p.guard.as_ref();
    let opening = guard.and_then(|g| g.opening.as_ref());
    let ladder = p.ladder.as_ref();
    match what {
        Measured::GuardedSides => Ok(vec![guarded(&[Edge::Left, Edge::Right]) as f64]),
        Measured::GuardedEdges => Ok(vec![guarded(&[Edge::Left, Edge::Right, Edge::Head, Edge::Foot]) as f64]),
        Measured::WithoutBreak => {
            let broken = opening.map(|o| Edge::from(o.side));
            let whole = [Edge::Left, Edge::Right].into_iter().filter(|e| broken != Some(*e) && guarded(&[*e]) == 1);
            Ok(vec![whole.count() as f64])
        }
        Measured::AboveMattress => one(guard.map(|g| g.top - p.mattress.thickness)),
        Measured::AboveSlats => one(guard.map(|g| g.top)),
        Measured::InGuard => Ok(guard.map(|g| g.gaps().iter().map(|l| l.value).collect()).unwrap_or_default()),
        // Bars reach down to the bed's rail.
        Measured::UnderGuard => one(guard.filter(|g| g.bars.is_none()).map(|g| g.lowest())),
        Measured::BetweenSlats => Ok(vec![p.slats.gap.value]),
        Measured::WayIn => one(opening.map(|o| o.width)),
        Measured::WayInAtEnd => one(opening.filter(|o| o.at != Spot::Middle).map(|o| o.width)),
        Measured::RungToRung => one(ladder.filter(|l| l.rungs().len() > 1).map(|l| l.pitch)),
        Measured::FirstRung => one(ladder.map(|l| l.first)),
        Measured::TreadDepth => one(ladder.and_then(|l| match &l.rung {
            Rung::Tread(_) => Some(l.rung.depth()),
            Rung::Round(_) | Rung::Pipe(_) => None,
        })),
        Measured::LadderWidth => one(ladder.map(|l| l.width)),
        Measured::Age => match p.sleepers.iter().filter_map(|s| s.age).min() {
            Some(age) => Ok(vec![f64::from(age)]),
            None => Err("the brief gives no sleeper's age"),
        },
    }
}

/// A measure against its rule.
fn held(p: &Platform, rule: &OpeningRule, actual: f64) -> Check {
    let measure = |v: f64| -> Measure { if rule.what.counted() { number(v).measure() } else { metre(v).measure() } };
    let show = |v: f64| match rule.what {
        _ if !rule.what.counted() => length_for_builder(metre(v), p.units),
        Measured::Age => format!("{v} years"),
        _ => format!("{v}"),
    };
    let hair = 1e-9;
    let (ratio, demand, capacity, asked) = match rule.held {
        Held::AtLeast(v) => (over(v, actual), v, actual, format!("at least {}", show(v))),
        Held::AtMost(v) => (over(actual, v), actual, v, format!("at most {}", show(v))),
        Held::LessThan(v) => {
            let ratio = over(actual, v);
            // At the very size the block goes through.
            let ratio = if actual >= v - hair { ratio.max(1.0 + 1e-6) } else { ratio };
            (ratio, actual, v, format!("less than {}", show(v)))
        }
        Held::NotBetween(low, high) => {
            let asked = format!("at most {} or at least {}", show(low), show(high));
            // Beyond the band the larger bound is what it must reach.
            if actual < high - hair {
                (over(actual, low), actual, low, asked)
            } else {
                (over(high, actual), high, actual, asked)
            }
        }
    };
    // Sizes typed in one unit and held in another meet but for the last bit.
    let ratio = if ratio > 1.0 && ratio < 1.0 + hair { 1.0 } else { ratio };
    let is = if rule.what.counted() { show(actual) } else { show(actual.max(0.0)) };
    let negative = if actual < -hair { ", below it," } else { "" };
    Check {
        limit: Limit::Opening,
        case: CaseKind::Dead,
        place: None,
        demand: measure(demand),
        capacity: measure(capacity.max(0.0)),
        ratio,
        verdict: Verdict::of(ratio),
        source: format!("{}, {}, {}", rule.provenance.source, rule.provenance.locator, rule.provenance.seen),
        calculation: Vec::new(),
        remark: Some(format!("{}: {is}{negative} where {asked} is asked", rule.what.name())),
    }
}
