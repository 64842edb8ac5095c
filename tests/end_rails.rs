//! End rails worked by hand in both families: a simple span with the side rails' ends on it.
//!
//! Closed forms of the simple span: AISC Manual Table 3-23, case 1 (a load on all of it), 7 (a force in its middle) and
//! 9 (two equal forces as far from the ends), from memory. Reference values and clauses of the NDS 2018 and of
//! EN 1995-1-1: from memory; the same clauses are held against printed columns in `tests/rules` and
//! `tests/limit_state`.

mod support;

use slatwright::check::{Assessment, Change, EndRailChange, Limit, Role, Verdict, check_with_remedies};
use slatwright::load::CaseKind;
use support::{INCH, POUND, built, exchanged, found, same};

/// Only lying is left. End rails of 4x6, their ends 3-1/2 in on the posts: 60 + 2 · 1-1/2 + 2 · 1 in clear between
/// those, 68-1/2 in between the middles of the bearings. The side rails stand 1-3/4 + 1 + 3/4 in from those.
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
ends = { joint = "bearing", bearing = "3-1/2 in" }
[end_rails]
wood = "douglas fir-larch no2"
size = "4x6"
ends = { joint = "bearing", bearing = "3-1/2 in" }
inset = "1 in"
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
length = "30 in"
[bracing]
wall = ["head"]
[cases]
sitting = { drop = true }
row = { drop = true }
kneeling = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
bare = { drop = true }
uniform = { drop = true }
"##;

const SPAN: f64 = 68.5;
const TO_RAIL: f64 = 3.5;

fn changed(from: &str, to: &str) -> String {
    exchanged(BED, from, to)
}

/// What a side rail's end brings: its pressure on the end rail, on 1-1/2 by 3-1/2 in.
fn brought(a: &Assessment, id: &str) -> f64 {
    found(a, id, Limit::Bearing).demand.si * 1.5 * 3.5 * INCH * INCH
}

/// Douglas fir-larch at 15 % (G 0.50), pounds in a cubic inch (NDS Supplement 3.1.3).
const PER_CUBIC_INCH: f64 = 62.4 / 1728.0 * 0.5 / (1.0 + 0.5 * 0.009 * 15.0) * 1.15;

/// The dead load on one end of one rail, pounds: a quarter of mattress, bedding (40 Pa), slats, cleats and rails, for
/// everything is symmetrical. Slats reach from cleat to cleat's far edges, rails and cleats over the clear length.
fn dead() -> f64 {
    let bedding = 40.0 * (80.0 * INCH) * (60.0 * INCH) / POUND;
    let slats = 14.0 * 60.0 * 1.5 * 3.5;
    let (cleats, rails) = (2.0 * 80.0 * 1.5 * 3.5, 2.0 * 80.0 * 1.5 * 7.25);
    (70.0 + bedding + (slats + cleats + rails) * PER_CUBIC_INCH) / 4.0
}

/// Two equal forces `R`, `a` from the ends, and its own weight: `M = R a + G L / 8`,
/// `Δ = R a (3 L² - 4 a²) / (24 E I) + 5 G L³ / (384 E I)`, `E` 1 600 000 psi, `I` 3.5 · 5.5³ / 12 in⁴. `Fb` 900 · 1.3
/// psi; `CL` with `le = 1.63 lu + 3 d` (NDS 3.3.3), `Fv` 180 psi, `Fc⊥` 625 psi. A load of ten years: `CD` 1.
#[test]
fn an_end_rail_by_the_nds() {
    let (p, a) = built(BED);
    let rails = p.end_rails.as_ref().expect("end rails");
    same("span", rails.span(&p).value / INCH, SPAN);
    let r = brought(&a, "left rail, head end") / POUND;
    same("both alike", brought(&a, "right rail, head end") / POUND, r);
    let own = PER_CUBIC_INCH * 3.5 * 5.5 * SPAN;
    let moment = r * TO_RAIL + own * SPAN / 8.0;
    let bending = found(&a, "head end rail", Limit::Bending);
    assert_eq!(bending.case, CaseKind::Lying);
    assert!(bending.place.is_none(), "the two ends' worst need not be of one place");
    let section = 3.5 * 5.5 * 5.5 / 6.0;
    same("stress", bending.demand.si / (POUND / INCH / INCH), moment / section);
    let slender = (1.63 * SPAN + 3.0 * 5.5) * 5.5 / 3.5 / 3.5;
    let ratio = 1.2 * 580_000.0 / slender / (900.0 * 1.3);
    let half = (1.0 + ratio) / 1.9;
    let stability = half - (half * half - ratio / 0.95).sqrt();
    same("Fb'", bending.capacity.si / (POUND / INCH / INCH), 900.0 * 1.3 * stability);
    let shear = found(&a, "head end rail", Limit::Shear);
    same("shear", shear.demand.si / (POUND / INCH / INCH), 1.5 * (r + own / 2.0) / (3.5 * 5.5));
    same("Fv'", shear.capacity.si / (POUND / INCH / INCH), 180.0);
    let stiffness = 1_600_000.0 * 3.5 * 5.5f64.powi(3) / 12.0;
    let sag = r * TO_RAIL * (3.0 * SPAN * SPAN - 4.0 * TO_RAIL * TO_RAIL) / (24.0 * stiffness)
        + 5.0 * own * SPAN.powi(3) / (384.0 * stiffness);
    same("sag", found(&a, "foot end rail", Limit::Deflection).demand.si / INCH, sag);
    same("most", found(&a, "foot end rail", Limit::Deflection).capacity.si / INCH, SPAN / 300.0);
    // All of it lasts, and creeps by half as much again (NDS 3.5.2).
    same("after creep", found(&a, "foot end rail", Limit::Creep).demand.si / INCH, 1.5 * sag);
    // A choice, no source: with it a quarter more.
    same("most after creep", found(&a, "foot end rail", Limit::Creep).capacity.si / INCH, SPAN / 240.0);
    // The rail on it, 1-1/2 in along the end rail's grain and 2 in or more from its end: `Cb` is not taken nearer than
    // 3 in.
    let pressed = found(&a, "head end rail", Limit::Bearing);
    same("pressed", pressed.demand.si / (POUND / INCH / INCH), r / (1.5 * 3.5));
    same("Fc⊥", pressed.capacity.si / (POUND / INCH / INCH), 625.0);
    // Its ends on the posts: 3-1/2 by 3-1/2 in.
    let end = found(&a, "head end rail, left end", Limit::Bearing);
    same("end", end.demand.si / (POUND / INCH / INCH), (r + own / 2.0) / (3.5 * 3.5));
}

/// A post carries the end rail's end, and itself; what it stood under before was the side rail's.
#[test]
fn the_post_carries_the_end_rail() {
    let (_, a) = built(BED);
    let r = brought(&a, "left rail, head end") / POUND;
    let end = r + PER_CUBIC_INCH * 3.5 * 5.5 * SPAN / 2.0;
    let own = PER_CUBIC_INCH * 3.5 * 3.5 * 30.0;
    let post = found(&a, "left post, head end", Limit::Bearing);
    same("foot", post.demand.si / (POUND / INCH / INCH), (end + own) / (3.5 * 3.5));
    // Off its axis across the platform by half the post less a third of the bearing, flush along it: fb = 6 e P / d³.
    let d = 3.5f64;
    let fc = (end + own) / (d * d);
    let star = 1350.0 * 1.15;
    let critical = 0.822 * 580_000.0 / (30.0 / d).powi(2);
    let half = (1.0 + critical / star) / 1.6;
    let allowed = star * (half - (half * half - critical / star / 0.8).sqrt());
    let bent = fc * 6.0 * (1.75 - 3.5 / 3.0) / d;
    let near = fc / critical;
    let ratio = (fc / allowed).powi(2) + bent / (900.0 * 1.5) * (1.0 + 0.234 * near) / (1.0 - near);
    same("buckling", found(&a, "left post, head end", Limit::Buckling).ratio, ratio);
}

/// Somebody who sits on the end rail itself with 1.3 of 220 lb, the bed empty: in its middle `P L / 4`, at its end all
/// of it, with the dead load of the bed on the rails.
#[test]
fn somebody_on_the_end_rail_itself() {
    let (_, a) = built(&changed("sitting = { drop = true }\n", ""));
    let weight = 1.3 * 220.0;
    let own = PER_CUBIC_INCH * 3.5 * 5.5 * SPAN;
    let moment = weight * SPAN / 4.0 + dead() * TO_RAIL + own * SPAN / 8.0;
    let bending = found(&a, "head end rail", Limit::Bending);
    assert_eq!(bending.case, CaseKind::Sitting);
    let unit = POUND / INCH / INCH;
    same("middle", bending.demand.si / unit, moment / (3.5 * 5.5 * 5.5 / 6.0));
    assert!(bending.remark.as_deref().is_some_and(|r| r.contains("on the end rail itself")), "{:?}", bending.remark);
    let shear = found(&a, "head end rail", Limit::Shear).demand.si / unit * 3.5 * 5.5 / 1.5;
    let itself = weight + dead() + own / 2.0;
    // Two who sit on the bed, each at the end of one rail, bring more than one on the end rail, or as much.
    let r = brought(&a, "left rail, head end") / POUND;
    same("shear", shear, itself.max(r + own / 2.0));
}

/// C24 of 80 by 160 mm: forces with 1.35 and 1.5, `fm,k` 24, `kmod` 0.8 (people in a dwelling: medium-term), `γM` 1.3, `kcrit` 1;
/// `E` 11 000 N/mm². The sag takes forces as they are, and after years `(1 + kdef) · dead + (1 + ψ2 kdef) · people`
/// (EN 1995-1-1 2.2.3), `kdef` 0.6, `ψ2` 0.3.
#[test]
fn an_end_rail_by_eurocode_5() {
    let text = BED
        .replace("[platform]", "rules = \"ec5\"\n[platform]")
        .replace("\"douglas fir-larch no2\"", "\"C24\"")
        .replace("size = \"4x6\"", "size = \"80x160 mm\"")
        .replace(
            "ends = { joint = \"bearing\", bearing = \"3-1/2 in\" }\n[end_rails]",
            "ends = { joint = \"bearing\", bearing = \"80 mm\" }\n[end_rails]",
        );
    let (p, a) = built(&text);
    let span = SPAN * INCH;
    same("span", p.end_rails.as_ref().expect("end rails").span(&p).value, span);
    // `kc,90` and the spread of the contact are the clauses' own affair: the force by equilibrium.
    let gravity = 9.806_65;
    let own = 420.0 * gravity * 0.08 * 0.16 * span;
    let wood = 420.0 * gravity * INCH.powi(3);
    let sticks = (14.0 * 60.0 * 1.5 * 3.5 + 2.0 * 80.0 * 1.5 * (3.5 + 7.25)) * wood;
    let dead = (70.0 * POUND + 40.0 * (80.0 * INCH) * (60.0 * INCH) + sticks) / 4.0;
    let shear = found(&a, "head end rail", Limit::Shear);
    let reaction = shear.demand.si * 0.08 * 0.16 / 1.5;
    same("kcr fv,d", shear.capacity.si, 0.67 * 4.0e6 * 0.8 / 1.3);
    let factored = reaction - 1.35 * own / 2.0;
    let people = (factored - 1.35 * dead) / 1.5;
    assert!(people > 0.2 * 220.0 * POUND && people < 0.6 * 220.0 * POUND, "one end's share of a sleeper: {people}");
    let a_rail = TO_RAIL * INCH;
    let moment = factored * a_rail + 1.35 * own * span / 8.0;
    let bending = found(&a, "head end rail", Limit::Bending);
    same("stress", bending.demand.si, moment / (0.08 * 0.16 * 0.16 / 6.0));
    same("fm,d", bending.capacity.si, 24e6 * 0.8 / 1.3);
    let stiffness = 11e9 * 0.08 * 0.16f64.powi(3) / 12.0;
    let sag = |r: f64, g: f64| {
        r * a_rail * (3.0 * span * span - 4.0 * a_rail * a_rail) / (24.0 * stiffness)
            + 5.0 * g * span.powi(3) / (384.0 * stiffness)
    };
    let (permanent, live) = (sag(dead, own), sag(people, 0.0));
    same("sag", found(&a, "head end rail", Limit::Deflection).demand.si, permanent + live);
    let lasting = permanent * 1.6 + live * (1.0 + 0.3 * 0.6);
    same("after years", found(&a, "head end rail", Limit::Creep).demand.si, lasting);
}

/// Rails of 2x8 hung between 4x10 end rails by two lags through those into their ends, 2 in from their edges and 1 in
/// up: `V = 2/3 Fv' b de (de/d)²` within five depths of the end (NDS 3.4.3.3), with `de` 1 + 7-1/4 - 2 in.
#[test]
fn rails_hung_on_end_rails() {
    let (p, a) = built(&hung());
    let shear = found(&a, "head end rail", Limit::Shear).demand.si / (POUND / INCH / INCH) * 3.5 * 9.25 / 1.5;
    let split = found(&a, "head end rail", Limit::ShearAtScrews);
    same("force", split.demand.si / POUND, shear);
    let de = 1.0 + 7.25 - 2.0;
    same("capacity", split.capacity.si / POUND, 180.0 * 2.0 / 3.0 * 3.5 * de * (de / 9.25f64).powi(2));
    assert!(a.member("head end rail").is_some_and(|m| m.checks.iter().all(|c| c.limit != Limit::Bearing)));
    // The lags bear across the end rail's grain and along the rail's: less than through a post.
    let hangs = found(&a, "left rail, head end", Limit::Joint);
    let posts = hung().replace("[end_rails]", "[old]");
    let (before, after) = posts.split_once("[old]").expect("end rails");
    let rest = after.split_once("[posts]").expect("posts").1;
    let (_, on_posts) = built(&format!("{before}[posts]{rest}"));
    let on_post = found(&on_posts, "left rail, head end", Limit::Joint);
    same("the same load", hangs.demand.si, on_post.demand.si);
    same(
        "a quarter inch does not ask which way the grain runs; three eighths do",
        on_post.capacity.si / hangs.capacity.si,
        across_over_along(),
    );
    // From the floor to the middle of the end rail, which its post holds by its face.
    let posts = p.posts.as_ref().expect("posts");
    let foot = 48.0 - 1.5 - 3.5 - 2.0 - 1.0;
    same("post", posts.lengths[0].value / INCH, foot + 9.25 / 2.0);
}

fn hung() -> String {
    BED.replace(
        "ends = { joint = \"bearing\", bearing = \"3-1/2 in\" }\n[end_rails]",
        "ends = { joint = \"lags\", lag = \"3/8 x 8 in\", count = 2, into = \"end grain\", through = \"3-1/2 in\", edge = \"2 in\" }\n[end_rails]",
    )
    .replace(
        "size = \"4x6\"\nends = { joint = \"bearing\", bearing = \"3-1/2 in\" }",
        "size = \"4x10\"\nrise = \"1 in\"\nends = { joint = \"bolts\", bolt = \"1/2 x 8-1/2 in\", count = 2 }",
    )
    .replace("length = \"30 in\"\n", "")
    .replace("width = \"60 in\"\n", "width = \"60 in\"\nheight = \"48 in\"\n")
}

/// What of its lateral value a 3/8 in lag (root 0.265 in, 45 000 psi) in a rail's end loses when it passes through
/// 3-1/2 in across their grain instead of along it: NDS 12.3.1 with `Rd` by the greater angle of the two, 90° both times.
fn across_over_along() -> f64 {
    let (g, d, fyb) = (0.5f64, 0.265f64, 45_000.0f64);
    let (along, across) = (11_200.0 * g, 6100.0 * g.powf(1.45) / 0.375f64.sqrt());
    let lateral = |fes: f64| {
        let (ls, lm, fem) = (3.5f64, 8.0 - 3.5 - 0.21875, across);
        let (re, rt) = (fem / fes, lm / ls);
        let k1 =
            ((re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re.powi(3)).sqrt() - re * (1.0 + rt)) / (1.0 + re);
        let k2 = -1.0 + (2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * d * d / (3.0 * fem * lm * lm)).sqrt();
        let k3 = -1.0 + (2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * d * d / (3.0 * fem * ls * ls)).sqrt();
        let ktheta = 1.25;
        [
            d * lm * fem / (4.0 * ktheta),
            d * ls * fes / (4.0 * ktheta),
            k1 * d * ls * fes / (3.6 * ktheta),
            k2 * d * lm * fem / ((1.0 + 2.0 * re) * 3.2 * ktheta),
            k3 * d * ls * fem / ((2.0 + re) * 3.2 * ktheta),
            d * d / (3.2 * ktheta) * (2.0 * fem * fyb / (3.0 * (1.0 + re))).sqrt(),
        ]
        .into_iter()
        .fold(f64::INFINITY, f64::min)
    };
    lateral(along) / lateral(across)
}

/// A centre beam off the middle ends at the end rails too: three forces on a span, its moment and the sag of its middle
/// by double integration of the bending moment, in two thousand steps.
#[test]
fn a_centre_beam_on_end_rails() {
    let text = BED.replace(
        "[end_rails]",
        "[centre_beam]\nwood = \"douglas fir-larch no2\"\nsize = \"2x6\"\nat = \"25 in\"\nends = { joint = \"bearing\", bearing = \"3 in\" }\n[end_rails]",
    );
    let (_, a) = built(&text);
    assert!(a.not_checked.iter().all(|n| !n.what.contains("what the centre beam's ends")), "{:#?}", a.not_checked);
    let beam = found(&a, "centre beam, head end", Limit::Bearing).demand.si / (POUND / INCH / INCH) * 1.5 * 3.0;
    let forces = [
        (brought(&a, "left rail, head end") / POUND, TO_RAIL),
        (beam, 1.75 + 1.0 + 1.5 + 25.0),
        (brought(&a, "right rail, head end") / POUND, SPAN - TO_RAIL),
    ];
    let own = PER_CUBIC_INCH * 3.5 * 5.5;
    let left: f64 = forces.iter().map(|(r, x)| r * (SPAN - x) / SPAN).sum::<f64>() + own * SPAN / 2.0;
    let moment = |x: f64| {
        let taken: f64 = forces.iter().filter(|(_, at)| *at < x).map(|(r, at)| r * (x - at)).sum();
        left * x - taken - own * x * x / 2.0
    };
    // Reported is the greatest under a force, with all that its own weight does in the middle: no less than what is
    // anywhere.
    let ours = found(&a, "head end rail", Limit::Bending).demand.si / (POUND / INCH / INCH) * 3.5 * 5.5 * 5.5 / 6.0;
    let steps = 2000;
    let h = SPAN / steps as f64;
    let most = (0..=steps).map(|k| moment(h * k as f64)).fold(0.0, f64::max);
    assert!(ours >= most && ours < 1.01 * most, "{ours} beside {most}");
    // The unit force in the middle: Δ = ∫ M m / E I, by Simpson's rule.
    let stiffness = 1_600_000.0 * 3.5 * 5.5f64.powi(3) / 12.0;
    let under_unit = |x: f64| x.min(SPAN - x) / 2.0;
    let weight = |k: usize| {
        if k == 0 || k == steps {
            1.0
        } else if k % 2 == 1 {
            4.0
        } else {
            2.0
        }
    };
    let sum: f64 = (0..=steps).map(|k| weight(k) * moment(h * k as f64) * under_unit(h * k as f64)).sum();
    let sag = sum * h / 3.0 / stiffness;
    let reported = found(&a, "head end rail", Limit::Deflection).demand.si / INCH;
    assert!((reported - sag).abs() < 1e-5 * sag, "{reported} beside {sag}");
    same(
        "its post",
        found(&a, "head end rail, left end", Limit::Bearing).demand.si / (POUND / INCH / INCH),
        left / 3.5 / 3.5,
    );
}

/// Farther in, heavier and shallower is never less.
#[test]
fn more_is_never_less() {
    let ratio = |text: &str, limit| found(&built(text).1, "head end rail", limit).ratio;
    let insets =
        ["0 in", "2 in", "4 in", "15 in", "30 in"].map(|i| changed("inset = \"1 in\"", &format!("inset = \"{i}\"")));
    for limit in [Limit::Bending, Limit::Deflection, Limit::Creep] {
        let all = insets.each_ref().map(|t| ratio(t, limit));
        assert!(all.windows(2).all(|w| w[0] < w[1]), "{limit:?}: {all:?}");
    }
    let weights = ["150 lb", "230 lb", "300 lb"].map(|w| changed("weight = \"220 lb\"", &format!("weight = \"{w}\"")));
    let sizes = ["4x10", "4x8", "4x6"].map(|s| BED.replace("size = \"4x6\"", &format!("size = \"{s}\"")));
    for limit in [Limit::Bending, Limit::Shear, Limit::Deflection] {
        for texts in [&weights, &sizes] {
            let all = texts.each_ref().map(|t| ratio(t, limit));
            assert!(all.windows(2).all(|w| w[0] < w[1]), "{limit:?}: {all:?}");
        }
    }
}

/// A guard across the head, and a ladder there, hang on the end rail and not on the rails' ends.
#[test]
fn what_hangs_at_the_head_hangs_on_the_end_rail() {
    let guard = "[guard]\nsides = [\"head\"]\ntop = \"16 in\"\n\
        rail = { wood = \"douglas fir-larch no2\", size = \"2x4\", screws = { lag = \"1/4 x 3 in\", count = 2 } }\n\
        [guard.posts]\nwood = \"douglas fir-larch no2\"\nsize = \"4x4\"\npitch = \"40 in\"\n\
        screws = { lag = \"3/8 x 6 in\", count = 2, spacing = \"3 in\" }\n[cases]";
    let (_, without) = built(BED);
    let (_, with) = built(&changed("[cases]", guard));
    for end in ["head", "foot"] {
        let id = format!("left rail, {end} end");
        same("the rail", brought(&with, &id), brought(&without, &id));
    }
    let bending = |a: &Assessment, end: &str| found(a, &format!("{end} end rail"), Limit::Bending).demand.si;
    assert!(bending(&with, "head") > 1.05 * bending(&without, "head"));
    same("the foot", bending(&with, "foot"), bending(&without, "foot"));
}

/// What is said to make end rails pass does.
#[test]
fn remedies_for_end_rails_pass() {
    let weak = changed("size = \"4x6\"", "size = \"2x4\"")
        .replace("bearing = \"3-1/2 in\" }\n[end_rails]", "bearing = \"1-1/2 in\" }\n[end_rails]")
        .replace("inset = \"1 in\"", "inset = \"28 in\"");
    let (p, a) = built(&weak);
    let fails = |a: &Assessment, role: Role| a.members.iter().any(|m| m.role == role && m.verdict() == Verdict::Fail);
    assert!(fails(&a, Role::EndRail));
    let (_, remedies) = check_with_remedies(&p).unwrap_or_else(|e| panic!("{e}"));
    let size = remedies.iter().filter(|r| r.role == Some(Role::EndRail)).find_map(|r| match r.changes.as_slice() {
        [Change::EndRail(EndRailChange::Size(s))] => Some(s.clone()),
        _ => None,
    });
    let size = size.unwrap_or_else(|| panic!("{remedies:#?}"));
    let (_, stronger) = built(&weak.replace(
        "[end_rails]\nwood = \"douglas fir-larch no2\"\nsize = \"2x4\"",
        &format!("[end_rails]\nwood = \"douglas fir-larch no2\"\nsize = \"{size}\""),
    ));
    assert!(!fails(&stronger, Role::EndRail), "{size}");
}
