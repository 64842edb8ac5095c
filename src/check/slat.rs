//! Slats: bending, shear, bearing on the cleat, deflection now and after creep, uplift.

use super::capacity::{ByDuration, Rated};
use super::desk::{Candidate, Desk};
use super::verdict::{Check, Limit, Member, Role};
use crate::brief::LayWord;
use crate::derivation::{Worked, given, plain};
use crate::load::{Case, CaseKind};
use crate::quantity::unit::{metre, newton, newton_metre};
use crate::quantity::{Force, Length, Measured, SectionModulus, Stress, round_up};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bearing::{bearing_area, bearing_stress};
use crate::rules::allowable_stress::bending::{LoadCase, Unbraced, bending_stress};
use crate::rules::allowable_stress::deflection::{Seasoned, creep_factor, total_deflection};
use crate::rules::allowable_stress::shear::shear_stress;
use crate::rules::allowable_stress::wood::Face;
use crate::source::{Citation, Seen};

/// Deflection limits: common practice, no published source for beds; L/360 is the floor rule of US
/// residential codes.
pub(super) const PRACTICE: Citation = Citation::new("common practice, no source", "", Seen::Judgement);
const FLOOR: Citation = Citation::new("IRC 2018", "Table R301.7", Seen::Memory);
/// Under the code's uniform load, live load only.
pub(super) const UNIFORM_LIMIT: f64 = 360.0;
/// After creep a slat may sag half as much again as its limit says for now.
const CREEP_ALLOWANCE: f64 = 1.5;

struct Capacities {
    rated: Rated,
    bending: ByDuration<Stress>,
    shear: ByDuration<Stress>,
    bearing: Worked<Stress>,
    bearing_of: &'static str,
    modulus: SectionModulus,
}

/// Strength cases that count for slats.
fn strength(c: &Case) -> bool {
    c.use_.strength && c.use_.slats && !c.use_.caution_only
}

pub(super) fn check(desk: &mut Desk<'_>) {
    let capacities = match capacities(desk) {
        Ok(c) => c,
        Err(e) => return desk.unchecked("strength of the slats", &e),
    };
    let p = desk.p;
    for i in 0..p.slats.count {
        let mut checks = Vec::new();
        checks.extend(bending(desk, &capacities, i));
        checks.extend(shear(desk, &capacities, i));
        checks.extend(bearing(desk, &capacities, i));
        checks.extend(deflection(desk, i));
        checks.extend(creep(desk, i));
        checks.extend(uplift(desk, i));
        let made_of = format!("{}, {}", p.slats.stick.size_text(p.units), p.slats.stick.wood.name());
        desk.member(Member { id: format!("slat {}", i + 1), role: Role::Slat, made_of, checks });
    }
    bare(desk, &capacities);
}

fn capacities(desk: &Desk<'_>) -> Result<Capacities, RuleError> {
    let p = desk.p;
    let face = match p.slats.lay {
        LayWord::Flat => Face::Flatwise,
        LayWord::Edge => Face::Edgewise,
    };
    let rated = Rated::new(&p.slats.stick, face, p.damp);
    let held = Unbraced { length: p.slat_span(), load: LoadCase::Other };
    let on_edge = (face == Face::Edgewise).then_some(&held);
    let durations = desk.durations();
    let bending = ByDuration::of(&durations, |d| rated.bending(d, on_edge))?;
    let shear = ByDuration::of(&durations, |d| rated.shear(d))?;
    // A slat's end is an end bearing: no increase for length. The softer of slat and cleat governs.
    let area = bearing_area(p.slats.bearing, Length::default())?;
    let mut bearing = rated.bearing(area.clone())?;
    let mut bearing_of = "the slat";
    for side in &p.sides {
        let cleat = Rated::upright(&side.cleat, p.damp).bearing(area.clone())?;
        if cleat.value < bearing.value {
            bearing = cleat;
            bearing_of = "the cleat";
        }
    }
    let modulus = rated.section().section_modulus().value;
    Ok(Capacities { rated, bending, shear, bearing, bearing_of, modulus })
}

fn bending(desk: &Desk<'_>, c: &Capacities, i: usize) -> Option<Check> {
    let s = c.modulus.si();
    let worst =
        desk.worst(strength, |k| desk.envelope.slat(k, i).moment.as_ref(), |case| c.bending.si(case.duration) * s)?;
    let demand = bending_stress(newton_metre(worst.peak.value), c.rated.section());
    Some(desk.compare(Limit::Bending, &worst, &demand, c.bending.get(desk.cases[worst.case].duration)))
}

fn shear(desk: &Desk<'_>, c: &Capacities, i: usize) -> Option<Check> {
    let s = c.rated.section();
    let area = (s.breadth * s.depth).value / 1.5;
    let worst =
        desk.worst(strength, |k| desk.envelope.slat(k, i).shear.as_ref(), |case| c.shear.si(case.duration) * area)?;
    let demand = shear_stress(newton(worst.peak.value), s);
    Some(desk.compare(Limit::Shear, &worst, &demand, c.shear.get(desk.cases[worst.case].duration)))
}

fn bearing(desk: &Desk<'_>, c: &Capacities, i: usize) -> Option<Check> {
    let slats = &desk.p.slats;
    let area = (slats.breadth() * slats.bearing).value;
    let worst =
        desk.worst(strength, |k| desk.envelope.slat(k, i).reaction.as_ref(), |_| c.bearing.value.si() * area)?;
    let demand = bearing_stress(newton(worst.peak.value), slats.breadth(), slats.bearing);
    let mut check = desk.compare(Limit::Bearing, &worst, &demand, &c.bearing);
    check.remark = Some(format!("governed by {}", c.bearing_of));
    Some(check)
}

/// The allowed sag, `L / n`.
pub(super) fn allowed(span: Length, n: f64, citation: Citation) -> Worked<Length> {
    (given("L", span) / plain(n)).step("Δ allowed", citation)
}

/// The worse of lying under all load and the code's uniform load alone.
fn deflection(desk: &Desk<'_>, i: usize) -> Option<Check> {
    let p = desk.p;
    let span = p.slat_span();
    let n = |case: &Case| if case.kind == CaseKind::CodeUniform { UNIFORM_LIMIT } else { p.limits.slat };
    let worst = desk.worst(
        |c| c.use_.deflection,
        |k| desk.envelope.slat(k, i).deflection.as_ref(),
        |case| span.value / n(case),
    )?;
    Some(sag(desk, &worst, span, n(&desk.cases[worst.case])))
}

/// A deflection check of a span at a candidate.
pub(super) fn sag(desk: &Desk<'_>, worst: &Candidate<'_>, span: Length, n: f64) -> Check {
    let citation = if desk.cases[worst.case].kind == CaseKind::CodeUniform { FLOOR } else { PRACTICE };
    let demand = given("Δ", metre(worst.peak.value));
    desk.compare(Limit::Deflection, worst, &demand, &allowed(span, n, citation))
}

/// Sag under everybody lying, all of it taken as lasting.
fn creep(desk: &Desk<'_>, i: usize) -> Option<Check> {
    let span = desk.p.slat_span();
    crept(desk, |k| desk.envelope.slat(k, i).deflection.as_ref(), span, desk.p.limits.slat / CREEP_ALLOWANCE)
}

/// A creep check of a span: the lying case's sag, long-term, times `Kcr`.
pub(super) fn crept<'b>(
    desk: &Desk<'_>,
    peak: impl Fn(usize) -> Option<&'b super::envelope::Peak>,
    span: Length,
    n: f64,
) -> Option<Check> {
    let kcr = creep_factor(if desk.p.damp { Seasoned::GreenOrWet } else { Seasoned::Dry });
    let factor = kcr.value.si();
    let worst = desk.worst(|c| c.kind == CaseKind::Lying, peak, |_| span.value / n / factor)?;
    let demand = total_deflection(kcr, metre(worst.peak.value), Length::default());
    Some(desk.compare(Limit::Creep, &worst, &demand, &allowed(span, n, PRACTICE)))
}

/// An end that lifts although nothing holds it down.
fn uplift(desk: &Desk<'_>, i: usize) -> Option<Check> {
    if desk.p.slats.fixed {
        return None;
    }
    let dead = desk.envelope.dead_reaction(i);
    let worst = desk.worst(strength, |k| desk.envelope.slat(k, i).uplift.as_ref(), |_| dead)?;
    let demand: Worked<Force> = given("uplift from people", newton(worst.peak.value));
    let holds: Worked<Force> = given("dead load on the end", newton(dead)).step("hold", PRACTICE);
    Some(desk.compare(Limit::Uplift, &worst, &demand, &holds))
}

/// With the mattress off: a caution, never a verdict.
fn bare(desk: &mut Desk<'_>, c: &Capacities) {
    let s = c.modulus.si();
    let worst = (0..desk.p.slats.count)
        .filter_map(|i| {
            desk.worst(
                |case| case.kind == CaseKind::BareSlat,
                |k| desk.envelope.slat(k, i).moment.as_ref(),
                |case| c.bending.si(case.duration) * s,
            )
        })
        .max_by(|a, b| a.ratio.total_cmp(&b.ratio));
    if let Some(w) = worst.filter(|w| w.ratio > 1.0) {
        let load = desk.cases[w.case].load.clone();
        let ratio = round_up(w.ratio, 2);
        desk.caution(format!(
            "With the mattress off, one foot ({load}) in the middle of a slat reaches {ratio} of what its \
             bending allows: keep off bare slats."
        ));
    }
}
