//! End rails under a push, worked by hand from statics and the clauses in both families: rails hung between them, and
//! crossed diagonals on all four sides.
//!
//! Reference values, factors and clauses of the NDS 2018 and EN 1995-1-1: from memory; the same clauses are held
//! against printed columns in `tests/rules` and `tests/limit_state`. The pushes are those of `tests/posts.rs`.

mod support;

use slatwright::check::{Assessment, Limit, Schedule, Verdict};
use slatwright::load::CaseKind;
use slatwright::tables::Tables;
use support::dowel::Dowel;
use support::{INCH, POUND, PSI, built, exchanged, found, same};

/// Only lying and the push are left. Rails of 4x8 hang by two lags in each end; end rails of 2x10 are bolted to the
/// sides of 4x4 posts, their bolts 60 + 2 · 3-1/2 + 2 · 1-3/4 in apart, 3-1/2 in from the middles of the rails.
const BED: &str = r##"
[platform]
length = "80 in"
width = "60 in"
[mattress]
thickness = "8 in"
weight = "70 lb"
[[sleeper]]
weight = "150 lb"
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
size = "4x8"
ends = { joint = "lags", lag = "3/8 x 6 in", count = 2, into = "end grain", through = "1-1/2 in", edge = "2 in" }
[end_rails]
wood = "douglas fir-larch no2"
size = "2x10"
rise = "1 in"
ends = { joint = "bolts", bolt = "3/8 x 6 in", count = 2, edge = "2-1/2 in", end = "2-3/4 in" }
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
length = "30 in"
[bracing.diagonals]
sides = ["left", "right", "head", "foot"]
wood = "douglas fir-larch no2"
size = "4x4"
screws = { lag = "1/4 x 5 in", count = 2 }
[cases]
sitting = { drop = true }
row = { drop = true }
kneeling = { drop = true }
climbing = { drop = true }
dropping = { drop = true }
bare = { drop = true }
uniform = { drop = true }
"##;

const SPAN: f64 = 60.0 + 2.0 * 3.5 + 2.0 * 1.75;
const TO_RAIL: f64 = 1.75 + 1.75;

/// Over one side, for half of a tenth of everything is less.
const PUSH: f64 = 300.0;

fn open(a: &Assessment) -> Vec<String> {
    a.not_checked.iter().filter(|n| n.carries_load).map(|n| n.what.clone()).collect()
}

/// Both rails press with 300 N, 3-1/2 in from the ends: `H a` sideways in all the middle, beside what everybody lying
/// does. `Fb` 900 · 1.1 psi, flat times 1.2, `CD` 1.6; `CL` with `le = 1.63 lu + 3 d`; NDS 3.9.2 without compression:
/// `fb1/Fb1' + fb2/{Fb2' [1 - (fb1/FbE)²]}`.
#[test]
fn an_end_rail_pressed_sideways_by_the_nds() {
    let (_, a) = built(BED);
    assert_eq!(open(&a), Vec::<String>::new());
    let failing: Vec<&str> = a.members.iter().filter(|m| m.verdict() == Verdict::Fail).map(|m| m.id.as_str()).collect();
    assert!(failing.is_empty(), "{failing:?}");
    let lying = found(&a, "head end rail", Limit::Bending);
    assert_eq!(lying.case, CaseKind::Lying);
    let (b, d) = (1.5f64, 9.25f64);
    let fb1 = lying.demand.si / PSI;
    let slender = (1.63 * SPAN + 3.0 * d) * d / b / b;
    let critical = 1.2 * 580_000.0 / slender;
    let star = 900.0 * 1.1 * 1.6;
    let half = (1.0 + critical / star) / 1.9;
    let stability = half - (half * half - critical / star / 0.95).sqrt();
    let fb2 = PUSH / POUND * TO_RAIL / (d * b * b / 6.0);
    let flat = star * 1.2 * (1.0 - (fb1 / critical).powi(2));
    let bending = found(&a, "head end rail, pushed along", Limit::Bending);
    assert_eq!(bending.case, CaseKind::Racking);
    same("both ways", bending.ratio, fb1 / (star * stability) + fb2 / flat);
    // Down and sideways at its end, as one force.
    let down = found(&a, "head end rail, left end", Limit::Joint).demand.si;
    let shear = found(&a, "foot end rail, pushed along", Limit::Shear);
    same("shear", shear.demand.si, 1.5 * down.hypot(PUSH) / (b * d * INCH * INCH));
    same("Fv'", shear.capacity.si / PSI, 180.0 * 1.6);
}

/// 300 N straight off each post pull on both bolts, of which each holds what the washer presses on: `Fc⊥` 625 psi.
#[test]
fn end_rails_are_pushed_off_their_posts() {
    let (_, a) = built(BED);
    let hangs = found(&a, "foot end rail, right end", Limit::Joint);
    let washer = Tables::embedded().fasteners().bolt("3/8 x 6 in").expect("a bolt").washer;
    let inches = |l: slatwright::quantity::Length| l.value / INCH;
    let quarter = std::f64::consts::FRAC_PI_4;
    let wood = 625.0 * quarter * (inches(washer.across).powi(2) - inches(washer.hole).powi(2));
    let off = found(&a, "foot end rail, right end, pushed along", Limit::Joint);
    same("both parts", off.ratio, hangs.demand.si / (hangs.capacity.si * 1.6) + PUSH / (2.0 * wood * POUND));
}

/// Across, each end of an end rail hands 150 N to its post along itself: leaning, and pulled towards its own end, 2-3/4 in
/// off where 7 D are asked (2-5/8 in).
#[test]
fn end_rails_push_their_posts_across() {
    let (_, a) = built(BED);
    let hangs = found(&a, "head end rail, left end", Limit::Joint);
    let pushed = found(&a, "head end rail, left end, pushed across", Limit::Joint);
    same("force", pushed.demand.si, hangs.demand.si.hypot(150.0));
    let lean = (150.0 / hangs.demand.si).atan().to_degrees();
    let straight = Dowel { d: 0.375, fyb: 45_000.0, lengths: [1.5, 3.5], side: 90.0, main: 0.0 };
    let leaning = Dowel { side: 90.0 - lean, main: lean, ..straight };
    same("two bolts", pushed.capacity.si, hangs.capacity.si * 1.6 * leaning.holds() / straight.holds());
}

/// The lags in a rail's ends carry it and hold it sideways: across the rail's grain either way, and leaning to the end
/// rail's. Two lags, 3-1/4 in apart, 1-3/4 in from the rail's sides, where 4 D are asked (1-1/2 in).
#[test]
fn a_rail_between_end_rails_is_pushed_across() {
    let (_, a) = built(BED);
    let hangs = found(&a, "left rail, head end", Limit::Joint);
    let pushed = found(&a, "left rail, head end, pushed across", Limit::Joint);
    same("force", pushed.demand.si, hangs.demand.si.hypot(150.0));
    let lean = (150.0 / hangs.demand.si).atan().to_degrees();
    let straight = Dowel { d: 0.265, fyb: 45_000.0, lengths: [1.5, 6.0 - 1.5 - 0.21875], side: 90.0, main: 90.0 };
    let leaning = Dowel { side: 90.0 - lean, ..straight };
    same("two lags", pushed.capacity.si, hangs.capacity.si * 1.6 * leaning.holds() / straight.holds());
    // In a rail of 1-1/2 in the lags stand 3/4 in from its sides: less than the least.
    let thin = exchanged(BED, "size = \"4x8\"", "size = \"2x8\"");
    let (_, a) = built(&thin);
    assert_ne!(a.verdict(), Verdict::Pass, "{:?}", open(&a));
    assert_eq!(found(&a, "left rail, head end", Limit::Joint).verdict, Verdict::Pass);
}

/// Along the rails one of a crossed pair takes all of 300 N, across them each takes half. So one foot alone must be held
/// with 300 N.
#[test]
fn diagonals_under_end_rails() {
    let (p, a) = built(BED);
    // The posts stand inside the end rails, or outside: inside counts.
    let apart = 80.0 - 3.5;
    let side = found(&a, "left diagonals", Limit::Screw);
    same("along", side.demand.si, PUSH * 30f64.hypot(apart) / apart);
    let head = found(&a, "head diagonals", Limit::Screw);
    same("across", head.demand.si, 150.0 * 30f64.hypot(SPAN) / SPAN);
    same("span", p.end_rails.as_ref().expect("end rails").span(&p).value / INCH, SPAN);
    let feet = a.not_checked.iter().find(|n| n.what.contains("feet")).expect("the feet");
    assert!(feet.why.contains("67.4 lb"), "{}", feet.why);
}

/// A rail that only rests on its end rail hands no push on.
#[test]
fn rails_that_rest_hand_no_push_on() {
    let rests = exchanged(
        BED,
        "joint = \"lags\", lag = \"3/8 x 6 in\", count = 2, into = \"end grain\", through = \"1-1/2 in\", edge = \"2 in\"",
        "joint = \"bearing\", bearing = \"1-1/2 in\"",
    );
    let (_, a) = built(&exchanged(&rests, "rise = \"1 in\"\n", ""));
    let open = open(&a);
    for what in ["the head end rail and its joints, pushed along", "the left rail, foot end, pushed across"] {
        assert!(open.iter().any(|w| w == what), "{open:?}");
    }
    assert_eq!(a.verdict(), Verdict::NotChecked);
}

/// C24 of 80 by 240 mm: `σm,y/fm,y + 0.7 σm,z/fm,z` or the other way round, `fm,k` 24 N/mm², `kh` 1.13 flat, `kmod` 0.9,
/// `γM` 1.3; each rail presses with 1.5 · 300 N.
#[test]
fn an_end_rail_pressed_sideways_by_eurocode_5() {
    let text = BED
        .replace("[platform]", "rules = \"ec5\"\n[platform]")
        .replace("\"douglas fir-larch no2\"", "\"C24\"")
        .replace("\"C24\"\nsize = \"2x10\"", "\"C24\"\nsize = \"80x240 mm\"")
        .replace("through = \"1-1/2 in\"", "through = \"80 mm\"")
        .replace("\"3/8 x 6 in\", count = 2, edge", "\"M10 x 200 mm\", count = 2, edge")
        .replace("3/8 x 6 in\", count = 2, into", "3/8 x 8 in\", count = 2, into");
    let (_, a) = built(&text);
    let design = 0.9 / 1.3;
    let (b, d) = (0.08f64, 0.24f64);
    let y = found(&a, "head end rail", Limit::Bending).demand.si / (24e6 * design);
    let kh = (0.15f64 / b).powf(0.2).min(1.3);
    let z = 1.5 * PUSH * TO_RAIL * INCH / (d * b * b / 6.0) / (24e6 * kh * design);
    let bending = found(&a, "head end rail, pushed along", Limit::Bending);
    same("both ways", bending.ratio, (y + 0.7 * z).max(0.7 * y + z));
}

/// What is cut and what holds it. An end rail laps 1-3/4 and 2-3/4 in on each post beyond 60 + 2 · 3-1/2 in; a post reaches
/// half an end rail above where it holds that; diagonals from joint to joint.
#[test]
fn what_is_cut_and_bought() {
    let list = Schedule::of(&support::platform(BED));
    for (what, count, inches) in [
        ("rail", 2, 80.0),
        ("end rail", 2, 67.0 + 2.0 * 4.5),
        ("post", 4, 30.0 + 9.25 / 2.0),
        ("diagonal along the rails", 4, 76.5f64.hypot(30.0)),
        ("diagonal across the rails", 4, SPAN.hypot(30.0)),
    ] {
        let piece = list.pieces.iter().find(|p| p.what == what).unwrap_or_else(|| panic!("{what}"));
        assert_eq!(piece.count, count, "{what}");
        same(what, piece.length.value / INCH, inches);
    }
    // Two in each of four rail ends and of four end rail ends; two in each of both ends of eight diagonals.
    for (what, screw, count) in [
        ("end rail to rail's ends", "3/8 x 6 in", 8),
        ("end rail to posts", "bolt 3/8 x 6 in, nut, 2 washers", 8),
        ("diagonal along the rails to what it meets", "1/4 x 5 in", 16),
        ("diagonal across the rails to what it meets", "1/4 x 5 in", 16),
    ] {
        let item = list.hardware.iter().find(|h| h.what == what).unwrap_or_else(|| panic!("{:#?}", list.hardware));
        assert_eq!((item.screw.as_str(), item.count), (screw, count), "{what}");
    }
}

/// Rails that rest on end rails lap on them, and knee braces are as long as their two legs say: 12√2 in, two screws in each
/// end, four of them. A post that rails are screwed to reaches their upper edge, half of 7-1/4 in above their middle; diagonals
/// along such rails go from screw to screw, 80 + 2 · 1-1/2 in.
#[test]
fn what_is_cut_and_bought_of_other_frames() {
    let rests = exchanged(
        BED,
        "joint = \"lags\", lag = \"3/8 x 6 in\", count = 2, into = \"end grain\", through = \"1-1/2 in\", edge = \"2 in\"",
        "joint = \"bearing\", bearing = \"1-1/2 in\"",
    );
    let list = Schedule::of(&support::platform(&exchanged(&rests, "rise = \"1 in\"\n", "")));
    let rail = list.pieces.iter().find(|p| p.what == "rail").expect("rails");
    same("rail", rail.length.value / INCH, 83.0);
    assert_eq!(rail.note.as_deref(), Some("with a lap on the end rail at each end, as checked"));
    assert!(list.hardware.iter().any(|h| h.what == "rail's ends on end rails" && h.count == 0));
    let (before, rest) = BED.split_once("[end_rails]").expect("end rails");
    let (_, after) = rest.split_once("[posts]").expect("posts");
    let knees = "[bracing.knees]\nwood = \"douglas fir-larch no2\"\nsize = \"2x4\"\nrise = \"12 in\"\nrun = \"12 in\"\n\
                 screws = { lag = \"1/4 x 3 in\", count = 2 }\n[posts]";
    let text = format!("{before}{knees}{after}")
        .replace("size = \"4x8\"", "size = \"2x8\"")
        .replace("into = \"end grain\", through = \"1-1/2 in\"", "into = \"side grain\", end = \"1-1/2 in\"")
        .replace("3/8 x 6 in", "3/8 x 4 in");
    let list = Schedule::of(&support::platform(&text));
    for (what, count, inches) in [
        ("knee brace", 4, 12.0 * 2f64.sqrt()),
        ("post", 4, 30.0 + 7.25 / 2.0),
        ("diagonal along the rails", 4, 83f64.hypot(30.0)),
    ] {
        let piece = list.pieces.iter().find(|p| p.what == what).unwrap_or_else(|| panic!("{what}"));
        assert_eq!(piece.count, count, "{what}");
        same(what, piece.length.value / INCH, inches);
    }
    let item = list.hardware.iter().find(|h| h.what == "knee brace to what it meets").expect("screws");
    assert_eq!(item.count, 16);
}

/// Lags of 1/4 in side by side across a diagonal that pulls along its own grain: 1-1/2 D to each edge and between them (NDS
/// Tables 12.5.1C and D); the sheet says 7 D to its end. By Eurocode 5, above 6 mm as bolts: 3 d to the edges, 4 d
/// between, 80 mm to the end (Table 8.4).
#[test]
fn the_screws_of_a_brace_stand_side_by_side() {
    let six =
        exchanged(BED, "screws = { lag = \"1/4 x 5 in\", count = 2 }", "screws = { lag = \"1/4 x 5 in\", count = 6 }");
    for (count, text) in [(2.0, BED.to_owned()), (6.0, six)] {
        let spacing = found(&built(&text).1, "left diagonals", Limit::Spacing).clone();
        same("width", spacing.demand.si / INCH, 0.25 * (2.0 * 1.5 + (count - 1.0) * 1.5));
        same("brace", spacing.capacity.si / INCH, 3.5);
    }
    let eight = exchanged(BED, "lag = \"1/4 x 5 in\", count = 2", "lag = \"3/8 x 5 in\", count = 8");
    assert_eq!(found(&built(&eight).1, "left diagonals", Limit::Spacing).verdict, Verdict::Fail);
    let list = Schedule::of(&support::platform(BED));
    let item = list.hardware.iter().find(|h| h.what.starts_with("diagonal along")).expect("screws");
    let inches: Vec<f64> = item.pattern.iter().map(|(_, l)| l.value / INCH).collect();
    for (ours, by_hand) in inches.iter().zip([1.75, 0.375, 0.375]) {
        same("pattern", *ours, by_hand);
    }
    assert_eq!(inches.len(), 3);
    let text = BED.replace("[platform]", "rules = \"ec5\"\n[platform]").replace("\"douglas fir-larch no2\"", "\"C24\"");
    let text = text.replace("\"C24\"\nsize = \"4x4\"\nscrews", "\"C24\"\nsize = \"60x80 mm\"\nscrews");

    let spacing = found(&built(&text).1, "head diagonals", Limit::Spacing).clone();
    same("width", spacing.demand.si, 0.00635 * (2.0 * 3.0 + 4.0));
    let screws = found(&built(&text).1, "head diagonals", Limit::Screw).clone();
    assert!(
        screws.remark.as_deref().is_some_and(|r| r.contains("3-1/8 in or more") || r.contains("80 mm or more")),
        "{:?}",
        screws.remark
    );
}
