//! The load cases: who does what, how hard, for how long, and what it decides.

use super::body;
use super::guard::{GuardLoad, guard_loads, rung_load};
use super::patch::Position;
use super::push;
use super::sweep::{self, Zone};
use crate::brief::RuleFamily;
use crate::platform::{Person, Platform};
use crate::quantity::unit::{METRE_PER_INCH, NEWTON_PER_POUND_FORCE, kilogram, millimetre, newton, pound_force, psf};
use crate::quantity::{AreaLoad, Force, Length, Measure, Measured, STANDARD_GRAVITY, UnitSystem, significant};
use crate::source::Provenance;
use crate::tables::loads::{CodeLoad, PadPlace};

/// What people do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CaseKind {
    /// Timber, mattress and bedding alone.
    Dead,
    /// Everybody lying.
    Lying,
    /// One sitting.
    Sitting,
    /// As many as fit sitting along one long edge.
    RowOnTheEdge,
    /// One kneeling on one knee.
    Kneeling,
    /// One climbing in on one foot.
    ClimbingIn,
    /// One dropping into a seat.
    Dropping,
    /// A child jumping, or two.
    Jumping,
    /// The uniform load of the code.
    CodeUniform,
    /// The point load of the code.
    CodePoint,
    /// A pad of a furniture test, anywhere.
    Proof,
    /// Pads of a furniture test at the middle of a long edge.
    ProofOnTheEdge,
    /// One foot on a bare slat.
    BareSlat,
    /// Somebody against the guard: a force at any point of its top.
    GuardPush,
    /// A load along the guard's whole top.
    GuardLine,
    /// Somebody against the guard's infill.
    GuardInfill,
    /// The forces of published furniture tests on the guard.
    GuardTest,
    /// Somebody on the ladder.
    OnRung,
    /// The platform pushed sideways with everybody on it.
    Racking,
    /// The platform pushed while empty, or sat on at the very edge.
    Tipping,
}

/// How long a load lasts, which decides how strong wood is under it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Duration {
    /// As long as the platform stands.
    Permanent,
    /// Ten years in all.
    TenYears,
    /// Two months in all.
    TwoMonths,
    /// Seven days in all.
    SevenDays,
    /// Ten minutes in all, each time for seconds.
    TenMinutes,
    /// A blow: ten minutes in all, each time over in a moment.
    Blow,
}

/// What a case decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Use {
    /// Bending, shear, bearing, screws, joints.
    pub strength: bool,
    /// Deflection, now and after creep.
    pub deflection: bool,
    /// Told as a caution, never as a verdict.
    pub caution_only: bool,
    /// Left out for slats: a case about rails, cleats and joints.
    pub slats: bool,
}

/// A load case with every arrangement it may take.
#[derive(Clone, Debug)]
pub struct Case {
    /// What people do.
    pub kind: CaseKind,
    /// Who and how hard, in words.
    pub load: String,
    /// Why this magnitude.
    pub reason: String,
    /// How long.
    pub duration: Duration,
    /// What it decides.
    pub use_: Use,
    /// Whether the brief changed it.
    pub changed: bool,
    /// Every arrangement.
    pub positions: Vec<Position>,
}

/// Newtons per metre in a pound per foot.
const FOOT_POUND: f64 = NEWTON_PER_POUND_FORCE / (12.0 * METRE_PER_INCH);
/// What loads no part of the platform's frame: the guard and the ladder have checks of their own.
const BESIDE: Use = Use { strength: false, deflection: false, caution_only: false, slats: false };
const STRENGTH: Use = Use { strength: true, deflection: false, caution_only: false, slats: true };

impl Case {
    /// Whether a demand of this case counts for strength as the same demand of another does.
    pub fn weighs_as(&self, other: &Case) -> bool {
        self.duration == other.duration && self.use_.strength && !self.use_.caution_only
    }
}

impl CaseKind {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            CaseKind::Dead => "dead",
            CaseKind::Lying => "lying",
            CaseKind::Sitting => "sitting",
            CaseKind::RowOnTheEdge => "row on the edge",
            CaseKind::Kneeling => "kneeling",
            CaseKind::ClimbingIn => "climbing in",
            CaseKind::Dropping => "dropping into a seat",
            CaseKind::Jumping => "jumping",
            CaseKind::CodeUniform => "code uniform",
            CaseKind::CodePoint => "code point",
            CaseKind::Proof => "proof load",
            CaseKind::ProofOnTheEdge => "proof load on the edge",
            CaseKind::BareSlat => "bare slat",
            CaseKind::GuardPush => "guard push",
            CaseKind::GuardLine => "guard line load",
            CaseKind::GuardInfill => "guard infill",
            CaseKind::GuardTest => "guard test",
            CaseKind::OnRung => "on a rung",
            CaseKind::Racking => "racking",
            CaseKind::Tipping => "tipping",
        }
    }

    /// Whether it loads the guard or the ladder, which stand beside the platform's frame, or the whole on its posts.
    pub fn beside_the_frame(self) -> bool {
        use CaseKind::{GuardInfill, GuardLine, GuardPush, GuardTest, OnRung, Racking, Tipping};
        matches!(self, GuardPush | GuardLine | GuardInfill | GuardTest | OnRung | Racking | Tipping)
    }

    /// Its key in a brief.
    pub fn key(self) -> &'static str {
        match self {
            CaseKind::Dead => "dead",
            CaseKind::Lying => "lying",
            CaseKind::Sitting => "sitting",
            CaseKind::RowOnTheEdge => "row",
            CaseKind::Kneeling => "kneeling",
            CaseKind::ClimbingIn => "climbing",
            CaseKind::Dropping => "dropping",
            CaseKind::Jumping => "jumping",
            CaseKind::CodeUniform => "uniform",
            CaseKind::CodePoint => "point",
            CaseKind::Proof | CaseKind::ProofOnTheEdge => "proof",
            CaseKind::BareSlat => "bare",
            CaseKind::GuardPush | CaseKind::GuardLine | CaseKind::GuardInfill | CaseKind::GuardTest => "guard",
            CaseKind::OnRung => "rung",
            CaseKind::Racking => "racking",
            CaseKind::Tipping => "tipping",
        }
    }

    /// How long it lasts, and why its magnitude is what it is.
    fn basis(self, rules: RuleFamily) -> (Duration, &'static str) {
        match self {
            CaseKind::Dead => (Duration::Permanent, "always there"),
            CaseKind::Lying => (Duration::TenYears, "eight hours a night for thirty years are ten years in all"),
            CaseKind::Sitting => (Duration::TenYears, "1.3 is the seat load of furniture tests over their body weight"),
            CaseKind::RowOnTheEdge => {
                (Duration::TwoMonths, "four adults at their 95th percentile sum on 2 m are 2.0 kN/m; an hour a week")
            }
            CaseKind::Kneeling => (Duration::SevenDays, "all weight on one knee for a moment; a minute a day"),
            CaseKind::ClimbingIn => {
                (Duration::TenMinutes, "a step is 1.1 to 1.4 of body weight; no published figure for beds")
            }
            CaseKind::Dropping => (Duration::Blow, "1.5 to 2.6 measured and computed for seats; a moment"),
            CaseKind::Jumping => (Duration::Blow, "3.5 of body weight measured on children jumping; a moment"),
            CaseKind::CodeUniform | CaseKind::CodePoint => (Duration::TenYears, "a code's load on a floor"),
            CaseKind::Proof | CaseKind::ProofOnTheEdge => (Duration::TenMinutes, "a furniture test's load"),
            CaseKind::BareSlat => (Duration::TenMinutes, "the mattress is off, as when the bed is made"),
            CaseKind::GuardPush => (Duration::TenMinutes, "the guard load of US residential codes; a moment"),
            CaseKind::GuardLine => (
                Duration::TenMinutes,
                match rules {
                    RuleFamily::AllowableStress => "ASCE 7-16 4.5.1, from memory; dwellings are let off it; a moment",
                    RuleFamily::LimitState => "EN 1991-1-1 Table 6.12, category A, from memory; a moment",
                },
            ),
            CaseKind::GuardInfill => (Duration::TenMinutes, "the infill load of US residential codes; a moment"),
            CaseKind::GuardTest => (
                Duration::TenMinutes,
                "EN 747-2, from memory; what such a test would find is predicted, conformity is not",
            ),
            CaseKind::OnRung => (
                Duration::SevenDays,
                match rules {
                    RuleFamily::AllowableStress => {
                        "ASCE 7-16 4.5.4 for a fixed ladder's rung, from memory, or 1.2 of the heaviest sleeper; seconds \
                         each night"
                    }
                    RuleFamily::LimitState => {
                        "EN 1991-1-1 Table 6.2 for stairs of category A, from memory, or 1.2 of the heaviest sleeper; \
                         seconds each night"
                    }
                },
            ),
            CaseKind::Racking => (
                Duration::TenMinutes,
                "a tenth of all there is on it, at least the 300 N of furniture tests, from memory, which is more \
                 than a jumping child pushes",
            ),
            CaseKind::Tipping => (Duration::TenMinutes, "after furniture tests of stability, from memory"),
        }
    }
}

/// What a load is for and where it is from.
fn sourced(what: &str, from: &Provenance) -> String {
    format!("{what}: {}, {}, {}", from.source, from.edition, from.seen)
}

struct Maker<'a> {
    p: &'a Platform,
    wanted: &'a dyn Fn(CaseKind) -> bool,
    out: Vec<Case>,
}

/// Every load case of a platform, with every position.
pub fn cases(p: &Platform) -> Vec<Case> {
    cases_of(p, &|_| true)
}

/// The load cases of the kinds that are wanted, with every position.
pub fn cases_of(p: &Platform, wanted: &dyn Fn(CaseKind) -> bool) -> Vec<Case> {
    let mut m = Maker { p, wanted, out: Vec::new() };
    m.dead();
    m.lying();
    m.seats();
    m.knees_and_feet();
    m.jumping();
    m.uniform();
    m.guard();
    m.rung();
    m.pushes();
    let decides = |key| p.change(key).is_some_and(|c| c.decides);
    if decides("point") {
        m.point();
    }
    if decides("proof") {
        m.proofs();
    }
    m.out
}

/// The cases that are told and decide nothing: the code's point load, since a bed is no floor, and the
/// loads of furniture tests; without those the brief lets decide.
pub fn predicted(p: &Platform) -> Vec<Case> {
    let mut m = Maker { p, wanted: &|_| true, out: Vec::new() };
    let decides = |key| p.change(key).is_some_and(|c| c.decides);
    if !decides("point") {
        m.point();
    }
    if !decides("proof") {
        m.proofs();
    }
    m.out
}

impl<'a> Maker<'a> {
    fn heaviest_sleeper(&self) -> Option<&'a Person> {
        self.p.sleepers.iter().max_by(|a, b| a.mass.value.total_cmp(&b.mass.value))
    }

    fn heaviest(&self) -> Option<&'a Person> {
        let all = self.p.sleepers.iter().chain(&self.p.visitor);
        all.max_by(|a, b| a.mass.value.total_cmp(&b.mass.value))
    }

    fn factor(&self, kind: CaseKind, default: f64) -> f64 {
        self.p.change(kind.key()).and_then(|c| c.factor).unwrap_or(default)
    }

    fn words(&self, factor: f64, person: &Person) -> String {
        let weight = person.mass.measure().show(self.p.units);
        if factor == 1.0 { weight } else { format!("{} x {weight}", significant(factor, 3)) }
    }

    /// Adds a case unless the brief dropped it.
    fn add(&mut self, kind: CaseKind, load: String, use_: Use, positions: impl FnOnce(&Platform) -> Vec<Position>) {
        let (_, reason) = kind.basis(self.p.rules);
        self.add_for(kind, load, use_, positions, reason.to_owned());
    }

    /// Adds a case with its reason, unless the brief dropped it.
    fn add_for(
        &mut self,
        kind: CaseKind,
        load: String,
        use_: Use,
        positions: impl FnOnce(&Platform) -> Vec<Position>,
        reason: String,
    ) {
        let change = self.p.change(kind.key());
        if !(self.wanted)(kind) || change.is_some_and(|c| c.dropped) {
            return;
        }
        let positions = positions(self.p);
        if positions.is_empty() {
            return;
        }
        let (duration, _) = kind.basis(self.p.rules);
        self.out.push(Case { kind, load, reason, duration, use_, changed: change.is_some(), positions });
    }

    fn dead(&mut self) {
        let besides = match (&self.p.guard, &self.p.ladder) {
            (Some(_), Some(_)) => ", guard and ladder on the rails",
            (Some(_), None) => ", the guard on the rails",
            (None, Some(_)) => ", the ladder on its rail",
            (None, None) => "",
        };
        let text = format!("timber, mattress, bedding{besides}");
        self.add(CaseKind::Dead, text, STRENGTH, |p| vec![sweep::still(p)]);
    }

    fn lying(&mut self) {
        let f = self.factor(CaseKind::Lying, 1.0);
        let people: Vec<String> = self.p.sleepers.iter().map(|s| self.words(f, s)).collect();
        let mut words: Vec<(String, usize)> = Vec::new();
        for w in people {
            match words.iter_mut().find(|(t, _)| *t == w) {
                Some((_, n)) => *n += 1,
                None => words.push((w, 1)),
            }
        }
        let text = words.iter().map(|(w, n)| if *n > 1 { format!("{n} sleepers of {w}") } else { w.clone() });
        let text = text.collect::<Vec<_>>().join(", ");
        self.add(CaseKind::Lying, text, Use { deflection: true, ..STRENGTH }, |p| body::lying(p, f));
    }

    fn seats(&mut self) {
        let (wide, deep) = (millimetre(380.0), millimetre(300.0));
        if let Some(who) = self.heaviest() {
            let f = self.factor(CaseKind::Sitting, 1.3);
            self.add(CaseKind::Sitting, self.words(f, who), STRENGTH, |p| {
                let mut at = sweep::over(p, wide, deep, who.weight() * f, Zone::Anywhere, "");
                at.extend(sweep::over(p, deep, wide, who.weight() * f, Zone::Anywhere, "facing an end"));
                at
            });
        }
        self.row(deep);
        if let Some(who) = self.heaviest_sleeper() {
            let f = self.factor(CaseKind::Dropping, 2.0);
            self.add(CaseKind::Dropping, self.words(f, who), STRENGTH, |p| {
                let mut at = sweep::over(p, wide, deep, who.weight() * f, Zone::LongEdges, "");
                at.extend(sweep::over(p, deep, wide, who.weight() * f, Zone::Ends, "facing an end"));
                at
            });
        }
    }

    /// As many as fit at half a metre. Each weighs what the heaviest here weighs, at most 2.0 kN/m;
    /// the sleepers' own mean weight counts if it is more.
    fn row(&mut self, deep: Length) {
        let seat = millimetre(500.0);
        let n = (self.p.length.value / seat.value + 1e-9).floor();
        let (Some(heaviest), true) = (self.heaviest(), n >= 1.0) else { return };
        let mean = self.p.sleepers.iter().map(|s| s.weight()).fold(Force::default(), |a, w| a + w)
            / self.p.sleepers.len().max(1) as f64;
        let cap = newton(2000.0 * seat.value);
        let one = if heaviest.weight() < cap { heaviest.weight() } else { cap };
        let one = (if mean > one { mean } else { one }) * self.factor(CaseKind::RowOnTheEdge, 1.0);
        let each = kilogram(one.value / STANDARD_GRAVITY).measure().show_to(self.p.units, 3);
        let text = format!("{n} people of {each}, half a metre each");
        self.add(CaseKind::RowOnTheEdge, text, Use { slats: false, ..STRENGTH }, |p| {
            sweep::rows(p, seat * n, deep, one * n)
        });
    }

    fn knees_and_feet(&mut self) {
        let Some(who) = self.heaviest_sleeper() else { return };
        let f = self.factor(CaseKind::Kneeling, 1.0);
        let (short, long) = (millimetre(100.0), millimetre(250.0));
        self.add(CaseKind::Kneeling, self.words(f, who), STRENGTH, |p| {
            let mut at = sweep::over(p, short, long, who.weight() * f, Zone::Anywhere, "knee across");
            at.extend(sweep::over(p, long, short, who.weight() * f, Zone::Anywhere, "knee along"));
            at
        });

        let f = self.factor(CaseKind::ClimbingIn, 1.2);
        self.add(CaseKind::ClimbingIn, self.words(f, who), STRENGTH, |p| {
            sweep::over(p, short, short, who.weight() * f, Zone::Entry(millimetre(300.0)), "")
        });

        let f = self.factor(CaseKind::BareSlat, 1.0);
        self.add(CaseKind::BareSlat, self.words(f, who), Use { caution_only: true, ..STRENGTH }, |p| {
            sweep::each_slat(p, short, who.weight() * f)
        });
    }

    fn jumping(&mut self) {
        let mut children: Vec<&Person> = self.p.sleepers.iter().filter(|s| s.is_child()).collect();
        children.sort_by(|a, b| b.mass.value.total_cmp(&a.mass.value));
        let Some(first) = children.first().copied() else { return };
        let f = self.factor(CaseKind::Jumping, 3.5);
        let side = millimetre(200.0);
        let both = if children.len() > 1 { ", and two together at 0.85 each" } else { "" };
        let text = format!("{}{both}", self.words(f, first));
        self.add(CaseKind::Jumping, text, STRENGTH, |p| {
            // The heaviest child's sweep covers every lighter one's.
            let mut at = sweep::over(p, side, side, first.weight() * f, Zone::Anywhere, "");
            if let Some(second) = children.get(1) {
                at.extend(sweep::pairs(p, side, [first.weight() * f * 0.85, second.weight() * f * 0.85]));
            }
            at
        });
    }

    /// What only a platform on posts of its own feels; the frame of lines and slats does not.
    fn pushes(&mut self) {
        if self.p.posts.is_none() || self.p.stands_at_a_wall() {
            return;
        }
        let aside = Use { strength: false, deflection: false, caution_only: false, slats: false };
        let show = |force: Force| force.measure().show_to(self.p.units, 3);
        let racking = format!("{} sideways at the slats", show(push::sideways(self.p)));
        let tipping = format!(
            "{} sideways while empty; the row on the edge at its very edge, each with {} outwards",
            show(push::against_the_empty()),
            show(push::on_the_edge().outward)
        );
        self.add(CaseKind::Racking, racking, aside, |p| vec![sweep::still(p)]);
        self.add(CaseKind::Tipping, tipping, aside, |p| vec![sweep::still(p)]);
    }

    fn uniform(&mut self) {
        let load: AreaLoad = self.p.change("uniform").and_then(|c| c.load).unwrap_or(self.p.code.uniform);
        let text = match self.p.units {
            UnitSystem::Us => format!("{} psf", significant(load.value / psf(1.0).value, 3)),
            UnitSystem::Metric => format!("{} kN/m²", significant(load.value / 1e3, 3)),
        };
        let reason = sourced(&self.p.code.place, &self.p.code.provenance);
        self.add_for(
            CaseKind::CodeUniform,
            text,
            Use { deflection: true, ..STRENGTH },
            |p| sweep::halves(p, load),
            reason,
        );
    }

    /// The code's point load, on the mattress as everything else is. It is not combined with the uniform one.
    fn point(&mut self) {
        let CodeLoad { point, patch, place, provenance, .. } = &self.p.code;
        let side = patch.measure().show_to(self.p.units, 3);
        let text = format!("{} on a square of {side}", self.force(*point));
        self.add_for(
            CaseKind::CodePoint,
            text,
            STRENGTH,
            |p| sweep::over(p, *patch, *patch, *point, Zone::Anywhere, ""),
            sourced(place, provenance),
        );
    }

    /// A pad is a disc; a square of its area stands for it.
    fn proofs(&mut self) {
        for proof in &self.p.proofs {
            let side = proof.pad * (std::f64::consts::PI / 4.0).sqrt();
            let kind = match proof.place {
                PadPlace::Anywhere => CaseKind::Proof,
                PadPlace::Edge => CaseKind::ProofOnTheEdge,
            };
            let at = |p: &Platform| match proof.place {
                PadPlace::Anywhere => sweep::over(p, side, side, proof.force, Zone::Anywhere, ""),
                PadPlace::Edge => sweep::pads(p, side, proof.force, proof.pads),
            };
            let force = self.force(proof.force);
            let each = if proof.pads > 1 { format!("{} pads of {force} together", proof.pads) } else { force };
            let text = format!("{} {}, {each}, {}", proof.set, proof.name, proof.times);
            self.add_for(kind, text, STRENGTH, at, sourced(&proof.provenance.locator, &proof.provenance));
        }
    }

    fn force(&self, force: Force) -> String {
        match self.p.units {
            UnitSystem::Us => format!("{} lbf", significant(force.value / pound_force(1.0).value, 3)),
            UnitSystem::Metric => format!("{} kN", significant(force.value / 1e3, 3)),
        }
    }

    fn guard(&mut self) {
        let show = |m: Measure| m.show_to(self.p.units, 3);
        let words = |load: GuardLoad| match load {
            GuardLoad::Point(f) => format!("{} in any direction, anywhere on its top", show(f.measure())),
            GuardLoad::Line(w) => match self.p.units {
                UnitSystem::Us => format!("{} lb/ft along its top", significant(w.value / FOOT_POUND, 3)),
                UnitSystem::Metric => format!("{} kN/m along its top", significant(w.value / 1e3, 3)),
            },
            GuardLoad::Test { sideways, down } => {
                format!("{} outwards, or {} downwards", show(sideways.measure()), show(down.measure()))
            }
            GuardLoad::Infill { force, side } => {
                format!("{} over {} square", show(force.measure()), show(side.measure()))
            }
        };
        let all: Vec<_> = guard_loads(self.p).into_iter().map(|(kind, load)| (kind, words(load))).collect();
        for (kind, words) in all {
            self.add(kind, words, BESIDE, |p| vec![sweep::still(p)]);
        }
    }

    fn rung(&mut self) {
        let Some(load) = rung_load(self.p) else { return };
        let text = load.measure().show_to(self.p.units, 3);
        self.add(CaseKind::OnRung, text, BESIDE, |p| vec![sweep::still(p)]);
    }
}
