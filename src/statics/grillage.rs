//! A factored grillage and the solution of its load cases.

use std::sync::OnceLock;

use super::block_tridiagonal::{Chain, Factored, Reach, Tie, factor};
use super::contact::Contacts;
use super::crossbeam::{Condensed, Redundant};
use super::element::{Stiffness, fixed_end};
use super::error::{Part, StaticsError};
use super::load::Load;
use super::model::{Model, station_of};
use super::response::Response;
use super::workspace::{State, Workspace};
use super::{MOST_LINES, stability};

/// What a load acts on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// A crossbeam; the load's distances are y.
    Crossbeam(usize),
    /// A line; the load's distances are x.
    Line(usize),
}

/// A load in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// The beam that carries it.
    pub on: On,
    /// The load.
    pub load: Load,
}

/// A line as the grillage keeps it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Track {
    pub(super) reach: Reach,
    /// Node of the line at station 0, were it to reach so far.
    base: usize,
    /// Nodes from one station to the next: how many lines share the chain.
    width: usize,
}

impl Track {
    #[inline]
    pub(super) fn node(&self, station: usize) -> usize {
        self.base + station * self.width
    }
}

/// A rigid support.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rigid {
    line: usize,
    station: usize,
    /// How many springs of the model were rigid here and share the reaction.
    pub(super) share: f64,
}

/// A spring to ground as the grillage keeps it.
#[derive(Clone, Copy, Debug)]
pub(super) enum Ground {
    /// Yields: node and stiffness.
    Elastic(usize, f64),
    /// Does not: which [`Rigid`].
    Rigid(usize),
}

/// A grillage eliminated once, ready for any number of load cases.
#[derive(Debug)]
pub struct Grillage {
    pub(super) stations: Vec<f64>,
    pub(super) tracks: Vec<Track>,
    pub(super) crossbeams: Vec<Condensed>,
    pub(super) redundants: Vec<Redundant>,
    pub(super) held_down: Vec<bool>,
    pub(super) springs: Vec<Ground>,
    pub(super) links: Vec<(usize, usize, f64)>,
    /// In order of line, then station.
    pub(super) rigid: Vec<Rigid>,
    /// Lines that something ties together share a chain; its first node and one past its last.
    chains: Vec<(usize, usize, Box<dyn Factored>)>,
    pub(super) contacts: OnceLock<Contacts>,
}

impl Model {
    /// Eliminates the grillage.
    ///
    /// # Errors
    /// As [`Model::validate`]; [`StaticsError::Floats`] when a line is not held;
    /// [`StaticsError::IllConditioned`] when stiffnesses differ beyond double precision.
    pub fn factor(&self) -> Result<Grillage, StaticsError> {
        self.validate()?;
        stability::check(self)?;
        let stations = self.stations();
        let (chain_of, chain_count) = self.chains();
        let mut grillage = Grillage {
            tracks: self.tracks(&stations, &chain_of, chain_count),
            crossbeams: Vec::with_capacity(self.crossbeams.len()),
            redundants: Vec::new(),
            held_down: self.crossbeams.iter().map(|c| c.held_down).collect(),
            springs: Vec::with_capacity(self.springs.len()),
            links: Vec::with_capacity(self.links.len()),
            rigid: Vec::new(),
            chains: Vec::with_capacity(chain_count),
            contacts: OnceLock::new(),
            stations,
        };
        grillage.condense_crossbeams(self)?;
        grillage.place_springs(self);
        for chain in 0..chain_count {
            grillage.factor_chain(&chain_of, chain)?;
        }
        Ok(grillage)
    }

    /// For each line which chain it belongs to, and how many chains there are. Lines are in one
    /// chain when a link or a crossbeam on three or more supports ties them.
    fn chains(&self) -> (Vec<usize>, usize) {
        let mut chain_of: Vec<usize> = (0..self.lines.len()).collect();
        let mut join = |a: usize, b: usize| {
            let (keep, drop) = (chain_of[a].min(chain_of[b]), chain_of[a].max(chain_of[b]));
            chain_of.iter_mut().filter(|c| **c == drop).for_each(|c| *c = keep);
        };
        self.links.iter().for_each(|link| join(link.lines[0], link.lines[1]));
        for beam in self.crossbeams.iter().filter(|c| c.rests_on.len() > 2) {
            beam.rests_on.windows(2).for_each(|pair| join(pair[0], pair[1]));
        }
        let mut names = chain_of.clone();
        names.sort_unstable();
        names.dedup();
        chain_of.iter_mut().for_each(|c| *c = names.partition_point(|name| name < c));
        (chain_of, names.len())
    }

    fn tracks(&self, stations: &[f64], chain_of: &[usize], count: usize) -> Vec<Track> {
        let widths: Vec<usize> = (0..count).map(|c| chain_of.iter().filter(|of| **of == c).count()).collect();
        self.lines
            .iter()
            .enumerate()
            .map(|(l, line)| {
                let chain = chain_of[l];
                let before: usize = widths[..chain].iter().sum();
                let within = chain_of[..l].iter().filter(|of| **of == chain).count();
                Track {
                    reach: Reach {
                        first: station_of(stations, line.from),
                        last: station_of(stations, line.to),
                        ei: line.ei,
                    },
                    base: before * stations.len() + within,
                    width: widths[chain],
                }
            })
            .collect()
    }
}

impl Grillage {
    fn condense_crossbeams(&mut self, model: &Model) -> Result<(), StaticsError> {
        let mut contacts = 0;
        for beam in &model.crossbeams {
            let station = station_of(&self.stations, beam.x);
            let mut condensed = Condensed::new(beam, &model.lines, station);
            if condensed.count > 2 {
                // Slats are mostly alike: one analysis serves all that follow each other.
                if !self.redundants.last().is_some_and(|last| last.serves(&condensed)) {
                    let ill = StaticsError::IllConditioned { x: beam.x };
                    self.redundants.push(Redundant::new(&condensed).ok_or(ill)?);
                }
                condensed.redundant = Some(self.redundants.len() - 1);
                if !beam.held_down {
                    condensed.first_contact = Some(contacts);
                    contacts += condensed.count;
                }
            }
            self.crossbeams.push(condensed);
        }
        Ok(())
    }

    fn place_springs(&mut self, model: &Model) {
        let mut rigid: Vec<(usize, usize)> = model
            .springs
            .iter()
            .filter(|s| s.stiffness == f64::INFINITY)
            .map(|s| (s.line, station_of(&self.stations, s.x)))
            .collect();
        rigid.sort_unstable();
        self.rigid = rigid
            .chunk_by(|a, b| a == b)
            .map(|same| Rigid { line: same[0].0, station: same[0].1, share: same.len() as f64 })
            .collect();
        for spring in &model.springs {
            let station = station_of(&self.stations, spring.x);
            let held = self.rigid.binary_search_by_key(&(spring.line, station), |r| (r.line, r.station));
            self.springs.push(match held {
                Ok(k) if spring.stiffness == f64::INFINITY => Ground::Rigid(k),
                _ => Ground::Elastic(self.tracks[spring.line].node(station), spring.stiffness),
            });
        }
        for link in &model.links {
            let station = station_of(&self.stations, link.x);
            let [a, b] = link.lines.map(|line| self.tracks[line].node(station));
            self.links.push((a, b, link.stiffness));
        }
    }

    fn factor_chain(&mut self, chain_of: &[usize], chain: usize) -> Result<(), StaticsError> {
        let members: Vec<usize> = (0..self.tracks.len()).filter(|line| chain_of[*line] == chain).collect();
        let reaches: Vec<Reach> = members.iter().map(|line| self.tracks[*line].reach).collect();
        let Track { base: first, width, .. } = self.tracks[members[0]];
        let end = first + width * self.stations.len();
        let mut ties = Vec::with_capacity(self.springs.len() + 4 * self.links.len());
        let mut tie = |a: usize, b: usize, stiffness: f64| {
            if (first..end).contains(&a) && (first..end).contains(&b) {
                let (row, column) = ((a - first) % width, (b - first) % width);
                ties.push(Tie { station: (a - first) / width, row, column, stiffness });
            }
        };
        for spring in &self.springs {
            if let Ground::Elastic(node, stiffness) = *spring {
                tie(node, node, stiffness);
            }
        }
        for &(a, b, stiffness) in &self.links {
            tie(a, a, stiffness);
            tie(b, b, stiffness);
            tie(a, b, -stiffness);
            tie(b, a, -stiffness);
        }
        for beam in &self.crossbeams {
            let Some(redundant) = beam.redundant else {
                continue;
            };
            for (i, row) in self.redundants[redundant].stiffness.iter().take(beam.count).enumerate() {
                for (j, stiffness) in row.iter().take(beam.count).enumerate() {
                    tie(self.node_under(beam, i), self.node_under(beam, j), *stiffness);
                }
            }
        }
        ties.sort_by_key(|t| t.station);
        let mut rigid: Vec<(usize, usize)> = Vec::new();
        for (local, line) in members.iter().enumerate() {
            rigid.extend(self.rigid.iter().filter(|r| r.line == *line).map(|r| (r.station, local)));
        }
        rigid.sort_unstable();
        let chain = Chain { stations: &self.stations, lines: &reaches, ties: &ties, rigid: &rigid };
        let factored = factor(&chain).map_err(|station| StaticsError::IllConditioned { x: self.stations[station] })?;
        self.chains.push((first, end, factored));
        Ok(())
    }

    #[inline]
    pub(super) fn node_under(&self, beam: &Condensed, support: usize) -> usize {
        self.tracks[beam.lines[support]].node(beam.station)
    }

    pub(super) fn nodes(&self) -> usize {
        self.stations.len() * self.tracks.len()
    }

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
            self.push_apart(gaps, &mut state.shear);
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
            self.march::<N>(line, state);
        }
    }

    fn place(&self, placed: &Placed, lane: usize, state: &mut State) {
        let lanes = state.lanes;
        match placed.on {
            On::Crossbeam(k) => {
                if let Some(beam) = self.crossbeams.get(k)
                    && placed.load.is_on(beam.span.start, beam.span.end)
                {
                    let reactions = beam.held(std::slice::from_ref(&placed.load), &self.redundants);
                    for (support, reaction) in reactions.iter().take(beam.count).enumerate() {
                        state.shear[self.node_under(beam, support) * lanes + lane] += reaction;
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
        state.shear.iter_mut().skip(lane).step_by(lanes).for_each(|force| *force = f64::NAN);
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
                for (sum, value) in
                    state.element.iter_mut().zip([part.force, part.moment_about(high), actions[0], actions[1]])
                {
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

    /// Subtracts from the force down on every node what springs, links and crossbeams take.
    fn take_support<const N: usize>(&self, state: &mut State) {
        let (moved, _) = state.moved.as_chunks::<N>();
        let (down, _) = state.shear.as_chunks_mut::<N>();
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
            let stiffness = &self.redundants[redundant].stiffness;
            let mut nodes = [0; MOST_LINES];
            for (support, node) in nodes[..beam.count].iter_mut().enumerate() {
                *node = self.node_under(beam, support);
            }
            for i in 0..beam.count {
                for j in 0..beam.count {
                    for lane in 0..N {
                        down[nodes[i]][lane] -= stiffness[i][j] * moved[2 * nodes[j]][lane];
                    }
                }
            }
        }
    }

    /// Shear forces and moments of a line by equilibrium from its free left end. Only to the right
    /// of a rigid support, whose reaction is unknown, do they come from the deformed element.
    fn march<const N: usize>(&self, line: usize, state: &mut State) {
        let track = &self.tracks[line];
        let Reach { first, last, ei } = track.reach;
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
                    let length = self.stations[station + 1] - self.stations[station];
                    let near = 2 * node;
                    let far = 2 * track.node(station + 1);
                    let ends = [moved[near], moved[near + 1], moved[far], moved[far + 1]];
                    let mut bent = end_forces(ei, length, &ends);
                    if state.on_lines {
                        for lane in 0..N {
                            bent[0][lane] += elements[2][node][lane];
                            bent[1][lane] -= elements[3][node][lane];
                        }
                    }
                    shear = bent[0];
                    if station > first {
                        moment = bent[1];
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
}

/// Shear force and moment at the left end of an unloaded element with the given end movements.
fn end_forces<const N: usize>(ei: f64, length: f64, ends: &[[f64; N]; 4]) -> [[f64; N]; 2] {
    let Stiffness { near, across, .. } = Stiffness::of(ei, length);
    let (mut shear, mut moment) = ([0.0; N], [0.0; N]);
    for lane in 0..N {
        // Differences first: the ends of a short element move almost alike.
        let sunk = ends[2][lane] - ends[0][lane];
        shear[lane] = near.m11 * sunk - near.m12 * (ends[1][lane] + ends[3][lane]);
        moment[lane] = near.m22 * ends[1][lane] + across.m22 * ends[3][lane] - near.m12 * sunk;
    }
    [shear, moment]
}
