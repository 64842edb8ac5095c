//! Sticks and screws rated by Eurocode 5.

use super::bolt_ec5::BoltByEc5;
use super::post_ec5::RatedPost;
use super::{
    Actions, Against, AtCut, Bolted, Contact, Face, Factors, Holes, Joined, Posted, Rated, RatedBolt, RatedPipe, Row,
    Rules, Screwed, SplitBy, Spot, Standing, sag_parts, tip,
};
use crate::brief::National;
use crate::check::envelope::Peak;
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::platform::{Platform, Stick, WoodChoice};
use crate::quantity::{BendingMoment, Force, Length, MassDensity, Ratio, SectionModulus, Stress, number};
use crate::rules::RuleError;
use crate::rules::gap::{Bridged, yield_loads};
use crate::rules::limit_state::bearing::{self, Support, bearing_factor, effective_contact_length};
use crate::rules::limit_state::bending::{bending_stress, redistribution};
use crate::rules::limit_state::combination::{ActionFactors, Companion};
use crate::rules::limit_state::combined::{Bending, Utilised};
use crate::rules::limit_state::deflection::{Deflection, Instantaneous, deflection_limits, final_deflection};
use crate::rules::limit_state::design::{
    LoadDuration, Material, NationalChoice, ServiceClass, deformation, design_value, modification, partial_factor,
    partial_factor_of_connection,
};
use crate::rules::limit_state::dowel::{
    Embedded, Fastener, FastenerKind, ScrewShape, effective_diameter, embedment, yield_moment,
};
use crate::rules::limit_state::group::{self, effective_number};
use crate::rules::limit_state::johansen::{self, single_shear};
use crate::rules::limit_state::screw::{
    Declared, Thread, declared_withdrawal, head_strength_of_nail, pull_through, tension, withdrawal,
};
use crate::rules::limit_state::section::{Axis, Section};
use crate::rules::limit_state::shear::{Notch, notch_factor, shear_stress_at_notch};
use crate::rules::limit_state::spacing::{AxialPlace, Place, lead_holes, least_axial_distance, least_distance};
use crate::rules::limit_state::splitting::splitting_capacity;
use crate::rules::limit_state::stability::{BeamLoad, LoadHeight, Unbraced};
use crate::rules::limit_state::steel;
use crate::rules::limit_state::timber::{Conditions, Timber};
use crate::source::{Citation, Seen};
use crate::tables::fasteners::DeclaredStrength;
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

struct RatedScrew<'a> {
    joined: Joined<'a>,
    rules: Ec5,
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
