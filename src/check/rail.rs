//! Rails: bending with lateral stability, shear, deflection now and after creep, bearing at the ends,
//! and the wood above the cleat's screws.

use super::capacity::{ByDuration, Rated};
use super::desk::{Candidate, Desk};
use super::envelope::exceeds;
use super::model::RAILS;
use super::slat::{UNIFORM_LIMIT, crept, sag};
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::given;
use crate::load::{Case, CaseKind};
use crate::quantity::unit::{newton, newton_metre};
use crate::quantity::{Length, Measured, Stress};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bending::{LoadCase, Unbraced, bending_stress};
use crate::rules::allowable_stress::shear::{shear_at_connection, shear_stress};

/// After creep a rail may sag a quarter more than its limit says for now.
const CREEP_ALLOWANCE: f64 = 1.25;

pub(super) fn strength(c: &Case) -> bool {
    c.use_.strength && !c.use_.caution_only
}

pub(super) fn check(desk: &mut Desk<'_>) {
    for s in 0..2 {
        match member(desk, s) {
            Ok(m) => desk.member(m),
            Err(e) => desk.unchecked("strength of the rails", &e),
        }
    }
}

/// The longest distance between two places where a rail is held.
fn longest_span(desk: &Desk<'_>, s: usize) -> Length {
    let held = desk.envelope.supports(s);
    held.windows(2).map(|w| w[1] - w[0]).fold(Length::default(), |a, b| if b > a { b } else { a })
}

fn member(desk: &mut Desk<'_>, s: usize) -> Result<Member, RuleError> {
    let p = desk.p;
    let side = &p.sides[s];
    let rated = Rated::upright(&side.rail.stick, p.damp);
    let span = longest_span(desk, s);
    let held = Unbraced { length: span, load: LoadCase::Other };
    let durations = desk.durations();
    let bending = ByDuration::of(&durations, |d| rated.bending(d, Some(&held)))?;
    let shear = ByDuration::of(&durations, |d| rated.shear(d))?;
    let line = RAILS[s];
    let mut checks = Vec::new();
    checks.extend(line_bending(desk, &rated, &bending, line));
    checks.extend(line_shear(desk, &rated, &shear, line));
    let n = |c: &Case| if c.kind == CaseKind::CodeUniform { UNIFORM_LIMIT } else { p.limits.rail };
    let sags = |k: usize| desk.envelope.line(k, line).deflection.as_ref();
    let worst = desk.worst(|c| c.use_.deflection, sags, |c| span.value / n(c));
    checks.extend(worst.map(|w| sag(desk, &w, span, n(&desk.cases[w.case]))));
    checks.extend(crept(desk, sags, span, p.limits.rail / CREEP_ALLOWANCE));
    match at_screws(desk, &rated, &shear, s) {
        Ok(c) => checks.extend(c),
        Err(e) => desk.unchecked("shear in the rail at the cleat screws", &e),
    }
    let made_of = format!("{}, {}", side.rail.stick.size_text(p.units), side.rail.stick.wood.name());
    Ok(Member { id: format!("{} rail", desk.side_name(s)), role: Role::Rail, made_of, checks })
}

/// Bending of a cleat or rail.
pub(super) fn line_bending(
    desk: &Desk<'_>,
    rated: &Rated,
    capacity: &ByDuration<Stress>,
    line: usize,
) -> Option<Check> {
    let s = rated.section().section_modulus().value.si();
    let worst =
        desk.worst(strength, |k| desk.envelope.line(k, line).moment.as_ref(), |c| capacity.si(c.duration) * s)?;
    let demand = bending_stress(newton_metre(worst.peak.value), rated.section());
    Some(desk.compare(Limit::Bending, &worst, &demand, capacity.get(desk.cases[worst.case].duration)))
}

/// Shear of a cleat or rail.
pub(super) fn line_shear(desk: &Desk<'_>, rated: &Rated, capacity: &ByDuration<Stress>, line: usize) -> Option<Check> {
    let s = rated.section();
    let area = (s.breadth * s.depth).value / 1.5;
    let worst =
        desk.worst(strength, |k| desk.envelope.line(k, line).shear.as_ref(), |c| capacity.si(c.duration) * area)?;
    let demand = shear_stress(newton(worst.peak.value), s);
    Some(desk.compare(Limit::Shear, &worst, &demand, capacity.get(desk.cases[worst.case].duration)))
}

/// Shear that the cleat screws bring into the rail, against the wood between them and the lower edge.
///
/// The clause speaks of one connection. A row of screws along a rail is many: those within any stretch
/// of one rail depth are taken to act as one (no source; screws farther apart than a depth do not
/// split the wood together).
fn at_screws(desk: &Desk<'_>, rated: &Rated, shear: &ByDuration<Stress>, s: usize) -> Result<Option<Check>, RuleError> {
    let side = &desk.p.sides[s];
    let section = rated.section();
    let depth = side.rise + side.screws.up;
    let length = desk.p.length;
    let rated_at = |from_end: Length| {
        ByDuration::of(&desk.durations(), |d| shear_at_connection(shear.get(d).clone(), section, depth, from_end))
    };
    // The clause knows two places only: near the rail's end and far from it.
    let (near, far) = (rated_at(Length::default())?, rated_at(length)?);
    let xs = &side.screws.positions;
    let capacity = |j: usize| {
        let first = xs[j];
        let last = xs[j..].iter().take_while(|x| **x <= first + section.depth).last().copied().unwrap_or(first);
        let outermost = if first < length - last { first } else { length - last };
        if outermost < section.depth * 5.0 { &near } else { &far }
    };
    let worst = (0..side.screws.positions.len())
        .filter_map(|j| {
            let by_duration = capacity(j);
            desk.worst(strength, |k| desk.envelope.group(k, s, j), |c| by_duration.si(c.duration)).map(|w| (j, w))
        })
        .fold(None, |best: Option<(usize, Candidate<'_>)>, this| match best {
            Some(b) if !exceeds(this.1.ratio, b.1.ratio) => Some(b),
            _ => Some(this),
        });
    Ok(worst.map(|(j, w)| {
        let demand = given("V at the screws", newton(w.peak.value));
        let by_duration = capacity(j);
        let mut check = desk.compare(Limit::ShearAtScrews, &w, &demand, by_duration.get(desk.cases[w.case].duration));
        check.remark = Some("screws within one rail depth of each other are taken as one connection".into());
        check
    }))
}
