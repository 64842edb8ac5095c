//! Knee braces and diagonals worked by hand from statics and the clauses, without the rules, in both families.
//!
//! Reference values, factors and clauses of the NDS 2018 and EN 1995-1-1: from memory; the same clauses are held
//! against printed columns in `tests/rules` and `tests/limit_state`. The pushes are those of `tests/posts.rs`.

mod support;

use slatwright::check::{Assessment, BraceChange, Change, Limit, Remedy, Role, Verdict, check_with_remedies};
use slatwright::load::CaseKind;
use slatwright::platform::{Held, Way};
use slatwright::tables::Tables;
use support::dowel::Dowel;
use support::{INCH, POUND, all, built, exchanged, found, off_axis, same};

/// Only lying and the push are left. The slats are 30 + 7-1/4 + 1-1/2 in above the floor.
const BED: &str = r##"
[platform]
length = "80 in"
width = "60 in"
[mattress]
thickness = "8 in"
weight = "70 lb"
[[sleeper]]
weight = "220 lb"
[slats]
wood = "douglas fir-larch no2"
size = "2x4"
count = 14
fixed = true
[cleats]
wood = "douglas fir-larch no2"
size = "2x4"
rise = "2 in"
screws = { lag = "1/4 x 3 in", pitch = "4 in", first = "4 in" }
[rails]
wood = "douglas fir-larch no2"
size = "2x8"
ends = { joint = "lags", lag = "3/8 x 4 in", count = 2, into = "side grain", edge = "2 in" }
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
length = "30 in"
[bracing.knees]
wood = "douglas fir-larch no2"
size = "2x4"
rise = "12 in"
run = "12 in"
screws = { lag = "1/4 x 3 in", count = 2 }
[bracing.diagonals]
sides = ["head", "foot"]
wood = "douglas fir-larch no2"
size = "2x4"
screws = { lag = "1/4 x 3 in", count = 2 }
[cases]
sitting = { drop = true }
row = { drop = true }
kneeling = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
bare = { drop = true }
uniform = { drop = true }
"##;

fn changed(from: &str, to: &str) -> String {
    exchanged(BED, from, to)
}

/// [`BED`] without one of its tables.
fn without(table: &str) -> String {
    let (before, rest) = BED.split_once(table).expect("the table");
    let (_, after) = rest.split_once("\n[").expect("another table");
    format!("{before}[{after}")
}

/// The least of the six yield loads of a 1/4 in lag (root 0.173 in, 70 000 psi) through 1-1/2 in of Douglas
/// fir-larch along its grain, 3 in less 1-1/2 in and a tip of 5/32 in into Douglas fir-larch at an angle to its
/// grain (NDS 12.3.1, with the root as diameter).
fn lag(degrees: f64) -> f64 {
    let (g, d, fyb) = (0.5f64, 0.173f64, 70_000.0f64);
    let (along, across) = (11_200.0 * g, 6100.0 * g.powf(1.45) / 0.25f64.sqrt());
    let (sin, cos) = degrees.to_radians().sin_cos();
    let (fes, fem) = (along, along * across / (along * sin * sin + across * cos * cos));
    let (ls, lm) = (1.5f64, 1.5 - 0.15625);
    // A root below 1/4 in: every mode is divided by KD = 10 D + 0.5 (NDS Table 12.3.1B and its footnote).
    let rd = (10.0 * d + 0.5) * (1.0 + 0.25 * degrees / 90.0);
    let (re, rt) = (fem / fes, lm / ls);
    let k1 = ((re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re.powi(3)).sqrt() - re * (1.0 + rt)) / (1.0 + re);
    let (k2, k3) = (
        -1.0 + (2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * d * d / (3.0 * fem * lm * lm)).sqrt(),
        -1.0 + (2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * d * d / (3.0 * fem * ls * ls)).sqrt(),
    );
    [
        d * lm * fem / rd,
        d * ls * fes / rd,
        k1 * d * ls * fes / rd,
        k2 * d * lm * fem / ((1.0 + 2.0 * re) * rd),
        k3 * d * ls * fem / ((2.0 + re) * rd),
        d * d / rd * (2.0 * fem * fyb / (3.0 * (1.0 + re))).sqrt(),
    ]
    .into_iter()
    .fold(f64::INFINITY, f64::min)
}

/// 3/8 by 4 in (root 0.265 in, 45 000 psi; a tip of 7/32 in) through 1-1/2 in.
const HANGING: Dowel = Dowel { d: 0.265, fyb: 45_000.0, lengths: [1.5, 4.0 - 1.5 - 0.21875], side: 90.0, main: 0.0 };

/// 300 N stand over one side, for half of a tenth of everything is less: 150 N on a post. About its foot,
/// `150 · 30 / 12` is the brace's part along the rail, and at 45 degrees the brace carries `√2` of it.
const PUSH: f64 = 300.0;
const ALONG: f64 = 150.0 * 30.0 / 12.0;

/// 2x4 of 12√2 in, off its axis by 3/4 in. `Fc` 1350 · 1.15, `Fb` 900 · 1.5 · 1.1 flat, `Ft` 575 · 1.5 psi, `Emin`
/// 580 000 psi, `CD` 1.6; NDS 15.4.1 and 3.9.1.
#[test]
fn a_knee_brace_by_the_nds() {
    let (_, a) = built(BED);
    let force = ALONG * 2f64.sqrt() / POUND;
    let length = 12.0 * 2f64.sqrt();
    let id = "left knee braces";
    same("slenderness", found(&a, id, Limit::Slenderness).ratio, length / 1.5 / 50.0);
    let fc = force / (1.5 * 3.5);
    let star = 1350.0 * 1.15 * 1.6;
    let critical = 0.822 * 580_000.0 / (length / 1.5f64).powi(2);
    let half = (1.0 + critical / star) / 1.6;
    let allowed = star * (half - (half * half - critical / star / 0.8).sqrt());
    let flat = 900.0 * 1.5 * 1.1 * 1.6;
    let near = fc / critical;
    let buckling = (fc / allowed).powi(2) + 3.0 * fc * (1.0 + 0.234 * near) / (flat * (1.0 - near));
    same("buckling", found(&a, id, Limit::Buckling).ratio, buckling);
    let ft = force / (1.5 * (3.5 - 0.25));
    same("tension", found(&a, id, Limit::Tension).ratio, ft / (575.0 * 1.5 * 1.6) + 3.0 * ft / flat);
    let screws = found(&a, id, Limit::Screw);
    assert_eq!(screws.case, CaseKind::Racking);
    same("force", screws.demand.si / POUND, force);
    same("two lags", screws.capacity.si / POUND, 2.0 * lag(45.0) * 1.6);
}

/// Flatter braces: 12 in down, 24 in along. 26.6 degrees to the rail's grain and 63.4 to the post's, which holds
/// its lags worse.
#[test]
fn a_flat_brace_leans_on_the_post() {
    let (_, a) = built(&changed("run = \"12 in\"", "run = \"24 in\""));
    let screws = found(&a, "right knee braces", Limit::Screw);
    same("force", screws.demand.si, ALONG * 12f64.hypot(24.0) / 24.0);
    same("two lags", screws.capacity.si / POUND, 2.0 * lag(2f64.atan().to_degrees()) * 1.6);
}

/// A brace lifts the rail by `150 · 30 / 12` N, and the feet, 83 in apart, give the lee post `300 · 38.75 / 83` more:
/// what is left bends the rail at 12 in and hangs on its end, whose screws also hold the post's top against
/// `375 - 150` N along the rail.
#[test]
fn what_knee_braces_do_to_the_rail() {
    let (_, a) = built(BED);
    let lee = PUSH * 38.75 / 83.0;
    let rest = ALONG - lee;
    let (lying, racked) = (found(&a, "left rail", Limit::Bending), found(&a, "left rail, racked", Limit::Bending));
    assert_eq!(lying.case, CaseKind::Lying);
    let section = 1.5 * 7.25 * 7.25 / 6.0 * INCH.powi(3);
    same("moment", racked.demand.si, lying.demand.si + rest * 12.0 * INCH / section);
    assert!(racked.capacity.si > lying.capacity.si, "a push does not last");
    let (lying, racked) = (found(&a, "left rail", Limit::Shear), found(&a, "left rail, racked", Limit::Shear));
    same("shear", racked.demand.si, lying.demand.si + 1.5 * rest / (1.5 * 7.25 * INCH * INCH));
    let hangs = found(&a, "left rail, head end", Limit::Joint);
    assert_eq!(hangs.case, CaseKind::Lying);
    let pushed = found(&a, "left rail, head end, pushed along", Limit::Joint);
    same("end", pushed.demand.si, (hangs.demand.si + rest).hypot(ALONG - 150.0));
    // Leaning from the post's grain and to the rail's; 1-1/2 in to the end it pulls to, where 7 D is asked.
    let lean = ((ALONG - 150.0) / (hangs.demand.si + rest)).atan().to_degrees();
    let straight = Dowel { side: 90.0, main: 0.0, ..HANGING };
    let leaning = Dowel { side: 90.0 - lean, main: lean, ..HANGING };
    let far = 1.5 / (7.0 * 0.375);
    same("end's screws", pushed.capacity.si, hangs.capacity.si * 1.6 * far * leaning.holds() / straight.holds());
    let split = found(&a, "left rail, head end, pushed along", Limit::ShearAtScrews);
    same("above the screws", split.demand.si, hangs.demand.si + rest);
}

/// The post bends to the brace, `150 · (30 - 12)`, and carries what lies on it, itself, and the lee side's more. It
/// sways, for knee braces only stiffen its corner: `Ke` 2.4. Across, diagonals hold it straight. The rail hangs
/// 2-1/2 in off its axis.
#[test]
fn a_post_bends_to_its_brace() {
    let (_, a) = built(BED);
    let hangs = found(&a, "left rail, head end", Limit::Joint).demand.si / POUND;
    let per_cubic_inch = 62.4 / 1728.0 * 0.5 / (1.0 + 0.5 * 0.009 * 15.0) * 1.15;
    let own = per_cubic_inch * 3.5 * 3.5 * 30.0;
    let d = 3.5f64;
    let interaction = |lee: f64, moment: f64| {
        let force = hangs + own + lee;
        let fc = force / (d * d);
        let star = 1350.0 * 1.15 * 1.6;
        let critical = 0.822 * 580_000.0 / (2.4 * 30.0 / d).powi(2);
        let half = (1.0 + critical / star) / 1.6;
        let allowed = star * (half - (half * half - critical / star / 0.8).sqrt());
        let tipping = 1.2 * 580_000.0 / ((1.63 * 30.0 + 3.0 * d) * d / (d * d));
        let (fb1, fb2, fb) = (fc * 6.0 * (moment / force) / d, fc * 6.0 * 2.5 / d, 900.0 * 1.5 * 1.6);
        off_axis([fc, allowed, critical], [fb1, fb2, fb, tipping])
    };
    let along = interaction(PUSH * 38.75 / 83.0 / POUND, 150.0 / POUND * 18.0);
    let across = interaction(PUSH * 38.75 / 61.5 / POUND, 0.0);
    let post = found(&a, "left post, head end", Limit::Buckling);
    assert_eq!(post.case, CaseKind::Racking);
    same("interaction", post.ratio, along.max(across));
}

/// Each of a crossed pair takes half of 300 N, over 61-1/2 in between the posts and 30 in up. The rail's ends hand
/// 150 N to each post, straight off it.
#[test]
fn diagonals_by_hand() {
    let (p, a) = built(BED);
    assert_eq!(Way::ALL.map(|way| p.held(way)), [Held::Knees, Held::Diagonals]);
    let length = 61.5f64.hypot(30.0);
    let screws = found(&a, "head diagonals", Limit::Screw);
    same("force", screws.demand.si, 150.0 * length / 61.5);
    same("two lags", screws.capacity.si / POUND, 2.0 * lag((61.5f64 / 30.0).atan().to_degrees()) * 1.6);
    same("slenderness", found(&a, "foot diagonals", Limit::Slenderness).ratio, length / 1.5 / 50.0);
    let hangs = found(&a, "left rail, head end", Limit::Joint).demand.si;
    let off = found(&a, "left rail, head end, pushed across", Limit::Joint);
    same("end", off.demand.si, hangs.hypot(150.0));
}

/// [`BED`] with its rails bolted to the posts, each bolt in the middle of the post.
fn bolted(ends: &str) -> String {
    let lags = "{ joint = \"lags\", lag = \"3/8 x 4 in\", count = 2, into = \"side grain\", edge = \"2 in\" }";
    exchanged(BED, lags, ends)
}

/// Two 3/8 by 6-1/2 in bolts. The thread of 1 in lies wholly outside the post but for what `thread_inside` says: the shank
/// bears. `CΔ`: 2-1/2 in to the end that the rail is pulled to, where softwood asks 7 D, 2-5/8 in; 1-3/4 in to the post's
/// edge, more than 4 D. `Cg` of two bolts 3-1/4 in apart as they hang. In the post 225 N push across its grain:
/// `2/3 Fv' b de (de/d)²`.
#[test]
fn bolted_ends_under_knee_braces_by_the_nds() {
    let text = bolted("{ joint = \"bolts\", bolt = \"3/8 x 6 in\", count = 2, edge = \"2 in\", end = \"2-1/2 in\" }");
    let (_, a) = built(&text);
    let hangs = found(&a, "left rail, head end", Limit::Joint);
    let id = "left rail, head end, pushed along";
    let pushed = found(&a, id, Limit::Joint);
    let apart = 80.0 + 3.5;
    let rest = ALONG - PUSH * 38.75 / apart;
    let (down, aside) = (hangs.demand.si + rest, ALONG - 150.0);
    same("force", pushed.demand.si, down.hypot(aside));
    let lean = (aside / down).atan().to_degrees();
    let straight = Dowel { d: 0.375, fyb: 45_000.0, lengths: [1.5, 3.5], side: 90.0, main: 0.0 };
    let leaning = Dowel { side: 90.0 - lean, main: lean, ..straight };
    let far = 2.5 / (7.0 * 0.375);
    same("two bolts", pushed.capacity.si, hangs.capacity.si * 1.6 * far * leaning.holds() / straight.holds());
    let post = aside / (2.0 / 3.0 * 180.0 * 1.6 * 3.5 * 1.75 * (1.75f64 / 3.5).powi(2) * POUND);
    let rail = down / (2.0 / 3.0 * 180.0 * 1.6 * 1.5 * 5.25 * (5.25f64 / 7.25).powi(2) * POUND);
    same("beside the bolts", found(&a, id, Limit::ShearAtScrews).ratio, post.max(rail));
    let spacing = found(&a, id, Limit::Spacing);
    assert_eq!(spacing.verdict, Verdict::Pass, "{spacing:?}");
    // Straight off the post: 150 N pull on both bolts, of which each holds what the washer (1 in, hole 7/16 in) presses
    // on: `Fc⊥` 625 psi. Steel holds more: 0.75 · 60 000 / 2 psi of 3/8 in.
    let off = found(&a, "left rail, head end, pushed across", Limit::Joint);
    let washer = Tables::embedded().fasteners().bolt("3/8 x 6 in").expect("a bolt").washer;
    let inches = |l: slatwright::quantity::Length| l.value / INCH;
    let quarter = std::f64::consts::FRAC_PI_4;
    let wood = 625.0 * quarter * (inches(washer.across).powi(2) - inches(washer.hole).powi(2));
    let steel = 0.75 * 60_000.0 / 2.0 * quarter * 0.375f64.powi(2);
    assert!(wood < steel, "{wood} {steel}");
    let sideways = hangs.demand.si / (hangs.capacity.si * 1.6);
    same("both parts", off.ratio, sideways + 150.0 / (2.0 * wood * POUND));
    assert!(a.not_checked.iter().all(|n| !n.what.contains("pushed")), "{:#?}", a.not_checked);
}

/// An end nearer than half of 7 D, or a post in which the bolts stand nearer than 4 D to the edge that they push to, has no
/// strength but a failing distance.
#[test]
fn bolts_too_near_what_they_are_pushed_to() {
    for (bolt, end, verdict) in [
        ("3/8 x 6 in", "1-3/8 in", Verdict::Pass),
        ("3/8 x 6 in", "1-1/4 in", Verdict::Fail),
        ("1/2 x 6 in", "3-1/2 in", Verdict::Fail),
    ] {
        let text =
            bolted(&format!("{{ joint = \"bolts\", bolt = \"{bolt}\", count = 2, edge = \"2 in\", end = \"{end}\" }}"));
        let (_, a) = built(&text);
        let id = "left rail, head end, pushed along";
        assert_eq!(found(&a, id, Limit::Spacing).verdict, verdict, "{bolt}, {end}");
        let joint = all(&a, id, Limit::Joint);
        assert_eq!(joint.is_empty(), verdict == Verdict::Fail, "{bolt}, {end}");
    }
}

/// Two M10 of class 4.6 in 45 mm of C24 and a post of 100 by 120, `ρk` 350, `kmod` 0.9: `fh` at an angle by (8.31), `My` by
/// (8.30), the least of (8.6). The push of 1.5 · 150 N and what it does. Straight off the post the rope is not counted, and
/// the washer's `3 fc,90,k` pulls.
#[test]
fn bolted_ends_under_knee_braces_by_eurocode_5() {
    let text = bolted("{ joint = \"bolts\", bolt = \"M10 x 180 mm\", count = 2, edge = \"50 mm\", end = \"100 mm\" }")
        .replace("[platform]", "rules = \"ec5\"\n[platform]")
        .replace("\"douglas fir-larch no2\"", "\"C24\"")
        .replace("\"C24\"\nsize = \"4x4\"", "\"C24\"\nthickness = \"100 mm\"\nwidth = \"120 mm\"")
        .replace("\"C24\"\nsize = \"2x8\"", "\"C24\"\nthickness = \"45 mm\"\nwidth = \"195 mm\"")
        .replace("screws = { lag = \"1/4 x 3 in\", count = 2 }", "screws = { lag = \"1/4 x 3-1/2 in\", count = 2 }");
    let (_, a) = built(&text);
    let hangs = found(&a, "left rail, head end", Limit::Joint).demand.si;
    let pushed = found(&a, "left rail, head end, pushed along", Limit::Joint);
    let aside = 1.5 * (ALONG - 150.0);
    let down = (pushed.demand.si.powi(2) - aside * aside).sqrt();
    assert!(down > hangs && down < hangs + 1.5 * ALONG, "{down} beside {hangs}");
    let lean = (aside / down).atan();
    let (t1, t2, d, rho) = (45.0, 100.0, 10.0, 350.0);
    let along = 0.082 * (1.0 - 0.01 * d) * rho;
    let at = |angle: f64| along / ((1.35 + 0.015 * d) * angle.sin().powi(2) + angle.cos().powi(2));
    let washer = |across: f64| 3.0 * 2.5 * std::f64::consts::FRAC_PI_4 * (across * across - 11.0 * 11.0);
    let axial = washer(34.0);
    let my = 0.3 * 400.0 * f64::powf(d, 2.6);
    let least = |f1: f64, f2: f64, rope: f64| {
        let b = f2 / f1;
        let t: f64 = t2 / t1;
        let with = |mode: f64| mode + (rope / 4.0).min(0.25 * mode);
        let c = f1 * t1 * d / (1.0 + b)
            * ((b + 2.0 * b * b * (1.0 + t + t * t) + b.powi(3) * t * t).sqrt() - b * (1.0 + t));
        let one = 1.05 * f1 * t1 * d / (2.0 + b)
            * ((2.0 * b * (1.0 + b) + 4.0 * b * (2.0 + b) * my / (f1 * d * t1 * t1)).sqrt() - b);
        let other = 1.05 * f1 * t2 * d / (1.0 + 2.0 * b)
            * ((2.0 * b * b * (1.0 + b) + 4.0 * b * (1.0 + 2.0 * b) * my / (f1 * d * t2 * t2)).sqrt() - b);
        let two = 1.15 * (2.0 * b / (1.0 + b)).sqrt() * (2.0 * my * f1 * d).sqrt();
        [f1 * t1 * d, f2 * t2 * d, with(c), with(one), with(other), with(two)].into_iter().fold(f64::INFINITY, f64::min)
    };
    let quarter = std::f64::consts::FRAC_PI_2;
    let row = 2f64.powf(0.9) * (95.0f64 / 130.0).powf(0.25) * 0.9 / 1.3;
    same("leaning", pushed.capacity.si, row * least(at(quarter - lean), at(lean), axial));
    let off = found(&a, "left rail, head end, pushed across", Limit::Joint);
    let sideways = hangs / (row * least(at(quarter), at(0.0), 0.0));
    same("both parts", off.ratio, sideways + 1.5 * 150.0 / (2.0 * axial * 0.9 / 1.3));
    // 7 d or 80 mm to the end it is pulled to.
    let near = text.replace("end = \"100 mm\"", "end = \"75 mm\"");
    assert_eq!(found(&built(&near).1, "left rail, head end, pushed along", Limit::Spacing).verdict, Verdict::Fail);
}

/// `Fx = 1.5 · 150 · 30/12`; C24, 45 by 95 mm, `kmod` 0.9: `ft,0,k` 14.5 and `fm,k` 24 N/mm² on 45 by 88.65 mm, `kh`
/// `(150/88.65)^0.2` and at most 1.3 for the flat 45 mm; the wood bends by `N · 22.5 mm`, `km` 1 with it.
#[test]
fn a_knee_brace_by_eurocode_5() {
    let text = BED
        .replace("[platform]", "rules = \"ec5\"\n[platform]")
        .replace("\"douglas fir-larch no2\"", "\"C24\"")
        .replace("size = \"2x4\"\nrise = \"12 in\"", "size = \"45x95 mm\"\nrise = \"12 in\"")
        .replace("screws = { lag = \"1/4 x 3 in\", count = 2 }", "screws = { lag = \"1/4 x 3-1/2 in\", count = 2 }");
    let (_, a) = built(&text);
    let force = 1.5 * ALONG * 2f64.sqrt();
    same("force", found(&a, "left knee braces", Limit::Screw).demand.si, force);
    let (b, d) = (45.0, 95.0 - 6.35);
    let design = 0.9 / 1.3;
    let kh = |side: f64| (150.0 / side).powf(0.2).min(1.3);
    let tension = force / (b * d) / (14.5 * kh(d) * design);
    let bending = force * b / 2.0 / (d * b * b / 6.0) / (24.0 * kh(b) * design);
    same("tension", found(&a, "left knee braces", Limit::Tension).ratio, tension + bending);
}

/// Whatever is not braced, or is by what no table here knows, is no pass.
#[test]
fn what_is_missing_is_said() {
    let (_, whole) = built(BED);
    let open =
        |a: &Assessment| a.not_checked.iter().filter(|n| n.carries_load).map(|n| n.what.clone()).collect::<Vec<_>>();
    assert_eq!(open(&whole), Vec::<String>::new());
    assert_eq!(whole.verdict(), Verdict::Pass, "{:#?}", whole.weakest().map(|(m, c)| (m.id.clone(), c.clone())));
    let (_, a) = built(&without("[bracing.diagonals]"));
    assert!(open(&a).iter().any(|w| w.starts_with("racking across the rails: the joints")), "{:?}", open(&a));
    let panels = without("[bracing.diagonals]")
        .replace("[bracing.knees]", "[bracing]\npanels = [\"head\", \"foot\"]\n[bracing.knees]");
    let (_, a) = built(&panels);
    assert!(open(&a).iter().any(|w| w == "racking across the rails: the panels"), "{:?}", open(&a));
    let rests = changed(
        "ends = { joint = \"lags\", lag = \"3/8 x 4 in\", count = 2, into = \"side grain\", edge = \"2 in\" }",
        "ends = { joint = \"bearing\", bearing = \"1-1/2 in\" }",
    );
    let (_, a) = built(&rests);
    assert!(open(&a).iter().any(|w| w.contains("head end, pushed along")), "{:?}", open(&a));
}

/// What exceeds everybody lying takes nothing from a push, which finds them there: two heavy visitors' cases beside one
/// light sleeper leave the racked rail, its ends and its posts as they are without those cases.
#[test]
fn other_cases_leave_a_push_as_it_is() {
    let light = changed("weight = \"220 lb\"", "weight = \"60 lb\"");
    let alone = built(&light).1;
    let heavy = light
        .replace("[slats]", "[visitor]\nweight = \"400 lb\"\n[slats]")
        .replace("sitting = { drop = true }\n", "sitting = { factor = 3.0 }\n");
    let among = built(&heavy).1;
    for (id, limit) in [
        ("left rail, racked", Limit::Bending),
        ("left rail, racked", Limit::Shear),
        ("left rail, head end, pushed along", Limit::Joint),
        ("right rail, foot end, pushed across", Limit::Joint),
    ] {
        same(id, found(&among, id, limit).demand.si, found(&alone, id, limit).demand.si);
    }
}

/// A steeper, longer brace carries less, and a weaker one fails.
#[test]
fn more_rise_is_less_force() {
    let force = |rise: &str| {
        let (_, a) = built(&changed("rise = \"12 in\"", rise));
        found(&a, "left knee braces", Limit::Screw).demand.si
    };
    let forces = ["rise = \"6 in\"", "rise = \"10 in\"", "rise = \"16 in\""].map(force);
    assert!(forces[0] > forces[1] && forces[1] > forces[2], "{forces:?}");
    let weak = changed("length = \"30 in\"", "length = \"90 in\"").replace("rise = \"12 in\"", "rise = \"6 in\"");
    let (_, a) = built(&weak);
    assert_eq!(found(&a, "left knee braces", Limit::Screw).verdict, Verdict::Fail);
}

/// What is said to make weak braces pass does, when the brief is written so.
#[test]
fn remedies_for_braces_pass() {
    let screws = |n: &str| BED.replace("screws = { lag = \"1/4 x 3 in\", count = 2 }", n);
    let weak = |text: &str| {
        text.replace("length = \"30 in\"", "length = \"40 in\"").replace("rise = \"12 in\"", "rise = \"4 in\"")
    };
    let text = weak(&screws("screws = { lag = \"1/4 x 3 in\", count = 1 }"));
    let (p, a) = built(&text);
    let failing = |a: &Assessment| a.members.iter().any(|m| m.role == Role::Brace && m.verdict() == Verdict::Fail);
    assert!(failing(&a));
    let (_, remedies) = check_with_remedies(&p).unwrap_or_else(|e| panic!("{e}"));
    let more = remedies.iter().filter(|r| r.role == Some(Role::Brace)).find_map(|r| match r.changes.as_slice() {
        [Change::Brace(BraceChange::Screws(n))] => Some(*n),
        _ => None,
    });
    let more = more.unwrap_or_else(|| panic!("{remedies:?}"));
    // A rail that only rests on its post is pushed off it by its brace.
    let rests = |r: &Remedy| r.changes.iter().any(|c| matches!(c, Change::EndBearing(_)));
    assert!(!remedies.iter().any(rests), "{remedies:?}");
    let count = |n: usize| weak(&screws(&format!("screws = {{ lag = \"1/4 x 3 in\", count = {n} }}")));
    assert!(!failing(&built(&count(more)).1) && failing(&built(&count(more - 1)).1), "{more}");
}
