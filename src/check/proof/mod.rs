//! How to try a platform before its first use: weights where people are worst, and how far it should dip.
//!
//! The mattress is off. A weight stands on the stretch of slats that its people press on through the mattress, and
//! is as large as brings the part that governs to what they do to it, bedding included. What the platform then does
//! is the frame's own statics under just that weight.

mod plan;
mod spread;
mod trial;

use super::verdict::{Limit, Role, Verdict};
use crate::load::CaseKind;
use crate::quantity::{Length, Mass};

pub use plan::proof;
pub use spread::Spread;

/// A stretch of slats and the weight on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Area {
    /// From and to, from the head.
    pub x: [Length; 2],
    /// From and to, from the left rail.
    pub y: [Length; 2],
    /// The weight.
    pub mass: Mass,
}

/// A part that a step brings to what its people do to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// The member.
    pub member: String,
    /// What it is.
    pub role: Role,
    /// How it would fail.
    pub limit: Limit,
    /// What the step does over what the people do; less than one where the step stops short.
    pub share: f64,
    /// What the check says of the people: demand over capacity.
    pub ratio: f64,
}

/// How far a member dips between the start of a step and its full weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Dip {
    /// The member, and which of its spans where it has two.
    pub member: String,
    /// What it is.
    pub role: Role,
    /// Where along it: from the left rail for a slat, from the head for a rail.
    pub at: Length,
    /// By the table's mean modulus.
    pub mean: Length,
    /// With stiff and with soft wood of the same name: 95 of 100 boards are stiffer than the soft, 5 than the stiff.
    pub ordinary: [Length; 2],
}

/// The part of a test step that comes nearest to what it may carry.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// The member.
    pub member: String,
    /// How it would fail.
    pub limit: Limit,
    /// What the step does over what it may carry for ten minutes.
    pub ratio: f64,
}

/// One place to load.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Whose load it stands for.
    pub case: CaseKind,
    /// That load in words.
    pub load: String,
    /// The stretches and the full weight on each.
    pub areas: Vec<Area>,
    /// All weight together.
    pub mass: Mass,
    /// What it is for.
    pub reaches: Vec<Reach>,
    /// The weight stops short of the people's: more would be beyond what a part may carry.
    pub short: bool,
    /// What comes nearest to failing under the step.
    pub nearest: Option<Nearest>,
    /// Every slat, both rails and the centre beam.
    pub dips: Vec<Dip>,
}

/// One slat by itself: every slat is another board.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// Counted from one at the head.
    pub slat: usize,
    /// The stretches, the first with its middle over the slat's or as near as the ends allow.
    pub areas: Vec<Area>,
    /// All weight together.
    pub mass: Mass,
    /// The slat's bending over what its people do to it.
    pub share: f64,
    /// The weight stops short of the people's.
    pub short: bool,
    /// How far the slat dips; of two spans the one that dips more.
    pub dip: Dip,
}

/// A test before first use.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// What the check says of the platform as drawn.
    pub verdict: Verdict,
    /// The weakest link in the check: member, limit and ratio.
    pub weakest: Option<(String, Limit, f64)>,
    /// The places, lightest first.
    pub steps: Vec<Step>,
    /// Each slat in turn.
    pub slats: Vec<Turn>,
    /// Where the ranges of stiffness are from.
    pub spreads: Vec<Spread>,
    /// What no step tries, and why.
    pub untried: Vec<(String, &'static str)>,
}
