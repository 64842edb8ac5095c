//! A crossbeam condensed onto the lines under it: its reactions under load and its stiffness
//! against their settlement.
//!
//! On two supports it is determinate: the lever rule, and no stiffness. On more, the force method
//! with the inner reactions as redundants gives influence lines that are cubic between supports
//! (Müller-Breslau's principle: an influence line is a deflection line), so a load is integrated
//! against them exactly, with shear deformation or without.

use nalgebra::SMatrix;

use super::MOST_LINES;
use super::load::Load;
use super::loaded::Loaded;
use super::model::{Crossbeam, Line};
use super::span::{Span, lever_reactions};

/// The most inner supports.
const INNER: usize = MOST_LINES - 2;

/// A value per support, left to right.
type PerSupport = [f64; MOST_LINES];

/// A crossbeam as the grillage keeps it. Supports are numbered left to right.
#[derive(Clone, Debug)]
pub(super) struct Condensed {
    pub(super) span: Span,
    pub(super) count: usize,
    /// Node of the line at each support.
    under: [usize; MOST_LINES],
    pub(super) at: PerSupport,
    /// For each entry of `rests_on`, which support from the left it is.
    pub(super) place: [usize; MOST_LINES],
    /// Place of its first support among those of all crossbeams.
    pub(super) bearing: usize,
    /// Which [`Redundant`] serves it, when it has more than two supports.
    pub(super) redundant: Option<usize>,
    /// For each support its place in the list of contacts that may open; none where it is held.
    pub(super) contact: [Option<usize>; MOST_LINES],
}

/// What a crossbeam on three or more supports adds to the lever rule: reactions of its inner supports, which
/// the outer two balance.
#[derive(Clone, Debug)]
pub(super) struct Redundant {
    span: Span,
    at: PerSupport,
    count: usize,
    /// Of each inner support, how far along it lies from the first (0) to the last (1).
    share: [f64; INNER],
    /// Influence lines of the inner reactions as value and three derivatives at the left end of each
    /// stretch between supports; the first stretch is the left overhang, taken at its right end.
    stretches: Vec<[[f64; 4]; INNER]>,
    /// Inner reactions lost per inner support leaving the straight line between the outer two.
    inner: [[f64; INNER]; INNER],
    /// Reaction lost per settlement.
    pub(super) stiffness: [PerSupport; MOST_LINES],
}

impl Condensed {
    /// The crossbeam over its lines, `node` the one of a line under it. All references have been checked.
    pub(super) fn new(beam: &Crossbeam, lines: &[Line], node: impl Fn(usize) -> usize, bearing: usize) -> Self {
        let count = beam.rests_on.len().min(MOST_LINES);
        let mut order = [0; MOST_LINES];
        for (k, slot) in order[..count].iter_mut().enumerate() {
            *slot = k;
        }
        order[..count].sort_unstable_by(|a, b| lines[beam.rests_on[*a]].y.total_cmp(&lines[beam.rests_on[*b]].y));
        let (mut under, mut at, mut place) = ([0; MOST_LINES], [0.0; MOST_LINES], [0; MOST_LINES]);
        for (support, &k) in order[..count].iter().enumerate() {
            let line = beam.rests_on[k];
            (under[support], at[support]) = (node(line), lines[line].y);
            place[k] = support;
        }
        let span =
            Span { start: beam.start, end: beam.end, supports: [at[0], at[count - 1]], ei: beam.ei, kga: beam.kga };
        Condensed { span, count, under, at, place, bearing, redundant: None, contact: [None; MOST_LINES] }
    }

    /// Nodes of the lines under it, left to right.
    pub(super) fn nodes(&self) -> &[usize] {
        &self.under[..self.count]
    }

    /// Reactions under one load with all supports held, left to right.
    #[inline]
    pub(super) fn held(&self, load: &Load, redundants: &[Redundant]) -> PerSupport {
        let mut reactions =
            self.redundant.map_or([0.0; MOST_LINES], |k| redundants[k].balanced(redundants[k].held(load)));
        let [left, right] = lever_reactions(std::slice::from_ref(load), self.at[0], self.at[self.count - 1]);
        reactions[0] += left;
        reactions[self.count - 1] += right;
        reactions
    }
}

impl Redundant {
    /// The influence lines and the stiffness of a beam over `count` supports at `at`, or `None`
    /// when they are too close to tell apart.
    pub(super) fn new(beam: &Condensed) -> Option<Self> {
        let (span, at, count) = (beam.span, beam.at, beam.count);
        let inner = count - 2;
        let units: [[Load; 1]; INNER] =
            std::array::from_fn(|j| [Load::Point { at: at[(j + 1).min(count - 1)], force: 1.0 }]);
        let lines = units.each_ref().map(|unit| span.hold(unit, [0.0; 2]));
        // Beyond the inner supports the matrix is padded with ones, and what it gives with nothing.
        let flexibility = SMatrix::<f64, INNER, INNER>::from_fn(|i, j| match (i < inner, j < inner) {
            (true, true) => lines[j].deflection(at[i + 1]),
            _ => f64::from(u8::from(i == j)),
        });
        let stiffness = flexibility.cholesky()?.inverse();
        let pair = |i: usize, j: usize| if i < inner && j < inner { stiffness[(i, j)] } else { 0.0 };
        let stretches = (0..=count).map(|stretch| {
            let deflected = |j: usize| unit_line(&lines[j], at[stretch.saturating_sub(1)], stretch > 0);
            let sum = |i: usize, k: usize| (0..inner).map(|j| pair(i, j) * deflected(j)[k]).sum();
            std::array::from_fn(|i| std::array::from_fn(|k| sum(i, k)))
        });
        let mut redundant = Redundant {
            span,
            at,
            count,
            share: std::array::from_fn(|i| (at[(i + 1).min(count - 1)] - at[0]) / (at[count - 1] - at[0])),
            stretches: stretches.collect(),
            inner: std::array::from_fn(|i| std::array::from_fn(|j| pair(i, j))),
            stiffness: [[0.0; MOST_LINES]; MOST_LINES],
        };
        for support in 0..count {
            let mut settled = [[0.0]; MOST_LINES];
            settled[support] = [1.0];
            redundant.stiffness[support] = redundant.lost(&settled).map(|[lost]| lost);
        }
        Some(redundant)
    }

    /// Whether this is the same beam on the same supports, so that it may be shared.
    pub(super) fn serves(&self, beam: &Condensed) -> bool {
        self.span == beam.span && self.at == beam.at && self.count == beam.count
    }

    /// Inner reactions under a load, all supports held.
    fn held(&self, load: &Load) -> [f64; INNER] {
        let mut reactions = [0.0; INNER];
        let (from, to) = load.extent();
        let before = self.at[..self.count].partition_point(|at| *at <= from);
        for stretch in before..=self.count {
            let low = if stretch == 0 { f64::NEG_INFINITY } else { self.at[stretch - 1] };
            let high = if stretch == self.count { f64::INFINITY } else { self.at[stretch] };
            if to < low {
                break;
            }
            let Some(part) = load.within(low, high) else {
                continue;
            };
            let part = part.resultant();
            let t = part.at - self.at[stretch.saturating_sub(1)];
            let lines = self.stretches[stretch].iter().take(self.count - 2);
            for (reaction, [c0, c1, c2, c3]) in reactions.iter_mut().zip(lines) {
                *reaction += part.against([
                    c0 + t * (c1 + t * (c2 / 2.0 + t * c3 * (1.0 / 6.0))),
                    c1 + t * (c2 + t * c3 / 2.0),
                    c2 + t * c3,
                    *c3,
                ]);
            }
        }
        reactions
    }

    /// Inner reactions and what they take off the outer two.
    #[inline]
    fn balanced(&self, inner: [f64; INNER]) -> PerSupport {
        let mut all = [0.0; MOST_LINES];
        for (i, reaction) in inner.iter().enumerate().take(self.count - 2) {
            all[i + 1] = *reaction;
            all[0] -= (1.0 - self.share[i]) * reaction;
            all[self.count - 1] -= self.share[i] * reaction;
        }
        all
    }

    /// What each reaction loses when the supports go down by `settled`, in `N` cases.
    #[inline]
    pub(super) fn lost<const N: usize>(&self, settled: &[[f64; N]; MOST_LINES]) -> [[f64; N]; MOST_LINES] {
        let (mut lost, last, inner) = ([[0.0; N]; MOST_LINES], self.count - 1, self.count - 2);
        for (j, share) in self.share.iter().enumerate().take(inner) {
            for lane in 0..N {
                // Differences first: stiff crossbeams settle almost straight.
                let (first, here) = (settled[0][lane], settled[j + 1][lane]);
                let left = (here - first) - share * (settled[last][lane] - first);
                for i in 0..inner {
                    lost[i + 1][lane] += self.inner[i][j] * left;
                }
            }
        }
        for (i, share) in self.share.iter().enumerate().take(inner) {
            for (lane, reaction) in lost[i + 1].into_iter().enumerate() {
                lost[0][lane] -= (1.0 - share) * reaction;
                lost[last][lane] -= share * reaction;
            }
        }
        lost
    }
}

/// Deflection of a beam under a unit load and its three derivatives along the beam at a support,
/// on its right or on its left.
fn unit_line(line: &Loaded<'_>, y: f64, right: bool) -> [f64; 4] {
    let (before, after) = line.shear(y);
    let shear = if right { after } else { before };
    [line.deflection(y), line.rotation(y) + shear / line.kga, -line.moment(y) / line.ei, -shear / line.ei]
}
