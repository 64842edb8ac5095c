//! The platform as a grillage: four lines along it, slats across.

use super::CheckError;
use super::capacity::{self, Face, Rated};
use crate::load::density_of;
use crate::platform::{LongSide, Platform};
use crate::quantity::{FlexuralRigidity, Length};
use crate::rules::slip::slip_modulus;
use crate::statics::{Crossbeam, Grillage, Line, Link, Model, Span, Spring};

/// Lines of the grillage, from left to right.
pub(super) const RAILS: [usize; 2] = [0, 3];
/// The cleats' lines.
pub(super) const CLEATS: [usize; 2] = [1, 2];

/// A platform's frame, analysed once for every position of every load.
pub struct Framing {
    pub(super) grillage: Grillage,
    pub(super) slat: Span,
    /// First link (screw) of each side, and how many.
    pub(super) links: [(usize, usize); 2],
    /// First spring (rail support) of each side, and how many.
    pub(super) springs: [(usize, usize); 2],
    /// Each rail's bending stiffness, N m².
    pub(super) rail_ei: [f64; 2],
    /// Where each rail is held.
    pub(super) supports: [Vec<Length>; 2],
}

/// `E·I` of a stick, for stiffness only.
fn rigidity(r: &dyn Rated) -> FlexuralRigidity {
    let depth = r.depth();
    // A size the strength tables do not cover still has a stiffness; the strength check says so.
    let e = r.modulus().map(|e| e.value).unwrap_or(crate::quantity::unit::megapascal(5000.0));
    e * (r.breadth() * depth * depth * depth / 12.0)
}

/// Where a rail is held, along `x`: at its end joints, at its studs, or both.
fn rail_supports(side: &LongSide, length: Length) -> Vec<Length> {
    let mut out: Vec<Length> = side.rail.studs.iter().flat_map(|s| s.positions.iter().copied()).collect();
    if let Some(ends) = &side.rail.ends {
        let beyond = ends.lap() / 2.0;
        out.push(-beyond);
        out.push(length + beyond);
    }
    out.sort_by(|a, b| a.value.total_cmp(&b.value));
    out
}

impl Framing {
    /// The grillage itself: lines are left rail, left cleat, right cleat, right rail; crossbeams are
    /// the slats; springs hold the rails, the left one's first.
    pub fn grillage(&self) -> &Grillage {
        &self.grillage
    }

    /// The frame of a platform.
    ///
    /// # Errors
    ///
    /// [`CheckError::Statics`] when the frame is not held.
    pub fn of(p: &Platform) -> Result<Framing, CheckError> {
        let rules = capacity::rules(p);
        let slat_ei = rigidity(&*rules.rated(&p.slats.stick, Face::from(p.slats.lay))).value;
        let supports = p.bearing_lines().map(|y| y.value);
        let [start, end] = p.slat_ends().map(|y| y.value);
        let slat = Span { start, end, supports, ei: slat_ei, kga: f64::INFINITY };
        let mut model = Model { lines: Vec::new(), crossbeams: Vec::new(), springs: Vec::new(), links: Vec::new() };
        let held = [0, 1].map(|s| rail_supports(&p.sides[s], p.length));
        for line in 0..4 {
            let s = usize::from(line >= 2);
            let side = &p.sides[s];
            let cleat = CLEATS.contains(&line);
            let stick = if cleat { &side.cleat } else { &side.rail.stick };
            let ei = rigidity(&*rules.upright(stick)).value;
            let y = [0.0, supports[0], supports[1], p.width.value][line];
            let reach = |l: Option<&Length>, end: f64| if cleat { end } else { l.map_or(end, |l| l.value) };
            let from = reach(held[s].first().filter(|x| x.value < 0.0), 0.0);
            let to = reach(held[s].last().filter(|x| **x > p.length), p.length.value);
            model.lines.push(Line { y, ei, from, to });
        }
        for i in 0..p.slats.count {
            model.crossbeams.push(Crossbeam {
                x: p.slats.centre(i).value,
                ei: slat_ei,
                kga: f64::INFINITY,
                start,
                end,
                rests_on: CLEATS.to_vec(),
                held_down: p.slats.fixed,
            });
        }
        let (mut links, mut springs) = ([(0, 0); 2], [(0, 0); 2]);
        for (s, side) in p.sides.iter().enumerate() {
            let (cleat, rail) = (density_of(&side.cleat.wood), density_of(&side.rail.stick.wood));
            let k = slip_modulus(cleat, rail, side.screws.screw.diameter).value.value;
            links[s] = (model.links.len(), side.screws.positions.len());
            for x in &side.screws.positions {
                model.links.push(Link { lines: [CLEATS[s], RAILS[s]], x: x.value, stiffness: k });
            }
            springs[s] = (model.springs.len(), held[s].len());
            for x in &held[s] {
                model.springs.push(Spring { line: RAILS[s], x: x.value, stiffness: f64::INFINITY });
            }
        }
        let rail_ei = RAILS.map(|line| model.lines[line].ei);
        Ok(Framing { grillage: model.factor()?, slat, links, springs, rail_ei, supports: held })
    }
}
