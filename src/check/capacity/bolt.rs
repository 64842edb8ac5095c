//! What the check of a bolted joint asks of a family of rules.

use crate::derivation::Worked;
use crate::load::Duration;
use crate::platform::Stick;
use crate::quantity::{Force, Length};
use crate::rules::RuleError;
use crate::tables::fasteners::Bolt;

/// Bolts up a rail's end, through it and the side of a post: the load runs across the rail's grain and along the
/// post's, unless it leans.
pub(in crate::check) struct Bolted<'a> {
    pub(in crate::check) bolt: &'a Bolt,
    pub(in crate::check) count: usize,
    pub(in crate::check) rail: &'a Stick,
    pub(in crate::check) post: &'a Stick,
    /// From the rail's edges to the nearest bolt.
    pub(in crate::check) edge: Length,
    /// From the rail's end to the bolts.
    pub(in crate::check) end: Length,
    /// From bolt to bolt up the rail's end.
    pub(in crate::check) spacing: Length,
    /// How far the load leans from straight down, along the rail, either way, degrees.
    pub(in crate::check) lean: f64,
    /// Whether the bolts are pulled along their axis too.
    pub(in crate::check) pulled: bool,
}

/// A distance around bolts that hold up a rail's end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::check) enum BoltSpot {
    /// To the rail's edges; the bolts push it towards the upper one.
    RailEdge,
    /// To the rail's end.
    RailEnd,
    /// From bolt to bolt, across the rail's grain and along the post's.
    Between,
    /// To the edges of the post.
    PostEdge,
    /// To the top of the post, which the bolts push away from.
    PostTop,
}

impl Bolted<'_> {
    /// The distances as built, each with what it is. How far up the post goes is not known.
    pub(in crate::check) fn kept(&self) -> Vec<(BoltSpot, Length, &'static str)> {
        let mut out = vec![
            (BoltSpot::RailEdge, self.edge, "from the bolts to the rail's edge"),
            (BoltSpot::RailEnd, self.end, "from the bolts to the rail's end"),
            (BoltSpot::PostEdge, self.post.width / 2.0, "from the bolts to the post's edge"),
        ];
        if self.count > 1 {
            out.push((BoltSpot::Between, self.spacing, "from bolt to bolt"));
        }
        out
    }
}

/// Bolts rated by the rules.
pub(in crate::check) trait RatedBolt {
    /// What one bolt holds sideways, before duration.
    fn lateral(&self) -> Result<Worked<Force>, RuleError>;
    /// What one bolt holds along its axis.
    fn pulled(&self, d: Duration) -> Result<Worked<Force>, RuleError>;
    /// What all of them hold; every distance is at least what [`Self::least`] asks for.
    fn row(&self, lateral: &Worked<Force>, d: Duration) -> Result<Worked<Force>, RuleError>;
    /// The least distance that is allowed at all.
    fn least(&self, spot: BoltSpot) -> Result<Worked<Length>, RuleError>;
    /// Least diameter and thickness of the washers, where the rules set them.
    fn least_washer(&self) -> Option<[Worked<Length>; 2]>;
    /// Smallest and largest hole.
    fn hole(&self) -> [Worked<Length>; 2];
    /// What a reader must know of how they were rated.
    fn remark(&self) -> &'static str;
}
