//! The posts under the rails' ends.

use super::stick::Stick;
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
