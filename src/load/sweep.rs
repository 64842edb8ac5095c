//! Every place where a patch may be.

use super::patch::{Felt, Patch, Place, Position, Strips};
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
    Position { patches: Vec::new(), place: Place { x: p.length / 2.0, y: p.width / 2.0 }, note: "", felt: Felt::Both }
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
    out.sort_by(|a, b| a.value.total_cmp(&b.value));
    out.dedup_by(|a, b| (*a - *b).value.abs() < 1e-6);
    out
}

/// Middles across: against each edge, beside each line of bearing, and the middle. With a slat on
/// two supports the moment is greatest with the patch in the middle, the shear with the patch just
/// clear of a support, and a support force with the patch against the edge.
fn rows_across(p: &Platform, across: Length) -> Vec<Length> {
    let half = if across < p.width { across / 2.0 } else { p.width / 2.0 };
    let [l, r] = p.bearing_lines();
    let reach = half + p.mattress.spread();
    let mut out = vec![half, l + reach, p.width / 2.0, r - reach, p.width - half];
    out.retain(|y| *y >= half && *y <= p.width - half);
    out.sort_by(|a, b| a.value.total_cmp(&b.value));
    out.dedup_by(|a, b| (*a - *b).value.abs() < 1e-6);
    out
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
        for y in &ys {
            let place = Place { x: *x, y: *y };
            let patches = vec![Patch::around(place, along, across, force).spread(p)];
            out.push(Position { patches, place, note, felt: felt(p, across, *y) });
        }
    }
    out
}

/// Who feels a load of this extent with its middle here most.
fn felt(p: &Platform, across: Length, y: Length) -> Felt {
    match (y <= across / 2.0, y >= p.width - across / 2.0) {
        (true, true) => Felt::Both,
        (true, false) => Felt::Left,
        (false, true) => Felt::Right,
        (false, false) => Felt::Neither,
    }
}

fn smaller(a: Length, b: Length) -> Length {
    if a < b { a } else { b }
}

fn entry_rows(p: &Platform, across: Length, depth: Length) -> Vec<Length> {
    let near = across / 2.0;
    let far = smaller(depth - across / 2.0, p.width / 2.0);
    let mut out = Vec::new();
    for side in &p.entries {
        for y in [near, far] {
            out.push(match side {
                Side::Left => y,
                Side::Right => p.width - y,
            });
        }
    }
    out
}

/// A row of people along each long edge: at the head, in the middle, at the foot.
pub(super) fn rows(p: &Platform, along: Length, deep: Length, force: Force) -> Vec<Position> {
    let deep = smaller(deep, p.width);
    let mut out = Vec::new();
    for y in [deep / 2.0, p.width - deep / 2.0] {
        for x in [along / 2.0, p.length / 2.0, p.length - along / 2.0] {
            let place = Place { x, y };
            out.push(Position {
                patches: vec![Patch::around(place, along, deep, force).spread(p)],
                place,
                note: "",
                felt: Felt::Both,
            });
        }
    }
    out
}

/// A bare foot in the middle of each slat, with no mattress to spread it and nothing to share it.
pub(super) fn each_slat(p: &Platform, side: Length, force: Force) -> Vec<Position> {
    let b = p.slats.breadth();
    (0..p.slats.count)
        .map(|i| {
            let place = Place { x: p.slats.centre(i), y: p.width / 2.0 };
            let along = smaller(side, b);
            Position {
                patches: vec![Patch::around(place, along, side, force)],
                place,
                note: "no mattress",
                felt: Felt::Neither,
            }
        })
        .collect()
}

/// Two children side by side, 400 mm apart, along the rails and across them.
pub(super) fn pairs(p: &Platform, side: Length, forces: [Force; 2]) -> Vec<Position> {
    let apart = millimetre(400.0);
    let mut out = Vec::new();
    let mut push = |a: Place, b: Place, note| {
        let fits = |q: Place| {
            q.x >= side / 2.0 && q.x <= p.length - side / 2.0 && q.y >= side / 2.0 && q.y <= p.width - side / 2.0
        };
        if fits(a) && fits(b) {
            let patches = vec![
                Patch::around(a, side, side, forces[0]).spread(p),
                Patch::around(b, side, side, forces[1]).spread(p),
            ];
            out.push(Position { patches, place: a, note, felt: felt(p, side, a.y) });
        }
    };
    for x in stops(p, side) {
        for y in rows_across(p, side) {
            push(Place { x, y }, Place { x: x + apart, y }, "two, one behind the other");
            push(Place { x, y }, Place { x: x - apart, y }, "two, one behind the other");
            push(Place { x, y }, Place { x, y: y + apart }, "two, side by side");
            push(Place { x, y }, Place { x, y: y - apart }, "two, side by side");
        }
        let (a, b) = (p.width / 2.0 - apart / 2.0, p.width / 2.0 + apart / 2.0);
        push(Place { x, y: a }, Place { x, y: b }, "two, side by side");
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
            Position { patches: vec![Patch { x, y, force }], place, note, felt: Felt::Both }
        })
        .collect()
}
