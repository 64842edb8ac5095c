//! The grillage as the caller describes it, and what must hold before it can be solved.

use super::MOST_LINES;
use super::error::{Part, StaticsError, finite, positive};

/// A beam along x at a fixed y: a cleat, a rail, a centre beam. It bends, it does not twist.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Where it lies across the grillage, m.
    pub y: f64,
    /// Bending stiffness EI, N m².
    pub ei: f64,
    /// Where it begins, m.
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
}

/// A beam along y that rests on two or more lines by knife edges: it shares their deflection and
/// nothing else.
#[derive(Clone, Debug, PartialEq)]
pub struct Crossbeam {
    /// Where it lies along the lines, m.
    pub x: f64,
    /// Bending stiffness EI, N m².
    pub ei: f64,
    /// Shear stiffness κGA, N; `f64::INFINITY` for none of that deformation.
    pub kga: f64,
    /// Its end at smaller y, m.
    pub start: f64,
    /// Its end at larger y, m.
    pub end: f64,
    /// The lines under it, in any order.
    pub rests_on: Vec<usize>,
    /// Whether it is fastened down, so that it cannot lift off a line.
    pub held_down: bool,
}

/// A vertical spring from a line to ground: a leg, a wall screw, a post.
#[derive(Clone, Debug, PartialEq)]
pub struct Spring {
    /// The line it holds.
    pub line: usize,
    /// Where along the line, m.
    pub x: f64,
    /// Stiffness, N/m; `f64::INFINITY` for a rigid support.
    pub stiffness: f64,
}

/// A vertical spring between two lines at one x: a screw from a cleat into a rail.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// The two lines; the force is positive when it passes down from the first to the second.
    pub lines: [usize; 2],
    /// Where along the lines, m.
    pub x: f64,
    /// Stiffness, N/m.
    pub stiffness: f64,
}

/// A grillage of lines and crossbeams.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Model {
    /// Beams along x, 1 to [`MOST_LINES`].
    pub lines: Vec<Line>,
    /// Beams along y.
    pub crossbeams: Vec<Crossbeam>,
    /// Springs and rigid supports to ground.
    pub springs: Vec<Spring>,
    /// Springs between lines.
    pub links: Vec<Link>,
    /// Whether crossbeams that are held down are so at their outermost lines only, and may part from those
    /// between.
    pub held_at_ends: bool,
}

/// Two places along the lines closer than this are one station, m. It is far below any tolerance
/// of a saw, and above what double precision can tell apart in a beam of one metre.
pub(super) const APART: f64 = 1e-6;

impl Model {
    /// Checks every number and every reference, but not yet whether the model is held.
    ///
    /// # Errors
    /// Anything that is not finite, not positive, out of order, off its line, or missing.
    pub fn validate(&self) -> Result<(), StaticsError> {
        if self.lines.is_empty() || self.lines.len() > MOST_LINES {
            return Err(StaticsError::Lines { count: self.lines.len() });
        }
        for (i, line) in self.lines.iter().enumerate() {
            let part = Part::Line(i);
            for place in [line.y, line.from, line.to] {
                finite(part, "position", place)?;
            }
            positive(part, "EI", line.ei, false)?;
            apart(part, "ends", line.from, line.to)?;
        }
        for (i, spring) in self.springs.iter().enumerate() {
            let part = Part::Spring(i);
            finite(part, "position", spring.x)?;
            positive(part, "stiffness", spring.stiffness, true)?;
            self.covers(part, spring.line, spring.x)?;
        }
        for (i, link) in self.links.iter().enumerate() {
            let part = Part::Link(i);
            finite(part, "position", link.x)?;
            positive(part, "stiffness", link.stiffness, false)?;
            for line in link.lines {
                self.covers(part, line, link.x)?;
            }
            if link.lines[0] == link.lines[1] {
                return Err(StaticsError::TooFewSupports { part });
            }
        }
        self.crossbeams.iter().enumerate().try_for_each(|(i, beam)| self.validate_crossbeam(i, beam))
    }

    fn validate_crossbeam(&self, i: usize, beam: &Crossbeam) -> Result<(), StaticsError> {
        let part = Part::Crossbeam(i);
        for place in [beam.x, beam.start, beam.end] {
            finite(part, "position", place)?;
        }
        positive(part, "EI", beam.ei, false)?;
        positive(part, "κGA", beam.kga, true)?;
        apart(part, "ends", beam.start, beam.end)?;
        if beam.rests_on.len() < 2 {
            return Err(StaticsError::TooFewSupports { part });
        }
        for &line in &beam.rests_on {
            self.covers(part, line, beam.x)?;
            let y = self.lines[line].y;
            if y < beam.start || y > beam.end {
                return Err(StaticsError::OffBeam { part: Part::Line(line), beam: part });
            }
        }
        // Lines at one y, or one line named twice, would be one support.
        for (k, &a) in beam.rests_on.iter().enumerate() {
            for &b in &beam.rests_on[..k] {
                if (self.lines[a].y - self.lines[b].y).abs() <= APART {
                    return Err(StaticsError::OutOfOrder { part, quantity: "supports" });
                }
            }
        }
        Ok(())
    }

    fn covers(&self, part: Part, line: usize, x: f64) -> Result<(), StaticsError> {
        match self.lines.get(line) {
            None => Err(StaticsError::Missing { part, beam: Part::Line(line) }),
            Some(beam) if x < beam.from - APART || x > beam.to + APART => {
                Err(StaticsError::OffBeam { part, beam: Part::Line(line) })
            }
            Some(_) => Ok(()),
        }
    }

    /// Every distinct x at which something meets a line, ascending. Whatever comes
    /// within [`APART`] of a kept place joins it.
    pub(super) fn stations(&self) -> Vec<f64> {
        let mut all: Vec<f64> = self
            .springs
            .iter()
            .map(|s| s.x)
            .chain(self.links.iter().map(|l| l.x))
            .chain(self.crossbeams.iter().map(|c| c.x))
            .chain(self.lines.iter().flat_map(|l| [l.from, l.to]))
            .collect();
        all.sort_unstable_by(f64::total_cmp);
        all.dedup_by(|next, kept| *next - *kept <= APART);
        all
    }
}

fn apart(part: Part, quantity: &'static str, low: f64, high: f64) -> Result<(), StaticsError> {
    if high - low > APART { Ok(()) } else { Err(StaticsError::OutOfOrder { part, quantity }) }
}

/// The station at `x`: the one that [`Model::stations`] merged it into.
pub(super) fn station_of(stations: &[f64], x: f64) -> usize {
    let after = stations.partition_point(|s| *s <= x);
    let before = after.saturating_sub(1);
    let nearer_after = after < stations.len() && stations[after] - x < (x - stations[before]).abs();
    if nearer_after { after } else { before }
}
