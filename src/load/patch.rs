//! A load on a rectangle of the platform, and the share of it that each slat takes.

use crate::platform::Platform;
use crate::quantity::{Force, Length};
use crate::statics::Load;

/// A force spread evenly over a rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// From and to, along the rails, from the head.
    pub x: [Length; 2],
    /// From and to, across, from the left rail.
    pub y: [Length; 2],
    /// The whole force.
    pub force: Force,
}

/// Where a person is, for the reader.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// From the head.
    pub x: Length,
    /// From the left rail.
    pub y: Length,
}

/// One arrangement of a case: its patches, and what to call the place.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Loads, already spread by the mattress.
    pub patches: Vec<Patch>,
    /// Middle of the (first) load.
    pub place: Place,
    /// What the place alone does not say, such as which way round.
    pub note: &'static str,
    /// The long sides that feel this arrangement more than any other along the same line across.
    pub felt: Felt,
}

/// Which long sides an arrangement may govern.
///
/// A slat on two supports hands each side a share of a load that falls in a straight line with the
/// load's distance. So among the places along one line across the platform, the one against a long
/// side is the worst for everything on that side, and the ones between are the worst for neither.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Felt {
    /// The load is against the left side.
    Left,
    /// The load is against the right side.
    Right,
    /// Both must be looked at.
    Both,
    /// Neither: only slats are governed by a load in between.
    Neither,
}

impl Felt {
    /// Whether side 0 (left) or 1 (right) must be looked at.
    pub fn by(self, side: usize) -> bool {
        match self {
            Felt::Left => side == 0,
            Felt::Right => side == 1,
            Felt::Both => true,
            Felt::Neither => false,
        }
    }
}

impl Patch {
    /// A patch of this size around a middle.
    pub fn around(place: Place, along: Length, across: Length, force: Force) -> Patch {
        Patch {
            x: [place.x - along / 2.0, place.x + along / 2.0],
            y: [place.y - across / 2.0, place.y + across / 2.0],
            force,
        }
    }

    /// The patch after the mattress has spread it, kept on the platform. The force stays whole: at
    /// an edge it is spread less, not lost.
    pub fn spread(self, p: &Platform) -> Patch {
        let s = p.mattress.spread();
        let zero = Length::default();
        let within = |[a, b]: [Length; 2], end: Length| {
            let (a, b) = (a - s, b + s);
            [if a < zero { zero } else { a }, if b > end { end } else { b }]
        };
        Patch { x: within(self.x, p.length), y: within(self.y, p.width), force: self.force }
    }
}

/// The strips of the platform that the slats carry, in SI for the statics beyond.
#[derive(Clone, Debug)]
pub struct Strips {
    edges: Vec<f64>,
    slat: [f64; 2],
}

impl Strips {
    /// The strips of a platform.
    pub fn of(p: &Platform) -> Strips {
        let n = p.slats.count;
        let mut edges: Vec<f64> = (0..n).map(|i| p.strip(i)[0].value).collect();
        edges.push(p.length.value);
        Strips { edges, slat: p.slat_ends().map(|y| y.value) }
    }

    /// The lines between strips.
    pub fn edges(&self) -> &[f64] {
        &self.edges
    }

    /// Calls `each` with every slat that a patch lies over and the load it takes: the part of the
    /// patch over its strip, as a line load across the platform.
    pub fn share(&self, patch: &Patch, each: &mut dyn FnMut(usize, Load)) {
        let [x0, x1] = patch.x.map(|x| x.value);
        // What hangs over the slat's end presses on the end itself: nothing is lost.
        let [mut y0, mut y1] = patch.y.map(|y| y.value.clamp(self.slat[0], self.slat[1]));
        if y1 - y0 < 1e-6 {
            let mid = (0.5 * (y0 + y1)).clamp(self.slat[0] + 5e-4, self.slat[1] - 5e-4);
            (y0, y1) = (mid - 5e-4, mid + 5e-4);
        }
        let per_length = patch.force.value / (x1 - x0);
        let first = self.edges.partition_point(|e| *e <= x0).saturating_sub(1);
        for i in first..self.edges.len() - 1 {
            let (a, b) = (self.edges[i].max(x0), self.edges[i + 1].min(x1));
            if self.edges[i] >= x1 {
                break;
            }
            if b > a {
                let q = per_length * (b - a) / (y1 - y0);
                each(i, Load::Spread { from: y0, to: y1, start: q, end: q });
            }
        }
    }
}
