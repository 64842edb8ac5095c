//! The body laid out by segments, head to foot.

use super::patch::{Felt, Patch, Patches, Place, Position};
use crate::platform::{Person, Platform, Posture};
use crate::quantity::Length;
use crate::quantity::unit::metre;

/// Where in their lanes people lie.
#[derive(Clone, Copy)]
enum Shift {
    /// All as far across: 0 at one side, 1 at the other.
    Across(f64),
    /// All as near the middle of the platform as they can.
    Together,
}

impl Shift {
    /// How far across lane `lane` of `lanes`.
    fn within(self, lane: usize, lanes: usize) -> f64 {
        match self {
            Shift::Across(part) => part,
            Shift::Together => match (2 * lane + 1).cmp(&lanes) {
                std::cmp::Ordering::Less => 1.0,
                std::cmp::Ordering::Equal => 0.5,
                std::cmp::Ordering::Greater => 0.0,
            },
        }
    }
}

/// Everybody lying: each in their lane, all slid to one side of it, to the middle, to the other, or
/// towards each other; all slid from one end to the other, by a quarter of a slat's pitch at most;
/// heads at either end.
pub(super) fn lying(p: &Platform, factor: f64) -> Vec<Position> {
    let mut out = Vec::new();
    let run = match p.posture {
        Posture::AlongRails => p.length,
        Posture::AcrossRails => p.width,
    };
    let shortest = p.sleepers.iter().map(|s| s.stature).fold(run, |a, b| if b < a { b } else { a });
    let steps = ((run - shortest) / (p.slats.pitch() / 4.0)).value.ceil().clamp(2.0, 64.0) as u32;
    let mut shifts = vec![Shift::Across(0.0), Shift::Across(0.5), Shift::Across(1.0), Shift::Together];
    if p.centre_beam.is_some() {
        shifts.extend([Shift::Across(0.25), Shift::Across(0.75)]);
    }
    for turned in [false, true] {
        for step in 0..=steps {
            let slide = f64::from(step) / f64::from(steps);
            for shift in &shifts {
                let mut patches = Patches::with_capacity(p.sleepers.iter().map(|s| s.segments.len()).sum());
                for (lane, person) in p.sleepers.iter().enumerate() {
                    let across = shift.within(lane, p.sleepers.len());
                    lay(p, person, factor, lane, [slide, across], turned, &mut patches);
                }
                let note = if turned { "on the whole, heads at the far end" } else { "on the whole" };
                let mid = |a: Length| a / 2.0;
                out.push(Position {
                    patches,
                    place: Place { x: mid(p.length), y: mid(p.width) },
                    note,
                    felt: Felt::Both,
                });
            }
        }
    }
    out
}

/// One person's segments as patches. `slide` moves along the body's axis, `shift` across the lane.
fn lay(
    p: &Platform,
    person: &Person,
    factor: f64,
    lane: usize,
    [slide, shift]: [f64; 2],
    turned: bool,
    out: &mut Patches,
) {
    let (run, cross) = match p.posture {
        Posture::AlongRails => (p.length, p.width),
        Posture::AcrossRails => (p.width, p.length),
    };
    let stature = if person.stature < run { person.stature } else { run };
    let lane_width = cross / p.sleepers.len().max(1) as f64;
    let widest = person.segments.iter().map(|s| s.width).fold(metre(0.0), |a, b| if b > a { b } else { a });
    let body = if widest < lane_width { widest } else { lane_width };
    let centre = lane_width * lane as f64 + body / 2.0 + (lane_width - body) * shift;
    let start = (run - stature) * slide;
    for s in &person.segments {
        let (mut a, mut b) = (start + stature * s.from.value, start + stature * s.to.value);
        if turned {
            (a, b) = (run - b, run - a);
        }
        let half = s.width / 2.0;
        let clip = |v: Length| {
            if v < metre(0.0) {
                metre(0.0)
            } else if v > cross {
                cross
            } else {
                v
            }
        };
        let across = [clip(centre - half), clip(centre + half)];
        let force = person.weight() * (factor * s.mass.value);
        let (x, y) = match p.posture {
            Posture::AlongRails => ([a, b], across),
            Posture::AcrossRails => (across, [a, b]),
        };
        out.push(Patch { x, y, force }.spread(p));
    }
}
