//! Screws rated by Eurocode 5.

use super::limit_state::{Ec5, clause, timber};
use super::{Holes, Joined, Row, Screwed, Spot, tip};
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::WoodChoice;
use crate::quantity::{BendingMoment, Force, Length, MassDensity, Ratio, number};
use crate::rules::RuleError;
use crate::rules::gap::{Bridged, yield_loads};
use crate::rules::limit_state::dowel::{
    Embedded, Fastener, FastenerKind, ScrewShape, effective_diameter, embedment, yield_moment,
};
use crate::rules::limit_state::group::{self, effective_number};
use crate::rules::limit_state::johansen::{self, single_shear};
use crate::rules::limit_state::screw::{
    Declared, Thread, declared_withdrawal, head_strength_of_nail, pull_through, tension, withdrawal,
};
use crate::rules::limit_state::spacing::{AxialPlace, Place, lead_holes, least_axial_distance, least_distance};
use crate::source::{Citation, Seen};
use crate::tables::fasteners::DeclaredStrength;

/// A screw in its joint.
pub(super) struct RatedScrew<'a> {
    pub(super) joined: Joined<'a>,
    pub(super) rules: Ec5,
}

impl RatedScrew<'_> {
    fn fastener(&self) -> Result<Fastener, RuleError> {
        let s = self.joined.screw;
        let smooth = s.length - s.thread - self.joined.side.1 - self.joined.gap;
        let none = Length::default();
        let shape = ScrewShape {
            diameter: s.diameter,
            root: s.root,
            shank: s.diameter,
            shank_in_point_side: if smooth > none { smooth } else { none },
        };
        Ok(Fastener { kind: FastenerKind::Screw, diameter: s.diameter, effective: effective_diameter(&shape)? })
    }

    fn density(wood: &WoodChoice) -> Result<MassDensity, RuleError> {
        Ok(timber(wood)?.values.density)
    }

    /// What one screw resists along its axis: its thread in one piece, its head on the other and its steel,
    /// so far as they are known.
    ///
    /// The tip is left out of the thread's length, which the standard does not ask for and errs low; for a
    /// declared strength one diameter of it, as a published worked example does (LVL Handbook Europe,
    /// 3rd ed. 2025, p. 200). The head, or the washer under it, is taken as twice the screw's diameter and as good as a nail's on the
    /// wood (no source) unless its maker declares it.
    fn axial(&self) -> Result<Worked<Force>, RuleError> {
        let (j, s) = (&self.joined, self.joined.screw);
        let by_declaration = s.declared.withdrawal.is_some();
        let length = j.thread_in_main() - if by_declaration { s.diameter } else { tip(s) };
        let thread = Thread { diameter: s.diameter, root: s.root, length, degrees: 90.0 };
        let holding = Self::density(j.main.0)?;
        let pulls_out = match s.declared.withdrawal {
            Some(d) => declared_withdrawal(&thread, &of_maker(d), holding)?,
            None => withdrawal(&thread, holding)?,
        };
        let under = Self::density(j.side.0)?;
        let pulls_through = match s.declared.head {
            Some((d, across)) => pull_through(across, &of_maker(d), under)?,
            None => {
                let nail = Declared { strength: head_strength_of_nail(under)?.value, density: under };
                pull_through(s.diameter * 2.0, &nail, under)?
            }
        };
        let mut least = pulls_out.min(pulls_through);
        if s.declared.tension.is_some() {
            least = least.min(tension(s.declared.tension)?);
        }
        Ok(least.step("Fax,Rk", clause("8.7.2(1)", Seen::Memory)))
    }

    /// Its design value. The steel has its own factor and none for duration, so it stands apart.
    fn axial_design(&self, d: Duration) -> Result<Worked<Force>, RuleError> {
        let along = self.rules.of_connection("Fax,Rd", d, self.axial()?)?;
        let Some(steel) = self.joined.screw.declared.tension else { return Ok(along) };
        const STEEL: Citation = Citation::new("EN 1993-1-8:2005", "2.2(2)", Seen::Memory);
        let steel = tension(Some(steel))? / plain(1.25).step("γM2", STEEL);
        Ok(along.min(steel).step("Fax,Rd", clause("8.7.2(7)", Seen::Memory)))
    }
}

impl RatedScrew<'_> {
    /// Table 8.6, where the piece that holds the thread is thick enough for it.
    fn distance_when_pulled(&self, place: AxialPlace) -> Result<Worked<Length>, RuleError> {
        let j = &self.joined;
        least_axial_distance(j.screw.diameter, place, j.main.1.unwrap_or(j.in_main()))
    }
}

impl Screwed for RatedScrew<'_> {
    fn least_length(&self) -> Result<Worked<Length>, RuleError> {
        let d = given("d", self.joined.screw.diameter);
        Ok((plain(6.0) * d).step("least length in the piece", clause("8.3.1.2(2)", Seen::Memory)))
    }

    /// `Fv,Rk` in predrilled holes. The rope effect is taken where the standard has a formula for it. The
    /// table's bending yield strength stands for the steel's tensile strength, which is greater.
    fn lateral(&self) -> Result<Worked<Force>, RuleError> {
        let j = &self.joined;
        if j.end_grain {
            return Err(RuleError::not_covered(
                "a screw along the fibres of the piece that holds it",
                "EN 1995-1-1 8.3.1.2 counts on none: screw into side grain, or let the rail rest on something",
            ));
        }
        let fastener = self.fastener()?;
        let member = |symbol, (wood, degrees): (&WoodChoice, f64), thickness| -> Result<johansen::Member, RuleError> {
            let timber = timber(wood)?;
            let (kind, density) = (timber.kind, timber.values.density);
            let embedded = Embedded { kind, density, predrilled: true, degrees };
            Ok(johansen::Member { embedment: embedment(symbol, &fastener, &embedded)?, thickness })
        };
        let first = member("fh,1,k", (j.side.0, j.side.2), given("t1", j.side.1))?;
        let second = member("fh,2,k", (j.main.0, j.main.2), given("t2", j.in_main()))?;
        let moment = match j.screw.declared.yield_moment {
            Some(declared) => given("My,k", declared).step("My,Rk", clause("8.7.1(2)", Seen::Memory)),
            None => yield_moment(&fastener, j.screw.bending_yield)?,
        };
        if j.gap > Length::default() {
            return across_gap(&fastener, &moment, &first, &second, j.gap);
        }
        Ok(single_shear(&fastener, &moment, &first, &second, self.axial().ok().as_ref())?.capacity)
    }

    /// `nef` of a row up the rail's end, which in the post runs along the grain and the load.
    fn row(&self, lateral: &Worked<Force>, d: Duration, row: &Row<'_>) -> Result<Worked<Force>, RuleError> {
        let in_post = group::Row { count: row.count as u32, spacing: row.spacing, predrilled: true, degrees: 0.0 };
        let together = effective_number(&self.fastener()?, &in_post)?;
        let one = self.rules.of_connection("Fv,Rd", d, lateral.clone())?;
        Ok((together * one).step("nef Fv,Rd", clause("(8.1)", Seen::Memory)))
    }

    /// The resultant force at which equation 8.28 is 1: `1/sqrt[(cosα/Fv,Rd)² + (sinα/Fax,Rd)²]`.
    fn at_angle(&self, lateral: &Worked<Force>, d: Duration, degrees: f64) -> Result<Worked<Force>, RuleError> {
        let across = self.rules.of_connection("Fv,Rd", d, lateral.clone())?;
        let along = self.axial_design(d).map_err(instead)?;
        let radians = degrees.to_radians();
        let (cosine, sine) = (given("cosα", number(radians.cos())), given("sinα", number(radians.sin())));
        let share: Worked<Ratio> = across.clone() / along * sine;
        Ok((across / (cosine.power(2.0) + share.power(2.0)).root()).step("FRd", clause("(8.28)", Seen::Secondary)))
    }

    fn distances_when_pulled(&self) -> Result<(), RuleError> {
        if self.joined.pulled { self.distance_when_pulled(AxialPlace::Edge).map(|_| ()) } else { Ok(()) }
    }

    fn needs(&self, spot: Spot) -> Result<Worked<Length>, RuleError> {
        let (j, fastener) = (&self.joined, self.fastener()?);
        let (side, main) = (Self::density(j.side.0)?, Self::density(j.main.0)?);
        let (place, axial) = match spot {
            Spot::End => (Place::UnloadedEnd, AxialPlace::End),
            Spot::EndPulled => (Place::LoadedEnd, AxialPlace::End),
            Spot::Edge => (Place::LoadedEdge, AxialPlace::Edge),
            Spot::Along => (Place::AlongGrain, AxialPlace::AlongGrain),
            Spot::Across | Spot::Beside => (Place::AcrossGrain, AxialPlace::AcrossGrain),
            Spot::EdgeAlong => (Place::UnloadedEdge, AxialPlace::Edge),
        };
        let mut needed = least_distance(&fastener, place, side, true, j.side.2)?;
        if spot == Spot::Across {
            // In the post the same row runs along the grain.
            needed = needed.max(least_distance(&fastener, Place::AlongGrain, main, true, j.main.2)?);
        }
        let mut tables = "Tables 8.2 and 8.4";
        if j.pulled
            && let Ok(when_pulled) = self.distance_when_pulled(axial)
        {
            needed = needed.max(when_pulled);
            tables = "Tables 8.2, 8.4 and 8.6";
        }
        Ok(needed.step("least distance", clause(tables, Seen::Memory)))
    }

    fn distances_stand_alone(&self) -> bool {
        true
    }

    fn remark(&self) -> Option<&'static str> {
        let declared = &self.joined.screw.declared;
        Some(match (declared.yield_moment.is_some(), declared.head.is_some()) {
            (true, true) => "holes drilled; yield moment and head as the maker declares them",
            (true, false) => {
                "holes drilled; yield moment as the maker declares it, heads or washers taken as two diameters wide \
                 and as good as a nail's"
            }
            (false, true) => {
                "holes drilled; head as the maker declares it, fu taken as the table's bending yield strength"
            }
            (false, false) => {
                "holes drilled; fu taken as the table's bending yield strength, heads or washers as two diameters wide \
                 and as good as a nail's: what the maker declares goes before it"
            }
        })
    }

    fn holes(&self) -> Result<Holes, RuleError> {
        let [shank, thread] = lead_holes(self.joined.screw.diameter);
        Ok(Holes { shank: Some((shank.clone(), shank)), thread: Some((thread.clone(), thread)) })
    }
}

/// A strength as its maker declares it.
fn of_maker(d: DeclaredStrength) -> Declared {
    Declared { strength: d.strength, density: d.density }
}

/// Johansen's mechanics with a gap, which EN 1995-1-1 8.2.2 does not have: without its factors of 1.05 and 1.15
/// and without the rope effect, which errs low.
fn across_gap(
    fastener: &Fastener,
    moment: &Worked<BendingMoment>,
    first: &johansen::Member,
    second: &johansen::Member,
    gap: Length,
) -> Result<Worked<Force>, RuleError> {
    const SOURCE: Citation = Citation::new("Johansen's theory with a gap, as AWC TR12 has it", "", Seen::Memory);
    let piece = |m: &johansen::Member, symbol: &'static str| Bridged {
        bearing: (m.embedment.clone() * fastener.effective.clone()).step(symbol, SOURCE),
        length: m.thickness.clone(),
        moment: moment.clone(),
    };
    let loads = yield_loads(&piece(second, "q2"), &piece(first, "q1"), given("g", gap))?;
    match loads.into_iter().map(|(_, p)| p).reduce(Worked::min) {
        Some(least) => Ok(least.step("Fv,Rk", SOURCE)),
        None => unreachable!("there are six modes"),
    }
}

/// What a brief may do where no formula reaches the screw.
fn instead(e: RuleError) -> RuleError {
    match e {
        RuleError::NotCovered { what, .. } => RuleError::not_covered(
            what,
            "EN 1995-1-1 8.7.2(4) has a formula for d from 6 to 12 mm with a root of 0.6 d to 0.75 d, which the lags \
             of 1/4 to 7/16 in keep and the wood screws here do not: use lags, or give what the maker declares, declared = \
             { withdrawal = \"…\", density = \"…\" }",
        ),
        other => other,
    }
}
