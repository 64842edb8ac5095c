//! Rails: bending with lateral stability, shear, deflection now and after creep, bearing at the ends,
//! and the wood above the cleat's screws.

use super::capacity::{ByDuration, Rated, SplitBy};
use super::desk::{Candidate, Desk};
use super::envelope::exceeds;
use super::model::RAILS;
use super::slat::{crept, sag};
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::given;
use crate::load::Case;
use crate::quantity::unit::{newton, newton_metre};
use crate::quantity::{Length, Measured, Stress};
use crate::rules::RuleError;

/// After creep a rail may sag a quarter more than its limit says for now.
pub(super) const CREEP_ALLOWANCE: f64 = 1.25;

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
pub(super) fn longest_span(desk: &Desk<'_>, s: usize) -> Length {
    let held = desk.envelope.supports(s);
    held.windows(2).map(|w| w[1] - w[0]).fold(Length::default(), |a, b| if b > a { b } else { a })
}

fn member(desk: &mut Desk<'_>, s: usize) -> Result<Member, RuleError> {
    let p = desk.p;
    let side = &p.sides[s];
    let rated = desk.rules.upright(&side.rail.stick);
    let span = longest_span(desk, s);
    let durations = desk.durations();
    let bending = ByDuration::of(&durations, |d| rated.bending(d, Some(span)))?;
    let shear = ByDuration::of(&durations, |d| rated.shear(d))?;
    let line = RAILS[s];
    let mut checks = Vec::new();
    checks.extend(line_bending(desk, &*rated, &bending, line));
    checks.extend(line_shear(desk, &*rated, &shear, line));
    checks.extend(sag(desk, |k| desk.envelope.line(k, line).deflection.as_ref(), span, p.limits.rail));
    let lasting = |k: usize| desk.envelope.line(k, line).lasting.as_ref();
    checks.extend(crept(desk, lasting, span, p.limits.rail / CREEP_ALLOWANCE)?);
    let screws = match rated.split_by() {
        SplitBy::Group => at_groups(desk, &*rated, s),
        SplitBy::ShearBeside => beside_screws(desk, &*rated, s),
    };
    match screws {
        Ok(c) => checks.extend(c),
        Err(e) => desk.unchecked("shear in the rail at the cleat screws", &e),
    }
    let made_of = format!("{}, {}", side.rail.stick.size_text(p.units), side.rail.stick.wood.name());
    Ok(Member { id: format!("{} rail", desk.side_name(s)), role: Role::Rail, made_of, checks })
}

/// Bending of a cleat or rail.
pub(super) fn line_bending(
    desk: &Desk<'_>,
    rated: &dyn Rated,
    capacity: &ByDuration<Stress>,
    line: usize,
) -> Option<Check> {
    let s = rated.section_modulus().si();
    let worst =
        desk.worst(strength, |k| desk.envelope.line(k, line).moment.as_ref(), |c| capacity.si(c.duration) * s)?;
    let demand = rated.bending_stress(newton_metre(worst.peak.value));
    Some(desk.compare(Limit::Bending, &worst, &demand, capacity.get(desk.cases[worst.case].duration)))
}

/// Shear of a cleat or rail.
pub(super) fn line_shear(
    desk: &Desk<'_>,
    rated: &dyn Rated,
    capacity: &ByDuration<Stress>,
    line: usize,
) -> Option<Check> {
    let area = (rated.breadth() * rated.depth()).value / 1.5;
    let worst =
        desk.worst(strength, |k| desk.envelope.line(k, line).shear.as_ref(), |c| capacity.si(c.duration) * area)?;
    let demand = rated.shear_stress(newton(worst.peak.value));
    Some(desk.compare(Limit::Shear, &worst, &demand, capacity.get(desk.cases[worst.case].duration)))
}

/// Shear that the cleat screws bring into the rail, against the wood between them and the lower edge.
///
/// The clause speaks of one connection. A row of screws along a rail is many: those within any stretch
/// of one rail depth are taken to act as one (no source; screws farther apart than a depth do not
/// split the wood together).
fn at_groups(desk: &Desk<'_>, rated: &dyn Rated, s: usize) -> Result<Option<Check>, RuleError> {
    let side = &desk.p.sides[s];
    let deep = rated.depth();
    let depth = side.rise + side.screws.up;
    let length = desk.p.length;
    let rated_at = |from_end: Length| ByDuration::of(&desk.durations(), |d| rated.at_screws(d, depth, from_end));
    // The clause knows two places only: near the rail's end and far from it.
    let (near, far) = (rated_at(Length::default())?, rated_at(length)?);
    let xs = &side.screws.positions;
    let capacity = |j: usize| {
        let first = xs[j];
        let last = xs[j..].iter().take_while(|x| **x <= first + deep).last().copied().unwrap_or(first);
        let outermost = if first < length - last { first } else { length - last };
        if outermost < deep * 5.0 { &near } else { &far }
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

/// Splitting of the rail by the cleat screws: the shear on either side of any of them, which is nowhere
/// more than the greatest along the rail.
fn beside_screws(desk: &Desk<'_>, rated: &dyn Rated, s: usize) -> Result<Option<Check>, RuleError> {
    let side = &desk.p.sides[s];
    let depth = side.rise + side.screws.up;
    let capacity = ByDuration::of(&desk.durations(), |d| rated.at_screws(d, depth, Length::default()))?;
    let shear = |k: usize| desk.envelope.line(k, RAILS[s]).shear.as_ref();
    Ok(desk.worst(strength, shear, |c| capacity.si(c.duration)).map(|w| {
        let demand = given("V beside the screws", newton(w.peak.value));
        desk.compare(Limit::ShearAtScrews, &w, &demand, capacity.get(desk.cases[w.case].duration))
    }))
}
