//! What holds a rail: its end joints, and the screws into the studs behind it.

use super::bolt;
use super::capacity::{ByDuration, Contact, Joined, Kept, Row, Spot};
use super::cut;
use super::desk::Desk;
use super::envelope::Peak;
use super::model::RAILS;
use super::notes::NotChecked;
use super::rail::strength;
use super::screw::{Prying, tightest, too_short};
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::given;
use crate::platform::{EndJoint, EndKind, Holder, LongSide, Stick, Studs};
use crate::quantity::unit::newton;
use crate::quantity::{Force, Length, number};
use crate::rules::RuleError;
use crate::tables::fasteners::Screw;

pub(super) fn check(desk: &mut Desk<'_>) {
    for s in 0..2 {
        let side = &desk.p.sides[s];
        if let Some(ends) = &side.rail.ends {
            // The nearest load comes in by the first screw of the cleat, which begins where the support ends.
            let last = desk.envelope.supports(s).len() - 1;
            for (support, end) in [(0, "head"), (last, "foot")] {
                let id = format!("{} rail, {end} end", desk.side_name(s));
                let envelope = desk.envelope;
                let force = |k: usize| envelope.support(k, s, support);
                let alone = desk.p.posts.is_none() && ends.holder == Holder::Post;
                let beneath = alone.then_some("bearing in the rail; the post beneath is not described");
                let end = End { stick: &side.rail.stick, ends, to_load: side.screws.first, force: &force, beneath };
                end_joint(desk, &end, Role::EndJoint, id);
            }
        }
        if let Some(studs) = &side.rail.studs
            && let Err(e) = stud_screws(desk, side, studs, s)
        {
            desk.unchecked("the screws into the studs", &e);
        }
    }
    bolt::remarks(desk);
    above_notches(desk);
}

/// The end of a rail, or of a beam or an end rail, which are held as one.
pub(super) struct End<'a> {
    pub(super) stick: &'a Stick,
    pub(super) ends: &'a EndJoint,
    /// Clear distance from the support to the nearest load.
    pub(super) to_load: Length,
    /// What it brings to what holds it, case by case.
    pub(super) force: &'a dyn Fn(usize) -> Option<&'a Peak>,
    /// What is to be said of it where it rests.
    pub(super) beneath: Option<&'static str>,
}

/// The joint of an end.
pub(super) fn end_joint(desk: &mut Desk<'_>, end: &End<'_>, role: Role, id: String) {
    match joined(desk, end) {
        Ok((made_of, checks)) => desk.member(Member { id, role, made_of, checks }),
        Err(e) => desk.unchecked(&format!("the joint at the {id}"), &e),
    }
}

fn joined(desk: &Desk<'_>, end: &End<'_>) -> Result<(String, Vec<Check>), RuleError> {
    let (rail, ends) = (end.stick, end.ends);
    match &ends.kind {
        EndKind::Bearing { length } => Ok(("bearing".into(), resting(desk, end, *length, rail.thickness)?)),
        EndKind::Notch(notch) => {
            let kept = notch.kept_by.as_ref().map_or(String::new(), |k| format!(", kept by {} {}", k.count, k.what));
            let made_of = format!("notched post{kept}");
            Ok((made_of, resting(desk, end, notch.length, notch.depth)?))
        }
        EndKind::Glue => {
            let zero = given("glue", Force::default()).step("Z'", PRACTICE);
            let capacity = ByDuration::of(&desk.durations(), |_| Ok(zero.clone()))?;
            let remark = "glue alone: no published timber standard covers it; counted as nothing";
            Ok(("glue".into(), hangs(desk, end, &capacity, Some(remark)).into_iter().collect()))
        }
        EndKind::Bolts(bolts) => bolt::joined(desk, end, bolts),
        EndKind::SideGrain { screw, count } => screwed(desk, end, into_side_grain(rail, ends, screw), *count, None),
        EndKind::EndGrain { screw, count, through } => {
            screwed(desk, end, into_end_grain(rail, ends, screw, *through), *count, None)
        }
        EndKind::Pocket { screw, count } => {
            // Half the screw is taken to be in the post and half the rail's thickness to lie under the
            // head: an ordinary pocket bored at 15 degrees (no source).
            let half = screw.length / 2.0;
            let thin = rail.thickness / 2.0;
            let shortened = Screw { length: half + thin, ..screw.clone() };
            let joined = Joined {
                screw: &shortened,
                side: (&rail.wood, thin, 90.0),
                main: (&ends.post, None, ends.holder.degrees()),
                gap: Length::default(),
                end_grain: true,
                pulled: false,
            };
            let remark = "pocket screws: no published timber standard covers them. Nearest conservative model: a screw \
                          in end grain under half the rail's thickness, half of it in the post";
            screwed(desk, end, joined, *count, Some(remark))
        }
    }
}

/// Says that nothing was asked of a notched post above its shoulder.
fn above_notches(desk: &mut Desk<'_>) {
    let notched = |e: &EndJoint| matches!(e.kind, EndKind::Notch(_));
    if desk.p.sides.iter().any(|s| s.rail.ends.as_ref().is_some_and(notched)) {
        desk.note(NotChecked {
            what: "what is left of the posts beside and above their notches".into(),
            why: "the platform stands on the shoulders, under which the posts are whole; what a guard or an upper bed \
                  brings to the thinner part is not described"
                .into(),
            carries_load: false,
        });
    }
}

/// A screw through the rail's face into the post.
pub(super) fn into_side_grain<'a>(rail: &'a Stick, ends: &'a EndJoint, screw: &'a Screw) -> Joined<'a> {
    Joined {
        screw,
        side: (&rail.wood, rail.thickness, 90.0),
        main: (&ends.post, None, 0.0),
        gap: Length::default(),
        end_grain: false,
        pulled: false,
    }
}

/// A screw through the post, or the end rail, into the rail's end.
pub(super) fn into_end_grain<'a>(rail: &'a Stick, ends: &'a EndJoint, screw: &'a Screw, through: Length) -> Joined<'a> {
    Joined {
        screw,
        side: (&ends.post, through, ends.holder.degrees()),
        main: (&rail.wood, None, 90.0),
        gap: Length::default(),
        end_grain: true,
        pulled: false,
    }
}

/// A screw through the rail into a stud or a plate.
pub(super) fn into_stud<'a>(side: &'a LongSide, studs: &'a Studs) -> Joined<'a> {
    let rail = &side.rail.stick;
    Joined {
        screw: &studs.screw,
        side: (&rail.wood, rail.thickness, 90.0),
        // A plate's grain runs along the rail, across the load; a stud's along it.
        main: (&studs.wood, None, if studs.plate { 90.0 } else { 0.0 }),
        gap: studs.gap,
        end_grain: false,
        pulled: true,
    }
}

/// A row of screws up the rail's end.
fn screwed(
    desk: &Desk<'_>,
    end: &End<'_>,
    joined: Joined<'_>,
    count: usize,
    remark: Option<&str>,
) -> Result<(String, Vec<Check>), RuleError> {
    let (rail, ends) = (end.stick, end.ends);
    let spacing = ends.spacing(rail, count);
    let designation = &joined.screw.designation;
    let made_of = format!("{count} screws {designation}");
    let (in_main, into_end) = (joined.in_main(), joined.end_grain);
    let screw = desk.rules.screwed(joined);
    if let Some(check) = too_short(&*screw, designation, in_main)? {
        return Ok((made_of, vec![check]));
    }
    let distances = distances(ends, into_end, count, spacing);
    let row = Row { count, spacing, rail, distances: &distances };
    let lateral = screw.lateral()?;
    let capacity = ByDuration::of(&desk.durations(), |d| screw.row(&lateral, d, &row))?;
    let mut checks: Vec<Check> = hangs(desk, end, &capacity, remark.or(screw.remark())).into_iter().collect();
    if screw.distances_stand_alone() {
        checks.extend(tightest(&*screw, &distances)?);
    }
    checks.extend(split(desk, end)?);
    Ok((made_of, checks))
}

/// Support force against a capacity.
pub(super) fn hangs(
    desk: &Desk<'_>,
    end: &End<'_>,
    capacity: &ByDuration<Force>,
    remark: Option<&str>,
) -> Option<Check> {
    let worst = desk.worst(strength, end.force, |c| capacity.si(c.duration))?;
    let demand = given("R", newton(worst.peak.value));
    let mut check = desk.compare(Limit::Joint, &worst, &demand, capacity.get(desk.cases[worst.case].duration));
    check.remark = remark.map(str::to_owned);
    Some(check)
}

/// The distances of a row up the rail's end.
pub(super) fn distances(ends: &EndJoint, into_end: bool, count: usize, spacing: Length) -> Vec<Kept> {
    let mut all = vec![(Spot::Edge, ends.edge, "to the rail's edge")];
    if !into_end {
        all.push((Spot::End, ends.end, "to the rail's end"));
    }
    if count > 1 {
        all.push((Spot::Across, spacing, "from screw to screw"));
    }
    all
}

/// Shear in the rail above the screws that hold its end.
pub(super) fn split(desk: &Desk<'_>, end: &End<'_>) -> Result<Option<Check>, RuleError> {
    let depth = end.stick.width - end.ends.edge;
    let rail = desk.rules.upright(end.stick);
    let capacity = ByDuration::of(&desk.durations(), |d| rail.at_screws(d, depth, end.ends.end))?;
    let worst = desk.worst(strength, end.force, |c| capacity.si(c.duration));
    Ok(worst.map(|w| {
        let demand = given("V", newton(w.peak.value));
        desk.compare(Limit::ShearAtScrews, &w, &demand, capacity.get(desk.cases[w.case].duration))
    }))
}

/// A rail's end that rests for a length, so much of its thickness.
fn resting(desk: &Desk<'_>, end: &End<'_>, length: Length, breadth: Length) -> Result<Vec<Check>, RuleError> {
    let mut checks = bearing(desk, end, length, breadth)?;
    if let Some(cut) = end.ends.cut {
        checks.extend(cut::checks(desk, end, [length, cut])?);
    }
    Ok(checks)
}

/// A rail's end on a post, a block or a notch.
fn bearing(desk: &Desk<'_>, end: &End<'_>, length: Length, breadth: Length) -> Result<Vec<Check>, RuleError> {
    let rated = desk.rules.upright(end.stick);
    let contact = Contact { length, to_end: Length::default(), to_load: end.to_load };
    let capacity = ByDuration::of(&desk.durations(), |d| rated.bearing(d, &contact))?;
    let counts = rated.contact_length(&contact)?;
    let area = (breadth * counts.value).value;
    let worst = desk.worst(strength, end.force, |c| capacity.si(c.duration) * area);
    Ok(worst
        .map(|w| {
            let demand = rated.bearing_stress(newton(w.peak.value), breadth, &counts);
            let capacity = capacity.get(desk.cases[w.case].duration);
            let mut check = desk.compare(Limit::Bearing, &w, &demand, capacity);
            check.remark = end.beneath.map(str::to_owned);
            check
        })
        .into_iter()
        .collect())
}

fn stud_screws(desk: &mut Desk<'_>, side: &LongSide, studs: &Studs, s: usize) -> Result<(), RuleError> {
    let rail = &side.rail.stick;
    let joined = into_stud(side, studs);
    let eccentricity = studs.gap + rail.thickness + side.cleat.thickness - desk.p.slats.bearing / 3.0;
    let in_main = joined.in_main();
    let screw = desk.rules.screwed(joined);
    if let Some(check) = too_short(&*screw, &studs.screw.designation, in_main)? {
        let id = format!("{} stud 1", desk.side_name(s));
        let made_of = studs.screw.designation.clone();
        desk.member(Member { id, role: Role::StudScrew, made_of, checks: vec![check] });
        return Ok(());
    }
    // Several screws up a stud stand evenly about the middle of the rail's depth.
    let height = if studs.count == 1 { studs.up } else { rail.width / 2.0 };
    let prying = Prying::new(eccentricity, height);
    let lateral = screw.lateral()?;
    let n = given("n", number(studs.count as f64));
    let capacity = ByDuration::of(&desk.durations(), |d| screw.at_angle(&lateral, d, prying.degrees()))?;
    let factor = (1.0 + prying.pull.value.value.powi(2)).sqrt();
    let held = desk.envelope.supports(s).to_vec();
    let across = (studs.gap > Length::default())
        .then_some("the spacers bear on no screw here: each bridges the gap by bending, which errs low");
    for (j, x) in studs.positions.iter().enumerate() {
        let Some(support) = held.iter().position(|h| h == x) else { continue };
        let worst = desk.worst(
            strength,
            |k| desk.envelope.support(k, s, support),
            |c| capacity.si(c.duration) * studs.count as f64 / factor,
        );
        let mut checks: Vec<Check> = worst
            .map(|w| {
                let r = (given("R at the stud", newton(w.peak.value)) / n.clone()).step("R", PRACTICE);
                let demand = prying.resultant(r);
                let mut check = desk.compare(Limit::Screw, &w, &demand, capacity.get(desk.cases[w.case].duration));
                check.remark = across.map(str::to_owned);
                check
            })
            .into_iter()
            .collect();
        checks.extend(at_stud(desk, side, studs, s, (*x, support))?);
        desk.member(Member {
            id: format!("{} stud {}", desk.side_name(s), j + 1),
            role: Role::StudScrew,
            made_of: format!("{} x {}", studs.count, studs.screw.designation),
            checks,
        });
    }
    Ok(())
}

/// Shear in the rail at the screws into one stud, which push it up against its upper edge: on either side of
/// them it is no more than the stud carries, nor than the greatest along the rail.
fn at_stud(
    desk: &Desk<'_>,
    side: &LongSide,
    studs: &Studs,
    s: usize,
    (x, support): (Length, usize),
) -> Result<Option<Check>, RuleError> {
    let rail = desk.rules.upright(&side.rail.stick);
    let depth = side.rail.stick.width - studs.up;
    let from_end = x.min(desk.p.length - x);
    let capacity = ByDuration::of(&desk.durations(), |d| rail.at_screws(d, depth, from_end))?;
    let carried = |k: usize| desk.envelope.support(k, s, support);
    let along = |k: usize| desk.envelope.line(k, RAILS[s]).shear.as_ref();
    let lesser = |k: usize| match (carried(k), along(k)) {
        (Some(a), Some(b)) => Some(if b.value < a.value { b } else { a }),
        (a, _) => a,
    };
    let worst = desk.worst(strength, lesser, |c| capacity.si(c.duration));
    Ok(worst.map(|w| {
        let demand = given("V", newton(w.peak.value));
        desk.compare(Limit::ShearAtScrews, &w, &demand, capacity.get(desk.cases[w.case].duration))
    }))
}
