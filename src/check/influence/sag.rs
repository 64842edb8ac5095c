//! How far a side's rail sags: bounds that pass over most positions and most stretches, and the exact greatest of
//! the rest.

use super::{Influence, RAIL, greater};
use crate::check::capacity::Factors;
use crate::check::envelope::{Peak, exceeds, raise};
use crate::check::model::RAILS;
use crate::statics::{Bent, LineResponse, Response};

impl Influence {
    /// Raises the peaks of the rail's deflection, each with its factors, to what the slats' reactions of the
    /// position put last and the dead load do together; exact between stations too.
    pub(in crate::check) fn raise_sags(
        &mut self,
        first: usize,
        reactions: &[f64],
        k: usize,
        peaks: &mut [(Factors, &mut Option<Peak>)],
    ) {
        // No less than the deflection anywhere: the greatest of each slat's, as if they were at one place.
        let most: f64 = self.most_sag[first..].iter().zip(reactions).map(|(sag, force)| sag * force.abs()).sum();
        let may = |factors: &Factors, peak: &Option<Peak>| {
            peak.is_none_or(|p| exceeds(factors.of(self.most_dead_sag, most), p.value))
        };
        if !peaks.iter().any(|(factors, peak)| may(factors, peak)) {
            return;
        }
        self.settle(first, reactions);
        self.sags.sum(first, reactions);
        let moment = self.live.iter().fold(0.0, |most, live| greater(most, live[RAIL].abs()));
        for (factors, peak) in peaks {
            self.raise_sag(*factors, moment / self.strength.variable, k, peak);
        }
    }

    /// As [`Self::raise_sags`]; `moment` is the greatest that people bring about on the rail.
    fn raise_sag(&self, factors: Factors, moment: f64, k: usize, peak: &mut Option<Peak>) {
        let mut most = (0.0, peak.map_or(0.0, |p| p.value));
        // A station's sag and the most that any stretch bows pass over most positions, and most stretches.
        let bow = self.most_bow(factors, moment);
        let mut before = 0.0;
        for (i, (dead, live)) in self.sags.dead.iter().zip(self.sags.now()).enumerate() {
            let here = factors.of(*dead, *live).abs();
            if i > 0 && exceeds(greater(before, here) + bow, most.1) {
                let bent = self.stretch(i, |dead, live| factors.of(dead, live), factors.permanent);
                if exceeds(bent.deflection_bound(), most.1) {
                    let ((x, down), (y, up)) = bent.extreme_deflection();
                    let (at, value) = if up.abs() > down.abs() { (y, up.abs()) } else { (x, down.abs()) };
                    if value > most.1 {
                        most = (at, value);
                    }
                }
            }
            before = here;
        }
        raise(peak, most.1, k, Some(most.0));
    }

    /// The most that the rail leaves the straight line between two stations: with a moment `M` on it by
    /// no more than `M·h²/8EI`.
    fn most_bow(&self, factors: Factors, live: f64) -> f64 {
        let moment = factors.of(self.most_dead_moment + self.own * self.widest * self.widest / 8.0, live);
        moment * self.widest * self.widest / (8.0 * self.ei)
    }

    /// The rail's deflection under the dead load as it is.
    pub(in crate::check) fn dead_sag(&self, x: f64) -> f64 {
        let after = self.stations.partition_point(|s| s.x < x).clamp(1, self.stations.len() - 1);
        self.stretch(after, |dead, _| dead, 1.0).deflection(x)
    }

    /// The stretch of the rail left of station `i`.
    fn stretch(&self, i: usize, of: impl Fn(f64, f64) -> f64, permanent: f64) -> Bent {
        let both = [i - 1, i];
        Bent {
            ends: both.map(|i| self.stations[i].x),
            moment: both.map(|i| of(self.dead_moment[i], self.live[i][RAIL] / self.strength.variable)),
            deflection: both.map(|i| of(self.sags.dead[i], self.sags.now()[i])),
            load: permanent * self.own,
            ei: self.ei,
        }
    }
}

/// No less than the deflection of a line of this stiffness anywhere, without load between stations that are this
/// far apart: with a moment `M` on it, it leaves the straight line between two by no more than `M·h²/8EI`.
pub(super) fn sag_bound(line: LineResponse<'_>, ei: f64, widest: f64) -> f64 {
    let sag = (0..line.len()).fold(0.0, |most, i| greater(most, line.deflection_at(i).abs()));
    let moment = line.stations().fold(0.0, |most, station| greater(most, station.moment.abs()));
    sag + moment * widest * widest / (8.0 * ei)
}

/// The greatest deflection of a line, down or up.
pub(super) fn most_deflection(line: LineResponse<'_>) -> f64 {
    let ((_, down), (_, up)) = line.extreme_deflection();
    greater(down.abs(), up.abs())
}

/// Deflections of the rail of side `s` at its stations.
pub(super) fn deflections(r: &Response<'_>, s: usize, out: &mut Vec<f64>) {
    let rail = r.line(RAILS[s]);
    out.extend((0..rail.len()).map(|i| rail.deflection_at(i)));
}
