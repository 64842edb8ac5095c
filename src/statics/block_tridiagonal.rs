//! Elimination of a chain of stations from left to right, in blocks of fixed size.
//!
//! Every station has two freedoms (w, θ) for each line, so the stiffness matrix is
//! block-tridiagonal with blocks of `D` = 2 × lines, whatever the number of stations. What lies
//! left of a station is condensed into one `D` × `D` stiffness by a Cholesky factorisation of the
//! freedoms given up. Two blocks are kept for each station: how the forces there are carried on
//! to the next, and how far the station yields.
//!
//! Which freedoms are given up is chosen for each line. Across an element much stiffer than what
//! holds its near end (two stations a hair apart), the matrix holds huge numbers that nearly
//! cancel, and w and θ of the near end would lose all digits. There the deformation of the element
//! is eliminated instead, which is the same algebra without the cancellation.

use std::fmt::Debug;

use nalgebra::{Cholesky, Matrix2, SMatrix};

use super::MOST_LINES;
use super::element::{Stiffness, rigid_back};

/// A line's stretch of stations, both ends included, and its bending stiffness.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reach {
    pub(super) first: usize,
    pub(super) last: usize,
    pub(super) ei: f64,
}

/// A stiffness between the deflections of two lines, or of one with ground, at a station.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tie {
    pub(super) station: usize,
    pub(super) row: usize,
    pub(super) column: usize,
    pub(super) stiffness: f64,
}

/// A chain of stations to be eliminated. Lines are numbered within the chain.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chain<'a> {
    pub(super) stations: &'a [f64],
    pub(super) lines: &'a [Reach],
    /// In order of station.
    pub(super) ties: &'a [Tie],
    /// Station and line of every rigid support, in order.
    pub(super) rigid: &'a [(usize, usize)],
}

/// A factored chain of any width.
pub(super) trait Factored: Debug + Send + Sync {
    /// Turns forces into displacements, `lanes` right-hand sides interleaved; 1, 4 or 8 lanes.
    fn solve(&self, forces: &mut [f64], lanes: usize);
}

/// Factors a chain; `Err` names the station at which it broke down.
pub(super) fn factor(chain: &Chain<'_>) -> Result<Box<dyn Factored>, usize> {
    Ok(match chain.lines.len() {
        1 => Box::new(Factors::<2>::new(chain)?),
        2 => Box::new(Factors::<4>::new(chain)?),
        3 => Box::new(Factors::<6>::new(chain)?),
        4 => Box::new(Factors::<8>::new(chain)?),
        5 => Box::new(Factors::<10>::new(chain)?),
        _ => Box::new(Factors::<12>::new(chain)?),
    })
}

type Block<const D: usize> = SMatrix<f64, D, D>;

/// What is kept of one station.
#[derive(Clone, Debug)]
struct Step<const D: usize> {
    /// Displacement for force, the next station held.
    yielding: Block<D>,
    /// Force carried to the next station for force here; transposed, displacement carried back.
    carried: Block<D>,
}

#[derive(Clone, Debug)]
struct Factors<const D: usize> {
    steps: Vec<Step<D>>,
}

/// A matrix that couples no line with another: a 2 × 2 block for each.
type EachLine = [Matrix2<f64>; MOST_LINES];

/// The freedoms of one station in terms of those given up (z) and those of the next (r), and the
/// energy of the elements between as blocks zz, zr and rr.
struct Elimination {
    given_up: EachLine,
    next: EachLine,
    zz: EachLine,
    zr: EachLine,
    rr: EachLine,
    held: [bool; MOST_LINES],
}

impl Elimination {
    fn new<const D: usize>(chain: &Chain<'_>, station: usize, rigid: &[(usize, usize)], left: &Block<D>) -> Self {
        let none = [Matrix2::zeros(); MOST_LINES];
        let held = [false; MOST_LINES];
        let mut e = Elimination { given_up: none, next: none, zz: none, zr: none, rr: none, held };
        rigid.iter().for_each(|(_, line)| e.held[*line] = true);
        for (line, reach) in chain.lines.iter().enumerate() {
            if station < reach.first || station > reach.last {
                e.zz[line] = Matrix2::identity();
                continue;
            }
            e.given_up[line] = Matrix2::identity();
            if station == reach.last {
                continue;
            }
            let length = chain.stations[station + 1] - chain.stations[station];
            let element = Stiffness::of(reach.ei, length);
            if !e.held[line] && element.far.m11 > left[(2 * line, 2 * line)] {
                e.next[line] = rigid_back(length);
                e.given_up[line] = -e.next[line];
                e.zz[line] = element.far;
            } else {
                e.zz[line] = element.near;
                e.zr[line] = element.across;
                e.rr[line] = element.far;
            }
        }
        e
    }

    /// The kept blocks, and the stiffness that the next station finds on its left, given what
    /// this one finds there.
    fn step<const D: usize>(&mut self, left: &Block<D>) -> Option<(Step<D>, Block<D>)> {
        let mut zz = sandwich(&self.given_up, left, &self.given_up, &self.zz);
        let mut zr = sandwich(&self.given_up, left, &self.next, &self.zr);
        let rr = sandwich(&self.next, left, &self.next, &self.rr);
        // Rigid supports: the deflection is nothing, and nothing follows from it.
        for line in (0..D / 2).filter(|line| self.held[*line]) {
            let freedom = 2 * line;
            zz.row_mut(freedom).fill(0.0);
            zz.column_mut(freedom).fill(0.0);
            zz[(freedom, freedom)] = 1.0;
            zr.row_mut(freedom).fill(0.0);
            self.given_up[line].column_mut(0).fill(0.0);
        }
        let inverse = Cholesky::new(zz)?.inverse();
        let follows = product(&inverse, &zr);
        let back = self.given_up.map(|block| block.transpose());
        let identity = [Matrix2::identity(); MOST_LINES];
        let none = [Matrix2::zeros(); MOST_LINES];
        let next = self.next.map(|block| -block);
        let step = Step {
            yielding: sandwich(&back, &inverse, &back, &none),
            carried: -sandwich(&back, &follows, &identity, &next).transpose(),
        };
        let left = rr - product(&zr.transpose(), &follows);
        Some((step, (left + left.transpose()) * 0.5))
    }
}

/// aᵀ m b + c, where only `m` couples lines.
fn sandwich<const D: usize>(a: &EachLine, m: &Block<D>, b: &EachLine, c: &EachLine) -> Block<D> {
    let m = &m.data.0;
    let mut result = [[0.0; D]; D];
    for (line, b) in b.iter().enumerate().take(D / 2) {
        let at = 2 * line;
        for row in 0..D {
            result[at][row] = m[at][row] * b.m11 + m[at + 1][row] * b.m21;
            result[at + 1][row] = m[at][row] * b.m12 + m[at + 1][row] * b.m22;
        }
    }
    for column in &mut result {
        for (pair, a) in column.chunks_exact_mut(2).zip(a) {
            let [w, turn] = [pair[0], pair[1]];
            pair[0] = a.m11 * w + a.m21 * turn;
            pair[1] = a.m12 * w + a.m22 * turn;
        }
    }
    for (line, c) in c.iter().enumerate().take(D / 2) {
        let at = 2 * line;
        for k in 0..4 {
            result[at + k / 2][at + k % 2] += c[(k % 2, k / 2)];
        }
    }
    result.into()
}

/// The plain product: the general one of the matrix library packs its operands first, which costs
/// more than blocks of this size do.
fn product<const D: usize>(a: &Block<D>, b: &Block<D>) -> Block<D> {
    let (a, b) = (&a.data.0, &b.data.0);
    let mut result = [[0.0; D]; D];
    for (column, factors) in result.iter_mut().zip(b) {
        for (from, factor) in a.iter().zip(factors) {
            for (sum, value) in column.iter_mut().zip(from) {
                *sum += value * factor;
            }
        }
    }
    result.into()
}

impl<const D: usize> Factors<D> {
    fn new(chain: &Chain<'_>) -> Result<Self, usize> {
        let mut steps = Vec::with_capacity(chain.stations.len());
        let mut left = Block::<D>::zeros();
        let (mut ties, mut rigid) = (chain.ties, chain.rigid);
        for station in 0..chain.stations.len() {
            while let [tie, rest @ ..] = ties
                && tie.station == station
            {
                left[(2 * tie.row, 2 * tie.column)] += tie.stiffness;
                ties = rest;
            }
            let here = rigid.partition_point(|(at, _)| *at == station);
            let mut elimination = Elimination::new(chain, station, &rigid[..here], &left);
            rigid = &rigid[here..];
            let (step, next) = elimination.step(&left).ok_or(station)?;
            steps.push(step);
            left = next;
        }
        Ok(Factors { steps })
    }

    fn substitute<const N: usize>(&self, forces: &mut [f64]) {
        let (rows, _) = forces.as_chunks_mut::<N>();
        let (blocks, _) = rows.as_chunks_mut::<D>();
        for station in 1..self.steps.len().min(blocks.len()) {
            let (before, after) = blocks.split_at_mut(station);
            let carried = &self.steps[station - 1].carried.data.0;
            accumulate(|row, column| carried[column][row], &before[station - 1], &mut after[0]);
        }
        let mut next = [[0.0; N]; D];
        for (step, block) in self.steps.iter().zip(blocks).rev() {
            let mut here = [[0.0; N]; D];
            let (yielding, carried) = (&step.yielding.data.0, &step.carried.data.0);
            accumulate(|row, column| yielding[column][row], block, &mut here);
            accumulate(|row, column| carried[row][column], &next, &mut here);
            *block = here;
            next = here;
        }
    }
}

/// `to += matrix · from` for interleaved right-hand sides.
#[inline(always)]
fn accumulate<const D: usize, const N: usize>(
    matrix: impl Fn(usize, usize) -> f64,
    from: &[[f64; N]; D],
    to: &mut [[f64; N]; D],
) {
    for (row, total) in to.iter_mut().enumerate() {
        let mut sum = *total;
        for (column, lanes) in from.iter().enumerate() {
            let factor = matrix(row, column);
            for (sum, value) in sum.iter_mut().zip(lanes) {
                *sum += factor * value;
            }
        }
        *total = sum;
    }
}

impl<const D: usize> Factored for Factors<D> {
    fn solve(&self, forces: &mut [f64], lanes: usize) {
        match lanes {
            8 => self.substitute::<8>(forces),
            4 => self.substitute::<4>(forces),
            _ => self.substitute::<1>(forces),
        }
    }
}
