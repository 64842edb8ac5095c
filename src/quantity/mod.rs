//! The field's quantities over [`uom`]: names, exact customary units, reading and printing.
//!
//! Bending moment, line load, section modulus and second moment of area have no name of their own
//! in `uom`, so they are aliases here. `uom` stores pound-force and psi to seven digits; the exact
//! definitions live in [`mod@unit`], and nothing else in the crate converts units.

mod read;
mod show;
pub mod unit;

pub use read::{ReadError, density, force, length, mass, modulus, moment, pressure, ratio_to};
pub use show::{Measure, UnitSystem, fraction_of_inch, length_for_builder, round_up, significant};

use uom::si::{ISQ, Quantity, SI};
use uom::typenum::{Integer, N2, P1, P2, P3, P4, Z0};

pub use uom::si::f64::{Area, Force, Length, Mass, MassDensity, Ratio};

/// A stress, strength or modulus: force per area.
pub type Stress = uom::si::f64::Pressure;
/// A load spread over an area: force per area, kept apart from [`Stress`] by name only.
pub type AreaLoad = uom::si::f64::Pressure;
/// A load spread along a line: force per length.
pub type LineLoad = Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Force per unit of movement, for a spring such as a screw. Shares its dimension with [`LineLoad`].
pub type SpringStiffness = LineLoad;
/// A bending moment: force times length.
pub type BendingMoment = Quantity<ISQ<P2, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// The section modulus `S`: length to the third.
pub type SectionModulus = uom::si::f64::Volume;
/// The second moment of area `I`: length to the fourth. (uom's `MomentOfInertia` is the mass one.)
pub type SecondMomentOfArea = Quantity<ISQ<P4, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// The bending stiffness `E·I`.
pub type FlexuralRigidity = Quantity<ISQ<P3, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Standard acceleration of free fall, m/s². ISO 80000-3, exact by definition.
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// The weight of a mass at standard gravity.
pub fn weight_of(mass: Mass) -> Force {
    use uom::si::acceleration::meter_per_second_squared as g;
    mass * uom::si::f64::Acceleration::new::<g>(STANDARD_GRAVITY)
}

/// A dimensionless number as a quantity.
pub fn number(value: f64) -> Ratio {
    Ratio::new::<uom::si::ratio::ratio>(value)
}

/// The exponents of length, mass and time that make a dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Dimension {
    /// Exponent of length.
    pub length: i32,
    /// Exponent of mass.
    pub mass: i32,
    /// Exponent of time.
    pub time: i32,
}

/// A `uom` quantity in SI storage whose dimension can be asked for at run time.
pub trait Measured: Copy {
    /// The value in coherent SI units.
    fn si(self) -> f64;
    /// The exponents of its dimension.
    fn dimension() -> Dimension;
    /// The value with its dimension, for printing.
    fn measure(self) -> Measure {
        Measure { si: self.si(), dimension: Self::dimension() }
    }
}

impl<D> Measured for Quantity<D, SI<f64>, f64>
where
    D: uom::si::Dimension + ?Sized,
{
    fn si(self) -> f64 {
        self.value
    }
    fn dimension() -> Dimension {
        Dimension { length: D::L::to_i32(), mass: D::M::to_i32(), time: D::T::to_i32() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::{inch, newton, pound_force, psi};

    fn dim(length: i32, mass: i32, time: i32) -> Dimension {
        Dimension { length, mass, time }
    }

    /// Dimensions follow from force = mass·length/time² (ISO 80000-1).
    #[test]
    fn every_derived_unit_has_its_dimension() {
        assert_eq!(Stress::dimension(), dim(-1, 1, -2));
        assert_eq!(LineLoad::dimension(), dim(0, 1, -2));
        assert_eq!(BendingMoment::dimension(), dim(2, 1, -2));
        assert_eq!(SectionModulus::dimension(), dim(3, 0, 0));
        assert_eq!(SecondMomentOfArea::dimension(), dim(4, 0, 0));
        assert_eq!(FlexuralRigidity::dimension(), dim(3, 1, -2));
        let f = newton(1.0);
        let l = inch(1.0);
        let m: BendingMoment = f * l;
        let s: SectionModulus = l * l * l;
        let stress: Stress = m / s;
        let i: SecondMomentOfArea = s * l;
        let ei: FlexuralRigidity = stress * i;
        assert!(ei.value > 0.0);
        let w: LineLoad = f / l;
        assert!(w.value > 0.0);
    }

    /// 1 lbf = 4.4482216152605 N exactly (NIST SP 811, appendix B.8), 1 in = 25.4 mm exactly.
    #[test]
    fn customary_units_are_exact() {
        assert_eq!(pound_force(1.0).value, 4.448_221_615_260_5);
        assert_eq!(psi(1.0).value, 4.448_221_615_260_5 / (0.0254 * 0.0254));
        assert_eq!(weight_of(unit::pound(1.0)).value, 0.453_592_37 * 9.806_65);
    }
}
