//! A grillage laid out in chains of stations and eliminated once.

use std::sync::OnceLock;

use super::block_tridiagonal::{Chain, Factored, Reach, Tie, factor};
use super::contact::Contacts;
use super::crossbeam::{Condensed, Redundant};
use super::error::StaticsError;
use super::load::Load;
use super::model::{Model, station_of};
use super::stability;

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
    pub(super) line: usize,
    pub(super) station: usize,
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
    /// How many supports all crossbeams have.
    pub(super) bearings: usize,
    pub(super) held_down: Vec<bool>,
    pub(super) springs: Vec<Ground>,
    pub(super) links: Vec<(usize, usize, f64)>,
    /// In order of line, then station.
    pub(super) rigid: Vec<Rigid>,
    /// Lines that something ties together share a chain; its first node and one past its last.
    pub(super) chains: Vec<(usize, usize, Box<dyn Factored>)>,
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
            bearings: 0,
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
            let node = |line: usize| self.tracks[line].node(station);
            let mut condensed = Condensed::new(beam, &model.lines, node, self.bearings);
            self.bearings += condensed.count;
            if condensed.count > 2 {
                // Slats are mostly alike: one analysis serves all that follow each other.
                if !self.redundants.last().is_some_and(|last| last.serves(&condensed)) {
                    let ill = StaticsError::IllConditioned { x: beam.x };
                    self.redundants.push(Redundant::new(&condensed).ok_or(ill)?);
                }
                condensed.redundant = Some(self.redundants.len() - 1);
                let inner = 1..condensed.count - 1;
                for support in 0..condensed.count {
                    if !beam.held_down || (model.held_at_ends && inner.contains(&support)) {
                        condensed.contact[support] = Some(contacts);
                        contacts += 1;
                    }
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
            for (node, row) in beam.nodes().iter().zip(&self.redundants[redundant].stiffness) {
                for (other, stiffness) in beam.nodes().iter().zip(row) {
                    tie(*node, *other, *stiffness);
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

    pub(super) fn nodes(&self) -> usize {
        self.stations.len() * self.tracks.len()
    }
}
