//! Bolted rail ends rated by US allowable stress design.

use super::allowable_stress::{Nds, conditions, duration, rated_wood};
use super::{BoltSpot, Bolted, Contact, RatedBolt, Rules};
use crate::check::slat::PRACTICE;
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::Stick;
use crate::quantity::{Force, Length, number};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bearing::washer_bearing;
use crate::rules::allowable_stress::connection::{Grain, Row, adjusted_lateral, group_action};
use crate::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member, Role, bolt_diameter, dowel_bearing_strength, lateral,
};
use crate::rules::allowable_stress::spacing::{Distance, Place, bolt_hole, geometry, required_distance};
use crate::rules::allowable_stress::steel::bolt_tension;
use crate::source::{Citation, Seen};

pub(super) struct BoltByNds<'a> {
    pub(super) bolted: Bolted<'a>,
    pub(super) damp: bool,
}

impl BoltByNds<'_> {
    /// The post holds the threads.
    fn dowel(&self) -> Result<Dowel, RuleError> {
        let (b, post) = (self.bolted.bolt, self.bolted.post.thickness);
        let threads = b.thread_inside(self.bolted.rail.thickness + post);
        let bears = bolt_diameter(b.diameter, b.root, threads, post)?;
        let (kind, root_diameter) = (DowelKind::Bolt, bears.value);
        Ok(Dowel { kind, diameter: b.diameter, root_diameter, bending_yield: b.bending_yield })
    }

    fn distance(&self, spot: BoltSpot) -> Result<Distance, RuleError> {
        let b = &self.bolted;
        let (place, stick) = match spot {
            BoltSpot::RailEdge => (Place::EdgeLoaded, b.rail),
            BoltSpot::RailEnd if b.lean > 0.0 => (Place::EndPulled, b.rail),
            BoltSpot::RailEnd => (Place::EndAcross, b.rail),
            BoltSpot::Between => (Place::RowAcross, b.rail),
            BoltSpot::PostEdge if b.lean > 0.0 => (Place::EdgeLoaded, b.post),
            BoltSpot::PostEdge => (Place::EdgeAlong, b.post),
            BoltSpot::PostTop => (Place::EndPushed, b.post),
        };
        let shorter = if b.rail.thickness < b.post.thickness { b.rail.thickness } else { b.post.thickness };
        required_distance(&self.dowel()?, place, stick.wood.kind(), true, shorter)
    }

    /// `E·A`: of the rail, which is loaded across its grain, only a strip three diameters wide counts, the least
    /// spacing of bolts along its grain (NDS 2018 11.3.6.3, from memory).
    fn stiffness(&self, stick: &Stick, breadth: Length) -> Result<Force, RuleError> {
        Ok(Nds { damp: self.damp }.upright(stick).modulus()?.value * stick.thickness * breadth)
    }
}

impl RatedBolt for BoltByNds<'_> {
    fn lateral(&self) -> Result<Worked<Force>, RuleError> {
        let dowel = self.dowel()?;
        let member = |role, stick: &Stick, degrees: f64, length| -> Result<Member, RuleError> {
            let g = rated_wood(&stick.wood)?.specific_gravity();
            let bearing_strength = dowel_bearing_strength(role, g, &dowel, degrees, BearingValue::Formula)?;
            Ok(Member { bearing_strength, bearing_length: given(length, stick.thickness), degrees })
        };
        let lean = self.bolted.lean;
        let main = member(Role::Main, self.bolted.post, lean, "ℓm")?;
        let side = member(Role::Side, self.bolted.rail, 90.0 - lean, "ℓs")?;
        Ok(lateral(&dowel, &main, &side)?.lateral)
    }

    /// The wood under the washers of head and nut, or the steel.
    fn pulled(&self, d: Duration) -> Result<Worked<Force>, RuleError> {
        let bolt = self.bolted.bolt;
        let none = Length::default();
        let contact = Contact { length: bolt.washer.across, to_end: none, to_load: none };
        let under = |stick: &Stick| {
            let across = Nds { damp: self.damp }.upright(stick).bearing(d, &contact)?;
            washer_bearing(across, bolt.washer.across, bolt.washer.hole)
        };
        let wood = under(self.bolted.rail)?.min(under(self.bolted.post)?);
        Ok(wood.min(bolt_tension(bolt.diameter, bolt.tensile)?))
    }

    fn row(&self, z: &Worked<Force>, d: Duration) -> Result<Worked<Force>, RuleError> {
        let (b, dowel) = (&self.bolted, self.dowel()?);
        let row = Row {
            count: b.count as u32,
            spacing: b.spacing,
            main_stiffness: self.stiffness(b.post, b.post.width)?,
            side_stiffness: self.stiffness(b.rail, b.bolt.diameter * 3.0)?,
            metal: false,
        };
        let group = group_action(&dowel, &row)?;
        let mut delta = plain(1.0).step("CΔ", PRACTICE);
        for (spot, actual, _) in b.kept() {
            delta = delta.min(geometry(actual, &self.distance(spot)?)?);
        }
        let one = adjusted_lateral(z.clone(), &conditions(self.damp, false), duration(d), group, delta, Grain::Side);
        let n = given("n", number(b.count as f64));
        Ok((n * one).step("n Z'", Citation::new("NDS 2018", "11.2.2", Seen::Memory)))
    }

    fn least(&self, spot: BoltSpot) -> Result<Worked<Length>, RuleError> {
        Ok(self.distance(spot)?.least)
    }

    /// NDS 2018 12.1.3.3 asks for a standard cut washer or a plate, no smaller: those of the table are.
    fn least_washer(&self) -> Option<[Worked<Length>; 2]> {
        None
    }

    fn hole(&self) -> [Worked<Length>; 2] {
        bolt_hole(self.bolted.bolt.diameter)
    }

    fn remark(&self) -> &'static str {
        "bolts snug in drilled holes, a washer no smaller than a standard cut washer under head and nut"
    }
}
