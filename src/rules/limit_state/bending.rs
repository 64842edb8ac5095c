//! Bending.

use super::design::Material;
use super::ec5;
use super::section::{Axis, Section};
use crate::derivation::{Worked, given, plain};
use crate::quantity::{BendingMoment, Ratio, Stress};
use crate::source::Seen;

/// Bending stress at the outer fibre, `σm,y,d = My,d / Wy` or `σm,z,d = Mz,d / Wz`.
///
/// # Source
///
/// Mechanics; EN 1995-1-1 6.1.6, from memory.
pub fn bending_stress(moment: BendingMoment, section: &Section, axis: Axis) -> Worked<Stress> {
    let (action, stress) = match axis {
        Axis::Y => ("My,d", "σm,y,d"),
        Axis::Z => ("Mz,d", "σm,z,d"),
    };
    (given(action, moment) / section.section_modulus(axis)).step(stress, ec5("6.1.6", Seen::Memory))
}

/// Factor `km` for bending about both axes: 0.7 for rectangles of solid timber, glued laminated timber
/// and veneer lumber, 1.0 for everything else.
///
/// # Source
///
/// EN 1995-1-1 6.1.6(2), read in summaries.
pub fn redistribution(material: Material) -> Worked<Ratio> {
    let value = match material {
        Material::SolidTimber | Material::GluedLaminated | Material::VeneerLumber => 0.7,
        Material::Plywood | Material::StrandBoard => 1.0,
    };
    plain(value).step("km", ec5("6.1.6(2)", Seen::Secondary))
}
