//! One line of a solved grillage.

use super::grillage::Track;
use super::load::Load;
use super::pieces::{Course, Edge, Extremes, Piece, Range, Sweep};
use super::response::Response;

/// The state of a line at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Where, m.
    pub x: f64,
    /// Deflection w, m.
    pub deflection: f64,
    /// Rotation θ = dw/dx, rad.
    pub rotation: f64,
    /// Bending moment, N m.
    pub moment: f64,
    /// Shear force just left of the station, N.
    pub shear_left: f64,
    /// Shear force just right of the station, N.
    pub shear_right: f64,
}

/// The stretch of a line between two neighbouring stations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Element {
    /// Where it begins, m.
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
    /// Bending moments at its two ends, N m.
    pub moment: [f64; 2],
    /// Shear forces at its two ends, N.
    pub shear: [f64; 2],
}

/// Forces and deflections of one line, exact between its stations too.
#[derive(Clone, Copy, Debug)]
pub struct LineResponse<'w> {
    pub(super) response: Response<'w>,
    pub(super) track: &'w Track,
    pub(super) loads: &'w [Load],
    pub(super) edges: &'w [Edge],
}

impl<'w> LineResponse<'w> {
    /// How many stations the line has.
    #[inline]
    pub fn len(&self) -> usize {
        self.track.reach.last - self.track.reach.first + 1
    }

    /// Never: a line has at least its two ends.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The loads that act on the line directly.
    pub fn loads(&self) -> &'w [Load] {
        self.loads
    }

    #[inline]
    fn x_at(&self, i: usize) -> f64 {
        self.response.grillage.stations[self.track.reach.first + i]
    }

    #[inline]
    fn node(&self, i: usize) -> usize {
        self.track.node(self.track.reach.first + i)
    }

    /// Deflection at the `i`-th station of the line, m.
    #[inline]
    pub fn deflection_at(&self, i: usize) -> f64 {
        self.response.pick(&self.response.state.moved, 2 * self.node(i))
    }

    /// Rotation at the `i`-th station, rad.
    #[inline]
    pub fn rotation_at(&self, i: usize) -> f64 {
        self.response.pick(&self.response.state.moved, 2 * self.node(i) + 1)
    }

    /// Bending moment at the `i`-th station, N m.
    #[inline]
    pub fn moment_at(&self, i: usize) -> f64 {
        self.response.pick(&self.response.state.moment, self.node(i))
    }

    /// Shear force just right of the `i`-th station, N.
    #[inline]
    pub fn shear_right_of(&self, i: usize) -> f64 {
        self.response.pick(&self.response.state.shear, self.node(i))
    }

    /// Shear force just left of the `i`-th station, N.
    #[inline]
    pub fn shear_left_of(&self, i: usize) -> f64 {
        if i == 0 {
            return 0.0;
        }
        let state = self.response.state;
        let before = self.shear_right_of(i - 1);
        if state.on_lines { before - self.response.pick(&state.element[0], self.node(i - 1)) } else { before }
    }

    /// The `i`-th station.
    pub fn station(&self, i: usize) -> Station {
        Station {
            x: self.x_at(i),
            deflection: self.deflection_at(i),
            rotation: self.rotation_at(i),
            moment: self.moment_at(i),
            shear_left: self.shear_left_of(i),
            shear_right: self.shear_right_of(i),
        }
    }

    /// The stations from left to right.
    pub fn stations(&self) -> impl Iterator<Item = Station> + use<'w> {
        let line = *self;
        (0..line.len()).map(move |i| line.station(i))
    }

    /// The elements from left to right.
    pub fn elements(&self) -> impl Iterator<Item = Element> + use<'w> {
        let line = *self;
        (1..line.len()).map(move |i| Element {
            from: line.x_at(i - 1),
            to: line.x_at(i),
            moment: [line.moment_at(i - 1), line.moment_at(i)],
            shear: [line.shear_right_of(i - 1), line.shear_left_of(i)],
        })
    }

    /// Hands over the pieces from left to right, each with its element.
    fn pieces(&self, mut each: impl FnMut(usize, &Piece)) {
        let mut sweep = Sweep::from(self.x_at(0), &[], self.edges);
        sweep.to(self.x_at(0), |_| {});
        for i in 0..self.len() - 1 {
            (sweep.shear, sweep.moment) = (self.shear_right_of(i), self.moment_at(i));
            sweep.to(self.x_at(i + 1), |piece| each(i, piece));
        }
    }

    /// The element under `x`, and what its line loads do from its left end to `x`: their shear
    /// force, moment, and the first and second integral of that moment.
    fn reach_to(&self, x: f64) -> (usize, [f64; 4]) {
        let i = self.response.grillage.element_at(self.track, x) - self.track.reach.first;
        let from = self.x_at(i);
        let mut sum = [0.0; 4];
        for load in self.loads {
            // A force exactly at the station is in the shear force there already.
            if matches!(*load, Load::Point { at, .. } if at <= from) {
                continue;
            }
            let Some(part) = load.within(from, x) else {
                continue;
            };
            let part = part.resultant();
            let r = x - part.at;
            sum[0] += part.force;
            sum[1] += part.against([r, -1.0, 0.0, 0.0]);
            sum[2] += part.against([r * r / 2.0, -r, 1.0, 0.0]);
            sum[3] += part.against([r * r * r / 6.0, -r * r / 2.0, r, -1.0]);
        }
        (i, sum)
    }

    /// Shear force just left and just right of `x`, N.
    pub fn shear(&self, x: f64) -> (f64, f64) {
        let (i, [taken, ..]) = self.reach_to(x);
        let inside = self.shear_right_of(i) - taken;
        if x == self.x_at(i) {
            return (self.shear_left_of(i), inside);
        }
        if x == self.x_at(i + 1) {
            return (self.shear_left_of(i + 1), self.shear_right_of(i + 1));
        }
        let here = |load: &Load| match *load {
            Load::Point { at, force } if at == x => force,
            _ => 0.0,
        };
        (inside, inside - self.loads.iter().map(here).sum::<f64>())
    }

    /// Bending moment at `x`, N m.
    pub fn moment(&self, x: f64) -> f64 {
        let (i, [_, taken, ..]) = self.reach_to(x);
        self.moment_at(i) + self.shear_right_of(i) * (x - self.x_at(i)) - taken
    }

    /// Deflection at `x`, m.
    pub fn deflection(&self, x: f64) -> f64 {
        let (i, [.., twice]) = self.reach_to(x);
        let u = x - self.x_at(i);
        let bent = u * u * (self.moment_at(i) / 2.0 + u * self.shear_right_of(i) / 6.0) - twice;
        self.deflection_at(i) + self.rotation_at(i) * u - bent / self.track.reach.ei
    }

    /// Rotation at `x`, rad.
    pub fn rotation(&self, x: f64) -> f64 {
        let (i, [_, _, once, _]) = self.reach_to(x);
        let u = x - self.x_at(i);
        let bent = u * (self.moment_at(i) + u * self.shear_right_of(i) / 2.0) - once;
        self.rotation_at(i) - bent / self.track.reach.ei
    }

    /// The most sagging and the most hogging moment, each with its place.
    pub fn extreme_moment(&self) -> Extremes {
        let mut range = Range::at(self.x_at(0), self.moment_at(0));
        self.pieces(|_, piece| piece.widen_moment(&mut range));
        range.extremes()
    }

    /// The shear force of greatest absolute value, with its sign and its place.
    pub fn extreme_shear(&self) -> (f64, f64) {
        let mut range = Range::at(self.x_at(0), self.shear_right_of(0));
        self.pieces(|_, piece| piece.widen_shear(&mut range));
        range.farthest()
    }

    /// The largest and the smallest deflection, each with its place.
    pub fn extreme_deflection(&self) -> Extremes {
        let mut range = Range::at(self.x_at(0), self.deflection_at(0));
        let level = Course { deflection: 0.0, rotation: 0.0, ei: self.track.reach.ei, kga: f64::INFINITY };
        let (mut element, mut course) = (usize::MAX, level);
        self.pieces(|i, piece| {
            if i != element {
                course = Course { deflection: self.deflection_at(i), rotation: self.rotation_at(i), ..level };
                element = i;
            }
            course.widen_deflection(piece, &mut range);
        });
        range.extremes()
    }
}
