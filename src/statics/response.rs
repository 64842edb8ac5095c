//! What a grillage does under one load case.

use super::MOST_LINES;
use super::grillage::{Grillage, Ground};
use super::line::LineResponse;
use super::loaded::Loaded;
use super::span::Span;
use super::workspace::{Grouped, State, Workspace};

/// The solution of one load case: every member's forces and deflections. Indices are those of the
/// [`Model`](super::Model).
///
/// # Panics
/// Its methods panic, like a slice, on an index that the model does not have.
#[derive(Clone, Copy, Debug)]
pub struct Response<'w> {
    pub(super) grillage: &'w Grillage,
    pub(super) state: &'w State,
    grouped: &'w Grouped,
    gaps: &'w [f64],
    pub(super) lane: usize,
}

impl<'w> Response<'w> {
    pub(super) fn new(grillage: &'w Grillage, work: &'w Workspace, lane: usize) -> Self {
        Response { grillage, state: &work.state, grouped: &work.grouped, gaps: &work.gaps, lane }
    }

    #[inline]
    pub(super) fn pick(&self, buffer: &[f64], index: usize) -> f64 {
        buffer[index * self.state.lanes + self.lane]
    }

    #[inline]
    fn gap_at(&self, crossbeam: usize, support: usize) -> f64 {
        if self.gaps.is_empty() {
            return 0.0;
        }
        let contact = self.grillage.crossbeams[crossbeam].contact[support];
        contact.and_then(|contact| self.gaps.get(contact)).copied().unwrap_or(0.0)
    }

    /// Upward reaction on a crossbeam at a support, counted left to right.
    #[inline]
    pub(super) fn reaction(&self, crossbeam: usize, support: usize) -> f64 {
        self.pick(&self.state.bearing, self.grillage.crossbeams[crossbeam].bearing + support)
    }

    /// Upward reaction on crossbeam `i` from the `j`-th line it rests on, N.
    pub fn crossbeam_reaction(&self, i: usize, j: usize) -> f64 {
        self.reaction(i, self.grillage.crossbeams[i].place[j])
    }

    /// How far crossbeam `i` has lifted off the `j`-th line it rests on, m. Zero unless solved by
    /// [`Grillage::solve_lifting`].
    pub fn gap(&self, i: usize, j: usize) -> f64 {
        self.gap_at(i, self.grillage.crossbeams[i].place[j])
    }

    /// Crossbeam `i` under its loads and reactions, with its supports where the lines are.
    #[inline]
    pub fn crossbeam(&self, i: usize) -> Loaded<'w> {
        let beam = &self.grillage.crossbeams[i];
        let mut supports = [(0.0, 0.0); MOST_LINES];
        for (k, support) in supports[..beam.count].iter_mut().enumerate() {
            *support = (beam.at[k], self.reaction(i, k));
        }
        let last = beam.count - 1;
        let sunk = |k: usize| self.pick(&self.state.moved, 2 * beam.nodes()[k]) - self.gap_at(i, k);
        let settlement = [sunk(0), sunk(last)];
        let grouped: &'w Grouped = self.grouped;
        let Span { start, end, ei, kga, .. } = beam.span;
        let (loads, edges) = grouped.on(i);
        Loaded { start, end, ei, kga, loads, edges: Some(edges), supports, count: beam.count, settlement }
    }

    /// How far the `j`-th line that crossbeam `i` rests on has sunk under it, m.
    #[inline]
    pub fn sunk(&self, i: usize, j: usize) -> f64 {
        let beam = &self.grillage.crossbeams[i];
        self.pick(&self.state.moved, 2 * beam.nodes()[beam.place[j]])
    }

    /// Line `l`.
    #[inline]
    pub fn line(&self, l: usize) -> LineResponse<'w> {
        let grouped: &'w Grouped = self.grouped;
        let (loads, edges) = grouped.on(self.grillage.crossbeams.len() + l);
        LineResponse { response: *self, track: &self.grillage.tracks[l], loads, edges }
    }

    /// Force of spring `k` on its line, up positive, N: compression in the support.
    #[inline]
    pub fn spring_force(&self, k: usize) -> f64 {
        match self.grillage.springs[k] {
            Ground::Elastic(node, stiffness) => stiffness * self.pick(&self.state.moved, 2 * node),
            Ground::Rigid(k) => self.pick(&self.state.reaction, k) / self.grillage.rigid[k].share,
        }
    }

    /// Force that link `k` passes down from its first line to its second, N.
    #[inline]
    pub fn link_force(&self, k: usize) -> f64 {
        let (a, b, stiffness) = self.grillage.links[k];
        let moved = &self.state.moved;
        stiffness * (self.pick(moved, 2 * a) - self.pick(moved, 2 * b))
    }
}
