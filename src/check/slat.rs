//! Slats: bending, shear, bearing on the cleat, deflection now and after creep, uplift.

use super::capacity::{ByDuration, Contact, Face, Rated};
use super::desk::Desk;
use super::envelope::{Peak, exceeds};
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::{Worked, given, plain};
use crate::load::{Case, CaseKind, Duration};
use crate::quantity::unit::{metre, newton, newton_metre};
use crate::quantity::{Force, Length, Measured, Stress, round_up};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};

/// Deflection limits under people: common practice, no published source for beds.
pub(super) const PRACTICE: Citation = Citation::new("common practice, no source", "", Seen::Judgement);
/// After creep a slat may sag half as much again as its limit says for now.
const CREEP_ALLOWANCE: f64 = 1.5;

struct Capacities {
    rated: Box<dyn Rated>,
    /// Section modulus, m³.
    section: f64,
    bending: ByDuration<Stress>,
    shear: ByDuration<Stress>,
    bearing: ByDuration<Stress>,
    bearing_of: &'static str,
    contact: Worked<Length>,
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
    let made_of = format!("{}, {}", p.slats.stick.size_text(p.units), p.slats.stick.wood.name());
    for i in 0..p.slats.count {
        let mut checks = Vec::with_capacity(6);
        checks.extend(bending(desk, &capacities, i));
        checks.extend(shear(desk, &capacities, i));
        checks.extend(bearing(desk, &capacities, i));
        checks.extend(deflection(desk, i));
        match creep(desk, i) {
            Ok(c) => checks.extend(c),
            Err(e) => desk.unchecked("sag of the slats after years", &e),
        }
        checks.extend(uplift(desk, i));
        desk.member(Member { id: format!("slat {}", i + 1), role: Role::Slat, made_of: made_of.clone(), checks });
    }
    bare(desk, &capacities);
}

fn capacities(desk: &Desk<'_>) -> Result<Capacities, RuleError> {
    let p = desk.p;
    let face = Face::from(p.slats.lay);
    let rated = desk.rules.rated(&p.slats.stick, face);
    let on_edge = (face == Face::Edgewise).then_some(p.longest_slat_span());
    let durations = desk.durations();
    let bending = ByDuration::of(&durations, |d| rated.bending(d, on_edge))?;
    let shear = ByDuration::of(&durations, |d| rated.shear(d))?;
    // A slat's end is an end bearing, and somebody may sit right above it: no increase for its length. The
    // softer of slat and cleat governs.
    let none = Length::default();
    let end = Contact { length: p.slats.bearing, to_end: none, to_load: none };
    let contact = rated.contact_length(&end)?;
    let mut bearing = ByDuration::of(&durations, |d| rated.bearing(d, &end))?;
    let mut bearing_of = "the slat";
    for side in &p.sides {
        let cleat = desk.rules.upright(&side.cleat);
        let cleat = ByDuration::of(&durations, |d| cleat.bearing(d, &end))?;
        if cleat.get(Duration::Permanent).value < bearing.get(Duration::Permanent).value {
            bearing = cleat;
            bearing_of = "the cleat";
        }
    }
    let section = rated.section_modulus().si();
    Ok(Capacities { rated, section, bending, shear, bearing, bearing_of, contact })
}

fn bending(desk: &Desk<'_>, c: &Capacities, i: usize) -> Option<Check> {
    let peak = |k: usize| desk.envelope.slat(k, i).moment.as_ref();
    let worst = desk.worst(strength, peak, |case| c.bending.si(case.duration) * c.section)?;
    let demand = c.rated.bending_stress(newton_metre(worst.peak.value));
    Some(desk.compare(Limit::Bending, &worst, &demand, c.bending.get(desk.cases[worst.case].duration)))
}

fn shear(desk: &Desk<'_>, c: &Capacities, i: usize) -> Option<Check> {
    let area = (c.rated.breadth() * c.rated.depth()).value / 1.5;
    let worst =
        desk.worst(strength, |k| desk.envelope.slat(k, i).shear.as_ref(), |case| c.shear.si(case.duration) * area)?;
    let demand = c.rated.shear_stress(newton(worst.peak.value));
    Some(desk.compare(Limit::Shear, &worst, &demand, c.shear.get(desk.cases[worst.case].duration)))
}

fn bearing(desk: &Desk<'_>, c: &Capacities, i: usize) -> Option<Check> {
    let slats = &desk.p.slats;
    let area = (slats.breadth() * c.contact.value).value;
    let worst = desk.worst(
        strength,
        |k| desk.envelope.slat(k, i).reaction.as_ref(),
        |case| c.bearing.si(case.duration) * area,
    )?;
    let demand = c.rated.bearing_stress(newton(worst.peak.value), slats.breadth(), &c.contact);
    let capacity = c.bearing.get(desk.cases[worst.case].duration);
    let mut check = desk.compare(Limit::Bearing, &worst, &demand, capacity);
    check.remark = Some(format!("governed by {}", c.bearing_of));
    Some(check)
}

/// The allowed sag, `L / n`.
fn allowed(span: Length, n: f64) -> Worked<Length> {
    (given("L", span) / plain(n)).step("Δ allowed", PRACTICE)
}

/// The one with the greater ratio; the first of equals.
fn worse(one: Option<Check>, other: Option<Check>) -> Option<Check> {
    match (one, other) {
        (Some(a), Some(b)) => Some(if exceeds(b.ratio, a.ratio) { b } else { a }),
        (one, other) => one.or(other),
    }
}

/// The worse of lying and the code's uniform load.
fn deflection(desk: &Desk<'_>, i: usize) -> Option<Check> {
    let spans = desk.p.slat_spans();
    let left = sag(desk, |k| desk.envelope.slat(k, i).deflection.as_ref(), spans[0], desk.p.limits.slat);
    let right = spans
        .get(1)
        .and_then(|span| sag(desk, |k| desk.envelope.slat(k, i).right_span[0].as_ref(), *span, desk.p.limits.slat));
    worse(left, right)
}

/// A deflection check of a span that people may bend to the `n`-th part of itself.
pub(super) fn sag<'b>(
    desk: &Desk<'_>,
    peak: impl Fn(usize) -> Option<&'b Peak>,
    span: Length,
    n: f64,
) -> Option<Check> {
    let (people, code) = (allowed(span, n), desk.rules.code_sag(span));
    let limit = |case: &Case| if case.kind == CaseKind::CodeUniform { &code } else { &people };
    let worst = desk.worst(|c| c.use_.deflection, peak, |case| limit(case).value.si())?;
    let demand = given("Δ", metre(worst.peak.value));
    Some(desk.compare(Limit::Deflection, &worst, &demand, limit(&desk.cases[worst.case])))
}

/// Sag after years, under everybody lying.
fn creep(desk: &Desk<'_>, i: usize) -> Result<Option<Check>, RuleError> {
    let (spans, limit) = (desk.p.slat_spans(), desk.p.limits.slat / CREEP_ALLOWANCE);
    let left = crept(desk, |k| desk.envelope.slat(k, i).lasting.as_ref(), spans[0], limit)?;
    let Some(span) = spans.get(1) else { return Ok(left) };
    Ok(worse(left, crept(desk, |k| desk.envelope.slat(k, i).right_span[1].as_ref(), *span, limit)?))
}

/// A creep check of a span. Lying is the only case that lasts.
pub(super) fn crept<'b>(
    desk: &Desk<'_>,
    peak: impl Fn(usize) -> Option<&'b Peak>,
    span: Length,
    n: f64,
) -> Result<Option<Check>, RuleError> {
    let limit = allowed(span, n);
    let worst = desk.worst(|c| c.kind == CaseKind::Lying, peak, |_| limit.value.si());
    worst.map(|w| Ok(desk.compare(Limit::Creep, &w, &desk.rules.lasting_sag(w.peak)?, &limit))).transpose()
}

/// An end that lifts although nothing holds it down.
fn uplift(desk: &Desk<'_>, i: usize) -> Option<Check> {
    if desk.p.slats.fixed {
        return None;
    }
    let dead = desk.envelope.dead_reaction(i);
    let holds = desk.rules.holds(newton(dead));
    let worst = desk.worst(strength, |k| desk.envelope.slat(k, i).uplift.as_ref(), |_| holds.value.si())?;
    let demand: Worked<Force> = given("uplift from people", newton(worst.peak.value));
    Some(desk.compare(Limit::Uplift, &worst, &demand, &holds))
}

/// With the mattress off: a caution, never a verdict.
fn bare(desk: &mut Desk<'_>, c: &Capacities) {
    let worst = (0..desk.p.slats.count)
        .filter_map(|i| {
            desk.worst(
                |case| case.kind == CaseKind::BareSlat,
                |k| desk.envelope.slat(k, i).moment.as_ref(),
                |case| c.bending.si(case.duration) * c.section,
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
