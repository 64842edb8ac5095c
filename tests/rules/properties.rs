//! What must hold for every input: directions of change, and neither panic nor NaN.

use super::support::*;
use proptest::prelude::*;
use slatwright::derivation::given;
use slatwright::quantity::unit::{inch, psi};
use slatwright::rules::allowable_stress::bearing::bearing_area;
use slatwright::rules::allowable_stress::bending::{LoadCase, Unbraced, beam_stability};
use slatwright::rules::allowable_stress::column::{Column, column_stability, critical_compression_stress, slenderness};
use slatwright::rules::allowable_stress::connection::{Row, group_action, penetration};
use slatwright::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member, Role, dowel_bearing_strength, lateral,
};
use slatwright::rules::allowable_stress::factors::{Conditions, Duration, Temperature};
use slatwright::rules::allowable_stress::strength_ratio::{KnotPlace, knot};
use slatwright::rules::allowable_stress::ungraded::{at_moisture, exclusion_limit};
use slatwright::rules::allowable_stress::withdrawal::withdrawal;
use slatwright::rules::allowable_stress::wood::{Defects, Face, Piece, Wood};
use slatwright::tables::clear_wood::{ClearValues, WoodKind};

const DURATIONS: [Duration; 6] = [
    Duration::Permanent,
    Duration::TenYears,
    Duration::TwoMonths,
    Duration::SevenDays,
    Duration::TenMinutes,
    Duration::Impact,
];
const CASES: [LoadCase; 5] =
    [LoadCase::Uniform, LoadCase::Centre, LoadCase::CentreHeld, LoadCase::EndMoments, LoadCase::Other];
const PLACES: [KnotPlace; 3] = [KnotPlace::NarrowFace, KnotPlace::WideFaceCentre, KnotPlace::WideFaceEdge];

fn graded() -> Wood {
    dimension("No.2", values([875.0, 450.0, 135.0, 425.0, 1150.0, 1.4e6, 0.51e6], 0.42))
}

/// Any positive finite number, from the tiny to the absurd.
fn any_positive() -> impl Strategy<Value = f64> {
    (-300.0..300.0f64).prop_map(|e| 10f64.powf(e))
}

proptest! {
    #[test]
    fn bending_rises_with_duration(width in 2.0..14.0f64, flat: bool, wet: bool) {
        let width = width.floor();
        let face = if flat { Face::Flatwise } else { Face::Edgewise };
        let s = if flat { section(width, 1.5) } else { section(1.5, width) };
        let piece = Piece { section: s, nominal: (2.0, width), face };
        let conditions = Conditions { wet, ..Conditions::default() };
        let all = DURATIONS.map(|d| in_psi(&graded().bending(&piece, &conditions, d, None).unwrap()));
        prop_assert!(all.windows(2).all(|w| w[0] < w[1]));
        let shear = DURATIONS.map(|d| in_psi(&graded().shear(&piece, &conditions, d).unwrap()));
        prop_assert!(shear.windows(2).all(|w| w[0] < w[1]));
    }

    /// Within one formula of Table 3.3.3; between two the table itself may step back a little.
    #[test]
    fn beam_stability_falls_with_length(lu in 1.0..60.0f64, more in 1.01..2.0f64, case in 0..5usize, fb in 200.0..3000.0f64) {
        let s = section(1.5, 9.25);
        let cl = |lu: f64| {
            let unbraced = Unbraced { length: inch(lu), load: CASES[case] };
            beam_stability(&s, &unbraced, given("Emin'", psi(0.51e6)), given("Fb*", psi(fb))).unwrap().value.value
        };
        let limit = 7.0 * 9.25;
        prop_assume!((lu < limit) == (lu * more < limit));
        let (short, long) = (cl(lu), cl(lu * more));
        prop_assert!(long <= short && short <= 1.0 + 1e-12 && long > 0.0, "{short} {long}");
    }

    #[test]
    fn column_stability_falls_with_length(le in 1.0..80.0f64, more in 1.01..2.0f64, fc in 100.0..3000.0f64) {
        let cp = |le: f64| {
            let column = Column { along_depth: given("le1", inch(le)), along_breadth: given("le2", inch(le)) };
            let slender = slenderness(&column, &section(3.5, 5.5)).unwrap();
            let fce = critical_compression_stress(given("Emin'", psi(0.51e6)), slender);
            column_stability(fce, given("Fc*", psi(fc))).unwrap().value.value
        };
        let (short, long) = (cl_round(cp(le)), cl_round(cp(le * more)));
        prop_assert!(long <= short && short <= 1.0 && long > 0.0, "{short} {long}");
    }

    #[test]
    fn a_bigger_knot_is_worse(k in 0.01..12.0f64, more in 1.001..3.0f64, face in 0.5..16.0f64, at in 0..3usize) {
        let small = knot(PLACES[at], inch(k), inch(face));
        let big = knot(PLACES[at], inch(k * more), inch(face));
        match (small, big) {
            (Ok(small), Ok(big)) => {
                prop_assert!(big.value <= small.value);
                prop_assert!(small.value.value <= 1.0 && big.value.value > 0.0);
            }
            (Err(_), Ok(_)) => prop_assert!(false, "the larger knot passed"),
            _ => {}
        }
    }

    #[test]
    fn ungraded_wood_stays_finite(
        b in any_positive(), d in any_positive(), k in any_positive(), slope in any_positive(),
        rupture in any_positive(), lu in any_positive(), wet: bool, flat: bool, which in 0..6usize,
    ) {
        let species = ClearValues {
            specific_gravity: ratio(0.4),
            rupture: psi(rupture),
            modulus: psi(rupture * 200.0),
            crushing: psi(rupture / 2.0),
            compression_perpendicular: psi(rupture / 20.0),
            shear: psi(rupture / 8.0),
        };
        let defects = Defects { knot: Some(inch(k)), slope_of_grain: slope };
        let wood = Wood::Ungraded { species, kind: WoodKind::Softwood, defects };
        let face = if flat { Face::Flatwise } else { Face::Edgewise };
        let piece = Piece { section: section(b, d), nominal: (1.0, 4.0), face };
        let conditions =
            Conditions { wet, temperature: Temperature::UpTo150F, incised: true, repetitive: true };
        let unbraced = Unbraced { length: inch(lu), load: LoadCase::Other };
        let column = Column { along_depth: given("le1", inch(lu)), along_breadth: given("le2", inch(lu)) };
        let all = [
            wood.bending(&piece, &conditions, DURATIONS[which], Some(&unbraced)),
            wood.compression(&piece, &conditions, DURATIONS[which], Some(&column)),
            wood.shear(&piece, &conditions, DURATIONS[which]),
            wood.tension(&piece, &conditions, DURATIONS[which]),
            wood.modulus(&piece, &conditions),
        ];
        for stress in all.into_iter().flatten() {
            prop_assert!(!stress.value.value.is_nan() && stress.value.value >= 0.0);
        }
    }

    #[test]
    fn fasteners_stay_finite(
        d in any_positive(), root in 0.1..1.0f64, g in any_positive(), lm in any_positive(), ls in any_positive(),
        yields in any_positive(), degrees in 0.0..90.0f64, lag: bool,
    ) {
        let kind = if lag { DowelKind::LagScrew } else { DowelKind::WoodScrew };
        let dowel =
            Dowel { kind, diameter: inch(d), root_diameter: inch(d * root), bending_yield: psi(yields) };
        let fe = |role| dowel_bearing_strength(role, ratio(g), &dowel, degrees, BearingValue::Formula);
        if let (Ok(fem), Ok(fes)) = (fe(Role::Main), fe(Role::Side)) {
            let main = Member { bearing_strength: fem, bearing_length: given("ℓm", inch(lm)), degrees };
            let side = Member { bearing_strength: fes, bearing_length: given("ℓs", inch(ls)), degrees };
            if let Ok(limit) = lateral(&dowel, &main, &side) {
                prop_assert!(limit.lateral.value.value.is_finite());
            }
        }
        if let Ok(w) = withdrawal(&dowel, ratio(g)) {
            prop_assert!(w.value.value.is_finite());
        }
        let _ = penetration(&dowel, inch(lm), inch(ls));
        let row = Row {
            count: 3,
            spacing: inch(lm),
            main_stiffness: psi(yields) * inch(1.0) * inch(1.0),
            side_stiffness: psi(g) * inch(1.0) * inch(1.0),
            metal: lag,
        };
        if let Ok(cg) = group_action(&dowel, &row) {
            prop_assert!(cg.value.value.is_finite());
        }
    }

    #[test]
    fn a_bigger_screw_in_denser_wood_holds_more(g in 0.3..0.7f64, more in 1.01..1.2f64, ls in 0.5..2.0f64) {
        let dowel = |d: f64| Dowel {
            kind: DowelKind::WoodScrew,
            diameter: inch(d),
            root_diameter: inch(d * 0.8),
            bending_yield: psi(80_000.0),
        };
        let z = |g: f64, ls: f64| {
            let dowel = dowel(0.19);
            let member = |role, length| Member {
                bearing_strength: dowel_bearing_strength(role, ratio(g), &dowel, 0.0, BearingValue::Formula).unwrap(),
                bearing_length: given("ℓ", inch(length)),
                degrees: 0.0,
            };
            in_pounds(&lateral(&dowel, &member(Role::Main, 1.9), &member(Role::Side, ls)).unwrap().lateral)
        };
        prop_assert!(z(g * more, ls) > z(g, ls));
        prop_assert!(z(g, ls * more) >= z(g, ls) * (1.0 - 1e-12));
        let w = |d: f64, g: f64| withdrawal(&dowel(d), ratio(g)).unwrap().value;
        prop_assert!(w(0.19, g * more) > w(0.19, g) && w(0.19 * more, g) > w(0.19, g));
    }

    #[test]
    fn simple_clauses_stay_finite(a in any_positive(), b in any_positive(), m in 0.0..40.0f64, mp in 12.1..40.0f64) {
        if let Ok(cb) = bearing_area(inch(a), inch(b)) {
            prop_assert!(cb.value.value.is_finite() && cb.value.value >= 1.0);
        }
        if let Ok(p) = at_moisture(psi(a), psi(b), m, mp) {
            prop_assert!(p.value.value.is_finite());
        }
        if let Ok(limit) = exclusion_limit("MOR", psi(a), 0.2) {
            prop_assert!(limit.value.value.is_finite());
        }
    }
}

/// Drops the last digits, where `CP` of a stocky column may stand a hair above its neighbour.
fn cl_round(v: f64) -> f64 {
    (v * 1e9).round() / 1e9
}
