//! What several tests need.

use slatwright::derivation::{Worked, given};
use slatwright::quantity::unit::{megapascal, millimetre};
use slatwright::quantity::{BendingMoment, Force, Length, MassDensity, Ratio, Stress};
use slatwright::rules::limit_state::design::{LoadDuration, NationalChoice, ServiceClass};
use slatwright::rules::limit_state::section::Section;
use slatwright::rules::limit_state::timber::{Conditions, Timber};
use slatwright::tables::Tables;

/// Asserts that a value equals a printed number to half a unit in its last printed place.
#[track_caller]
pub(crate) fn agrees(got: f64, printed: &str) {
    assert!(is_printed(got, printed), "{got} is not {printed}");
}

/// Whether a value prints as a number does.
pub(crate) fn is_printed(got: f64, printed: &str) -> bool {
    let (number, exponent) = printed.split_once('e').unwrap_or((printed, "0"));
    let exponent: i32 = exponent.parse().expect("an exponent");
    let places = number.split_once('.').map_or(0, |(_, after)| after.len());
    let want: f64 = printed.parse().expect("a printed number");
    let half = 0.5 * 10f64.powi(exponent - i32::try_from(places).expect("few places"));
    // A tie is within half a unit but for the binary fraction.
    (got - want).abs() <= half * (1.0 + 1e-6)
}

pub(crate) fn in_mpa(v: &Worked<Stress>) -> f64 {
    v.value.value / 1e6
}
pub(crate) fn in_newtons(v: &Worked<Force>) -> f64 {
    v.value.value
}
pub(crate) fn in_mm(v: &Worked<Length>) -> f64 {
    v.value.value * 1e3
}
pub(crate) fn value(v: &Worked<Ratio>) -> f64 {
    v.value.value
}

pub(crate) fn density(v: f64) -> MassDensity {
    MassDensity::new::<uom::si::mass_density::kilogram_per_cubic_meter>(v)
}
pub(crate) fn newton_millimetre(v: f64) -> BendingMoment {
    slatwright::quantity::unit::newton_metre(v / 1e3)
}

/// A section in millimetres.
pub(crate) fn section(breadth: f64, depth: f64) -> Section {
    Section { breadth: millimetre(breadth), depth: millimetre(depth) }
}

pub(crate) fn timber(class: &str) -> Timber {
    Timber::from(Tables::embedded().strength_classes().find(class).expect("a strength class").class)
}

pub(crate) fn stress(v: f64) -> Worked<Stress> {
    given("stress", megapascal(v))
}
pub(crate) fn length(v: f64) -> Worked<Length> {
    given("length", millimetre(v))
}

/// Recommended values, service class 1.
pub(crate) fn dry(duration: LoadDuration) -> Conditions {
    Conditions { duration, service: ServiceClass::One, choice: NationalChoice::Recommended, shared: false }
}

pub(crate) const DURATIONS: [LoadDuration; 5] = [
    LoadDuration::Permanent,
    LoadDuration::LongTerm,
    LoadDuration::MediumTerm,
    LoadDuration::ShortTerm,
    LoadDuration::Instantaneous,
];
