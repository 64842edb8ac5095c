//! The centre beam: a third line under the slats, between the cleats and level with them.

use super::posts::Legs;
use super::stick::Stick;
use super::support::EndJoint;
use crate::quantity::Length;

/// A beam under the slats, on edge, from the head to the foot.
#[derive(Clone, Debug)]
pub struct CentreBeam {
    /// Wood and size; its width is vertical.
    pub stick: Stick,
    /// From the left rail to its middle.
    pub at: Length,
    /// End joints, alike at head and foot.
    pub ends: EndJoint,
    /// What stands under it between its ends.
    pub legs: Option<Legs>,
    /// Whether the slats are screwed down to it; if not, they may part from it.
    pub fixed: bool,
}
