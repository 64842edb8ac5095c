//! A column whose load is off its axis: the clause's interaction against the mechanics it stands for.

use slatwright::derivation::given;
use slatwright::quantity::unit::psi;
use slatwright::rules::allowable_stress::combined::{
    Combined, Eccentric, bending_and_compression, eccentric_compression,
};

use crate::support::ratio;

fn column(fc: f64, critical: [f64; 2], turned: [f64; 2]) -> Eccentric {
    let stress = |symbol, value| given(symbol, psi(value));
    Eccentric {
        compression: stress("fc", fc),
        allowable_compression: stress("Fc'", 1e12),
        critical_1: stress("FcE1", critical[0]),
        critical_2: stress("FcE2", critical[1]),
        critical_bending: stress("FbE", 1e12),
        turned_1: given("6 e1/d1", ratio(turned[0])),
        allowable_bending_1: stress("Fb1'", 1000.0),
        turned_2: given("6 e2/d2", ratio(turned[1])),
        allowable_bending_2: stress("Fb2'", 1000.0),
    }
}

/// The secant formula of an elastic pinned column with equal end eccentricities,
/// `fb = fc · 6e/d · sec(π/2 √(fc/FcE))` (mechanics textbooks, from memory). The clause's 0.234 is π²/8 − 1
/// to three digits, so it follows the secant's first two terms and falls 3.1 % short of it (`8/π² · 1.234`
/// against `4/π · …`) as the load nears the critical one.
#[test]
fn eccentric_column_follows_the_secant() {
    for percent in [0, 1, 5, 10, 20, 40, 60, 80, 90, 99] {
        let part = f64::from(percent) / 100.0;
        let fc = 1000.0 * part.max(1e-9);
        let secant = 1.0 / (std::f64::consts::FRAC_PI_2 * (fc / 1000.0).sqrt()).cos();
        for axis in 0..2 {
            let mut turned = [0.0; 2];
            turned[axis] = 0.5;
            let got = eccentric_compression(&column(fc, [1000.0; 2], turned)).unwrap().value.value;
            let bent = fc * 0.5 / 1000.0 * secant;
            assert!(got <= bent * 1.0002 && got > bent * 0.968, "{percent} %, axis {axis}: {got} {bent}");
            if percent <= 10 {
                assert!((got / bent - 1.0).abs() < 0.003, "{percent} %, axis {axis}: {got} {bent}");
            }
        }
    }
}

/// For a small load the secant grows as `1 + π²/8 · fc/FcE`, and the clause as `1 + (1 + 0.234) fc/FcE`: they
/// are one to the three printed digits.
#[test]
fn the_clauses_number_is_the_secants() {
    let secant = std::f64::consts::PI.powi(2) / 8.0 - 1.0;
    let part = 1e-5;
    let got = eccentric_compression(&column(1000.0 * part, [1000.0; 2], [0.5, 0.0])).unwrap().value.value;
    let squeeze = (1000.0 * part / 1e12).powi(2);
    let growth = ((got - squeeze) / (part * 0.5) - 1.0) / part - 1.0;
    assert!((growth - secant).abs() < 0.0005, "{growth} {secant}");
}

/// Without the growth of a moment that a side load brings, 3.9-3 and 15.4-1 are one formula: for a load so
/// small that nothing grows, and for one on the axis.
#[test]
fn eccentric_column_meets_the_other_clause() {
    for (fc, turned) in [(1e-6, [0.5, 0.25]), (300.0, [0.0, 0.0])] {
        let mut one = column(fc, [700.0, 500.0], turned);
        one.allowable_compression = given("Fc'", psi(400.0));
        let other = Combined {
            compression: one.compression.clone(),
            allowable_compression: one.allowable_compression.clone(),
            critical_1: one.critical_1.clone(),
            critical_2: one.critical_2.clone(),
            critical_bending: one.critical_bending.clone(),
            bending_1: given("fb1", psi(fc * turned[0])),
            allowable_bending_1: one.allowable_bending_1.clone(),
            bending_2: given("fb2", psi(fc * turned[1])),
            allowable_bending_2: one.allowable_bending_2.clone(),
        };
        let (a, b) = (eccentric_compression(&one).unwrap(), bending_and_compression(&other).unwrap());
        assert!((a.value.value / b.value.value - 1.0).abs() < 1e-8, "{} {}", a.value.value, b.value.value);
    }
}

#[test]
fn a_column_past_its_critical_load_has_no_answer() {
    assert!(eccentric_compression(&column(700.0, [700.0, 900.0], [0.1, 0.1])).is_err());
    assert!(eccentric_compression(&column(700.0, [900.0, 700.0], [0.1, 0.1])).is_err());
    let mut tipped = column(600.0, [900.0, 700.0], [1.0, 0.0]);
    assert!(eccentric_compression(&tipped).is_ok());
    // 6/7 and (600/FbE)² are 1 at FbE = 600 √7 = 1587.45.
    tipped.critical_bending = given("FbE", psi(1588.0));
    assert!(eccentric_compression(&tipped).is_ok());
    tipped.critical_bending = given("FbE", psi(1587.0));
    assert!(eccentric_compression(&tipped).is_err());
}
