//! Platforms that differ little from one another, checked one after another.
//!
//! Where people press on two platforms at the same places, the cases are the same and are made once. And a
//! platform whose changed members fail need not be checked any further.

use super::desk::Desk;
use super::envelope::{Asked, Envelope};
use super::model::{self, Framing};
use super::trial::{asked, same_places};
use super::verdict::{Assessment, Member, Role, Verdict};
use super::{CHECKS, CheckError, assessed, slat};
use crate::load::{Case, Dead, cases, own_weight};
use crate::platform::{Platform, Stick};

/// The first of several platforms, with its cases.
pub struct Alike {
    p: Platform,
    cases: Vec<Case>,
    ends: Option<[End; 2]>,
}

/// A platform with the lightest or the heaviest slats, checked in full.
struct End {
    /// Of one slat, per length.
    weight: f64,
    ei: f64,
    envelope: Envelope,
    /// The greatest ratio of what is no slat.
    others: f64,
}

/// A verdict on what carries load, reached between the lightest and the heaviest slats.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Between {
    /// It passes.
    Passes,
    /// It fails.
    Fails {
        /// Whether a slat does.
        own: bool,
        /// The slats' greatest ratio if one does, else the others'.
        ratio: f64,
    },
}

/// How near to one a ratio must be for the whole check to decide. Ratios between two ends are good to a tenth of
/// this: the tests hold them to it.
const BAND: f64 = 0.03;

/// What is known of a platform when no more needs to be.
#[derive(Clone, Debug)]
pub enum Found {
    /// Members of the role fail; the others were not asked.
    Fails(Vec<Member>),
    /// None of them fails; this is the whole check.
    Whole(Box<Assessment>),
}

impl Alike {
    /// Platforms like this one.
    pub fn new(p: Platform) -> Alike {
        let cases = cases(&p);
        Alike { p, cases, ends: None }
    }

    /// Prepares [`between`](Self::between) for slats of sticks from the lightest to the heaviest of these.
    ///
    /// What people do to a slat on two supports, and through it to cleats, screws and rails, does not change with
    /// the slat's thickness and wood: only its own weight does, and how far it sags. Every demand is the greatest
    /// of some that grow in proportion with that weight, so it is convex in it: what passes at both ends passes
    /// between them, and what a straight line between the ends says is hardly above the truth, since a slat
    /// weighs little beside a sleeper. Posts and legs, whose length hangs on the slats' depth, rule this out, and
    /// so do end rails, which add up what several rails bring, and a centre beam, on which slats lean on each other.
    pub fn span_sticks<'s>(&mut self, sticks: impl Iterator<Item = &'s Stick>) {
        let p = &self.p;
        if p.centre_beam.is_some() || p.posts.is_some() || p.end_rails.is_some() {
            return;
        }
        let mut all: Vec<&Stick> = sticks.collect();
        all.sort_by(|a, b| own_weight(a).value.total_cmp(&own_weight(b).value));
        let (Some(light), Some(heavy)) = (all.first(), all.last()) else { return };
        let end = |stick: &Stick| End::of(&self.with(stick), &self.cases);
        self.ends = end(light).zip(end(heavy)).map(|(a, b)| [a, b]);
    }

    /// This platform with slats of another stick.
    fn with(&self, stick: &Stick) -> Platform {
        let mut q = self.p.clone();
        q.slats.stick = stick.clone();
        q
    }

    /// The platform with slats of this stick and its verdict, where that is plain from the two ends; else the
    /// whole check must decide.
    pub fn between(&self, stick: &Stick) -> Option<(Platform, Between)> {
        let [light, heavy] = self.ends.as_ref()?;
        let q = self.with(stick);
        if !same_places(&self.p, &q) {
            return None;
        }
        let apart = heavy.weight - light.weight;
        let part = if apart > 0.0 { (own_weight(stick).value - light.weight) / apart } else { 0.0 };
        if !(-1e-9..=1.0 + 1e-9).contains(&part) {
            return None;
        }
        let [stiffer, softer] = [light.ei, heavy.ei].map(|ei| ei / model::slat_rigidity(&q));
        let envelope = light.envelope.between(&heavy.envelope, part, [stiffer, softer]);
        let mut desk = Desk::new(&q, &self.cases, &envelope);
        slat::check(&mut desk);
        if desk.open() {
            return None;
        }
        let slats = worst(desk.members());
        let others = light.others + part * (heavy.others - light.others);
        let verdict = match (slats, others) {
            (s, _) if s > 1.0 + BAND => Between::Fails { own: true, ratio: s },
            (s, o) if s < 1.0 - BAND && o < 1.0 - 1e-6 => Between::Passes,
            (s, o) if s < 1.0 - BAND && o > 1.0 + BAND => Between::Fails { own: false, ratio: o },
            _ => return None,
        };
        Some((q, verdict))
    }

    /// Checks another platform, the members of a role first.
    ///
    /// # Errors
    ///
    /// As [`check`](super::check()).
    pub fn check(&self, q: &Platform, role: Role) -> Result<Found, CheckError> {
        if same_places(&self.p, q) { role_first(q, &self.cases, role) } else { role_first(q, &cases(q), role) }
    }
}

impl End {
    /// None where it cannot be checked, or not in full.
    fn of(p: &Platform, cases: &[Case]) -> Option<End> {
        let (framing, dead) = (Framing::of(p).ok()?, Dead::of(p));
        let envelope = Envelope::in_full(p, &framing, &dead, cases).ok()?;
        let mut desk = Desk::new(p, cases, &envelope);
        for (check, _) in CHECKS {
            check(&mut desk);
        }
        if desk.open() {
            return None;
        }
        let others: Vec<Member> = desk.members().iter().filter(|m| m.role != Role::Slat).cloned().collect();
        let others = worst(&others);
        drop(desk);
        Some(End { weight: dead.slat.value, ei: model::slat_rigidity(p), envelope, others })
    }
}

fn worst(members: &[Member]) -> f64 {
    members.iter().filter_map(|m| m.worst().map(|c| c.ratio)).fold(0.0, f64::max)
}

fn role_first(p: &Platform, cases: &[Case], role: Role) -> Result<Found, CheckError> {
    let (framing, dead) = (Framing::of(p)?, Dead::of(p));
    let first = asked(role);
    let mut envelope = Envelope::run(p, &framing, &dead, cases, first)?;
    let mut desk = Desk::new(p, cases, &envelope);
    for (check, _) in CHECKS.iter().filter(|(_, roles)| roles.contains(&role)) {
        check(&mut desk);
    }
    let failing = |m: &&Member| m.role == role && m.verdict() == Verdict::Fail;
    let failed: Vec<Member> = desk.members().iter().filter(failing).cloned().collect();
    if !failed.is_empty() {
        return Ok(Found::Fails(failed));
    }
    // A centre beam's slats and sides are worked out together.
    if p.centre_beam.is_none() {
        let rest = Asked { slats: !first.slats, sides: !first.sides };
        envelope = envelope.joined(Envelope::run(p, &framing, &dead, cases, rest)?, rest);
    }
    Ok(Found::Whole(Box::new(assessed(p, cases, &envelope))))
}

#[cfg(test)]
mod tests {
    use super::super::check;
    use super::*;
    use crate::brief::Brief;
    use crate::quantity::unit::millimetre;
    use crate::tables::Tables;

    const BRIEFS: [&str; 4] = [
        include_str!("../../demo/two.toml"),
        include_str!("../../demo/child.toml"),
        include_str!("../../demo/deck_ec5.toml"),
        include_str!("../../tests/speed/twenty_slats.toml"),
    ];

    fn built(text: &str) -> Platform {
        Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"))
    }

    /// Slats of the platform's wood and of its cleats' and rails', from thin to thick.
    fn sticks(p: &Platform) -> Vec<Stick> {
        let woods = [&p.slats.stick.wood, &p.sides[0].cleat.wood, &p.sides[0].rail.stick.wood];
        let thick = (0..12).map(|k| millimetre(14.0 + 6.0 * f64::from(k)));
        thick.flat_map(|t| woods.map(|w| Stick { thickness: t, wood: w.clone(), ..p.slats.stick.clone() })).collect()
    }

    /// What is said between the ends is what the whole check says, ratio and all.
    #[test]
    fn between_the_ends_the_whole_check_agrees() {
        let mut said = [0; 3];
        for text in BRIEFS {
            let mut alike = Alike::new(built(text));
            let sticks = sticks(&alike.p);
            alike.span_sticks(sticks.iter());
            for stick in &sticks {
                let a = check(&alike.with(stick)).unwrap_or_else(|e| panic!("{e}"));
                let own: Vec<Member> = a.members.iter().filter(|m| m.role == Role::Slat).cloned().collect();
                match alike.between(stick) {
                    Some((_, Between::Passes)) => {
                        assert_eq!(a.carries(), Verdict::Pass);
                        said[0] += 1;
                    }
                    Some((_, Between::Fails { own: slats, ratio })) => {
                        assert_eq!(a.carries(), Verdict::Fail);
                        assert_eq!(slats, worst(&own) > 1.0);
                        let real = if slats { worst(&own) } else { a.weakest().map_or(0.0, |(_, c)| c.ratio) };
                        assert!(
                            (ratio - real).abs() < 0.1 * BAND * real,
                            "{ratio} {real}: {:?} {text}",
                            stick.thickness
                        );
                        said[1] += 1;
                    }
                    None => said[2] += 1,
                }
            }
        }
        assert!(said[0] > 10 && said[1] > 10 && said[2] < said[0] + said[1], "{said:?}");
    }

    /// With the member's own checks first, the whole check still says the same.
    #[test]
    fn a_role_first_is_the_whole_check() {
        for text in BRIEFS {
            let p = built(text);
            for role in [Role::Slat, Role::Rail, Role::CleatScrew] {
                let whole = check(&p).unwrap_or_else(|e| panic!("{e}"));
                match Alike::new(p.clone()).check(&p, role).unwrap_or_else(|e| panic!("{e}")) {
                    Found::Fails(members) => {
                        let real: Vec<&Member> = whole.members.iter().filter(|m| m.role == role).collect();
                        assert!(!members.is_empty());
                        for m in members {
                            let twin = real.iter().find(|r| r.id == m.id).map(|r| worst(&[(*r).clone()]));
                            assert_eq!(twin, Some(worst(&[m])));
                        }
                    }
                    Found::Whole(a) => {
                        let ratios = |a: &Assessment| -> Vec<(String, f64)> {
                            a.members.iter().map(|m| (m.id.clone(), worst(std::slice::from_ref(m)))).collect()
                        };
                        assert_eq!(ratios(&a), ratios(&whole));
                        assert_eq!(a.verdict(), whole.verdict());
                    }
                }
            }
        }
    }
}
