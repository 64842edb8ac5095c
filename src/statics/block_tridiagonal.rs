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

use std::cmp::Ordering;
use std::fmt::Debug;

use super::element::Stiffness;

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

/// A square matrix, row by row.
type Block<const D: usize> = [[f64; D]; D];

/// What is kept of one station.
#[derive(Clone, Debug)]
struct Step<const D: usize> {
    /// Displacement for force, the next station held.
    yielding: Block<D>,
    /// Displacement for displacement of the next station; transposed, force carried on to it.
    carried: Block<D>,
}

#[derive(Clone, Debug)]
struct Factors<const D: usize> {
    steps: Vec<Step<D>>,
}

/// The freedoms of a station as `T (given_up ∘ z + next ∘ r)`: z are given up, r are those of the next
/// station, and `T` takes `lever` times the rotation of a line off its deflection. The energy of the
/// elements between the two stations is in the blocks zz, zr and rr.
struct Elimination<const D: usize> {
    given_up: [f64; D],
    next: [f64; D],
    lever: [f64; D],
    zz: Block<D>,
    zr: Block<D>,
    rr: Block<D>,
}

impl<const D: usize> Elimination<D> {
    fn new(chain: &Chain<'_>, station: usize, rigid: &[(usize, usize)], left: &Block<D>) -> Self {
        let (none, zero) = ([0.0; D], [[0.0; D]; D]);
        let mut e = Elimination { given_up: none, next: none, lever: none, zz: zero, zr: zero, rr: zero };
        for (line, reach) in chain.lines.iter().enumerate() {
            let (w, turn) = (2 * line, 2 * line + 1);
            if station < reach.first || station > reach.last {
                (e.zz[w][w], e.zz[turn][turn]) = (1.0, 1.0);
                continue;
            }
            e.given_up[w..=turn].fill(1.0);
            let held = rigid.iter().any(|(_, held)| *held == line);
            if station < reach.last {
                let length = chain.stations[station + 1] - chain.stations[station];
                let element = Stiffness::of(reach.ei, length);
                if !held && element.far[0][0] > left[w][w] {
                    e.given_up[w..=turn].fill(-1.0);
                    e.next[w..=turn].fill(1.0);
                    e.lever[w] = length;
                    place(&mut e.zz, w, &element.far);
                } else {
                    place(&mut e.zz, w, &element.near);
                    place(&mut e.zr, w, &element.across);
                    place(&mut e.rr, w, &element.far);
                }
            }
            if held {
                // The deflection is nothing, and nothing follows from it.
                e.given_up[w] = 0.0;
                (e.zz[w][w], e.zz[w][turn], e.zz[turn][w]) = (1.0, 0.0, 0.0);
                e.zr[w] = none;
            }
        }
        e
    }

    /// Fills the kept blocks, and turns the stiffness that this station finds on its left into what the next one
    /// finds there.
    fn step(&mut self, left: &mut Block<D>, kept: &mut Step<D>) -> Option<()> {
        let Elimination { given_up, next, lever, zz, zr, rr } = self;
        let turned: [f64; D] = std::array::from_fn(|j| if j % 2 == 1 { lever[j - 1] } else { 0.0 });
        for w in (0..D).step_by(2) {
            take_off(left, w + 1, lever[w], w);
        }
        for i in 0..D {
            // A row of Tᵀ left T.
            let row: [f64; D] = std::array::from_fn(|j| left[i][j] - turned[j] * left[i][j ^ 1]);
            for j in 0..D {
                zz[i][j] += given_up[i] * given_up[j] * row[j];
                zr[i][j] += given_up[i] * next[j] * row[j];
                rr[i][j] += next[i] * next[j] * row[j];
            }
        }
        invert(zz)?;
        // Where no deformation is given up, an element leads from each line to itself only: zr is nothing elsewhere.
        let mixed = next.contains(&1.0);
        for i in 0..D {
            let own = i & !1;
            let (follows, rows) =
                if mixed { (combined(&zz[i], zr), 0..D) } else { (by_line(&zz[i], zr), own..own + 2) };
            for (row, factor) in rr[rows.clone()].iter_mut().zip(&zr[i][rows]) {
                row.iter_mut().zip(follows).for_each(|(value, follows)| *value -= factor * follows);
            }
            kept.carried[i] = std::array::from_fn(|j| if i == j { next[i] } else { 0.0 } - given_up[i] * follows[j]);
            // A row of (given_up ∘ inverse ∘ given_up) Tᵀ.
            let row: [f64; D] = std::array::from_fn(|j| given_up[i] * given_up[j] * zz[i][j]);
            kept.yielding[i] = std::array::from_fn(|j| row[j] - lever[j] * row[j ^ 1]);
        }
        for w in (0..D).step_by(2) {
            take_off(&mut kept.yielding, w, lever[w], w + 1);
            take_off(&mut kept.carried, w, lever[w], w + 1);
        }
        for i in 0..D {
            for j in 0..D {
                left[i][j] = 0.5 * (rr[i][j] + rr[j][i]);
            }
        }
        Some(())
    }
}

/// Adds the block of one line to a matrix.
fn place<const D: usize>(to: &mut Block<D>, at: usize, block: &[[f64; 2]; 2]) {
    for (row, from) in to[at..].iter_mut().zip(block) {
        row[at] += from[0];
        row[at + 1] += from[1];
    }
}

/// Row `to` less `factor` times row `from`.
fn take_off<const D: usize>(matrix: &mut Block<D>, to: usize, factor: f64, from: usize) {
    let from = matrix[from];
    matrix[to].iter_mut().zip(from).for_each(|(to, from)| *to -= factor * from);
}

/// The rows of a matrix combined with the given factors.
fn combined<const D: usize>(factors: &[f64; D], rows: &Block<D>) -> [f64; D] {
    let mut sum = [0.0; D];
    for (factor, row) in factors.iter().zip(rows) {
        sum.iter_mut().zip(row).for_each(|(sum, value)| *sum += factor * value);
    }
    sum
}

/// As [`combined`], of rows that are nothing outside the block of their own line.
fn by_line<const D: usize>(factors: &[f64; D], rows: &Block<D>) -> [f64; D] {
    let mut sum = [0.0; D];
    for w in (0..D).step_by(2) {
        for j in [w, w + 1] {
            sum[j] = factors[w] * rows[w][j] + factors[w + 1] * rows[w + 1][j];
        }
    }
    sum
}

/// Ones, but nothing on the diagonal.
struct Off<const D: usize>;

impl<const D: usize> Off<D> {
    const DIAGONAL: Block<D> = {
        let mut ones = [[1.0; D]; D];
        let mut k = 0;
        while k < D {
            ones[k][k] = 0.0;
            k += 1;
        }
        ones
    };
}

/// Inverts a symmetric positive definite matrix, by Gauss and Jordan; such a matrix needs no search for
/// pivots. `None` where it is not positive definite.
///
/// Whole rows are written at a time: a single value written into a row stalls the next reading of it.
fn invert<const D: usize>(matrix: &mut Block<D>) -> Option<()> {
    for (k, off) in Off::<D>::DIAGONAL.iter().enumerate() {
        let pivot = matrix[k][k];
        if pivot.partial_cmp(&0.0) != Some(Ordering::Greater) {
            return None;
        }
        let swept: [f64; D] = std::array::from_fn(|j| (matrix[k][j] * off[j] + (1.0 - off[j])) / pivot);
        for (i, row) in matrix.iter_mut().enumerate() {
            let factor = row[k];
            *row = if i == k { swept } else { std::array::from_fn(|j| row[j] * off[j] - factor * swept[j]) };
        }
    }
    Some(())
}

impl<const D: usize> Factors<D> {
    fn new(chain: &Chain<'_>) -> Result<Self, usize> {
        let nothing = Step { yielding: [[0.0; D]; D], carried: [[0.0; D]; D] };
        let mut steps = vec![nothing; chain.stations.len()];
        let mut left = [[0.0; D]; D];
        let (mut ties, mut rigid) = (chain.ties, chain.rigid);
        for (station, step) in steps.iter_mut().enumerate() {
            while let [tie, rest @ ..] = ties
                && tie.station == station
            {
                left[2 * tie.row][2 * tie.column] += tie.stiffness;
                ties = rest;
            }
            let here = rigid.partition_point(|(at, _)| *at == station);
            let mut elimination = Elimination::new(chain, station, &rigid[..here], &left);
            rigid = &rigid[here..];
            elimination.step(&mut left, step).ok_or(station)?;
        }
        Ok(Factors { steps })
    }

    fn substitute<const N: usize>(&self, forces: &mut [f64]) {
        let (rows, _) = forces.as_chunks_mut::<N>();
        let (blocks, _) = rows.as_chunks_mut::<D>();
        for station in 1..self.steps.len().min(blocks.len()) {
            let (before, after) = blocks.split_at_mut(station);
            let carried = &self.steps[station - 1].carried;
            accumulate(|row, column| carried[column][row], &before[station - 1], &mut after[0]);
        }
        let mut next = [[0.0; N]; D];
        for (step, block) in self.steps.iter().zip(blocks).rev() {
            let mut here = [[0.0; N]; D];
            accumulate(|row, column| step.yielding[row][column], block, &mut here);
            accumulate(|row, column| step.carried[row][column], &next, &mut here);
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
