//! Sticks and screws rated by US allowable stress design.

use super::bolt_asd::BoltByNds;
use super::post_asd::RatedPost;
use super::{
    Actions, Against, AtCut, Bolted, Contact, Face, Factors, Holes, Joined, Posted, Rated, RatedBolt, RatedPipe, Row,
    Rules, Screwed, SplitBy, Spot, Standing, sag_parts, tip,
};
use crate::check::envelope::Peak;
use crate::check::slat::PRACTICE;
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::{Stick, WoodChoice};
use crate::quantity::{BendingMoment, Force, Length, Ratio, SectionModulus, Stress, number};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bearing::{bearing_area, bearing_stress};
use crate::rules::allowable_stress::bending::{
    LoadCase, Unbraced, bending_stress, critical_bending_stress, effective_length, slenderness,
};
use crate::rules::allowable_stress::connection::{
    self, Grain, adjusted_lateral, bearing_length_in_main, group_action, lateral_and_withdrawal, least_length_in_main,
    penetration,
};
use crate::rules::allowable_stress::deflection::{Seasoned, creep_factor, total_deflection};
use crate::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member, Role, dowel_bearing_strength, lateral, lateral_across_gap,
};
use crate::rules::allowable_stress::factors::{self, Conditions, Temperature};
use crate::rules::allowable_stress::section::Section;
use crate::rules::allowable_stress::shear::{deepest_notch, notch_on_tension_face, shear_at_connection, shear_stress};
use crate::rules::allowable_stress::spacing::{Distance, PilotFor, Place, geometry, pilot_hole, required_distance};
use crate::rules::allowable_stress::steel;
use crate::rules::allowable_stress::withdrawal::{adjusted_withdrawal, withdrawal};
use crate::rules::allowable_stress::wood::{self, Defects, Piece, Wood};
use crate::source::{Citation, Seen};
use crate::tables::fasteners::{Screw, ScrewKind};
use crate::tables::pipes::Pipe;

/// The floor rule of US residential codes, live load only.
const FLOOR: Citation = Citation::new("IRC 2018", "Table R301.7", Seen::Memory);
const FLOOR_LIMIT: f64 = 360.0;

const BOTH_AXES: Citation = Citation::new("NDS 2018", "3.9.2", Seen::Memory);

/// US allowable stress design, in dry or damp service.
pub(super) struct Nds {
    pub(super) damp: bool,
}

impl Nds {
    /// `fb2/{Fb2' [1 - (fb1/FbE)²]}`.
    fn flat_beside_edge(
        &self,
        stick: &Stick,
        unbraced: Length,
        edge: &Against,
        flat: &Against,
    ) -> Result<Worked<Ratio>, RuleError> {
        let (breadth, depth) = Face::Edgewise.section(stick);
        if depth <= breadth {
            return Ok(flat.ratio());
        }
        let section = Section { breadth, depth };
        let piece = Piece { section, nominal: stick.nominal, face: wood::Face::Edgewise };
        let emin = rated_stick(stick)?.modulus_for_stability(&piece, &conditions(self.damp, stick.incised))?;
        let le = effective_length(&Unbraced { length: unbraced, load: LoadCase::Other }, &section);
        let critical = critical_bending_stress(emin, slenderness(le, &section)?);
        if edge.stress.value >= critical.value {
            return Err(RuleError::out_of_range("fb1", edge.stress.value, "less than FbE", BOTH_AXES));
        }
        Ok(flat.ratio() / (plain(1.0) - (edge.stress.clone() / critical).power(2.0)))
    }
}

impl Rules for Nds {
    fn rated(&self, stick: &Stick, face: Face) -> Box<dyn Rated> {
        let (breadth, depth) = face.section(stick);
        let face = match face {
            Face::Flatwise => wood::Face::Flatwise,
            Face::Edgewise => wood::Face::Edgewise,
        };
        Box::new(RatedStick {
            wood: rated_stick(stick),
            piece: Piece { section: Section { breadth, depth }, nominal: stick.nominal, face },
            conditions: conditions(self.damp, stick.incised),
        })
    }

    fn screwed<'a>(&self, joined: Joined<'a>) -> Box<dyn Screwed + 'a> {
        Box::new(RatedScrew { dowel: dowel(joined.screw), joined, damp: self.damp })
    }

    fn bolted<'a>(&self, bolted: Bolted<'a>) -> Box<dyn RatedBolt + 'a> {
        Box::new(BoltByNds { bolted, damp: self.damp })
    }

    fn post(&self, standing: &Standing<'_>) -> Box<dyn Posted> {
        let wood = rated_stick(standing.stick);
        Box::new(RatedPost::new(standing, wood, conditions(self.damp, standing.stick.incised)))
    }

    fn actions(&self) -> Actions {
        let live = Factors { permanent: 0.0, variable: 1.0 };
        Actions { strength: Factors::WHOLE, sag: Factors::WHOLE, sag_of_code: live, lasting: Factors::WHOLE }
    }

    /// NDS 3.9.2 without compression, `fb1/Fb1' + fb2/{Fb2' [1 − (fb1/FbE)²]}`, where the two are shares of
    /// one force: `r1 cosφ + r2 sinφ` is greatest at `sqrt(r1² + r2²)`. The whole `fb1` stands in the bracket,
    /// which errs high.
    fn skew(
        &self,
        stick: &Stick,
        unbraced: Length,
        edge: &Against,
        flat: &Against,
    ) -> Result<Worked<Ratio>, RuleError> {
        let across = self.flat_beside_edge(stick, unbraced, edge, flat)?;
        Ok((edge.ratio().power(2.0) + across.power(2.0)).root().step("interaction", BOTH_AXES))
    }

    fn both_ways(
        &self,
        stick: &Stick,
        unbraced: Length,
        edge: &Against,
        flat: &Against,
    ) -> Result<Worked<Ratio>, RuleError> {
        let across = self.flat_beside_edge(stick, unbraced, edge, flat)?;
        Ok((edge.ratio() + across).step("interaction", BOTH_AXES))
    }

    fn pipe(&self, pipe: &Pipe) -> Result<RatedPipe, RuleError> {
        let tube = steel::design_tube(pipe.outside, pipe.wall)?;
        Ok(RatedPipe {
            moment: steel::allowable_moment(&tube, pipe.yield_strength)?,
            shear: steel::allowable_shear(&tube, pipe.yield_strength)?,
            modulus: steel::modulus(),
            second_moment: tube.second_moment(),
        })
    }

    /// The lying case's sag, all of it long-term.
    fn lasting_sag(&self, peak: &Peak) -> Result<Worked<Length>, RuleError> {
        let kcr = creep_factor(if self.damp { Seasoned::GreenOrWet } else { Seasoned::Dry });
        let [all, _] = sag_parts(peak);
        Ok(total_deflection(kcr, all, Length::default()))
    }

    fn code_sag(&self, span: Length) -> Worked<Length> {
        (given("L", span) / plain(FLOOR_LIMIT)).step("Δ allowed", FLOOR)
    }

    fn holds(&self, dead: Force) -> Worked<Force> {
        given("dead load on the end", dead).step("hold", PRACTICE)
    }

    /// Two thirds: what turns it over must be exceeded by half as much again (no source, the usual margin).
    fn steadies(&self, dead: Force) -> Worked<Force> {
        (given("timber", dead) / plain(1.5)).step("G", PRACTICE)
    }

    fn assumptions(&self) -> Vec<String> {
        Vec::new()
    }

    fn unchecked(&self) -> Option<(&'static str, &'static str)> {
        None
    }
}

/// Wood as these rules see it.
pub(super) fn rated_wood(choice: &WoodChoice) -> Result<Wood, RuleError> {
    match choice {
        WoodChoice::Graded { values, table, grade, .. } => {
            Ok(Wood::Graded { values: *values, table: *table, grade: grade.clone() })
        }
        WoodChoice::Ungraded { green, kind, knot, slope, .. } => {
            let defects = Defects { knot: *knot, slope_of_grain: *slope };
            Ok(Wood::Ungraded { species: *green, kind: *kind, defects })
        }
        WoodChoice::Class { name, .. } => {
            Err(RuleError::not_covered(name.clone(), "the NDS has no values for the strength classes of EN 338"))
        }
    }
}

/// A stick's wood, with its modulus if that was measured.
fn rated_stick(stick: &Stick) -> Result<Wood, RuleError> {
    let wood = rated_wood(&stick.wood)?;
    Ok(match stick.measured {
        Some(modulus) => Wood::Measured { wood: Box::new(wood), modulus },
        None => wood,
    })
}

/// The rules' name for how long a load lasts.
pub(super) fn duration(d: Duration) -> factors::Duration {
    match d {
        Duration::Permanent => factors::Duration::Permanent,
        Duration::TenYears => factors::Duration::TenYears,
        Duration::TwoMonths => factors::Duration::TwoMonths,
        Duration::SevenDays => factors::Duration::SevenDays,
        Duration::TenMinutes | Duration::Blow => factors::Duration::TenMinutes,
    }
}

/// Service conditions. Repetition is never credited: a mattress does not join slats (no source).
pub(super) fn conditions(damp: bool, incised: bool) -> Conditions {
    Conditions { wet: damp, temperature: Temperature::UpTo100F, incised, repetitive: false }
}

struct RatedStick {
    wood: Result<Wood, RuleError>,
    piece: Piece,
    conditions: Conditions,
}

impl RatedStick {
    fn wood(&self) -> Result<&Wood, RuleError> {
        self.wood.as_ref().map_err(Clone::clone)
    }
}

impl Rated for RatedStick {
    fn bending(&self, d: Duration, unbraced: Option<Length>) -> Result<Worked<Stress>, RuleError> {
        let held = unbraced.map(|length| Unbraced { length, load: LoadCase::Other });
        self.wood()?.bending(&self.piece, &self.conditions, duration(d), held.as_ref())
    }

    fn bending_stress(&self, moment: BendingMoment) -> Worked<Stress> {
        bending_stress(moment, &self.piece.section)
    }

    fn section_modulus(&self) -> SectionModulus {
        self.piece.section.section_modulus().value
    }

    fn shear(&self, d: Duration) -> Result<Worked<Stress>, RuleError> {
        self.wood()?.shear(&self.piece, &self.conditions, duration(d))
    }

    fn shear_stress(&self, shear: Force) -> Worked<Stress> {
        shear_stress(shear, &self.piece.section)
    }

    fn bearing(&self, _: Duration, contact: &Contact) -> Result<Worked<Stress>, RuleError> {
        self.wood()?.bearing(&self.piece, &self.conditions, bearing_area(contact.length, contact.to_end)?)
    }

    fn contact_length(&self, contact: &Contact) -> Result<Worked<Length>, RuleError> {
        Ok(given("ℓb", contact.length))
    }

    fn bearing_stress(&self, force: Force, breadth: Length, length: &Worked<Length>) -> Worked<Stress> {
        bearing_stress(force, breadth, length.value)
    }

    fn modulus(&self) -> Result<Worked<Stress>, RuleError> {
        self.wood()?.modulus(&self.piece, &self.conditions)
    }

    fn breadth(&self) -> Length {
        self.piece.section.breadth
    }

    fn depth(&self) -> Length {
        self.piece.section.depth
    }

    fn at_screws(&self, d: Duration, depth: Length, from_end: Length) -> Result<Worked<Force>, RuleError> {
        shear_at_connection(self.shear(d)?, &self.piece.section, depth, from_end)
    }

    fn split_by(&self) -> SplitBy {
        SplitBy::Group
    }

    fn deepest_cut(&self, cut: Length) -> Option<[Worked<Length>; 2]> {
        let most = deepest_notch(&self.piece.section);
        let citation = most.as_step().map_or(FLOOR, |s| s.citation.clone());
        Some([given("d - dn", cut).step("notch", citation), most])
    }

    fn at_cut(&self, d: Duration, shear: Force, left: Length, _: Length) -> Result<AtCut, RuleError> {
        let resists = notch_on_tension_face(self.shear(d)?, &self.piece.section, left)?;
        Ok(AtCut::Forces([given("V", shear), resists]))
    }
}

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

struct RatedScrew<'a> {
    dowel: Dowel,
    joined: Joined<'a>,
    damp: bool,
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
