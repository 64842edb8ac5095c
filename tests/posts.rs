//! Posts: two beds worked by hand from the clauses, without the rules, and what must hold of any post.
//!
//! Reference values, factors and clauses of the NDS 2018 and EN 1995-1-1: from memory; the same clauses are
//! held against printed columns in `tests/rules` and `tests/limit_state`.

use slatwright::brief::Brief;
use slatwright::check::{Assessment, Check, Limit, Role, Verdict, check};
use slatwright::load::CaseKind;
use slatwright::platform::Platform;
use slatwright::tables::Tables;

const INCH: f64 = 0.0254;
const PSI: f64 = 4.448_221_615_260_5 / (INCH * INCH);
const POUND: f64 = 0.453_592_37 * 9.806_65;

fn built(text: &str) -> (Platform, Assessment) {
    let p = Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:#?}\n{text}"));
    let a = check(&p).unwrap_or_else(|e| panic!("{e}\n{text}"));
    (p, a)
}

fn found<'a>(a: &'a Assessment, id: &str, limit: Limit) -> &'a Check {
    let member = a.members.iter().find(|m| m.id == id).unwrap_or_else(|| panic!("no {id}"));
    member.checks.iter().find(|c| c.limit == limit).unwrap_or_else(|| panic!("{id} has no {limit:?}"))
}

#[track_caller]
fn same(what: &str, ours: f64, theirs: f64) {
    assert!((ours - theirs).abs() <= 1e-6 * theirs.abs(), "{what}: by hand {theirs}, reported {ours}");
}

/// 60 by 80 in under the code's uniform load alone, so that a quarter of everything stands on each post.
const BED: &str = r##"
[platform]
length = "80 in"
width = "60 in"
height = "20 in"
[mattress]
thickness = "8 in"
weight = "70 lb"
[[sleeper]]
weight = "220 lb"
[slats]
wood = "spruce-pine-fir no2"
size = "2x4"
count = 14
fixed = true
[cleats]
wood = "spruce-pine-fir no2"
size = "2x4"
rise = "2 in"
screws = { screw = "#10 x 3 in", pitch = "4 in", first = "4 in" }
[rails]
wood = "spruce-pine-fir no2"
size = "2x8"
ends = { joint = "bearing", bearing = "1-1/2 in" }
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
[cases]
lying = { drop = true }
sitting = { drop = true }
row = { drop = true }
kneeling = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
bare = { drop = true }
"##;

/// Weight per volume of wood of specific gravity `g` at 15 % (NDS Supplement 3.1.3), N/m³.
fn timber(g: f64) -> f64 {
    let water = 62.4 * 0.453_592_37 / (12.0 * INCH).powi(3);
    water * g / (1.0 + g * 0.009 * 15.0) * 1.15 * 9.806_65
}

/// Newtons on one post of [`BED`]: a quarter of 30 psf, mattress, bedding, slats, cleats and rails.
fn quarter() -> f64 {
    let area = 80.0 * 60.0 * INCH * INCH;
    let sticks = (14.0 * 3.5 * 1.5 * 60.0 + 2.0 * 80.0 * 1.5 * (7.25 + 3.5)) * INCH.powi(3) * timber(0.42);
    (30.0 * PSI / 144.0 * area + 70.0 * POUND + 40.0 * area + sticks) / 4.0
}

/// 20 in less 1-1/2 in of slat, 3-1/2 in of cleat and 2 in of rise leave 13 in. The rail presses a third of
/// its bearing in from the post's inner edge, 1-1/4 in off the axis, and its 1-1/2 in stand flush with one
/// side of the post, 1 in off the axis.
///
/// `Ke` 2.4; Douglas fir-larch No. 2: `Fb` 900, `Fc` 1350, `Emin` 580 000 psi, `CF` 1.5 and 1.15 for a 4x4;
/// `le = 2.06 lu` for a beam shorter than seven depths.
#[test]
fn a_post_that_sways_by_the_nds() {
    let (_, a) = built(BED);
    let (length, d) = (13.0f64, 3.5f64);
    let own = timber(0.5) * (d * d * length) * INCH.powi(3);
    let fc = (quarter() + own) / (d * d * INCH * INCH) / PSI;
    let (emin, star) = (580_000.0f64, 1350.0f64 * 1.15);
    let critical = 0.822 * emin / (2.4 * length / d).powi(2);
    let half = (1.0 + critical / star) / 1.6;
    let cp = half - (half * half - critical / star / 0.8).sqrt();
    let tipping = 1.2 * emin / (2.06 * length * d / (d * d));
    let (fb1, fb2, fb) = (fc * 6.0 * 1.25 / d, fc * 6.0 * 1.0 / d, 900.0 * 1.5);
    let grown = |near: f64| (1.0 + 0.234 * near) / (1.0 - near);
    let by_hand = (fc / (cp * star)).powi(2)
        + fb1 / fb * grown(fc / critical)
        + fb2 / fb * grown(fc / critical + (fb1 / tipping).powi(2));
    for end in ["left post, head end", "left post, foot end", "right post, head end", "right post, foot end"] {
        let buckling = found(&a, end, Limit::Buckling);
        assert_eq!(buckling.case, CaseKind::CodeUniform);
        same("interaction", buckling.ratio, by_hand);
        let slender = found(&a, end, Limit::Slenderness);
        same("le/d", slender.ratio, 2.4 * length / d / 50.0);
        let bearing = found(&a, end, Limit::Bearing);
        same("fc above", bearing.demand.si, quarter() / (1.5 * 1.5 * INCH * INCH));
        same("0.75 Fc*", bearing.capacity.si, 0.75 * star * PSI);
    }
    assert!(by_hand > 0.05, "{by_hand} would show nothing");
}

/// The same bed in C24 by EN 1995-1-1, posts of 100 by 120 mm: `fm` 24, `fc,0` 21, `E0,05` 7400 N/mm², 350 and
/// 420 kg/m³; medium term 0.8 / 1.3; `kh` 1.085 for 100 mm and 1.046 for 120 mm; `βc` 0.2; `km` 0.7; 1.35 G + 1.5 Q.
#[test]
fn a_post_that_sways_by_eurocode_5() {
    let text =
        BED.replace("[platform]", "rules = \"ec5\"\n[platform]").replace("\"spruce-pine-fir no2\"", "\"C24\"").replace(
            "\"douglas fir-larch no2\"\nsize = \"4x4\"",
            "\"C24\"\nthickness = \"100 mm\"\nwidth = \"120 mm\"\nlength = \"600 mm\"",
        );
    let (p, a) = built(&text);
    let weight = 420.0 * 9.806_65;
    let area = 80.0 * 60.0 * INCH * INCH;
    let sticks = (14.0 * 3.5 * 1.5 * 60.0 + 2.0 * 80.0 * 1.5 * (7.25 + 3.5)) * INCH.powi(3) * weight;
    let dead = (70.0 * POUND + 40.0 * area + sticks) / 4.0 + weight * 0.1 * 0.12 * 0.6;
    let force = 1.35 * dead + 1.5 * 2000.0 * area / 4.0;
    let (h, b) = (120.0f64, 100.0f64);
    let design = 0.8 / 1.3;
    let factor = |side: f64| {
        let relative = 2.4 * 600.0 / (side / 12f64.sqrt()) / std::f64::consts::PI * (21.0f64 / 7400.0).sqrt();
        let k = 0.5 * (1.0 + 0.2 * (relative - 0.3) + relative * relative);
        1.0 / (k + (k * k - relative * relative).sqrt())
    };
    let squeezed = force / (h * b) / (21.0 * design);
    // A third of 38.1 mm in from the inner edge of 120 mm; a 38.1 mm rail flush with a side of 100 mm.
    let (ey, ez) = (60.0 - 38.1 / 3.0, 50.0 - 38.1 / 2.0);
    let bent = |e: f64, side: f64, other: f64| {
        force * e / (other * side * side / 6.0) / (24.0 * (150.0 / side).powf(0.2) * design)
    };
    let (y, z) = (bent(ey, h, b), bent(ez, b, h));
    let by_hand = (squeezed / factor(h) + y + 0.7 * z).max(squeezed / factor(b) + 0.7 * y + z);
    // (6.35) with kcrit 1 is less here.
    assert!(y * y + squeezed / factor(b) < by_hand && by_hand > 0.05);
    let buckling = found(&a, "left post, head end", Limit::Buckling);
    assert_eq!(buckling.case, CaseKind::CodeUniform);
    same("utilisation", buckling.ratio, by_hand);
    assert!(p.assumptions.iter().any(|t| t.contains("2.4 times")));
    let bearing = found(&a, "left post, head end", Limit::Bearing);
    same("fc,0,d", bearing.capacity.si, 21e6 * design);
}

fn worst(a: &Assessment, limit: Limit) -> f64 {
    let of = a.members.iter().filter(|m| m.role == Role::Post).flat_map(|m| &m.checks).filter(|c| c.limit == limit);
    of.map(|c| c.ratio).max_by(f64::total_cmp).expect("a post with this check")
}

/// Every case, whatever holds the rail and by either family: a longer post is never better, a held top never
/// worse, a thicker post never worse.
#[test]
fn posts_grow_worse_with_length_and_better_with_size_and_bracing() {
    let open = BED[..BED.find("[cases]").expect("cases")].to_owned();
    let joints = [
        "{ joint = \"bearing\", bearing = \"1-1/2 in\" }",
        "{ joint = \"lags\", lag = \"3/8 x 4 in\", count = 2, into = \"side grain\" }",
        "{ joint = \"pocket screws\", screw = \"#8 x 2-1/2 in\", count = 2 }",
    ];
    for (family, wood) in [("asd", "\"spruce-pine-fir no2\""), ("ec5", "\"C24\"")] {
        for joint in joints {
            let text = |length: f64, top: &str, side: f64| {
                open.replace("[platform]", &format!("rules = \"{family}\"\n[platform]"))
                    .replace(joints[0], joint)
                    .replace(
                        "size = \"4x4\"",
                        &format!(
                            "thickness = \"{side} in\"\nwidth = \"3-1/2 in\"\nlength = \"{length} in\"\ntop = \"{top}\""
                        ),
                    )
                    .replace("\"douglas fir-larch no2\"", wood)
                    .replace("\"spruce-pine-fir no2\"", wood)
            };
            let ratio = |length, top, side| worst(&built(&text(length, top, side)).1, Limit::Buckling);
            let mut before = 0.0;
            for length in [6.0, 13.0, 30.0, 50.0, 60.0] {
                let now = ratio(length, "free", 3.5);
                assert!(now > before, "{family}, {joint}, {length} in: {now} after {before}");
                let held = ratio(length, "braced", 3.5);
                assert!(held <= now, "{family}, {joint}, {length} in: {held} braced, {now} free");
                assert_eq!(held, ratio(length, "wall", 3.5));
                assert!(ratio(length, "free", 3.0) > now);
                before = now;
            }
        }
    }
}

/// The limit itself passes; a hair more fails, and then nothing else is said of the post. 2.4 · 72.92 in over
/// 3-1/2 in is 50.
#[test]
fn a_post_may_be_fifty_times_as_long_as_its_side() {
    let at = |inches: f64| built(&BED.replace("[posts]", &format!("[posts]\nlength = \"{inches} in\"")));
    let (_, a) = at(72.9);
    assert_eq!(found(&a, "left post, head end", Limit::Slenderness).verdict, Verdict::Pass);
    found(&a, "left post, head end", Limit::Buckling);
    let (_, a) = at(73.0);
    let post = a.members.iter().find(|m| m.role == Role::Post).expect("a post");
    assert_eq!(post.checks.len(), 1);
    assert_eq!((post.checks[0].limit, post.checks[0].verdict), (Limit::Slenderness, Verdict::Fail));
    assert_eq!(a.verdict(), Verdict::Fail);
}

/// Where the compression alone is too much the ratio is that of the compression, and above 1: a 1-1/2 in square
/// stick 12 ft long, held at the top.
#[test]
fn a_post_past_its_critical_load_fails() {
    let text = BED
        .replace("wood = \"douglas fir-larch no2\"\nsize = \"4x4\"", "wood = \"spruce-pine-fir no2\"\nthickness = \"1-1/2 in\"\nwidth = \"1-1/2 in\"\nlength = \"74 in\"\ntop = \"braced\"")
        .replace("weight = \"70 lb\"", "weight = \"600 lb\"")
        .replace("[cases]", "[cases]\nuniform = { load = \"100 psf\" }");
    let (_, a) = built(&text);
    let buckling = found(&a, "left post, head end", Limit::Buckling);
    assert!(buckling.ratio > 1.0 && buckling.ratio.is_finite(), "{}", buckling.ratio);
}

/// A rail on the wall's studs needs no post; the other's ends do.
#[test]
fn posts_stand_under_rail_ends_only() {
    let text = BED.replace("[posts]", "[rails.left]\nstuds = { lag = \"1/4 x 5 in\", pitch = \"16 in\" }\n[posts]");
    let (_, a) = built(&text);
    let ids: Vec<&str> = a.members.iter().filter(|m| m.role == Role::Post).map(|m| m.id.as_str()).collect();
    assert_eq!(ids, ["right post, head end", "right post, foot end"]);
    assert!(!a.not_checked.iter().any(|n| n.what.starts_with("posts")), "{:?}", a.not_checked);
}
