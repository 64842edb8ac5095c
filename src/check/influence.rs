//! One long side of the platform: what the slats' reactions do to its rail, cleat and screws.
//!
//! The side is linear in the reactions of the slats on its cleat. Each slat's unit reaction is solved
//! once; at every position of every load the forces of screws and supports are then a sum over the few
//! slats it touches, and shears and moments follow from them by equilibrium.

use std::ops::Range;

use super::capacity::{Actions, Factors};
use super::envelope::{CaseEnvelope, Peak, exceeds, raise};
use super::model::{CLEATS, Framing, RAILS};
use crate::platform::Platform;
use crate::statics::{Bent, LineResponse, Load, On, Placed, Response};

/// The rail first, then the cleat.
type Pair = [f64; 2];
const RAIL: usize = 0;
const CLEAT: usize = 1;

/// A station of the rail and what the dead load, as it counts for strength, does to both lines there.
struct Station {
    x: f64,
    /// From the station before, m.
    run: f64,
    /// Shears just left and just right.
    left: Pair,
    right: Pair,
    moment: Pair,
}

/// Influence of each slat's unit reaction in a row of numbers, slat by slat, the numbers for the dead load,
/// and those for the position at hand.
struct Rows {
    units: Vec<f64>,
    dead: Vec<f64>,
    now: Vec<f64>,
}

/// One long side.
pub(super) struct Influence {
    lines: [usize; 2],
    side: usize,
    stations: Vec<Station>,
    /// Own weight per metre, which bends a line between stations, and the most that it does so, as they
    /// count for strength.
    weight: Pair,
    bow: Pair,
    /// Which station each screw is at, and after them each support of the rail, and each slat.
    at: Vec<usize>,
    under: Vec<usize>,
    screws: usize,
    /// Forces of the screws and then of the supports; people's as they count for strength.
    forces: Rows,
    /// The rail's deflections at its stations, and the greatest anywhere for each slat's unit reaction and
    /// for the dead load.
    sags: Rows,
    most_sag: Vec<f64>,
    most_dead_sag: f64,
    /// The force that people put down on each station, and their moments there, at the position at hand.
    down: Vec<Pair>,
    live: Vec<Pair>,
    /// The rail's own weight and dead moments as they are, and its bending stiffness.
    own: f64,
    dead_moment: Vec<f64>,
    most_dead_moment: f64,
    ei: f64,
    /// The widest stretch between stations, and the greatest of people's moments on the rail at the position
    /// at hand.
    widest: f64,
    most_moment: f64,
    strength: Factors,
    /// For each screw, it and those after it within one rail depth.
    groups: Vec<Range<usize>>,
}

impl Influence {
    /// Solves side `s` for its dead load and for each slat's unit reaction.
    pub(super) fn of(
        p: &Platform,
        f: &Framing,
        s: usize,
        dead: &[Placed],
        own_weight: Pair,
        actions: &Actions,
    ) -> Influence {
        let strength = actions.strength;
        let mut work = f.grillage.workspace();
        let r = f.grillage.solve(dead, &mut work);
        let (rail, cleat) = (r.line(RAILS[s]), r.line(CLEATS[s]));
        let stations = stations(rail, cleat, strength.permanent);
        let dead_moment: Vec<f64> = rail.stations().map(|q| q.moment).collect();
        let mut forces = Rows::of_dead(|out| forces(&r, f, s, out));
        let mut sags = Rows::of_dead(|out| deflections(&r, s, out));
        let (mut most_sag, most_dead_sag) = (Vec::new(), most_deflection(rail));
        let widest = stations.iter().map(|q| q.run).fold(0.0, f64::max);
        let weight = own_weight.map(|w| strength.permanent * w);
        // A slat or screw shares a station with what is within a hair of it; beside the station its force
        // would stand inside an element.
        let near = |x: f64| nearest(&stations, x);
        let under: Vec<usize> = (0..p.slats.count).map(|i| near(p.slats.centre(i).value)).collect();
        let screws = &p.sides[s].screws.positions;
        let at: Vec<usize> = screws.iter().chain(&f.supports[s]).map(|x| near(x.value)).collect();
        let unit =
            |at: &usize| [Placed { on: On::Line(CLEATS[s]), load: Load::Point { at: stations[*at].x, force: 1.0 } }];
        let loads: Vec<[Placed; 1]> = under.iter().map(unit).collect();
        let slices: Vec<&[Placed]> = loads.iter().map(|l| l.as_slice()).collect();
        f.grillage.solve_each(&slices, &mut work, &mut |_, r| {
            self::forces(r, f, s, &mut forces.units);
            deflections(r, s, &mut sags.units);
            most_sag.push(most_deflection(r.line(RAILS[s])));
        });
        forces.units.iter_mut().for_each(|u| *u *= strength.variable);
        forces.dead.iter_mut().for_each(|d| *d *= strength.permanent);
        let depth = p.sides[s].rail.stick.width;
        Influence {
            lines: [RAILS[s], CLEATS[s]],
            side: s,
            weight,
            bow: weight.map(|w| w * widest * widest / 8.0),
            at,
            under,
            screws: screws.len(),
            most_sag,
            most_dead_sag,
            forces,
            sags,
            down: vec![[0.0; 2]; stations.len()],
            live: vec![[0.0; 2]; stations.len()],
            own: own_weight[RAIL],
            most_dead_moment: dead_moment.iter().fold(0.0, |a, m| greater(a, m.abs())),
            dead_moment,
            widest,
            most_moment: 0.0,
            ei: f.rail_ei[s],
            strength,
            groups: (0..screws.len()).map(|j| j..screws.partition_point(|y| *y <= screws[j] + depth)).collect(),
            stations,
        }
    }

    /// Puts the side under the slats' reactions at position `k`, from slat `first` on, and raises the peaks
    /// to what they and the dead load do together.
    pub(super) fn put(&mut self, first: usize, reactions: &[f64], k: usize, out: &mut CaseEnvelope) {
        self.forces.sum(first, reactions);
        self.down.fill([0.0; 2]);
        for (at, force) in self.under[first..].iter().zip(reactions) {
            self.down[*at][CLEAT] += self.strength.variable * force;
        }
        let (screws, supports) = self.at.split_at(self.screws);
        for (at, force) in screws.iter().zip(&self.forces.now) {
            self.down[*at][CLEAT] -= force;
            self.down[*at][RAIL] += force;
        }
        for (at, force) in supports.iter().zip(&self.forces.now[self.screws..]) {
            self.down[*at][RAIL] -= force;
        }
        self.raise_lines(k, out);
        for (force, dead) in self.forces.now.iter_mut().zip(&self.forces.dead) {
            *force += dead;
        }
        let (screws, supports) = self.forces.now.split_at(self.screws);
        for ((force, group), (own, together)) in
            screws.iter().zip(&self.groups).zip(out.screws[self.side].iter_mut().zip(&mut out.groups[self.side]))
        {
            raise(own, force.abs(), k, None);
            raise(together, screws[group.clone()].iter().sum::<f64>().abs(), k, None);
        }
        for (force, peak) in supports.iter().zip(&mut out.supports[self.side]) {
            raise(peak, force.abs(), k, None);
        }
    }

    /// Shears and moments of rail and cleat, from their free left ends.
    fn raise_lines(&mut self, k: usize, out: &mut CaseEnvelope) {
        let (mut shear, mut moment) = ([0.0; 2], [0.0; 2]);
        let (mut most_shear, mut most_moment) = ([0.0; 2], [0.0; 2]);
        self.most_moment = 0.0;
        for ((dead, down), live) in self.stations.iter().zip(&self.down).zip(&mut self.live) {
            for line in 0..2 {
                moment[line] += shear[line] * dead.run;
                let left = (dead.left[line] + shear[line]).abs();
                shear[line] -= down[line];
                let right = (dead.right[line] + shear[line]).abs();
                most_shear[line] = greater(greater(most_shear[line], left), right);
                most_moment[line] = greater(most_moment[line], (dead.moment[line] + moment[line]).abs());
            }
            self.most_moment = greater(self.most_moment, moment[RAIL].abs());
            *live = moment;
        }
        for line in 0..2 {
            let peaks = &mut out.lines[self.lines[line]];
            if peaks.shear.is_none_or(|p| exceeds(most_shear[line], p.value)) {
                raise(&mut peaks.shear, most_shear[line], k, Some(self.place_of_shear(line, most_shear[line])));
            }
            if peaks.moment.is_none_or(|p| exceeds(most_moment[line] + self.bow[line], p.value)) {
                self.raise_moment(line, most_moment[line], k, &mut peaks.moment);
            }
        }
    }

    /// The first station beside which the shear is so much.
    fn place_of_shear(&self, line: usize, most: f64) -> f64 {
        let mut shear = 0.0;
        let here = self.stations.iter().zip(&self.down).find(|(dead, down)| {
            let left = (dead.left[line] + shear).abs();
            shear -= down[line];
            left >= most || (dead.right[line] + shear).abs() >= most
        });
        here.map_or(0.0, |(station, _)| station.x)
    }

    /// Raises the peak of moment: people's moments run straight between stations, the line's own weight
    /// bows them by at most `w·h²/8`, and only where that could matter is the exact extreme worked out.
    fn raise_moment(&self, line: usize, most: f64, k: usize, peak: &mut Option<Peak>) {
        let weight = self.weight[line];
        let current = greater(most, peak.map_or(0.0, |p| p.value));
        let (mut before, mut from, mut place) = (0.0, 0.0, None);
        for (station, live) in self.stations.iter().zip(&self.live) {
            let (h, moment) = (station.run, station.moment[line] + live[line]);
            if h > 0.0 && greater(before, moment) + weight * h * h / 8.0 > current {
                let shear = (moment - before) / h + weight * h / 2.0;
                let u = shear / weight;
                if u > 0.0 && u < h {
                    raise(peak, before + shear * u / 2.0, k, Some(from + u));
                }
            }
            if place.is_none() && moment.abs() >= most {
                place = Some(station.x);
            }
            (before, from) = (moment, station.x);
        }
        raise(peak, most, k, place);
    }

    /// Raises the peaks of the rail's deflection, each with its factors, to what the slats' reactions of the
    /// position put last and the dead load do together; exact between stations too.
    pub(super) fn raise_sags(
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
        self.sags.sum(first, reactions);
        for (factors, peak) in peaks {
            self.raise_sag(*factors, k, peak);
        }
    }

    fn raise_sag(&self, factors: Factors, k: usize, peak: &mut Option<Peak>) {
        let mut most = (0.0, peak.map_or(0.0, |p| p.value));
        let at = |i: usize| factors.of(self.sags.dead[i], self.sags.now[i]).abs();
        let greatest = (0..self.stations.len()).map(at).fold(0.0, greater);
        // Most positions are passed over by the greatest sag at a station and the most that any stretch bows.
        if exceeds(greatest + self.most_bow(factors), most.1) {
            for i in 1..self.stations.len() {
                let bent = self.stretch(i, |dead, live| factors.of(dead, live), factors.permanent);
                if !exceeds(bent.deflection_bound(), most.1) {
                    continue;
                }
                let ((x, down), (y, up)) = bent.extreme_deflection();
                let (at, value) = if up.abs() > down.abs() { (y, up.abs()) } else { (x, down.abs()) };
                if value > most.1 {
                    most = (at, value);
                }
            }
        }
        raise(peak, most.1, k, Some(most.0));
    }

    /// The most that the rail leaves the straight line between two stations: with a moment `M` on it by
    /// no more than `M·h²/8EI`.
    fn most_bow(&self, factors: Factors) -> f64 {
        let live = self.most_moment / self.strength.variable;
        let moment = factors.of(self.most_dead_moment + self.own * self.widest * self.widest / 8.0, live);
        moment * self.widest * self.widest / (8.0 * self.ei)
    }

    /// The rail's deflection under the dead load as it is.
    pub(super) fn dead_sag(&self, x: f64) -> f64 {
        let after = self.stations.partition_point(|s| s.x < x).clamp(1, self.stations.len() - 1);
        self.stretch(after, |dead, _| dead, 1.0).deflection(x)
    }

    /// The stretch of the rail left of station `i`.
    fn stretch(&self, i: usize, of: impl Fn(f64, f64) -> f64, permanent: f64) -> Bent {
        let both = [i - 1, i];
        Bent {
            ends: both.map(|i| self.stations[i].x),
            moment: both.map(|i| of(self.dead_moment[i], self.live[i][RAIL] / self.strength.variable)),
            deflection: both.map(|i| of(self.sags.dead[i], self.sags.now[i])),
            load: permanent * self.own,
            ei: self.ei,
        }
    }
}

impl Rows {
    fn of_dead(fill: impl FnOnce(&mut Vec<f64>)) -> Rows {
        let mut dead = Vec::new();
        fill(&mut dead);
        Rows { units: Vec::new(), now: dead.clone(), dead }
    }

    /// The rows of the slats from `first` on, each times its reaction.
    fn sum(&mut self, first: usize, reactions: &[f64]) {
        self.now.fill(0.0);
        let width = self.now.len();
        for (unit, force) in self.units[first * width..].chunks_exact(width).zip(reactions) {
            if *force != 0.0 {
                for (sum, unit) in self.now.iter_mut().zip(unit) {
                    *sum += force * unit;
                }
            }
        }
    }
}

/// The rail's stations, among which are all of the cleat's.
fn stations(rail: LineResponse<'_>, cleat: LineResponse<'_>, permanent: f64) -> Vec<Station> {
    let mut before = rail.station(0).x;
    let mut own = cleat.stations().peekable();
    rail.stations()
        .map(|r| {
            let c = own.next_if(|c| c.x <= r.x);
            let pair = |rail: f64, cleat: Option<f64>| [permanent * rail, permanent * cleat.unwrap_or(0.0)];
            let run = r.x - before;
            before = r.x;
            Station {
                x: r.x,
                run,
                left: pair(r.shear_left, c.map(|c| c.shear_left)),
                right: pair(r.shear_right, c.map(|c| c.shear_right)),
                moment: pair(r.moment, c.map(|c| c.moment)),
            }
        })
        .collect()
}

/// The station nearest to a place.
fn nearest(stations: &[Station], x: f64) -> usize {
    let after = stations.partition_point(|s| s.x < x);
    let both = after.saturating_sub(1)..stations.len().min(after + 1);
    let far = |i: &usize| (stations[*i].x - x).abs();
    both.min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(0)
}

/// The greater of two numbers.
#[inline]
fn greater(a: f64, b: f64) -> f64 {
    if b > a { b } else { a }
}

/// Forces of screws and supports of side `s`.
fn forces(r: &Response<'_>, f: &Framing, s: usize, out: &mut Vec<f64>) {
    let (first, n) = f.links[s];
    out.extend((first..first + n).map(|k| r.link_force(k)));
    let (first, n) = f.springs[s];
    out.extend((first..first + n).map(|k| r.spring_force(k)));
}

/// The greatest deflection of a line, down or up.
fn most_deflection(line: LineResponse<'_>) -> f64 {
    let ((_, down), (_, up)) = line.extreme_deflection();
    greater(down.abs(), up.abs())
}

/// Deflections of the rail of side `s` at its stations.
fn deflections(r: &Response<'_>, s: usize, out: &mut Vec<f64>) {
    let rail = r.line(RAILS[s]);
    out.extend((0..rail.len()).map(|i| rail.deflection_at(i)));
}
