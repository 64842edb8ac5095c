//! A guard and a ladder worked by hand, in inches and pounds, without the rules or the statics of the
//! program, and compared with its report; steel pipe against published tables.
//!
//! Reference values and factors: NDS 2018 and its Supplement, from memory; loads as said beside them.

mod support;

use slatwright::check::{Assessment, Limit};
use slatwright::derivation::given;
use slatwright::load::{CaseKind, Hung, ladder_weight};
use slatwright::quantity::unit::{inch, psi};
use slatwright::rules::allowable_stress::steel as us_steel;
use slatwright::rules::limit_state::steel as eu_steel;
use slatwright::rules::round::Tube;
use slatwright::tables::Tables;
use support::{INCH, POUND, PSI, assessed, exchanged, found, platform, same};

const BUNK: &str = include_str!("data/guard/bunk.toml");

fn changed(from: &str, to: &str) -> String {
    exchanged(BUNK, from, to)
}

/// Douglas fir-larch No. 2, 2 to 4 in thick, NDS Supplement Table 4A: Fb 900, Fv 180, Fc⊥ 625, Emin 580 000,
/// E 1 600 000 psi, G 0.50.
const FB: f64 = 900.0;
const FV: f64 = 180.0;
const EMIN: f64 = 580_000.0;

/// Critical stress and beam stability factor, load anywhere: le is 2.06 lu below lu/d = 7, 1.84 lu above 14.3 and
/// 1.63 lu + 3 d between.
fn beam_stability(fb_star: f64, lu: f64, b: f64, d: f64) -> (f64, f64) {
    let le = match lu / d {
        short if short < 7.0 => 2.06 * lu,
        long if long > 14.3 => 1.84 * lu,
        _ => 1.63 * lu + 3.0 * d,
    };
    let critical = 1.2 * EMIN / (le * d / (b * b));
    let a = critical / fb_star;
    let half = (1.0 + a) / 1.9;
    (critical, half - (half * half - a / 0.95).sqrt())
}

/// The top rail of the left guard: 80 in, posts of 3-1/2 in flush with the ends and one between, 38-1/4 in
/// apart. 200 lb in the middle of a 2x4 on edge, first downwards, then sideways, then both as NDS 3.9.2
/// adds them. CD 1.6, CF 1.5, Cfu 1.1.
#[test]
fn top_rail_by_hand() {
    let a = assessed(BUNK);
    let span = (80.0 - 3.5) / 2.0;
    let moment = 200.0 * span / 4.0;
    let (down, sideways) = (moment / (1.5 * 3.5 * 3.5 / 6.0), moment / (3.5 * 1.5 * 1.5 / 6.0));
    let fb_star = FB * 1.6 * 1.5;
    let (critical, cl) = beam_stability(fb_star, span, 1.5, 3.5);
    let first = down / (fb_star * cl);
    let second = sideways / (fb_star * 1.1 * (1.0 - (down / critical).powi(2)));
    let bending = found(&a, "left guard rail", Limit::Bending);
    assert_eq!(bending.case, CaseKind::GuardPush);
    same("both ways", bending.ratio, first.hypot(second));
    // The whole force beside a post: 1.5 V / A against 180 psi times 1.6.
    let shear = found(&a, "left guard rail", Limit::Shear);
    same("shear", shear.ratio, 1.5 * 200.0 / 5.25 / (FV * 1.6));
}

/// The top rail of the warden's bunk in C24, 45 by 95 mm, by EN 1995-1-1: 0.5 kN/m (EN 1991-1-1 Table 6.12, category A,
/// from memory) times 1.5, in the worst direction between sideways and down. Posts of 210 mm flush with the ends of
/// 2000 mm and two between: 1790/3 mm. `kmod` 0.9, `γM` 1.3, `kh = (150/h)^0.2`, `km` 0.7; (6.11) and (6.12) tried at every
/// thousandth of a right angle.
#[test]
fn top_rail_by_eurocode_5() {
    let text =
        exchanged(include_str!("../demo/warden_bunk_ec5.toml"), "furniture_test = true", "furniture_test = false");
    let bending = found(&assessed(&text), "left guard rail", Limit::Bending).clone();
    assert_eq!(bending.case, CaseKind::GuardLine);
    let span = 1790.0 / 3.0;
    let moment = 1.5 * 0.5 * span * span / 8.0;
    let used = |b: f64, h: f64| {
        let design = 0.9 * 24.0 * (150.0 / h).powf(0.2) / 1.3;
        moment / (b * h * h / 6.0) / design
    };
    let (edge, flat) = (used(45.0, 95.0), used(95.0, 45.0));
    let worst = (0..=1000).map(|k| {
        let (sin, cos) = (f64::from(k) / 1000.0 * std::f64::consts::FRAC_PI_2).sin_cos();
        (edge * cos + 0.7 * flat * sin).max(0.7 * edge * cos + flat * sin)
    });
    same("worst direction", bending.ratio, worst.fold(0.0, f64::max));
}

/// Without the point force the line load governs: 50 lb/ft on the same span is `w L²/8`.
#[test]
fn line_load_by_hand() {
    let a = assessed(&changed("[guard]", "[cases]\nguard = { factor = 1.0 }\n\n[guard]"));
    let b = assessed(&changed("[guard]", "[cases]\nguard = { factor = 2.0 }\n\n[guard]"));
    let shear = |a: &Assessment| found(a, "left guard rail", Limit::Shear).ratio;
    same("a factor", shear(&b), 2.0 * shear(&a));
    // At 96 in from post to post the line load bends as much as the force: 50/12 · 96/8 = 200/4.
    let spans = |length: &str| {
        let text = changed("length = \"80 in\"", length).replace("pitch = \"40 in\"", "pitch = \"110 in\"");
        found(&assessed(&text), "left guard rail", Limit::Bending).clone()
    };
    let (short, long) = (spans("length = \"99 in\""), spans("length = \"103.5 in\""));
    assert_eq!((short.case, long.case), (CaseKind::GuardPush, CaseKind::GuardLine));
    // On 100 in: 50/12 lb/in · 100²/8.
    let sideways = 50.0 / 12.0 * 100.0 * 100.0 / 8.0 / (3.5 * 1.5 * 1.5 / 6.0);
    let down = sideways * 1.5 / 3.5;
    let (critical, cl) = beam_stability(FB * 2.4, 100.0, 1.5, 3.5);
    let second = sideways / (FB * 2.4 * 1.1 * (1.0 - (down / critical).powi(2)));
    same("line", long.ratio, (down / (FB * 2.4 * cl)).hypot(second));
}

/// A post of the head guard, 4x4 with two 3/8 in lags 4 in apart, centred on a 2x8 (1-5/8 in up). The slats
/// are 6 in above the rail's foot (1 in, a cleat of 3-1/2 in, a slat of 1-1/2 in), the top 14 in above them:
/// 14-3/8 in above the upper lag.
#[test]
fn post_by_hand() {
    let a = assessed(BUNK);
    let height = 6.0 + 14.0 - (1.625 + 4.0);
    let moment = 200.0 * height;
    let net = 3.5 - 0.375;
    // Sideways the depth is 3.5 and the breadth what the hole leaves; along the guard two posts share.
    let fb_star = FB * 1.6 * 1.5;
    let (critical, cl) = beam_stability(fb_star, height, net, 3.5);
    let across = moment / (net * 3.5 * 3.5 / 6.0);
    let along = moment / 2.0 / (3.5 * net * net / 6.0);
    let second = along / (fb_star * (1.0 - (across / critical).powi(2)));
    let bending = found(&a, "head guard post", Limit::Bending);
    same("post", bending.ratio, (across / (fb_star * cl)).hypot(second));
    same("shear", found(&a, "head guard post", Limit::Shear).ratio, 1.5 * 200.0 / (net * 3.5) / (FV * 1.6));
}

/// The same post's lags, through the 1-1/2 in rail into the post. Withdrawal `1800 G^1.5 D^0.75` on the
/// thread of a 5 in lag, 3 in less the tip of 7/32 in; sideways 129.8 lb, mode IV of the yield equations with
/// Dr 0.265 in, Fyb 45 000 psi, Fe⊥ 6100 G^1.45/sqrt(D), Rd 3.2 · 1.25. Both times 1.6.
#[test]
fn post_screws_by_hand() {
    let height: f64 = 6.0 + 14.0 - (1.625 + 4.0);
    let fe = 6100.0 * 0.5f64.powf(1.45) / 0.375f64.sqrt();
    let sideways = 0.265 * 0.265 / 4.0 * (2.0 * fe * 45_000.0 / (3.0 * 2.0)).sqrt() * 1.6;
    let pull = 1800.0 * 0.5f64.powf(1.5) * 0.375f64.powf(0.75) * (3.0 - 0.21875) * 1.6;
    // Along the guard: two posts share; the couple on two lags 4 in apart about their middle, and the force.
    let a = assessed(BUNK);
    let along = 100.0 * (height + 2.0) / 4.0 + 100.0 / 2.0;
    let screws = found(&a, "head guard post screws", Limit::Screw);
    same("along", screws.ratio, along / sideways);
    same("capacity", screws.capacity.si, sideways * POUND);
    // Seven posts on the side share so much that the pull of the upper lag governs: it turns about the
    // rail's foot with an arm of two thirds of 5-5/8 in.
    let many = changed("pitch = \"40 in\"", "pitch = \"4 in\"");
    let arm = 2.0 / 3.0 * 5.625;
    let upper = 200.0 * (height + arm) / arm;
    let pulled = assessed(&many);
    let screws = found(&pulled, "left guard post screws", Limit::Screw);
    same("pulled", screws.ratio, upper / pull);
    assert!(screws.remark.as_deref().is_some_and(|r| r.starts_with("upper")), "{screws:?}");
}

/// The rail's two 1/4 in lags into a post of 200 lb, pulled or pressed, whichever is worse.
#[test]
fn rail_screws_by_hand() {
    let a = assessed(BUNK);
    let pull = 2.0 * 1800.0 * 0.5f64.powf(1.5) * 0.25f64.powf(0.75) * (1.5 - 0.15625) * 1.6;
    let screws = found(&a, "left guard rail", Limit::Screw);
    let (capacity, demand) = (screws.capacity.si / POUND, screws.demand.si / POUND);
    same("force", demand, 200.0);
    assert!(capacity < pull, "sideways a lag of 1/4 in holds less than pulled: {capacity} {pull}");
}

/// A lower rail takes its share of 50 lb on a square foot: its own width and gap over a foot. A bar does too.
#[test]
fn infill_by_hand() {
    let a = assessed(BUNK);
    let push = 50.0 * (3.5 + 2.75) / 12.0;
    let moment = push * ((80.0 - 3.5) / 2.0 / 4.0 - 12.0 / 8.0);
    let stress = moment / (3.5 * 1.5 * 1.5 / 6.0);
    let infill = found(&a, "left guard infill", Limit::Bending);
    same("stress", infill.demand.si / PSI, stress);
    same("ratio", infill.ratio, stress / (FB * 1.6 * 1.5 * 1.1));
    let bars = "bars = { wood = \"douglas fir-larch no2\", size = \"2x2\", gap = \"3 in\" }";
    let lower = BUNK.lines().find(|l| l.starts_with("lower")).expect("the lower rail");
    let a = assessed(&changed(lower, bars));
    let moment = 50.0 * 4.5 / 12.0 * (14.0 / 4.0 - 12.0 / 8.0);
    same("bar", found(&a, "left guard infill", Limit::Bending).demand.si / PSI, moment / (1.5f64.powi(3) / 6.0));
}

/// A tread of 2x4, clear 14 in and let in 1/2 in: 300 lb in the middle of 14-1/2 in, seven days in all.
#[test]
fn tread_by_hand() {
    let a = assessed(BUNK);
    let stress = 300.0 * 14.5 / 4.0 / (3.5 * 1.5 * 1.5 / 6.0);
    let bending = found(&a, "rung", Limit::Bending);
    same("stress", bending.demand.si / PSI, stress);
    same("bending", bending.ratio, stress / (FB * 1.25 * 1.5 * 1.1));
    same("shear", found(&a, "rung", Limit::Shear).ratio, 1.5 * 300.0 / 5.25 / (FV * 1.25));
    let sag = 300.0 * 14.5f64.powi(3) / (48.0 * 1.6e6 * 3.5 * 1.5f64.powi(3) / 12.0);
    same("sag", found(&a, "rung", Limit::Deflection).ratio, sag / (14.5 / 150.0));
    same("bearing", found(&a, "rung end", Limit::Bearing).ratio, 300.0 / (3.5 * 0.5) / 625.0);
}

/// A heavier sleeper steps harder than the code's 300 lb: 1.2 times 260 lb.
#[test]
fn heavier_steps() {
    let a = assessed(&changed("weight = \"200 lb\"", "weight = \"260 lb\""));
    let stress = 312.0 * 14.5 / 4.0 / (3.5 * 1.5 * 1.5 / 6.0);
    // Weight is mass times standard gravity, by which the pound-force is defined.
    same("stress", found(&a, "rung", Limit::Bending).demand.si / PSI, stress);
}

/// A round rung: `32 M / (π d³)` and `4 V / 3 A`; a climber who leans back pulls the top away.
#[test]
fn round_rung_by_hand() {
    let round = "rungs = { wood = { species = \"white ash\", grade = \"ungraded\", knot = \"none\", slope_of_grain = \"1:20\" }, diameter = \"1-1/2 in\" }";
    let tread = BUNK.lines().find(|l| l.starts_with("rungs")).expect("the rungs");
    let a = assessed(&changed(tread, round));
    let pi = std::f64::consts::PI;
    let bending = found(&a, "rung", Limit::Bending);
    same("bending", bending.demand.si / PSI, 32.0 * (300.0 * 14.5 / 4.0) / (pi * 1.5f64.powi(3)));
    same("shear", found(&a, "rung", Limit::Shear).demand.si / PSI, 4.0 * 300.0 / (3.0 * pi * 1.5 * 1.5 / 4.0));
    let top = found(&a, "ladder top", Limit::Screw);
    same("pull", top.demand.si / POUND, 300.0 * (300.0 / 25.4) / 60.0);
}

/// Nominal sections of schedule 40 pipe as a textbook's appendix prints them (Machine Elements in Mechanical
/// Design, 4th edition, Table A16-6, read): inside diameter, area, second moment.
#[test]
fn pipes_are_as_printed() {
    for (name, inside, area, second) in [
        ("1/2 in schedule 40", 0.622, "0.250", "0.01709"),
        ("3/4 in schedule 40", 0.824, "0.333", "0.03704"),
        ("1 in schedule 40", 1.049, "0.494", "0.08734"),
        ("1-1/4 in schedule 40", 1.380, "0.669", "0.1947"),
        ("1-1/2 in schedule 40", 1.610, "0.799", "0.3099"),
        ("2 in schedule 40", 2.067, "1.075", "0.6658"),
    ] {
        let pipe = Tables::embedded().pipes().find(name).unwrap_or_else(|e| panic!("{e}"));
        assert!(((pipe.outside - pipe.wall * 2.0) / inch(inside)).value - 1.0 < 1e-9, "{name}");
        let tube = eu_steel::design_tube(pipe.outside, pipe.wall).unwrap_or_else(|e| panic!("{e}"));
        prints(name, tube.area().value.value / INCH.powi(2), area);
        // The book works from inside diameters rounded to a thousandth, which moves its fourth digit.
        let printed: f64 = second.parse().expect("a number");
        let ours = tube.second_moment().value.value / INCH.powi(4);
        assert!((ours / printed - 1.0).abs() < 5e-4, "{name}: {ours} {printed}");
    }
}

/// A value as printed, to one in its last place.
#[track_caller]
fn prints(what: &str, ours: f64, printed: &str) {
    let places = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let want: f64 = printed.parse().expect("a number");
    assert!((ours - want).abs() <= 0.51 * 10f64.powi(-(places as i32)), "{what}: {ours} is not {printed}");
}

/// Half-inch extra strong pipe, nominal wall 0.147 in, as the AISC manual's properties have it (a public copy,
/// read): A 0.303 in², I 0.019 in⁴, Z 0.069 in³, from a wall of 0.93 of the nominal one.
#[test]
fn pipe_counts_with_its_design_wall() {
    let tube = us_steel::design_tube(inch(0.84), inch(0.147)).unwrap_or_else(|e| panic!("{e}"));
    // The manual rounds the wall before it goes on.
    prints("t", tube.wall.value.value / INCH, "0.137");
    let rounded = Tube { outside: inch(0.84), wall: given("t", inch(0.137)) };
    prints("A", rounded.area().value.value / INCH.powi(2), "0.303");
    prints("I", rounded.second_moment().value.value / INCH.powi(4), "0.019");
    prints("Z", rounded.plastic_modulus().value.value / INCH.powi(3), "0.069");
    let fy = psi(35_000.0);
    let moment = us_steel::allowable_moment(&tube, fy).unwrap_or_else(|e| panic!("{e}")).value.value;
    let di: f64 = 0.84 - 2.0 * 0.147 * 0.93;
    let plastic = (0.84f64.powi(3) - di.powi(3)) / 6.0;
    same("moment", moment / (POUND * INCH), 35_000.0 * plastic / 1.67);
    let shear = us_steel::allowable_shear(&tube, fy).unwrap_or_else(|e| panic!("{e}")).value.value;
    let area = std::f64::consts::PI * (0.84f64.powi(2) - di * di) / 4.0;
    same("shear", shear / POUND, 0.6 * 35_000.0 * area / 2.0 / 1.67);
}

/// EN 1993-1-1 on the nominal wall: `Wpl fy / 1.0` and `2 A/π · fy/√3`, for 1 in pipe of 35 000 psi.
#[test]
fn pipe_by_en_1993() {
    let tube = eu_steel::design_tube(inch(1.315), inch(0.133)).unwrap_or_else(|e| panic!("{e}"));
    let (d, fy) = (1.315 * INCH, 35_000.0 * PSI);
    let di = 1.049 * INCH;
    let moment = eu_steel::bending_resistance(&tube, psi(35_000.0)).unwrap_or_else(|e| panic!("{e}")).value.value;
    same("Mc,Rd", moment, fy * (d.powi(3) - di.powi(3)) / 6.0);
    let shear = eu_steel::shear_resistance(&tube, psi(35_000.0)).unwrap_or_else(|e| panic!("{e}")).value.value;
    same("Vpl,Rd", shear, (d * d - di * di) / 2.0 * fy / 3f64.sqrt());
    let thin = eu_steel::design_tube(inch(4.0), inch(0.05)).unwrap_or_else(|e| panic!("{e}"));
    assert!(eu_steel::bending_resistance(&thin, psi(35_000.0)).is_err());
}

/// A pipe as a rung: the moment and the sag of its design wall.
#[test]
fn pipe_rung_by_hand() {
    let tread = BUNK.lines().find(|l| l.starts_with("rungs")).expect("the rungs");
    let a = assessed(&changed(tread, "rungs = { pipe = \"3/4 in schedule 40\" }"));
    let di: f64 = 1.05 - 2.0 * 0.93 * 0.113;
    let plastic = (1.05f64.powi(3) - di.powi(3)) / 6.0;
    same("bending", found(&a, "rung", Limit::Bending).ratio, 300.0 * 14.5 / 4.0 / (35_000.0 * plastic / 1.67));
    let second = std::f64::consts::PI * (1.05f64.powi(4) - di.powi(4)) / 64.0;
    let sag = 300.0 * 14.5f64.powi(3) / (48.0 * 29e6 * second);
    same("sag", found(&a, "rung", Limit::Deflection).ratio, sag / (14.5 / 150.0));
    // On the projected diameter, 1/2 in deep, against the stringer's 625 psi.
    same("bearing", found(&a, "rung end", Limit::Bearing).ratio, 300.0 / (1.05 * 0.5) / 625.0);
}

/// The same by Eurocode 5 and EN 1993-1-1: 2 kN in the middle (EN 1991-1-1 Table 6.2, stairs), half as much again for
/// strength, `Wpl fy` and `2 A/π · fy/√3` on the nominal wall, `γM0` 1.0, E 210 000 N/mm². All from memory.
#[test]
fn pipe_rung_by_eurocode_5() {
    let tread = BUNK.lines().find(|l| l.starts_with("rungs")).expect("the rungs");
    let piped = changed(tread, "rungs = { pipe = \"1 in schedule 40\" }");
    let a = assessed(&piped.replace("\"asd\"", "\"ec5\"").replace("douglas fir-larch no2", "C24"));
    let (od, di, load) = (1.315f64, 1.315f64 - 2.0 * 0.133, 2000.0);
    let plastic = 35_000.0 * PSI * (od.powi(3) - di.powi(3)) / 6.0 * INCH.powi(3);
    let span = 14.5 * INCH;
    let bending = found(&a, "rung", Limit::Bending);
    same("M", bending.demand.si, 1.5 * load * span / 4.0);
    same("Mc,Rd", bending.capacity.si, plastic);
    let area = std::f64::consts::PI / 4.0 * (od * od - di * di) * INCH * INCH;
    let sheared = 2.0 * area / std::f64::consts::PI * 35_000.0 * PSI / 3f64.sqrt();
    let shear = found(&a, "rung", Limit::Shear);
    same("V", shear.demand.si, 1.5 * load);
    same("Vc,Rd", shear.capacity.si, sheared);
    let second = std::f64::consts::PI / 64.0 * (od.powi(4) - di.powi(4)) * INCH.powi(4);
    let sag = load * span.powi(3) / (48.0 * 210e9 * second);
    same("sag", found(&a, "rung", Limit::Deflection).ratio, sag / (span / 150.0));
}

/// A stringer of 2x4, 60 in up and 12 in out, the whole 300 lb half way up: NDS 15.4.1 with `e = M/N` along
/// its width, Fc 1350 psi, CF 1.15 for compression, le the stringer's length, c 0.8. CD 1.25.
#[test]
fn stringer_by_hand() {
    let a = assessed(BUNK);
    let length = 60.0f64.hypot(12.0);
    let axial = 300.0 * 60.0 / length;
    let moment = 300.0 * 12.0 / length * length / 4.0;
    let (b, d): (f64, f64) = (1.5, 3.5);
    let fc = axial / (b * d);
    let euler = |side: f64| 0.822 * EMIN / (length / side).powi(2);
    let star = 1350.0 * 1.25 * 1.15;
    let alpha = euler(b) / star;
    let half = (1.0 + alpha) / 1.6;
    let allowed = star * (half - (half * half - alpha / 0.8).sqrt());
    let (_, cl) = beam_stability(FB * 1.25 * 1.5, length, b, d);
    let e = moment / axial;
    let bent = fc * (6.0 * e / d) * (1.0 + 0.234 * fc / euler(d));
    let interaction = (fc / allowed).powi(2) + bent / (FB * 1.25 * 1.5 * cl * (1.0 - fc / euler(d)));
    same("buckling", found(&a, "stringer", Limit::Buckling).ratio, interaction);
    same("slenderness", found(&a, "stringer", Limit::Slenderness).ratio, length / b / 50.0);
    // Where a tread is let in 1/2 in, 1 in of thickness is left.
    let stress = moment / (d * d / 6.0) + axial / d;
    let bending = found(&a, "stringer", Limit::Bending);
    same("let in", bending.ratio, stress / (FB * 1.25 * 1.5));
}

/// What the bunk's guard and ladder weigh, in pounds: Douglas fir-larch of G 0.50 at 15 % moisture
/// (NDS Supplement 3.1.3) on 2x4 and 4x4 as built. Posts reach from the rail's foot 6 + 14 in up; treads are 14
/// and 1/2 in long between the middles of their bearings; five of them stand below 60 in, and the ladder's
/// stringers are `hypot(60, 12)` long.
#[test]
fn weights_by_hand() {
    let per_cubic_inch = 62.4 / 1728.0 * 0.5 / (1.0 + 0.5 * 0.009 * 15.0) * 1.15;
    let (rail, post) = (1.5 * 3.5 * per_cubic_inch, 3.5 * 3.5 * 20.0 * per_cubic_inch);
    // Top and lower rail; posts 3-1/2 in wide, flush with the ends, at most 40 in apart.
    let on = |run: f64, posts: f64| (2.0 * rail * run + posts * post) / run;
    let (left, right, end) = (on(80.0, 3.0), on(65.0, 3.0), on(38.0, 2.0) * 38.0);
    let ladder = per_cubic_inch * (2.0 * 5.25 * 60.0f64.hypot(12.0) + 5.0 * 5.25 * 14.5);
    let p = platform(BUNK);
    let hung = Hung::of(&p);
    same("all", hung.all.value / POUND, left * 80.0 + right * 65.0 + 2.0 * end + ladder / 2.0);
    // One guard across an end hangs half on each rail's end: as much as it weighs, spread over the rail.
    same("left rail", hung.rail[0].value / POUND * INCH, left + end / 80.0);
    same("right rail", hung.rail[1].value / POUND * INCH, right + end / 80.0 + ladder / 80.0);
    // It is in what the rails' ends carry: half the length each, on 1-1/2 by 1-1/2 in.
    let bare = &BUNK[..BUNK.find("[guard]").expect("a guard")];
    let nobody = ["lying", "sitting", "row", "kneeling", "climbing", "dropping", "jumping", "bare", "uniform"]
        .map(|case| format!("{case} = {{ drop = true }}\n"));
    let dead = |text: &str, end: &str| {
        let alone = assessed(&format!("{text}\n[cases]\n{}", nobody.concat()));
        found(&alone, end, Limit::Bearing).demand.si / PSI * 1.5 * 1.5
    };
    let right = right + ladder / 80.0;
    for (end, line) in [("left rail, head end", left + end / 80.0), ("right rail, foot end", right + end / 80.0)] {
        same(end, dead(BUNK, end) - dead(bare, end), line * 80.0 / 2.0);
    }
    // Pipe of 1 in, schedule 40, is published as 1.68 lb a foot (ASME B36.10, from memory).
    let tread = BUNK.lines().find(|l| l.starts_with("rungs")).expect("the rungs");
    let piped = changed(tread, "rungs = { pipe = \"1 in schedule 40\" }");
    let p = platform(&piped);
    let stringers = per_cubic_inch * 2.0 * 5.25 * 60.0f64.hypot(12.0);
    let pipes = ladder_weight(p.ladder.as_ref().expect("a ladder")).value / POUND - stringers;
    let printed = 1.68 / 12.0 * 14.5 * 5.0;
    assert!((pipes / printed - 1.0).abs() < 0.01, "five pipes: {pipes}, as printed {printed}");
}
