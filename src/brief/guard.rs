//! The keys of `[guard]` and `[ladder]`.

use std::ops::Range;

use super::fields::Typed;
use super::keys::{Side, StickKeys, WoodKeys};
use crate::quantity::Length;

/// An edge of the platform, seen from the foot towards the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Edge {
    /// Left.
    Left,
    /// Right.
    Right,
    /// The end where heads lie.
    Head,
    /// The other end.
    Foot,
}

/// Where along a long side an opening is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Spot {
    /// It ends at the head.
    Head,
    /// It ends at the foot.
    Foot,
    /// It is in the middle.
    Middle,
}

/// The piece under the heads of a post's screws.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HeadsOn {
    /// Through the post into the bed's rail.
    Post,
    /// Through the bed's rail into the post.
    Rail,
}

/// Screws that hold one piece of a guard or a ladder to another.
#[derive(Clone, Debug)]
pub struct FixingKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// A wood screw.
    pub screw: Option<Typed<String>>,
    /// A lag screw.
    pub lag: Option<Typed<String>>,
    /// How many.
    pub count: Option<Typed<usize>>,
    /// From the lower to the upper of them.
    pub spacing: Option<Typed<Length>>,
    /// From the bed rail's lower edge up to the lowest.
    pub up: Option<Typed<Length>>,
    /// Which piece their heads are on.
    pub heads: Option<Typed<HeadsOn>>,
}

/// `[guard] lower` or `bars`
#[derive(Clone, Debug)]
pub struct InfillKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// How many.
    pub count: Option<Typed<usize>>,
    /// Clear gap between them.
    pub gap: Option<Typed<Length>>,
}

/// `[guard] posts`
#[derive(Clone, Debug)]
pub struct GuardPostKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// Largest distance from post to post.
    pub pitch: Option<Typed<Length>>,
    /// From the guard's end to the middle of the first post.
    pub first: Option<Typed<Length>>,
    /// What holds a post to the bed's rail.
    pub screws: Option<FixingKeys>,
}

/// `[guard] opening`
#[derive(Clone, Debug)]
pub struct OpeningKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// Clear width.
    pub width: Option<Typed<Length>>,
    /// The side it is in.
    pub side: Option<Typed<Side>>,
    /// Where along that side.
    pub at: Option<Typed<Spot>>,
}

/// `[guard]`
#[derive(Clone, Debug)]
pub struct GuardKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// The edges it stands on.
    pub sides: Option<Typed<Vec<Edge>>>,
    /// Its top above the slats.
    pub top: Option<Typed<Length>>,
    /// The top rail.
    pub rail: Option<StickKeys>,
    /// Screws from the top rail into each post.
    pub rail_screws: Option<FixingKeys>,
    /// Rails below the top rail.
    pub lower: Option<InfillKeys>,
    /// Upright bars below the top rail.
    pub bars: Option<InfillKeys>,
    /// Posts.
    pub posts: Option<GuardPostKeys>,
    /// The way in.
    pub opening: Option<OpeningKeys>,
    /// Also under the loads of published furniture tests.
    pub furniture_test: Option<Typed<bool>>,
}

/// What a rung's end does in its stringer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RungJointWord {
    /// Let into the stringer.
    Housed,
    /// Screwed through the stringer.
    Screws,
}

/// `[ladder] ends`
#[derive(Clone, Debug)]
pub struct RungEndKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// What holds the end.
    pub joint: Option<Typed<RungJointWord>>,
    /// How far it is let in.
    pub depth: Option<Typed<Length>>,
    /// A wood screw.
    pub screw: Option<Typed<String>>,
    /// How many at each end.
    pub count: Option<Typed<usize>>,
}

/// `[ladder] rungs`
#[derive(Clone, Debug)]
pub struct RungKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// Wood.
    pub wood: Option<WoodKeys>,
    /// Diameter of a round wooden rung.
    pub diameter: Option<Typed<Length>>,
    /// A pipe, such as `3/4 in schedule 40`.
    pub pipe: Option<Typed<String>>,
    /// Wood and size of a tread, when it is neither round nor a pipe.
    pub tread: StickKeys,
}

/// `[ladder]`
#[derive(Clone, Debug)]
pub struct LadderKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// The edge it leads to.
    pub side: Option<Typed<Edge>>,
    /// Rungs or treads.
    pub rungs: Option<RungKeys>,
    /// Clear between the stringers.
    pub width: Option<Typed<Length>>,
    /// From rung to rung, upright.
    pub pitch: Option<Typed<Length>>,
    /// From the floor to the top of the first rung.
    pub first: Option<Typed<Length>>,
    /// How far its foot stands out from its top.
    pub out: Option<Typed<Length>>,
    /// The two stringers.
    pub stringers: Option<StickKeys>,
    /// Rung ends.
    pub ends: Option<RungEndKeys>,
    /// What holds each stringer's top to the bed's rail.
    pub top: Option<FixingKeys>,
}
