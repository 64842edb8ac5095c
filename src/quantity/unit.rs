//! Exact customary and metric units. `uom` keeps pound-force, pound and psi to seven digits, which
//! is not enough to reproduce a printed digit, so the definitions stand here.
//!
//! Source: NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg,
//! 1 lbf = 4.448 221 615 260 5 N, all exact.

use super::*;
use uom::si::{force, length, mass, mass_density, pressure};

/// Metres in an inch.
pub const METRE_PER_INCH: f64 = 0.0254;
/// Kilograms in a pound.
pub const KILOGRAM_PER_POUND: f64 = 0.453_592_37;
/// Newtons in a pound-force.
pub const NEWTON_PER_POUND_FORCE: f64 = 4.448_221_615_260_5;
/// Pascals in a pound-force per square inch.
pub const PASCAL_PER_PSI: f64 = NEWTON_PER_POUND_FORCE / (METRE_PER_INCH * METRE_PER_INCH);

/// A length in inches.
pub fn inch(v: f64) -> Length {
    Length::new::<length::meter>(v * METRE_PER_INCH)
}
/// A length in millimetres.
pub fn millimetre(v: f64) -> Length {
    Length::new::<length::meter>(v / 1000.0)
}
/// A length in metres.
pub fn metre(v: f64) -> Length {
    Length::new::<length::meter>(v)
}
/// A mass in pounds.
pub fn pound(v: f64) -> Mass {
    Mass::new::<mass::kilogram>(v * KILOGRAM_PER_POUND)
}
/// A mass in kilograms.
pub fn kilogram(v: f64) -> Mass {
    Mass::new::<mass::kilogram>(v)
}
/// A density in kilograms per cubic metre.
pub fn kilogram_per_cubic_metre(v: f64) -> MassDensity {
    MassDensity::new::<mass_density::kilogram_per_cubic_meter>(v)
}
/// A force in newtons.
pub fn newton(v: f64) -> Force {
    Force::new::<force::newton>(v)
}
/// A force in pounds-force.
pub fn pound_force(v: f64) -> Force {
    newton(v * NEWTON_PER_POUND_FORCE)
}
/// A stress in pascals.
pub fn pascal(v: f64) -> Stress {
    Stress::new::<pressure::pascal>(v)
}
/// A stress in pounds-force per square inch.
pub fn psi(v: f64) -> Stress {
    pascal(v * PASCAL_PER_PSI)
}
/// A stress in megapascals (newtons per square millimetre).
pub fn megapascal(v: f64) -> Stress {
    pascal(v * 1e6)
}
/// An area load in pounds-force per square foot.
pub fn psf(v: f64) -> AreaLoad {
    pascal(v * PASCAL_PER_PSI / 144.0)
}
/// A line load, or a spring stiffness, in pounds-force per inch.
pub fn pound_force_per_inch(v: f64) -> LineLoad {
    pound_force(v) / inch(1.0)
}
/// A line load, or a spring stiffness, in newtons per metre.
pub fn newton_per_metre(v: f64) -> LineLoad {
    newton(v) / metre(1.0)
}
/// A bending moment in newton metres.
pub fn newton_metre(v: f64) -> BendingMoment {
    newton(v) * metre(1.0)
}
