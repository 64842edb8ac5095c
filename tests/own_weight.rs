//! What the timber of a platform weighs, added up from its sticks, and where what hangs on it hangs.
//!
//! Weight of wood: NDS Supplement 3.1.3, from memory, at 15 % moisture.

mod support;

use slatwright::brief::Edge;
use slatwright::check::Schedule;
use slatwright::load::{Dead, Hung, Push, guard_on, ladder_weight, push};
use support::{INCH, POUND, exchanged, platform, same};

/// End rails, a centre beam on two legs and four posts; Douglas fir-larch and, so that nothing is taken for another,
/// spruce-pine-fir for some of it.
const BED: &str = r##"
[platform]
length = "80 in"
width = "60 in"
height = "30 in"
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
wood = "spruce-pine-fir no2"
size = "2x3"
rise = "2 in"
screws = { lag = "1/4 x 3 in", pitch = "4 in", first = "4 in" }
[centre_beam]
wood = "spruce-pine-fir no2"
size = "2x6"
ends = { joint = "bearing", bearing = "1-1/2 in" }
legs = { wood = "douglas fir-larch no2", size = "2x4", count = 2, top = "braced" }
[rails]
wood = "douglas fir-larch no2"
size = "2x8"
ends = { joint = "bearing", bearing = "3-1/2 in" }
[end_rails]
wood = "spruce-pine-fir no2"
size = "4x6"
ends = { joint = "bearing", bearing = "3-1/2 in" }
inset = "1 in"
[posts]
wood = "douglas fir-larch no2"
size = "4x4"
length = "24 in"
[bracing]
wall = ["head"]
"##;

const LADDER: &str = r##"
[ladder]
side = "foot"
rungs = { wood = "douglas fir-larch no2", size = "2x4" }
width = "14 in"
pitch = "8 in"
first = "8 in"
out = "12 in"
stringers = { wood = "douglas fir-larch no2", size = "2x4" }
ends = { joint = "housed", depth = "1/2 in" }
top = { lag = "1/4 x 3 in", count = 2 }
"##;

/// Bedding, Pa: a choice, no source.
const BEDDING: f64 = 40.0;

/// Newtons per cubic inch of wood of specific gravity `g`.
fn timber(g: f64) -> f64 {
    62.4 * 0.453_592_37 * 9.806_65 / 1728.0 * g / (1.0 + g * 0.009 * 15.0) * 1.15
}

/// Slats between the rails, cleats, rails and beam as long as the platform, end rails between their posts: 60 in, two
/// rails of 1-1/2 in and twice 1 in. Legs: 30 in less slats of 1-1/2 in and a beam of 5-1/2 in.
#[test]
fn timber_by_the_stick() {
    let fir = 14.0 * 1.5 * 3.5 * 60.0 + 2.0 * 1.5 * 7.25 * 80.0 + 4.0 * 3.5 * 3.5 * 24.0 + 2.0 * 1.5 * 3.5 * 23.0;
    let spruce = 2.0 * 1.5 * 2.5 * 80.0 + 1.5 * 5.5 * 80.0 + 2.0 * 3.5 * 5.5 * 65.0;
    let by_hand = fir * timber(0.5) + spruce * timber(0.42);
    for more in [String::new(), LADDER.into(), LADDER.replace("foot", "left")] {
        let p = platform(&format!("{BED}{more}"));
        same("timber", Dead::of(&p).timber(&p).value, by_hand);
    }
}

/// A ladder stands on the floor, and half of it hangs on the edge it leans on: on an end rail where there is one, half
/// way along it at the worst, which is twice as much spread over its span of 65 and 3-1/2 in; else on both rails.
#[test]
fn half_a_ladder_hangs() {
    let p = platform(&format!("{BED}{LADDER}"));
    let half = ladder_weight(p.ladder.as_ref().expect("a ladder")).value / 2.0;
    let hung = Hung::of(&p);
    same("all", hung.all.value, half);
    same("on the foot's end rail", hung.end_rail[1].value, 2.0 * half / (68.5 * INCH));
    assert!(hung.end_rail[0].value == 0.0 && hung.rail.iter().all(|r| r.value == 0.0));
    let side = platform(&format!("{BED}{}", LADDER.replace("foot", "left")));
    let hung = Hung::of(&side);
    same("on the left rail", hung.rail[0].value, 2.0 * half / (80.0 * INCH));
    assert!(hung.rail[1].value == 0.0);
    assert!(hung.end_rail.iter().all(|r| r.value == 0.0));
}

/// Two stringers from the floor, 12 in out, to the slats' top at 30 in; three rungs, 8 in apart, 14 in wide and 1/2 in
/// into the stringers at both ends, so 14-1/2 in to the middles of what they rest on. A 1 in pipe of schedule 40
/// weighs 1.68 lb/ft (ASME B36.10, from memory).
#[test]
fn a_ladder_by_the_stick() {
    let weight = |rungs: &str| {
        let p = platform(&format!(
            "{BED}{}",
            exchanged(
                LADDER,
                "rungs = { wood = \"douglas fir-larch no2\", size = \"2x4\" }",
                &format!("rungs = {rungs}")
            )
        ));
        ladder_weight(p.ladder.as_ref().expect("a ladder")).value
    };
    let stringers = 2.0 * 1.5 * 3.5 * (30.0_f64 * 30.0 + 12.0 * 12.0).sqrt() * timber(0.5);
    let treads = 3.0 * 1.5 * 3.5 * 14.5 * timber(0.42);
    same("treads", weight("{ wood = \"spruce-pine-fir no2\", size = \"2x4\" }"), stringers + treads);
    let rounds = 3.0 * std::f64::consts::PI / 4.0 * 1.25 * 1.25 * 14.5 * timber(0.42);
    same("rounds", weight("{ wood = \"spruce-pine-fir no2\", diameter = \"1-1/4 in\" }"), stringers + rounds);
    let pipes = weight("{ pipe = \"1 in schedule 40\" }") - stringers;
    let p = platform(&format!("{BED}{LADDER}"));
    let cut = Schedule::of(&p).pieces;
    let tread = cut.iter().find(|p| p.what == "tread").expect("treads");
    same("a tread, let in at both ends", tread.length.value, 15.0 * INCH);
    assert_eq!(tread.count, 3);
    let a_foot = pipes / (3.0 * 14.5 / 12.0) / POUND;
    assert!((a_foot - 1.68).abs() <= 0.005, "{a_foot} lb/ft");
}

/// A guard on the left rail, 80 in long: its top 14 in above the slats. Posts reach from the rail's lower edge, 2 in
/// under a cleat of 2-1/2 in and slats of 1-1/2 in, to the top: 20 in; flush with the ends and at most 30 in
/// apart they are four. Bars of 1-1/2 in, at most 3 in apart, are as long as the posts: 80 in have room for
/// `80/4.5` of them, and as cut (22 in between two posts) five in each bay.
#[test]
fn a_guard_by_the_stick() {
    let guard = r#"
[guard]
sides = ["left"]
top = "14 in"
rail = { wood = "douglas fir-larch no2", size = "2x4", screws = { lag = "1/4 x 3 in", count = 2 } }
bars = { wood = "spruce-pine-fir no2", size = "2x2", gap = "3 in" }
[guard.posts]
wood = "douglas fir-larch no2"
size = "4x4"
pitch = "30 in"
screws = { lag = "3/8 x 5 in", count = 4, spacing = "4 in", heads = "rail" }
"#;
    let weight = |text: &str| {
        let p = platform(&format!("{BED}{text}"));
        let (line, length) = guard_on(&p, p.guard.as_ref().expect("a guard"), Edge::Left);
        same("length", length.value, 80.0 * INCH);
        same("on the rail", Hung::of(&p).rail[0].value, line.value);
        line.value * 80.0 * INCH
    };
    let bare = (80.0 * 1.5 * 3.5 + 4.0 * 3.5 * 3.5 * 20.0) * timber(0.5);
    let bars = 80.0 / (1.5 + 3.0) * 1.5 * 1.5 * 20.0 * timber(0.42);
    same("with bars", weight(guard), bare + bars);
    let cut = Schedule::of(&platform(&format!("{BED}{guard}")));
    let of = |what: &str| {
        let piece = cut.pieces.iter().find(|p| p.what == what).expect(what);
        (piece.count, (piece.length.value / INCH * 1e6).round() / 1e6)
    };
    assert_eq!(of("guard top rail"), (1, 80.0));
    assert_eq!(of("guard post"), (4, 20.0));
    assert_eq!(of("guard bar"), (15, 20.0));
    let bar = guard.lines().find(|l| l.starts_with("bars")).expect("bars");
    let lower = "lower = { wood = \"spruce-pine-fir no2\", size = \"2x4\", count = 2, gap = \"1 in\" }";
    let lowers = 2.0 * 80.0 * 1.5 * 3.5 * timber(0.42);
    same("with two lower rails", weight(&exchanged(guard, bar, lower)), bare + lowers);
}

/// A tenth of everything: timber, a mattress of 70 lb, bedding of 40 Pa (a choice, no source) and 220 lb of a sleeper;
/// against 300 N by one sleeper. Of two sides one takes half of what is spread, or all of what pushes above it.
#[test]
fn what_pushes_sideways() {
    let p = platform(BED);
    let all = Dead::of(&p).timber(&p).value + (70.0 + 220.0) * POUND + BEDDING * 80.0 * 60.0 * INCH * INCH;
    let Push { spread, at_one_place } = push(&p);
    same("spread", spread.value, all / 10.0);
    same("by one", at_one_place.value, 300.0);
    assert!(all / 20.0 < 300.0, "else one side takes half of what is spread");
    same("on one side", push(&p).on_one_side().value, 300.0);
    let many = BED.replace("weight = \"220 lb\"", "weight = \"220 lb\"\n[[sleeper]]\nweight = \"900 lb\"\ncount = 2");
    let heavy = push(&platform(&many));
    same("half", heavy.on_one_side().value, (all + 1800.0 * POUND) / 20.0);
}
