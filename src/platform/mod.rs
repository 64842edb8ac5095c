//! The sleeping platform as built: slats on cleats, cleats screwed to rails, rails to posts or studs.
//!
//! Coordinates: `x` runs along the rails from the head (0) to the foot, `y` across from the left
//! rail's inner face (0) to the right one's, both seen from the foot towards the head.

mod board;
mod bracing;
mod build;
mod centre_beam;
mod class;
mod end_rails;
mod guard;
mod ladder;
mod people;
mod posts;
mod stick;
mod support;
mod wood;

pub use board::Board;
pub use bracing::{Bracing, Diagonals, Held, Knees, Way};
pub use centre_beam::CentreBeam;
pub use end_rails::EndRails;
pub use guard::{Bars, Fixing, Guard, GuardPosts, LowerRails, Opening, Run};
pub use ladder::{Ladder, Rung, RungEnd};
pub use people::{Mattress, Person, Posture, child_below};
pub use posts::{Legs, Posts, Top};
pub use stick::Stick;
pub(crate) use stick::stick;
pub use support::{Bolts, EndJoint, EndKind, Holder, Keeper, Notch, Rail, ScrewRow, Studs};
pub use wood::{Heaviness, WoodChoice};

use crate::brief::{LayWord, National, RuleFamily, Side};
use crate::quantity::{AreaLoad, Length, UnitSystem};
use crate::tables::loads::{CodeLoad, ProofLoad};
use crate::tables::openings::{Jurisdiction, OpeningRule};

/// A validated platform, ready to be loaded.
#[derive(Clone, Debug)]
pub struct Platform {
    /// Title from the brief.
    pub title: String,
    /// Units the report is printed in.
    pub units: UnitSystem,
    /// Rules it is checked by.
    pub rules: RuleFamily,
    /// Whether the wood is damp in use.
    pub damp: bool,
    /// Whose nationally determined parameters the ec5 rules take.
    pub national: National,
    /// Along the rails, clear between end supports.
    pub length: Length,
    /// Clear between rails.
    pub width: Length,
    /// Slat top above floor, if the brief says it.
    pub height: Option<Length>,
    /// Long sides that people climb in from.
    pub entries: Vec<Side>,
    /// What lies on the slats.
    pub mattress: Mattress,
    /// Who sleeps here.
    pub sleepers: Vec<Person>,
    /// The adult who sits on a child's bed.
    pub visitor: Option<Person>,
    /// How the sleepers lie.
    pub posture: Posture,
    /// The slats.
    pub slats: Slats,
    /// Left and right.
    pub sides: [LongSide; 2],
    /// What carries the rails' ends, if not the posts themselves.
    pub end_rails: Option<EndRails>,
    /// A third line under the slats.
    pub centre_beam: Option<CentreBeam>,
    /// What stands under the rails' ends, if the brief says it.
    pub posts: Option<Posts>,
    /// The guard, if there is one.
    pub guard: Option<Guard>,
    /// The ladder, if there is one.
    pub ladder: Option<Ladder>,
    /// What keeps it from racking.
    pub bracing: Bracing,
    /// Load cases dropped or changed by the brief.
    pub changes: Vec<CaseChange>,
    /// Whose rules for openings; `None` when the brief wants nobody's.
    pub jurisdiction: Option<Jurisdiction>,
    /// Those rules.
    pub opening_rules: Vec<OpeningRule>,
    /// What the code asks of a floor, with the brief's changes of its point load.
    pub code: CodeLoad,
    /// Loads of furniture tests that the brief asks for.
    pub proofs: Vec<ProofLoad>,
    /// Deflection limits.
    pub limits: Limits,
    /// What the brief left open and how it was filled in.
    pub assumptions: Vec<String>,
}

/// The slats: all alike, the first flush with the head, the last with the foot, equal gaps between.
#[derive(Clone, Debug)]
pub struct Slats {
    /// Wood and size.
    pub stick: Stick,
    /// Flat or on edge.
    pub lay: LayWord,
    /// How many.
    pub count: usize,
    /// Gap between neighbours.
    pub gap: Length,
    /// Screwed down at each end.
    pub fixed: bool,
    /// How much of each end rests on its cleat.
    pub bearing: Length,
}

/// One long side: a rail with a cleat along its inner face.
#[derive(Clone, Debug)]
pub struct LongSide {
    /// Which one.
    pub side: Side,
    /// The cleat; its thickness is horizontal, its width vertical.
    pub cleat: Stick,
    /// From the rail's lower edge up to the cleat's lower edge.
    pub rise: Length,
    /// Screws from cleat into rail.
    pub screws: ScrewRow,
    /// The rail, on edge.
    pub rail: Rail,
}

/// A load case that the brief dropped or changed.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseChange {
    /// The key under `[cases]`.
    pub key: &'static str,
    /// Left out altogether.
    pub dropped: bool,
    /// Another factor on weight.
    pub factor: Option<f64>,
    /// Another area load.
    pub load: Option<AreaLoad>,
    /// Whether a case that is only predicted decides the verdict after all.
    pub decides: bool,
}

/// Deflection limits: span over these.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Slats under people lying.
    pub slat: f64,
    /// Rails under people lying.
    pub rail: f64,
}

impl Slats {
    /// Width seen from above.
    pub fn breadth(&self) -> Length {
        match self.lay {
            LayWord::Flat => self.stick.width,
            LayWord::Edge => self.stick.thickness,
        }
    }

    /// Height seen from the side.
    pub fn depth(&self) -> Length {
        match self.lay {
            LayWord::Flat => self.stick.thickness,
            LayWord::Edge => self.stick.width,
        }
    }

    /// From slat to slat, centre to centre.
    pub fn pitch(&self) -> Length {
        self.breadth() + self.gap
    }

    /// Centre of slat `i`, from the head.
    pub fn centre(&self, i: usize) -> Length {
        self.breadth() / 2.0 + self.pitch() * i as f64
    }
}

impl Platform {
    /// The strip of platform that slat `i` carries: to the middle of the gap on each side.
    pub fn strip(&self, i: usize) -> [Length; 2] {
        let half = self.slats.pitch() / 2.0;
        let c = self.slats.centre(i);
        let zero = Length::default();
        [if i == 0 { zero } else { c - half }, if i + 1 == self.slats.count { self.length } else { c + half }]
    }

    /// Where the slats' supports are: the middle of the bearing on each cleat.
    pub fn bearing_lines(&self) -> [Length; 2] {
        let half = self.slats.bearing / 2.0;
        [self.sides[0].cleat.thickness - half, self.width - self.sides[1].cleat.thickness + half]
    }

    /// From where to where a slat reaches.
    pub fn slat_ends(&self) -> [Length; 2] {
        let b = self.slats.bearing;
        [self.sides[0].cleat.thickness - b, self.width - self.sides[1].cleat.thickness + b]
    }

    /// The slats' span, between the middles of their bearings.
    pub fn slat_span(&self) -> Length {
        let [a, b] = self.bearing_lines();
        b - a
    }

    /// The spans of a slat, left to right: two where there is a centre beam.
    pub fn slat_spans(&self) -> Vec<Length> {
        let [a, b] = self.bearing_lines();
        match &self.centre_beam {
            Some(beam) => vec![beam.at - a, b - beam.at],
            None => vec![b - a],
        }
    }

    /// The longest span of a slat.
    pub fn longest_slat_span(&self) -> Length {
        self.slat_spans().into_iter().fold(Length::default(), Length::max)
    }

    /// Whether a wall holds the platform: one the brief names, or one whose studs a rail is screwed to.
    pub fn stands_at_a_wall(&self) -> bool {
        !self.bracing.walls.is_empty()
            || self.posts.as_ref().is_some_and(|posts| posts.top == Top::Wall)
            || self.sides.iter().any(|s| s.rail.studs.is_some())
    }

    /// From the floor to a side's rail: its lower edge, if the brief says how high the slats are.
    pub fn rail_above_floor(&self, side: usize) -> Option<Length> {
        let side = &self.sides[side];
        self.height.map(|h| h - self.slats.depth() - side.cleat.width - side.rise)
    }

    /// Every stick of the platform's frame by what it is called.
    pub fn sticks(&self) -> Vec<(&'static str, &Stick)> {
        let mut out = vec![("slats", &self.slats.stick)];
        out.extend(self.sides.iter().map(|s| ("cleats", &s.cleat)));
        out.extend(self.sides.iter().map(|s| ("rails", &s.rail.stick)));
        out.extend(self.end_rails.iter().map(|e| ("end rails", &e.stick)));
        if let Some(beam) = &self.centre_beam {
            out.push(("centre beam", &beam.stick));
            out.extend(beam.legs.iter().map(|legs| ("legs", &legs.stick)));
        }
        out.extend(self.posts.iter().map(|posts| ("posts", &posts.stick)));
        out.extend(self.bracing.knees.iter().map(|knees| ("knee braces", &knees.stick)));
        out.extend(self.bracing.diagonals.iter().map(|d| ("diagonals", &d.stick)));
        out.extend(self.guard.iter().flat_map(Guard::sticks));
        out.extend(self.ladder.iter().flat_map(Ladder::sticks));
        out
    }

    /// A case the brief changed.
    pub fn change(&self, key: &str) -> Option<&CaseChange> {
        self.changes.iter().find(|c| c.key == key)
    }
}
