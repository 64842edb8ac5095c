//! End rails: a cross rail at the head and one at the foot, which carry the ends of what runs along the platform.

use super::stick::Stick;
use super::support::EndJoint;
use super::{EndKind, Platform, Rail};
use crate::quantity::Length;

/// An end rail at the head and one at the foot, alike, each a span from post to post.
#[derive(Clone, Debug)]
pub struct EndRails {
    /// Wood and size; its width is vertical.
    pub stick: Stick,
    /// What holds their ends: a rail's joints turned by a right angle.
    pub ends: EndJoint,
    /// From what holds an end, clear, to the outer face of the side rail.
    pub inset: Length,
    /// From an end rail's lower edge up to the lower edge of a rail that hangs on it.
    pub rise: Length,
}

impl EndRails {
    /// Between what holds the ends, clear.
    pub fn clear(&self, p: &Platform) -> Length {
        let [left, right] = [0, 1].map(|s| p.sides[s].rail.stick.thickness);
        p.width + left + right + self.inset * 2.0
    }

    /// From where one end is held to where the other is.
    pub fn span(&self, p: &Platform) -> Length {
        self.clear(p) + self.ends.beyond() * 2.0
    }

    /// From where an end rail's end is held to the middle of this side's rail.
    pub fn to_rail(&self, p: &Platform, side: usize) -> Length {
        self.ends.beyond() + self.inset + p.sides[side].rail.stick.thickness / 2.0
    }

    /// From where an end rail's left end is held to a place across the platform, counted from the left rail's inner
    /// face.
    pub fn to_place(&self, p: &Platform, across: Length) -> Length {
        self.ends.beyond() + self.inset + p.sides[0].rail.stick.thickness + across
    }

    /// From the lower edge of an end rail up to that of a side's rail, whether it rests or hangs; less what is cut out
    /// of a rail that rests.
    pub fn below(&self, rail: &Rail) -> Length {
        match &rail.ends {
            Some(ends) if ends.kind.rests() => self.stick.width - ends.cut.unwrap_or_default(),
            _ => self.rise,
        }
    }
}

impl EndJoint {
    /// How a rail or beam hangs on an end rail: from the lower edge of the rail up to its highest screw; none where
    /// it rests, or nothing holds it.
    pub fn highest_screw(&self, rail: &Stick) -> Option<Length> {
        match &self.kind {
            EndKind::EndGrain { .. } | EndKind::Pocket { .. } => Some(rail.width - self.edge),
            _ => None,
        }
    }
}

impl Platform {
    /// What stands on a side's posts, and how: an end rail, or else the side's own rail.
    pub fn on_posts(&self, side: usize) -> Option<(&Stick, &EndJoint)> {
        let rail = &self.sides[side].rail;
        match &self.end_rails {
            Some(end_rails) => Some((&end_rails.stick, &end_rails.ends)),
            None => Some((&rail.stick, rail.ends.as_ref()?)),
        }
    }
}
