//! Changes to the end rails.

use super::candidates::{METRIC_RAILS, larger, sizes};
use crate::platform::{EndKind, EndRails, Platform};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, length_for_builder};

/// A change to the end rails.
#[derive(Clone, Debug, PartialEq)]
pub enum EndRailChange {
    /// End rails this size.
    Size(String),
    /// So many screws or bolts in each of their ends.
    Fasteners(usize),
    /// Ends that rest so far on the posts.
    Bearing(Length),
    /// End rails of their whole depth where they rest.
    Uncut,
}

impl EndRailChange {
    pub(super) fn words(&self, units: UnitSystem) -> String {
        match self {
            EndRailChange::Size(s) => format!("{s} end rails"),
            EndRailChange::Fasteners(n) => format!("{n} screws or bolts in each end of the end rails"),
            EndRailChange::Bearing(l) => format!("end rails that rest {} on a post", length_for_builder(*l, units)),
            EndRailChange::Uncut => "end rails of their whole depth where they rest".into(),
        }
    }

    pub(super) fn apply(&self, p: &mut Platform) -> Option<()> {
        let across = p.posts.as_ref().map(|posts| posts.stick.thickness);
        let e = p.end_rails.as_mut()?;
        match self {
            EndRailChange::Size(size) => {
                let old = e.stick.width;
                e.stick = e.stick.bought(size)?;
                e.ends.edge *= (e.stick.width / old).value;
                if let EndKind::Bolts(bolts) = &e.ends.kind
                    && !bolts.fit(&e.stick)
                {
                    return None;
                }
            }
            EndRailChange::Fasteners(n) => {
                match &mut e.ends.kind {
                    EndKind::SideGrain { count, .. }
                    | EndKind::EndGrain { count, .. }
                    | EndKind::Pocket { count, .. } => *count = *n,
                    EndKind::Bolts(bolts) => bolts.count = *n,
                    EndKind::Bearing { .. } | EndKind::Notch(_) | EndKind::Glue => return None,
                }
                e.ends.edge = e.stick.width / (*n as f64 + 1.0);
            }
            EndRailChange::Bearing(b) => match &mut e.ends.kind {
                EndKind::Bearing { length } if across.is_none_or(|post| *b <= post + millimetre(0.01)) => *length = *b,
                _ => return None,
            },
            EndRailChange::Uncut => {
                e.ends.cut.take()?;
            }
        }
        carries_rails(p)
    }
}

/// Whether the rails still rest or hang on the end rails as they are.
pub(super) fn carries_rails(p: &Platform) -> Option<()> {
    let Some(EndRails { stick, rise, .. }) = &p.end_rails else { return Some(()) };
    let all = p.sides.iter().filter_map(|s| s.rail.ends.as_ref().map(|e| (&s.rail.stick, e)));
    let mut held = all.map(|(rail, ends)| match (&ends.kind, ends.highest_screw(rail)) {
        (EndKind::Bearing { length }, _) => *length <= stick.thickness + millimetre(0.01),
        (EndKind::EndGrain { through, .. }, Some(highest)) => {
            (*through - stick.thickness).abs() < millimetre(0.5) && *rise + highest < stick.width
        }
        (_, Some(highest)) => *rise + highest < stick.width,
        _ => true,
    });
    held.all(|held| held).then_some(())
}

/// Larger end rails, smallest first.
pub(super) fn sized(p: &Platform) -> Vec<EndRailChange> {
    let all = sizes(p, &["2x6", "2x8", "2x10", "4x6", "4x8", "4x10"], &METRIC_RAILS);
    larger(p.end_rails.as_ref().map(|e| &e.stick), all).into_iter().map(EndRailChange::Size).collect()
}

/// What to try for their ends.
pub(super) fn joints(p: &Platform) -> Vec<EndRailChange> {
    let now = p.end_rails.as_ref().and_then(|e| e.ends.kind.count()).unwrap_or(0);
    let mut out: Vec<EndRailChange> = (now + 1..=8).map(EndRailChange::Fasteners).collect();
    out.push(EndRailChange::Uncut);
    out.extend([1.5, 2.5, 3.5].map(|b| EndRailChange::Bearing(inch(b))));
    out.extend(sized(p));
    out
}
