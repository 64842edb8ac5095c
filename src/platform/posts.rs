//! The posts under the rails' ends and the legs under a centre beam.

use super::Platform;
use super::stick::Stick;
use super::support::EndJoint;
use crate::quantity::Length;

/// What keeps a post's top from moving sideways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Top {
    /// Nothing: it sways with the platform, kept from turning by the rail alone.
    Free,
    /// Braces or panels.
    Braced,
    /// A wall that the platform is fixed to.
    Wall,
}

/// The posts, one under each end of a rail that has end joints; all of one stick.
#[derive(Clone, Debug)]
pub struct Posts {
    /// Wood and size: the thickness stands across the platform, the width along it.
    pub stick: Stick,
    /// On the left and on the right: from the floor to where the rail is held.
    pub lengths: [Length; 2],
    /// What holds their tops.
    pub top: Top,
}

impl Posts {
    /// How many: two under each rail that has end joints.
    pub fn count(&self, p: &Platform) -> usize {
        2 * p.sides.iter().filter(|s| s.rail.ends.is_some()).count()
    }

    /// From the floor to the top of the slats: as the brief says, or at most the posts with the rails' depth
    /// and the slats' on them.
    pub fn slats_above_floor(&self, p: &Platform) -> Length {
        p.height.unwrap_or_else(|| {
            let rails = p.sides[0].rail.stick.width.max(p.sides[1].rail.stick.width);
            let under = p.end_rails.as_ref().map(|e| e.stick.width).unwrap_or_default();
            self.lengths[0].max(self.lengths[1]) + under + rails + p.slats.depth()
        })
    }
}

impl Platform {
    /// How far apart the posts' middles stand along a side, so far as the joints say.
    pub fn feet_along(&self, side: usize) -> Length {
        match (&self.end_rails, &self.posts) {
            // Posts beside an end rail may stand inside it, against its inner face, where the clear length ends.
            (Some(e), Some(posts)) if e.ends.kind.beside_the_post() => self.length - posts.stick.width,
            _ => {
                let held = self.sides[side].rail.ends.as_ref().map(EndJoint::beyond);
                self.length + held.unwrap_or_default() * 2.0
            }
        }
    }

    /// How far apart the posts' middles stand across the platform, so far as the joints say.
    pub fn feet_across(&self) -> Length {
        let rails = self.sides[0].rail.stick.thickness + self.sides[1].rail.stick.thickness;
        self.end_rails.as_ref().map_or(self.width + rails / 2.0, |e| e.span(self))
    }
}

/// The legs between a centre beam's ends, all of one stick.
#[derive(Clone, Debug)]
pub struct Legs {
    /// Wood and size: the thickness stands across the platform, the width along it.
    pub stick: Stick,
    /// From the head to each.
    pub positions: Vec<Length>,
    /// From the floor to the beam.
    pub length: Length,
    /// What holds their tops.
    pub top: Top,
}

impl Legs {
    /// So many legs evenly between the ends of a beam of this length.
    pub fn evenly(count: usize, length: Length) -> Vec<Length> {
        (1..=count).map(|k| length * (k as f64 / (count as f64 + 1.0))).collect()
    }
}
