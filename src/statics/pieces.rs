//! A loaded beam cut where anything changes, and the exact extremes within each piece.

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
    /// Shear force just right of its start and just left of its end.
    shear: [f64; 2],
    /// Bending moment at its two ends.
    moment: [f64; 2],
    intensity: f64,
    slope: f64,
}

impl Piece {
    /// A stretch between two ends under an even load.
    pub(super) fn even(ends: [f64; 2], shear: f64, moment: f64, intensity: f64) -> Self {
        Piece::of(ends, shear, moment, [intensity, 0.0])
    }

    #[inline]
    fn of([x, end]: [f64; 2], shear: f64, moment: f64, [intensity, slope]: [f64; 2]) -> Self {
        let length = end - x;
        let after = shear - length * (intensity + length * slope / 2.0);
        let gained = length * ((shear + after) / 2.0 + slope * length * length * (1.0 / 12.0));
        Piece { x, length, end, shear: [shear, after], moment: [moment, moment + gained], intensity, slope }
    }

    /// Whether the moment keeps its sign: where the shear keeps its own, the moment lies between those at the
    /// ends, and a sagging one under an even load down is nowhere less than at both.
    fn keeps_sign(&self) -> bool {
        let (shear, moment) = (self.shear, self.moment);
        let rising = self.slope == 0.0 && shear[0] * shear[1] >= 0.0 && moment[0] * moment[1] >= 0.0;
        rising || self.slope == 0.0 && self.intensity >= 0.0 && moment[0] >= 0.0 && moment[1] >= 0.0
    }

    fn shear(&self, u: f64) -> f64 {
        self.shear[0] - u * (self.intensity + u * self.slope / 2.0)
    }

    #[inline]
    fn moment(&self, u: f64) -> f64 {
        self.moment[0] + u * (self.shear[0] - u * (self.intensity / 2.0 + u * self.slope * (1.0 / 6.0)))
    }

    /// ∫ M du and ∬ M du² from the start of the piece.
    fn moment_integrals(&self, u: f64) -> (f64, f64) {
        let (m, v, q, s) = (self.moment[0], self.shear[0], self.intensity, self.slope);
        (
            u * (m + u * (v / 2.0 - u * (q * (1.0 / 6.0) + u * s * (1.0 / 24.0)))),
            u * u * (m / 2.0 + u * (v * (1.0 / 6.0) - u * (q * (1.0 / 24.0) + u * s * (1.0 / 120.0)))),
        )
    }

    /// Widens `range` by the bending moments of the piece beyond its start.
    #[inline]
    pub(super) fn widen_moment(&self, range: &mut Range) {
        range.widen(self.end, self.moment[1]);
        if self.slope != 0.0 {
            let shear = [self.shear[0], -self.intensity, -self.slope / 2.0];
            for &u in roots(&shear, self.length).as_slice() {
                range.widen(self.x + u, self.moment(u));
            }
        } else if self.shear[0] * self.shear[1] < 0.0 {
            let u = self.shear[0] / self.intensity;
            range.widen(self.x + u, self.moment[0] + u * self.shear[0] / 2.0);
        }
    }

    /// Widens `range` by the shear forces of the piece, one-sided at its ends.
    pub(super) fn widen_shear(&self, range: &mut Range) {
        range.widen(self.x, self.shear[0]);
        range.widen(self.end, self.shear[1]);
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
            self.deflection + self.rotation * u - twice / self.ei + (piece.moment(u) - piece.moment[0]) / self.kga,
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
            let (v, q, s) = (piece.shear[0], piece.intensity, piece.slope);
            let slope = [
                self.rotation + v / self.kga,
                -piece.moment[0] / self.ei - q / self.kga,
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

/// What a load changes at one place of a beam.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    x: f64,
    shear: f64,
    intensity: f64,
    slope: f64,
}

impl Edge {
    pub(super) const NONE: Edge = Edge { x: 0.0, shear: 0.0, intensity: 0.0, slope: 0.0 };

    /// Where a load begins and where it ends.
    #[inline]
    fn pair(load: &Load) -> [Edge; 2] {
        match *load {
            Load::Point { at, force } => [Edge { x: at, shear: -force, ..Edge::NONE }, Edge { x: at, ..Edge::NONE }],
            Load::Spread { from, to, start, end } => {
                let slope = if start == end { 0.0 } else { (end - start) / (to - from) };
                [
                    Edge { x: from, shear: 0.0, intensity: start, slope },
                    Edge { x: to, shear: 0.0, intensity: -end, slope: -slope },
                ]
            }
        }
    }

    /// Fills `edges`, two of each load, in order.
    #[inline]
    pub(super) fn sort_into(loads: &[Load], edges: &mut [Edge]) {
        let mut count = 0;
        for load in loads {
            for edge in Edge::pair(load) {
                let mut place = count;
                while place > 0 && edges[place - 1].x > edge.x {
                    edges[place] = edges[place - 1];
                    place -= 1;
                }
                edges[place] = edge;
                count += 1;
            }
        }
    }

    /// Hands over the edges of loads in order.
    pub(super) fn sort(loads: &[Load], with: impl FnOnce(&[Edge])) {
        // So many take no memory of their own.
        let (mut few, mut many) = ([Edge::NONE; 16], Vec::new());
        let edges = if 2 * loads.len() <= few.len() {
            &mut few[..2 * loads.len()]
        } else {
            many.resize(2 * loads.len(), Edge::NONE);
            &mut many[..]
        };
        Edge::sort_into(loads, edges);
        with(edges);
    }
}

/// A march along a beam from its left end, piece by piece.
#[derive(Clone, Debug)]
pub(super) struct Sweep<'a> {
    x: f64,
    /// Right of `x`, all that acts there taken in.
    pub(super) shear: f64,
    pub(super) moment: f64,
    intensity: f64,
    slope: f64,
    /// Place and upward reaction of what supports the beam beyond `x`.
    supports: &'a [(f64, f64)],
    /// What loads change beyond `x`.
    edges: &'a [Edge],
}

impl<'a> Sweep<'a> {
    /// Along a beam whose left end, `x`, is free; supports and edges are in order.
    #[inline]
    pub(super) fn from(x: f64, supports: &'a [(f64, f64)], edges: &'a [Edge]) -> Self {
        Sweep { x, shear: 0.0, moment: 0.0, intensity: 0.0, slope: 0.0, supports, edges }
    }

    /// Marches as far as `end` and takes in what acts there.
    #[inline(always)]
    pub(super) fn to(&mut self, end: f64, mut each: impl FnMut(&Piece)) {
        loop {
            let held = self.supports.first().map_or(f64::INFINITY, |support| support.0);
            let changed = self.edges.first().map_or(f64::INFINITY, |edge| edge.x);
            let next = if held < changed { held } else { changed };
            let to = if next < end { next } else { end };
            if self.x < to {
                let piece = Piece::of([self.x, to], self.shear, self.moment, [self.intensity, self.slope]);
                each(&piece);
                self.x = to;
                [self.shear, self.moment] = [piece.shear[1], piece.moment[1]];
                self.intensity += self.slope * piece.length;
            }
            match (self.supports, self.edges) {
                ([(at, reaction), rest @ ..], _) if *at <= to => {
                    self.shear += reaction;
                    self.supports = rest;
                }
                (_, [edge, rest @ ..]) if edge.x <= to => {
                    self.shear += edge.shear;
                    self.intensity += edge.intensity;
                    self.slope += edge.slope;
                    self.edges = rest;
                }
                _ => return,
            }
        }
    }
}
