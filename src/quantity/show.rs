//! Printing quantities in the reader's units.

use super::unit::*;
use super::{Dimension, Length};
use serde::{Deserialize, Serialize};

/// The units a report is printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum UnitSystem {
    /// Inches, pounds, psi.
    Us,
    /// Millimetres, kilograms, newtons, N/mm².
    Metric,
}

/// A value in SI with its dimension, ready to be printed in either system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Value in coherent SI units.
    pub si: f64,
    /// Exponents of length, mass and time.
    pub dimension: Dimension,
}

impl Measure {
    /// The unit's abbreviation and how many SI units make one of it.
    pub fn unit(&self, system: UnitSystem) -> (&'static str, f64) {
        let d = self.dimension;
        let lb = NEWTON_PER_POUND_FORCE;
        let i = METRE_PER_INCH;
        match (system, d.length, d.mass, d.time) {
            (_, 0, 0, 0) => ("", 1.0),
            (UnitSystem::Us, 1, 0, 0) => ("in", i),
            (UnitSystem::Us, 2, 0, 0) => ("in²", i * i),
            (UnitSystem::Us, 3, 0, 0) => ("in³", i * i * i),
            (UnitSystem::Us, 4, 0, 0) => ("in⁴", i * i * i * i),
            (UnitSystem::Us, -1, 0, 0) => ("/in", 1.0 / i),
            (UnitSystem::Us, 0, 1, 0) => ("lb", KILOGRAM_PER_POUND),
            (UnitSystem::Us, 1, 1, -2) => ("lb", lb),
            (UnitSystem::Us, -1, 1, -2) => ("psi", PASCAL_PER_PSI),
            (UnitSystem::Us, 0, 1, -2) => ("lb/in", lb / i),
            (UnitSystem::Us, 2, 1, -2) => ("in·lb", lb * i),
            (UnitSystem::Us, 3, 1, -2) => ("lb·in²", lb * i * i),
            (UnitSystem::Us, -3, 1, 0) => ("lb/ft³", KILOGRAM_PER_POUND / (12.0 * i * 12.0 * i * 12.0 * i)),
            (UnitSystem::Metric, 1, 0, 0) => ("mm", 1e-3),
            (UnitSystem::Metric, 2, 0, 0) => ("mm²", 1e-6),
            (UnitSystem::Metric, 3, 0, 0) => ("mm³", 1e-9),
            (UnitSystem::Metric, 4, 0, 0) => ("mm⁴", 1e-12),
            (UnitSystem::Metric, -1, 0, 0) => ("/mm", 1e3),
            (UnitSystem::Metric, 0, 1, 0) => ("kg", 1.0),
            (UnitSystem::Metric, 1, 1, -2) => ("N", 1.0),
            (UnitSystem::Metric, -1, 1, -2) => ("N/mm²", 1e6),
            (UnitSystem::Metric, 0, 1, -2) => ("N/mm", 1e3),
            (UnitSystem::Metric, 2, 1, -2) => ("N·m", 1.0),
            (UnitSystem::Metric, 3, 1, -2) => ("N·mm²", 1e-6),
            (UnitSystem::Metric, -3, 1, 0) => ("kg/m³", 1.0),
            _ => ("SI", 1.0),
        }
    }

    /// The number in the reader's unit.
    pub fn in_unit(&self, system: UnitSystem) -> f64 {
        self.si / self.unit(system).1
    }

    /// Number and unit, to four significant digits.
    pub fn show(&self, system: UnitSystem) -> String {
        self.show_to(system, 4)
    }

    /// Number and unit, to so many significant digits.
    pub fn show_to(&self, system: UnitSystem, digits: i32) -> String {
        let (name, _) = self.unit(system);
        let n = significant(self.in_unit(system), digits);
        if name.is_empty() || name.starts_with('/') { format!("{n}{name}") } else { format!("{n} {name}") }
    }
}

/// A number to so many significant digits, without an exponent for the magnitudes a bed has and
/// without trailing zeros after the point.
pub fn significant(v: f64, digits: i32) -> String {
    if v == 0.0 || !v.is_finite() {
        return if v == 0.0 { "0".into() } else { format!("{v}") };
    }
    let magnitude = v.abs().log10().floor() as i32;
    let places = digits - 1 - magnitude;
    let text = if places >= 0 {
        format!("{v:.*}", places as usize)
    } else {
        let step = 10f64.powi(-places);
        format!("{:.0}", (v / step).round() * step)
    };
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// A ratio with so many decimals, rounded up, so that 1.0004 never prints as 1.00.
pub fn round_up(v: f64, places: i32) -> String {
    let step = 10f64.powi(places);
    // A ratio computed as exactly 0.93 may carry an excess of one part in 10¹²; that is not "above".
    let up = (v * step * (1.0 - 1e-12)).ceil() / step;
    format!("{:.*}", places as usize, up)
}

/// Inches as a tape reads them: whole inches and sixteenths, `3-1/2 in`. `≈` marks what was rounded.
pub fn fraction_of_inch(v: Length) -> String {
    let inches = v.value / METRE_PER_INCH;
    let sixteenths = (inches.abs() * 16.0).round();
    let about = if (inches.abs() * 16.0 - sixteenths).abs() > 1e-6 { "≈" } else { "" };
    let sign = if inches < 0.0 && sixteenths > 0.0 { "-" } else { "" };
    let whole = (sixteenths / 16.0).floor() as i64;
    let mut top = sixteenths as i64 - whole * 16;
    let mut bottom = 16;
    while top > 0 && top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    match (whole, top) {
        (w, 0) => format!("{about}{sign}{w} in"),
        (0, t) => format!("{about}{sign}{t}/{bottom} in"),
        (w, t) => format!("{about}{sign}{w}-{t}/{bottom} in"),
    }
}

/// A length as a builder marks it: inches and sixteenths, or whole and half millimetres.
pub fn length_for_builder(v: Length, system: UnitSystem) -> String {
    match system {
        UnitSystem::Us => fraction_of_inch(v),
        UnitSystem::Metric => {
            let half = (v.value * 2000.0).round() / 2.0;
            format!("{half} mm")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tape_reads_sixteenths() {
        assert_eq!(fraction_of_inch(inch(3.5)), "3-1/2 in");
        assert_eq!(fraction_of_inch(inch(0.75)), "3/4 in");
        assert_eq!(fraction_of_inch(inch(57.0)), "57 in");
        assert_eq!(fraction_of_inch(inch(31.4)), "≈31-3/8 in");
        assert_eq!(fraction_of_inch(inch(-0.25)), "-1/4 in");
    }

    /// A failing ratio must never print as the limit it exceeds, and an exact one must stay exact.
    #[test]
    fn ratios_round_up() {
        assert_eq!(round_up(1.0004, 2), "1.01");
        assert_eq!(round_up(1.0, 2), "1.00");
        assert_eq!(round_up(0.93, 2), "0.93");
        assert_eq!(round_up(0.9301, 2), "0.94");
        assert_eq!(round_up(0.0, 2), "0.00");
    }

    #[test]
    fn significant_digits_keep_the_magnitude() {
        assert_eq!(significant(1443.75, 4), "1444");
        assert_eq!(significant(0.984375, 4), "0.9844");
        assert_eq!(significant(1_400_000.0, 4), "1400000");
        assert_eq!(significant(2.0, 4), "2");
        assert_eq!(psi(1500.0).measure_us(), "1500 psi");
    }

    trait Us {
        fn measure_us(self) -> String;
    }
    impl<T: crate::quantity::Measured> Us for T {
        fn measure_us(self) -> String {
            self.measure().show(UnitSystem::Us)
        }
    }
}
