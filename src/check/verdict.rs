//! What a check says: demand, capacity, their ratio, and the worst of them all.

use std::sync::Arc;

use super::envelope::exceeds;
use super::notes::NotChecked;
use super::opening::Openings;
use super::prediction::Prediction;
use crate::derivation::{Expression, Step};
use crate::load::{CaseKind, Place};
use crate::quantity::{Length, Measure};

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
    /// A size that public law or a published rule asks for.
    Opening,
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
    /// A notch in a rail's lower edge where it rests.
    Notch,
    /// A washer too small or too thin for its bolt.
    Washer,
    /// A screw that does not reach deep enough.
    Penetration,
    /// Shear in the wood above a low row of screws.
    ShearAtScrews,
    /// A rail's end joint.
    Joint,
    /// Compression along a post, off its axis, with buckling.
    Buckling,
    /// Tension along a brace, off its axis, between its screw holes.
    Tension,
    /// A post longer for its side than a rule allows.
    Slenderness,
    /// The platform turning over about its outer posts.
    Tipping,
}

impl Limit {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            Limit::Opening => "opening",
            Limit::Bending => "bending",
            Limit::Shear => "shear",
            Limit::Bearing => "bearing",
            Limit::Deflection => "deflection",
            Limit::Creep => "creep",
            Limit::Uplift => "uplift",
            Limit::Screw => "screw",
            Limit::Spacing => "spacing",
            Limit::Notch => "notch",
            Limit::Washer => "washer",
            Limit::Penetration => "penetration",
            Limit::ShearAtScrews => "shear at screws",
            Limit::Joint => "joint",
            Limit::Buckling => "buckling",
            Limit::Tension => "tension",
            Limit::Slenderness => "slenderness",
            Limit::Tipping => "tipping",
        }
    }
}

/// What a member is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// A rule for guards, openings or heights.
    Opening,
    /// A slat.
    Slat,
    /// A cleat.
    Cleat,
    /// A screw from cleat to rail.
    CleatScrew,
    /// A rail.
    Rail,
    /// The centre beam.
    CentreBeam,
    /// A rail's or centre beam's end joint.
    EndJoint,
    /// A cross rail at the head or the foot.
    EndRail,
    /// An end rail's end joint.
    EndRailJoint,
    /// A screw or lag from rail to stud.
    StudScrew,
    /// A post under a rail's end.
    Post,
    /// A guard's top rail.
    GuardRail,
    /// A guard's post.
    GuardPost,
    /// The screws that hold a guard's post to the bed's rail.
    GuardPostScrews,
    /// A guard's lower rail or bar.
    GuardInfill,
    /// A ladder's rung or tread.
    Rung,
    /// What holds a rung's end.
    RungEnd,
    /// A ladder's stringer.
    Stringer,
    /// What holds a ladder's top to the bed's rail.
    LadderTop,
    /// A leg under the centre beam.
    Leg,
    /// A knee brace or a diagonal.
    Brace,
    /// The platform as a whole.
    Platform,
}

impl Role {
    /// Its name in output.
    pub fn name(self) -> &'static str {
        match self {
            Role::Opening => "opening",
            Role::Slat => "slat",
            Role::Cleat => "cleat",
            Role::CleatScrew => "cleat screw",
            Role::Rail => "rail",
            Role::EndJoint => "end joint",
            Role::EndRail => "end rail",
            Role::EndRailJoint => "end rail joint",
            Role::StudScrew => "stud screw",
            Role::Post => "post",
            Role::GuardRail => "guard rail",
            Role::GuardPost => "guard post",
            Role::GuardPostScrews => "guard post screw",
            Role::GuardInfill => "guard infill",
            Role::Rung => "rung",
            Role::RungEnd => "rung end",
            Role::Stringer => "stringer",
            Role::LadderTop => "ladder top",
            Role::Leg => "leg",
            Role::Brace => "brace",
            Role::Platform => "platform",
            Role::CentreBeam => "centre beam",
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
    /// Which position of its case this is.
    pub position: usize,
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

impl Limit {
    /// Whether it is about a shape, which no load moves.
    pub fn stands_still(self) -> bool {
        matches!(self, Limit::Spacing | Limit::Penetration | Limit::Slenderness | Limit::Opening)
    }
}

impl Check {
    /// How it compares with other checks: by its ratio, but a distance that is kept never outranks a
    /// strength, for it says nothing about load.
    fn rank(&self) -> f64 {
        if self.limit.stands_still() && self.verdict == Verdict::Pass { 0.0 } else { self.ratio }
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
    pub reason: String,
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
    /// What the rules for openings came to, where any applies.
    pub openings: Option<Openings>,
    /// Loads that decide nothing; [`check`](super::check) alone leaves them out.
    pub predictions: Vec<Prediction>,
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
        if self.openings_not_kept().next().is_some() { Verdict::Fail } else { self.carries() }
    }

    /// The verdict on what carries load, whatever the rules for guards and openings say.
    pub fn carries(&self) -> Verdict {
        let fails = |m: &Member| m.role != Role::Opening && m.verdict() == Verdict::Fail;
        if self.members.iter().any(fails) {
            Verdict::Fail
        } else if self.not_checked.iter().any(|n| n.carries_load) {
            Verdict::NotChecked
        } else {
            Verdict::Pass
        }
    }

    /// The rules for guards, openings and heights that are not kept.
    pub fn openings_not_kept(&self) -> impl Iterator<Item = (&Member, &Check)> {
        let all = self.members.iter().filter(|m| m.role == Role::Opening);
        all.filter_map(|m| m.worst().map(|c| (m, c))).filter(|(_, c)| c.verdict == Verdict::Fail)
    }

    /// The member and check with the greatest ratio of what carries load.
    pub fn weakest(&self) -> Option<(&Member, &Check)> {
        let carries = self.members.iter().filter(|m| m.role != Role::Opening);
        first_greatest(carries.filter_map(|m| m.worst().map(|c| (m, c))), |(_, c)| c.rank())
    }

    /// A member by its name.
    pub fn member(&self, id: &str) -> Option<&Member> {
        self.members.iter().find(|m| m.id == id)
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
