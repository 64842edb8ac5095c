//! One long side of the platform: what the slats' reactions do to its rail, cleat and screws.
//!
//! The side is linear in the reactions of the slats on its cleat. Each slat's unit reaction is solved
//! once; at every position of every load the forces of screws and supports are then a sum over the few
//! slats it touches, and shears and moments follow from them by equilibrium.

mod bound;
mod rows;
mod sag;

use std::ops::Range;

use self::rows::Rows;
use self::sag::{deflections, most_deflection, sag_bound};
use super::capacity::{Actions, Factors};
use super::envelope::{CaseEnvelope, Peak, exceeds, raise, to_exceed};
use super::model::{CLEATS, Framing, RAILS};
use crate::platform::Platform;
use crate::statics::{LineResponse, Load, On, Placed, Response};

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
    /// The force that people put down on each station, their shears right of it and their moments there, at
    /// the position at hand.
    down: Vec<Pair>,
    shear: Vec<Pair>,
    live: Vec<Pair>,
    /// The rail's own weight and dead moments as they are, and its bending stiffness.
    own: f64,
    dead_moment: Vec<f64>,
    most_dead_moment: f64,
    ei: f64,
    /// The widest stretch between stations.
    widest: f64,
    strength: Factors,
    /// For each screw, it and those after it within one rail depth; sums of all screws up to each.
    groups: Vec<Range<usize>>,
    up_to: Vec<f64>,
    /// What a force of each screw and support, and of each group, must exceed to be the greatest of the case.
    to_exceed: Vec<f64>,
    group_to_exceed: Vec<f64>,
    /// The least and the greatest that each slat pressed with in the case.
    pressed: Vec<[f64; 2]>,
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
            forces.push_unit(|out| self::forces(r, f, s, out));
            sags.push_unit(|out| deflections(r, s, out));
            most_sag.push(sag_bound(r.line(RAILS[s]), f.rail_ei[s], widest));
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
            to_exceed: vec![0.0; forces.dead.len()],
            forces,
            sags,
            down: vec![[0.0; 2]; stations.len()],
            shear: vec![[0.0; 2]; stations.len()],
            live: vec![[0.0; 2]; stations.len()],
            own: own_weight[RAIL],
            most_dead_moment: dead_moment.iter().fold(0.0, |a, m| greater(a, m.abs())),
            dead_moment,
            widest,
            ei: f.rail_ei[s],
            strength,
            groups: (0..screws.len()).map(|j| j..screws.partition_point(|y| *y <= screws[j] + depth)).collect(),
            up_to: Vec::with_capacity(screws.len() + 1),
            group_to_exceed: vec![0.0; screws.len()],
            pressed: vec![[0.0; 2]; p.slats.count],
            stations,
        }
    }

    /// Forgets the positions of the case before.
    pub(super) fn clear(&mut self) {
        self.to_exceed.fill(f64::NEG_INFINITY);
        self.group_to_exceed.fill(f64::NEG_INFINITY);
        self.pressed.fill([0.0; 2]);
    }

    /// Puts the side under the slats' reactions at position `k`, from slat `first` on, and raises the peaks
    /// to what they and the dead load do together.
    pub(super) fn put(&mut self, first: usize, reactions: &[f64], k: usize, out: &mut CaseEnvelope) {
        self.settle(first, reactions);
        self.raise_lines(k, out);
        self.raise_forces(k, out);
    }

    /// What people alone do to the side: forces of screws and supports, and from them shears and moments of rail
    /// and cleat, from their free left ends.
    fn settle(&mut self, first: usize, reactions: &[f64]) {
        self.forces.sum(first, reactions);
        self.down.fill([0.0; 2]);
        for (at, force) in self.under[first..].iter().zip(reactions) {
            self.down[*at][CLEAT] += self.strength.variable * force;
        }
        let (screws, supports) = self.at.split_at(self.screws);
        for (at, force) in screws.iter().zip(self.forces.now()) {
            let down = &mut self.down[*at];
            *down = [down[RAIL] + force, down[CLEAT] - force];
        }
        for (at, force) in supports.iter().zip(&self.forces.now()[self.screws..]) {
            self.down[*at][RAIL] -= force;
        }
        let (mut shear, mut moment) = ([0.0; 2], [0.0; 2]);
        let here = self.shear.iter_mut().zip(&mut self.live);
        for ((station, down), (own_shear, live)) in self.stations.iter().zip(&self.down).zip(here) {
            moment = [moment[0] + shear[0] * station.run, moment[1] + shear[1] * station.run];
            shear = [shear[0] - down[0], shear[1] - down[1]];
            (*own_shear, *live) = (shear, moment);
        }
    }

    /// Raises the peaks of screws, their groups and supports.
    fn raise_forces(&mut self, k: usize, out: &mut CaseEnvelope) {
        let Rows { dead, filled, .. } = &mut self.forces;
        let mut any = false;
        for ((force, dead), to_exceed) in filled.iter_mut().zip(dead).zip(&self.to_exceed) {
            *force += *dead;
            any |= force.abs() > *to_exceed;
        }
        if any {
            let peaks = out.screws[self.side].iter_mut().chain(&mut out.supports[self.side]);
            for ((force, limit), peak) in self.forces.now().iter().zip(&mut self.to_exceed).zip(peaks) {
                if force.abs() > *limit {
                    *limit = to_exceed(force.abs());
                    raise(peak, force.abs(), k, None);
                }
            }
        }
        self.up_to.clear();
        self.up_to.push(0.0);
        let mut sum = 0.0;
        self.up_to.extend(self.forces.now()[..self.screws].iter().map(|force| {
            sum += force;
            sum
        }));
        let peaks = out.groups[self.side].iter_mut();
        for ((group, limit), peak) in self.groups.iter().zip(&mut self.group_to_exceed).zip(peaks) {
            let together = (self.up_to[group.end] - self.up_to[group.start]).abs();
            if together > *limit {
                *limit = to_exceed(together);
                raise(peak, together, k, None);
            }
        }
    }

    /// Raises the peaks of shear and moment of rail and cleat.
    fn raise_lines(&self, k: usize, out: &mut CaseEnvelope) {
        let [most_shear, most_moment] = self.most_along();
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

    /// The greatest shear and the greatest moment at a station, dead load included, of both lines.
    fn most_along(&self) -> [Pair; 2] {
        let (mut before, mut most_shear, mut most_moment) = ([0.0; 2], [0.0; 2], [0.0; 2]);
        for ((dead, shear), live) in self.stations.iter().zip(&self.shear).zip(&self.live) {
            most_shear = farther(most_shear, plus(dead.left, before));
            most_shear = farther(most_shear, plus(dead.right, *shear));
            most_moment = farther(most_moment, plus(dead.moment, *live));
            before = *shear;
        }
        [most_shear, most_moment]
    }

    /// The first station beside which the shear is so much.
    fn place_of_shear(&self, line: usize, most: f64) -> f64 {
        let mut before = 0.0;
        let here = self.stations.iter().zip(&self.shear).find(|(dead, shear)| {
            let left = (dead.left[line] + before).abs();
            before = shear[line];
            left >= most || (dead.right[line] + before).abs() >= most
        });
        here.map_or(0.0, |(station, _)| station.x)
    }

    /// Raises the peak of moment: people's moments run straight between stations, the line's own weight
    /// bows them by at most `w·h²/8`, and only where that could matter is the exact extreme worked out.
    fn raise_moment(&self, line: usize, most: f64, k: usize, peak: &mut Option<Peak>) {
        let weight = self.weight[line];
        let current = greater(most, peak.map_or(0.0, |p| p.value));
        let (mut before, mut from) = (0.0, 0.0);
        for (station, live) in self.stations.iter().zip(&self.live) {
            let moment = station.moment[line] + live[line];
            let (h, higher) = (station.run, greater(before, moment));
            if higher + self.bow[line] > current && h > 0.0 && higher + weight * h * h / 8.0 > current {
                let shear = (moment - before) / h + weight * h / 2.0;
                let u = shear / weight;
                if u > 0.0 && u < h {
                    raise(peak, before + shear * u / 2.0, k, Some(from + u));
                }
            }
            (before, from) = (moment, station.x);
        }
        if peak.is_none_or(|p| exceeds(most, p.value)) {
            let mut here = self.stations.iter().zip(&self.live);
            let place = here.find(|(station, live)| (station.moment[line] + live[line]).abs() >= most);
            raise(peak, most, k, place.map(|(station, _)| station.x));
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

#[inline]
fn plus(a: Pair, b: Pair) -> Pair {
    [a[0] + b[0], a[1] + b[1]]
}

/// The greater of each, whatever its sign.
#[inline]
fn farther(most: Pair, here: Pair) -> Pair {
    [greater(most[0], here[0].abs()), greater(most[1], here[1].abs())]
}

/// Forces of screws and supports of side `s`.
fn forces(r: &Response<'_>, f: &Framing, s: usize, out: &mut Vec<f64>) {
    let (first, n) = f.links[s];
    out.extend((first..first + n).map(|k| r.link_force(k)));
    let (first, n) = f.springs[s];
    out.extend((first..first + n).map(|k| r.spring_force(k)));
}
