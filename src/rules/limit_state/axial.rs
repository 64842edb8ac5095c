//! Tension and compression along the grain.

use super::ec5;
use super::section::Section;
use crate::derivation::{Worked, given};
use crate::quantity::{Area, Force, Stress};
use crate::source::Seen;

/// Tension stress along the grain, `σt,0,d = Ft,0,d / Anet`, at most `ft,0,d`.
///
/// `Anet` is the area without holes, notches and slots.
///
/// # Source
///
/// EN 1995-1-1 6.1.2, equation 6.1, read in summaries.
pub fn tension_stress(force: Force, net_area: Area) -> Worked<Stress> {
    (given("Ft,0,d", force) / given("Anet", net_area)).step("σt,0,d", ec5("(6.1)", Seen::Secondary))
}

/// Compression stress along the grain, `σc,0,d = Fc,0,d / A`, at most `fc,0,d`.
///
/// # Source
///
/// EN 1995-1-1 6.1.4, equation 6.2, read in summaries.
pub fn compression_stress(force: Force, section: &Section) -> Worked<Stress> {
    (given("Fc,0,d", force) / section.area()).step("σc,0,d", ec5("(6.2)", Seen::Secondary))
}
