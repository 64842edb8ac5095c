//! Rail ends bolted to posts: joints worked by hand from the clauses in both families, and both sides of every limit.
//!
//! Clauses and figures of the NDS 2018 and EN 1995-1-1: from memory; the yield limit equations are held against
//! printed columns in `tests/evidence`.

mod support;

use slatwright::check::{Assessment, Limit, Role, Schedule, Verdict, check_with_remedies};
use slatwright::load::CaseKind;
use slatwright::quantity::unit::{inch, megapascal, millimetre};
use slatwright::rules::allowable_stress::dowel::bolt_diameter;
use slatwright::rules::limit_state::bolt::tension_capacity;
use slatwright::tables::Tables;
use support::{INCH, POUND, assessed, built, found, platform, same};

const BED: &str = r##"
rules = "asd"
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
screws = { lag = "1/4 x 3 in", pitch = "4 in", first = "4 in" }
[rails]
wood = "spruce-pine-fir no2"
size = "2x8"
ends = { joint = "bolts", bolt = "1/2 x 6 in", count = 2, edge = "2 in", end = "2 in" }
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
top = "braced"
"##;

/// The same in C24 and millimetres, posts 120 by 100.
fn eurocode(ends: &str) -> String {
    BED.replace("\"asd\"", "\"ec5\"")
        .replace("\"spruce-pine-fir no2\"", "\"C24\"")
        .replace("\"douglas fir-larch no2\"\nsize = \"4x4\"", "\"C24\"\nthickness = \"100 mm\"\nwidth = \"120 mm\"")
        .replace("\"C24\"\nsize = \"2x8\"", "\"C24\"\nthickness = \"45 mm\"\nwidth = \"195 mm\"")
        .replace("{ joint = \"bolts\", bolt = \"1/2 x 6 in\", count = 2, edge = \"2 in\", end = \"2 in\" }", ends)
}

const METRIC: &str = "{ joint = \"bolts\", bolt = \"M10 x 180 mm\", count = 2, edge = \"50 mm\", end = \"70 mm\" }";

/// `CD` of a case by how long it lasts.
fn cd(case: CaseKind) -> f64 {
    match case {
        CaseKind::Lying | CaseKind::Sitting | CaseKind::CodeUniform => 1.0,
        CaseKind::RowOnTheEdge => 1.15,
        CaseKind::Kneeling => 1.25,
        other => panic!("{other:?} is not worked here"),
    }
}

/// Two 1/2 by 6 in bolts, a 2x8 of spruce-pine-fir (G 0.42) across its grain on a 4x4 of Douglas fir-larch (G 0.50)
/// along it: `Fes = 6100 · 0.42^1.45 / √0.5`, `Fem = 11200 · 0.5`, `Kθ` 1.25, the least of six modes. The thread
/// of 1-1/4 in begins 4-3/4 in under the head, so 0.359 in of it lies in 3-1/2 in of post: less than a quarter.
fn lateral(d: f64) -> f64 {
    let (fes, fem, fyb) = (6100.0 * 0.42f64.powf(1.45) / d.sqrt(), 11200.0 * 0.5, 45_000.0);
    let (lm, ls, k) = (3.5, 1.5, 1.25);
    let (re, rt) = (fem / fes, lm / ls);
    let k1 = ((re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re.powi(3)).sqrt() - re * (1.0 + rt)) / (1.0 + re);
    let bent = |r: f64, length: f64| 2.0 * fyb * r * d * d / (3.0 * fem * length * length);
    let k2 = (2.0 * (1.0 + re) + bent(1.0 + 2.0 * re, lm)).sqrt() - 1.0;
    let k3 = (2.0 * (1.0 + re) / re + bent(2.0 + re, ls)).sqrt() - 1.0;
    let modes = [
        d * lm * fem / (4.0 * k),
        d * ls * fes / (4.0 * k),
        k1 * d * ls * fes / (3.6 * k),
        k2 * d * lm * fem / ((1.0 + 2.0 * re) * 3.2 * k),
        k3 * d * ls * fem / ((2.0 + re) * 3.2 * k),
        d * d / (3.2 * k) * (2.0 * fem * fyb / (3.0 * (1.0 + re))).sqrt(),
    ];
    modes.into_iter().fold(f64::INFINITY, f64::min)
}

/// `Cg` of two bolts `s` inches apart after equation 11.3-1.
fn group(d: f64, s: f64, em: f64, es: f64) -> f64 {
    let u = 1.0 + 180_000.0 * d.powf(1.5) * s / 2.0 * (1.0 / em + 1.0 / es);
    let m = u - (u * u - 1.0).sqrt();
    let rea = (em / es).min(es / em);
    m * (1.0 - m.powi(4)) / (2.0 * ((1.0 + rea * m * m) * (1.0 + m) - 1.0 + m.powi(4))) * (1.0 + rea) / (1.0 - m)
}

#[test]
fn two_bolts_by_the_nds() {
    let a = assessed(BED);
    // Spruce-pine-fir No. 2: E 1.4e6; a strip of 3 D of the rail; Douglas fir-larch No. 2: E 1.6e6, the whole post.
    let cg = group(0.5, 3.25, 1.6e6 * 12.25, 1.4e6 * 1.5 * 1.5);
    assert!(cg < 0.999 && cg > 0.9, "{cg}");
    let check = found(&a, "left rail, head end", Limit::Joint);
    // Full distances: 4 D to the loaded edge and to the end, 4 D apart, 1.5 D in the post.
    same("2 Z'", check.capacity.si, 2.0 * lateral(0.5) * cg * cd(check.case) * POUND);
    let split = found(&a, "left rail, head end", Limit::ShearAtScrews);
    let fv = 135.0 * cd(split.case);
    same("Vr'", split.capacity.si, 2.0 / 3.0 * fv * 1.5 * 5.25 * (5.25f64 / 7.25).powi(2) * POUND);
    let spacing = found(&a, "left rail, head end", Limit::Spacing);
    same("4 D to the loaded edge, the least", spacing.ratio, 1.0);
    assert_eq!(spacing.verdict, Verdict::Pass);
    assert!(a.members.iter().all(|m| m.checks.iter().all(|c| c.limit != Limit::Washer)));
}

/// The wet factor 0.7 and half the end distance, `CΔ` 0.5; closer than that, and closer than 4 D to the edge, there is
/// no strength but a failing distance.
#[test]
fn less_than_the_full_distances_by_the_nds() {
    let joint = |text: &str| {
        let a = assessed(text);
        let c = found(&a, "left rail, head end", Limit::Joint);
        c.capacity.si / cd(c.case)
    };
    let full = joint(BED);
    // Damp wood is softer too, by 0.9, which the two bolts share a little better.
    let shared = |softer: f64| group(0.5, 3.25, softer * 1.6e6 * 12.25, softer * 1.4e6 * 1.5 * 1.5);
    let damp = joint(&BED.replace("rules =", "moisture = \"damp\"\nrules ="));
    same("CM", damp, 0.7 * full * shared(0.9) / shared(1.0));
    same("CΔ", joint(&BED.replace("end = \"2 in\"", "end = \"1 in\"")), 0.5 * full);
    for (from, to) in [("end = \"2 in\"", "end = \"15/16 in\""), ("edge = \"2 in\"", "edge = \"1-15/16 in\"")] {
        let a = assessed(&BED.replace(from, to));
        let spacing = found(&a, "left rail, head end", Limit::Spacing);
        assert_eq!(spacing.verdict, Verdict::Fail, "{to}");
        let member = a.members.iter().find(|m| m.id == "left rail, head end").unwrap();
        assert!(member.checks.iter().all(|c| c.limit != Limit::Joint));
    }
    // In a post 1-7/16 in wide the bolts are nearer than 1.5 D to its edges, in one of 1-1/2 in they are not.
    for (wide, verdict) in [("1-1/2 in", Verdict::Pass), ("1-7/16 in", Verdict::Fail)] {
        let post = format!("thickness = \"3-1/2 in\"\nwidth = \"{wide}\"");
        let a = assessed(&BED.replace("size = \"4x4\"", &post));
        assert_eq!(found(&a, "left rail, head end", Limit::Spacing).verdict, verdict, "{wide}");
    }
}

/// A quarter of the length in the post is the most that threads may take of it: 12.3.7.2.
#[test]
fn threads_in_bearing() {
    let of = |threads: f64| bolt_diameter(inch(0.5), inch(0.406), inch(threads), inch(3.5)).unwrap().value;
    assert_eq!(of(0.875), inch(0.5));
    assert_eq!(of(0.876), inch(0.406));
    // A 5-3/4 in bolt: its smooth part ends 4-1/2 in under the head, 0.609 in of thread are inside.
    let bolt = Tables::embedded().fasteners().bolt("1/2 x 5-3/4 in").unwrap();
    same("threads inside", bolt.thread_inside(inch(5.0)).value, (5.0 - (5.75 - 1.25 - 0.109)) * INCH);
    // 5 in of wood, two washers of 0.109 in and a nut of 7/16 in; or with the thread of 1-1/4 in.
    let [least, most] = bolt.lengths_through(inch(5.0));
    same("shortest", least.value, (5.0 + 0.218 + 0.4375) * INCH);
    same("longest", most.value, (5.0 + 0.218 + 1.25) * INCH);
    assert!(bolt.fits(inch(5.0)) && !bolt.fits(inch(5.1)) && !bolt.fits(inch(4.2)));
}

/// Duration and `γM` of a case.
fn kmod(case: CaseKind) -> f64 {
    match case {
        CaseKind::Lying | CaseKind::Sitting | CaseKind::CodeUniform => 0.8,
        CaseKind::RowOnTheEdge | CaseKind::Kneeling | CaseKind::ClimbingIn => 0.9,
        other => panic!("{other:?} is not worked here"),
    }
}

/// Two M10 of class 4.6 (`fu` 400), 45 mm of C24 across its grain and 100 mm along it: (8.6) with (8.31) to (8.33),
/// `My = 0.3 fu d^2.6`, and a rope of a quarter of what the washers hold (34 mm with a hole of 11 mm, 3 fc,90,k), at
/// most a quarter of the mode.
fn characteristic(d: f64, washer: f64) -> f64 {
    let (rho, fu) = (350.0, 400.0);
    let along = 0.082 * (1.0 - 0.01 * d) * rho;
    let (f1, f2) = (along / (1.35 + 0.015 * d), along);
    let (t1, t2, my) = (45.0, 100.0, 0.3 * fu * d.powf(2.6));
    let (b, t): (f64, f64) = (f2 / f1, t2 / t1);
    let axial = 3.0 * 2.5 * std::f64::consts::FRAC_PI_4 * (washer * washer - 11.0 * 11.0);
    let rope = |mode: f64| mode + (axial / 4.0).min(0.25 * mode);
    let c =
        f1 * t1 * d / (1.0 + b) * ((b + 2.0 * b * b * (1.0 + t + t * t) + b.powi(3) * t * t).sqrt() - b * (1.0 + t));
    let dd = 1.05 * f1 * t1 * d / (2.0 + b)
        * ((2.0 * b * (1.0 + b) + 4.0 * b * (2.0 + b) * my / (f1 * d * t1 * t1)).sqrt() - b);
    let e = 1.05 * f1 * t2 * d / (1.0 + 2.0 * b)
        * ((2.0 * b * b * (1.0 + b) + 4.0 * b * (1.0 + 2.0 * b) * my / (f1 * d * t2 * t2)).sqrt() - b);
    let f = 1.15 * (2.0 * b / (1.0 + b)).sqrt() * (2.0 * my * f1 * d).sqrt();
    let modes = [f1 * t1 * d, f2 * t2 * d, rope(c), rope(dd), rope(e), rope(f)];
    modes.into_iter().fold(f64::INFINITY, f64::min)
}

#[test]
fn two_bolts_by_eurocode_5() {
    let a = assessed(&eurocode(METRIC));
    let check = found(&a, "left rail, head end", Limit::Joint);
    // 95 mm apart: nef = n^0.9 (a1/13d)^0.25.
    let row = 2f64.powf(0.9) * (95.0f64 / 130.0).powf(0.25);
    same("nef Fv,Rd", check.capacity.si, row * kmod(check.case) / 1.3 * characteristic(10.0, 34.0));
    let split = found(&a, "left rail, head end", Limit::ShearAtScrews);
    let splits = 14.0 * 45.0 * (145.0f64 / (1.0 - 145.0 / 195.0)).sqrt();
    same("F90,Rd", split.capacity.si, kmod(split.case) / 1.3 * splits);
    // a3,c 7 d at the rail's end, exactly kept.
    same("7 d", found(&a, "left rail, head end", Limit::Spacing).ratio, 1.0);
    // 3 d of 34 mm, 0.3 d of 3 mm.
    same("washers", found(&a, "left rail, head end", Limit::Washer).ratio, 1.0);
}

/// A wider washer adds rope until that is a quarter of the mode; then it adds nothing.
#[test]
fn the_washers_rope() {
    let with = |washer: &str| {
        let ends =
            METRIC.replace("count", &format!("washer = {{ across = \"{washer}\", thickness = \"4 mm\" }}, count"));
        let a = assessed(&eurocode(&ends));
        let c = found(&a, "left rail, head end", Limit::Joint);
        (c.capacity.si / kmod(c.case), found(&a, "left rail, head end", Limit::Washer).verdict)
    };
    let (little, too_small) = with("20 mm");
    let (more, _) = with("24 mm");
    let (most, enough) = with("34 mm");
    let (same_again, _) = with("60 mm");
    assert!(little < more && more < most, "{little} {more} {most}");
    same("capped", same_again, most);
    same("little", little / more, characteristic(10.0, 20.0) / characteristic(10.0, 24.0));
    assert_eq!((too_small, enough), (Verdict::Fail, Verdict::Pass));
    // 0.9 fu π/4 d3² of an M10: far above what washers hold.
    let steel = tension_capacity(millimetre(8.16), megapascal(400.0)).unwrap().value.value;
    same("steel", steel, 0.9 * 400.0 * std::f64::consts::FRAC_PI_4 * 8.16 * 8.16);
}

/// Each distance of table 8.4 on both sides: 4 d to the loaded edge, 7 d to the end, 5 d from bolt to bolt.
#[test]
fn distances_by_eurocode_5() {
    for (from, to, verdict) in [
        ("end = \"70 mm\"", "end = \"69 mm\"", Verdict::Fail),
        ("edge = \"50 mm\"", "edge = \"40 mm\"", Verdict::Pass),
        ("edge = \"50 mm\"", "edge = \"39 mm\"", Verdict::Fail),
        ("edge = \"50 mm\"", "edge = \"72.5 mm\"", Verdict::Pass),
        ("edge = \"50 mm\"", "edge = \"72.6 mm\"", Verdict::Fail),
    ] {
        let ends = METRIC.replace(from, to);
        assert_ne!(ends, METRIC);
        let a = assessed(&eurocode(&ends));
        assert_eq!(found(&a, "left rail, head end", Limit::Spacing).verdict, verdict, "{to}");
    }
}

/// A bolted rail is held in the middle of its post, wherever its own end is, and its load comes off the post's axis by
/// half of both; the hole is out of the post's width.
#[test]
fn where_a_bolted_rail_is_held() {
    let a = assessed(BED);
    let long = assessed(&BED.replace("end = \"2 in\"", "end = \"3 in\""));
    let demand = |a: &Assessment| found(a, "left rail, head end", Limit::Joint).demand.si;
    // Only the rail's own overhang differs.
    assert!((demand(&a) / demand(&long) - 1.0).abs() < 0.01);
    let post = found(&a, "left post, head end", Limit::Buckling);
    let steps = post.steps();
    let area = steps.iter().find(|s| s.symbol == "A").expect("an area");
    same("net area", area.value.si, 3.5 * (3.5 - 0.5625) * INCH * INCH);
    let turned = steps.iter().find(|s| s.symbol == "6 e1/d1").expect("an eccentricity");
    same("6 e/d", turned.value.si, 6.0 * 2.5 / 3.5);
}

#[test]
fn what_is_said_of_bolts() {
    let p = platform(BED);
    let list = Schedule::of(&p);
    let bolts = list.hardware.iter().find(|h| h.screw.starts_with("bolt 1/2 x 6 in")).expect("bolts in the list");
    assert_eq!(bolts.count, 8);
    let [hole] = bolts.holes.as_slice() else { panic!("{:?}", bolts.holes) };
    same("hole", hole.diameter[1].value, 0.5625 * INCH);
    // 80 in clear, half a post beyond at each end and 2 in on.
    let rail = list.pieces.iter().find(|p| p.what == "rail").expect("rails");
    same("rail", rail.length.value, (80.0 + 2.0 * (1.75 + 2.0)) * INCH);
    let a = assessed(BED);
    assert!(a.not_checked.iter().any(|n| n.what.contains("settle") && !n.carries_load));
    assert!(a.cautions.iter().all(|c| !c.contains("apart across its grain")));
    let apart = assessed(&BED.replace("\"2x8\"", "\"2x10\""));
    assert!(apart.cautions.iter().any(|c| c.contains("apart across its grain")));
}

/// One thin bolt is too weak; what is suggested was tried.
#[test]
fn remedies_for_bolts() {
    let weak = BED.replace(
        "bolt = \"1/2 x 6 in\", count = 2, edge = \"2 in\"",
        "bolt = \"1/4 x 5-1/2 in\", count = 1, edge = \"4-5/8 in\"",
    );
    let p = platform(&weak.replace("\"2x8\"", "\"2x10\""));
    let (a, remedies) = check_with_remedies(&p).unwrap();
    assert!(a.members.iter().any(|m| m.role == Role::EndJoint && m.verdict() == Verdict::Fail));
    let said: Vec<String> = remedies.iter().map(|r| r.sentence(p.units)).collect();
    assert!(said.iter().any(|s| s.contains("bolts") && s.contains("end joints")), "{said:?}");
    let ends = METRIC.replace("end = \"70 mm\"", "end = \"40 mm\"");
    let p = platform(&eurocode(&ends));
    let (_, remedies) = check_with_remedies(&p).unwrap();
    let said: Vec<String> = remedies.iter().map(|r| r.sentence(p.units)).collect();
    assert!(said.iter().any(|s| s.contains("past their bolts")), "{said:?}");
}

/// Bolts more than 5 in apart across the grain of one rail are told of, and fail nothing (12.5.1.3).
#[test]
fn bolts_far_apart_across_the_grain() {
    for (edge, told) in [("1.13 in", false), ("1.12 in", true)] {
        let a = assessed(&BED.replace("edge = \"2 in\"", &format!("edge = \"{edge}\"")));
        assert_eq!(a.cautions.iter().any(|c| c.contains("apart across its grain")), told, "{edge}: {:?}", a.cautions);
    }
}

/// How far two bolts bed in under a quarter of everything, `F / 2 kser` with `kser = ρm^1.5 d / 23` (EN 1995-1-1 Table
/// 7.1, from memory; C24: 420 kg/m³), and what a post presses on the floor with: 2 kN/m², mattress, bedding, timber.
#[test]
fn bolts_bed_in() {
    let only =
        ["lying", "sitting", "row", "kneeling", "climbing", "dropping"].map(|c| format!("{c} = {{ drop = true }}\n"));
    let text = format!("units = \"metric\"\n{}[cases]\n{}", eurocode(METRIC), only.concat());
    let (p, a) = built(&text);
    let (area, wood) = (80.0 * 60.0 * INCH * INCH, 420.0 * 9.806_65);
    let sticks = (14.0 * 3.5 * 1.5 * 60.0 + 2.0 * 80.0 * 1.5 * 3.5) * INCH.powi(3) + 2.0 * 80.0 * INCH * 0.045 * 0.195;
    let dead = 70.0 * POUND + 40.0 * area + sticks * wood;
    let force = (1.35 * dead + 1.5 * 2000.0 * area) / 4.0;
    let why = |what: &str| &a.not_checked.iter().find(|n| n.what.contains(what)).expect("a note").why;
    let beds = force / (2.0 * 420f64.powf(1.5) * 10.0 / 23.0);
    let said = why("settle");
    assert!(said.contains(&format!("about {beds:.2} mm")) && said.contains("up to 1 mm wider"), "{beds}: {said}");
    let post = p.posts.as_ref().expect("posts").lengths[0].value * 0.1 * 0.12 * wood;
    let presses = force + 1.35 * post;
    let said = why("floor under the posts");
    assert!(said.contains(&format!("up to {presses:.0} N")), "{presses}: {said}");
}
