//! A loaded beam cut where anything changes, and the exact extremes within each piece.

use std::cmp::Ordering;

use super::load::Load;
use super::polynomial::roots;

/// Where a quantity is largest and where it is smallest: `((x, most), (x, least))`.
pub type Extremes = ((f64, f64), (f64, f64));

/// The running largest and smallest value. The first of equals stays.
#[derive(Clone, Copy, Debug)]
pub(super) struct Range {
    most: (f64, f64),
    least: (f64, f64),
}

impl Range {
    pub(super) fn at(x: f64, value: f64) -> Self {
        Range { most: (x, value), least: (x, value) }
    }

    #[inline]
    pub(super) fn widen(&mut self, x: f64, value: f64) {
        if value > self.most.1 {
            self.most = (x, value);
        }
        if value < self.least.1 {
            self.least = (x, value);
        }
    }

    pub(super) fn extremes(&self) -> Extremes {
        (self.most, self.least)
    }

    /// The larger in absolute value, with its sign.
    pub(super) fn farthest(&self) -> (f64, f64) {
        if self.least.1.abs() > self.most.1.abs() { self.least } else { self.most }
    }
}

/// A stretch of beam on which the load varies linearly. `u` runs from 0 to `length`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub(super) x: f64,
    pub(super) length: f64,
    /// Where it ends: not `x + length`, which may miss a support there by a rounding.
    end: f64,
    shear: f64,
    moment: f64,
    intensity: f64,
    slope: f64,
}

impl Piece {
    /// A stretch between two ends under an even load.
    pub(super) fn even([x, end]: [f64; 2], shear: f64, moment: f64, intensity: f64) -> Self {
        Piece { x, length: end - x, end, shear, moment, intensity, slope: 0.0 }
    }

    /// Whether the moment keeps its sign: where the shear keeps its own, the moment lies between those at the
    /// ends, and a sagging one under an even load down is nowhere less than at both.
    fn keeps_sign(&self) -> bool {
        let (shear, moment) = (self.shear(self.length), self.moment(self.length));
        let rising = self.slope == 0.0 && self.shear * shear >= 0.0 && self.moment * moment >= 0.0;
        rising || self.slope == 0.0 && self.intensity >= 0.0 && self.moment >= 0.0 && moment >= 0.0
    }

    #[inline]
    fn shear(&self, u: f64) -> f64 {
        self.shear - u * (self.intensity + u * self.slope / 2.0)
    }

    #[inline]
    fn moment(&self, u: f64) -> f64 {
        self.moment + u * (self.shear - u * (self.intensity / 2.0 + u * self.slope / 6.0))
    }

    /// ∫ M du and ∬ M du² from the start of the piece.
    fn moment_integrals(&self, u: f64) -> (f64, f64) {
        let (m, v, q, s) = (self.moment, self.shear, self.intensity, self.slope);
        (
            u * (m + u * (v / 2.0 - u * (q / 6.0 + u * s / 24.0))),
            u * u * (m / 2.0 + u * (v / 6.0 - u * (q / 24.0 + u * s / 120.0))),
        )
    }

    /// Widens `range` by the bending moments of the piece beyond its start.
    #[inline]
    pub(super) fn widen_moment(&self, range: &mut Range) {
        range.widen(self.end, self.moment(self.length));
        if self.slope == 0.0 {
            if self.shear * self.shear(self.length) < 0.0 {
                let u = self.shear / self.intensity;
                range.widen(self.x + u, self.moment(u));
            }
            return;
        }
        let shear = [self.shear, -self.intensity, -self.slope / 2.0];
        for &u in roots(&shear, self.length).as_slice() {
            range.widen(self.x + u, self.moment(u));
        }
    }

    /// Widens `range` by the shear forces of the piece, one-sided at its ends.
    pub(super) fn widen_shear(&self, range: &mut Range) {
        range.widen(self.x, self.shear);
        range.widen(self.end, self.shear(self.length));
        let u = -self.intensity / self.slope;
        if u > 0.0 && u < self.length {
            range.widen(self.x + u, self.shear(u));
        }
    }
}

/// Deflection and section rotation carried from piece to piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Course {
    /// Deflection, m.
    pub(super) deflection: f64,
    /// Rotation of the section, rad.
    pub(super) rotation: f64,
    /// EI, N m².
    pub(super) ei: f64,
    /// κGA, N; infinite without shear deformation.
    pub(super) kga: f64,
}

impl Course {
    /// Deflection and rotation at `u` in a piece that begins here.
    pub(super) fn after(&self, piece: &Piece, u: f64) -> (f64, f64) {
        let (once, twice) = piece.moment_integrals(u);
        (
            self.deflection + self.rotation * u - twice / self.ei + (piece.moment(u) - piece.moment) / self.kga,
            self.rotation - once / self.ei,
        )
    }

    /// Widens `range` by the deflections of the piece and moves on to its end.
    pub(super) fn widen_deflection(&mut self, piece: &Piece, range: &mut Range) {
        range.widen(piece.x, self.deflection);
        let end = self.after(piece, piece.length);
        // Where the moment keeps its sign the rotation only falls or only rises: if it keeps its own sign too,
        // no deflection between the ends is an extreme.
        let monotone = self.kga == f64::INFINITY && self.rotation * end.1 >= 0.0 && piece.keeps_sign();
        if !monotone {
            let (v, q, s) = (piece.shear, piece.intensity, piece.slope);
            let slope = [
                self.rotation + v / self.kga,
                -piece.moment / self.ei - q / self.kga,
                -v / (2.0 * self.ei) - s / (2.0 * self.kga),
                q / (6.0 * self.ei),
                s / (24.0 * self.ei),
            ];
            for &u in roots(&slope, piece.length).as_slice() {
                range.widen(piece.x + u, self.after(piece, u).0);
            }
        }
        (self.deflection, self.rotation) = end;
        range.widen(piece.end, self.deflection);
    }
}

/// The pieces of a beam from left to right.
#[derive(Clone, Debug)]
pub(super) struct Pieces<'a> {
    x: f64,
    end: f64,
    shear: f64,
    moment: f64,
    supports: &'a [(f64, f64)],
    loads: &'a [Load],
}

impl<'a> Pieces<'a> {
    /// A whole beam with free ends under upward `supports` (place, reaction) and `loads`.
    pub(super) fn whole((start, end): (f64, f64), supports: &'a [(f64, f64)], loads: &'a [Load]) -> Self {
        let mut pieces = Pieces { x: start, end, shear: 0.0, moment: 0.0, supports, loads };
        pieces.jump();
        pieces
    }

    /// A stretch between two stations that starts with the given shear force and moment.
    /// Concentrated forces exactly at `start` are already in that shear force.
    pub(super) fn between((start, end): (f64, f64), shear: f64, moment: f64, loads: &'a [Load]) -> Self {
        Pieces { x: start, end, shear, moment, supports: &[], loads }
    }

    fn jump(&mut self) {
        for &(at, reaction) in self.supports {
            if at == self.x {
                self.shear += reaction;
            }
        }
        for load in self.loads {
            if let Load::Point { at, force } = *load
                && at == self.x
            {
                self.shear -= force;
            }
        }
    }
}

impl Iterator for Pieces<'_> {
    type Item = Piece;

    #[inline]
    fn next(&mut self) -> Option<Piece> {
        let (x, mut to) = (self.x, self.end);
        // A NaN end stops the march too.
        if x.partial_cmp(&to) != Some(Ordering::Less) {
            return None;
        }
        let (mut intensity, mut slope, mut jumps) = (0.0, 0.0, false);
        for load in self.loads {
            let (from, until) = load.extent();
            if from > x {
                if from < to {
                    (to, jumps) = (from, false);
                }
            } else if until > x {
                let (q, s) = load.intensity(x);
                intensity += q;
                slope += s;
                if until < to {
                    (to, jumps) = (until, false);
                }
            }
            jumps |= from == to && matches!(load, Load::Point { .. });
        }
        for &(at, _) in self.supports {
            if at > x && at < to {
                to = at;
            }
            jumps |= at == to;
        }
        let length = to - x;
        let piece = Piece { x, length, end: to, shear: self.shear, moment: self.moment, intensity, slope };
        self.shear = piece.shear(length);
        self.moment = piece.moment(length);
        self.x = to;
        if jumps {
            self.jump();
        }
        Some(piece)
    }
}
