//! Changes to a guard or a ladder.

use super::Role;
use super::candidates::{METRIC_POSTS, larger, sizes};
use crate::brief::HeadsOn;
use crate::platform::{Platform, Rung, RungEnd};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, length_for_builder};
use crate::tables::Tables;

/// A change to what stands beside the platform's frame.
#[derive(Clone, Debug, PartialEq)]
pub enum BesideChange {
    /// Guard posts this close.
    GuardPitch(Length),
    /// A top rail this size.
    GuardRail(String),
    /// So many screws from the top rail into each post.
    GuardRailScrews(usize),
    /// Guard posts this size.
    GuardPost(String),
    /// So many screws in each guard post.
    GuardPostScrews(usize),
    /// Treads this thick.
    Tread(Length),
    /// Rungs of this pipe.
    Pipe(String),
    /// Round rungs this thick.
    RoundRung(Length),
    /// Rungs let this far into the stringers.
    Housing(Length),
    /// So many screws in each rung's end.
    RungScrews(usize),
    /// Stringers this size.
    Stringer(String),
    /// So many screws in each stringer's top.
    LadderTop(usize),
}

impl BesideChange {
    pub(super) fn words(&self, units: UnitSystem) -> String {
        let l = |v: Length| length_for_builder(v, units);
        match self {
            BesideChange::GuardPitch(p) => format!("guard posts at most {} apart", l(*p)),
            BesideChange::GuardRail(s) => format!("a {s} top rail on the guard"),
            BesideChange::GuardRailScrews(n) => format!("{n} screws from the guard's top rail into each post"),
            BesideChange::GuardPost(s) => format!("{s} guard posts"),
            BesideChange::GuardPostScrews(n) => format!("{n} screws in each guard post"),
            BesideChange::Tread(t) => format!("treads {} thick", l(*t)),
            BesideChange::Pipe(s) => format!("rungs of {s} pipe"),
            BesideChange::RoundRung(d) => format!("round rungs {} thick", l(*d)),
            BesideChange::Housing(d) => format!("rungs let {} into the stringers", l(*d)),
            BesideChange::RungScrews(n) => format!("{n} screws in each end of a rung"),
            BesideChange::Stringer(s) => format!("{s} stringers"),
            BesideChange::LadderTop(n) => format!("{n} screws in the top of each stringer"),
        }
    }

    pub(super) fn apply(&self, p: &mut Platform) -> Option<()> {
        match self {
            BesideChange::GuardPitch(pitch) => p.guard.as_mut()?.posts.pitch = *pitch,
            BesideChange::GuardRail(size) => {
                let guard = p.guard.as_mut()?;
                guard.rail = guard.rail.bought(size)?;
                // A deeper rail must not close the guard's gaps on the slats.
                if guard.lowest() < Length::default() || guard.rail_screws.screw.length <= guard.rail.thickness {
                    return None;
                }
            }
            BesideChange::GuardRailScrews(n) => p.guard.as_mut()?.rail_screws.count = *n,
            BesideChange::GuardPost(size) => {
                let posts = &mut p.guard.as_mut()?.posts;
                posts.stick = posts.stick.bought(size)?;
                if posts.heads == HeadsOn::Post && posts.screw.length <= posts.stick.thickness {
                    return None;
                }
            }
            BesideChange::GuardPostScrews(n) => p.guard.as_mut()?.posts.count = *n,
            BesideChange::Tread(t) => match &mut p.ladder.as_mut()?.rung {
                Rung::Tread(s) => *s = s.thicker(*t)?,
                Rung::Round(_) | Rung::Pipe(_) => return None,
            },
            BesideChange::Pipe(name) => {
                p.ladder.as_mut()?.rung = Rung::Pipe(Tables::embedded().pipes().find(name).ok()?.clone());
            }
            BesideChange::RoundRung(d) => match &mut p.ladder.as_mut()?.rung {
                Rung::Round(s) => *s = s.turned_to(*d)?,
                Rung::Tread(_) | Rung::Pipe(_) => return None,
            },
            BesideChange::Housing(deeper) => match &mut p.ladder.as_mut()?.ends {
                RungEnd::Housed { depth } => *depth = *deeper,
                RungEnd::Screws { .. } => return None,
            },
            BesideChange::RungScrews(n) => match &mut p.ladder.as_mut()?.ends {
                RungEnd::Screws { count, .. } => *count = *n,
                RungEnd::Housed { .. } => return None,
            },
            BesideChange::Stringer(size) => {
                let ladder = p.ladder.as_mut()?;
                ladder.stringer = ladder.stringer.bought(size)?;
                // Screws pass through it, into the bed's rail and into a rung's end.
                let through = match &ladder.ends {
                    RungEnd::Screws { screw, .. } => screw.length.min(ladder.top.screw.length),
                    RungEnd::Housed { .. } => ladder.top.screw.length,
                };
                if through <= ladder.stringer.thickness {
                    return None;
                }
            }
            BesideChange::LadderTop(n) => p.ladder.as_mut()?.top.count = *n,
        }
        Some(())
    }
}

/// Candidate changes for a role, smallest first.
pub(super) fn candidates(role: Role, p: &Platform) -> Vec<BesideChange> {
    let mut out = Vec::new();
    if let Some(guard) = &p.guard {
        let step = match p.units {
            UnitSystem::Us => inch(2.0),
            UnitSystem::Metric => millimetre(50.0),
        };
        let most = (guard.posts.pitch.value / step.value - 1e-9).floor() as usize;
        let closer = (4..=most).rev().map(|k| BesideChange::GuardPitch(step * k as f64)).filter(|c| match c {
            BesideChange::GuardPitch(l) => *l < guard.posts.pitch,
            _ => true,
        });
        match role {
            Role::GuardRail => {
                out.extend((guard.rail_screws.count + 1..=4).map(BesideChange::GuardRailScrews));
                out.extend(closer);
                let all = sizes(p, &["2x4", "2x6", "4x4", "2x8"], &METRIC_GUARD_RAILS);
                out.extend(larger(Some(&guard.rail), all).into_iter().map(BesideChange::GuardRail));
            }
            Role::GuardPost => {
                let all = sizes(p, &["2x4", "2x6", "4x4", "4x6"], &METRIC_POSTS);
                out.extend(larger(Some(&guard.posts.stick), all).into_iter().map(BesideChange::GuardPost));
                out.extend(closer);
            }
            Role::GuardPostScrews => {
                let more = [4, 6, 8].into_iter().filter(|n| *n > guard.posts.count);
                out.extend(more.map(BesideChange::GuardPostScrews));
                out.extend(closer);
            }
            _ => {}
        }
    }
    out.extend(for_ladder(role, p));
    out
}

/// Metric stock to try for a guard's top rail, smallest first.
const METRIC_GUARD_RAILS: [&str; 5] = ["45x70 mm", "45x95 mm", "45x145 mm", "60x120 mm", "80x120 mm"];

/// Metric stock to try for a ladder's stringers, smallest first.
const METRIC_STRINGERS: [&str; 5] = ["45x95 mm", "45x120 mm", "45x145 mm", "60x120 mm", "60x140 mm"];

fn for_ladder(role: Role, p: &Platform) -> Vec<BesideChange> {
    let Some(ladder) = &p.ladder else { return Vec::new() };
    let step = match p.units {
        UnitSystem::Us => inch(0.125),
        UnitSystem::Metric => millimetre(2.0),
    };
    let from = |now: Length| {
        let first = (now.value / step.value + 1e-9).floor() as usize + 1;
        (first..first + 16).map(move |k| step * k as f64)
    };
    match (role, &ladder.rung, &ladder.ends) {
        (Role::Rung, Rung::Tread(s), _) => from(s.thickness).map(BesideChange::Tread).collect(),
        (Role::Rung, Rung::Round(s), _) => from(s.width).map(BesideChange::RoundRung).collect(),
        (Role::Rung, Rung::Pipe(pipe), _) => {
            let pipes = Tables::embedded().pipes().rows().iter().filter(|r| r.outside > pipe.outside);
            pipes.map(|r| BesideChange::Pipe(r.name.clone())).collect()
        }
        // What is left of a stringer must still stand.
        (Role::RungEnd, _, RungEnd::Housed { depth }) => {
            from(*depth).filter(|d| *d * 2.0 <= ladder.stringer.thickness).map(BesideChange::Housing).collect()
        }
        (Role::RungEnd, _, RungEnd::Screws { count, .. }) => (count + 1..=4).map(BesideChange::RungScrews).collect(),
        (Role::Stringer, ..) => {
            let all = sizes(p, &["2x4", "2x6", "4x4", "2x8", "4x6"], &METRIC_STRINGERS);
            larger(Some(&ladder.stringer), all).into_iter().map(BesideChange::Stringer).collect()
        }
        (Role::LadderTop, ..) => (ladder.top.count + 1..=6).map(BesideChange::LadderTop).collect(),
        _ => Vec::new(),
    }
}
