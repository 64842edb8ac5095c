//! Stresses together.

use super::ec5;
use crate::derivation::Worked;
use crate::quantity::{Ratio, Stress};
use crate::source::Seen;

/// A stress beside the strength it is measured against.
#[derive(Clone, Debug)]
pub struct Utilised {
    /// `σd`.
    pub stress: Worked<Stress>,
    /// `fd`.
    pub strength: Worked<Stress>,
}

impl Utilised {
    fn ratio(&self) -> Worked<Ratio> {
        self.stress.clone() / self.strength.clone()
    }
}

/// Bending about one or both axes.
#[derive(Clone, Debug)]
pub struct Bending {
    /// `σm,y,d` and `fm,y,d`.
    pub y: Utilised,
    /// `σm,z,d` and `fm,z,d`.
    pub z: Utilised,
    /// `km`, [`redistribution`](super::bending::redistribution).
    pub km: Worked<Ratio>,
}

impl Bending {
    /// `σm,y/fm,y + km σm,z/fm,z`.
    fn mostly_y(&self) -> Worked<Ratio> {
        self.y.ratio() + self.km.clone() * self.z.ratio()
    }

    /// `km σm,y/fm,y + σm,z/fm,z`.
    fn mostly_z(&self) -> Worked<Ratio> {
        self.km.clone() * self.y.ratio() + self.z.ratio()
    }

    /// Bending about both axes, at most 1: the larger of `σm,y/fm,y + km σm,z/fm,z` and
    /// `km σm,y/fm,y + σm,z/fm,z`.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.1.6(1), equations 6.11 and 6.12, read in summaries.
    pub fn alone(&self) -> Worked<Ratio> {
        self.mostly_y().max(self.mostly_z()).step("utilisation", ec5("(6.11), (6.12)", Seen::Secondary))
    }

    /// With tension along the grain, at most 1: `σt/ft` added to both sums of [`Bending::alone`].
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.2.3, equations 6.17 and 6.18, read in summaries.
    pub fn with_tension(&self, tension: &Utilised) -> Worked<Ratio> {
        let first = tension.ratio() + self.mostly_y();
        let second = tension.ratio() + self.mostly_z();
        first.max(second).step("utilisation", ec5("(6.17), (6.18)", Seen::Secondary))
    }

    /// With compression in a member that cannot buckle (both `λrel ≤ 0.3`), at most 1: `(σc/fc)²` added
    /// to both sums of [`Bending::alone`].
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.2.4, equations 6.19 and 6.20, read in summaries.
    pub fn with_compression(&self, compression: &Utilised) -> Worked<Ratio> {
        let squeeze = || compression.ratio().power(2.0);
        let (first, second) = (squeeze() + self.mostly_y(), squeeze() + self.mostly_z());
        first.max(second).step("utilisation", ec5("(6.19), (6.20)", Seen::Secondary))
    }

    /// With compression in a column, at most 1: the larger of `σc/(kc,y fc) + σm,y/fm,y + km σm,z/fm,z`
    /// and `σc/(kc,z fc) + km σm,y/fm,y + σm,z/fm,z`.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.3.2(3), equations 6.23 and 6.24, read in summaries.
    pub fn with_buckling(&self, compression: &Utilised, kc_y: Worked<Ratio>, kc_z: Worked<Ratio>) -> Worked<Ratio> {
        let first = compression.ratio() / kc_y + self.mostly_y();
        let second = compression.ratio() / kc_z + self.mostly_z();
        first.max(second).step("utilisation", ec5("(6.23), (6.24)", Seen::Secondary))
    }
}

/// Bending about the strong axis with lateral buckling, and compression, at most 1:
/// `[σm/(kcrit fm)]² + σc/(kc,z fc)`.
///
/// # Source
///
/// EN 1995-1-1 6.3.3(6), equation 6.35, read in summaries.
pub fn lateral_buckling_and_compression(
    bending: &Utilised,
    kcrit: Worked<Ratio>,
    compression: &Utilised,
    kc_z: Worked<Ratio>,
) -> Worked<Ratio> {
    let bent = (bending.ratio() / kcrit).power(2.0);
    (bent + compression.ratio() / kc_z).step("utilisation", ec5("(6.35)", Seen::Secondary))
}

/// Bending of a member of one axis only, at most 1: `σm,d / (kcrit · fm,d)`.
///
/// # Source
///
/// EN 1995-1-1 6.3.3(3), equation 6.33, read in summaries.
pub fn bending_with_lateral_buckling(bending: &Utilised, kcrit: Worked<Ratio>) -> Worked<Ratio> {
    (bending.ratio() / kcrit).step("utilisation", ec5("(6.33)", Seen::Secondary))
}
