//! A beam on known supports under given loads: forces, deflections and their exact extremes.

use super::MOST_LINES;
use super::load::Load;
use super::pieces::{Course, Edge, Extremes, Piece, Range, Sweep};

/// A beam with its loads and the reactions that hold it, ready to be asked.
///
/// Deflection w and loads are positive downward, reactions upward, M sagging, V = dM/dx.
/// All answers are Macaulay's integrals in closed form; extremes are found from the roots of the
/// derivative, never by sampling. Distances m, forces N, moments N m, rotations rad.
///
/// Source: W. H. Macaulay, *Note on the deflection of beams*, Messenger of Mathematics 48 (1919);
/// shear deformation after S. P. Timoshenko (1921). Both from memory.
#[derive(Clone, Copy, Debug)]
pub struct Loaded<'a> {
    pub(super) start: f64,
    pub(super) end: f64,
    pub(super) ei: f64,
    pub(super) kga: f64,
    pub(super) loads: &'a [Load],
    /// Where the loads begin and end, if they have been put in order.
    pub(super) edges: Option<&'a [Edge]>,
    /// Place and upward reaction of every support, left to right.
    pub(super) supports: [(f64, f64); MOST_LINES],
    pub(super) count: usize,
    /// Deflection at the first and at the last support.
    pub(super) settlement: [f64; 2],
}

/// Macaulay's integrals of a beam at one place, from its free left end.
#[derive(Clone, Copy, Debug, Default)]
struct Integrals {
    moment: f64,
    once: f64,
    twice: f64,
}

impl<'a> Loaded<'a> {
    fn supports(&self) -> &[(f64, f64)] {
        &self.supports[..self.count]
    }

    #[inline]
    fn pieces(&self, each: impl FnMut(&Piece)) {
        match self.edges {
            Some(edges) => Sweep::from(self.start, self.supports(), edges).to(self.end, each),
            None => Edge::sort(self.loads, |edges| Sweep::from(self.start, self.supports(), edges).to(self.end, each)),
        }
    }

    #[inline(always)]
    fn integrals(&self, x: f64) -> Integrals {
        let mut sum = Integrals::default();
        for &(at, reaction) in self.supports() {
            let r = x - at;
            if r > 0.0 {
                sum.moment += reaction * r;
                sum.once += reaction * r * r / 2.0;
                sum.twice += reaction * r * r * r * (1.0 / 6.0);
            }
        }
        for load in self.loads {
            let Some(part) = load.within(f64::NEG_INFINITY, x) else { continue };
            let part = part.resultant();
            let r = x - part.at;
            sum.moment -= part.against([r, -1.0, 0.0, 0.0]);
            sum.once -= part.against([r * r / 2.0, -r, 1.0, 0.0]);
            sum.twice -= part.against([r * r * r * (1.0 / 6.0), -r * r / 2.0, r, -1.0]);
        }
        sum
    }

    /// Whether nothing bends it: no load, and two supports, which then take nothing.
    #[inline]
    fn straight(&self) -> bool {
        self.loads.is_empty() && self.count == 2
    }

    /// Deflection at `x`, were the left end neither moved nor turned.
    fn flexed(&self, x: f64) -> f64 {
        if x <= self.start || self.straight() {
            return 0.0;
        }
        let sum = self.integrals(x);
        sum.moment / self.kga - sum.twice / self.ei
    }

    /// Deflection and rotation at the left end that meet both settlements.
    fn origin(&self) -> Course {
        let (first, last) = (self.supports[0].0, self.supports[self.count - 1].0);
        let (low, high) = (self.settlement[0] - self.flexed(first), self.settlement[1] - self.flexed(last));
        let rotation = (high - low) / (last - first);
        Course { deflection: low - rotation * (first - self.start), rotation, ei: self.ei, kga: self.kga }
    }

    /// Where the beam starts and ends, m.
    pub fn ends(&self) -> (f64, f64) {
        (self.start, self.end)
    }

    /// The loads on the beam.
    pub fn loads(&self) -> &'a [Load] {
        self.loads
    }

    /// Upward reactions of the first and the last support, N.
    pub fn reactions(&self) -> [f64; 2] {
        [self.supports[0].1, self.supports[self.count - 1].1]
    }

    /// Place and upward reaction of every support, left to right, m and N.
    pub fn support_reactions(&self) -> &[(f64, f64)] {
        self.supports()
    }

    /// Shear force just left and just right of `x`, N.
    pub fn shear(&self, x: f64) -> (f64, f64) {
        let (mut left, mut right) = (0.0, 0.0);
        for &(at, reaction) in self.supports() {
            left += if at < x { reaction } else { 0.0 };
            right += if at <= x { reaction } else { 0.0 };
        }
        for load in self.loads {
            if let Load::Point { at, force } = *load {
                left -= if at < x { force } else { 0.0 };
                right -= if at <= x { force } else { 0.0 };
            } else if let Some(part) = load.within(f64::NEG_INFINITY, x) {
                left -= part.force();
                right -= part.force();
            }
        }
        (left, right)
    }

    /// Bending moment at `x`, N m.
    pub fn moment(&self, x: f64) -> f64 {
        self.integrals(x).moment
    }

    /// Deflection at `x`, m.
    pub fn deflection(&self, x: f64) -> f64 {
        let origin = self.origin();
        origin.deflection + origin.rotation * (x - self.start) + self.flexed(x)
    }

    /// Rotation of the section at `x`, rad: dw/dx where the beam is stiff in shear.
    pub fn rotation(&self, x: f64) -> f64 {
        self.origin().rotation - self.integrals(x).once / self.ei
    }

    /// The most sagging and the most hogging moment, each with its place.
    pub fn extreme_moment(&self) -> Extremes {
        let mut range = Range::at(self.start, 0.0);
        if !self.straight() {
            self.pieces(|piece| piece.widen_moment(&mut range));
        }
        range.extremes()
    }

    /// The shear force of greatest absolute value, with its sign and its place.
    pub fn extreme_shear(&self) -> (f64, f64) {
        let mut range = Range::at(self.start, 0.0);
        self.pieces(|piece| piece.widen_shear(&mut range));
        range.farthest()
    }

    /// How far the beam sags below the straight line between support `k` and the next, at `x`.
    pub fn sag_at(&self, k: usize, x: f64) -> f64 {
        self.level(k).deflection(x)
    }

    /// The greatest sag below the straight line between support `k` and the next, with its place between
    /// them; nothing where the beam only rises.
    pub fn extreme_sag(&self, k: usize) -> (f64, f64) {
        let level = self.level(k);
        let (from, to) = (self.supports[k].0, self.supports[k + 1].0);
        let mut course = level.origin();
        let mut range = Range::at(from, 0.0);
        level.pieces(|piece| {
            let mut elsewhere = Range::at(from, 0.0);
            let between = piece.x >= from && piece.x < to;
            course.widen_deflection(piece, if between { &mut range } else { &mut elsewhere });
        });
        range.extremes().0
    }

    /// The beam turned and moved so that support `k` and the next are level.
    fn level(&self, k: usize) -> Loaded<'a> {
        let ((a, _), (b, _)) = (self.supports[k], self.supports[k + 1]);
        let (low, high) = (self.deflection(a), self.deflection(b));
        let chord = |x: f64| low + (high - low) * (x - a) / (b - a);
        let [first, last] = [self.supports[0].0, self.supports[self.count - 1].0];
        Loaded { settlement: [self.settlement[0] - chord(first), self.settlement[1] - chord(last)], ..*self }
    }

    /// The largest and the smallest deflection, each with its place.
    pub fn extreme_deflection(&self) -> Extremes {
        let mut course = self.origin();
        let mut range = Range::at(self.start, course.deflection);
        self.pieces(|piece| course.widen_deflection(piece, &mut range));
        range.extremes()
    }
}
