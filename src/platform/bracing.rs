//! What keeps a platform on posts from racking: walls, knee braces, crossed diagonals, panels.

use super::posts::Top;
use super::{Fixing, Platform, Stick};
use crate::brief::Edge;
use crate::quantity::Length;

/// What the brief says of bracing.
#[derive(Clone, Debug, Default)]
pub struct Bracing {
    /// The sides that are fixed to a wall.
    pub walls: Vec<Edge>,
    /// Knee braces from the posts to the rails.
    pub knees: Option<Knees>,
    /// Crossed diagonals from post to post.
    pub diagonals: Option<Diagonals>,
    /// The sides that are closed by a panel.
    pub panels: Vec<Edge>,
}

/// A knee brace at each end of each rail that posts hold, all alike, laid on the face of post and rail.
#[derive(Clone, Debug)]
pub struct Knees {
    /// Wood and size; its width lies in the plane of post and rail.
    pub stick: Stick,
    /// From where the post holds the rail down to where the brace meets the post.
    pub rise: Length,
    /// From the post along the rail to where the brace meets the rail.
    pub run: Length,
    /// What holds each of its ends.
    pub screws: Fixing,
}

/// A pair of crossed diagonals on each side named, from the foot of one post to the top of the other, laid on
/// their faces.
#[derive(Clone, Debug)]
pub struct Diagonals {
    /// The sides they stand on.
    pub edges: Vec<Edge>,
    /// Wood and size; its width lies in the plane of the posts.
    pub stick: Stick,
    /// What holds each of its ends.
    pub screws: Fixing,
}

/// A way in which a platform can be pushed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Along the rails.
    Along,
    /// Across them.
    Across,
}

/// What holds a platform one way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// A wall.
    Wall,
    /// Crossed diagonals on both sides.
    Diagonals,
    /// Knee braces.
    Knees,
    /// Panels on both sides.
    Panels,
    /// Something that the brief does not describe.
    Unsaid,
    /// Nothing but the joints.
    Nothing,
}

impl Knees {
    /// From end to end.
    pub fn length(&self) -> Length {
        (self.rise * self.rise + self.run * self.run).sqrt()
    }
}

impl Way {
    /// Both.
    pub const ALL: [Way; 2] = [Way::Along, Way::Across];

    /// The two sides that stand in its direction.
    pub fn edges(self) -> [Edge; 2] {
        match self {
            Way::Along => [Edge::Left, Edge::Right],
            Way::Across => [Edge::Head, Edge::Foot],
        }
    }
}

impl Platform {
    /// What holds the platform against a push this way.
    pub fn held(&self, way: Way) -> Held {
        let all = |sides: &[Edge]| way.edges().iter().all(|e| sides.contains(e));
        let bracing = &self.bracing;
        if self.stands_at_a_wall() {
            Held::Wall
        } else if bracing.diagonals.as_ref().is_some_and(|d| all(&d.edges)) {
            Held::Diagonals
        } else if way == Way::Along && bracing.knees.is_some() {
            Held::Knees
        } else if all(&bracing.panels) {
            Held::Panels
        } else if self.posts.as_ref().is_some_and(|posts| posts.top == Top::Braced) {
            Held::Unsaid
        } else {
            Held::Nothing
        }
    }
}
