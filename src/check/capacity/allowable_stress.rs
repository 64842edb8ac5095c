//! Sticks and screws rated by US allowable stress design.

use super::bolt_asd::BoltByNds;
use super::post_asd::RatedPost;
use super::screw_asd::RatedScrew;
use super::{
    Actions, Against, AtCut, Bolted, Contact, Face, Factors, Joined, Posted, Rated, RatedBolt, RatedPipe, Rules,
    Screwed, SplitBy, Standing, sag_parts,
};
use crate::check::envelope::Peak;
use crate::check::slat::PRACTICE;
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::{Stick, WoodChoice};
use crate::quantity::{BendingMoment, Force, Length, Ratio, SectionModulus, Stress};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bearing::{bearing_area, bearing_stress};
use crate::rules::allowable_stress::bending::{
    LoadCase, Unbraced, bending_stress, critical_bending_stress, effective_length, slenderness,
};
use crate::rules::allowable_stress::deflection::{Seasoned, creep_factor, total_deflection};
use crate::rules::allowable_stress::factors::{self, Conditions, Temperature};
use crate::rules::allowable_stress::section::Section;
use crate::rules::allowable_stress::shear::{deepest_notch, notch_on_tension_face, shear_at_connection, shear_stress};
use crate::rules::allowable_stress::steel;
use crate::rules::allowable_stress::wood::{self, Defects, Piece, Wood};
use crate::source::{Citation, Seen};
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
        Box::new(RatedScrew::new(joined, self.damp))
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
