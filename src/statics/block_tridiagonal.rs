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

/// The freedoms of one station in terms of those given up (z) and those of the next (r), and the
/// energy of the elements between as blocks zz, zr and rr.
struct Elimination<const D: usize> {
    given_up: Block<D>,
    next: Block<D>,
    zz: Block<D>,
    zr: Block<D>,
    rr: Block<D>,
}

impl<const D: usize> Elimination<D> {
    fn new(chain: &Chain<'_>, station: usize, left: &Block<D>) -> Self {
        let mut e = Elimination {
            given_up: Block::zeros(),
            next: Block::zeros(),
            zz: Block::zeros(),
            zr: Block::zeros(),
            rr: Block::zeros(),
        };
        for (line, reach) in chain.lines.iter().enumerate() {
            let at = 2 * line;
            let set = |block: &mut Block<D>, value: Matrix2<f64>| {
                block.fixed_view_mut::<2, 2>(at, at).copy_from(&value);
            };
            if station < reach.first || station > reach.last {
                set(&mut e.zz, Matrix2::identity());
                continue;
            }
            if station == reach.last {
                set(&mut e.given_up, Matrix2::identity());
                continue;
            }
            let length = chain.stations[station + 1] - chain.stations[station];
            let element = Stiffness::of(reach.ei, length);
            let rigid = chain.rigid.binary_search(&(station, line)).is_ok();
            if !rigid && element.far.m11 > left[(at, at)] {
                let back = rigid_back(length);
                set(&mut e.given_up, -back);
                set(&mut e.next, back);
                set(&mut e.zz, element.far);
            } else {
                set(&mut e.given_up, Matrix2::identity());
                set(&mut e.zz, element.near);
                set(&mut e.zr, element.across);
                set(&mut e.rr, element.far);
            }
        }
        e
    }

    /// Adds the energy of all that lies left, then takes rigid supports out.
    fn close(&mut self, left: &Block<D>, held: impl Iterator<Item = usize>) {
        let onto = self.given_up.transpose() * left;
        self.zz += onto * self.given_up;
        self.zr += onto * self.next;
        self.rr += self.next.transpose() * left * self.next;
        for freedom in held {
            self.zz.row_mut(freedom).fill(0.0);
            self.zz.column_mut(freedom).fill(0.0);
            self.zz[(freedom, freedom)] = 1.0;
            self.zr.row_mut(freedom).fill(0.0);
            self.given_up.column_mut(freedom).fill(0.0);
        }
    }

    /// The kept blocks, and the stiffness that the next station finds on its left.
    fn step(&self) -> Option<(Step<D>, Block<D>)> {
        let inverse = Cholesky::new(self.zz)?.inverse();
        let back = self.given_up * inverse;
        let step =
            Step { yielding: back * self.given_up.transpose(), carried: (self.next - back * self.zr).transpose() };
        let left = self.rr - self.zr.transpose() * inverse * self.zr;
        Some((step, left))
    }
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
            let held = rigid[..here].iter().map(|(_, line)| 2 * line);
            rigid = &rigid[here..];
            let mut elimination = Elimination::new(chain, station, &left);
            elimination.close(&left, held);
            let (step, next) = elimination.step().ok_or(station)?;
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
    for row in 0..D {
        let mut sum = to[row];
        for column in 0..D {
            let factor = matrix(row, column);
            for lane in 0..N {
                sum[lane] += factor * from[column][lane];
            }
        }
        to[row] = sum;
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
