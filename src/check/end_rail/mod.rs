//! End rails: bending with lateral stability, shear, sag now and after creep, what the side rails do to them where
//! they rest or hang, and their own end joints.

mod loads;
mod pushed;

pub(super) use loads::{ENDS, all};

use super::capacity::{ByDuration, Contact, Factors, Rated};
use super::desk::{Candidate, Desk};
use super::envelope::{Peak, exceeds};
use super::joint::{End, end_joint};
use super::model::MIDDLE;
use super::notes::NotChecked;
use super::rail::{CREEP_ALLOWANCE, strength};
use super::slat::{crept, sag};
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::{Worked, given};
use crate::platform::{EndJoint, EndKind, EndRails, Stick};
use crate::quantity::unit::newton;
use crate::quantity::{FlexuralRigidity, Length, Measured};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use loads::Loads;

const STATICS: Citation = Citation::new("statics", "", Seen::Memory);

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(rails) = &desk.p.end_rails else { return };
    for loads in all(desk) {
        let end = loads.end;
        match member(desk, &loads) {
            Ok(m) => desk.member(m),
            Err(e) => desk.unchecked("strength of the end rails", &e),
        }
        let reactions = loads.reactions(desk);
        for (peaks, side) in reactions.iter().zip(ENDS) {
            let force = |k: usize| peaks[k].as_ref();
            let beneath =
                desk.p.posts.is_none().then_some("bearing in the end rail; the post beneath is not described");
            let to_load = rails.inset;
            let held = End { stick: &rails.stick, ends: &rails.ends, to_load, force: &force, beneath };
            end_joint(desk, &held, Role::EndRailJoint, format!("{end} end rail, {side} end"));
        }
    }
    pushed::check(desk);
    unsaid(desk, rails);
}

/// What no rule here answers for, or the brief leaves out.
fn unsaid(desk: &mut Desk<'_>, rails: &EndRails) {
    let mut note = |what: &str, why: &str, carries_load: bool| {
        desk.note(NotChecked { what: what.into(), why: why.into(), carries_load });
    };
    note(
        "twisting of an end rail by the rails on its face or edge",
        "its ends, the slats and the rails share it; no rule apportions it",
        false,
    );
    let off_middle = desk.p.sides.iter().filter_map(|s| s.rail.ends.as_ref()).any(|e| match &e.kind {
        EndKind::Bearing { length } => *length < rails.stick.thickness * 0.999,
        _ => false,
    });
    if off_middle {
        let why = "each rests on a part of the end rail's thickness only and turns it inwards; keep them from it";
        desk.note(NotChecked {
            what: "the side rails' ends off the end rails' middle".into(),
            why: why.into(),
            carries_load: false,
        });
    }
}

fn member(desk: &mut Desk<'_>, loads: &Loads<'_>) -> Result<Member, RuleError> {
    let p = desk.p;
    let rails = loads.rails;
    let rated = desk.rules.upright(&rails.stick);
    let mut checks = Vec::new();
    checks.extend(bending(desk, &*rated, loads)?);
    checks.extend(shear(desk, &*rated, loads)?);
    checks.extend(sags(desk, &*rated, loads)?);
    let mut held: Vec<Held<'_>> = Vec::new();
    for (s, side) in p.sides.iter().enumerate() {
        let from_foot = p.slats_above_rail_foot(s);
        held.extend(side.rail.ends.as_ref().map(|ends| Held { line: s, stick: &side.rail.stick, ends, from_foot }));
    }
    held.extend(p.centre_beam.as_ref().map(|b| {
        let from_foot = p.slats.depth() + b.stick.width;
        Held { line: MIDDLE, stick: &b.stick, ends: &b.ends, from_foot }
    }));
    let foot = rails.below(&p.sides[0].rail) + p.slats_above_rail_foot(0);
    let mut pressed = Vec::new();
    for one in &held {
        match one.ends.kind {
            EndKind::Bearing { length } => pressed.extend(under(desk, &*rated, loads, one, length)?),
            _ => match hung(desk, &*rated, loads, one, foot - one.from_foot) {
                Ok(check) => pressed.extend(check),
                Err(e) => desk.unchecked("shear in the end rails at the screws that hang on them", &e),
            },
        }
    }
    checks.extend(worst_of(pressed));
    let made_of = format!("{}, {}", rails.stick.size_text(p.units), rails.stick.wood.name());
    Ok(Member { id: format!("{} end rail", loads.end), role: Role::EndRail, made_of, checks })
}

/// Something that runs along the platform and ends at an end rail.
struct Held<'a> {
    line: usize,
    stick: &'a Stick,
    ends: &'a EndJoint,
    /// From its lower edge up to the slats' top.
    from_foot: Length,
}

/// Of the checks of each limit the worst.
fn worst_of(all: Vec<Check>) -> Vec<Check> {
    let mut out: Vec<Check> = Vec::new();
    for check in all {
        match out.iter_mut().find(|c| c.limit == check.limit) {
            Some(kept) if exceeds(check.ratio, kept.ratio) => *kept = check,
            Some(_) => {}
            None => out.push(check),
        }
    }
    out
}

/// Between its ends nothing is taken to keep its upper edge from bowing.
fn bending(desk: &Desk<'_>, rated: &dyn Rated, loads: &Loads<'_>) -> Result<Option<Check>, RuleError> {
    let capacity = ByDuration::of(&desk.durations(), |d| rated.bending(d, Some(loads.span)))?;
    let peaks = loads.peaks(desk, |k| loads.moment(desk, k).map(|e| e.worked));
    let section = rated.section_modulus().si();
    let worst = desk.worst(strength, |k| peaks[k].as_ref(), |c| capacity.si(c.duration) * section);
    Ok(worst.and_then(|w| {
        let moment = loads.moment(desk, w.case)?;
        let demand = rated.bending_stress(moment.worked.value);
        let check = desk.compare(Limit::Bending, &w, &demand, capacity.get(desk.cases[w.case].duration));
        Some(check.after(&[moment.worked.expression()]).remarked(moment.by))
    }))
}

fn shear(desk: &Desk<'_>, rated: &dyn Rated, loads: &Loads<'_>) -> Result<Option<Check>, RuleError> {
    let capacity = ByDuration::of(&desk.durations(), |d| rated.shear(d))?;
    let peaks = loads.peaks(desk, |k| loads.shear(desk, k).map(|e| e.worked));
    let area = (rated.breadth() * rated.depth()).value / 1.5;
    let worst = desk.worst(strength, |k| peaks[k].as_ref(), |c| capacity.si(c.duration) * area);
    Ok(worst.and_then(|w| {
        let force = loads.shear(desk, w.case)?;
        let demand = rated.shear_stress(force.worked.value);
        let check = desk.compare(Limit::Shear, &w, &demand, capacity.get(desk.cases[w.case].duration));
        Some(check.after(&[force.worked.expression()]).remarked(force.by))
    }))
}

fn sags(desk: &Desk<'_>, rated: &dyn Rated, loads: &Loads<'_>) -> Result<Vec<Check>, RuleError> {
    let depth = rated.depth();
    let second = rated.breadth() * depth * depth * depth / 12.0;
    let stiffness: Worked<FlexuralRigidity> = (rated.modulus()? * given("I", second)).step("E·I", STATICS);
    let actions = desk.rules.actions();
    let worked = |k: usize, by: Factors| loads.sag(desk, k, by, &stiffness);
    let case_of = |check: &Check| desk.cases.iter().position(|c| c.kind == check.case);
    let limit = desk.p.limits.rail;
    let mut out = Vec::new();
    let at_once = loads.peaks(desk, |k| worked(k, actions.sag_of(desk.cases[k].kind)));
    if let Some(check) = sag(desk, |k| at_once[k].as_ref(), loads.span, limit) {
        let steps = case_of(&check).and_then(|k| worked(k, actions.sag_of(check.case)));
        out.push(with(check, steps));
    }
    let mut lasting = loads.peaks(desk, |k| worked(k, actions.lasting));
    let alone = loads.peaks(desk, |k| worked(k, Factors { permanent: 1.0, variable: 0.0 }));
    for (peak, alone) in lasting.iter_mut().zip(&alone) {
        if let (Some(peak), Some(alone)) = (peak, alone) {
            peak.permanent = alone.value;
        }
    }
    if let Some(check) = crept(desk, |k| lasting[k].as_ref(), loads.span, limit / CREEP_ALLOWANCE)? {
        let steps = case_of(&check).and_then(|k| worked(k, actions.lasting));
        out.push(with(check, steps));
    }
    Ok(out)
}

/// A check with the steps of its sag.
fn with(check: Check, steps: Option<Worked<Length>>) -> Check {
    match steps {
        Some(steps) => check.after(&[steps.expression()]).remarked("in its middle, every rail at its greatest"),
        None => check,
    }
}

/// A rail that rests on it, across its grain.
fn under(
    desk: &Desk<'_>,
    rated: &dyn Rated,
    loads: &Loads<'_>,
    held: &Held<'_>,
    length: Length,
) -> Result<Option<Check>, RuleError> {
    let Some([a, b]) = loads.apart(held.line) else { return Ok(None) };
    let half = held.stick.thickness / 2.0;
    let to_end = (a.min(b) - half).max(Length::default());
    let contact = Contact { length: held.stick.thickness, to_end, to_load: Length::default() };
    let capacity = ByDuration::of(&desk.durations(), |d| rated.bearing(d, &contact))?;
    let counts = rated.contact_length(&contact)?;
    let area = (length * counts.value).value;
    let worst = desk.worst(strength, |k| loads.brought(desk, held.line, k), |c| capacity.si(c.duration) * area);
    Ok(worst.map(|w| {
        let demand = rated.bearing_stress(newton(w.peak.value), length, &counts);
        let check = desk.compare(Limit::Bearing, &w, &demand, capacity.get(desk.cases[w.case].duration));
        check.remarked("the end rail across its grain, under a rail's end")
    }))
}

/// A rail that hangs on it by screws through it: its shear beside them, with the wood from its lower edge up to the
/// highest of them.
fn hung(
    desk: &Desk<'_>,
    rated: &dyn Rated,
    loads: &Loads<'_>,
    held: &Held<'_>,
    rise: Length,
) -> Result<Option<Check>, RuleError> {
    let (Some(highest), Some([a, b])) = (held.ends.highest_screw(held.stick), loads.apart(held.line)) else {
        return Ok(None);
    };
    let depth = rise + highest;
    if depth <= Length::default() || depth >= loads.rails.stick.width {
        return Err(RuleError::not_covered(
            "screws that do not meet the end rail",
            "let it lie at the height of what hangs on it",
        ));
    }
    let from_end = a.min(b);
    let capacity = ByDuration::of(&desk.durations(), |d| rated.at_screws(d, depth, from_end))?;
    let peaks = loads.peaks(desk, |k| loads.shear(desk, k).map(|e| e.worked));
    let worst = desk.worst(strength, |k| peaks[k].as_ref(), |c| capacity.si(c.duration));
    Ok(worst.and_then(|w: Candidate<'_>| {
        let force = loads.shear(desk, w.case)?;
        let demand = given("V", force.worked.value);
        let check = desk.compare(Limit::ShearAtScrews, &w, &demand, capacity.get(desk.cases[w.case].duration));
        Some(check.after(&[force.worked.expression()]).remarked("the shear anywhere, beside a rail's screws"))
    }))
}

/// What the posts under the end rails carry, the left one's and the right one's at the head and then at the foot.
pub(super) fn on_posts(desk: &Desk<'_>) -> Vec<[Vec<Option<Peak>>; 2]> {
    all(desk).iter().map(|loads| loads.reactions(desk)).collect()
}
