//! What a check says: demand, capacity, their ratio, and the worst of them all.

use std::sync::Arc;

use super::envelope::{Envelope, Peak, exceeds};
use super::notes::{self, NotChecked};
use crate::brief::Side;
use crate::derivation::{Expression, Step, Worked};
use crate::load::{Case, CaseKind, Duration, Place};
use crate::platform::Platform;
use crate::quantity::{Length, Measure, Measured};
use crate::rules::RuleError;

/// Pass, fail, or no verdict because some part of the load path has no rule that answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Demand does not exceed capacity.
    Pass,
    /// Demand exceeds capacity.
    Fail,
    /// Nothing fails, but something that carries load could not be checked.
    NotChecked,
}

impl Verdict {
    /// The verdict on a ratio, unrounded: exactly one passes.
    pub fn of(ratio: f64) -> Verdict {
        if ratio <= 1.0 { Verdict::Pass } else { Verdict::Fail }
    }

    /// `pass` or `fail`.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Pass => "pass",
            Verdict::Fail => "fail",
            Verdict::NotChecked => "not checked",
        }
    }
}

/// The way in which a member can fail.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Limit {
    /// Bending stress.
    Bending,
    /// Shear stress along the grain.
    Shear,
    /// Pressure across the grain where it rests.
    Bearing,
    /// Sag under load.
    Deflection,
    /// Sag after years of load.
    Creep,
    /// An end that lifts.
    Uplift,
    /// A screw, sideways and in withdrawal together.
    Screw,
    /// A screw too near an edge, an end or another.
    Spacing,
    /// A screw that does not reach deep enough.
    Penetration,
    /// Shear in the wood above a low row of screws.
    ShearAtScrews,
    /// A rail's end joint.
    Joint,
}

impl Limit {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            Limit::Bending => "bending",
            Limit::Shear => "shear",
            Limit::Bearing => "bearing",
            Limit::Deflection => "deflection",
            Limit::Creep => "creep",
            Limit::Uplift => "uplift",
            Limit::Screw => "screw",
            Limit::Spacing => "spacing",
            Limit::Penetration => "penetration",
            Limit::ShearAtScrews => "shear at screws",
            Limit::Joint => "joint",
        }
    }
}

/// What a member is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// A slat.
    Slat,
    /// A cleat.
    Cleat,
    /// A screw from cleat to rail.
    CleatScrew,
    /// A rail.
    Rail,
    /// A rail's end joint.
    EndJoint,
    /// A screw or lag from rail to stud.
    StudScrew,
}

impl Role {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            Role::Slat => "slat",
            Role::Cleat => "cleat",
            Role::CleatScrew => "cleat screw",
            Role::Rail => "rail",
            Role::EndJoint => "end joint",
            Role::StudScrew => "stud screw",
        }
    }
}

/// Where the load is when a check is at its worst.
#[derive(Clone, Debug, PartialEq)]
pub struct Where {
    /// Middle of the load.
    pub place: Place,
    /// Which slat is under it, counted from one at the head, if one is.
    pub over_slat: Option<usize>,
    /// What the place alone does not say.
    pub note: &'static str,
    /// Where along the member the demand is greatest.
    pub at: Option<Length>,
}

/// One limit of one member, at its worst case and place.
#[derive(Clone, Debug)]
pub struct Check {
    /// Which limit.
    pub limit: Limit,
    /// The case that governs.
    pub case: CaseKind,
    /// Where the load is then; `None` when the load covers everything or nothing moves.
    pub place: Option<Where>,
    /// Demand.
    pub demand: Measure,
    /// Capacity; zero when there is none.
    pub capacity: Measure,
    /// Demand over capacity; infinite when there is no capacity.
    pub ratio: f64,
    /// The verdict on the ratio.
    pub verdict: Verdict,
    /// The clause behind the capacity.
    pub source: String,
    /// How demand and capacity were computed; see [`Check::steps`].
    pub calculation: Vec<Expression>,
    /// What a reader must know about this check, such as a model that stands in for a missing rule.
    pub remark: Option<String>,
}

impl Check {
    /// How it compares with other checks: by its ratio, but a distance that is kept never outranks a
    /// strength, for it says nothing about load.
    fn rank(&self) -> f64 {
        match self.limit {
            Limit::Spacing | Limit::Penetration if self.verdict == Verdict::Pass => 0.0,
            _ => self.ratio,
        }
    }

    /// Every step of the calculation, in order.
    pub fn steps(&self) -> Vec<Arc<Step>> {
        Expression::steps(&self.calculation)
    }

    /// Capacity over demand, less one; `None` when there is no demand or no capacity.
    pub fn margin(&self) -> Option<f64> {
        (self.ratio > 0.0 && self.ratio.is_finite()).then(|| 1.0 / self.ratio - 1.0)
    }
}

/// One member and its checks, each limit once.
#[derive(Clone, Debug)]
pub struct Member {
    /// Its name, such as `slat 7` or `left rail`.
    pub id: String,
    /// What it is.
    pub role: Role,
    /// Wood and size, or screw.
    pub made_of: String,
    /// Its checks.
    pub checks: Vec<Check>,
}

impl Member {
    /// Its worst check: the greatest ratio, distances that are kept aside.
    pub fn worst(&self) -> Option<&Check> {
        first_greatest(self.checks.iter(), |c| c.rank())
    }

    /// Fails if any check fails.
    pub fn verdict(&self) -> Verdict {
        if self.checks.iter().any(|c| c.verdict == Verdict::Fail) { Verdict::Fail } else { Verdict::Pass }
    }
}

/// A load case as it was run, for the reader.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseSummary {
    /// The case.
    pub kind: CaseKind,
    /// Who and how hard.
    pub load: String,
    /// Why this magnitude.
    pub reason: &'static str,
    /// How many positions were tried.
    pub positions: usize,
    /// Whether the brief changed it.
    pub changed: bool,
}

/// Everything there is to say about a platform.
#[derive(Clone, Debug)]
pub struct Assessment {
    /// Every member.
    pub members: Vec<Member>,
    /// The load cases that were run.
    pub cases: Vec<CaseSummary>,
    /// What a reader must bear in mind.
    pub cautions: Vec<String>,
    /// What was not checked, and why.
    pub not_checked: Vec<NotChecked>,
    /// What the brief left open and how it was filled in.
    pub assumptions: Vec<String>,
}

impl Assessment {
    /// Fails if any member fails; passes only if every part of the load path could be checked.
    pub fn verdict(&self) -> Verdict {
        if self.members.iter().any(|m| m.verdict() == Verdict::Fail) {
            Verdict::Fail
        } else if self.not_checked.iter().any(|n| n.carries_load) {
            Verdict::NotChecked
        } else {
            Verdict::Pass
        }
    }

    /// The member and check with the greatest ratio.
    pub fn weakest(&self) -> Option<(&Member, &Check)> {
        first_greatest(self.members.iter().filter_map(|m| m.worst().map(|c| (m, c))), |(_, c)| c.rank())
    }

    /// The worst member of each role, in load-path order.
    pub fn governing(&self) -> Vec<&Member> {
        let mut roles: Vec<Role> = self.members.iter().map(|m| m.role).collect();
        roles.sort_unstable();
        roles.dedup();
        roles
            .into_iter()
            .filter_map(|role| {
                let all = self.members.iter().filter(|m| m.role == role && m.worst().is_some());
                first_greatest(all, |m| m.worst().map_or(0.0, Check::rank))
            })
            .collect()
    }
}

/// The first whose ratio no other exceeds by more than rounding.
fn first_greatest<T>(all: impl Iterator<Item = T>, ratio: impl Fn(&T) -> f64) -> Option<T> {
    all.fold(None, |best, this| match best {
        Some(b) if !exceeds(ratio(&this), ratio(&b)) => Some(b),
        _ => Some(this),
    })
}

/// The candidate checks of one limit over all cases; the worst one is kept.
pub(super) struct Candidate<'a> {
    pub(super) case: usize,
    pub(super) peak: &'a Peak,
    pub(super) ratio: f64,
}

/// Where members collect their checks while a platform is assessed.
pub(super) struct Desk<'a> {
    pub(super) p: &'a Platform,
    pub(super) cases: &'a [Case],
    pub(super) envelope: &'a Envelope,
    members: Vec<Member>,
    not_checked: Vec<NotChecked>,
    cautions: Vec<String>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(p: &'a Platform, cases: &'a [Case], envelope: &'a Envelope) -> Self {
        Desk { p, cases, envelope, members: Vec::new(), not_checked: Vec::new(), cautions: Vec::new() }
    }

    pub(super) fn member(&mut self, member: Member) {
        if !member.checks.is_empty() {
            self.members.push(member);
        }
    }

    /// The durations in use, each once, the dead load's first.
    pub(super) fn durations(&self) -> Vec<Duration> {
        let mut out = vec![Duration::Permanent];
        for c in self.cases {
            if !out.contains(&c.duration) {
                out.push(c.duration);
            }
        }
        out
    }

    /// `left` or `right`.
    pub(super) fn side_name(&self, s: usize) -> &'static str {
        match self.p.sides[s].side {
            Side::Left => "left",
            Side::Right => "right",
        }
    }

    /// Notes that a rule had no answer for something that carries load.
    pub(super) fn unchecked(&mut self, what: &str, error: &RuleError) {
        self.note(NotChecked { what: what.into(), why: error.describe(self.p.units), carries_load: true });
    }

    pub(super) fn note(&mut self, n: NotChecked) {
        if !self.not_checked.contains(&n) {
            self.not_checked.push(n);
        }
    }

    pub(super) fn caution(&mut self, text: String) {
        if !self.cautions.contains(&text) {
            self.cautions.push(text);
        }
    }

    /// The case whose peak gives the greatest ratio of those that count for `counts`.
    pub(super) fn worst<'b>(
        &self,
        counts: impl Fn(&Case) -> bool,
        peak: impl Fn(usize) -> Option<&'b Peak>,
        capacity: impl Fn(&Case) -> f64,
    ) -> Option<Candidate<'b>> {
        let mut best: Option<Candidate<'b>> = None;
        for (i, case) in self.cases.iter().enumerate() {
            if !counts(case) {
                continue;
            }
            let Some(peak) = peak(i) else { continue };
            let ratio = over(peak.value, capacity(case));
            if best.as_ref().is_none_or(|b| exceeds(ratio, b.ratio)) {
                best = Some(Candidate { case: i, peak, ratio });
            }
        }
        best
    }

    /// Where the load of a candidate is.
    pub(super) fn place(&self, c: &Candidate<'_>) -> Option<Where> {
        let case = &self.cases[c.case];
        let position = case.positions.get(c.peak.position)?;
        if matches!(case.kind, CaseKind::Dead) {
            return None;
        }
        let slats = &self.p.slats;
        let half = slats.breadth() / 2.0;
        let over_slat = (0..slats.count).find(|i| {
            let d = slats.centre(*i) - position.place.x;
            d <= half && -d <= half
        });
        Some(Where { place: position.place, over_slat: over_slat.map(|i| i + 1), note: position.note, at: c.peak.at })
    }

    /// A check from a worked demand and a worked capacity.
    pub(super) fn compare<Q: Measured>(
        &self,
        limit: Limit,
        c: &Candidate<'_>,
        demand: &Worked<Q>,
        capacity: &Worked<Q>,
    ) -> Check {
        let ratio = over(demand.value.si(), capacity.value.si());
        Check {
            limit,
            case: self.cases[c.case].kind,
            place: self.place(c),
            demand: demand.value.measure(),
            capacity: capacity.value.measure(),
            ratio,
            verdict: Verdict::of(ratio),
            source: capacity.as_step().map(|s| s.citation.to_string()).unwrap_or_default(),
            calculation: vec![demand.expression().clone(), capacity.expression().clone()],
            remark: None,
        }
    }

    pub(super) fn close(mut self) -> Assessment {
        notes::standing(&mut self);
        Assessment {
            members: self.members,
            cases: self
                .cases
                .iter()
                .map(|c| CaseSummary {
                    kind: c.kind,
                    load: c.load.clone(),
                    reason: c.reason,
                    positions: c.positions.len(),
                    changed: c.changed,
                })
                .collect(),
            cautions: self.cautions,
            not_checked: self.not_checked,
            assumptions: self.p.assumptions.clone(),
        }
    }
}

/// Demand over capacity, with no capacity as infinite and no demand as zero.
pub(super) fn over(demand: f64, capacity: f64) -> f64 {
    if demand <= 0.0 {
        0.0
    } else if capacity <= 0.0 {
        f64::INFINITY
    } else {
        demand / capacity
    }
}
