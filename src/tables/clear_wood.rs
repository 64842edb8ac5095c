//! Clear-wood species averages (small, straight-grained specimens). Not design values.

use crate::quantity::{Ratio, Stress};

/// Softwood or hardwood: decides the divisor from test strength to allowable stress.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WoodKind {
    /// Cone-bearing.
    Softwood,
    /// Broad-leaved.
    Hardwood,
}

/// Average properties of green clear wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClearValues {
    /// Specific gravity, oven-dry weight over volume at test.
    pub specific_gravity: Ratio,
    /// Modulus of rupture.
    pub rupture: Stress,
    /// Modulus of elasticity.
    pub modulus: Stress,
    /// Maximum crushing strength along the grain.
    pub crushing: Stress,
    /// Stress at proportional limit across the grain.
    pub compression_perpendicular: Stress,
    /// Maximum shear strength along the grain.
    pub shear: Stress,
}
