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
pub(super) type PerSupport = [f64; MOST_LINES];

/// A crossbeam as the grillage keeps it. Supports are numbered left to right.
#[derive(Clone, Debug)]
pub(super) struct Condensed {
    pub(super) span: Span,
    pub(super) station: usize,
    pub(super) count: usize,
    pub(super) lines: [usize; MOST_LINES],
    pub(super) at: PerSupport,
    /// For each entry of `rests_on`, which support from the left it is.
    pub(super) place: [usize; MOST_LINES],
    /// Which [`Redundant`] serves it, when it has more than two supports.
    pub(super) redundant: Option<usize>,
    /// For each support its place in the list of contacts that may open; none where it is held.
    pub(super) contact: [Option<usize>; MOST_LINES],
}

/// What a crossbeam on three or more supports adds to the lever rule.
#[derive(Clone, Debug)]
pub(super) struct Redundant {
    span: Span,
    at: PerSupport,
    count: usize,
    /// Influence lines of the reactions as value and three derivatives at the left end of each
    /// stretch between supports; the first stretch is the left overhang, taken at its right end.
    stretches: Vec<[[f64; 4]; MOST_LINES]>,
    /// Reaction lost per settlement.
    pub(super) stiffness: [PerSupport; MOST_LINES],
}

impl Condensed {
    /// The crossbeam over its lines. All references have been checked.
    pub(super) fn new(beam: &Crossbeam, lines: &[Line], station: usize) -> Self {
        let count = beam.rests_on.len().min(MOST_LINES);
        let mut order = [0; MOST_LINES];
        for (k, slot) in order[..count].iter_mut().enumerate() {
            *slot = k;
        }
        order[..count].sort_unstable_by(|a, b| lines[beam.rests_on[*a]].y.total_cmp(&lines[beam.rests_on[*b]].y));
        let (mut under, mut at, mut place) = ([0; MOST_LINES], [0.0; MOST_LINES], [0; MOST_LINES]);
        for (support, &k) in order[..count].iter().enumerate() {
            under[support] = beam.rests_on[k];
            at[support] = lines[under[support]].y;
            place[k] = support;
        }
        let span =
            Span { start: beam.start, end: beam.end, supports: [at[0], at[count - 1]], ei: beam.ei, kga: beam.kga };
        Condensed { span, station, count, lines: under, at, place, redundant: None, contact: [None; MOST_LINES] }
    }

    /// Reactions with all supports held, left to right.
    #[inline]
    pub(super) fn held(&self, loads: &[Load], redundants: &[Redundant]) -> PerSupport {
        let mut reactions = [0.0; MOST_LINES];
        match self.redundant {
            None => {
                let pair = lever_reactions(loads, self.at[0], self.at[1]);
                reactions[..2].copy_from_slice(&pair);
            }
            Some(k) => redundants[k].held(loads, &mut reactions),
        }
        reactions
    }

    /// The crossbeam with known reactions, its outer supports at the given deflections.
    pub(super) fn bent<'a>(&self, loads: &'a [Load], reactions: &PerSupport, settlement: [f64; 2]) -> Loaded<'a> {
        let mut supports = [(0.0, 0.0); MOST_LINES];
        for (support, (at, reaction)) in supports.iter_mut().zip(self.at.iter().zip(reactions)) {
            *support = (*at, *reaction);
        }
        Loaded {
            start: self.span.start,
            end: self.span.end,
            ei: self.span.ei,
            kga: self.span.kga,
            loads,
            supports,
            count: self.count,
            settlement,
        }
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
        // Beyond the inner supports the matrix is padded with ones.
        let flexibility = SMatrix::<f64, INNER, INNER>::from_fn(|i, j| match (i < inner, j < inner) {
            (true, true) => lines[j].deflection(at[i + 1]),
            _ => f64::from(u8::from(i == j)),
        });
        let stiffness = flexibility.cholesky()?.inverse();
        let length = at[count - 1] - at[0];
        let lever = |y: f64| (y - at[0]) / length;

        let stretches = (0..=count).map(|stretch| {
            let y = at[stretch.saturating_sub(1)];
            let deflected = |j: usize| unit_line(&lines[j], y, stretch > 0);
            let mut influence = [[0.0; 4]; MOST_LINES];
            influence[0] = [1.0 - lever(y), -1.0 / length, 0.0, 0.0];
            influence[count - 1] = [lever(y), 1.0 / length, 0.0, 0.0];
            for i in 0..inner {
                let mut own = [0.0; 4];
                for j in 0..inner {
                    for (sum, part) in own.iter_mut().zip(deflected(j)) {
                        *sum += stiffness[(i, j)] * part;
                    }
                }
                let share = lever(at[i + 1]);
                influence[i + 1] = own;
                for k in 0..4 {
                    influence[0][k] -= (1.0 - share) * own[k];
                    influence[count - 1][k] -= share * own[k];
                }
            }
            influence
        });
        let stretches = stretches.collect();

        // Each redundant resists its support leaving the straight line between the outer two.
        let leaves = SMatrix::<f64, INNER, MOST_LINES>::from_fn(|i, j| match i < inner {
            true if j == i + 1 => 1.0,
            true if j == 0 => lever(at[i + 1]) - 1.0,
            true if j == count - 1 => -lever(at[i + 1]),
            _ => 0.0,
        });
        let condensed = leaves.transpose() * stiffness * leaves;
        Some(Redundant { span, at, count, stretches, stiffness: condensed.transpose().into() })
    }

    /// Whether this is the same beam on the same supports, so that it may be shared.
    pub(super) fn serves(&self, beam: &Condensed) -> bool {
        self.span == beam.span && self.at == beam.at && self.count == beam.count
    }

    fn held(&self, loads: &[Load], reactions: &mut PerSupport) {
        for load in loads {
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
                for (reaction, [c0, c1, c2, c3]) in reactions.iter_mut().zip(&self.stretches[stretch]).take(self.count)
                {
                    *reaction += part.against([
                        c0 + t * (c1 + t * (c2 / 2.0 + t * c3 / 6.0)),
                        c1 + t * (c2 + t * c3 / 2.0),
                        c2 + t * c3,
                        *c3,
                    ]);
                }
            }
        }
    }

    /// What each reaction loses when the supports go down by `settlement`.
    #[inline]
    pub(super) fn lost(&self, settlement: &PerSupport) -> PerSupport {
        let mut lost = [0.0; MOST_LINES];
        for (row, sum) in self.stiffness.iter().zip(&mut lost).take(self.count) {
            *sum = row.iter().zip(settlement).map(|(k, w)| k * w).sum();
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
