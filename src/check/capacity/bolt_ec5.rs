//! Bolted rail ends rated by Eurocode 5.

use super::limit_state::{Ec5, clause, timber};
use super::{BoltSpot, Bolted, RatedBolt};
use crate::derivation::{Worked, given};
use crate::load::Duration;
use crate::platform::Stick;
use crate::quantity::{Force, Length};
use crate::rules::RuleError;
use crate::rules::limit_state::bolt::{largest_hole, least_washer, tension_capacity, washer_capacity};
use crate::rules::limit_state::dowel::{Embedded, Fastener, FastenerKind, embedment, yield_moment};
use crate::rules::limit_state::group::{Row, effective_number};
use crate::rules::limit_state::johansen::{Member, single_shear};
use crate::rules::limit_state::spacing::{Place, least_distance};
use crate::source::Seen;

pub(super) struct BoltByEc5<'a> {
    pub(super) bolted: Bolted<'a>,
    pub(super) rules: Ec5,
}

impl BoltByEc5<'_> {
    fn fastener(&self) -> Fastener {
        Fastener::smooth(FastenerKind::Bolt, self.bolted.bolt.diameter)
    }

    /// What holds it along its axis: its steel, and the wood under the washers of head and nut.
    fn axial(&self) -> Result<Worked<Force>, RuleError> {
        let bolt = self.bolted.bolt;
        let under = |stick: &Stick| {
            let strength = timber(&stick.wood)?.values.compression_across;
            washer_capacity(bolt.washer.across, bolt.washer.hole, strength)
        };
        let wood = under(self.bolted.rail)?.min(under(self.bolted.post)?);
        let least = wood.min(tension_capacity(bolt.root, bolt.tensile)?);
        Ok(least.step("Fax,Rk", clause("8.5.2", Seen::Memory)))
    }
}

impl RatedBolt for BoltByEc5<'_> {
    /// The nominal diameter bears and bends, threads or not, as the standard's formulas have it.
    fn lateral(&self) -> Result<Worked<Force>, RuleError> {
        let (b, fastener) = (&self.bolted, self.fastener());
        let member = |symbol, stick: &Stick, degrees: f64, thickness| -> Result<Member, RuleError> {
            let timber = timber(&stick.wood)?;
            let (kind, density) = (timber.kind, timber.values.density);
            let embedded = Embedded { kind, density, predrilled: true, degrees };
            let embedment = embedment(symbol, &fastener, &embedded)?;
            Ok(Member { embedment, thickness: given(thickness, stick.thickness) })
        };
        let first = member("fh,1,k", b.rail, 90.0 - b.lean, "t1")?;
        let second = member("fh,2,k", b.post, b.lean, "t2")?;
        let moment = yield_moment(&fastener, b.bolt.tensile)?;
        // What pulls a bolt leaves nothing for the rope.
        let rope = if b.pulled { None } else { Some(self.axial()?) };
        Ok(single_shear(&fastener, &moment, &first, &second, rope.as_ref())?.capacity)
    }

    fn pulled(&self, d: Duration) -> Result<Worked<Force>, RuleError> {
        self.rules.of_connection("Fax,Rd", d, self.axial()?)
    }

    /// `nef` of the row, which in the post runs along the grain and the load.
    fn row(&self, lateral: &Worked<Force>, d: Duration) -> Result<Worked<Force>, RuleError> {
        let b = &self.bolted;
        let in_post = Row { count: b.count as u32, spacing: b.spacing, predrilled: true, degrees: 0.0 };
        let together = effective_number(&self.fastener(), &in_post)?;
        let one = self.rules.of_connection("Fv,Rd", d, lateral.clone())?;
        Ok((together * one).step("nef Fv,Rd", clause("(8.1)", Seen::Memory)))
    }

    fn least(&self, spot: BoltSpot) -> Result<Worked<Length>, RuleError> {
        let lean = self.bolted.lean;
        let (rail, post) = ((self.bolted.rail, 90.0), (self.bolted.post, lean));
        let of = |place, (stick, degrees): (&Stick, f64)| {
            least_distance(&self.fastener(), place, timber(&stick.wood)?.values.density, true, degrees)
        };
        match spot {
            BoltSpot::RailEdge => of(Place::LoadedEdge, rail),
            BoltSpot::RailEnd if lean > 0.0 => of(Place::LoadedEnd, rail),
            BoltSpot::RailEnd => of(Place::UnloadedEnd, rail),
            BoltSpot::Between => Ok(of(Place::AcrossGrain, rail)?.max(of(Place::AlongGrain, post)?)),
            BoltSpot::PostEdge if lean > 0.0 => of(Place::LoadedEdge, post),
            BoltSpot::PostEdge => of(Place::UnloadedEdge, post),
            BoltSpot::PostTop => of(Place::UnloadedEnd, post),
        }
    }

    fn least_washer(&self) -> Option<[Worked<Length>; 2]> {
        Some(least_washer(self.bolted.bolt.diameter))
    }

    fn hole(&self) -> [Worked<Length>; 2] {
        let most = largest_hole(self.bolted.bolt.diameter);
        [given("d", self.bolted.bolt.diameter).step("hole", clause("10.4.3(1)", Seen::Memory)), most]
    }

    fn remark(&self) -> &'static str {
        "holes at most 1 mm wider than the bolts, a washer under head and nut"
    }
}
