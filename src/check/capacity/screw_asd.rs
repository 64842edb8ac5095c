//! Screws rated by US allowable stress design.

use super::allowable_stress::{Nds, conditions, duration, rated_wood};
use super::{Holes, Joined, Row, Rules, Screwed, Spot, tip};
use crate::check::slat::PRACTICE;
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::{Stick, WoodChoice};
use crate::quantity::{Force, Length, Ratio, number};
use crate::rules::RuleError;
use crate::rules::allowable_stress::connection::{
    self, Grain, adjusted_lateral, bearing_length_in_main, group_action, lateral_and_withdrawal, least_length_in_main,
    penetration,
};
use crate::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member, Role, dowel_bearing_strength, lateral, lateral_across_gap,
};
use crate::rules::allowable_stress::spacing::{Distance, PilotFor, Place, geometry, pilot_hole, required_distance};
use crate::rules::allowable_stress::withdrawal::{adjusted_withdrawal, withdrawal};
use crate::source::{Citation, Seen};
use crate::tables::fasteners::{Screw, ScrewKind};

/// A table's screw as the rules see it.
fn dowel(s: &Screw) -> Dowel {
    Dowel {
        kind: match s.kind {
            ScrewKind::Wood => DowelKind::WoodScrew,
            ScrewKind::Lag => DowelKind::LagScrew,
        },
        diameter: s.diameter,
        root_diameter: s.root,
        bending_yield: s.bending_yield,
    }
}

/// A screw in its joint.
pub(super) struct RatedScrew<'a> {
    dowel: Dowel,
    joined: Joined<'a>,
    damp: bool,
}

impl<'a> RatedScrew<'a> {
    pub(super) fn new(joined: Joined<'a>, damp: bool) -> RatedScrew<'a> {
        RatedScrew { dowel: dowel(joined.screw), joined, damp }
    }
}

impl RatedScrew<'_> {
    fn grain(&self) -> Grain {
        if self.joined.end_grain { Grain::End } else { Grain::Side }
    }

    /// Adjusted lateral value `Z'`.
    fn adjusted(&self, z: &Worked<Force>, d: Duration, group: Worked<Ratio>, geometry: Worked<Ratio>) -> Worked<Force> {
        adjusted_lateral(z.clone(), &conditions(self.damp, false), duration(d), group, geometry, self.grain())
    }

    /// Adjusted withdrawal `W'p`.
    fn withdrawal(&self, d: Duration) -> Result<Worked<Force>, RuleError> {
        let w = withdrawal(&self.dowel, rated_wood(self.joined.main.0)?.specific_gravity())?;
        let reach = self.joined.thread_in_main();
        let thread = match self.joined.screw.kind {
            ScrewKind::Lag => reach - tip(self.joined.screw),
            ScrewKind::Wood => reach,
        };
        adjusted_withdrawal(&self.dowel, w, thread, &conditions(self.damp, false), duration(d), self.grain())
    }

    fn distance(&self, spot: Spot) -> Result<Distance, RuleError> {
        let place = match spot {
            Spot::End => Place::EndAcross,
            Spot::EndPulled => Place::EndPulled,
            Spot::Edge => Place::EdgeLoaded,
            Spot::Along => Place::RowAlong,
            Spot::Across => Place::RowAcross,
            Spot::EdgeAlong => Place::EdgeAlong,
            Spot::Beside => Place::BetweenAlong,
        };
        let (wood, length, _) = self.joined.side;
        required_distance(&self.dowel, place, wood.kind(), true, length)
    }
}

impl Screwed for RatedScrew<'_> {
    fn least_length(&self) -> Result<Worked<Length>, RuleError> {
        least_length_in_main(&self.dowel, tip(self.joined.screw))
    }

    fn lateral(&self) -> Result<Worked<Force>, RuleError> {
        let (d, j) = (&self.dowel, &self.joined);
        let p = penetration(d, j.in_main(), tip(j.screw))?;
        let bears = bearing_length_in_main(d, p, tip(j.screw))?;
        let member = |role, (w, degrees): (&WoodChoice, f64), length| -> Result<Member, RuleError> {
            let g = rated_wood(w)?.specific_gravity();
            let fe = dowel_bearing_strength(role, g, d, degrees, BearingValue::Formula)?;
            Ok(Member { bearing_strength: fe, bearing_length: length, degrees })
        };
        let main = member(Role::Main, (j.main.0, j.main.2), bears)?;
        let side = member(Role::Side, (j.side.0, j.side.2), given("ℓs", j.side.1))?;
        if j.gap > Length::default() {
            return lateral_across_gap(d, &main, &side, j.gap);
        }
        Ok(lateral(d, &main, &side)?.lateral)
    }

    fn row(&self, z: &Worked<Force>, d: Duration, row: &Row<'_>) -> Result<Worked<Force>, RuleError> {
        // Screws share a load better in stiffer wood: no strength is drawn from a modulus that was measured.
        let of_table = Stick { measured: None, ..row.rail.clone() };
        let modulus = |rail| Ok(Nds { damp: self.damp }.upright(rail).modulus()?.value);
        let stiffness = modulus(row.rail)?.min(modulus(&of_table)?) * row.rail.thickness * row.rail.width;
        let group = connection::Row {
            count: row.count as u32,
            spacing: row.spacing,
            main_stiffness: stiffness,
            side_stiffness: stiffness,
            metal: false,
        };
        let group = group_action(&self.dowel, &group)?;
        let mut delta = plain(1.0).step("CΔ", PRACTICE);
        if self.dowel.is_large() {
            for (spot, actual, _) in row.distances {
                delta = delta.min(geometry(*actual, &self.distance(*spot)?)?);
            }
        }
        let n = given("n", number(row.count as f64));
        Ok((n * self.adjusted(z, d, group, delta)).step("n Z'", Citation::new("NDS 2018", "11.2.2", Seen::Memory)))
    }

    fn at_angle(&self, z: &Worked<Force>, d: Duration, degrees: f64) -> Result<Worked<Force>, RuleError> {
        // The row runs across the load, so no screw in it shares another's load.
        let (group, delta) = (plain(1.0).step("Cg", PRACTICE), plain(1.0).step("CΔ", PRACTICE));
        let across = self.adjusted(z, d, group, delta);
        if degrees == 0.0 {
            // Nothing pulls: a screw in end grain, which has no withdrawal value, holds across all the same.
            return Ok(across);
        }
        Ok(lateral_and_withdrawal(self.withdrawal(d)?, across, degrees))
    }

    fn distances_when_pulled(&self) -> Result<(), RuleError> {
        Ok(())
    }

    fn needs(&self, spot: Spot) -> Result<Worked<Length>, RuleError> {
        Ok(self.distance(spot)?.full)
    }

    fn distances_stand_alone(&self) -> bool {
        !self.dowel.is_large()
    }

    fn remark(&self) -> Option<&'static str> {
        None
    }

    /// A screw that is pulled too keeps to the smaller hole for its thread, which withdrawal asks for.
    fn holes(&self) -> Result<Holes, RuleError> {
        let j = &self.joined;
        let hole = |wood, load| Ok(pilot_hole(&self.dowel, rated_wood(wood)?.specific_gravity(), load));
        let shank = hole(j.side.0, PilotFor::Lateral)?.shank.map(|h| (h.clone(), h));
        let (across, pulled) = (hole(j.main.0, PilotFor::Lateral)?, hole(j.main.0, PilotFor::Withdrawal)?);
        let thread = if j.pulled { pulled.thread.or(across.thread) } else { across.thread };
        Ok(Holes { shank, thread })
    }
}
