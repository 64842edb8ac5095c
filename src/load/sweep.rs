//! Every place where a patch may be.

use smallvec::smallvec;

use super::patch::{Felt, Patch, Patches, Place, Position, Strips};
use crate::brief::Side;
use crate::platform::Platform;
use crate::quantity::unit::{metre, millimetre};
use crate::quantity::{AreaLoad, Force, Length};

/// Where a patch may be.
#[derive(Clone, Copy, Debug)]
pub(super) enum Zone {
    /// Anywhere.
    Anywhere,
    /// Against a long edge.
    LongEdges,
    /// Against the head or the foot.
    Ends,
    /// Within so much of an edge that people climb in from.
    Entry(Length),
}

/// No people at all.
pub(super) fn still(p: &Platform) -> Position {
    Position {
        patches: Patches::new(),
        place: Place { x: p.length / 2.0, y: p.width / 2.0 },
        note: "",
        felt: Felt::Both,
    }
}

/// Middles along the rails at which some edge of the spread patch crosses the edge of a strip, with
/// both ends of the platform: between two of these every slat's share is linear.
fn stops(p: &Platform, along: Length) -> Vec<Length> {
    let half = if along < p.length { along / 2.0 } else { p.length / 2.0 };
    let (least, most) = (half, p.length - half);
    let reach = half + p.mattress.spread();
    let mut out = vec![least, most];
    for edge in Strips::of(p).edges() {
        for x in [metre(*edge) - reach, metre(*edge) + reach] {
            if x > least && x < most {
                out.push(x);
            }
        }
    }
    in_order(out)
}

/// Parts into which each span of a slat over a centre beam is cut: where a load bends such a slat most
/// depends on how far the beam gives way. Beside its greatest a moment falls as `4·(s/L)²`, no faster than in a
/// simple span, and no place is further than half a part from a place tried: `4/80²` is 0.06 %.
const STEPS: u32 = 40;

/// Middles across: against each edge, beside each line of bearing, and the middle. With a slat on
/// two supports the moment is greatest with the patch in the middle, the shear with the patch just
/// clear of a support, and a support force with the patch against the edge. With a centre beam, the beam's
/// line and steps in each span as well, which come within a thousandth of the worst.
fn rows_across(p: &Platform, across: Length) -> Vec<Length> {
    let half = if across < p.width { across / 2.0 } else { p.width / 2.0 };
    let [l, r] = p.bearing_lines();
    let reach = half + p.mattress.spread();
    let mut out = vec![half, l + reach, (l + r) / 2.0, r - reach, p.width - half];
    if let Some(beam) = &p.centre_beam {
        out.extend([beam.at - reach, beam.at, beam.at + reach]);
        for [from, to] in [[l, beam.at], [beam.at, r]] {
            out.extend((1..STEPS).map(|k| from + (to - from) * (f64::from(k) / f64::from(STEPS))));
        }
    }
    out.retain(|y| *y >= half && *y <= p.width - half);
    in_order(out)
}

/// Ascending, each once.
fn in_order(mut places: Vec<Length>) -> Vec<Length> {
    places.sort_by(|a, b| a.value.total_cmp(&b.value));
    places.dedup_by(|a, b| (*a - *b).value.abs() < 1e-9);
    places
}

/// One patch over every place of a zone.
pub(super) fn over(
    p: &Platform,
    along: Length,
    across: Length,
    force: Force,
    zone: Zone,
    note: &'static str,
) -> Vec<Position> {
    let (along, across) = (smaller(along, p.length), smaller(across, p.width));
    let (xs, ys) = match zone {
        Zone::Anywhere => (stops(p, along), rows_across(p, across)),
        Zone::LongEdges => (stops(p, along), vec![across / 2.0, p.width - across / 2.0]),
        Zone::Ends => (vec![along / 2.0, p.length - along / 2.0], rows_across(p, across)),
        Zone::Entry(depth) => (stops(p, along), entry_rows(p, across, depth)),
    };
    let mut out = Vec::with_capacity(xs.len() * ys.len());
    for x in &xs {
        for (j, y) in ys.iter().enumerate() {
            let place = Place { x: *x, y: *y };
            let patches = smallvec![Patch::around(place, along, across, force).spread(p)];
            out.push(Position { patches, place, note, felt: felt(j == 0, j + 1 == ys.len()) });
        }
    }
    out
}

/// Who feels a place most that is the leftmost, or the rightmost, along its line across.
fn felt(leftmost: bool, rightmost: bool) -> Felt {
    match (leftmost, rightmost) {
        (true, true) => Felt::Both,
        (true, false) => Felt::Left,
        (false, true) => Felt::Right,
        (false, false) => Felt::Neither,
    }
}

/// Who feels two loads of this extent with their middles here most.
fn felt_of_two(p: &Platform, across: Length, [left, right]: [Length; 2]) -> Felt {
    // A place computed from the other of two may miss the edge by the last bit.
    let hair = millimetre(0.001);
    felt(left <= across / 2.0 + hair, right >= p.width - across / 2.0 - hair)
}

fn smaller(a: Length, b: Length) -> Length {
    if a < b { a } else { b }
}

fn entry_rows(p: &Platform, across: Length, depth: Length) -> Vec<Length> {
    let far = smaller(depth - across / 2.0, p.width / 2.0);
    let rows = rows_across(p, across);
    let mut out = Vec::new();
    for side in &p.entries {
        let (near, far) = match side {
            Side::Left => (across / 2.0, far),
            Side::Right => (p.width - far, p.width - across / 2.0),
        };
        out.extend([near, far]);
        out.extend(rows.iter().filter(|y| **y > near && **y < far));
    }
    in_order(out)
}

/// Pads side by side at the middle of each long edge.
pub(super) fn pads(p: &Platform, side: Length, force: Force, count: usize) -> Vec<Position> {
    let across = smaller(side, p.width);
    let mut out = Vec::new();
    for y in [across / 2.0, p.width - across / 2.0] {
        let first = p.length / 2.0 - side * (count as f64 - 1.0) / 2.0;
        let pad = |k: usize| {
            let place = Place { x: first + side * k as f64, y };
            Patch::around(place, smaller(side, p.length), across, force).spread(p)
        };
        let place = Place { x: p.length / 2.0, y };
        out.push(Position { patches: (0..count).map(pad).collect(), place, note: "", felt: Felt::Both });
    }
    out
}

/// A row of people along each long edge, slid from the head to the foot.
pub(super) fn rows(p: &Platform, along: Length, deep: Length, force: Force) -> Vec<Position> {
    let deep = smaller(deep, p.width);
    let mut out = Vec::new();
    for y in [deep / 2.0, p.width - deep / 2.0] {
        for x in stops(p, along) {
            let place = Place { x, y };
            out.push(Position {
                patches: smallvec![Patch::around(place, along, deep, force).spread(p)],
                place,
                note: "",
                felt: Felt::Both,
            });
        }
    }
    out
}

/// A bare foot in the middle of each span of each slat, with no mattress to spread it and nothing to share it.
pub(super) fn each_slat(p: &Platform, side: Length, force: Force) -> Vec<Position> {
    let b = p.slats.breadth();
    let [l, r] = p.bearing_lines();
    let middles = match &p.centre_beam {
        Some(beam) => vec![(l + beam.at) / 2.0, (beam.at + r) / 2.0],
        None => vec![p.width / 2.0],
    };
    let places = (0..p.slats.count).flat_map(|i| middles.iter().map(move |y| (i, *y)));
    places
        .map(|(i, y)| {
            let place = Place { x: p.slats.centre(i), y };
            let along = smaller(side, b);
            Position {
                patches: smallvec![Patch::around(place, along, side, force)],
                place,
                note: "no mattress",
                felt: Felt::Neither,
            }
        })
        .collect()
}

/// Two children 400 mm apart, one behind the other or side by side, the heavier on either hand.
pub(super) fn pairs(p: &Platform, side: Length, forces: [Force; 2]) -> Vec<Position> {
    let apart = millimetre(400.0);
    let half = side / 2.0;
    let mut out = Vec::new();
    let mut push = |a: Place, b: Place, note| {
        let [at_a, at_b] = [a, b].map(|place| Patch::around(place, side, side, forces[0]).spread(p));
        let felt = felt_of_two(p, side, [a.y, b.y]);
        for (place, [first, second]) in [(a, forces), (b, [forces[1], forces[0]])] {
            let patches = smallvec![Patch { force: first, ..at_a }, Patch { force: second, ..at_b }];
            out.push(Position { patches, place, note, felt });
        }
    };
    // Places of the one nearer the head or the left rail. Where either has a stop, both must stop.
    let nearer = |all: Vec<Length>, end: Length| {
        let both: Vec<Length> = all.iter().flat_map(|v| [*v, *v - apart]).collect();
        in_order(both.into_iter().filter(|v| *v >= half && *v + apart <= end - half).collect())
    };
    let (xs, ys) = (stops(p, side), rows_across(p, side));
    for x in nearer(xs.clone(), p.length) {
        for y in &ys {
            push(Place { x, y: *y }, Place { x: x + apart, y: *y }, "two, one behind the other");
        }
    }
    // Two loads bend a span most somewhere between its middle and the edge, by their weights and the
    // room there is: tried in eight steps, which comes within a hundredth of it.
    let room = p.width - side - apart;
    let between = (0..=8).map(|k| half + room * (f64::from(k) / 8.0));
    for x in xs {
        for y in nearer(ys.iter().copied().chain(between.clone()).collect(), p.width) {
            push(Place { x, y }, Place { x, y: y + apart }, "two, side by side");
        }
    }
    out
}

/// The code's uniform load over the whole and over each half.
pub(super) fn halves(p: &Platform, load: AreaLoad) -> Vec<Position> {
    let (zero, l, w) = (Length::default(), p.length, p.width);
    let areas = [
        ([zero, l], [zero, w], "on the whole"),
        ([zero, l / 2.0], [zero, w], "on the head half"),
        ([l / 2.0, l], [zero, w], "on the foot half"),
        ([zero, l], [zero, w / 2.0], "on the left half"),
        ([zero, l], [w / 2.0, w], "on the right half"),
    ];
    areas
        .into_iter()
        .map(|(x, y, note)| {
            let force = load * ((x[1] - x[0]) * (y[1] - y[0]));
            let place = Place { x: (x[0] + x[1]) / 2.0, y: (y[0] + y[1]) / 2.0 };
            Position { patches: smallvec![Patch { x, y, force }], place, note, felt: Felt::Both }
        })
        .collect()
}
