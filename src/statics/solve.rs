//! The solution of load cases on a factored grillage.

use super::MOST_LINES;
use super::block_tridiagonal::Reach;
use super::element::{Stiffness, fixed_end};
use super::error::{Part, StaticsError};
use super::grillage::{Grillage, Ground, On, Placed, Track};
use super::load::Load;
use super::response::Response;
use super::workspace::{State, Workspace};

impl Grillage {
    /// Buffers for [`Grillage::solve`] and its relatives; solving allocates nothing once they have
    /// held a case of the same size.
    pub fn workspace(&self) -> Workspace {
        let mut work = Workspace::default();
        work.state.reset(self, 8);
        work
    }

    /// Checks that every load has finite numbers, names a beam of the grillage and stands on it.
    ///
    /// # Errors
    /// The first load that does not. [`Grillage::solve`] answers such a load with NaN throughout.
    pub fn admit(&self, loads: &[Placed]) -> Result<(), StaticsError> {
        for (i, placed) in loads.iter().enumerate() {
            let (ends, beam) = match placed.on {
                On::Crossbeam(k) => (self.crossbeams.get(k).map(|c| (c.span.start, c.span.end)), Part::Crossbeam(k)),
                On::Line(k) => (self.tracks.get(k).map(|t| self.ends(t)), Part::Line(k)),
            };
            let part = Part::Load(i);
            placed.load.admit(i, beam, ends.ok_or(StaticsError::Missing { part, beam })?)?;
        }
        Ok(())
    }

    fn ends(&self, track: &Track) -> (f64, f64) {
        (self.stations[track.reach.first], self.stations[track.reach.last])
    }

    /// Solves one load case; supports and crossbeams act both ways.
    ///
    /// A load that [`Grillage::admit`] refuses makes every result NaN.
    pub fn solve<'w>(&'w self, loads: &[Placed], work: &'w mut Workspace) -> Response<'w> {
        self.run::<1>(&[loads], &mut work.state, &[]);
        work.gaps.clear();
        work.grouped.group(self, loads);
        Response::new(self, &*work, 0)
    }

    /// Solves many load cases, several at a time, and hands over each in order.
    pub fn solve_each(&self, cases: &[&[Placed]], work: &mut Workspace, each: &mut dyn FnMut(usize, &Response<'_>)) {
        work.gaps.clear();
        for (batch, cases) in cases.chunks(8).enumerate() {
            match cases.len() {
                1 => self.run::<1>(cases, &mut work.state, &[]),
                2..=4 => self.run::<4>(cases, &mut work.state, &[]),
                _ => self.run::<8>(cases, &mut work.state, &[]),
            }
            for (lane, loads) in cases.iter().enumerate() {
                work.grouped.group(self, loads);
                each(8 * batch + lane, &Response::new(self, &*work, lane));
            }
        }
    }

    /// Solves up to `N` cases. `gaps` (of the contacts, for one case) push lifted supports apart.
    pub(super) fn run<const N: usize>(&self, cases: &[&[Placed]], state: &mut State, gaps: &[f64]) {
        state.reset(self, N);
        for (lane, loads) in cases.iter().enumerate().take(N) {
            for placed in *loads {
                self.place(placed, lane, state);
            }
        }
        if !gaps.is_empty() {
            self.push_apart(gaps, state);
        }
        let (moved, _) = state.moved.as_chunks_mut::<N>();
        let (down, _) = state.shear.as_chunks::<N>();
        for ([deflection, _], force) in moved.as_chunks_mut::<2>().0.iter_mut().zip(down) {
            for lane in 0..N {
                deflection[lane] += force[lane];
            }
        }
        for (first, end, factored) in &self.chains {
            factored.solve(&mut state.moved[2 * N * first..2 * N * end], N);
        }
        self.take_support::<N>(state);
        for line in 0..self.tracks.len() {
            self.march::<N>(line, cases, state);
        }
    }

    fn place(&self, placed: &Placed, lane: usize, state: &mut State) {
        let lanes = state.lanes;
        match placed.on {
            On::Crossbeam(k) => {
                if let Some(beam) = self.crossbeams.get(k)
                    && placed.load.is_on(beam.span.start, beam.span.end)
                {
                    let reactions = beam.held(&placed.load, &self.redundants);
                    for (support, (node, reaction)) in beam.nodes().iter().zip(reactions).enumerate() {
                        state.shear[node * lanes + lane] += reaction;
                        state.bearing[(beam.bearing + support) * lanes + lane] += reaction;
                    }
                    return;
                }
            }
            On::Line(k) => {
                if let Some(track) = self.tracks.get(k) {
                    let (from, to) = self.ends(track);
                    if placed.load.is_on(from, to) {
                        self.place_on_line(track, &placed.load, lane, state);
                        return;
                    }
                }
            }
        }
        // No beam carries this load: poison the case rather than lose the load.
        for forces in [&mut state.shear, &mut state.bearing] {
            forces.iter_mut().skip(lane).step_by(lanes).for_each(|force| *force = f64::NAN);
        }
    }

    fn place_on_line(&self, track: &Track, load: &Load, lane: usize, state: &mut State) {
        let Reach { first, last, .. } = track.reach;
        let lanes = state.lanes;
        let (from, to) = load.extent();
        if let Load::Point { at, force } = *load {
            // Rounding may put it a hair beyond the end; exactly at a station it is a nodal force.
            let at = at.clamp(self.stations[first], self.stations[last]);
            let station = self.element_at(track, at);
            let exact = if at == self.stations[last] { last } else { station };
            if at == self.stations[exact] {
                state.shear[track.node(exact) * lanes + lane] += force;
                return;
            }
        }
        state.need_elements();
        let mut station = self.element_at(track, from);
        while station < last && self.stations[station] <= to {
            let (low, high) = (self.stations[station], self.stations[station + 1]);
            if let Some(part) = load.within(low, high) {
                let node = track.node(station);
                let actions = fixed_end(&part, low, high - low);
                let part = part.resultant();
                let index = node * lanes + lane;
                for (sum, value) in state.element.iter_mut().zip([part.force, part.moment_about(high)]) {
                    sum[index] += value;
                }
                for (k, action) in actions.iter().enumerate() {
                    let node = track.node(station + k / 2);
                    state.moved[(2 * node + k % 2) * lanes + lane] += action;
                }
            }
            station += 1;
        }
    }

    /// The station at the left of the element that holds `x`.
    pub(super) fn element_at(&self, track: &Track, x: f64) -> usize {
        let Reach { first, last, .. } = track.reach;
        let after = self.stations[first..=last].partition_point(|s| *s <= x);
        (first + after).saturating_sub(1).clamp(first, last - 1)
    }

    /// Subtracts from the force down on every node what springs and links take, and what crossbeams lose where
    /// it yields.
    fn take_support<const N: usize>(&self, state: &mut State) {
        let (moved, _) = state.moved.as_chunks::<N>();
        let (down, _) = state.shear.as_chunks_mut::<N>();
        let (bearing, _) = state.bearing.as_chunks_mut::<N>();
        for spring in &self.springs {
            if let Ground::Elastic(node, stiffness) = *spring {
                for lane in 0..N {
                    down[node][lane] -= stiffness * moved[2 * node][lane];
                }
            }
        }
        for &(a, b, stiffness) in &self.links {
            for lane in 0..N {
                let force = stiffness * (moved[2 * a][lane] - moved[2 * b][lane]);
                down[a][lane] -= force;
                down[b][lane] += force;
            }
        }
        for beam in &self.crossbeams {
            let Some(redundant) = beam.redundant else {
                continue;
            };
            let mut settled = [[0.0; N]; MOST_LINES];
            for (w, node) in settled.iter_mut().zip(beam.nodes()) {
                *w = moved[2 * node];
            }
            let lost = self.redundants[redundant].lost(&settled);
            for (support, (lost, node)) in lost.iter().zip(beam.nodes()).enumerate() {
                for lane in 0..N {
                    down[*node][lane] -= lost[lane];
                    bearing[beam.bearing + support][lane] -= lost[lane];
                }
            }
        }
    }

    /// Shear forces and moments of a line by equilibrium from its free left end. Only to the right
    /// of a rigid support, whose reaction is unknown, do they come from the deformed line.
    fn march<const N: usize>(&self, line: usize, cases: &[&[Placed]], state: &mut State) {
        let track = &self.tracks[line];
        let Reach { first, last, .. } = track.reach;
        let mut next_rigid = self.rigid.partition_point(|r| r.line < line);
        let (mut shear, mut moment) = ([0.0; N], [0.0; N]);
        let (moved, _) = state.moved.as_chunks::<N>();
        let (shears, _) = state.shear.as_chunks_mut::<N>();
        let (moments, _) = state.moment.as_chunks_mut::<N>();
        let elements = state.element.each_ref().map(|e| e.as_chunks::<N>().0);
        for station in first..=last {
            let node = track.node(station);
            let down = shears[node];
            let rigid = self.rigid.get(next_rigid);
            if rigid.is_some_and(|r| r.line == line && r.station == station) {
                let left = shear;
                shear = [0.0; N];
                if station < last {
                    let restart = self.restart::<N>(line, station, cases, moved, shears);
                    shear = restart[0];
                    // A free end carries no moment, and exactly none.
                    if station > first {
                        moment = restart[1];
                    }
                }
                for lane in 0..N {
                    state.reaction[next_rigid * N + lane] = shear[lane] - left[lane] + down[lane];
                }
                next_rigid += 1;
            } else {
                for lane in 0..N {
                    shear[lane] -= down[lane];
                }
            }
            shears[node] = shear;
            moments[node] = moment;
            if station < last {
                let length = self.stations[station + 1] - self.stations[station];
                for lane in 0..N {
                    moment[lane] += shear[lane] * length;
                }
                if state.on_lines {
                    for lane in 0..N {
                        moment[lane] -= elements[1][node][lane];
                        shear[lane] -= elements[0][node][lane];
                    }
                }
            }
        }
    }

    /// Shear force and moment just right of a rigid support, from how a stretch of the line beyond
    /// it has moved. The stretch is long enough, where it can be, for those movements to tell: two
    /// stations a hair apart move alike to the last digit. `down` still holds forces beyond it.
    fn restart<const N: usize>(
        &self,
        line: usize,
        station: usize,
        cases: &[&[Placed]],
        moved: &[[f64; N]],
        down: &[[f64; N]],
    ) -> [[f64; N]; 2] {
        let track = &self.tracks[line];
        let Reach { first, last, ei } = track.reach;
        let whole = self.stations[last] - self.stations[first];
        let from = self.stations[station];
        let stop = |s: &usize| {
            self.stations[*s] - from > ENOUGH * whole
                || self.rigid.binary_search_by_key(&(line, *s), |r| (r.line, r.station)).is_ok()
        };
        let far = (station + 1..last).find(stop).unwrap_or(last);
        let to = self.stations[far];
        let [a, b] = [station, far].map(|s| 2 * track.node(s));
        let ends = [moved[a], moved[a + 1], moved[b], moved[b + 1]];
        let [mut shear, mut moment] = end_forces(ei, to - from, &ends);
        let mut clamp = |lane: usize, load: &Load| {
            let [force, turn, ..] = fixed_end(load, from, to - from);
            shear[lane] += force;
            moment[lane] -= turn;
        };
        for between in station + 1..far {
            for (lane, force) in down[track.node(between)].iter().enumerate() {
                clamp(lane, &Load::Point { at: self.stations[between], force: *force });
            }
        }
        for (lane, case) in cases.iter().enumerate() {
            for placed in case.iter().filter(|p| p.on == On::Line(line)) {
                let nodal = |at: f64| self.stations[station..far].contains(&at);
                match placed.load.within(from, to) {
                    Some(Load::Point { at, .. }) if nodal(at) => {}
                    Some(part) => clamp(lane, &part),
                    None => {}
                }
            }
        }
        [shear, moment]
    }
}

/// The part of a line that is long enough to read forces from its deflections.
const ENOUGH: f64 = 0.02;

/// Shear force and moment at the left end of an unloaded element with the given end movements.
fn end_forces<const N: usize>(ei: f64, length: f64, ends: &[[f64; N]; 4]) -> [[f64; N]; 2] {
    let Stiffness { near, across, .. } = Stiffness::of(ei, length);
    let (mut shear, mut moment) = ([0.0; N], [0.0; N]);
    for lane in 0..N {
        // Differences first: the ends of a short element move almost alike.
        let sunk = ends[2][lane] - ends[0][lane];
        shear[lane] = near[0][0] * sunk - near[0][1] * (ends[1][lane] + ends[3][lane]);
        moment[lane] = near[1][1] * ends[1][lane] + across[1][1] * ends[3][lane] - near[0][1] * sunk;
    }
    [shear, moment]
}
