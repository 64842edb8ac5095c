//! Sticks and screws rated by Eurocode 5.

use super::bolt_ec5::BoltByEc5;
use super::post_ec5::RatedPost;
use super::screw_ec5::RatedScrew;
use super::{
    Actions, Against, AtCut, Bolted, Contact, Face, Factors, Joined, Posted, Rated, RatedBolt, RatedPipe, Rules,
    Screwed, SplitBy, Standing, sag_parts,
};
use crate::brief::National;
use crate::check::envelope::Peak;
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::{Platform, Stick, WoodChoice};
use crate::quantity::{BendingMoment, Force, Length, Ratio, SectionModulus, Stress};
use crate::rules::RuleError;
use crate::rules::limit_state::bearing::{self, Support, bearing_factor, effective_contact_length};
use crate::rules::limit_state::bending::{bending_stress, redistribution};
use crate::rules::limit_state::combination::{ActionFactors, Companion};
use crate::rules::limit_state::combined::{Bending, Utilised};
use crate::rules::limit_state::deflection::{Deflection, Instantaneous, deflection_limits, final_deflection};
use crate::rules::limit_state::design::{
    LoadDuration, Material, NationalChoice, ServiceClass, deformation, design_value, modification, partial_factor,
    partial_factor_of_connection,
};
use crate::rules::limit_state::section::{Axis, Section};
use crate::rules::limit_state::shear::{Notch, notch_factor, shear_stress_at_notch};
use crate::rules::limit_state::splitting::splitting_capacity;
use crate::rules::limit_state::stability::{BeamLoad, LoadHeight, Unbraced};
use crate::rules::limit_state::steel;
use crate::rules::limit_state::timber::{Conditions, Timber};
use crate::source::{Citation, Seen};
use crate::tables::pipes::Pipe;

const SOLID: Material = Material::SolidTimber;
/// A bed is in no category of EN 1991; it is taken for a floor of a dwelling.
const PEOPLE: Companion = Companion::CATEGORY_A;

pub(super) const fn clause(locator: &'static str, seen: Seen) -> Citation {
    Citation::new("EN 1995-1-1:2004+A2:2014", locator, seen)
}

/// EN 1995-1-1 in one service class, with one country's choices.
#[derive(Clone, Copy)]
pub(super) struct Ec5 {
    service: ServiceClass,
    choice: NationalChoice,
    /// Every cleat screw's maker declares its tension capacity.
    tension_declared: bool,
}

impl Ec5 {
    pub(super) fn new(p: &Platform) -> Ec5 {
        let choice = match p.national {
            National::Recommended => NationalChoice::Recommended,
            National::UnitedKingdom => NationalChoice::UnitedKingdom,
            National::Germany => NationalChoice::Germany,
        };
        let tension_declared = p.sides.iter().all(|s| s.screws.screw.declared.tension.is_some());
        Ec5 { service: if p.damp { ServiceClass::Two } else { ServiceClass::One }, choice, tension_declared }
    }

    pub(super) fn conditions(&self, d: Duration) -> Conditions {
        Conditions { duration: duration(d), service: self.service, choice: self.choice, shared: false }
    }

    /// Design value of a resistance of a connection.
    pub(super) fn of_connection(
        &self,
        symbol: &'static str,
        d: Duration,
        resistance: Worked<Force>,
    ) -> Result<Worked<Force>, RuleError> {
        let kmod = modification(SOLID, duration(d), self.service)?;
        Ok(design_value(symbol, kmod, resistance, partial_factor_of_connection(self.choice)))
    }
}

impl Rules for Ec5 {
    fn rated(&self, stick: &Stick, face: Face) -> Box<dyn Rated> {
        let (breadth, depth) = face.section(stick);
        Box::new(RatedStick {
            timber: timber_of(stick),
            measured: stick.measured,
            section: Section { breadth, depth },
            rules: *self,
        })
    }

    fn screwed<'a>(&self, joined: Joined<'a>) -> Box<dyn Screwed + 'a> {
        Box::new(RatedScrew { joined, rules: *self })
    }

    fn bolted<'a>(&self, bolted: Bolted<'a>) -> Box<dyn RatedBolt + 'a> {
        Box::new(BoltByEc5 { bolted, rules: *self })
    }

    fn post(&self, standing: &Standing<'_>) -> Box<dyn Posted> {
        Box::new(RatedPost::new(standing, timber_of(standing.stick), *self))
    }

    /// Strength by EN 1990 (6.10); sag at once by (6.14); sag after years as the actions that would cause
    /// it at once, `G (1 + kdef) + Q (1 + ψ2 kdef)`.
    fn actions(&self) -> Actions {
        let gamma = ActionFactors::of(self.choice);
        // Solid timber under a roof has a `kdef`; where there is none, `lasting_sag` says so.
        let kdef = deformation(SOLID, self.service).map_or(0.0, |k| k.value.value);
        Actions {
            strength: Factors { permanent: gamma.permanent.value.value, variable: gamma.variable.value.value },
            sag: Factors::WHOLE,
            sag_of_code: Factors::WHOLE,
            lasting: Factors { permanent: 1.0 + kdef, variable: 1.0 + PEOPLE.quasi_permanent * kdef },
        }
    }

    /// Equations 6.11 and 6.12 where the two are shares of one force: `r cosφ + km s sinφ` is greatest at
    /// `sqrt(r² + (km s)²)`.
    fn skew(&self, _: &Stick, _: Length, edge: &Against, flat: &Against) -> Result<Worked<Ratio>, RuleError> {
        let km = redistribution(SOLID);
        let both = |whole: &Against, part: &Against| {
            (whole.ratio().power(2.0) + (km.clone() * part.ratio()).power(2.0)).root()
        };
        Ok(both(edge, flat).max(both(flat, edge)).step("utilisation", clause("(6.11), (6.12)", Seen::Secondary)))
    }

    fn both_ways(&self, _: &Stick, _: Length, edge: &Against, flat: &Against) -> Result<Worked<Ratio>, RuleError> {
        let of = |a: &Against| Utilised { stress: a.stress.clone(), strength: a.capacity.clone() };
        Ok(Bending { y: of(edge), z: of(flat), km: redistribution(SOLID) }.alone())
    }

    fn pipe(&self, pipe: &Pipe) -> Result<RatedPipe, RuleError> {
        let tube = steel::design_tube(pipe.outside, pipe.wall)?;
        Ok(RatedPipe {
            moment: steel::bending_resistance(&tube, pipe.yield_strength)?,
            shear: steel::shear_resistance(&tube, pipe.yield_strength)?,
            modulus: steel::modulus(),
            second_moment: tube.second_moment(),
        })
    }

    fn lasting_sag(&self, peak: &Peak) -> Result<Worked<Length>, RuleError> {
        let kdef = deformation(SOLID, self.service)?;
        let lasting = self.actions().lasting;
        let [all, permanent] = sag_parts(peak);
        let people = (all - permanent * lasting.permanent) / lasting.variable;
        let parts = Instantaneous { permanent, leading: Some((people, PEOPLE)), accompanying: Vec::new() };
        Ok(final_deflection(&parts, kdef))
    }

    /// The wider end of the standard's examples.
    fn code_sag(&self, span: Length) -> Worked<Length> {
        deflection_limits(Deflection::Instantaneous, span, false).wide
    }

    fn holds(&self, dead: Force) -> Worked<Force> {
        let table = Citation::new("EN 1990:2002+A1:2005", "Table A1.2(A)", Seen::Memory);
        (plain(0.9).step("γG,inf", table.clone()) * given("dead load on the end", dead)).step("hold", table)
    }

    fn steadies(&self, dead: Force) -> Worked<Force> {
        let table = Citation::new("EN 1990:2002+A1:2005", "Table A1.2(A)", Seen::Memory);
        (plain(0.9).step("γG,inf", table.clone()) * given("timber", dead)).step("G", table)
    }

    fn assumptions(&self) -> Vec<String> {
        let Factors { permanent, variable } = self.actions().strength;
        let mut out = vec![format!(
            "strength by EN 1990 (6.10): {permanent} times timber and bedding and {variable} times people; a bed taken \
             for a floor of category A"
        )];
        if self.choice != NationalChoice::Recommended {
            out.push("of the national choices only those known here are taken; the annexes were not read".into());
        }
        out
    }

    fn unchecked(&self) -> Option<(&'static str, &'static str)> {
        (!self.tension_declared).then_some((
            "tension in the screws' own steel",
            "EN 1995-1-1 8.7.2(7) takes it from the maker: give declared = { tension = \"…\" } with the cleat screws",
        ))
    }
}

/// Load-duration class. People lying or sitting are an imposed load, a row of guests, a knee or a foot
/// last less than a week in all, and a blow is instantaneous (EN 1995-1-1 2.3.1.2; the choice is ours).
fn duration(d: Duration) -> LoadDuration {
    match d {
        Duration::Permanent => LoadDuration::Permanent,
        Duration::TenYears => LoadDuration::MediumTerm,
        Duration::TwoMonths | Duration::SevenDays | Duration::TenMinutes => LoadDuration::ShortTerm,
        Duration::Blow => LoadDuration::Instantaneous,
    }
}

/// Wood as these rules see it.
pub(super) fn timber(choice: &WoodChoice) -> Result<Timber, RuleError> {
    match choice {
        WoodChoice::Class { values, kind, .. } => Ok(Timber { values: *values, kind: *kind }),
        WoodChoice::Graded { .. } | WoodChoice::Ungraded { .. } => {
            Err(RuleError::not_covered(choice.name(), "EN 1995-1-1 asks for timber of a strength class"))
        }
    }
}

/// A stick's timber. A measured modulus less than the class's lowers the fifth percentile and the shear modulus
/// with it, as EN 384 derives both from the mean; one that is more raises neither.
fn timber_of(stick: &Stick) -> Result<Timber, RuleError> {
    let mut timber = timber(&stick.wood)?;
    if let Some(measured) = stick.measured
        && measured < timber.values.modulus
    {
        let less = measured / timber.values.modulus;
        timber.values.modulus = measured;
        timber.values.modulus_fifth *= less.value;
        timber.values.shear_modulus *= less.value;
    }
    Ok(timber)
}

struct RatedStick {
    timber: Result<Timber, RuleError>,
    measured: Option<Stress>,
    section: Section,
    rules: Ec5,
}

impl RatedStick {
    fn timber(&self) -> Result<&Timber, RuleError> {
        self.timber.as_ref().map_err(Clone::clone)
    }
}

impl Contact {
    fn ec5(&self) -> bearing::Contact {
        bearing::Contact { length: self.length, to_ends: [self.to_end, self.to_load], to_next: Some(self.to_load) }
    }
}

impl Rated for RatedStick {
    /// With the load on the compressed edge and a constant moment: the worst of both.
    fn bending(&self, d: Duration, unbraced: Option<Length>) -> Result<Worked<Stress>, RuleError> {
        let free = unbraced.map(|length| Unbraced {
            length,
            load: BeamLoad::ConstantMoment,
            height: LoadHeight::CompressionEdge,
        });
        self.timber()?.bending(&self.section, &self.rules.conditions(d), free.as_ref())
    }

    fn bending_stress(&self, moment: BendingMoment) -> Worked<Stress> {
        bending_stress(moment, &self.section, Axis::Y)
    }

    fn section_modulus(&self) -> SectionModulus {
        self.section.section_modulus(Axis::Y).value
    }

    /// The crack factor stands on the strength here, not on the breadth: the ratio is the same.
    fn shear(&self, d: Duration) -> Result<Worked<Stress>, RuleError> {
        let kcr = self.timber()?.crack_factor(self.rules.choice)?;
        let fv = self.timber()?.shear(&self.rules.conditions(d))?;
        Ok((kcr * fv).step("kcr·fv,d", clause("(6.13)", Seen::Secondary)))
    }

    fn shear_stress(&self, shear: Force) -> Worked<Stress> {
        (plain(1.5) * given("Vd", shear) / (self.section.b() * self.section.h()))
            .step("τd", clause("6.1.7", Seen::Secondary))
    }

    fn bearing(&self, d: Duration, contact: &Contact) -> Result<Worked<Stress>, RuleError> {
        let timber = self.timber()?;
        let kc90 = bearing_factor(SOLID, timber.kind, Support::Discrete, &contact.ec5(), self.section.depth);
        timber.bearing(&self.rules.conditions(d), kc90)
    }

    fn contact_length(&self, contact: &Contact) -> Result<Worked<Length>, RuleError> {
        effective_contact_length(&contact.ec5())
    }

    fn bearing_stress(&self, force: Force, breadth: Length, length: &Worked<Length>) -> Worked<Stress> {
        bearing::bearing_stress(force, breadth, length.clone())
    }

    fn modulus(&self) -> Result<Worked<Stress>, RuleError> {
        const HERE: Citation = Citation::new("measured on the board", "", Seen::Judgement);
        let of_class = self.timber()?.modulus();
        Ok(self.measured.map_or(of_class, |e| given("E measured", e).step("E0,mean", HERE)))
    }

    fn breadth(&self) -> Length {
        self.section.breadth
    }

    fn depth(&self) -> Length {
        self.section.depth
    }

    fn at_screws(&self, d: Duration, depth: Length, _: Length) -> Result<Worked<Force>, RuleError> {
        let kmod = modification(SOLID, duration(d), self.rules.service)?;
        let splits = splitting_capacity(self.timber()?.kind, &self.section, depth)?;
        Ok(design_value("F90,Rd", kmod, splits, partial_factor(SOLID, self.rules.choice)))
    }

    fn split_by(&self) -> SplitBy {
        SplitBy::ShearBeside
    }

    /// EN 1995-1-1 sets no limit of its own.
    fn deepest_cut(&self, _: Length) -> Option<[Worked<Length>; 2]> {
        None
    }

    fn at_cut(&self, d: Duration, shear: Force, left: Length, reach: Length) -> Result<AtCut, RuleError> {
        let timber = self.timber()?;
        let notch = Notch { depth_left: left, reach, slope: 0.0, on_support_side: true };
        let kv = notch_factor(&self.section, &notch, SOLID)?;
        let resists =
            (kv * timber.shear(&self.rules.conditions(d))?).step("kv·fv,d", clause("(6.60)", Seen::Secondary));
        let kcr = timber.crack_factor(self.rules.choice)?;
        Ok(AtCut::Stresses([shear_stress_at_notch(shear, &self.section, &notch, kcr), resists]))
    }
}
