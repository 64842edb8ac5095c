//! One long side of the platform: what a unit of slat reaction does to its rail, cleat and screws.
//!
//! The side is linear in the reactions of the slats on its cleat. Each slat's unit reaction is solved
//! once; every position of every load is then a sum over the few slats it touches.

use super::capacity::Factors;
use super::envelope::{LinePeaks, Peak, raise};
use super::model::{CLEATS, Framing, RAILS};
use crate::platform::Platform;
use crate::statics::{Load, On, Placed, Response};

/// A line's stations and what the dead load does there.
struct Track {
    x: Vec<f64>,
    /// Own weight per metre, which bends the line between stations.
    weight: f64,
    /// Dead shear just left of each station.
    dead_left: Vec<f64>,
    /// Where its moments, and then its shears, begin in a row of results.
    at: usize,
}

/// Results of one side in a row: moments and right-hand shears of rail and cleat, screws, supports,
/// and the rail's deflections.
type Row = Vec<f64>;

/// One long side.
pub(super) struct Influence {
    side: usize,
    tracks: [Track; 2],
    links: (usize, usize),
    springs: (usize, usize),
    dead: Row,
    units: Vec<Row>,
    /// The rail's bending stiffness.
    ei: f64,
    /// Actions for strength.
    strength: Factors,
    /// For each screw, it and those after it within one rail depth.
    groups: Vec<std::ops::Range<usize>>,
}

/// Worst demands on one side.
pub(super) struct SidePeaks<'a> {
    pub(super) lines: &'a mut [LinePeaks; 4],
    pub(super) screws: &'a mut [Option<Peak>],
    pub(super) groups: &'a mut [Option<Peak>],
    pub(super) supports: &'a mut [Option<Peak>],
}

impl Influence {
    /// Solves side `s` for its dead load and for each slat's unit reaction.
    pub(super) fn of(
        p: &Platform,
        f: &Framing,
        s: usize,
        dead: &[Placed],
        own_weight: [f64; 2],
        strength: Factors,
    ) -> Influence {
        let mut work = f.grillage.workspace();
        let r = f.grillage.solve(dead, &mut work);
        let mut at = 0;
        let mut track = |line: usize, weight: f64| {
            let l = r.line(line);
            let track = Track {
                x: l.stations().map(|q| q.x).collect(),
                weight,
                dead_left: (0..l.len()).map(|i| l.shear_left_of(i)).collect(),
                at,
            };
            at += 2 * l.len();
            track
        };
        let tracks = [track(RAILS[s], own_weight[0]), track(CLEATS[s], own_weight[1])];
        let dead = row(&r, f, s);
        let depth = p.sides[s].rail.stick.width;
        let xs = &p.sides[s].screws.positions;
        let groups = (0..xs.len()).map(|j| j..xs.partition_point(|y| *y <= xs[j] + depth)).collect();
        let loads: Vec<[Placed; 1]> = (0..p.slats.count)
            .map(|i| {
                // A slat over a screw shares its station, which may differ from its centre in the last bit;
                // beside the station the force would stand inside an element.
                let load = Load::Point { at: nearest(&tracks[1].x, p.slats.centre(i).value), force: 1.0 };
                [Placed { on: On::Line(CLEATS[s]), load }]
            })
            .collect();
        let slices: Vec<&[Placed]> = loads.iter().map(|l| l.as_slice()).collect();
        let mut units = Vec::with_capacity(slices.len());
        f.grillage.solve_each(&slices, &mut work, &mut |_, r| units.push(row(r, f, s)));
        let (links, springs, ei) = (f.links[s], f.springs[s], f.rail_ei[s]);
        Influence { side: s, tracks, links, springs, dead, units, ei, strength, groups }
    }

    /// What these slat reactions do, without the dead load.
    pub(super) fn sum(&self, reactions: &[(usize, f64)], live: &mut Vec<f64>) {
        live.clear();
        live.resize(self.dead.len(), 0.0);
        for (slat, force) in reactions {
            for (sum, unit) in live.iter_mut().zip(&self.units[*slat]) {
                *sum += force * unit;
            }
        }
    }

    /// No less than the rail's greatest deflection under both loads with these factors: the greatest at a
    /// station, and the most that the rail can bow between two of them.
    pub(super) fn deflection_bound(&self, live: &[f64], factors: Factors) -> f64 {
        let rail = &self.tracks[0];
        let n = rail.x.len();
        let greatest = |from: usize| {
            let both = live[from..from + n].iter().zip(&self.dead[from..from + n]);
            both.map(|(l, d)| factors.of(*d, *l).abs()).fold(0.0, f64::max)
        };
        let widest = rail.x.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max);
        let moment = greatest(rail.at) + factors.permanent.max(1.0) * rail.weight * widest * widest / 8.0;
        greatest(self.dead.len() - n) + moment * widest * widest / (8.0 * self.ei)
    }

    /// Raises the peaks to what these sums and the dead load do together.
    pub(super) fn raise(&self, live: &[f64], k: usize, out: &mut SidePeaks<'_>) {
        self.line(&self.tracks[0], live, k, &mut out.lines[RAILS[self.side]]);
        self.line(&self.tracks[1], live, k, &mut out.lines[CLEATS[self.side]]);
        let first = self.dead.len() - self.tracks[0].x.len() - self.links.1 - self.springs.1;
        let force = |j: usize| self.strength.of(self.dead[first + j], live[first + j]);
        for j in 0..self.links.1 {
            raise(&mut out.screws[j], force(j).abs(), k, None);
            let together: f64 = self.groups[j].clone().map(force).sum();
            raise(&mut out.groups[j], together.abs(), k, None);
        }
        for j in 0..self.springs.1 {
            raise(&mut out.supports[j], force(self.links.1 + j).abs(), k, None);
        }
    }

    /// Moment and shear of a line with dead load: people's moments run straight between stations,
    /// the line's own weight bows them by at most `w·h²/8`, and only where that could matter is the
    /// exact extreme worked out.
    fn line(&self, track: &Track, live: &[f64], k: usize, peaks: &mut LinePeaks) {
        let (n, together) = (track.x.len(), self.strength);
        let weight = together.permanent * track.weight;
        let moments = track.at..track.at + n;
        let shears = moments.end..moments.end + n;
        let (live_m, live_v) = (&live[moments.clone()], &live[shears.clone()]);
        let (dead_m, dead_v) = (&self.dead[moments], &self.dead[shears]);
        let (mut m_most, mut v_most) = ((0.0, 0usize), (0.0, 0usize));
        let mut before = 0.0f64;
        let current = peaks.moment.map_or(0.0, |p| p.value);
        for i in 0..n {
            let m = together.of(dead_m[i], live_m[i]);
            if m.abs() > m_most.0 {
                m_most = (m.abs(), i);
            }
            let v_right = together.of(dead_v[i], live_v[i]);
            let v_left = if i == 0 { 0.0 } else { together.of(track.dead_left[i], live_v[i - 1]) };
            let v = v_left.abs().max(v_right.abs());
            if v > v_most.0 {
                v_most = (v, i);
            }
            if i > 0 {
                let h = track.x[i] - track.x[i - 1];
                let bow = weight * h * h / 8.0;
                if before.max(m) + bow > current.max(m_most.0) {
                    let v0 = together.of(dead_v[i - 1], live_v[i - 1]);
                    let u = v0 / weight;
                    if u > 0.0 && u < h {
                        raise(&mut peaks.moment, before + v0 * u / 2.0, k, Some(track.x[i - 1] + u));
                    }
                }
            }
            before = m;
        }
        raise(&mut peaks.moment, m_most.0, k, Some(track.x[m_most.1]));
        raise(&mut peaks.shear, v_most.0, k, Some(track.x[v_most.1]));
    }
}

/// The station nearest to a place.
fn nearest(stations: &[f64], x: f64) -> f64 {
    let after = stations.partition_point(|s| *s < x);
    let both = stations[after.saturating_sub(1)..].iter().take(2);
    both.copied().fold(f64::INFINITY, |best, s| if (s - x).abs() < (best - x).abs() { s } else { best })
}

/// The results of side `s` in a row.
fn row(r: &Response<'_>, f: &Framing, s: usize) -> Row {
    let mut out = Row::new();
    for line in [RAILS[s], CLEATS[s]] {
        let l = r.line(line);
        out.extend((0..l.len()).map(|i| l.moment_at(i)));
        out.extend((0..l.len()).map(|i| l.shear_right_of(i)));
    }
    let (first, n) = f.links[s];
    out.extend((first..first + n).map(|k| r.link_force(k)));
    let (first, n) = f.springs[s];
    out.extend((first..first + n).map(|k| r.spring_force(k)));
    let rail = r.line(RAILS[s]);
    out.extend((0..rail.len()).map(|i| rail.deflection_at(i)));
    out
}
