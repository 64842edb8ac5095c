//! Shear, moment and sag along a member, with the load where it governs each of them.
//!
//! The position that a check names is solved once more, in full: what a diagram shows at its greatest
//! is the demand of that check.

use super::CheckError;
use super::capacity;
use super::model::{CENTRE, CLEATS, Framing, MIDDLE, RAILS};
use super::sweep::loads_at;
use super::verdict::{Assessment, Check, Limit, Member, Role, Where};
use crate::load::{CaseKind, Dead, cases};
use crate::platform::Platform;
use crate::quantity::unit::{metre, newton, newton_metre};
use crate::quantity::{Length, Measure, Measured};
use crate::statics::{Extremes, LineResponse, Load, Loaded, On, Placed};

/// Parts that a stretch between two breaks is drawn in.
const PARTS: usize = 8;

/// What is drawn along a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Shear force.
    Shear,
    /// Bending moment, sagging positive.
    Moment,
    /// Deflection, downward positive.
    Sag,
}

impl Effect {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            Effect::Shear => "shear",
            Effect::Moment => "moment",
            Effect::Sag => "sag",
        }
    }

    fn of(limit: Limit) -> Option<Effect> {
        match limit {
            Limit::Shear => Some(Effect::Shear),
            Limit::Bending => Some(Effect::Moment),
            Limit::Deflection => Some(Effect::Sag),
            _ => None,
        }
    }

    fn measure(self, si: f64) -> Measure {
        match self {
            Effect::Shear => newton(si).measure(),
            Effect::Moment => newton_metre(si).measure(),
            Effect::Sag => metre(si).measure(),
        }
    }
}

/// A value at a place along a member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ordinate {
    /// Along the member: from the left rail for a slat, from the head for a cleat or rail.
    pub at: Length,
    /// The value there.
    pub value: Measure,
}

/// One effect along a member at the position that governs the check of it.
#[derive(Clone, Debug)]
pub struct Diagram {
    /// What is drawn.
    pub effect: Effect,
    /// The check whose demand the greatest value is.
    pub limit: Limit,
    /// The case that governs it.
    pub case: CaseKind,
    /// Where the load is.
    pub place: Option<Where>,
    /// The course, from end to end.
    pub course: Vec<Ordinate>,
    /// The largest and the smallest value, exact.
    pub extremes: [Ordinate; 2],
}

impl Diagram {
    /// The value of greatest magnitude.
    pub fn greatest(&self) -> Ordinate {
        let [most, least] = self.extremes;
        if least.value.si.abs() > most.value.si.abs() { least } else { most }
    }
}

/// The diagrams of one member.
#[derive(Clone, Debug)]
pub struct MemberDiagrams {
    /// The member's name.
    pub member: String,
    /// What it is.
    pub role: Role,
    /// Where the member begins and ends.
    pub ends: [Length; 2],
    /// Where it is held.
    pub supports: Vec<Length>,
    /// Shear, moment and sag, those that are checked.
    pub diagrams: Vec<Diagram>,
}

/// A member as the statics sees it.
#[derive(Clone, Copy)]
enum Beam {
    Slat(usize),
    Line(usize),
}

fn beam(p: &Platform, m: &Member) -> Option<Beam> {
    let side = usize::from(m.id.starts_with("right"));
    match m.role {
        Role::Slat => (0..p.slats.count).find(|i| m.id == format!("slat {}", i + 1)).map(Beam::Slat),
        Role::Cleat => Some(Beam::Line(CLEATS[side])),
        Role::Rail => Some(Beam::Line(RAILS[side])),
        Role::CentreBeam => Some(Beam::Line(CENTRE)),
        _ => None,
    }
}

/// Diagrams of the governing member of each role that bends.
///
/// # Errors
///
/// As [`check`](super::check).
pub fn diagrams(p: &Platform, a: &Assessment) -> Result<Vec<MemberDiagrams>, CheckError> {
    let framing = Framing::of(p)?;
    let dead = Dead::of(p);
    let actions = capacity::rules(p).actions();
    let all = cases(p);
    let mut out = Vec::new();
    for m in a.governing() {
        let Some(beam) = beam(p, m) else { continue };
        let mut checks: Vec<(Effect, &Check)> =
            m.checks.iter().filter_map(|c| Effect::of(c.limit).map(|e| (e, c))).collect();
        checks.sort_by_key(|(e, _)| *e as u8);
        let mut diagrams = Vec::new();
        for (effect, c) in checks {
            // The sag of one of two spans counts from the line between its supports, which sink themselves:
            // the curve of the whole slat does not show it.
            if effect == Effect::Sag && m.role == Role::Slat && p.centre_beam.is_some() {
                continue;
            }
            let Some(case) = all.iter().find(|k| k.kind == c.case) else { continue };
            let Some(position) = case.positions.get(c.place.as_ref().map_or(0, |w| w.position)) else { continue };
            let factors = match effect {
                Effect::Sag => actions.sag_of(case.kind),
                _ => actions.strength,
            };
            let loads = loads_at(p, &dead, position, factors);
            let (course, extremes) = solve(p, &framing, beam, &loads, effect)?;
            diagrams.push(Diagram { effect, limit: c.limit, case: c.case, place: c.place.clone(), course, extremes });
        }
        let (ends, supports) = extent(p, &framing, beam);
        out.push(MemberDiagrams { member: m.id.clone(), role: m.role, ends, supports, diagrams });
    }
    Ok(out)
}

/// Ends and supports of a member.
fn extent(p: &Platform, f: &Framing, beam: Beam) -> ([Length; 2], Vec<Length>) {
    match beam {
        Beam::Slat(_) => {
            let [left, right] = p.bearing_lines();
            let beam = p.centre_beam.as_ref().map(|b| b.at);
            (p.slat_ends(), [Some(left), beam, Some(right)].into_iter().flatten().collect())
        }
        Beam::Line(line) => {
            let s = usize::from(line >= 2);
            if CLEATS.contains(&line) {
                return ([Length::default(), p.length], p.sides[s].screws.positions.clone());
            }
            let held = &f.supports[if line == CENTRE { MIDDLE } else { s }];
            let reach = |x: Option<&Length>, end: Length, beyond: fn(Length, Length) -> bool| match x {
                Some(x) if beyond(*x, end) => *x,
                _ => end,
            };
            let from = reach(held.first(), Length::default(), |x, end| x < end);
            ([from, reach(held.last(), p.length, |x, end| x > end)], held.clone())
        }
    }
}

type Course = (Vec<Ordinate>, [Ordinate; 2]);

fn solve(p: &Platform, f: &Framing, beam: Beam, loads: &[Placed], effect: Effect) -> Result<Course, CheckError> {
    let mut work = f.grillage.workspace();
    let over_beam = p.centre_beam.is_some();
    if let (Beam::Slat(i), false) = (beam, over_beam) {
        let own: Vec<Load> = loads.iter().filter(|l| l.on == On::Crossbeam(i)).map(|l| l.load).collect();
        return Ok(along_slat(&f.slat.under(&own)?, effect));
    }
    let r =
        if over_beam { f.grillage.solve_lifting(loads, &[], &mut work)? } else { f.grillage.solve(loads, &mut work) };
    Ok(match beam {
        Beam::Slat(i) => along_slat(&r.crossbeam(i), effect),
        Beam::Line(line) => along_line(&r.line(line), effect),
    })
}

fn along_slat(slat: &Loaded<'_>, effect: Effect) -> Course {
    let (start, end) = slat.ends();
    let mut breaks = vec![start, end];
    breaks.extend(slat.support_reactions().iter().map(|s| s.0));
    breaks.extend(slat.loads().iter().flat_map(|l| [l.extent().0, l.extent().1]));
    let (at, extremes): (&dyn Fn(f64) -> (f64, f64), _) = match effect {
        Effect::Shear => (&|x| slat.shear(x), around(slat.extreme_shear())),
        Effect::Moment => (&|x| twice(slat.moment(x)), slat.extreme_moment()),
        Effect::Sag => (&|x| twice(slat.deflection(x)), slat.extreme_deflection()),
    };
    course(breaks, at, extremes, effect)
}

fn along_line(line: &LineResponse<'_>, effect: Effect) -> Course {
    let breaks: Vec<f64> = line.stations().map(|s| s.x).collect();
    let (at, extremes): (&dyn Fn(f64) -> (f64, f64), _) = match effect {
        Effect::Shear => (&|x| line.shear(x), around(line.extreme_shear())),
        Effect::Moment => (&|x| twice(line.moment(x)), line.extreme_moment()),
        Effect::Sag => (&|x| twice(line.deflection(x)), line.extreme_deflection()),
    };
    course(breaks, at, extremes, effect)
}

fn twice(v: f64) -> (f64, f64) {
    (v, v)
}

/// A shear of greatest magnitude as a pair of extremes, the other one nothing.
fn around((x, v): (f64, f64)) -> Extremes {
    if v > 0.0 { ((x, v), (x, 0.0)) } else { ((x, 0.0), (x, v)) }
}

/// Values just left and just right of every break, between them, and at the extremes.
fn course(
    mut breaks: Vec<f64>,
    at: &dyn Fn(f64) -> (f64, f64),
    ((x_most, most), (x_least, least)): Extremes,
    effect: Effect,
) -> Course {
    breaks.extend([x_most, x_least]);
    breaks.sort_by(f64::total_cmp);
    breaks.dedup();
    let ordinate = |x: f64, v: f64| Ordinate { at: metre(x), value: effect.measure(v) };
    let mut out = Vec::new();
    for (i, x) in breaks.iter().enumerate() {
        let (left, right) = at(*x);
        out.push(ordinate(*x, left));
        if (left - right).abs() > 1e-9 {
            out.push(ordinate(*x, right));
        }
        let Some(next) = breaks.get(i + 1) else { break };
        let step = (next - x) / PARTS as f64;
        out.extend((1..PARTS).map(|k| x + step * k as f64).map(|x| ordinate(x, at(x).1)));
    }
    (out, [ordinate(x_most, most), ordinate(x_least, least)])
}
