//! How wide a platform may be with the slats it has.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use super::alter;
use super::bracket::{Greatest, Grid, State};
use super::design::{Design, Outcome, Tried, Weakest};
use crate::brief::Mistake;
use crate::check::Role;
use crate::platform::Platform;
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem};

/// The greatest width at which one part of the load path carries its load.
#[derive(Clone, Debug, PartialEq)]
pub struct PartSpan {
    /// The part; `None` for the whole platform.
    pub role: Option<Role>,
    /// The width clear between the rails; `None` when no width passes.
    pub width: Option<Length>,
    /// The slats' longest span then, between the middles of their bearings.
    pub slat_span: Option<Length>,
    /// Even the greatest width a brief may have passes.
    pub open: bool,
    /// Runs of smaller widths that fail.
    pub holes: Vec<[Length; 2]>,
    /// What fails one step wider, or at the narrowest when none passes.
    pub stopped_by: Option<Weakest>,
    /// Why one step wider cannot be built.
    pub cannot: Option<String>,
}

/// How wide a platform may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Widest {
    /// As the brief has it.
    pub as_drawn: Length,
    /// The step to which widths are found.
    pub step: Length,
    /// The whole platform.
    pub whole: PartSpan,
    /// Each part by itself, in the order of the load path.
    pub parts: Vec<PartSpan>,
}

/// Widths in sixteenths of an inch or in millimetres, over all that a brief may have.
fn grid(units: UnitSystem) -> Grid {
    match units {
        UnitSystem::Us => Grid { first: 12 * 16, last: 160 * 16, coarse: 4 * 16, marks: Vec::new() },
        UnitSystem::Metric => Grid { first: 305, last: 4064, coarse: 100, marks: Vec::new() },
    }
}

/// So many steps of width.
fn width_of(units: UnitSystem, k: i64) -> Length {
    match units {
        UnitSystem::Us => inch(k as f64 / 16.0),
        UnitSystem::Metric => millimetre(k as f64),
    }
}

/// What became of each width, checked once.
struct Widths<'a> {
    design: &'a Design<'a>,
    units: UnitSystem,
    tried: Mutex<BTreeMap<i64, Tried>>,
}

impl Widths<'_> {
    fn at(&self, k: i64) -> Tried {
        let kept = || self.tried.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(t) = kept().get(&k) {
            return t.clone();
        }
        let brief = self.design.with(|b| alter::width(b, width_of(self.units, k)));
        let t = self.design.try_brief(&brief);
        kept().insert(k, t.clone());
        t
    }

    fn greatest(&self, passes: impl Fn(&Outcome) -> bool + Sync) -> Option<Greatest> {
        grid(self.units).greatest(|k| match self.at(k) {
            Tried::Checked(o) if passes(&o) => State::Pass,
            Tried::Checked(_) => State::Fail,
            Tried::Impossible(_) => State::Impossible,
        })
    }

    fn part(&self, role: Option<Role>) -> PartSpan {
        let found = self.greatest(|o| match role {
            Some(r) => o.of_role(r).is_some_and(Weakest::passes),
            None => o.carries == crate::check::Verdict::Pass,
        });
        let width = found.as_ref().map(|f| width_of(self.units, f.at));
        let open = found.as_ref().is_some_and(|f| f.open);
        let beyond = match &found {
            Some(f) => Some(f.at + 1),
            None => self.narrowest(),
        };
        let beyond = beyond.filter(|_| !open).map(|k| self.at(k));
        let of = |o: &Outcome| match role {
            Some(r) => o.of_role(r).cloned(),
            None => o.weakest.clone(),
        };
        PartSpan {
            role,
            width,
            slat_span: width.and_then(|w| self.slat_span(w)),
            open,
            holes: found.map_or(Vec::new(), |f| {
                f.holes.iter().map(|[a, b]| [width_of(self.units, *a), width_of(self.units, *b)]).collect()
            }),
            stopped_by: beyond.as_ref().and_then(Tried::outcome).and_then(of),
            cannot: match beyond {
                Some(Tried::Impossible(why)) => Some(why),
                _ => None,
            },
        }
    }

    /// The slats' longest span on a platform of this width.
    fn slat_span(&self, width: Length) -> Option<Length> {
        let brief = self.design.with(|b| alter::width(b, width));
        Platform::build(&brief, self.design.tables).ok().map(|p| p.longest_slat_span())
    }

    /// The narrowest width that can be built at all, of those the coarse scan tried.
    fn narrowest(&self) -> Option<i64> {
        let kept = self.tried.lock().unwrap_or_else(PoisonError::into_inner);
        kept.iter().find(|(_, t)| t.outcome().is_some()).map(|(k, _)| *k)
    }
}

/// The greatest widths for some parts alone; `None` is the whole platform.
///
/// # Errors
///
/// Every mistake in the brief.
pub(super) fn spans(design: &Design<'_>, roles: &[Option<Role>]) -> Result<Vec<PartSpan>, Vec<Mistake>> {
    let units = design.platform()?.units;
    let widths = Widths { design, units, tried: Mutex::new(BTreeMap::new()) };
    Ok(roles.iter().map(|r| widths.part(*r)).collect())
}

/// The greatest width at which the brief passes, and each of its parts.
///
/// # Errors
///
/// Every mistake in the brief.
pub fn widest(design: &Design<'_>) -> Result<Widest, Vec<Mistake>> {
    let p = design.platform()?;
    let widths = Widths { design, units: p.units, tried: Mutex::new(BTreeMap::new()) };
    let whole = widths.part(None);
    let mut roles: Vec<Role> = {
        let kept = widths.tried.lock().unwrap_or_else(PoisonError::into_inner);
        kept.values().filter_map(Tried::outcome).flat_map(|o| o.by_role.iter().map(|w| w.role)).collect()
    };
    roles.sort_unstable();
    roles.dedup();
    let parts = roles.into_iter().map(|r| widths.part(Some(r))).collect();
    let step = width_of(p.units, 1);
    Ok(Widest { as_drawn: p.width, step, whole, parts })
}
