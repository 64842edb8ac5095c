//! Changes to braces.

use super::candidates::sizes;
use crate::platform::{Fixing, Platform, Stick};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, length_for_builder};

/// A change to the braces that keep a platform from racking.
#[derive(Clone, Debug, PartialEq)]
pub enum BraceChange {
    /// So many screws in each end of a brace.
    Screws(usize),
    /// Knee braces that reach so far down and along.
    Reach(Length),
    /// Braces this size.
    Size(String),
}

/// Metric stock to try, smallest first.
const METRIC: [&str; 4] = ["45x95 mm", "45x145 mm", "60x120 mm", "60x140 mm"];

impl BraceChange {
    pub(super) fn words(&self, units: UnitSystem) -> String {
        match self {
            BraceChange::Screws(n) => format!("{n} screws in each end of a brace"),
            BraceChange::Reach(l) => {
                format!("knee braces that reach {} down the post and along the rail", length_for_builder(*l, units))
            }
            BraceChange::Size(s) => format!("{s} braces"),
        }
    }

    pub(super) fn apply(&self, p: &mut Platform) -> Option<()> {
        let (long, held) = (p.length, p.posts.as_ref()?);
        let shortest = (0..2).filter(|s| p.sides[*s].rail.ends.is_some()).map(|s| held.lengths[s]);
        let shortest = shortest.fold(long, Length::min);
        if let BraceChange::Reach(l) = self {
            let knees = p.bracing.knees.as_mut()?;
            (knees.rise, knees.run) = (*l, *l);
            return (*l < shortest && *l * 2.0 <= long).then_some(());
        }
        let knees = p.bracing.knees.as_mut().map(|k| (&mut k.stick, &mut k.screws));
        let diagonals = p.bracing.diagonals.as_mut().map(|d| (&mut d.stick, &mut d.screws));
        for (stick, screws) in knees.into_iter().chain(diagonals) {
            self.on(stick, screws)?;
        }
        Some(())
    }

    fn on(&self, stick: &mut Stick, screws: &mut Fixing) -> Option<()> {
        match self {
            BraceChange::Screws(n) => screws.count = screws.count.max(*n),
            BraceChange::Size(size) => {
                let larger = stick.bought(size)?;
                if larger.thickness < stick.thickness || larger.width < stick.width {
                    return None;
                }
                *stick = larger;
            }
            BraceChange::Reach(_) => {}
        }
        (screws.screw.length > stick.thickness).then_some(())
    }
}

/// Candidate changes, smallest first.
pub(super) fn candidates(p: &Platform) -> Vec<BraceChange> {
    let step = match p.units {
        UnitSystem::Us => inch(2.0),
        UnitSystem::Metric => millimetre(50.0),
    };
    let mut out: Vec<BraceChange> = (2..=4).map(BraceChange::Screws).collect();
    if let Some(knees) = &p.bracing.knees {
        let first = (knees.rise.max(knees.run).value / step.value + 1e-9).floor() as usize + 1;
        out.extend((first..first + 12).map(|k| BraceChange::Reach(step * k as f64)));
    }
    out.extend(sizes(p, &["2x4", "2x6", "4x4", "4x6"], &METRIC).map(|s| BraceChange::Size(s.into())));
    out
}
