//! The seam between members and rules: what a member file asks of a family of rules.
//!
//! Members know demands and places; which standard answers is settled here, once for a platform.

mod allowable_stress;
mod bolt;
mod bolt_asd;
mod bolt_ec5;
mod limit_state;
mod post_asd;
mod post_ec5;
mod screw_asd;
mod screw_ec5;

pub(super) use bolt::{BoltSpot, Bolted, RatedBolt};

use super::envelope::Peak;
use crate::brief::{LayWord, RuleFamily};
use crate::derivation::Worked;
use crate::load::{CaseKind, Duration};
use crate::platform::{Platform, Stick, WoodChoice};
use crate::quantity::unit::metre;
use crate::quantity::{BendingMoment, Force, Length, Ratio, SecondMomentOfArea, SectionModulus, Stress};
use crate::rules::RuleError;
use crate::tables::fasteners::Screw;
use crate::tables::pipes::Pipe;

/// Which side of a stick the load meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Face {
    Flatwise,
    Edgewise,
}

impl From<LayWord> for Face {
    fn from(lay: LayWord) -> Face {
        match lay {
            LayWord::Flat => Face::Flatwise,
            LayWord::Edge => Face::Edgewise,
        }
    }
}

impl Face {
    /// A cleat's or rail's, whose thickness is horizontal and width vertical whichever is larger.
    pub(super) fn upright(stick: &Stick) -> Face {
        if stick.width < stick.thickness { Face::Flatwise } else { Face::Edgewise }
    }

    /// A stick loaded across its width: a tread stepped on, a guard's rail or post pushed over.
    pub(super) fn across(stick: &Stick) -> Face {
        if stick.width < stick.thickness { Face::Edgewise } else { Face::Flatwise }
    }

    /// The load turned by a right angle.
    pub(super) fn turned(self) -> Face {
        match self {
            Face::Flatwise => Face::Edgewise,
            Face::Edgewise => Face::Flatwise,
        }
    }

    /// Breadth and depth of a stick with the load on this side.
    fn section(self, stick: &Stick) -> (Length, Length) {
        let (t, w) = (stick.thickness, stick.width);
        let (small, large) = if t < w { (t, w) } else { (w, t) };
        match self {
            Face::Flatwise => (large, small),
            Face::Edgewise => (small, large),
        }
    }
}

/// How much of the permanent and of people's loads is taken together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Factors {
    pub(super) permanent: f64,
    pub(super) variable: f64,
}

impl Factors {
    /// Both as they are.
    pub(super) const WHOLE: Factors = Factors { permanent: 1.0, variable: 1.0 };

    /// The two effects together.
    pub(super) fn of(self, permanent: f64, variable: f64) -> f64 {
        self.variable * variable + self.permanent * permanent
    }
}

/// The combinations of actions that a platform is analysed for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Actions {
    /// For strength.
    pub(super) strength: Factors,
    /// For the sag at once, of people.
    pub(super) sag: Factors,
    /// For the sag at once, of the code's uniform load.
    pub(super) sag_of_code: Factors,
    /// For the sag after years, so far as it is more of the sag at once.
    pub(super) lasting: Factors,
}

impl Actions {
    /// For the sag at once in a case.
    pub(super) fn sag_of(&self, kind: CaseKind) -> Factors {
        if kind == CaseKind::CodeUniform { self.sag_of_code } else { self.sag }
    }
}

/// Where a member is pressed across its grain.
#[derive(Clone, Copy, Debug)]
pub(super) struct Contact {
    /// Length along the grain.
    pub(super) length: Length,
    /// From the contact to the member's nearer end.
    pub(super) to_end: Length,
    /// Clear distance along the member to the nearest load.
    pub(super) to_load: Length,
}

/// What a connection that pulls across a member's grain is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SplitBy {
    /// The force of the screws that act together.
    Group,
    /// The shear in the member on either side of the screws.
    ShearBeside,
}

/// A stick in its place, rated by the rules.
pub(super) trait Rated {
    /// Bending capacity; `unbraced` is the length over which the compressed edge is free to bow, if it is.
    fn bending(&self, d: Duration, unbraced: Option<Length>) -> Result<Worked<Stress>, RuleError>;
    fn bending_stress(&self, moment: BendingMoment) -> Worked<Stress>;
    fn section_modulus(&self) -> SectionModulus;
    fn shear(&self, d: Duration) -> Result<Worked<Stress>, RuleError>;
    fn shear_stress(&self, shear: Force) -> Worked<Stress>;
    fn bearing(&self, d: Duration, contact: &Contact) -> Result<Worked<Stress>, RuleError>;
    /// Length of contact that counts.
    fn contact_length(&self, contact: &Contact) -> Result<Worked<Length>, RuleError>;
    fn bearing_stress(&self, force: Force, breadth: Length, length: &Worked<Length>) -> Worked<Stress>;
    fn modulus(&self) -> Result<Worked<Stress>, RuleError>;
    fn breadth(&self) -> Length;
    fn depth(&self) -> Length;
    /// What the wood beside screws holds whose force pulls across the grain, `depth` from the edge it
    /// points to and `from_end` from the member's end.
    fn at_screws(&self, d: Duration, depth: Length, from_end: Length) -> Result<Worked<Force>, RuleError>;
    fn split_by(&self) -> SplitBy;
    /// The notch that is cut out of its lower edge at a support, and the deepest that may be, where that is limited.
    fn deepest_cut(&self, cut: Length) -> Option<[Worked<Length>; 2]>;
    /// A shear force at such a notch that leaves so much of the depth, and what is resisted there; `reach` is from
    /// the line of the support's reaction to the notch's corner.
    fn at_cut(&self, d: Duration, shear: Force, left: Length, reach: Length) -> Result<AtCut, RuleError>;
}

/// What is asked of the wood at a notch and what it gives, as the rules put it.
pub(super) enum AtCut {
    Forces([Worked<Force>; 2]),
    Stresses([Worked<Stress>; 2]),
}

/// A stress beside what is allowed or resisted.
#[derive(Clone)]
pub(super) struct Against {
    pub(super) stress: Worked<Stress>,
    pub(super) capacity: Worked<Stress>,
}

impl Against {
    fn ratio(&self) -> Worked<Ratio> {
        self.stress.clone() / self.capacity.clone()
    }
}

/// A steel pipe rated by the rules.
pub(super) struct RatedPipe {
    pub(super) moment: Worked<BendingMoment>,
    pub(super) shear: Worked<Force>,
    pub(super) modulus: Worked<Stress>,
    pub(super) second_moment: Worked<SecondMomentOfArea>,
}

/// A screw through one piece into another.
pub(super) struct Joined<'a> {
    pub(super) screw: &'a Screw,
    /// The piece under the head, how much of the screw is in it, and the load's angle to its grain.
    pub(super) side: (&'a WoodChoice, Length, f64),
    /// The piece that holds the threads, how thick it is if that is known, and the load's angle to its grain.
    pub(super) main: (&'a WoodChoice, Option<Length>, f64),
    /// Clear distance between the two.
    pub(super) gap: Length,
    /// Whether the screw runs along the fibres of the piece that holds it.
    pub(super) end_grain: bool,
    /// Whether it is pulled along its axis too.
    pub(super) pulled: bool,
}

impl Joined<'_> {
    /// Length of screw in the main piece, tip included; less when it comes out at the back.
    pub(super) fn in_main(&self) -> Length {
        let rest = self.screw.length - self.side.1 - self.gap;
        match self.main.1 {
            Some(t) if t < rest => t,
            _ => rest,
        }
    }

    /// Length of thread in the main piece, tip included.
    fn thread_in_main(&self) -> Length {
        if self.in_main() < self.screw.thread { self.in_main() } else { self.screw.thread }
    }
}

/// Length of the tapered tip; two diameters where the table gives none (NDS 2018 12.3.5, from memory).
fn tip(s: &Screw) -> Length {
    s.tip.unwrap_or(s.diameter * 2.0)
}

/// A distance around a screw whose load is across the grain of the piece under its head, or along it where that is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Spot {
    /// To the piece's end.
    End,
    /// To its end, when the load pulls towards it too.
    EndPulled,
    /// To its edge.
    Edge,
    /// From screw to screw along the grain.
    Along,
    /// From screw to screw across the grain.
    Across,
    /// To its edge, the load along the grain.
    EdgeAlong,
    /// From screw to screw across the grain, the load along it.
    Beside,
}

/// A distance as built, and what it is in words.
pub(super) type Kept = (Spot, Length, &'static str);

/// Screws up a rail's end.
pub(super) struct Row<'a> {
    pub(super) count: usize,
    pub(super) spacing: Length,
    /// The rail, whose stiffness stands for both pieces: the brief does not give the post's size.
    pub(super) rail: &'a Stick,
    pub(super) distances: &'a [Kept],
}

/// A screw rated by the rules.
pub(super) trait Screwed {
    /// Least length in the piece that holds the point, below which no rule says what it holds.
    fn least_length(&self) -> Result<Worked<Length>, RuleError>;
    /// What one screw holds sideways, before duration.
    fn lateral(&self) -> Result<Worked<Force>, RuleError>;
    /// What a row of them holds sideways.
    fn row(&self, lateral: &Worked<Force>, d: Duration, row: &Row<'_>) -> Result<Worked<Force>, RuleError>;
    /// What one holds against a force at this angle from the wood's surface.
    fn at_angle(&self, lateral: &Worked<Force>, d: Duration, degrees: f64) -> Result<Worked<Force>, RuleError>;
    /// Whether there are distances for a screw pulled along its axis; where there are none, [`Self::needs`]
    /// speaks of the load across it only.
    fn distances_when_pulled(&self) -> Result<(), RuleError>;
    /// The distance a spot needs.
    fn needs(&self, spot: Spot) -> Result<Worked<Length>, RuleError>;
    /// Whether a row's distances are checks of their own, and not a part of what the row holds.
    fn distances_stand_alone(&self) -> bool;
    /// What a reader must know of how it was rated.
    fn remark(&self) -> Option<&'static str>;
    /// The holes to drill: for the shank in the piece under the head, for the thread in the other.
    fn holes(&self) -> Result<Holes, RuleError>;
}

/// Holes for a screw, each from its smallest to its largest diameter.
pub(super) struct Holes {
    pub(super) shank: Option<(Worked<Length>, Worked<Length>)>,
    pub(super) thread: Option<(Worked<Length>, Worked<Length>)>,
}

/// A post as it stands under its load.
pub(super) struct Standing<'a> {
    pub(super) stick: &'a Stick,
    pub(super) length: Length,
    /// Whether its top moves sideways with the platform.
    pub(super) sways: bool,
    /// How far off its axis the load comes in: along its width, along its thickness.
    pub(super) off_axis: [Worked<Length>; 2],
    /// What holes take from its width, through its thickness, and from its thickness.
    pub(super) hole: [Length; 2],
}

impl Standing<'_> {
    /// Depth and breadth with the larger as depth, and the eccentricity along each.
    fn section(&self) -> [(Length, Worked<Length>); 2] {
        let [along, across] = self.off_axis.clone();
        let [of_width, of_thickness] = self.hole;
        let (width, thickness) = ((self.stick.width - of_width, along), (self.stick.thickness - of_thickness, across));
        if thickness.0 > width.0 { [thickness, width] } else { [width, thickness] }
    }
}

/// What is asked of a post and what it gives, as parts of one measure.
pub(super) type Part = [Worked<Ratio>; 2];

/// A post rated by the rules.
pub(super) trait Posted {
    /// Slenderness and the most there may be, where the rules set one.
    fn slenderness(&self) -> Result<Option<Part>, RuleError>;
    /// Compression off the axis with buckling both ways.
    fn buckling(&self, d: Duration, force: &Worked<Force>) -> Result<Part, RuleError>;
    /// Tension off the axis, on what a hole across its width leaves.
    fn pulled(&self, d: Duration, force: &Worked<Force>, hole: Length) -> Result<Part, RuleError>;
    /// What its end grain may be pressed with.
    fn end_bearing(&self, d: Duration) -> Result<Worked<Stress>, RuleError>;
    /// A force on its end grain.
    fn end_stress(&self, force: Worked<Force>, area: [Length; 2]) -> Worked<Stress>;
}

/// A family of rules.
pub(super) trait Rules {
    fn rated(&self, stick: &Stick, face: Face) -> Box<dyn Rated>;
    fn screwed<'a>(&self, joined: Joined<'a>) -> Box<dyn Screwed + 'a>;
    fn bolted<'a>(&self, bolted: Bolted<'a>) -> Box<dyn RatedBolt + 'a>;
    fn post(&self, standing: &Standing<'_>) -> Box<dyn Posted>;
    fn actions(&self) -> Actions;
    /// Bending by one force in its worst direction: `edge` and `flat` are what it does when it is turned
    /// wholly to each. At most 1; `unbraced` is the length over which the stick is free to bow.
    fn skew(&self, stick: &Stick, unbraced: Length, edge: &Against, flat: &Against)
    -> Result<Worked<Ratio>, RuleError>;
    /// Bending by two forces at once, one on edge and one flat, at most 1; `unbraced` as for [`Rules::skew`].
    fn both_ways(
        &self,
        stick: &Stick,
        unbraced: Length,
        edge: &Against,
        flat: &Against,
    ) -> Result<Worked<Ratio>, RuleError>;
    /// A steel pipe.
    fn pipe(&self, pipe: &Pipe) -> Result<RatedPipe, RuleError>;
    /// The sag after years, from the peak of the lasting combination.
    fn lasting_sag(&self, peak: &Peak) -> Result<Worked<Length>, RuleError>;
    /// What a span may sag under the code's uniform load.
    fn code_sag(&self, span: Length) -> Worked<Length>;
    /// What holds a loose end down.
    fn holds(&self, dead: Force) -> Worked<Force>;
    /// What of a weight counts against tipping.
    fn steadies(&self, dead: Force) -> Worked<Force>;
    /// What is taken for granted under these rules.
    fn assumptions(&self) -> Vec<String>;
    /// What they leave unchecked, and why.
    fn unchecked(&self) -> Option<(&'static str, &'static str)>;

    /// A cleat or rail.
    fn upright(&self, stick: &Stick) -> Box<dyn Rated> {
        self.rated(stick, Face::upright(stick))
    }
}

/// The rules of a platform.
pub(super) fn rules(p: &Platform) -> Box<dyn Rules> {
    match p.rules {
        RuleFamily::AllowableStress => Box::new(allowable_stress::Nds { damp: p.damp }),
        RuleFamily::LimitState => Box::new(limit_state::Ec5::new(p)),
    }
}

/// The modulus that US allowable stress design has for a stick in dry service.
pub(super) fn dry_modulus(stick: &Stick, face: Face) -> Result<Worked<Stress>, RuleError> {
    allowable_stress::Nds { damp: false }.rated(stick, face).modulus()
}

/// A capacity for every duration, worked once each.
pub(super) struct ByDuration<Q> {
    values: Vec<(Duration, Worked<Q>)>,
}

impl<Q: crate::quantity::Measured> ByDuration<Q> {
    pub(super) fn of(
        durations: &[Duration],
        mut work: impl FnMut(Duration) -> Result<Worked<Q>, RuleError>,
    ) -> Result<Self, RuleError> {
        let values = durations.iter().map(|d| work(*d).map(|w| (*d, w))).collect::<Result<_, _>>()?;
        Ok(ByDuration { values })
    }

    /// The worked value; every duration in use was worked.
    pub(super) fn get(&self, d: Duration) -> &Worked<Q> {
        let found = self.values.iter().find(|(k, _)| *k == d).or(self.values.first());
        match found {
            Some((_, w)) => w,
            None => unreachable!("a platform has at least the dead case"),
        }
    }

    pub(super) fn si(&self, d: Duration) -> f64 {
        self.get(d).value.si()
    }
}

/// A peak of sag as lengths: all of it, and what of it the dead load does alone.
fn sag_parts(peak: &Peak) -> [Length; 2] {
    [metre(peak.value), metre(peak.permanent)]
}
