//! A rail on a wall: screws that bridge a gap, into studs or a plate, and the shear they bring into the rail.
//!
//! The yield loads with a gap are held against the yield limit equations of NDS 12.3.1 where there is no gap,
//! and against the balance of forces and moments along the dowel, solved by halving, where there is one.

mod support;

use slatwright::check::{Assessment, Limit};
use slatwright::derivation::given;
use slatwright::load::CaseKind;
use slatwright::quantity::unit::{inch, newton_metre, newton_per_metre, psi};
use slatwright::quantity::{Length, number};
use slatwright::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member, Role, YieldMode, dowel_bearing_strength, lateral, lateral_across_gap,
};
use slatwright::rules::gap::{Bridged, yield_loads};
use support::{assessed, exchanged, found, same};

const LOFT: &str = include_str!("../demo/wall_loft.toml");

fn changed(from: &str, to: &str) -> String {
    exchanged(LOFT, from, to)
}

/// Lags and screws of several sizes in woods of several weights: no gap is the printed equations.
#[test]
fn without_a_gap_the_yield_limit_equations() {
    for (diameter, root, fyb) in [(0.25, 0.173, 70e3), (0.375, 0.265, 45e3), (0.5, 0.371, 45e3), (0.19, 0.152, 80e3)] {
        for (g_main, g_side, lm, ls) in [(0.42, 0.5, 1.1, 1.5), (0.5, 0.5, 3.0, 1.5), (0.67, 0.35, 2.2, 0.75)] {
            let kind = if diameter < 0.2 { DowelKind::WoodScrew } else { DowelKind::LagScrew };
            let d = Dowel { kind, diameter: inch(diameter), root_diameter: inch(root), bending_yield: psi(fyb) };
            let piece = |role, g, l: f64, degrees| Member {
                bearing_strength: dowel_bearing_strength(role, number(g), &d, degrees, BearingValue::Formula)
                    .unwrap_or_else(|e| panic!("{e}")),
                bearing_length: given("l", inch(l)),
                degrees,
            };
            let (main, side) = (piece(Role::Main, g_main, lm, 0.0), piece(Role::Side, g_side, ls, 90.0));
            let printed = lateral(&d, &main, &side).unwrap_or_else(|e| panic!("{e}")).lateral.value.value;
            let none = lateral_across_gap(&d, &main, &side, Length::default()).unwrap_or_else(|e| panic!("{e}"));
            assert!((none.value.value / printed - 1.0).abs() < 1e-9, "{diameter} {lm}: {} {printed}", none.value.value);
            // A gap never helps.
            let mut before = printed;
            for g in [0.125, 0.5, 0.75, 1.5] {
                let z = lateral_across_gap(&d, &main, &side, inch(g)).unwrap_or_else(|e| panic!("{e}")).value.value;
                assert!(z <= before * (1.0 + 1e-12), "{g}: {z} {before}");
                before = z;
            }
        }
    }
}

/// The root of a falling function, by halving.
fn root(f: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 1e7);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if f(middle) > 0.0 { low = middle } else { high = middle }
    }
    low
}

/// What moment a piece can set against a force `p` at its face. A dowel that yields in it is in full bearing as
/// far as `p/q` from the face and at its plastic moment there, so it resists `M − p²/2q` at the face. One that
/// turns without bending bears one way over `(L + p/q)/2` and the other way over the rest:
/// the moment about the face is `q (L²/4 − p L/2q − p²/4q²)`.
fn resists(q: f64, l: f64, m: f64, p: f64, bends: bool) -> f64 {
    if bends { m - p * p / (2.0 * q) } else { q * (l * l / 4.0 - p * l / (2.0 * q) - (p / q).powi(2) / 4.0) }
}

/// At each mode's load the moments of both pieces balance the force times the gap.
#[test]
fn across_a_gap_the_dowel_is_in_balance() {
    let gaps = [0.0, 0.01, 0.019, 0.05];
    for (qm, qs, lm, ls, mm, ms) in [(90e3, 140e3, 0.06, 0.038, 9.0, 9.0), (200e3, 70e3, 0.03, 0.07, 25.0, 14.0)] {
        for g in gaps {
            let piece = |q, l: f64, m| Bridged {
                bearing: given("q", newton_per_metre(q)),
                length: given("L", inch(l / 0.0254)),
                moment: given("M", newton_metre(m)),
            };
            let gap = given("g", inch(g / 0.0254));
            let loads = yield_loads(&piece(qm, lm, mm), &piece(qs, ls, ms), gap).unwrap_or_else(|e| panic!("{e}"));
            for (mode, load) in loads {
                let balance =
                    |m: bool, s: bool| root(|p| resists(qm, lm, mm, p, m) + resists(qs, ls, ms, p, s) - p * g);
                let by_hand = match mode {
                    YieldMode::Im => qm * lm,
                    YieldMode::Is => qs * ls,
                    YieldMode::II => balance(false, false),
                    YieldMode::IIIm => balance(false, true),
                    YieldMode::IIIs => balance(true, false),
                    YieldMode::IV => balance(true, true),
                };
                same(&format!("{mode:?} over {g}"), load.value.value, by_hand);
            }
        }
    }
}

/// The left rail of the loft hangs on lags of 3/8 by 6 in through 1-1/2 in of rail and 3/4 in of spacer into
/// studs: what one holds across is the least yield load over its reduction term, what it holds along is the
/// withdrawal of its thread, and the pull is that of a load so much farther out.
#[test]
fn spacers_lengthen_the_lever_arm() {
    let a = assessed(LOFT);
    let flush = assessed(&changed(", gap = \"3/4 in\"", ""));
    let (far, near) = (found(&a, "left stud 2", Limit::Screw), found(&flush, "left stud 2", Limit::Screw));
    // 1-1/2 in of rail, 1-1/2 in of cleat less a third of the bearing of 1-1/2 in: 2-1/2 in; with the gap 3-1/4.
    // The rail turns about its lower edge, 2/3 of half of 9-1/4 in below the two lags.
    let z = 2.0 / 3.0 * 9.25 / 2.0;
    let pull = |e: f64| (1.0 + (e / z).powi(2)).sqrt();
    same("demand", far.demand.si / near.demand.si, pull(3.25) / pull(2.5));
    assert!(far.capacity.si < near.capacity.si, "{} {}", far.capacity.si, near.capacity.si);
    // Fem along the stud, spruce-pine-fir stud grade G 0.42, at 11 200 G; Fes across the rail, douglas
    // fir-larch G 0.50, 6100 G^1.45/sqrt(D); D the root, 0.265 in; Fyb 45 000 psi. Length in the stud 6 - 2.25
    // less the tip of 7/32 in.
    let (dr, fyb, g) = (0.265f64, 45_000.0, 0.75);
    let (qm, qs) = (11_200.0 * 0.42 * dr, 6100.0 * 0.5f64.powf(1.45) / 0.375f64.sqrt() * dr);
    let (lm, ls, m) = (6.0 - 2.25 - 0.21875, 1.5, fyb * dr.powi(3) / 6.0);
    let balance = |bm: bool, bs: bool| root(|p| resists(qm, lm, m, p, bm) + resists(qs, ls, m, p, bs) - p * g);
    let k = 1.25;
    let modes = [
        qm * lm / (4.0 * k),
        qs * ls / (4.0 * k),
        balance(false, false) / (3.6 * k),
        balance(false, true) / (3.2 * k),
        balance(true, false) / (3.2 * k),
        balance(true, true) / (3.2 * k),
    ];
    let across = modes.into_iter().fold(f64::INFINITY, f64::min);
    let thread: f64 = 3.5 - 0.21875;
    let along = 1800.0 * 0.42f64.powf(1.5) * 0.375f64.powf(0.75) * thread;
    let cd = far.capacity.si / near.capacity.si;
    assert!(cd > 0.0);
    let angle = (3.25 / z).atan();
    let one = across * along / (along * angle.cos().powi(2) + across * angle.sin().powi(2));
    // The same duration stands on both.
    let pound = 4.448_221_615_260_5;
    let factor = far.capacity.si / pound / one;
    assert!([0.9, 1.0, 1.15, 1.25, 1.6].iter().any(|cd| (factor / cd - 1.0).abs() < 1e-6), "{factor}");
}

/// A plate's grain runs along the rail: the lags bear on it across its grain, and hold less.
#[test]
fn a_plate_bears_less_than_a_stud() {
    let stud = assessed(LOFT);
    let plate = assessed(&changed(", gap = \"3/4 in\"", ", gap = \"3/4 in\", into = \"plate\""));
    let of = |a: &Assessment| found(a, "left stud 2", Limit::Screw).capacity.si;
    assert!(of(&plate) < of(&stud), "{} {}", of(&plate), of(&stud));
}

/// The wood above a low lag is sheared by what the stud carries: 2/3 Fv' b de (de/d)² near the rail's end, with
/// `de` from the lowest lag up; the square goes away five depths in.
#[test]
fn shear_at_the_lags() {
    let a = assessed(&changed(", gap = \"3/4 in\"", ", gap = \"3/4 in\", up = \"2 in\""));
    let check = found(&a, "left stud 1", Limit::ShearAtScrews);
    let pound = 4.448_221_615_260_5;
    let full = 2.0 / 3.0 * 180.0 * 1.5 * 7.25;
    let factor = check.capacity.si / pound / (full * (7.25f64 / 9.25).powi(2));
    assert!([0.9, 1.0, 1.15, 1.25, 1.6].iter().any(|cd| (factor / cd - 1.0).abs() < 1e-6), "{factor}");
    // What the stud carries, from the pull and the load of one of its two lags, is no less.
    let (e, z) = (3.25, 2.0 / 3.0 * 9.25 / 2.0);
    let carried = found(&a, "left stud 1", Limit::Screw).demand.si * 2.0 / (1.0f64 + (e / z) * (e / z)).sqrt();
    assert!(check.demand.si > 0.0 && check.demand.si <= carried * (1.0 + 1e-9), "{} {carried}", check.demand.si);
}

/// The same by Eurocode 5, whose 8.2.2 has no gap: the balance of the dowel alone, without the standard's factors of
/// 1.05 and 1.15 and without the rope effect. `fh,0,k` and `fh,90,k` of 8.31 to 8.33 with `def = 1.1 d1`, `My,Rk` of
/// 8.30 with fu 45 ksi; withdrawal of 8.38 to 8.40 or the head, a nail's 70e-6 ρk² on two diameters, whichever is less;
/// 8.28 for both. C24 for the rail (350 kg/m³), C16 for studs of which nothing is said (310 kg/m³). All from memory.
#[test]
fn across_a_gap_by_eurocode_5() {
    let a = assessed(&LOFT.replace("\"asd\"", "\"ec5\"").replace("douglas fir-larch no2", "C24"));
    let check = found(&a, "left stud 2", Limit::Screw);
    let (d, root, tip, length, g) = (9.525f64, 0.265 * 25.4, 0.21875 * 25.4, 152.4f64, 19.05);
    let (t1, t2, bears) = (38.1, 152.4 - 38.1 - 19.05, 1.1 * root);
    let along = |rho: f64| 0.082 * (1.0 - 0.01 * bears) * rho;
    let (q1, q2) = (along(350.0) / (1.35 + 0.015 * bears) * bears, along(310.0) * bears);
    let m = 0.3 * 45e3 * 4.448_221_615_260_5 / 25.4f64.powi(2) * bears.powf(2.6);
    let balance = |b2: bool, b1: bool| root_of(q2, t2, q1, t1, m, g, [b2, b1]);
    let modes =
        [q2 * t2, q1 * t1, balance(false, false), balance(false, true), balance(true, false), balance(true, true)];
    let across = modes.into_iter().fold(f64::INFINITY, f64::min);
    let thread = length / 2.0 + 12.7 - tip;
    assert!(thread < t2 - tip);
    let withdrawal = 0.52 * d.powf(-0.5) * thread.powf(-0.1) * 310f64.powf(0.8) * d * thread;
    let pulled = withdrawal.min(70e-6 * 350.0 * 350.0 * (2.0 * d).powi(2));
    let kmod = match check.case {
        CaseKind::Dropping => 1.1,
        CaseKind::RowOnTheEdge | CaseKind::Kneeling | CaseKind::ClimbingIn => 0.9,
        other => panic!("{other:?} is not worked here"),
    };
    let angle = (3.25f64 / (2.0 / 3.0 * 9.25 / 2.0)).atan();
    let resists = check.capacity.si / (kmod / 1.3);
    same("(8.28)", (resists * angle.cos() / across).hypot(resists * angle.sin() / pulled), 1.0);
}

/// The force at which both pieces balance the force times the gap.
fn root_of(q2: f64, t2: f64, q1: f64, t1: f64, m: f64, g: f64, [b2, b1]: [bool; 2]) -> f64 {
    root(|p| resists(q2, t2, m, p, b2) + resists(q1, t1, m, p, b1) - p * g)
}
