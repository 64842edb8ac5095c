//! Results of general-purpose libraries: desssign 0.0.14 and eurocodepy 2027.0.12, C24, service class 1, medium duration.

use super::support::*;
use slatwright::derivation::plain;
use slatwright::quantity::unit::{megapascal, metre, millimetre, newton, newton_metre};
use slatwright::rules::limit_state::axial::compression_stress;
use slatwright::rules::limit_state::bending::{bending_stress, redistribution};
use slatwright::rules::limit_state::combined::{Bending, Utilised, lateral_buckling_and_compression};
use slatwright::rules::limit_state::design::{LoadDuration, Material, NationalChoice};
use slatwright::rules::limit_state::section::{Axis, Section};
use slatwright::rules::limit_state::shear::shear_stress;
use slatwright::rules::limit_state::size::size_factor;
use slatwright::rules::limit_state::stability::{
    BeamLoad, LoadHeight, Unbraced, critical_stress, critical_stress_of_softwood, effective_length,
    fifth_percentile_of_shear_modulus, lateral_buckling,
};

/// Both libraries, posts 45 x 45 of 0.8 m and 90 x 90 of 1.5 m.
#[test]
fn buckling_factors() {
    for (side, l, kc) in [(45.0, 800.0, "0.6563295564415694"), (90.0, 1500.0, "0.7049037553808424")] {
        let got = timber("C24").buckling(&section(side, side), Axis::Y, length(l)).unwrap();
        assert!((value(&got) / kc.parse::<f64>().unwrap() - 1.0).abs() < 1e-14, "{}", value(&got));
    }
    let steps = timber("C24").buckling(&section(45.0, 45.0), Axis::Z, length(800.0)).unwrap().steps();
    let of = |symbol| steps.iter().find(|s| s.symbol == symbol).unwrap().value.si;
    agrees(of("λrel,z"), "1.044268");
    agrees(of("kz"), "1.119675");
}

/// 50 x 200 over 5 m, uniform load on the compression edge: desssign uses 6.32, eurocodepy 6.31 with `G0,05` 464.18.
#[test]
fn lateral_buckling_by_both_equations() {
    let s = section(50.0, 200.0);
    let unbraced = Unbraced { length: metre(5.0), load: BeamLoad::Uniform, height: LoadHeight::CompressionEdge };
    let effective = effective_length(&unbraced, &s).unwrap();
    agrees(in_mm(&effective), "4900");
    let softwood = critical_stress_of_softwood(&s, effective.clone(), stress(7400.0));
    agrees(in_mpa(&softwood), "14.7245");
    let kcrit = lateral_buckling(stress(24.0), softwood).unwrap();
    agrees(value(&kcrit), "0.602482");
    agrees(kcrit.steps().iter().find(|s| s.symbol == "λrel,m").unwrap().value.si, "1.27669");

    let g = fifth_percentile_of_shear_modulus(stress(690.0), stress(7400.0), stress(11_000.0));
    agrees(in_mpa(&g), "464.18");
    let general = critical_stress(&s, effective, stress(7400.0), g).unwrap();
    agrees(in_mpa(&general), "13.6340");
    agrees(value(&lateral_buckling(stress(24.0), general).unwrap()), "0.564925");
    // The face takes the softwood equation: kcrit fm,d.
    let fm = timber("C24").bending(&s, &dry(LoadDuration::MediumTerm), Some(&unbraced)).unwrap();
    assert!((in_mpa(&fm) / (24.0 * 0.8 / 1.3 * value(&kcrit)) - 1.0).abs() < 1e-12);
}

struct Case {
    sides: (f64, f64),
    length: f64,
    moments: (f64, f64),
    compressed: [&'static str; 2],
    buckling: &'static str,
    lateral: &'static str,
}

/// eurocodepy: 10 kN on posts bent about one and both axes: 6.19 and 6.20, the larger of 6.23 and 6.24, and 6.35.
#[test]
fn bending_and_compression() {
    for case in [
        Case {
            sides: (90.0, 90.0),
            length: 1500.0,
            moments: (400.0, 0.0),
            compressed: ["0.210386", "0.150008"],
            buckling: "0.336784",
            lateral: "0.176030",
        },
        Case {
            sides: (70.0, 95.0),
            length: 1200.0,
            moments: (400.0, 250.0),
            compressed: ["0.379439", "0.365209"],
            buckling: "0.521752",
            lateral: "0.225197",
        },
    ] {
        let s = section(case.sides.0, case.sides.1);
        let (timber, conditions) = (timber("C24"), dry(LoadDuration::MediumTerm));
        // Each axis has its own size factor, by the dimension it bends in.
        let bent = |moment: f64, axis, as_loaded: Section| Utilised {
            stress: bending_stress(newton_metre(moment), &s, axis),
            strength: timber.bending(&as_loaded, &conditions, None).unwrap(),
        };
        let turned = Section { breadth: s.depth, depth: s.breadth };
        let (y, z) = (bent(case.moments.0, Axis::Y, s), bent(case.moments.1, Axis::Z, turned));
        let compression = Utilised {
            stress: compression_stress(newton(10e3), &s),
            strength: timber.compression(&s, &conditions, None).unwrap(),
        };
        let bending = Bending { y: y.clone(), z, km: redistribution(Material::SolidTimber) };
        // The larger of the two equations; the library prints both.
        let [first, second] = case.compressed.map(|s| s.parse::<f64>().unwrap());
        agrees(
            value(&bending.with_compression(&compression)),
            if first > second { case.compressed[0] } else { case.compressed[1] },
        );
        let kc = |axis| timber.buckling(&s, axis, length(case.length)).unwrap();
        agrees(value(&bending.with_buckling(&compression, kc(Axis::Y), kc(Axis::Z))), case.buckling);
        let lateral = lateral_buckling_and_compression(&y, plain(1.0), &compression, kc(Axis::Z));
        agrees(value(&lateral), case.lateral);
    }
}

/// eurocodepy: slat 70 x 20 with 1.2 kN of shear; desssign: `kcr` 0.67.
#[test]
fn shear_of_a_slat() {
    let timber = timber("C24");
    let kcr = timber.crack_factor(NationalChoice::Recommended).unwrap();
    agrees(value(&kcr), "0.67");
    let tau = shear_stress(newton(1200.0), &section(70.0, 20.0), kcr);
    let ratio = tau / timber.shear(&dry(LoadDuration::MediumTerm)).unwrap();
    agrees(value(&ratio), "0.779584");
}

/// Both libraries: design strengths.
#[test]
fn design_strengths() {
    let (timber, medium, deep) = (timber("C24"), dry(LoadDuration::MediumTerm), section(45.0, 150.0));
    agrees(in_mpa(&timber.bending(&deep, &medium, None).unwrap()), "14.76923");
    agrees(in_mpa(&timber.compression(&deep, &medium, None).unwrap()), "12.92308");
    agrees(in_mpa(&timber.shear(&medium).unwrap()), "2.461538");
    agrees(in_mpa(&timber.tension(&deep, &medium).unwrap()), "8.92308");
    agrees(in_mpa(&timber.bearing(&medium, plain(1.0)).unwrap()), "1.53846");
    let kh = size_factor(Material::SolidTimber, millimetre(95.0), density(350.0)).unwrap();
    agrees(value(&kh), "1.0956543");
    assert_eq!(timber.modulus().value, megapascal(11_000.0));
}
