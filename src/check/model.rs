//! The platform as a grillage: four lines along it, five with a centre beam, and slats across.

use super::CheckError;
use super::capacity::{self, Face, Rated};
use crate::load::density_of;
use crate::platform::{EndJoint, Platform, Stick};
use crate::quantity::{FlexuralRigidity, Length};
use crate::rules::slip::slip_modulus;
use crate::statics::{Crossbeam, Grillage, Line, Link, Model, Span, Spring};

/// Lines of the grillage, from left to right.
pub(super) const RAILS: [usize; 2] = [0, 3];
/// The cleats' lines.
pub(super) const CLEATS: [usize; 2] = [1, 2];

/// The centre beam's line, when there is one.
pub(super) const CENTRE: usize = 4;
/// Where the centre beam stands among what is held: after the left and the right rail.
pub(super) const MIDDLE: usize = 2;

/// A platform's frame, analysed once for every position of every load.
pub struct Framing {
    pub(super) grillage: Grillage,
    pub(super) slat: Span,
    /// First link (screw) of each side, and how many.
    pub(super) links: [(usize, usize); 2],
    /// First spring (support) of each rail and of the centre beam, and how many.
    pub(super) springs: [(usize, usize); 3],
    /// Each rail's bending stiffness, N m².
    pub(super) rail_ei: [f64; 2],
    /// Where each rail and the centre beam is held.
    pub(super) supports: [Vec<Length>; 3],
}

/// `E·I` of a stick, for stiffness only.
fn rigidity(r: &dyn Rated) -> FlexuralRigidity {
    let depth = r.depth();
    // A size the strength tables do not cover still has a stiffness; the strength check says so.
    let e = r.modulus().map(|e| e.value).unwrap_or(crate::quantity::unit::megapascal(5000.0));
    e * (r.breadth() * depth * depth * depth / 12.0)
}

/// `E·I` of a slat, N m².
pub(super) fn slat_rigidity(p: &Platform) -> f64 {
    rigidity(&*capacity::rules(p).rated(&p.slats.stick, Face::from(p.slats.lay))).value
}

/// Where a rail or beam is held, along `x`: at its end joints, at its studs or legs, or both.
fn held_at(ends: Option<&EndJoint>, between: &[Length], length: Length) -> Vec<Length> {
    let mut out = between.to_vec();
    if let Some(ends) = ends {
        let beyond = ends.beyond();
        out.push(-beyond);
        out.push(length + beyond);
    }
    out.sort_by(|a, b| a.value.total_cmp(&b.value));
    out
}

/// Where the rails and the centre beam are held; nowhere where there is no such beam.
fn supports(p: &Platform) -> [Vec<Length>; 3] {
    let rail = |s: usize| {
        let rail = &p.sides[s].rail;
        held_at(rail.ends.as_ref(), rail.studs.as_ref().map_or(&[], |s| &s.positions), p.length)
    };
    let beam = p.centre_beam.as_ref().map_or(Vec::new(), |beam| {
        held_at(Some(&beam.ends), beam.legs.as_ref().map_or(&[], |l| &l.positions), p.length)
    });
    [rail(0), rail(1), beam]
}

/// A line from the first to the last place where it is held, or along the platform if that is longer.
fn line(y: f64, ei: f64, held: &[Length], length: Length) -> Line {
    let from = held.first().filter(|x| x.value < 0.0).map_or(0.0, |x| x.value);
    let to = held.last().filter(|x| **x > length).map_or(length.value, |x| x.value);
    Line { y, ei, from, to }
}

impl Framing {
    /// The grillage itself: lines are left rail, left cleat, right cleat, right rail, and the centre beam if
    /// there is one; crossbeams are the slats; springs hold the rails, the left one's first, then the beam.
    pub fn grillage(&self) -> &Grillage {
        &self.grillage
    }

    /// The frame of a platform.
    ///
    /// # Errors
    ///
    /// [`CheckError::Statics`] when the frame is not held.
    pub fn of(p: &Platform) -> Result<Framing, CheckError> {
        Framing::scaled(p, &|_| 1.0)
    }

    /// The same with the stiffness of each stick's wood times something.
    pub(super) fn scaled(p: &Platform, by: &dyn Fn(&Stick) -> f64) -> Result<Framing, CheckError> {
        let rules = capacity::rules(p);
        let upright = |stick: &Stick| rigidity(&*rules.upright(stick)).value * by(stick);
        let slat_ei = slat_rigidity(p) * by(&p.slats.stick);
        let bearings = p.bearing_lines().map(|y| y.value);
        let [start, end] = p.slat_ends().map(|y| y.value);
        let slat = Span { start, end, supports: bearings, ei: slat_ei, kga: f64::INFINITY };
        let held = supports(p);
        let mut model = Model::default();
        for (k, y) in [0.0, bearings[0], bearings[1], p.width.value].into_iter().enumerate() {
            let s = usize::from(k >= 2);
            let side = &p.sides[s];
            let (stick, held): (_, &[Length]) =
                if CLEATS.contains(&k) { (&side.cleat, &[]) } else { (&side.rail.stick, &held[s]) };
            model.lines.push(line(y, upright(stick), held, p.length));
        }
        let mut rests_on = CLEATS.to_vec();
        if let Some(beam) = &p.centre_beam {
            model.lines.push(line(beam.at.value, upright(&beam.stick), &held[MIDDLE], p.length));
            model.held_at_ends = !beam.fixed;
            rests_on.push(CENTRE);
        }
        for i in 0..p.slats.count {
            let (x, rests_on) = (p.slats.centre(i).value, rests_on.clone());
            let kga = f64::INFINITY;
            model.crossbeams.push(Crossbeam { x, ei: slat_ei, kga, start, end, rests_on, held_down: p.slats.fixed });
        }
        let mut links = [(0, 0); 2];
        for (s, side) in p.sides.iter().enumerate() {
            let (cleat, rail) = (density_of(&side.cleat.wood), density_of(&side.rail.stick.wood));
            let stiffness = slip_modulus(cleat, rail, side.screws.screw.diameter).value.value;
            links[s] = (model.links.len(), side.screws.positions.len());
            for x in &side.screws.positions {
                model.links.push(Link { lines: [CLEATS[s], RAILS[s]], x: x.value, stiffness });
            }
        }
        let mut springs = [(0, 0); 3];
        for (k, held) in held.iter().enumerate() {
            springs[k] = (model.springs.len(), held.len());
            let line = [RAILS[0], RAILS[1], CENTRE][k];
            model.springs.extend(held.iter().map(|x| Spring { line, x: x.value, stiffness: f64::INFINITY }));
        }
        let rail_ei = RAILS.map(|line| model.lines[line].ei);
        Ok(Framing { grillage: model.factor()?, slat, links, springs, rail_ei, supports: held })
    }
}
