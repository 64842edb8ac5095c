//! Tables of factors, cell by cell, and formulas that no published example was found for.
//!
//! Where a test says "from memory" it guards the code against slips, not the memory. Wanted values of
//! formulas are hand arithmetic.

use super::support::*;
use slatwright::derivation::given;
use slatwright::quantity::unit::{inch, pound_force, psi};
use slatwright::quantity::{Length, number};
use slatwright::rules::RuleError;
use slatwright::rules::allowable_stress::bearing::{bearing_area, bearing_stress, end_grain_bearing, hankinson};
use slatwright::rules::allowable_stress::bending::{
    LoadCase, Unbraced, beam_stability, bending_stress, effective_length,
};
use slatwright::rules::allowable_stress::column::{self, Column, Ends};
use slatwright::rules::allowable_stress::combined::{Combined, bending_and_compression};
use slatwright::rules::allowable_stress::deflection::{Seasoned, creep_factor, total_deflection};
use slatwright::rules::allowable_stress::dowel::{Dowel, DowelKind};
use slatwright::rules::allowable_stress::factors::{
    Conditions, Duration, Property, Temperature, incising, load_duration_of_connection, repetitive_member, temperature,
    wet_service,
};
use slatwright::rules::allowable_stress::shear::{
    notch_on_compression_face, notch_on_tension_face, shear_at_connection,
};
use slatwright::rules::allowable_stress::size::{flat_use, flat_use_of_modulus, size_factor};
use slatwright::rules::allowable_stress::spacing::{PilotFor, Place, geometry, pilot_hole, required_distance};
use slatwright::rules::allowable_stress::steel as us_steel;
use slatwright::rules::allowable_stress::wood::{Face, Piece, Wood};
use slatwright::rules::limit_state::steel as eu_steel;
use slatwright::rules::round::Tube;
use slatwright::tables::clear_wood::WoodKind;
use slatwright::tables::lumber::SupplementTable::{DimensionLumber, SouthernPine, Timber};

const PROPERTIES: [Property; 6] = [
    Property::Bending,
    Property::Tension,
    Property::Shear,
    Property::CompressionPerpendicular,
    Property::CompressionParallel,
    Property::Modulus,
];

/// Wet service, Merritt, Building Design and Construction Handbook, Table 10.6 (read in a copy).
#[test]
fn wet_service_table() {
    let row = |table, sized: f64| PROPERTIES.map(|p| wet_service(p, table, true, psi(sized)).value.value);
    assert_eq!(row(DimensionLumber, 2000.0), [0.85, 1.0, 0.97, 0.67, 0.8, 0.9]);
    assert_eq!(row(SouthernPine, 2000.0), [0.85, 1.0, 0.97, 0.67, 0.8, 0.9]);
    assert_eq!(row(Timber, 2000.0), [1.0, 1.0, 1.0, 0.67, 0.91, 1.0]);
    let dry = PROPERTIES.map(|p| wet_service(p, DimensionLumber, false, psi(2000.0)).value.value);
    assert_eq!(dry, [1.0; 6]);
    // Exempt up to and with the limit: 1150 psi, 750 psi.
    let at = |p, sized: f64| wet_service(p, DimensionLumber, true, psi(sized)).value.value;
    assert_eq!([at(Property::Bending, 1150.0), at(Property::Bending, 1150.1)], [1.0, 0.85]);
    assert_eq!([at(Property::CompressionParallel, 750.0), at(Property::CompressionParallel, 750.1)], [1.0, 0.8]);
}

/// The exemption is judged with the size factor in: spruce-pine-fir No.2 2x8, 875 · 1.2 = 1050 psi,
/// exempt; Douglas fir-larch No.2 2x6, 900 · 1.3 = 1170 psi, not. Products by hand.
#[test]
fn wet_service_exemption_counts_size() {
    let fb = |fb: f64, width: f64, depth: f64| {
        let wood = dimension("No.2", values([fb, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0], 0.42));
        let wet = Conditions { wet: true, ..Conditions::default() };
        in_psi(&wood.bending(&on_edge((2.0, width), 1.5, depth), &wet, Duration::TenYears, None).unwrap())
    };
    agrees(fb(875.0, 8.0, 7.25), "1050.0");
    agrees(fb(900.0, 6.0, 5.5), "994.5");
}

/// Temperature, NDS Table 2.3.3, from memory.
#[test]
fn temperature_table() {
    for (at, wet, others, stiff) in [
        (Temperature::UpTo100F, false, 1.0, 1.0),
        (Temperature::UpTo100F, true, 1.0, 1.0),
        (Temperature::UpTo125F, false, 0.8, 0.9),
        (Temperature::UpTo125F, true, 0.7, 0.9),
        (Temperature::UpTo150F, false, 0.7, 0.9),
        (Temperature::UpTo150F, true, 0.5, 0.9),
    ] {
        let row = PROPERTIES.map(|p| temperature(p, at, wet).value.value);
        assert_eq!(row, [others, stiff, others, others, others, stiff], "{at:?} {wet}");
    }
}

/// Incising 0.80, 0.95, 1.00 (a trade article and a wood engineering site); repetitive members 1.15
/// (grading agency rule book); connection duration at most 1.6 (a handbook of formulas).
#[test]
fn other_factors() {
    assert_eq!(PROPERTIES.map(|p| incising(p, true).value.value), [0.8, 0.8, 0.8, 1.0, 0.8, 0.95]);
    assert_eq!(PROPERTIES.map(|p| incising(p, false).value.value), [1.0; 6]);
    assert_eq!(repetitive_member(DimensionLumber, true).value.value, 1.15);
    assert_eq!(repetitive_member(SouthernPine, true).value.value, 1.15);
    assert_eq!(repetitive_member(Timber, true).value.value, 1.0);
    assert_eq!(repetitive_member(DimensionLumber, false).value.value, 1.0);
    assert_eq!(load_duration_of_connection(Duration::Impact).value.value, 1.6);
    assert_eq!(load_duration_of_connection(Duration::TenMinutes).value.value, 1.6);
    assert_eq!(load_duration_of_connection(Duration::TwoMonths).value.value, 1.15);
}

fn cf(grade: &str, nominal: (f64, f64)) -> [f64; 3] {
    [Property::Bending, Property::Tension, Property::CompressionParallel]
        .map(|p| size_factor(DimensionLumber, grade, p, nominal, inch(5.0)).unwrap().value.value)
}

/// Size factors of Table 4A, as three summaries print them (Merritt Table 10.8; the rule book of a
/// grading agency, section 8 Table A; a trade article of 2024).
#[test]
fn size_factors_of_dimension_lumber() {
    for (width, at_2, at_4, tension, compression) in [
        (2.0, 1.5, 1.5, 1.5, 1.15),
        (3.0, 1.5, 1.5, 1.5, 1.15),
        (4.0, 1.5, 1.5, 1.5, 1.15),
        (5.0, 1.4, 1.4, 1.4, 1.1),
        (6.0, 1.3, 1.3, 1.3, 1.1),
        (8.0, 1.2, 1.3, 1.2, 1.05),
        (10.0, 1.1, 1.2, 1.1, 1.0),
        (12.0, 1.0, 1.1, 1.0, 1.0),
        (14.0, 0.9, 1.0, 0.9, 0.9),
    ] {
        for grade in ["Select Structural", "No.1 & Btr", "No.1", "No.2", "No.1/No.2", "No.3"] {
            assert_eq!(cf(grade, (2.0, width)), [at_2, tension, compression], "{grade} {width}");
        }
        if width >= 4.0 {
            assert_eq!(cf("No.2", (4.0, width)), [at_4, tension, compression], "{width}");
        }
    }
    for width in [2.0, 3.0, 4.0] {
        assert_eq!(cf("Stud", (2.0, width)), [1.1, 1.1, 1.05]);
        assert_eq!(cf("Construction", (2.0, width)), [1.0, 1.0, 1.0]);
        assert_eq!(cf("Standard", (2.0, width)), [1.0, 1.0, 1.0]);
    }
    assert_eq!(cf("Stud", (2.0, 6.0)), [1.0, 1.0, 1.0]);
    assert_eq!(cf("Utility", (2.0, 4.0)), [1.0, 1.0, 1.0]);
    assert_eq!(cf("Utility", (2.0, 3.0)), [0.4, 0.4, 0.6]);
    // Between two rows, the wider.
    assert_eq!(cf("No.2", (2.0, 7.0)), cf("No.2", (2.0, 8.0)));
}

/// What the tables have no row for: stated in the same summaries.
#[test]
fn sizes_and_grades_without_values() {
    let ask = |table, grade: &str, nominal| size_factor(table, grade, Property::Bending, nominal, inch(5.0));
    for (table, grade, nominal) in [
        (DimensionLumber, "Stud", (2.0, 8.0)),
        (DimensionLumber, "Construction", (2.0, 6.0)),
        (DimensionLumber, "Utility", (2.0, 6.0)),
        (DimensionLumber, "Premium", (2.0, 4.0)),
        (DimensionLumber, "No.2", (1.0, 4.0)),
        (DimensionLumber, "No.2", (6.0, 6.0)),
        (SouthernPine, "No.2", (1.0, 4.0)),
        (Timber, "No.2", (4.0, 6.0)),
        (DimensionLumber, "No.2", (f64::NAN, f64::NAN)),
    ] {
        let error = ask(table, grade, nominal).unwrap_err();
        assert!(matches!(error, RuleError::NotCovered { .. }), "{grade} {nominal:?}: {error}");
    }
    // A 1x board is refused on every question, not only on bending.
    let wood = dimension("No.2", values([875.0, 450.0, 135.0, 425.0, 1150.0, 1.4e6, 0.51e6], 0.42));
    let board = Piece { section: section(3.5, 0.75), nominal: (1.0, 4.0), face: Face::Flatwise };
    let dry = Conditions::default();
    assert!(wood.shear(&board, &dry, Duration::TenYears).is_err());
    assert!(wood.modulus(&board, &dry).is_err());
    assert!(wood.bearing(&board, &dry, given("Cb", number(1.0))).is_err());
}

/// Southern pine from memory; timbers `(12/d)^(1/9)` on `Fb` only (Merritt equation 10.8).
#[test]
fn size_factors_of_pine_and_timbers() {
    let pine = |p, nominal| size_factor(SouthernPine, "No.2", p, nominal, inch(5.0)).unwrap().value.value;
    assert_eq!(pine(Property::Bending, (2.0, 12.0)), 1.0);
    assert_eq!(pine(Property::Bending, (4.0, 8.0)), 1.1);
    assert_eq!(pine(Property::Tension, (4.0, 8.0)), 1.0);
    assert_eq!(pine(Property::Bending, (4.0, 6.0)), 1.0);
    assert_eq!(pine(Property::CompressionParallel, (2.0, 14.0)), 0.9);
    let timber = |p, d| size_factor(Timber, "No.2", p, (6.0, 16.0), inch(d)).unwrap().value.value;
    assert_eq!(timber(Property::Bending, 12.0), 1.0);
    assert!(timber(Property::Bending, 12.1) < 1.0);
    agrees(timber(Property::Bending, 15.5), &format!("{:.6}", (12.0 / 15.5f64).powf(1.0 / 9.0)));
    assert_eq!(timber(Property::Tension, 15.5), 1.0);
}

/// Flat use, Tables 4A, 4B and 4D, from memory.
#[test]
fn flat_use_table() {
    let cfu = |nominal| flat_use(DimensionLumber, "No.2", nominal).unwrap().value.value;
    for (width, thin, thick) in [
        (2.0, 1.0, None),
        (3.0, 1.0, None),
        (4.0, 1.1, Some(1.0)),
        (5.0, 1.1, Some(1.05)),
        (6.0, 1.15, Some(1.05)),
        (8.0, 1.15, Some(1.05)),
        (10.0, 1.2, Some(1.1)),
        (12.0, 1.2, Some(1.1)),
    ] {
        assert_eq!(cfu((2.0, width)), thin, "{width}");
        if let Some(thick) = thick {
            assert_eq!(cfu((4.0, width)), thick, "{width}");
        }
    }
    let stringer = |grade| {
        let (fb, e) = (flat_use(Timber, grade, (6.0, 12.0)), flat_use_of_modulus(Timber, grade, (6.0, 12.0)));
        (fb.unwrap().value.value, e.unwrap().value)
    };
    assert_eq!(stringer("Select Structural"), (0.86, 1.0));
    assert_eq!(stringer("No.1"), (0.74, 0.9));
    assert_eq!(stringer("No.2"), (1.0, 1.0));
    assert!(flat_use(Timber, "No.3", (6.0, 12.0)).is_err());
    assert_eq!(flat_use(Timber, "No.1", (6.0, 8.0)).unwrap().value.value, 1.0);
}

/// A 2x4 and a 2x6 of spruce-pine-fir No.2 laid flat: 875 · 1.5 · 1.1 = 1443.75 and
/// 875 · 1.3 · 1.15 = 1308.1 psi, by hand; printed as evaluated.
#[test]
fn slat_laid_flat() {
    let wood = dimension("No.1/No.2", values([875.0, 450.0, 135.0, 425.0, 1150.0, 1.4e6, 0.51e6], 0.42));
    let dry = Conditions::default();
    let flat = |width: f64, dressed: f64| Piece {
        section: section(dressed, 1.5),
        nominal: (2.0, width),
        face: Face::Flatwise,
    };
    let lu = Unbraced { length: inch(57.0), load: LoadCase::Uniform };
    let fb = wood.bending(&flat(4.0, 3.5), &dry, Duration::TenYears, Some(&lu)).unwrap();
    agrees(in_psi(&fb), "1443.75");
    let wide = wood.bending(&flat(6.0, 5.5), &dry, Duration::TenYears, None).unwrap();
    agrees(in_psi(&wide), "1308.1");
    let step = fb.as_step().unwrap();
    assert_eq!(
        step.expression.symbols(slatwright::quantity::UnitSystem::Us),
        "Fb · CD · CM · Ct · CL · CF · Cfu · Ci · Cr"
    );
    assert_eq!(step.citation.to_string(), "NDS 2018 3.3.1");
}

/// No duration on bearing and stiffness; area factor on bearing (NDS Table 4.3.1, read in a summary).
#[test]
fn bearing_and_modulus_know_no_duration() {
    let wood = dimension("No.2", values([875.0, 450.0, 135.0, 425.0, 1150.0, 1.4e6, 0.51e6], 0.42));
    let rail = on_edge((2.0, 6.0), 1.5, 5.5);
    let all = Conditions { wet: true, temperature: Temperature::UpTo125F, incised: true, repetitive: true };
    let bearing = wood.bearing(&rail, &all, given("Cb", number(1.25))).unwrap();
    agrees(in_psi(&bearing), &format!("{:.2}", 425.0 * 0.67 * 0.7 * 1.25));
    agrees(in_psi(&wood.modulus(&rail, &all).unwrap()), &format!("{:.0}", 1.4e6 * 0.9 * 0.9 * 0.95));
    agrees(in_psi(&wood.modulus_for_stability(&rail, &all).unwrap()), &format!("{:.0}", 0.51e6 * 0.9 * 0.9 * 0.95));
    let fc = wood.compression(&rail, &all, Duration::Permanent, None).unwrap();
    agrees(in_psi(&fc), &format!("{:.2}", 1150.0 * 0.9 * 0.8 * 0.7 * 1.1 * 0.8));
    let fb = wood.bending(&rail, &all, Duration::TenYears, None).unwrap();
    agrees(in_psi(&fb), &format!("{:.2}", 875.0 * 0.7 * 1.3 * 0.8 * 1.15));
    assert_eq!(wood.specific_gravity(), number(0.42));
}

/// Effective lengths, Table 3.3.3 (read in a summary; five and more loads from memory).
#[test]
fn effective_length_table() {
    let d = 10.0;
    let le = |load, lu: f64| in_inches(effective_length(&Unbraced { length: inch(lu), load }, &section(2.0, d)).value);
    let close = |got: f64, want: f64| assert!((got - want).abs() < 1e-9, "{got} {want}");
    for (load, short, long, depths) in [
        (LoadCase::CantileverUniform, 1.33, 0.90, 3.0),
        (LoadCase::CantileverEndLoad, 1.87, 1.44, 3.0),
        (LoadCase::Uniform, 2.06, 1.63, 3.0),
        (LoadCase::Centre, 1.80, 1.37, 3.0),
        (LoadCase::CentreHeld, 1.11, 1.11, 0.0),
        (LoadCase::TwoLoads, 1.68, 1.68, 0.0),
        (LoadCase::ThreeLoads, 1.54, 1.54, 0.0),
        (LoadCase::FourLoads, 1.68, 1.68, 0.0),
        (LoadCase::FiveLoads, 1.73, 1.73, 0.0),
        (LoadCase::SixLoads, 1.78, 1.78, 0.0),
        (LoadCase::ManyLoads, 1.84, 1.84, 0.0),
        (LoadCase::EndMoments, 1.84, 1.84, 0.0),
        (LoadCase::Other, 2.06, 1.63, 3.0),
    ] {
        close(le(load, 69.0), short * 69.0);
        close(le(load, 70.0), long * 70.0 + depths * d);
        let far = if load == LoadCase::Other { 1.84 * 144.0 } else { long * 144.0 + depths * d };
        close(le(load, 144.0), far);
    }
}

/// A 2x10 southern pine joist unbraced over 120 in, computed with a second program: regression.
#[test]
fn unbraced_joist() {
    let joist = section(1.5, 9.25);
    let unbraced = Unbraced { length: inch(120.0), load: LoadCase::Uniform };
    agrees(in_inches(effective_length(&unbraced, &joist).value), "223.35");
    let cl = beam_stability(&joist, &unbraced, given("Emin'", psi(0.51e6)), given("Fb*", psi(800.0))).unwrap();
    agrees(cl.value.value, ".7327");
    let wood = Wood::Graded {
        values: values([800.0, 1.0, 1.0, 1.0, 1.0, 1.4e6, 0.51e6], 0.55),
        table: SouthernPine,
        grade: "No.2".into(),
    };
    let piece = on_edge((2.0, 10.0), 1.5, 9.25);
    let fb = wood.bending(&piece, &Conditions::default(), Duration::TenYears, Some(&unbraced)).unwrap();
    agrees(in_psi(&fb), "586.2");
    // RB above 50 is refused, 50 is not: le d / b² = 2500 with le = 1.11 lu.
    let at = |rb: f64| {
        let unbraced = Unbraced { length: inch(rb * rb / 10.0 / 1.11), load: LoadCase::CentreHeld };
        beam_stability(&section(1.0, 10.0), &unbraced, given("Emin'", psi(0.51e6)), given("Fb*", psi(800.0)))
    };
    assert!(at(50.0).is_ok() && at(50.1).is_err());
    let long = Unbraced { length: inch(400.0), load: LoadCase::Uniform };
    let thin = beam_stability(&section(0.75, 9.25), &long, given("Emin'", psi(0.51e6)), given("Fb*", psi(800.0)));
    assert!(matches!(thin, Err(RuleError::OutOfRange { .. })));
}

/// A 4x4 leg of Douglas fir-larch No.2, computed with a second program: regression. `Ke` of appendix G
/// from memory.
#[test]
fn legs() {
    for (ends, want) in [
        (Ends::FixedFixed, "0.65"),
        (Ends::FixedPinned, "0.80"),
        (Ends::FixedTranslating, "1.20"),
        (Ends::PinnedPinned, "1.00"),
        (Ends::FixedFree, "2.10"),
        (Ends::PinnedTranslating, "2.40"),
    ] {
        agrees(in_inches(column::effective_length(ends, inch(1.0)).value), want);
    }
    let wood = dimension("No.2", values([900.0, 575.0, 180.0, 625.0, 1350.0, 1.6e6, 0.58e6], 0.50));
    let leg = on_edge((4.0, 4.0), 3.5, 3.5);
    for (length, ends, cp, pounds) in [
        (24.0, Ends::PinnedPinned, ".9664", "1838"),
        (36.0, Ends::PinnedPinned, ".9156", "1741"),
        (36.0, Ends::FixedFree, ".5351", "1018"),
        (60.0, Ends::FixedFree, ".2240", "426"),
    ] {
        let le = || column::effective_length(ends, inch(length));
        let column = Column { along_depth: le(), along_breadth: le() };
        let fc = wood.compression(&leg, &Conditions::default(), Duration::TenYears, Some(&column)).unwrap();
        agrees(in_psi(&fc) / 1552.5, cp);
        agrees(in_psi(&fc) * 12.25 / 10.0, pounds);
    }
    // The weaker direction counts, whichever it is; le/d above 50 is refused.
    let at = |along_depth: f64, along_breadth: f64| {
        let (first, second) = (given("le1", inch(along_depth)), given("le2", inch(along_breadth)));
        column::slenderness(&Column { along_depth: first, along_breadth: second }, &section(1.5, 5.5))
    };
    agrees(at(55.0, 12.0).unwrap().value.value, "10.0");
    agrees(at(55.0, 30.0).unwrap().value.value, "20.0");
    assert!(at(55.0, 75.0).is_ok());
    assert!(at(55.0, 75.1).is_err());
}

/// Bending and compression, equation 3.9-3 from memory, by hand arithmetic.
#[test]
fn bent_and_compressed() {
    let c = |fc: f64, fb1: f64, fb2: f64| Combined {
        compression: given("fc", psi(fc)),
        allowable_compression: given("Fc'", psi(800.0)),
        critical_1: given("FcE1", psi(1000.0)),
        critical_2: given("FcE2", psi(500.0)),
        critical_bending: given("FbE", psi(2000.0)),
        bending_1: given("fb1", psi(fb1)),
        allowable_bending_1: given("Fb1'", psi(1200.0)),
        bending_2: given("fb2", psi(fb2)),
        allowable_bending_2: given("Fb2'", psi(1300.0)),
    };
    let got = bending_and_compression(&c(200.0, 300.0, 100.0)).unwrap().value.value;
    let want = 0.0625 + 300.0 / (1200.0 * 0.8) + 100.0 / (1300.0 * (1.0 - 0.4 - 0.0225));
    agrees(got, &format!("{want:.9}"));
    for bad in [c(1000.0, 0.0, 0.0), c(500.0, 0.0, 0.0), c(10.0, 2000.0, 0.0), c(400.0, 900.0, 0.0)] {
        assert!(bending_and_compression(&bad).is_err());
    }
    // A leg with 1500 lb an inch off centre, computed with a second program: regression.
    let same = || given("FcE", psi(1021.9));
    let leg = Combined {
        compression: given("fc", psi(1500.0 / 12.25)),
        allowable_compression: given("Fc'", psi(1552.5 * 0.5351)),
        critical_1: same(),
        critical_2: same(),
        critical_bending: given("FbE", psi(1e9)),
        bending_1: given("fb1", psi(1500.0 * 6.0 / 42.875)),
        allowable_bending_1: given("Fb1'", psi(1350.0)),
        bending_2: given("fb2", psi(0.0)),
        allowable_bending_2: given("Fb2'", psi(1350.0)),
    };
    agrees(bending_and_compression(&leg).unwrap().value.value, ".1984");
}

/// Walls on both sides of what the clauses take, from memory: AISC 360-16 `D/t` up to `0.07 E/Fy`, which is 58.0 at
/// 35 000 psi; EN 1993-1-1 Table 5.2 `d/t` up to `70 · 235/fy`, which is 68.17 there. And a wall that leaves a bore.
#[test]
fn pipes_at_the_limit_of_their_wall() {
    let fy = psi(35_000.0);
    for (slender, asd, ec3) in [(57.9, true, true), (58.1, false, true), (68.1, false, true), (68.3, false, false)] {
        let wall = given("t", inch(10.0 / slender));
        let tube = Tube { outside: inch(10.0), wall };
        let us = [us_steel::allowable_moment(&tube, fy).is_ok(), us_steel::allowable_shear(&tube, fy).is_ok()];
        let eu = [eu_steel::bending_resistance(&tube, fy).is_ok(), eu_steel::shear_resistance(&tube, fy).is_ok()];
        assert_eq!((us, eu), ([asd; 2], [ec3; 2]), "D/t {slender}");
    }
    for (wall, bore) in [(0.499, true), (0.501, false)] {
        assert_eq!(us_steel::design_tube(inch(1.0), inch(wall)).is_ok(), bore);
        assert_eq!(eu_steel::design_tube(inch(1.0), inch(wall)).is_ok(), bore);
    }
}

/// The size factor is on `Fb`, `Ft` and `Fc` alone, and the flat use factor on `E` of stringers alone (Supplement
/// Tables 4A, 4B and 4D, from memory): everything else is as it was, to the last digit.
#[test]
fn what_size_does_not_change() {
    for p in [Property::Shear, Property::CompressionPerpendicular, Property::Modulus] {
        for (table, nominal) in [(DimensionLumber, (2.0, 4.0)), (SouthernPine, (2.0, 12.0)), (Timber, (6.0, 16.0))] {
            assert_eq!(size_factor(table, "No.2", p, nominal, inch(3.5)).unwrap().value.value, 1.0);
        }
    }
    for (table, nominal) in [(DimensionLumber, (2.0, 8.0)), (SouthernPine, (2.0, 8.0)), (Timber, (6.0, 8.0))] {
        assert_eq!(flat_use_of_modulus(table, "No.1", nominal).unwrap().value, 1.0);
    }
}

/// Notches and connections, from memory, computed with a second program: regression.
#[test]
fn notched_and_bored() {
    let fv = || given("Fv'", psi(135.0));
    let joist = section(1.5, 9.25);
    agrees(in_pounds(&notch_on_tension_face(fv(), &joist, inch(7.0)).unwrap()), "541.2");
    agrees(in_pounds(&notch_on_compression_face(fv(), &joist, inch(7.0), inch(3.0)).unwrap()), "1118.6");
    // Beyond dn the notch counts as if the beam were that shallow: 2/3 · 135 · 1.5 · 7.
    agrees(in_pounds(&notch_on_compression_face(fv(), &joist, inch(7.0), inch(9.0)).unwrap()), "945.0");
    // And without reach as if there were none: 2/3 · 135 · 1.5 · 9.25.
    agrees(in_pounds(&notch_on_compression_face(fv(), &joist, inch(7.0), inch(0.0)).unwrap()), "1248.75");
    assert!(notch_on_tension_face(fv(), &joist, inch(6.9)).is_err());
    assert!(notch_on_tension_face(fv(), &joist, inch(9.3)).is_err());
    assert!(notch_on_compression_face(fv(), &joist, inch(9.3), inch(1.0)).is_err());
    assert!(notch_on_compression_face(fv(), &joist, inch(7.0), inch(-1.0)).is_err());

    let rail = section(1.5, 5.5);
    let vr = |from_end| in_pounds(&shear_at_connection(fv(), &rail, inch(3.5), inch(from_end)).unwrap());
    agrees(vr(27.4), "191.3");
    agrees(vr(27.5), "472.5");
    assert!(shear_at_connection(fv(), &rail, inch(5.6), inch(1.0)).is_err());
}

/// Bearing area factor as an engineering site tabulates it: 1/2, 1, 1-1/2, 2, 3, 4 and 6 in; 3 in from
/// the end at least (read). At 4 in tables print 1.10 where the formula gives 1.094.
#[test]
fn bearing_area_table() {
    for (length, want) in [(0.5, "1.75"), (1.0, "1.38"), (1.5, "1.25"), (2.0, "1.19"), (3.0, "1.13"), (6.0, "1.00")] {
        agrees(bearing_area(inch(length), inch(3.0)).unwrap().value.value, want);
    }
    agrees(bearing_area(inch(4.0), inch(3.0)).unwrap().value.value, "1.1");
    agrees(bearing_area(inch(1.5), inch(2.9)).unwrap().value.value, "1");
    assert!(bearing_area(inch(0.0), inch(3.0)).is_err());
    agrees(in_psi(&bearing_stress(pound_force(525.0), inch(1.5), inch(3.5))), "100");
    let fc = |v: f64| end_grain_bearing(given("fc", psi(v)), given("Fc*", psi(1000.0)));
    assert!(fc(750.0).is_ok() && fc(751.0).is_err());
    for (degrees, want) in [(30.0, "806.2"), (45.0, "620.6"), (60.0, "504.5")] {
        agrees(in_psi(&hankinson(given("Fc*", psi(1150.0)), given("Fc⊥'", psi(425.0)), degrees)), want);
    }
}

/// Creep, AWC answer on NDS 3.5: 1.5 seasoned, 2.0 otherwise; the sums by hand.
#[test]
fn deflection_that_stays() {
    let total = |seasoned| in_inches(total_deflection(creep_factor(seasoned), inch(0.0566), inch(0.1698)).value);
    agrees(total(Seasoned::Dry), "0.2547");
    agrees(total(Seasoned::GreenOrWet), "0.2830");
}

fn dowel(kind: DowelKind, diameter: f64) -> Dowel {
    Dowel { kind, diameter: inch(diameter), root_diameter: inch(diameter * 0.8), bending_yield: psi(90_000.0) }
}

const PLACES: [Place; 10] = [
    Place::EndPulled,
    Place::EndPushed,
    Place::EndAcross,
    Place::EdgeAlong,
    Place::EdgeLoaded,
    Place::EdgeUnloaded,
    Place::RowAlong,
    Place::RowAcross,
    Place::BetweenAlong,
    Place::BetweenAcross,
];

/// Distances in diameters: NDS commentary below 1/4 in, Tables 12.5.1A to D from there, from memory;
/// loaded edge 4 D read in an engineers' discussion.
#[test]
fn distances_in_diameters() {
    let small = dowel(DowelKind::WoodScrew, 0.2);
    let row = |dowel: &Dowel, kind, bored, length: f64| {
        PLACES.map(|place| {
            let d = required_distance(dowel, place, kind, bored, inch(length)).unwrap();
            let diameters = |l: Length| (l / dowel.diameter).value;
            (diameters(d.full.value), diameters(d.least.value))
        })
    };
    let close = |got: [(f64, f64); 10], want: [(f64, f64); 10]| {
        for ((place, g), w) in PLACES.iter().zip(got).zip(want) {
            assert!((g.0 - w.0).abs() < 1e-9 && (g.1 - w.1).abs() < 1e-9, "{place:?} {g:?} {w:?}");
        }
    };
    let same = |v: [f64; 10]| v.map(|v| (v, v));
    let dry = [15.0, 10.0, 10.0, 2.5, 2.5, 2.5, 15.0, 10.0, 5.0, 5.0];
    let bored = [10.0, 5.0, 5.0, 2.5, 2.5, 2.5, 10.0, 5.0, 3.0, 3.0];
    close(row(&small, WoodKind::Softwood, false, 1.0), same(dry));
    close(row(&small, WoodKind::Hardwood, true, 1.0), same(bored));

    let large = dowel(DowelKind::LagScrew, 0.25);
    let table = |pulled: (f64, f64), between: f64| {
        [
            pulled,
            (4.0, 2.0),
            (4.0, 2.0),
            (1.5, 1.5),
            (4.0, 4.0),
            (1.5, 1.5),
            (4.0, 3.0),
            (4.0, 3.0),
            (1.5, 1.5),
            (between, between),
        ]
    };
    close(row(&large, WoodKind::Softwood, true, 0.5), table((7.0, 3.5), 2.5));
    close(row(&large, WoodKind::Hardwood, true, 1.0), table((5.0, 2.5), (5.0 * 4.0 + 10.0) / 8.0));
    close(row(&large, WoodKind::Hardwood, true, 1.5), table((5.0, 2.5), 5.0));
    close(row(&large, WoodKind::Hardwood, true, 2.02 * 0.25), table((5.0, 2.5), (5.0 * 2.02 + 10.0) / 8.0));
    close(row(&large, WoodKind::Hardwood, true, 6.02 * 0.25), table((5.0, 2.5), 5.0));

    let end = required_distance(&large, Place::EndPulled, WoodKind::Softwood, true, inch(1.5)).unwrap();
    agrees(geometry(inch(7.0 * 0.25), &end).unwrap().value.value, "1.000");
    agrees(geometry(inch(9.0), &end).unwrap().value.value, "1.000");
    agrees(geometry(inch(3.5 * 0.25), &end).unwrap().value.value, "0.500");
    assert!(geometry(inch(0.87), &end).is_err());
}

/// Pilot holes, NDS 12.1.4 and 12.1.5, from memory.
#[test]
fn pilot_holes() {
    let (screw, lag) = (dowel(DowelKind::WoodScrew, 0.2), dowel(DowelKind::LagScrew, 0.25));
    let of = |dowel: &Dowel, g: f64, load| {
        let hole = pilot_hole(dowel, number(g), load);
        let shank = hole.shank.map(|s| (s.value / dowel.diameter).value);
        let thread = hole.thread.map(|(a, b)| (in_inches(a.value), in_inches(b.value)));
        (shank, thread)
    };
    let close = |got: (Option<f64>, Option<(f64, f64)>), shank: Option<f64>, thread: Option<(f64, f64)>| {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let shanks = match (got.0, shank) {
            (Some(a), Some(b)) => near(a, b),
            (a, b) => a.is_none() && b.is_none(),
        };
        let threads = match (got.1, thread) {
            (Some(a), Some(b)) => near(a.0, b.0) && near(a.1, b.1),
            (a, b) => a.is_none() && b.is_none(),
        };
        assert!(shanks && threads, "{got:?}");
    };
    let (pull, across) = (PilotFor::Withdrawal, PilotFor::Lateral);
    close(of(&screw, 0.601, pull), None, Some((0.9 * 0.16, 0.9 * 0.16)));
    close(of(&screw, 0.60, pull), None, Some((0.7 * 0.16, 0.7 * 0.16)));
    close(of(&screw, 0.501, pull), None, Some((0.7 * 0.16, 0.7 * 0.16)));
    close(of(&screw, 0.50, pull), None, None);
    close(of(&lag, 0.501, pull), Some(1.0), Some((0.60 * 0.25, 0.75 * 0.25)));
    close(of(&screw, 0.601, across), Some(1.0), Some((0.16, 0.16)));
    close(of(&screw, 0.60, across), Some(0.875), Some((0.14, 0.14)));
    close(of(&lag, 0.601, pull), Some(1.0), Some((0.65 * 0.25, 0.85 * 0.25)));
    close(of(&lag, 0.60, across), Some(1.0), Some((0.60 * 0.25, 0.75 * 0.25)));
    close(of(&lag, 0.50, across), Some(1.0), Some((0.40 * 0.25, 0.70 * 0.25)));
}

/// The same of a deep beam, 6.75 x 30 in over 240 in, from the `FbE` and `Fb*` that a review course prints; no
/// published `CL` was found for it: regression.
#[test]
fn unbraced_deep_beam() {
    let unbraced = Unbraced { length: inch(240.0), load: LoadCase::Uniform };
    let (emin, star) = (given("Emin'", psi(0.69e6)), given("Fb*", psi(2400.0)));
    agrees(beam_stability(&section(6.75, 30.0), &unbraced, emin, star).unwrap().value.value, "0.8494");
}

/// Mechanics of Materials, 7th edition, problem 5.6-7: joists at 16 in, 120 psf, span 126 in, 1350 psi.
#[test]
fn joist_choice_of_a_textbook() {
    let q = 120.0 / 144.0 * 16.0;
    agrees(q, "13.333");
    let moment = pound_force(q) * inch(126.0) * inch(126.0) / inch(8.0);
    let needed = (moment / psi(1350.0)).value / inch(1.0).value.powi(3);
    agrees(needed, "19.6");
    assert!(in_psi(&bending_stress(moment, &section(1.5, 7.25))) > 1350.0);
    let chosen = section(1.5, 9.25);
    assert!(in_psi(&bending_stress(moment, &chosen)) < 1350.0);
    agrees(chosen.section_modulus().value.value / inch(1.0).value.powi(3), "21.39");
}
