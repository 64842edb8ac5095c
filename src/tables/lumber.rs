//! Graded dimension lumber: reference design values for allowable stress design.

use crate::quantity::{Ratio, Stress};

/// Reference design values of one species, grade and size class.
///
/// Symbols as in the NDS: `Fb` bending, `Ft` tension, `Fv` shear, `Fc⊥` and `Fc` compression
/// across and along the grain, `E` mean and `Emin` stability modulus, `G` specific gravity
/// (oven-dry weight and volume).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferenceValues {
    /// `Fb`.
    pub bending: Stress,
    /// `Ft`.
    pub tension: Stress,
    /// `Fv`.
    pub shear: Stress,
    /// `Fc⊥`.
    pub compression_perpendicular: Stress,
    /// `Fc`.
    pub compression_parallel: Stress,
    /// `E`.
    pub modulus: Stress,
    /// `Emin`.
    pub modulus_for_stability: Stress,
    /// `G`.
    pub specific_gravity: Ratio,
}

/// Which table of the supplement a row belongs to; it decides the size factor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SupplementTable {
    /// 4A: dimension lumber of all species but southern pine; base values, multiplied by `CF`.
    DimensionLumber,
    /// 4B: southern pine dimension lumber; values are for one width, `CF` already in them.
    SouthernPine,
    /// 4D: timbers 5 × 5 and larger.
    Timber,
}
