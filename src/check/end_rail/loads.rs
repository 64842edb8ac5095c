//! What an end rail carries: a simple span with what runs along the platform upon it, or with somebody on it alone.
//!
//! In every case the greatest force of each rail's end is taken, and all of them together, although they need not
//! belong to the same place of the people: no less than what can come together.

use super::super::capacity::Factors;
use super::super::desk::Desk;
use super::super::envelope::{NOWHERE, Peak};
use super::super::model::MIDDLE;
use super::super::rail::strength;
use crate::derivation::{Worked, given, plain};
use crate::load::{CaseKind, Hung, own_weight};
use crate::platform::EndRails;
use crate::quantity::unit::newton;
use crate::quantity::{BendingMoment, Force, Length, LineLoad, Measured};
use crate::source::{Citation, Seen};

/// The simple span's cases of tables of beams: a force anywhere, and a load on all of it.
const BEAM: Citation = Citation::new("AISC 360 Manual", "Table 3-23, cases 1 and 8", Seen::Memory);

/// The end rails' ends, as the side's rails are counted.
pub(in crate::check) const ENDS: [&str; 2] = ["left", "right"];

/// A place where an end rail carries something's end.
struct Place {
    /// Of the force, its distance from the left end, and that from the right.
    symbols: [&'static str; 3],
    at: Length,
    /// Which line it is the end of, and its support there.
    line: usize,
    support: usize,
}

/// An end rail at the head or at the foot.
pub(in crate::check) struct Loads<'a> {
    pub(super) rails: &'a EndRails,
    /// `head` or `foot`.
    pub(in crate::check) end: &'static str,
    pub(super) span: Length,
    /// The guard and the ladder on it.
    hung: LineLoad,
    places: Vec<Place>,
}

/// An effect with what brings it about, in words.
pub(super) struct Effect<Q> {
    pub(super) worked: Worked<Q>,
    pub(super) by: &'static str,
}

const TOGETHER: &str = "the greatest that each rail brings in this case, all together";
const ON_IT: &str = "somebody on the end rail itself, the bed empty";

impl<Q: Measured + PartialOrd> Effect<Q> {
    fn or(self, other: Option<Effect<Q>>) -> Effect<Q> {
        match other {
            Some(other) if other.worked.value > self.worked.value => other,
            _ => self,
        }
    }
}

/// The end rails of a platform, head and foot; none where there are none.
pub(in crate::check) fn all<'a>(desk: &Desk<'a>) -> Vec<Loads<'a>> {
    let p = desk.p;
    let Some(rails) = &p.end_rails else { return Vec::new() };
    let hung = Hung::of(p).end_rail;
    let of = |end: &'static str, last: bool| {
        let support = |line: usize| if last { desk.envelope.supports(line).len() - 1 } else { 0 };
        let mut places = vec![
            Place { symbols: ["R left", "a left", "b left"], at: rails.to_rail(p, 0), line: 0, support: support(0) },
            Place {
                symbols: ["R right", "a right", "b right"],
                at: rails.span(p) - rails.to_rail(p, 1),
                line: 1,
                support: support(1),
            },
        ];
        places.extend(p.centre_beam.iter().map(|beam| Place {
            symbols: ["R beam", "a beam", "b beam"],
            at: rails.to_place(p, beam.at),
            line: MIDDLE,
            support: support(MIDDLE),
        }));
        Loads { rails, end, span: rails.span(p), hung: hung[usize::from(last)], places }
    };
    vec![of("head", false), of("foot", true)]
}

impl Loads<'_> {
    /// What each place carries in a case that counts for strength.
    fn carried(&self, desk: &Desk<'_>, case: usize) -> Option<Vec<Force>> {
        let force = |p: &Place| desk.envelope.support(case, p.line, p.support).map(|peak| newton(peak.value));
        if !strength(&desk.cases[case]) {
            return None;
        }
        self.places.iter().map(force).collect()
    }

    /// What each place carries with these factors on the dead load and on what people do in a case.
    fn combined(&self, desk: &Desk<'_>, case: usize, by: Factors) -> Option<Vec<Force>> {
        let whole = desk.rules.actions().strength;
        let dead = self.dead(desk);
        let of = |(all, dead): (Force, Force)| {
            let people = (all - dead * whole.permanent) / whole.variable;
            dead * by.permanent + people * by.variable
        };
        Some(self.carried(desk, case)?.into_iter().zip(dead).map(of).collect())
    }

    /// What each place carries of the dead load as it is.
    fn dead(&self, desk: &Desk<'_>) -> Vec<Force> {
        self.places.iter().map(|p| newton(desk.envelope.dead_support(p.line, p.support))).collect()
    }

    fn dead_factored(&self, desk: &Desk<'_>) -> Vec<Force> {
        let permanent = desk.rules.actions().strength.permanent;
        self.dead(desk).into_iter().map(|force| force * permanent).collect()
    }

    /// Somebody on the end rail alone, as heavy and as hard as on the bed; none in cases that say nothing of it.
    fn somebody(&self, desk: &Desk<'_>, case: usize) -> Option<Worked<Force>> {
        let case = &desk.cases[case];
        use CaseKind::{ClimbingIn, Dropping, Jumping, Sitting};
        if !matches!(case.kind, Sitting | ClimbingIn | Dropping | Jumping) {
            return None;
        }
        let patches = &case.positions.first()?.patches;
        Some(desk.factored("P", patches.iter().fold(Force::default(), |sum, patch| sum + patch.force)))
    }

    fn span(&self) -> Worked<Length> {
        given("L", self.span)
    }

    /// Its own weight, with what hangs on it.
    fn own(&self, permanent: f64) -> Worked<Force> {
        given("G", (own_weight(&self.rails.stick) + self.hung) * self.span * permanent)
    }

    /// At the left end or the right: `Σ R b / L + G / 2`.
    fn held(&self, forces: &[Force], side: usize, permanent: f64) -> Worked<Force> {
        let mut sum = self.own(permanent) / plain(2.0);
        for (place, force) in self.places.iter().zip(forces) {
            let [r, a, b] = place.symbols;
            let arm = if side == 0 { given(b, self.span - place.at) } else { given(a, place.at) };
            sum = given(r, *force) * arm / self.span() + sum;
        }
        sum
    }

    /// The reaction at an end.
    pub(super) fn reaction(&self, desk: &Desk<'_>, case: usize, side: usize) -> Option<Effect<Force>> {
        let permanent = desk.rules.actions().strength.permanent;
        let name = if side == 0 { "A left" } else { "A right" };
        let rails = self.held(&self.carried(desk, case)?, side, permanent).step(name, BEAM);
        let alone = self.somebody(desk, case).map(|weight| Effect {
            worked: (weight + self.held(&self.dead_factored(desk), side, permanent)).step(name, BEAM),
            by: ON_IT,
        });
        Some(Effect { worked: rails, by: TOGETHER }.or(alone))
    }

    /// The shear, which is greatest at the end that carries more.
    pub(super) fn shear(&self, desk: &Desk<'_>, case: usize) -> Option<Effect<Force>> {
        let [left, right] = [0, 1].map(|side| self.reaction(desk, case, side));
        Some(left?.or(right))
    }

    /// The greatest moment of forces, at one of their places, and of its own weight, in the middle:
    /// `Σ R a b / L + G L / 8`.
    fn bent(&self, forces: &[Force], permanent: f64) -> Worked<BendingMoment> {
        let forces = self.places.iter().zip(forces).map(|(place, force)| given(place.symbols[0], *force));
        let own: Worked<BendingMoment> = self.own(permanent) * self.span() / plain(8.0);
        match self.bent_by(&forces.collect::<Vec<_>>()) {
            Some(most) => most + own,
            None => own,
        }
    }

    /// The greatest moment of forces at the places, as they come: `Σ R a b / L`.
    fn bent_by(&self, forces: &[Worked<Force>]) -> Option<Worked<BendingMoment>> {
        let under = |here: &Place| {
            let mut sum: Option<Worked<BendingMoment>> = None;
            for (place, force) in self.places.iter().zip(forces) {
                let [_, a, b] = place.symbols;
                let [_, here_a, here_b] = here.symbols;
                // The nearer of the two to each end.
                let from_left = if place.at <= here.at { given(a, place.at) } else { given(here_a, here.at) };
                let from_right = if place.at <= here.at {
                    given(here_b, self.span - here.at)
                } else {
                    given(b, self.span - place.at)
                };
                let one = force.clone() * from_left * from_right / self.span();
                sum = Some(match sum {
                    Some(sum) => sum + one,
                    None => one,
                });
            }
            sum
        };
        self.places.iter().filter_map(under).reduce(Worked::max)
    }

    /// What both rails' ends, each pressed against it with so much, do to it sideways: the greatest moment, and the
    /// force at the end that gets more.
    pub(super) fn pressed(&self, push: &Worked<Force>) -> Option<(Worked<BendingMoment>, [Worked<Force>; 2])> {
        let rails: Vec<&Place> = self.places.iter().filter(|p| p.line != MIDDLE).collect();
        let forces: Vec<Worked<Force>> = rails.iter().map(|_| push.clone()).collect();
        let moment = self.bent_by(&forces)?.step("M aside", BEAM);
        let end = |side: usize| {
            let part = |place: &&Place| {
                let [_, a, b] = place.symbols;
                let arm = if side == 0 { given(b, self.span - place.at) } else { given(a, place.at) };
                let part: Worked<Force> = push.clone() * arm / self.span();
                part
            };
            let sum = rails.iter().map(part).reduce(|sum, one| sum + one)?;
            Some(sum.step(if side == 0 { "H left" } else { "H right" }, BEAM))
        };
        Some((moment, [end(0)?, end(1)?]))
    }

    /// The greatest moment.
    pub(super) fn moment(&self, desk: &Desk<'_>, case: usize) -> Option<Effect<BendingMoment>> {
        let permanent = desk.rules.actions().strength.permanent;
        let rails = self.bent(&self.carried(desk, case)?, permanent).step("M", BEAM);
        let alone = self.somebody(desk, case).map(|weight| {
            let middle: Worked<BendingMoment> = weight * self.span() / plain(4.0);
            Effect { worked: (middle + self.bent(&self.dead_factored(desk), permanent)).step("M", BEAM), by: ON_IT }
        });
        Some(Effect { worked: rails, by: TOGETHER }.or(alone))
    }

    /// The sag of its middle under people: `Σ R a (3 L² - 4 a²) / (48 E I) + 5 G L³ / (384 E I)`, `a` to the nearer
    /// end.
    pub(super) fn sag(
        &self,
        desk: &Desk<'_>,
        case: usize,
        by: Factors,
        stiffness: &Worked<crate::quantity::FlexuralRigidity>,
    ) -> Option<Worked<Length>> {
        let cube = || self.span() * self.span() * self.span();
        let mut sum: Worked<Length> = plain(5.0) * self.own(by.permanent) * cube() / (plain(384.0) * stiffness.clone());
        for (place, force) in self.places.iter().zip(self.combined(desk, case, by)?) {
            let [r, a, b] = place.symbols;
            let rest = self.span - place.at;
            let near = || if place.at <= rest { given(a, place.at) } else { given(b, rest) };
            let shape = plain(3.0) * self.span() * self.span() - plain(4.0) * near() * near();
            sum = given(r, force) * near() * shape / (plain(48.0) * stiffness.clone()) + sum;
        }
        Some(sum.step("Δ", BEAM))
    }

    /// Peaks of an effect in every case.
    pub(in crate::check) fn peaks<Q: Measured>(
        &self,
        desk: &Desk<'_>,
        of: impl Fn(usize) -> Option<Worked<Q>>,
    ) -> Vec<Option<Peak>> {
        let peak = |w: Worked<Q>| Peak { value: w.value.si(), position: NOWHERE, at: None, permanent: 0.0 };
        (0..desk.cases.len()).map(|k| of(k).map(peak)).collect()
    }

    /// What stands on each end's post, case by case: the left end's, the right end's.
    pub(in crate::check) fn reactions(&self, desk: &Desk<'_>) -> [Vec<Option<Peak>>; 2] {
        [0, 1].map(|side| self.peaks(desk, |k| self.reaction(desk, k, side).map(|e| e.worked)))
    }

    /// What a rail's end brings, by its line.
    pub(super) fn brought<'e>(&self, desk: &Desk<'e>, line: usize, case: usize) -> Option<&'e Peak> {
        let place = self.places.iter().find(|p| p.line == line)?;
        desk.envelope.support(case, line, place.support)
    }

    /// From its ends to the middle of a line that it carries.
    pub(super) fn apart(&self, line: usize) -> Option<[Length; 2]> {
        self.places.iter().find(|p| p.line == line).map(|p| [p.at, self.span - p.at])
    }
}
