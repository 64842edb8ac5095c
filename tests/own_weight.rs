//! What the timber of a platform weighs, added up from its sticks, and where what hangs on it hangs.
//!
//! Weight of wood: NDS Supplement 3.1.3, from memory, at 15 % moisture.

mod support;

use slatwright::load::{Dead, Hung, ladder_weight};
use support::{INCH, platform, same};

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
    for more in ["", LADDER] {
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
