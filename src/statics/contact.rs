//! Crossbeams that are not held down: a contact presses or it is open, never both.
//!
//! With the gaps g of the contacts as unknowns, the reactions are r = r₀ + H g, where H is the
//! stiffness of the whole grillage against pushing contacts apart. r ≥ 0, g ≥ 0, r·g = 0 is a
//! linear complementarity problem with a symmetric H. It is solved by principal pivoting: all
//! contacts that violate their sign change sides at once, and when that stops making progress,
//! one at a time by least index, which cannot cycle.
//!
//! Source: K. G. Murty, *Note on a Bard-type scheme for solving the complementarity problem*
//! (1974); J. J. Júdice and F. M. Pires, *A block principal pivoting algorithm* (1994). From memory.

use nalgebra::{DMatrix, DVector};

use super::error::StaticsError;
use super::grillage::{Grillage, Placed};
use super::response::Response;
use super::workspace::{State, Workspace};

/// The contacts of a grillage that may open.
#[derive(Clone, Debug)]
pub(super) struct Contacts {
    /// Crossbeam and support, left to right within each crossbeam.
    at: Vec<(usize, usize)>,
    /// Of each, whether its crossbeam is held down nowhere.
    loose: Vec<bool>,
    /// Reaction gained per gap.
    stiffness: DMatrix<f64>,
}

/// Rounds of exchanging many contacts at once that may pass without progress.
const PATIENCE: usize = 8;

/// A reaction, relative to the loads, or a gap, relative to the deflections, that counts as none.
const ROUNDING: f64 = 1e-11;

impl Contacts {
    fn new(grillage: &Grillage) -> Self {
        let mut at = Vec::new();
        for (i, beam) in grillage.crossbeams.iter().enumerate() {
            let may_open = (0..beam.count).filter(|support| beam.contact[*support].is_some());
            at.extend(may_open.map(|support| (i, support)));
        }
        let mut stiffness = DMatrix::zeros(at.len(), at.len());
        let mut work = grillage.workspace();
        for column in 0..at.len() {
            let mut gaps = vec![0.0; at.len()];
            gaps[column] = 1.0;
            grillage.run::<1>(&[&[]], &mut work.state, &gaps);
            work.gaps = gaps;
            work.grouped.group(grillage, &[]);
            let response = Response::new(grillage, &work, 0);
            for (row, reaction) in reactions(&response, &at).enumerate() {
                stiffness[(row, column)] = reaction;
            }
        }
        let loose = at.iter().map(|(beam, _)| !grillage.held_down[*beam]).collect();
        Contacts { at, loose, stiffness }
    }

    /// The gaps for the reactions that all contacts would have if they held.
    fn open(&self, held: &DVector<f64>, size: f64) -> Result<Vec<f64>, StaticsError> {
        let count = self.at.len();
        let most = self.stiffness.diagonal().max().max(f64::MIN_POSITIVE);
        let (force, gap) = (ROUNDING * size, ROUNDING * size / most);
        let mut lifted = vec![false; count];
        let (mut fewest, mut patience) = (count + 1, PATIENCE);
        for _ in 0..50 + 10 * count {
            let (gaps, reactions) = self.with_lifted(&lifted, held)?;
            let wrong: Vec<usize> =
                (0..count).filter(|c| if lifted[*c] { gaps[*c] < -gap } else { reactions[*c] < -force }).collect();
            let Some(first) = wrong.first() else {
                return Ok(gaps.iter().map(|g| g.max(0.0)).collect());
            };
            let progress = wrong.len() < fewest;
            if progress {
                (fewest, patience) = (wrong.len(), PATIENCE);
            } else {
                patience = patience.saturating_sub(1);
            }
            if patience > 0 {
                wrong.iter().for_each(|c| self.exchange(&mut lifted, *c));
            } else {
                self.exchange(&mut lifted, *first);
            }
        }
        Err(StaticsError::Unsettled)
    }

    /// Moves a contact to the other side. A loose crossbeam that presses on two supports only turns
    /// about the other one when the first lets go, and comes down on the next beyond it.
    fn exchange(&self, lifted: &mut [bool], contact: usize) {
        let beam = self.at[contact].0;
        let pressing = |c: usize, lifted: &[bool]| self.at.get(c).is_some_and(|at| at.0 == beam) && !lifted[c];
        let others: Vec<usize> = (0..lifted.len()).filter(|c| *c != contact && pressing(*c, lifted)).collect();
        if let ([pivot], false, true) = (&others[..], lifted[contact], self.loose[contact]) {
            let beyond = if *pivot > contact { pivot + 1 } else { pivot.wrapping_sub(1) };
            match self.at.get(beyond) {
                Some((of, _)) if *of == beam => lifted[beyond] = false,
                // Nothing there: it would tip, which has been ruled out but for rounding.
                _ => return,
            }
        }
        lifted[contact] = !lifted[contact];
    }

    /// Gaps and reactions when exactly the `lifted` contacts are open.
    fn with_lifted(&self, lifted: &[bool], held: &DVector<f64>) -> Result<(DVector<f64>, DVector<f64>), StaticsError> {
        let open: Vec<usize> = (0..lifted.len()).filter(|c| lifted[*c]).collect();
        let mut gaps = DVector::zeros(lifted.len());
        if !open.is_empty() {
            let matrix = DMatrix::from_fn(open.len(), open.len(), |i, j| self.stiffness[(open[i], open[j])]);
            let wanted = DVector::from_fn(open.len(), |i, _| -held[open[i]]);
            let solved = matrix.cholesky().ok_or(StaticsError::Unsettled)?.solve(&wanted);
            for (contact, gap) in open.iter().zip(solved.iter()) {
                gaps[*contact] = *gap;
            }
        }
        let reactions = held + &self.stiffness * &gaps;
        Ok((gaps, reactions))
    }
}

fn reactions(response: &Response<'_>, at: &[(usize, usize)]) -> impl Iterator<Item = f64> {
    at.iter().map(|&(beam, support)| response.reaction(beam, support))
}

/// A load set that others are solved together with, and what it does while all contacts hold.
#[derive(Clone, Debug)]
pub struct AtRest {
    loads: Vec<Placed>,
    held: State,
}

impl Grillage {
    /// The grillage under `base` (dead load), for solving what comes to it with [`Grillage::solve_upon`].
    ///
    /// # Errors
    /// [`Grillage::admit`]'s.
    pub fn at_rest(&self, base: &[Placed]) -> Result<AtRest, StaticsError> {
        self.admit(base)?;
        let mut held = State::default();
        self.run::<1>(&[base], &mut held, &[]);
        Ok(AtRest { loads: base.to_vec(), held })
    }

    /// Solves `base` (dead load) and `loads` together, letting every crossbeam that is not held
    /// down lift off its lines. The result is that of both load sets; it is not linear in them.
    ///
    /// # Errors
    /// [`Grillage::admit`]'s; [`StaticsError::Tips`] when the loads on a loose crossbeam have no
    /// equilibrium with pressing supports; [`StaticsError::Unsettled`] when rounding keeps the
    /// contacts from settling.
    pub fn solve_lifting<'w>(
        &'w self,
        base: &[Placed],
        loads: &[Placed],
        work: &'w mut Workspace,
    ) -> Result<Response<'w>, StaticsError> {
        self.solve_upon(&self.at_rest(base)?, loads, work)
    }

    /// As [`Grillage::solve_lifting`], on a base of this grillage that was solved before.
    ///
    /// # Errors
    /// As [`Grillage::solve_lifting`].
    pub fn solve_upon<'w>(
        &'w self,
        base: &AtRest,
        loads: &[Placed],
        work: &'w mut Workspace,
    ) -> Result<Response<'w>, StaticsError> {
        self.admit(loads)?;
        work.both.clear();
        work.both.extend_from_slice(&base.loads);
        work.both.extend_from_slice(loads);
        work.gaps.clear();
        work.grouped.group(self, &work.both);
        self.refuse_tipping(work)?;
        self.run::<1>(&[loads], &mut work.state, &[]);
        work.state.add(&base.held);
        if let Some(gaps) = self.lifted(work)? {
            self.run::<1>(&[loads], &mut work.state, &gaps);
            work.state.add(&base.held);
            work.gaps = gaps;
        }
        Ok(Response::new(self, &*work, 0))
    }

    /// The gaps of the contacts that open, once all that may have been held; none where each presses.
    fn lifted(&self, work: &Workspace) -> Result<Option<Vec<f64>>, StaticsError> {
        let contacts = self.contacts.get_or_init(|| Contacts::new(self));
        let size = work.both.iter().map(|p| p.load.force().abs()).sum::<f64>();
        let response = Response::new(self, work, 0);
        if reactions(&response, &contacts.at).all(|r| r >= -ROUNDING * size) {
            return Ok(None);
        }
        let held = DVector::from_iterator(contacts.at.len(), reactions(&response, &contacts.at));
        contacts.open(&held, size).map(Some)
    }

    /// Pressing supports can only balance loads whose resultant presses down between them.
    fn refuse_tipping(&self, work: &Workspace) -> Result<(), StaticsError> {
        for (i, beam) in self.crossbeams.iter().enumerate() {
            if self.held_down[i] {
                continue;
            }
            let (loads, _) = work.grouped.on(i);
            let size: f64 = loads.iter().map(|load| load.force().abs()).sum();
            let [left, right] = super::span::lever_reactions(loads, beam.at[0], beam.at[beam.count - 1]);
            if left.min(right) < -ROUNDING * size {
                return Err(StaticsError::Tips { crossbeam: i });
            }
        }
        Ok(())
    }

    /// Adds what opened contacts push onto the lines and take off the crossbeams (one load case).
    pub(super) fn push_apart(&self, gaps: &[f64], state: &mut State) {
        for beam in &self.crossbeams {
            let Some(k) = beam.redundant else { continue };
            if beam.contact.iter().all(Option::is_none) {
                continue;
            }
            let opened = beam.contact.map(|contact| [contact.map_or(0.0, |c| gaps[c])]);
            let pushed = self.redundants[k].lost(&opened);
            for (support, (node, [pushed])) in beam.nodes().iter().zip(pushed).enumerate() {
                state.shear[*node] += pushed;
                state.bearing[beam.bearing + support] += pushed;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::{Crossbeam, Line, Load, Model, On, Spring};

    fn loose_slat() -> Model {
        let line = |y| Line { y, ei: 1000.0, from: 0.0, to: 1.0 };
        let spring = |line, x| Spring { line, x, stiffness: f64::INFINITY };
        Model {
            lines: [0.0, 0.5, 1.0].map(line).to_vec(),
            crossbeams: vec![Crossbeam {
                x: 0.0,
                ei: 100.0,
                kga: f64::INFINITY,
                start: 0.0,
                end: 1.2,
                rests_on: vec![0, 1, 2],
                held_down: false,
            }],
            springs: (0..3).flat_map(|l| [spring(l, 0.0), spring(l, 1.0)]).collect(),
            links: vec![],
            held_at_ends: false,
        }
    }

    #[test]
    fn a_loose_slat_tips_when_loaded_beyond_its_last_support() -> Result<(), StaticsError> {
        let grillage = loose_slat().factor()?;
        let mut work = grillage.workspace();
        let at = |at| [Placed { on: On::Crossbeam(0), load: Load::Point { at, force: 100.0 } }];
        let tipped = grillage.solve_lifting(&[], &at(1.1), &mut work).map(|_| ());
        assert_eq!(tipped, Err(StaticsError::Tips { crossbeam: 0 }));
        let dead = Load::Spread { from: 0.0, to: 1.2, start: 200.0, end: 200.0 };
        let dead = [Placed { on: On::Crossbeam(0), load: dead }];
        assert!(grillage.solve_lifting(&dead, &at(1.1), &mut work).is_ok());
        Ok(())
    }
}
