//! A change to a platform: in words, and made.

use super::{BesideChange, BoltChange, BraceChange, EndRailChange, bolts, end_rail};
use crate::brief::LayWord;
use crate::check::verdict::Role;
use crate::platform::{EndKind, Legs, Platform, ScrewRow};
use crate::quantity::unit::millimetre;
use crate::quantity::{Length, UnitSystem, length_for_builder};
use crate::tables::Tables;
use crate::tables::fasteners::ScrewKind;

/// A change to a platform.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Slats this thick.
    SlatThickness(Length),
    /// This many slats.
    SlatCount(usize),
    /// Cleat screws at this pitch.
    ScrewPitch(Length),
    /// A cleat this size.
    Cleat(String),
    /// A rail this size.
    Rail(String),
    /// So many screws in each rail end.
    EndScrews(usize),
    /// A change to the bolts of the rails' ends.
    Bolts(BoltChange),
    /// Another screw from cleat to rail.
    CleatScrew(String),
    /// Rail ends that rest on a post or block for this length.
    EndBearing(Length),
    /// Rails that are not cut where they rest.
    Uncut,
    /// The cleat this far up the rail.
    Rise(Length),
    /// So many screws in each stud.
    StudScrews(usize),
    /// Posts this size.
    Posts(String),
    /// A mattress this thick.
    Mattress(Length),
    /// A change to the guard or the ladder.
    Beside(BesideChange),
    /// A change to the braces.
    Brace(BraceChange),
    /// A change to the end rails.
    EndRail(EndRailChange),
    /// A centre beam this size.
    CentreBeam(String),
    /// So many legs evenly under the centre beam.
    Legs(usize),
    /// Legs this size.
    LegSize(String),
}

/// Changes after which what failed passes; none when nothing that was tried is enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// The member that failed, or `None` for the whole platform.
    pub role: Option<Role>,
    /// The changes.
    pub changes: Vec<Change>,
}

impl Change {
    pub(super) fn words(&self, units: UnitSystem) -> String {
        let l = |v: Length| length_for_builder(v, units);
        match self {
            Change::SlatThickness(t) => format!("slats {} thick", l(*t)),
            Change::SlatCount(n) => format!("{n} slats"),
            Change::ScrewPitch(p) => format!("cleat screws {} apart", l(*p)),
            Change::Cleat(s) => format!("{s} cleats"),
            Change::Rail(s) => format!("{s} rails"),
            Change::EndScrews(n) => format!("{n} screws in each rail end"),
            Change::Bolts(change) => change.words(units),
            Change::CleatScrew(s) => format!("cleat screws {s}"),
            Change::EndBearing(b) => format!("rail ends that rest {} on a post or block", l(*b)),
            Change::Uncut => "rails of their whole depth where they rest".into(),
            Change::Rise(r) => format!("cleats {} up from the rail's lower edge", l(*r)),
            Change::StudScrews(n) => format!("{n} screws in each stud"),
            Change::Posts(s) => format!("{s} posts"),
            Change::Mattress(t) => format!("a mattress {} thick", l(*t)),
            Change::Beside(change) => change.words(units),
            Change::Brace(change) => change.words(units),
            Change::EndRail(change) => change.words(units),
            Change::CentreBeam(s) => format!("a {s} centre beam"),
            Change::Legs(1) => "a leg under the middle of the centre beam".into(),
            Change::Legs(n) => format!("{n} legs evenly under the centre beam"),
            Change::LegSize(s) => format!("{s} legs"),
        }
    }

    /// The platform changed, or nothing when the change cannot be built.
    pub(super) fn apply(&self, mut p: Platform) -> Option<Platform> {
        match self {
            Change::SlatThickness(t) => match p.slats.lay {
                LayWord::Flat => p.slats.stick = p.slats.stick.thicker(*t)?,
                LayWord::Edge => return None,
            },
            Change::SlatCount(n) => {
                let gap = (p.length - p.slats.breadth() * *n as f64) / (*n as f64 - 1.0);
                if gap < millimetre(5.0) {
                    return None;
                }
                p.slats.count = *n;
                p.slats.gap = gap;
            }
            Change::ScrewPitch(pitch) => {
                for side in &mut p.sides {
                    let r = &side.screws;
                    side.screws = ScrewRow::over(p.length, r.screw.clone(), *pitch, r.first, r.up);
                }
            }
            Change::Cleat(size) => {
                let full = p.slats.bearing == p.sides[0].cleat.thickness;
                for side in &mut p.sides {
                    side.cleat = side.cleat.bought(size)?;
                    if side.cleat.width > side.rail.stick.width || side.screws.screw.length <= side.cleat.thickness {
                        return None;
                    }
                    let r = &side.screws;
                    let up = side.cleat.width / 2.0;
                    side.screws = ScrewRow::over(p.length, r.screw.clone(), r.pitch, r.first, up);
                    side.rise = (side.rail.stick.width - side.cleat.width) / 2.0;
                }
                if full {
                    p.slats.bearing = p.sides[0].cleat.thickness;
                }
            }
            Change::Rail(size) => {
                for side in &mut p.sides {
                    let old = side.rail.stick.width;
                    side.rail.stick = side.rail.stick.bought(size)?;
                    side.rise = (side.rise + (side.rail.stick.width - old) / 2.0).max(Length::default());
                    if let Some(e) = &mut side.rail.ends {
                        e.edge *= (side.rail.stick.width / old).value;
                        if let EndKind::Bolts(bolts) = &e.kind
                            && !bolts.fit(&side.rail.stick)
                        {
                            return None;
                        }
                    }
                }
            }
            Change::EndScrews(n) => {
                for side in &mut p.sides {
                    let depth = side.rail.stick.width;
                    let Some(e) = &mut side.rail.ends else { continue };
                    match &mut e.kind {
                        EndKind::SideGrain { count, .. }
                        | EndKind::EndGrain { count, .. }
                        | EndKind::Pocket { count, .. } => *count = *n,
                        EndKind::Bolts(_) | EndKind::Bearing { .. } | EndKind::Notch(_) | EndKind::Glue => return None,
                    }
                    e.edge = depth / (*n as f64 + 1.0);
                }
            }
            Change::CleatScrew(designation) => {
                for side in &mut p.sides {
                    let fasteners = Tables::embedded().fasteners();
                    let old = &side.screws.screw;
                    let mut screw = match old.kind {
                        ScrewKind::Wood => fasteners.screw(designation).ok()?,
                        ScrewKind::Lag => fasteners.lag(designation).ok()?,
                    };
                    // What is declared of a screw holds for its diameter, whatever its length.
                    if screw.diameter == old.diameter {
                        screw.declared = old.declared.clone();
                    }
                    side.screws.screw = screw;
                }
            }
            // Nothing holds such an end against what a brace does to it.
            Change::EndBearing(_) if p.bracing.knees.is_some() || p.bracing.diagonals.is_some() => return None,
            Change::EndBearing(b) => {
                for side in &mut p.sides {
                    if let Some(e) = &mut side.rail.ends {
                        match &mut e.kind {
                            EndKind::Notch(notch) => notch.length = *b,
                            other => *other = EndKind::Bearing { length: *b },
                        }
                    }
                }
            }
            Change::Uncut => {
                let ends = p.sides.iter_mut().filter_map(|s| s.rail.ends.as_mut());
                if ends.filter_map(|e| e.cut.take()).count() == 0 {
                    return None;
                }
            }
            Change::Rise(r) => {
                for side in &mut p.sides {
                    if *r + side.cleat.width > side.rail.stick.width {
                        return None;
                    }
                    side.rise = *r;
                }
            }
            Change::Mattress(t) => p.mattress.thickness = *t,
            Change::CentreBeam(size) => {
                let beam = p.centre_beam.as_mut()?;
                let old = beam.stick.width;
                beam.stick = beam.stick.bought(size)?;
                beam.ends.edge *= (beam.stick.width / old).value;
            }
            Change::Legs(n) => p.centre_beam.as_mut()?.legs.as_mut()?.positions = Legs::evenly(*n, p.length),
            Change::LegSize(size) => {
                let legs = p.centre_beam.as_mut()?.legs.as_mut()?;
                legs.stick = legs.stick.bought(size)?;
            }
            Change::Posts(size) => {
                let posts = p.posts.as_mut()?;
                posts.stick = posts.stick.bought(size)?;
                bolts::through_posts(&mut p)?;
            }
            Change::StudScrews(n) => {
                for side in &mut p.sides {
                    let depth = side.rail.stick.width;
                    if let Some(studs) = &mut side.rail.studs {
                        studs.count = *n;
                        studs.up = depth / (*n as f64 + 1.0);
                    }
                }
            }
            Change::Bolts(change) => change.apply(&mut p)?,
            Change::Beside(change) => change.apply(&mut p)?,
            Change::Brace(change) => change.apply(&mut p)?,
            Change::EndRail(change) => change.apply(&mut p)?,
        }
        end_rail::carries_rails(&p)?;
        Some(p)
    }
}

impl Remedy {
    /// The change as a sentence.
    pub fn sentence(&self, units: UnitSystem) -> String {
        let words: Vec<String> = self.changes.iter().map(|c| c.words(units)).collect();
        match self.role {
            Some(Role::Opening) if words.is_empty() => "for the openings: no change of size that was tried is enough; \
                draw what the rules above ask for"
                .into(),
            Some(role) if words.is_empty() => {
                format!("for the {}: no change of size, number or spacing that was tried is enough", several(role))
            }
            Some(role) => format!("for the {}: {}", several(role), words.join(" and ")),
            None => format!("for the whole platform: {}", words.join(", ")),
        }
    }
}

/// All members of a role, of which there may be only one.
fn several(role: Role) -> String {
    let ending = if matches!(role, Role::CentreBeam | Role::Platform) { "" } else { "s" };
    format!("{}{ending}", role.name())
}
