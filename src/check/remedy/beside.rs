//! Changes to a guard or a ladder.

use super::{Role, resized};
use crate::brief::RuleFamily;
use crate::platform::{Platform, Rung};
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
            BesideChange::LadderTop(n) => format!("{n} screws in the top of each stringer"),
        }
    }

    pub(super) fn apply(&self, p: &mut Platform) -> Option<()> {
        // The stock sizes are US ones, which no timber of a strength class is sold in.
        if p.rules == RuleFamily::LimitState && matches!(self, BesideChange::GuardRail(_) | BesideChange::GuardPost(_))
        {
            return None;
        }
        match self {
            BesideChange::GuardPitch(pitch) => p.guard.as_mut()?.posts.pitch = *pitch,
            BesideChange::GuardRail(size) => {
                let guard = p.guard.as_mut()?;
                guard.rail = resized(&guard.rail, size)?;
                // A deeper rail must not close the guard's gaps on the slats.
                if guard.lowest() < Length::default() || guard.rail_screws.screw.length <= guard.rail.thickness {
                    return None;
                }
            }
            BesideChange::GuardRailScrews(n) => p.guard.as_mut()?.rail_screws.count = *n,
            BesideChange::GuardPost(size) => {
                let posts = &mut p.guard.as_mut()?.posts;
                posts.stick = resized(&posts.stick, size)?;
                if posts.screw.length <= posts.stick.thickness {
                    return None;
                }
            }
            BesideChange::GuardPostScrews(n) => p.guard.as_mut()?.posts.count = *n,
            BesideChange::Tread(t) => match &mut p.ladder.as_mut()?.rung {
                Rung::Tread(s) => *s = super::thicker(s, *t)?,
                Rung::Round(_) | Rung::Pipe(_) => return None,
            },
            BesideChange::Pipe(name) => {
                p.ladder.as_mut()?.rung = Rung::Pipe(Tables::embedded().pipes().find(name).ok()?.clone());
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
        let larger = |now: Length, sizes: [&str; 4]| -> Vec<String> {
            let area = |s: &str| resized(&guard.rail, s).map_or(0.0, |r| (r.width * r.thickness).value);
            sizes.into_iter().filter(|s| area(s) > (now * now).value).map(String::from).collect()
        };
        match role {
            Role::GuardRail => {
                out.extend((guard.rail_screws.count + 1..=4).map(BesideChange::GuardRailScrews));
                out.extend(closer);
                let now = (guard.rail.width * guard.rail.thickness).sqrt();
                out.extend(larger(now, ["2x4", "2x6", "4x4", "2x8"]).into_iter().map(BesideChange::GuardRail));
            }
            Role::GuardPost => {
                let now = (guard.posts.stick.width * guard.posts.stick.thickness).sqrt();
                out.extend(larger(now, ["2x4", "2x6", "4x4", "4x6"]).into_iter().map(BesideChange::GuardPost));
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
    if let Some(ladder) = &p.ladder {
        match (role, &ladder.rung) {
            (Role::Rung, Rung::Tread(s)) => {
                let step = match p.units {
                    UnitSystem::Us => inch(0.125),
                    UnitSystem::Metric => millimetre(2.0),
                };
                let first = (s.thickness.value / step.value).floor() as usize + 1;
                out.extend((first..first + 16).map(|k| BesideChange::Tread(step * k as f64)));
            }
            (Role::Rung, Rung::Pipe(pipe)) => {
                let pipes = Tables::embedded().pipes().rows().iter().filter(|r| r.outside > pipe.outside);
                out.extend(pipes.map(|r| BesideChange::Pipe(r.name.clone())));
            }
            (Role::LadderTop, _) => out.extend((ladder.top.count + 1..=6).map(BesideChange::LadderTop)),
            _ => {}
        }
    }
    out
}
