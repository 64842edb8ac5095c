//! The buffers in which load cases are solved.

use super::grillage::{Grillage, On, Placed};
use super::load::Load;
use super::pieces::Edge;

/// Every buffer that solving needs. It grows to fit and may serve one grillage after another.
#[derive(Clone, Debug, Default)]
pub struct Workspace {
    pub(super) state: State,
    pub(super) grouped: Grouped,
    /// Gap of every contact that may open, when lifting is solved.
    pub(super) gaps: Vec<f64>,
    /// Loads of both sets, when lifting is solved.
    pub(super) both: Vec<Placed>,
}

/// Nodal results, `lanes` load cases interleaved.
#[derive(Clone, Debug, Default)]
pub(super) struct State {
    pub(super) lanes: usize,
    /// w and θ of every node.
    pub(super) moved: Vec<f64>,
    /// Force down on every node; after the solution the shear force right of it.
    pub(super) shear: Vec<f64>,
    pub(super) moment: Vec<f64>,
    /// Of every rigid support.
    pub(super) reaction: Vec<f64>,
    /// Upward, of every support of every crossbeam; until the solution as if it were held.
    pub(super) bearing: Vec<f64>,
    /// For the element right of every node: resultant of its line loads, and their moment about
    /// its right end. Unused without such loads.
    pub(super) element: [Vec<f64>; 2],
    pub(super) on_lines: bool,
}

/// The loads of one case sorted by the beam they act on: crossbeams first, then lines.
#[derive(Clone, Debug, Default)]
pub(super) struct Grouped {
    starts: Vec<usize>,
    loads: Vec<Load>,
    /// Two of each load, those of one beam from left to right.
    edges: Vec<Edge>,
}

impl State {
    pub(super) fn reset(&mut self, grillage: &Grillage, lanes: usize) {
        let size = grillage.nodes() * lanes;
        self.lanes = lanes;
        self.on_lines = false;
        let clear = |buffer: &mut Vec<f64>, size: usize| {
            buffer.clear();
            buffer.resize(size, 0.0);
        };
        clear(&mut self.moved, 2 * size);
        clear(&mut self.shear, size);
        clear(&mut self.bearing, grillage.bearings * lanes);
        self.moment.resize(size, 0.0);
        self.reaction.resize(grillage.rigid.len() * lanes, 0.0);
    }

    /// Adds another case's results, one lane each: what holds while no contact opens is linear.
    pub(super) fn add(&mut self, other: &State) {
        let sum = |own: &mut [f64], other: &[f64]| own.iter_mut().zip(other).for_each(|(own, other)| *own += other);
        sum(&mut self.moved, &other.moved);
        sum(&mut self.shear, &other.shear);
        sum(&mut self.moment, &other.moment);
        sum(&mut self.reaction, &other.reaction);
        sum(&mut self.bearing, &other.bearing);
        if other.on_lines {
            self.need_elements();
            self.element.iter_mut().zip(&other.element).for_each(|(own, other)| sum(own, other));
        }
    }

    pub(super) fn need_elements(&mut self) {
        if !self.on_lines {
            self.on_lines = true;
            for buffer in &mut self.element {
                buffer.clear();
                buffer.resize(self.shear.len(), 0.0);
            }
        }
    }
}

impl Grouped {
    /// A counting sort: the order of loads on one beam stays. Their edges are put in order.
    pub(super) fn group(&mut self, grillage: &Grillage, loads: &[Placed]) {
        let crossbeams = grillage.crossbeams.len();
        let beams = crossbeams + grillage.tracks.len();
        let beam_of = |placed: &Placed| match placed.on {
            On::Crossbeam(k) if k < crossbeams => k,
            On::Line(k) if k < beams - crossbeams => crossbeams + k,
            _ => beams,
        };
        // One place more for loads that name nothing; their case is poisoned already.
        self.starts.clear();
        self.starts.resize(beams + 3, 0);
        self.loads.resize(loads.len(), Load::Point { at: 0.0, force: 0.0 });
        self.edges.resize(2 * loads.len(), Edge::NONE);
        for placed in loads {
            self.starts[beam_of(placed) + 2] += 1;
        }
        for beam in 2..self.starts.len() {
            self.starts[beam] += self.starts[beam - 1];
        }
        for placed in loads {
            let slot = &mut self.starts[beam_of(placed) + 1];
            self.loads[*slot] = placed.load;
            *slot += 1;
        }
        for beam in self.starts.windows(2) {
            if beam[0] < beam[1] {
                Edge::sort_into(&self.loads[beam[0]..beam[1]], &mut self.edges[2 * beam[0]..2 * beam[1]]);
            }
        }
    }

    /// The loads on a beam, and their edges.
    #[inline]
    pub(super) fn on(&self, beam: usize) -> (&[Load], &[Edge]) {
        match self.starts.get(beam..beam + 2) {
            Some(&[from, to]) => (&self.loads[from..to], &self.edges[2 * from..2 * to]),
            _ => (&[], &[]),
        }
    }
}
