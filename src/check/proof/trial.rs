//! A platform under a weight, mattress on or off: one effect of it, and every dip.

use super::{Dip, Spread};
use crate::check::CheckError;
use crate::check::capacity::Factors;
use crate::check::model::{CENTRE, Framing, MIDDLE, RAILS};
use crate::check::sweep::loads_at;
use crate::check::verdict::{Limit, Member, Role};
use crate::load::{Dead, Patches, Position};
use crate::platform::{Platform, Stick};
use crate::quantity::Length;
use crate::quantity::unit::metre;
use crate::statics::{Extremes, Response, Workspace};

/// What a step is meant to bring about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Effect {
    /// Bending of a slat.
    Slat(usize),
    /// Bending of a rail or the centre beam.
    Line(usize),
    /// The force of a cleat screw: side and number.
    Screw(usize, usize),
    /// The force of a support of a rail or the centre beam.
    Support(usize, usize),
}

impl Effect {
    /// The effect that a check is about, if a weight can bring it about.
    pub(super) fn of(p: &Platform, f: &Framing, m: &Member, limit: Limit) -> Option<Effect> {
        let side = usize::from(m.id.starts_with("right"));
        let number = || m.id.rsplit(' ').next().and_then(|n| n.parse::<usize>().ok()).map(|n| n - 1);
        match (m.role, limit) {
            (Role::Slat, Limit::Bending) => number().map(Effect::Slat),
            (Role::Rail, Limit::Bending) => Some(Effect::Line(RAILS[side])),
            (Role::CentreBeam, Limit::Bending) => Some(Effect::Line(CENTRE)),
            (Role::CleatScrew, Limit::Screw) => number().map(|j| Effect::Screw(side, j)),
            (Role::EndJoint, Limit::Joint | Limit::Bearing) => {
                let line = if m.id.starts_with("centre beam") { MIDDLE } else { side };
                let last = f.supports[line].len().checked_sub(1)?;
                Some(Effect::Support(line, if m.id.ends_with("head end") { 0 } else { last }))
            }
            (Role::StudScrew, Limit::Screw) => {
                let x = p.sides[side].rail.studs.as_ref()?.positions.get(number()?)?;
                f.supports[side].iter().position(|held| held == x).map(|k| Effect::Support(side, k))
            }
            _ => None,
        }
    }

    fn of_response(self, f: &Framing, r: &Response<'_>) -> f64 {
        let greatest = |((_, most), (_, least)): Extremes| most.max(-least);
        match self {
            Effect::Slat(i) => greatest(r.crossbeam(i).extreme_moment()),
            Effect::Line(line) => greatest(r.line(line).extreme_moment()),
            Effect::Screw(s, j) => r.link_force(f.links[s].0 + j).abs(),
            Effect::Support(s, k) => r.spring_force(f.springs[s].0 + k).abs(),
        }
    }
}

/// A frame to put weights on.
pub(super) struct Trial<'a> {
    p: &'a Platform,
    pub(super) f: Framing,
}

impl<'a> Trial<'a> {
    /// The frame with every stick's stiffness times something.
    pub(super) fn new(p: &'a Platform, by: &dyn Fn(&Stick) -> f64) -> Result<Self, CheckError> {
        Ok(Trial { p, f: Framing::scaled(p, by)? })
    }

    fn under<'w>(
        &'w self,
        dead: &Dead,
        position: &Position,
        work: &'w mut Workspace,
    ) -> Result<Response<'w>, CheckError> {
        let loads = loads_at(self.p, dead, position, Factors::WHOLE);
        Ok(match self.p.centre_beam {
            Some(_) => self.f.grillage.solve_lifting(&loads, &[], work)?,
            None => self.f.grillage.solve(&loads, work),
        })
    }

    /// One effect of a position and the dead load, as they are.
    pub(super) fn effect(&self, effect: Effect, dead: &Dead, position: &Position) -> Result<f64, CheckError> {
        let mut work = self.f.grillage.workspace();
        Ok(effect.of_response(&self.f, &self.under(dead, position, &mut work)?))
    }

    /// How far every slat, rail and beam dips when a position comes upon the dead load: a slat below the line
    /// between its supports, a rail or beam below the line between its own.
    pub(super) fn dips(&self, dead: &Dead, position: &Position) -> Result<Vec<(Length, Length)>, CheckError> {
        let none = Position { patches: Patches::new(), ..position.clone() };
        let (mut one, mut other) = (self.f.grillage.workspace(), self.f.grillage.workspace());
        let before = self.under(dead, &none, &mut one)?;
        let after = self.under(dead, position, &mut other)?;
        let mut out = Vec::new();
        for i in 0..self.p.slats.count {
            for k in 0..self.p.slat_spans().len() {
                let (at, most) = after.crossbeam(i).extreme_sag(k);
                out.push((metre(at), metre(most - before.crossbeam(i).sag_at(k, at))));
            }
        }
        for line in self.lines() {
            let ((at, most), _) = after.line(line).extreme_deflection();
            out.push((metre(at), metre(most - before.line(line).deflection(at))));
        }
        Ok(out)
    }

    fn lines(&self) -> impl Iterator<Item = usize> {
        RAILS.into_iter().chain(self.p.centre_beam.iter().map(|_| CENTRE))
    }

    /// The names of what [`Self::dips`] speaks of, in its order.
    fn names(&self) -> Vec<(String, Role)> {
        let spans: &[&str] = if self.p.centre_beam.is_some() { &[", left", ", right"] } else { &[""] };
        let slats =
            (0..self.p.slats.count).flat_map(|i| spans.iter().map(move |s| (format!("slat {}{s}", i + 1), Role::Slat)));
        let lines = self.lines().map(|line| match line {
            CENTRE => ("centre beam".to_owned(), Role::CentreBeam),
            line => (format!("{} rail", if line == RAILS[0] { "left" } else { "right" }), Role::Rail),
        });
        slats.chain(lines).collect()
    }
}

/// A dip too small for any eye is none: below a nanometre there is rounding only.
fn tidy(dip: Length) -> Length {
    if dip.value.abs() < 1e-9 { Length::default() } else { dip }
}

/// Three frames: by the tables' mean moduli, and with all wood stiff or soft.
pub(super) struct Frames<'a> {
    pub(super) mean: Trial<'a>,
    stiff: Trial<'a>,
    soft: Trial<'a>,
}

impl<'a> Frames<'a> {
    pub(super) fn new(p: &'a Platform) -> Result<Self, CheckError> {
        Ok(Frames {
            mean: Trial::new(p, &|_| 1.0)?,
            stiff: Trial::new(p, &|s| Spread::of(s).high)?,
            soft: Trial::new(p, &|s| Spread::of(s).low)?,
        })
    }

    /// The dip of every member.
    pub(super) fn dips(&self, dead: &Dead, position: &Position) -> Result<Vec<Dip>, CheckError> {
        let mean = self.mean.dips(dead, position)?;
        let (stiff, soft) = (self.stiff.dips(dead, position)?, self.soft.dips(dead, position)?);
        let all = self.mean.names().into_iter().zip(mean).zip(stiff.into_iter().zip(soft));
        Ok(all
            .map(|(((member, role), (at, mean)), ((_, stiff), (_, soft)))| Dip {
                member,
                role,
                at,
                mean: tidy(mean),
                ordinary: [tidy(stiff), tidy(soft)],
            })
            .collect())
    }
}
