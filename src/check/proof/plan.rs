//! Which places to load, in which order, and with how much.

use super::trial::{Effect, Frames};
use super::{Area, Nearest, Proof, Reach, Spread, Step, Turn};
use crate::check::verdict::{Assessment, Check, Limit, Member, Role};
use crate::check::{CheckError, check, check_under};
use crate::load::{Case, CaseKind, Dead, Duration, Felt, Patch, Patches, Position, Use, cases_of};
use crate::platform::{Platform, Posture};
use crate::quantity::unit::{kilogram, pound};
use crate::quantity::{AreaLoad, Force, Length, Mass, STANDARD_GRAVITY, UnitSystem, weight_of};

/// The cases in which people are the load.
const PEOPLE: [CaseKind; 7] = [
    CaseKind::Lying,
    CaseKind::Sitting,
    CaseKind::RowOnTheEdge,
    CaseKind::Kneeling,
    CaseKind::ClimbingIn,
    CaseKind::Dropping,
    CaseKind::Jumping,
];

/// The parts that are tried, each by its worst member in the limits a weight can bring about.
const TRIED: [(Role, &[Limit]); 6] = [
    (Role::Slat, &[Limit::Bending]),
    (Role::Rail, &[Limit::Bending]),
    (Role::CentreBeam, &[Limit::Bending]),
    (Role::CleatScrew, &[Limit::Screw]),
    (Role::EndJoint, &[Limit::Joint, Limit::Bearing]),
    (Role::StudScrew, &[Limit::Screw]),
];

/// Halvings until a weight is found to a part in ten million.
const HALVINGS: usize = 24;
/// The most a weight may exceed the people's own, for want of mattress and bedding. No source: a bound on the search.
const MOST: f64 = 4.0;

/// A place that governs some parts.
struct Target {
    case: usize,
    position: usize,
    /// The parts, how each would fail, and its ratio in the check.
    parts: Vec<(Effect, String, Role, Limit, f64)>,
}

struct Planner<'a> {
    p: &'a Platform,
    cases: Vec<Case>,
    frames: Frames<'a>,
    /// As people find it, and with the mattress off and no bedding.
    dead: [Dead; 2],
}

/// How to try a platform before its first use.
///
/// # Errors
///
/// As [`check`].
pub fn proof(p: &Platform) -> Result<Proof, CheckError> {
    let whole = check(p)?;
    let cases = cases_of(p, &|kind| PEOPLE.contains(&kind));
    let dead = Dead::of(p);
    let bare = Dead { cover: AreaLoad::default(), ..dead };
    let planner = Planner { p, cases, frames: Frames::new(p)?, dead: [dead, bare] };
    let by_people = check_under(p, &dead, &planner.cases)?;
    let mut untried = vec![
        ("the code's uniform load".to_owned(), "it is a floor's, and no people here bring it"),
        ("years of use".to_owned(), "wood creeps and tires; a test of an hour shows nothing of it"),
    ];
    if p.guard.is_some() || p.ladder.is_some() {
        untried.push(("guard and ladder".to_owned(), "they are pushed and climbed, not laid on"));
    }
    if p.posts.is_some() {
        untried.push(("racking and tipping".to_owned(), "weights press down and do not push"));
    }
    let mut steps = Vec::new();
    for target in planner.targets(&by_people, &mut untried) {
        let step = planner.step(&target)?;
        if step.mass > Mass::default() {
            steps.push(step);
        } else {
            let parts = step.reaches.into_iter().map(|r| (r.member, "as drawn it may carry no weight at all"));
            untried.extend(parts);
        }
    }
    steps.sort_by(|a, b| a.mass.value.total_cmp(&b.mass.value));
    let mut spreads: Vec<Spread> = Vec::new();
    for (_, stick) in
        p.sticks().into_iter().filter(|(name, _)| ["slats", "cleats", "rails", "centre beam"].contains(name))
    {
        let spread = Spread::of(stick);
        if !spreads.contains(&spread) {
            spreads.push(spread);
        }
    }
    let weakest = whole.weakest().map(|(m, c)| (m.id.clone(), c.limit, c.ratio));
    let slats = planner.slats(&by_people)?;
    Ok(Proof { verdict: whole.verdict(), weakest, steps, slats, spreads, untried })
}

/// The worst of a role's members in some limits.
fn worst<'a>(a: &'a Assessment, role: Role, limits: &[Limit]) -> Option<(&'a Member, &'a Check)> {
    let all = a.members.iter().filter(|m| m.role == role).flat_map(|m| m.checks.iter().map(move |c| (m, c)));
    let all = all.filter(|(_, c)| limits.contains(&c.limit) && c.ratio > 0.0);
    all.reduce(|best, this| if this.1.ratio > best.1.ratio * (1.0 + 1e-9) { this } else { best })
}

impl Planner<'_> {
    /// The places that govern, each once.
    fn targets(&self, a: &Assessment, untried: &mut Vec<(String, &'static str)>) -> Vec<Target> {
        let mut out: Vec<Target> = Vec::new();
        for (role, limits) in TRIED {
            let Some((m, c)) = worst(a, role, limits) else { continue };
            if !c.ratio.is_finite() {
                untried.push((m.id.clone(), "it has nothing to hold with"));
                continue;
            }
            let Some(case) = self.cases.iter().position(|k| k.kind == c.case) else { continue };
            let Some(position) = c.place.as_ref().map(|w| w.position) else { continue };
            let Some(effect) = Effect::of(self.p, &self.frames.mean.f, m, c.limit) else { continue };
            let part = (effect, m.id.clone(), m.role, c.limit, c.ratio);
            match out.iter_mut().find(|t| t.case == case && t.position == position) {
                Some(t) => t.parts.push(part),
                None => out.push(Target { case, position, parts: vec![part] }),
            }
        }
        out
    }

    fn step(&self, target: &Target) -> Result<Step, CheckError> {
        let case = &self.cases[target.case];
        let people = &case.positions[target.position];
        let shape = Position { patches: self.stretches(people), felt: Felt::Both, ..people.clone() };
        let effects: Vec<Effect> = target.parts.iter().map(|part| part.0).collect();
        let (position, short) = self.load(case, people, &shape, &effects)?;
        let areas = areas(&position);
        let mut reaches = Vec::new();
        for (effect, member, role, limit, ratio) in &target.parts {
            let share = self.share(*effect, people, &position)?;
            reaches.push(Reach { member: member.clone(), role: *role, limit: *limit, share, ratio: *ratio });
        }
        Ok(Step {
            case: case.kind,
            load: case.load.clone(),
            mass: total(&areas),
            areas,
            reaches,
            short,
            nearest: self.nearest(case, &position)?,
            dips: self.frames.dips(&self.dead[1], &position)?,
        })
    }

    /// The shape with as much weight as brings every effect to what the people do, in whole pounds or half kilograms;
    /// less, and true, where that is more than some part may carry.
    fn load(
        &self,
        case: &Case,
        people: &Position,
        shape: &Position,
        effects: &[Effect],
    ) -> Result<(Position, bool), CheckError> {
        let [dead, bare] = &self.dead;
        let mut by: f64 = 0.0;
        for effect in effects {
            let wanted = self.frames.mean.effect(*effect, dead, people)?;
            let enough = |by: f64| Ok(self.frames.mean.effect(*effect, bare, &times(shape, by))? >= wanted);
            by = by.max(halve(MOST, enough)?);
        }
        let too_much = |position: &Position| Ok(self.nearest(case, position)?.is_some_and(|n| n.ratio > 1.0));
        let whole = self.rounded(&times(shape, by), f64::round);
        if !too_much(&whole)? {
            return Ok((whole, false));
        }
        let down = |by: f64| self.rounded(&times(shape, by), f64::floor);
        // The least that is too much, a hair less, and down to whole pounds.
        let by = halve(by, |by| too_much(&times(shape, by)))? * (1.0 - 1e-6);
        Ok((down(by), true))
    }

    /// What a weight does over what people do.
    fn share(&self, effect: Effect, people: &Position, position: &Position) -> Result<f64, CheckError> {
        let [dead, bare] = &self.dead;
        Ok(self.frames.mean.effect(effect, bare, position)? / self.frames.mean.effect(effect, dead, people)?)
    }

    /// Every slat by the load that governs its own bending.
    fn slats(&self, a: &Assessment) -> Result<Vec<Turn>, CheckError> {
        let mut out = Vec::new();
        for i in 0..self.p.slats.count {
            let name = format!("slat {}", i + 1);
            let own = a.member(&name).and_then(|m| m.checks.iter().find(|c| c.limit == Limit::Bending));
            let Some((check, at)) = own.and_then(|c| c.place.as_ref().map(|w| (c, w.position))) else { continue };
            let Some(case) = self.cases.iter().find(|k| k.kind == check.case) else { continue };
            let people = &case.positions[at];
            let shape = self.over(i, people);
            let (position, short) = self.load(case, people, &shape, &[Effect::Slat(i)])?;
            let areas = areas(&position);
            let dips = self.frames.dips(&self.dead[1], &position)?.into_iter();
            let own = dips.filter(|d| d.member == name || d.member.starts_with(&format!("{name},")));
            let Some(dip) = own.reduce(|a, b| if b.mean > a.mean { b } else { a }) else { continue };
            let share = self.share(Effect::Slat(i), people, &position)?;
            out.push(Turn { slat: i + 1, mass: total(&areas), areas, share, short, dip });
        }
        Ok(out)
    }

    /// People's stretches moved along until the middle of the first is over a slat's, so far as the ends allow.
    fn over(&self, slat: usize, people: &Position) -> Position {
        let patches = self.stretches(people);
        let by = patches.first().map_or(Length::default(), |p| {
            let (middle, half) = ((p.x[0] + p.x[1]) / 2.0, (p.x[1] - p.x[0]) / 2.0);
            self.p.slats.centre(slat).max(half).min(self.p.length - half) - middle
        });
        let end = self.p.length;
        let moved = |p: &Patch| Patch { x: p.x.map(|x| (x + by).max(Length::default()).min(end)), ..*p };
        Position { patches: patches.iter().map(moved).collect(), felt: Felt::Both, ..people.clone() }
    }

    /// The stretches to load: those of one or two people, or for people lying one for each body.
    fn stretches(&self, people: &Position) -> Patches {
        let segments: Vec<usize> = self.p.sleepers.iter().map(|s| s.segments.len()).collect();
        if people.patches.len() <= 2 || people.patches.len() != segments.iter().sum::<usize>() {
            return people.patches.clone();
        }
        let mut rest = people.patches.as_slice();
        let mut out = Patches::new();
        for n in segments {
            let (body, others) = rest.split_at(n);
            rest = others;
            out.extend(self.body(body));
        }
        out
    }

    /// A body as one stretch: as long as it is, and as wide as its parts are on the average of their weight.
    fn body(&self, parts: &[Patch]) -> Option<Patch> {
        let force = parts.iter().map(|p| p.force).fold(Force::default(), |a, b| a + b);
        let ends = |of: &dyn Fn(&Patch) -> [Length; 2]| {
            let first = of(parts.first()?);
            Some(parts.iter().map(of).fold(first, |[a, b], [c, d]| [a.min(c), b.max(d)]))
        };
        let mean = |of: &dyn Fn(&Patch) -> [Length; 2]| {
            [0, 1]
                .map(|k| parts.iter().map(|p| of(p)[k] * (p.force / force).value).fold(Length::default(), |a, b| a + b))
        };
        let (x, y) = (|p: &Patch| p.x, |p: &Patch| p.y);
        Some(match self.p.posture {
            Posture::AlongRails => Patch { x: ends(&x)?, y: mean(&y), force },
            Posture::AcrossRails => Patch { x: mean(&x), y: ends(&y)?, force },
        })
    }

    /// To whole pounds or half kilograms.
    fn rounded(&self, position: &Position, round: fn(f64) -> f64) -> Position {
        let unit = match self.p.units {
            UnitSystem::Us => pound(1.0),
            UnitSystem::Metric => kilogram(0.5),
        };
        let whole = |force: Force| weight_of(unit * round((mass_of(force) / unit).value));
        let patches = position.patches.iter().map(|p| Patch { force: whole(p.force), ..*p });
        Position { patches: patches.collect(), ..position.clone() }
    }

    /// What comes nearest to failing under a weight that stands for ten minutes on bare slats.
    fn nearest(&self, case: &Case, position: &Position) -> Result<Option<Nearest>, CheckError> {
        let test = Case {
            duration: Duration::TenMinutes,
            use_: Use { strength: true, deflection: false, caution_only: false, slats: case.use_.slats },
            positions: vec![position.clone()],
            ..case.clone()
        };
        let a = check_under(self.p, &self.dead[1], std::slice::from_ref(&test))?;
        let loaded = a.members.iter().flat_map(|m| m.checks.iter().map(move |c| (m, c)));
        let loaded = loaded.filter(|(_, c)| !c.limit.stands_still());
        let worst = loaded.reduce(|best, this| if this.1.ratio > best.1.ratio { this } else { best });
        Ok(worst.map(|(m, c)| Nearest { member: m.id.clone(), limit: c.limit, ratio: c.ratio }))
    }
}

/// A position with every force times something.
fn times(position: &Position, by: f64) -> Position {
    let patches = position.patches.iter().map(|p| Patch { force: p.force * by, ..*p });
    Position { patches: patches.collect(), ..position.clone() }
}

fn mass_of(force: Force) -> Mass {
    kilogram(force.value / STANDARD_GRAVITY)
}

fn areas(position: &Position) -> Vec<Area> {
    position.patches.iter().map(|p| Area { x: p.x, y: p.y, mass: mass_of(p.force) }).collect()
}

fn total(areas: &[Area]) -> Mass {
    areas.iter().map(|a| a.mass).fold(Mass::default(), |a, b| a + b)
}

/// The least factor up to `most` from which something holds.
fn halve(most: f64, holds: impl Fn(f64) -> Result<bool, CheckError>) -> Result<f64, CheckError> {
    let (mut no, mut yes) = (0.0, most);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (no + yes);
        if holds(middle)? { yes = middle } else { no = middle }
    }
    Ok(yes)
}
