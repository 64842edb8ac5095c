//! A stretch of a beam known by what its two ends do.

use super::pieces::{Course, Extremes, Piece, Range};

/// A stretch of a beam under an even load and nothing else between its ends, whose moments and
/// deflections there are known. Distances m, moments N m, deflections m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bent {
    /// Where it begins and ends.
    pub ends: [f64; 2],
    /// Bending moments at its two ends.
    pub moment: [f64; 2],
    /// Deflections at its two ends.
    pub deflection: [f64; 2],
    /// The even load, N/m.
    pub load: f64,
    /// Bending stiffness EI, N m².
    pub ei: f64,
}

impl Bent {
    fn piece(&self) -> Piece {
        let length = self.ends[1] - self.ends[0];
        let shear = (self.moment[1] - self.moment[0]) / length + self.load * length / 2.0;
        Piece::even(self.ends, shear, self.moment[0], self.load)
    }

    fn course(&self, piece: &Piece) -> Course {
        let level = Course { deflection: self.deflection[0], rotation: 0.0, ei: self.ei, kga: f64::INFINITY };
        let rotation = (self.deflection[1] - level.after(piece, piece.length).0) / piece.length;
        Course { rotation, ..level }
    }

    /// Deflection at `x`, m.
    pub fn deflection(&self, x: f64) -> f64 {
        let piece = self.piece();
        self.course(&piece).after(&piece, x - piece.x).0
    }

    /// The largest and the smallest deflection, each with its place.
    pub fn extreme_deflection(&self) -> Extremes {
        let piece = self.piece();
        let mut range = Range::at(piece.x, self.deflection[0]);
        self.course(&piece).widen_deflection(&piece, &mut range);
        range.extremes()
    }

    /// No less than any deflection of the stretch, up or down: it leaves the straight line between its
    /// ends by at most `M·h²/8EI` with the greatest moment `M` on it.
    pub fn deflection_bound(&self) -> f64 {
        let square = (self.ends[1] - self.ends[0]).powi(2);
        let greatest = |[a, b]: [f64; 2]| a.abs().max(b.abs());
        greatest(self.deflection) + (greatest(self.moment) + self.load.abs() * square / 8.0) * square / (8.0 * self.ei)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::{Load, Span};

    /// The two halves of a simple span under an even load: `5qL⁴/384EI` where they meet.
    #[test]
    fn a_span_cut_in_two_sags_as_the_whole() {
        let (q, l, ei) = (120.0, 2.0, 540.0);
        let load = [Load::Spread { from: 0.0, to: l, start: q, end: q }];
        let span = Span { start: 0.0, end: l, supports: [0.0, l], ei, kga: f64::INFINITY };
        let whole = span.under(&load).unwrap();
        let cut = 0.7;
        let at = |x: f64| (whole.moment(x), whole.deflection(x));
        for ends in [[0.0, cut], [cut, l]] {
            let ((m0, w0), (m1, w1)) = (at(ends[0]), at(ends[1]));
            let bent = Bent { ends, moment: [m0, m1], deflection: [w0, w1], load: q, ei };
            for x in [ends[0], 0.5 * (ends[0] + ends[1]), ends[1]] {
                assert!((bent.deflection(x) - whole.deflection(x)).abs() < 1e-15);
            }
            let ((x, most), _) = bent.extreme_deflection();
            assert!(most <= bent.deflection_bound());
            if ends[1] == l {
                assert!((x - 1.0).abs() < 1e-9);
                assert!((most / (5.0 * q * l.powi(4) / (384.0 * ei)) - 1.0).abs() < 1e-14);
            }
        }
    }
}
