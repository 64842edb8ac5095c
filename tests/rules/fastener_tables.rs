//! Lag screws and wood screws: what the tables in `tests/evidence` do not say.

use super::support::*;
use slatwright::derivation::{constant, given};
use slatwright::quantity::Length;
use slatwright::quantity::unit::{NEWTON_PER_POUND_FORCE, inch, pound_force, pound_force_per_inch, psi};
use slatwright::rules::RuleError;
use slatwright::rules::allowable_stress::connection::{
    Grain, Row, adjusted_lateral, bearing_length_in_main, end_grain_lateral, group_action, lateral_and_withdrawal,
    penetration,
};
use slatwright::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member, Role, YieldLimit, YieldMode, dowel_bearing_strength, lateral,
    reduction_terms,
};
use slatwright::rules::allowable_stress::factors::{Conditions, Duration, Temperature};
use slatwright::rules::allowable_stress::withdrawal::{adjusted_withdrawal, withdrawal};

/// NDS appendix L root diameters and the bending yield strengths of the lag screw tables' footnotes,
/// from memory; Table 12K in `tests/evidence` confirms the first three.
fn lag(d: f64) -> Dowel {
    let (root, yield_ksi) = match d {
        0.25 => (0.173, 70.0),
        0.3125 => (0.227, 60.0),
        0.375 => (0.265, 45.0),
        0.5 => (0.371, 45.0),
        _ => (d * 0.75, 45.0),
    };
    Dowel {
        kind: DowelKind::LagScrew,
        diameter: inch(d),
        root_diameter: inch(root),
        bending_yield: psi(yield_ksi * 1000.0),
    }
}

/// NDS appendix L and the wood screw tables' footnotes, from memory.
fn screw(gauge: u32) -> Dowel {
    let (d, root, yield_ksi) = match gauge {
        6 => (0.138, 0.113, 100.0),
        8 => (0.164, 0.131, 90.0),
        9 => (0.177, 0.142, 90.0),
        10 => (0.190, 0.152, 80.0),
        12 => (0.216, 0.171, 80.0),
        14 => (0.242, 0.196, 70.0),
        _ => panic!("no gauge {gauge}"),
    };
    Dowel {
        kind: DowelKind::WoodScrew,
        diameter: inch(d),
        root_diameter: inch(root),
        bending_yield: psi(yield_ksi * 1000.0),
    }
}

fn wood(role: Role, g: f64, dowel: &Dowel, degrees: f64, length: Length) -> Member {
    let bearing_strength = dowel_bearing_strength(role, ratio(g), dowel, degrees, BearingValue::Tabulated).unwrap();
    Member { bearing_strength, bearing_length: given("ℓ", length), degrees }
}

/// Wood to wood, one `G` in both members, penetration 10 D or 8 D.
fn joint(dowel: &Dowel, g: f64, side: f64, angles: (f64, f64)) -> YieldLimit {
    let diameters = if dowel.kind == DowelKind::LagScrew { 8.0 } else { 10.0 };
    let main = wood(Role::Main, g, dowel, angles.0, dowel.diameter * diameters);
    let side = wood(Role::Side, g, dowel, angles.1, inch(side));
    lateral(dowel, &main, &side).unwrap()
}

/// NDS Table 12L, 1/2 in side member, G 0.67 to 0.42, from memory.
#[test]
fn wood_screw_lateral() {
    for (gauge, row) in [
        (6, ["88", "67", "59", "57", "53", "49", "47"]),
        (8, ["107", "82", "73", "71", "66", "61", "59"]),
        (9, ["121", "94", "83", "81", "76", "70", "68"]),
        (10, ["130", "101", "90", "87", "82", "75", "73"]),
        (12, ["156", "123", "110", "107", "100", "93", "91"]),
        (14, ["168", "133", "120", "117", "110", "102", "99"]),
    ] {
        for (g, want) in [0.67, 0.55, 0.50, 0.49, 0.46, 0.43, 0.42].into_iter().zip(row) {
            let limit = joint(&screw(gauge), g, 0.5, (0.0, 0.0));
            agrees(in_pounds(&limit.lateral), want);
            assert_eq!(limit.governing, YieldMode::IIIs);
        }
    }
}

/// All six modes. Computed here with a second program from the same equations: regression only.
#[test]
fn all_six_modes_of_two_screws() {
    for (gauge, side, g, want, governing) in [
        (10, 0.75, 0.50, ["610.4", "241.0", "204.0", "214.5", "106.6", "116.9"], YieldMode::IIIs),
        (8, 1.5, 0.42, ["327.1", "299.2", "129.9", "118.2", "109.7", "78.2"], YieldMode::IV),
    ] {
        let limit = joint(&screw(gauge), g, side, (0.0, 0.0));
        for ((_, z), want) in limit.modes.iter().zip(want) {
            agrees(in_pounds(z), want);
        }
        assert_eq!(limit.governing, governing);
    }
}

/// Reduction terms of large dowels enter every mode: 4, 3.6 and 3.2 times `Kθ`, 1.25 across the grain.
/// Table 12.3.1B, from memory; modes I and II recomputed from the member alone.
#[test]
fn reduction_terms_of_a_large_dowel() {
    let dowel = lag(0.5);
    let limit = joint(&dowel, 0.50, 1.5, (90.0, 90.0));
    // Fe⊥ 3150 psi (Table 12.3.3); D ℓ Fe = 0.371 · 1.5 · 3150 lb.
    agrees(in_pounds(&limit.modes[1].1), &format!("{:.1}", 0.371 * 1.5 * 3150.0 / (4.0 * 1.25)));
    // Equal members: Re 1, Rt 4/1.5; k1 from the table's formula, hand arithmetic.
    let rt: f64 = 4.0 / 1.5;
    let k1 = ((1.0 + 2.0 * (1.0 + rt + rt * rt) + rt * rt).sqrt() - (1.0 + rt)) / 2.0;
    agrees(in_pounds(&limit.modes[2].1), &format!("{:.1}", k1 * 0.371 * 1.5 * 3150.0 / (3.6 * 1.25)));
    // Mode IV: D²/Rd · sqrt(2 Fem Fyb / 6).
    let iv = 0.371f64.powi(2) / (3.2 * 1.25) * (3150.0 * 45000.0 / 3.0f64).sqrt();
    agrees(in_pounds(&limit.modes[5].1), &format!("{iv:.1}"));
}

/// Which member is called main is only a name: with the members exchanged, Im and Is, IIIm and IIIs
/// change places, II and IV stay. Equilibrium of the dowel; no source needed.
#[test]
fn members_exchanged() {
    for dowel in [screw(10), lag(0.375), lag(0.5)] {
        for (g, other, lm, ls) in [(0.36, 0.67, 2.0, 0.75), (0.55, 0.42, 1.0, 3.0), (0.5, 0.5, 1.5, 1.2)] {
            let one = wood(Role::Main, g, &dowel, 0.0, inch(lm));
            let two = wood(Role::Side, other, &dowel, 90.0, inch(ls));
            let z = |main: &Member, side: &Member| {
                let limit = lateral(&dowel, main, side).unwrap();
                [0, 1, 2, 3, 4, 5].map(|i| in_pounds(&limit.modes[i].1))
            };
            let (a, b) = (z(&one, &two), z(&two, &one));
            for (i, j) in [(0, 1), (1, 0), (2, 2), (3, 4), (4, 3), (5, 5)] {
                assert!((a[i] / b[j] - 1.0).abs() < 1e-9, "{a:?} {b:?}");
            }
        }
    }
}

/// The limits of Table 12.3.1B, from memory: dowels to 1 in; large-dowel terms once the root is 1/4 in.
#[test]
fn limits_of_the_reduction_terms() {
    let of = |d: f64, root: f64| {
        let dowel = Dowel { diameter: inch(d), root_diameter: inch(root), ..lag(0.5) };
        reduction_terms(&dowel, 0.0).map(|rd| rd.map(|r| r.value.value))
    };
    assert!(of(1.0, 0.8).is_ok() && of(1.01, 0.8).is_err());
    assert_eq!(of(0.375, 0.25).unwrap(), [4.0, 3.6, 3.2]);
    assert_eq!(of(0.375, 0.2525).unwrap(), [4.0, 3.6, 3.2]);
    agrees(of(0.375, 0.249).unwrap()[0], "2.990");
    agrees(of(0.2, 0.17).unwrap()[2], "2.200");
    agrees(of(0.2, 0.171).unwrap()[2], "2.210");
}

/// Table 12.3.3, psi, rounded to 50: from memory, confirmed where Table 12K uses it.
#[test]
fn dowel_bearing_table() {
    let strength = |g: f64, dowel: &Dowel, degrees: f64| {
        in_psi(&dowel_bearing_strength(Role::Main, ratio(g), dowel, degrees, BearingValue::Tabulated).unwrap())
    };
    for (g, small, along, quarter, half) in [
        (0.73, "9300", "8200", "7750", "5450"),
        (0.55, "5550", "6150", "5150", "3650"),
        (0.50, "4650", "5600", "4450", "3150"),
        (0.42, "3350", "4700", "3450", "2450"),
        (0.36, "2550", "4050", "2750", "1950"),
    ] {
        agrees(strength(g, &screw(10), 0.0), small);
        agrees(strength(g, &screw(10), 90.0), small);
        agrees(strength(g, &lag(0.25), 0.0), along);
        agrees(strength(g, &lag(0.25), 90.0), quarter);
        agrees(strength(g, &lag(0.5), 90.0), half);
    }
    // Between: Hankinson, 5600 and 3150 psi at 45 degrees, 2 P Q / (P + Q).
    agrees(strength(0.50, &lag(0.5), 45.0), &format!("{:.1}", 2.0 * 5600.0 * 3150.0 / 8750.0));
    // A line has no direction.
    agrees(strength(0.50, &lag(0.5), 225.0), &format!("{:.1}", 2.0 * 5600.0 * 3150.0 / 8750.0));
    // Unrounded: 16600 · 0.5^1.84.
    let exact = dowel_bearing_strength(Role::Side, ratio(0.5), &screw(10), 0.0, BearingValue::Formula).unwrap();
    agrees(in_psi(&exact), &format!("{:.2}", 16600.0 * 0.5f64.powf(1.84)));
}

/// A reference page on screws: No.10, G 0.45, 109 lb/in. The formula gives 109.65; the page truncates,
/// so it agrees to 1 lb/in only.
#[test]
fn wood_screw_withdrawal_of_a_reference_page() {
    let w = withdrawal(&screw(10), ratio(0.45)).unwrap().value / pound_force_per_inch(1.0);
    agrees(w.value.floor(), "109");
    agrees(w.value, "109.65");
}

fn dry() -> Conditions {
    Conditions::default()
}

/// Withdrawal of a 3/8 x 4 lag, G 0.50: 305 lb/in (Table 12.2A) over 2.5 in of thread less 7/32 in of
/// tip; three quarters of it in end grain (NDS 12.5.2, read in a scan).
#[test]
fn lag_screw_in_end_grain() {
    let dowel = lag(0.375);
    let thread = inch(2.5 - 7.0 / 32.0);
    let w = withdrawal(&dowel, ratio(0.50)).unwrap();
    let pull =
        |grain| in_pounds(&adjusted_withdrawal(&dowel, w.clone(), thread, &dry(), Duration::TenYears, grain).unwrap());
    agrees(pull(Grain::Side) / 2.28125, "305");
    agrees(pull(Grain::End) / pull(Grain::Side), "0.75");
    let screw = screw(10);
    let w = withdrawal(&screw, ratio(0.5)).unwrap();
    let error = adjusted_withdrawal(&screw, w, inch(1.0), &dry(), Duration::TenYears, Grain::End).unwrap_err();
    assert!(matches!(error, RuleError::NotCovered { .. }), "{error}");
}

/// Lateral load into end grain: two thirds (a handbook of civil engineering formulas), printed 0.67.
/// Duration at most 1.6, wet service 0.7, and temperature as in Table 11.3.4 (the last two from memory).
#[test]
fn factors_on_a_lateral_load() {
    agrees(end_grain_lateral(Grain::End).value.value, "0.67");
    agrees(end_grain_lateral(Grain::Side).value.value, "1");
    let one = || constant(ratio(1.0));
    let z = |conditions: Conditions, duration, group: f64, geometry: f64| {
        let z = given("Z", pound_force(100.0));
        let (group, geometry) = (given("Cg", ratio(group)), given("CΔ", ratio(geometry)));
        in_pounds(&adjusted_lateral(z, &conditions, duration, group, geometry, Grain::Side))
    };
    agrees(z(dry(), Duration::Impact, 1.0, 1.0), "160.0");
    agrees(z(dry(), Duration::Permanent, 1.0, 1.0), "90.0");
    agrees(z(Conditions { wet: true, ..dry() }, Duration::TenYears, 1.0, 1.0), "70.0");
    let warm = |temperature, wet| Conditions { temperature, wet, ..dry() };
    agrees(z(warm(Temperature::UpTo125F, false), Duration::TenYears, 1.0, 1.0), "80.0");
    agrees(z(warm(Temperature::UpTo150F, true), Duration::TenYears, 1.0, 1.0), "35.0");
    agrees(z(dry(), Duration::TenYears, 0.9, 0.5), "45.0");
    let end = adjusted_lateral(given("Z", pound_force(100.0)), &dry(), Duration::TenYears, one(), one(), Grain::End);
    agrees(in_pounds(&end), "67.0");
}

/// AWC answer to a question on penetration: lag 4 D without its tip, wood screw 6 D with it.
#[test]
fn penetration_is_four_or_six_diameters() {
    let lag = lag(0.25);
    let tip = inch(5.0 / 32.0);
    let p = penetration(&lag, inch(1.0 + 5.0 / 32.0), tip).unwrap();
    agrees(in_inches(p.value), "1.000");
    assert!(penetration(&lag, inch(1.15), tip).is_err());
    let screw = screw(8);
    assert!(penetration(&screw, inch(6.0 * 0.164), inch(0.2)).is_ok());
    let error = penetration(&screw, inch(0.9), inch(0.2)).unwrap_err();
    let text = error.to_string();
    assert!(matches!(error, RuleError::NotCovered { .. }) && text.contains("0.984 in"), "{text}");

    // From 10 D the whole of a wood screw bears; below, the tip is left out (from memory).
    let whole = penetration(&screw, inch(1.64), inch(0.2)).unwrap();
    agrees(in_inches(bearing_length_in_main(&screw, whole, inch(0.2)).unwrap().value), "1.640");
    let short = penetration(&screw, inch(1.5), inch(0.2)).unwrap();
    agrees(in_inches(bearing_length_in_main(&screw, short, inch(0.2)).unwrap().value), "1.300");
    let of_lag = penetration(&lag, inch(1.5), tip).unwrap();
    agrees(in_inches(bearing_length_in_main(&lag, of_lag, tip).unwrap().value), "1.344");
}

/// NDS Tables 11.3.6A and 11.3.6C (1 in dowels at 4 in, 1 400 000 psi; wood side member), As/Am 0.5 and
/// 1.0, As 5 and 12 in²: from memory. The steel constant is checked against the definition.
#[test]
fn group_action_table() {
    let dowel = Dowel {
        kind: DowelKind::LagScrew,
        diameter: inch(1.0),
        root_diameter: inch(0.78),
        bending_yield: psi(45000.0),
    };
    for (side, over_main, row) in [
        (5.0, 0.5, ["0.98", "0.92", "0.84", "0.75", "0.68", "0.61", "0.55"]),
        (12.0, 0.5, ["0.99", "0.96", "0.92", "0.87", "0.81", "0.76", "0.70"]),
        (5.0, 1.0, ["1.00", "0.97", "0.91", "0.85", "0.78", "0.71", "0.64"]),
        (12.0, 1.0, ["1.00", "0.99", "0.96", "0.93", "0.88", "0.84", "0.79"]),
    ] {
        let modulus = psi(1.4e6);
        let area = inch(1.0) * inch(side);
        for (n, want) in (2..).zip(row) {
            let row = Row {
                count: n,
                spacing: inch(4.0),
                main_stiffness: modulus * area / over_main,
                side_stiffness: modulus * area,
                metal: false,
            };
            agrees(group_action(&dowel, &row).unwrap().value.value, want);
        }
    }
    // γ is 1.5 times as large against metal: the same as 1.5 times the spacing.
    let row = Row {
        count: 5,
        spacing: inch(4.0),
        main_stiffness: pound_force(7e6),
        side_stiffness: pound_force(9e6),
        metal: true,
    };
    let wider = Row { spacing: inch(6.0), metal: false, ..row };
    let (a, b) = (group_action(&dowel, &row).unwrap(), group_action(&dowel, &wider).unwrap());
    assert!((a.value.value - b.value.value).abs() < 1e-12);
    // γ goes with D^1.5: half the diameter is the same as 0.5^1.5 of the spacing.
    let thin = Dowel { diameter: inch(0.5), ..dowel };
    let closer = Row { spacing: inch(4.0 * 0.5f64.powf(1.5)), ..row };
    let (a, b) = (group_action(&thin, &row).unwrap(), group_action(&dowel, &closer).unwrap());
    assert!((a.value.value - b.value.value).abs() < 1e-12);
    assert_eq!(group_action(&screw(10), &row).unwrap().value.value, 1.0);
    assert_eq!(group_action(&dowel, &Row { count: 1, ..row }).unwrap().value.value, 1.0);
}

/// NDS equation 12.4-1 from memory: at 0 degrees the lateral value, at 90 the withdrawal value, and at
/// 45 the harmonic mean.
#[test]
fn pulled_aslant() {
    let at = |degrees| {
        in_pounds(&lateral_and_withdrawal(given("W'p", pound_force(300.0)), given("Z'", pound_force(100.0)), degrees))
    };
    agrees(at(0.0), "100.0");
    agrees(at(90.0), "300.0");
    agrees(at(45.0), "150.0");
}

/// The withdrawal value takes the same service factors as a lateral one (NDS Table 11.3.1).
#[test]
fn factors_on_a_withdrawal() {
    let dowel = lag(0.25);
    let pull = |conditions: Conditions, duration| {
        let w = given("W", pound_force_per_inch(100.0));
        let pull = adjusted_withdrawal(&dowel, w, inch(2.0), &conditions, duration, Grain::Side).unwrap();
        pull.value.value / NEWTON_PER_POUND_FORCE
    };
    agrees(pull(dry(), Duration::TenYears), "200.0");
    agrees(pull(dry(), Duration::Impact), "320.0");
    agrees(pull(Conditions { wet: true, ..dry() }, Duration::TenYears), "140.0");
    agrees(pull(Conditions { temperature: Temperature::UpTo125F, ..dry() }, Duration::TenYears), "160.0");
}
