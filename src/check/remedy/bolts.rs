//! Changes to the bolts of the rails' ends.

use super::candidates::longer_by_of;
use crate::brief::RuleFamily;
use crate::platform::{Bolts, EndJoint, EndKind, Platform, Stick};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, length_for_builder};
use crate::tables::Tables;
use crate::tables::fasteners::{Bolt, Washer};

/// A change to the bolts of the rails' ends.
#[derive(Clone, Debug, PartialEq)]
pub enum BoltChange {
    /// So many of these, evenly up each end.
    Bolts(usize, String),
    /// Washers this wide and this thick.
    Washers(Length, Length),
    /// Rails that reach this far past their bolts.
    End(Length),
}

impl BoltChange {
    pub(super) fn words(&self, units: UnitSystem) -> String {
        let l = |v: Length| length_for_builder(v, units);
        match self {
            BoltChange::Bolts(1, bolt) => format!("a bolt {bolt} in each rail end"),
            BoltChange::Bolts(n, bolt) => format!("{n} bolts {bolt} in each rail end"),
            BoltChange::Washers(across, thickness) => {
                format!("washers {} across and {} thick", l(*across), l(*thickness))
            }
            BoltChange::End(end) => format!("rails that reach {} past their bolts", l(*end)),
        }
    }

    pub(super) fn apply(&self, p: &mut Platform) -> Option<()> {
        let mut any = false;
        for side in &mut p.sides {
            let Some(ends) = &mut side.rail.ends else { continue };
            if matches!(ends.kind, EndKind::Bolts(_)) {
                self.on(ends, &side.rail.stick)?;
                any = true;
            }
        }
        any.then_some(())
    }

    fn on(&self, ends: &mut EndJoint, rail: &Stick) -> Option<()> {
        let EndKind::Bolts(bolts) = &mut ends.kind else { return None };
        match self {
            BoltChange::Bolts(count, designation) => {
                let washer = bolts.bolt.washer;
                let bolt = Tables::embedded().fasteners().bolt(designation).ok()?;
                // Washers that the brief describes stay on bolts of the same size.
                let washer = if bolt.diameter == bolts.bolt.diameter { washer } else { bolt.washer };
                bolts.bolt = Bolt { washer, ..bolt };
                bolts.count = *count;
                ends.edge = rail.width / (*count as f64 + 1.0);
            }
            BoltChange::Washers(across, thickness) => {
                bolts.bolt.washer = Washer { across: *across, thickness: *thickness, hole: bolts.bolt.washer.hole };
            }
            BoltChange::End(end) => ends.end = *end,
        }
        bolts.fit(rail).then_some(())
    }
}

/// Bolts of the rails' ends go through posts that were changed.
pub(super) fn through_posts(p: &mut Platform) -> Option<()> {
    let post = p.posts.as_ref()?.stick.clone();
    if let Some(e) = &mut p.end_rails
        && let EndKind::Bolts(bolts) = &mut e.ends.kind
    {
        *bolts.post = Stick { thickness: post.width, width: post.thickness, ..post.clone() };
        if !bolts.fit(&e.stick) {
            return None;
        }
    }
    for side in &mut p.sides {
        if let Some(EndKind::Bolts(bolts)) = side.rail.ends.as_mut().map(|e| &mut e.kind) {
            *bolts.post = post.clone();
            if !bolts.fit(&side.rail.stick) {
                return None;
            }
        }
    }
    Some(())
}

/// What to try: more of the same bolts, thicker ones, then longer ends and larger washers.
pub(super) fn candidates(p: &Platform) -> Vec<BoltChange> {
    let bolted = p.sides.iter().find_map(|s| match &s.rail.ends.as_ref()?.kind {
        EndKind::Bolts(bolts) => Some((&s.rail.stick, bolts)),
        _ => None,
    });
    let Some((rail, bolts)) = bolted else { return Vec::new() };
    let bolt = &bolts.bolt;
    let mut out: Vec<BoltChange> =
        (bolts.count + 1..=4).map(|n| BoltChange::Bolts(n, bolt.designation.clone())).collect();
    for designation in thicker(rail, bolts) {
        out.extend((1..=4).map(|n| BoltChange::Bolts(n, designation.clone())));
    }
    let d = bolt.diameter;
    out.extend((4..=8).map(|n| BoltChange::End(rounded(d * f64::from(n), p.units))));
    if p.rules == RuleFamily::LimitState {
        out.push(BoltChange::Washers(rounded(d * 3.0, p.units), rounded(d * 0.3, UnitSystem::Metric)));
    }
    out
}

/// Thicker bolts of the same standard, each in the shortest length that goes through rail and post.
fn thicker(rail: &Stick, bolts: &Bolts) -> Vec<String> {
    let fasteners = Tables::embedded().fasteners();
    let metric = bolts.bolt.designation.starts_with('M');
    let sizes = fasteners.bolts().iter().filter(|r| r.name.starts_with('M') == metric);
    let wood = rail.thickness + bolts.post.thickness;
    sizes
        .filter(|r| r.diameter > bolts.bolt.diameter + millimetre(0.01))
        .filter_map(|r| {
            let step = longer_by_of(metric);
            let least = (wood.value / step.value).floor() as usize;
            let units = if metric { UnitSystem::Metric } else { UnitSystem::Us };
            let size = r.name.trim_end_matches(" in");
            (least..least + 12)
                .map(|k| format!("{size} x {}", length_for_builder(step * k as f64, units)))
                .find(|d| fasteners.bolt(d).is_ok_and(|bolt| bolt.fits(wood)))
        })
        .collect()
}

/// Up to the next eighth of an inch, or millimetre.
fn rounded(v: Length, units: UnitSystem) -> Length {
    let step = match units {
        UnitSystem::Us => inch(0.125),
        UnitSystem::Metric => millimetre(1.0),
    };
    step * (v.value / step.value - 1e-9).ceil()
}
