//! A load on a rectangle of the platform, and the share of it that each slat takes.

use smallvec::SmallVec;

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

/// The patches of one arrangement: seldom more than two, which then cost no allocation.
pub type Patches = SmallVec<[Patch; 2]>;

/// One arrangement of a case: its patches, and what to call the place.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Loads, already spread by the mattress.
    pub patches: Patches,
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
/// load's distance. So among the places along one line across the platform, the one nearest to a long
/// side is the worst for everything on that side, and the ones between are the worst for neither.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Felt {
    /// The load is as near to the left side as it may be.
    Left,
    /// The load is as near to the right side as it may be.
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

    /// The stretch across on which a patch presses on a slat. What hangs over the slat's end presses on
    /// the end itself: nothing is lost.
    pub(crate) fn across(&self, patch: &Patch) -> [f64; 2] {
        let [y0, y1] = patch.y.map(|y| y.value.clamp(self.slat[0], self.slat[1]));
        if y1 - y0 < 1e-6 {
            let mid = (0.5 * (y0 + y1)).clamp(self.slat[0] + 5e-4, self.slat[1] - 5e-4);
            return [mid - 5e-4, mid + 5e-4];
        }
        [y0, y1]
    }

    /// Calls `each` with every strip that a patch lies over and the length of it over that strip.
    #[inline]
    pub(crate) fn along(&self, patch: &Patch, mut each: impl FnMut(usize, f64)) {
        let [x0, x1] = patch.x.map(|x| x.value);
        let first = self.edges.partition_point(|e| *e <= x0).saturating_sub(1);
        for i in (first..self.edges.len() - 1).take_while(|i| self.edges[*i] < x1) {
            let over = self.over(i, patch);
            if over > 0.0 {
                each(i, over);
            }
        }
    }

    /// The length of a patch over one strip; nothing or less when it lies beside it.
    #[inline]
    pub(crate) fn over(&self, i: usize, patch: &Patch) -> f64 {
        self.edges[i + 1].min(patch.x[1].value) - self.edges[i].max(patch.x[0].value)
    }

    /// What a patch brings to each metre of its length and of a stretch across, N/m².
    pub(crate) fn pressure(patch: &Patch, [y0, y1]: [f64; 2]) -> f64 {
        let [x0, x1] = patch.x.map(|x| x.value);
        patch.force.value / ((x1 - x0) * (y1 - y0))
    }

    /// Calls `each` with every slat that a patch lies over and the load it takes: the part of the
    /// patch over its strip, as a line load across the platform.
    pub fn share(&self, patch: &Patch, each: &mut dyn FnMut(usize, Load)) {
        let across = self.across(patch);
        let [from, to] = across;
        let pressure = Strips::pressure(patch, across);
        self.along(patch, |i, over| {
            let q = pressure * over;
            each(i, Load::Spread { from, to, start: q, end: q });
        });
    }
}
