//! The keys a brief may hold, table by table.

use std::ops::Range;

use super::fields::Typed;
use super::guard::Edge;
use super::guard::{FixingKeys, GuardKeys, LadderKeys};
use super::mistake::Mistakes;
use crate::quantity::{BendingMoment, Force, Length, Mass, MassDensity, Stress, UnitSystem};
use crate::tables::openings::Jurisdiction;

/// The family of rules a platform is checked by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleFamily {
    /// US allowable stress design.
    AllowableStress,
    /// EN 1995-1-1.
    LimitState,
}

/// Whose nationally determined parameters the ec5 rules take.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum National {
    /// The values EN 1990 and EN 1995-1-1 recommend.
    #[default]
    Recommended,
    /// The United Kingdom's.
    UnitedKingdom,
    /// Germany's.
    Germany,
}

/// A long side of the platform, seen from the foot towards the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// How a slat lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayWord {
    /// On its wide face.
    Flat,
    /// On its narrow face.
    Edge,
}

/// What holds a rail's end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JointWord {
    /// Wood screws.
    Screws,
    /// Lag screws.
    Lags,
    /// Bolts through rail and post.
    Bolts,
    /// The rail bears on a post or a block.
    Bearing,
    /// The rail bears on a shoulder cut into the post.
    Notch,
    /// Screws in pockets bored at a slant.
    PocketScrews,
    /// Glue and nothing else.
    Glue,
}

/// Wood as named in the brief.
#[derive(Clone, Debug)]
pub enum WoodKeys {
    /// `wood = "spruce-pine-fir no2"`
    Named(Typed<String>),
    /// `wood = { species = …, grade = …, knot = …, slope_of_grain = … }`
    Described {
        /// Where the table stands.
        span: Range<usize>,
        /// Species.
        species: Option<Typed<String>>,
        /// Grade, or `ungraded`.
        grade: Option<Typed<String>>,
        /// Largest knot; `None` inside when the brief says `"none"`.
        knot: Option<Typed<Option<Length>>>,
        /// The run of a slope of grain of one in so many.
        slope: Option<Typed<f64>>,
        /// A knot stands there that cannot be read.
        unread_knot: bool,
        /// A slope of grain stands there that cannot be read.
        unread_slope: bool,
    },
    /// `wood = { asd = …, ec5 = … }`: one wood as either family of rules knows it
    InBoth {
        /// Where the table stands.
        span: Range<usize>,
        /// For the asd rules.
        asd: Option<Box<WoodKeys>>,
        /// For the ec5 rules.
        ec5: Option<Box<WoodKeys>>,
    },
}

impl WoodKeys {
    /// The wood as one family of rules knows it.
    pub fn under(&self, rules: RuleFamily) -> Option<&WoodKeys> {
        match (self, rules) {
            (WoodKeys::InBoth { asd, .. }, RuleFamily::AllowableStress) => asd.as_deref(),
            (WoodKeys::InBoth { ec5, .. }, RuleFamily::LimitState) => ec5.as_deref(),
            (one, _) => Some(one),
        }
    }
}

/// Wood and size, the same for every member.
#[derive(Clone, Debug, Default)]
pub struct StickKeys {
    /// Where the member's table stands.
    pub span: Range<usize>,
    /// Wood.
    pub wood: Option<WoodKeys>,
    /// Stock size, such as `2x4`.
    pub size: Option<Typed<String>>,
    /// The smaller dimension as built.
    pub thickness: Option<Typed<Length>>,
    /// The larger dimension as built.
    pub width: Option<Typed<Length>>,
    /// Ripped or planed out of larger stock, so that its grade no longer holds.
    pub ripped: Option<Typed<bool>>,
    /// Incised for preservative treatment.
    pub incised: Option<Typed<bool>>,
    /// Modulus of elasticity as measured on the board.
    pub measured: Option<Typed<Stress>>,
    /// A size stands there that cannot be read: a mistake of its own, not a missing size.
    pub unread_size: bool,
}

impl StickKeys {
    /// These over what several have in common; a size of its own does away with the common thickness and width.
    pub(crate) fn over(&self, common: &StickKeys) -> StickKeys {
        let resized = self.size.is_some();
        StickKeys {
            span: self.span.clone(),
            wood: self.wood.clone().or_else(|| common.wood.clone()),
            size: self.size.clone().or_else(|| common.size.clone()),
            thickness: self.thickness.clone().or_else(|| common.thickness.clone().filter(|_| !resized)),
            width: self.width.clone().or_else(|| common.width.clone().filter(|_| !resized)),
            ripped: self.ripped.clone().or_else(|| common.ripped.clone()),
            incised: self.incised.clone().or_else(|| common.incised.clone()),
            measured: self.measured.clone().or_else(|| common.measured.clone()),
            unread_size: self.unread_size || common.unread_size,
        }
    }
}

/// `[platform]`
#[derive(Clone, Debug)]
pub struct PlatformKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// Along the rails, clear between end supports.
    pub length: Option<Typed<Length>>,
    /// Clear between rails.
    pub width: Option<Typed<Length>>,
    /// Slat top above floor.
    pub height: Option<Typed<Length>>,
    /// The side people climb in from; both when not said.
    pub entry: Option<Typed<Side>>,
}

/// `[mattress]`
#[derive(Clone, Debug)]
pub struct MattressKeys {
    /// Thickness.
    pub thickness: Option<Typed<Length>>,
    /// Weight.
    pub weight: Option<Typed<Mass>>,
}

/// `[[sleeper]]` or `[visitor]`
#[derive(Clone, Debug)]
pub struct PersonKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// Weight; `None` inside when the brief says `"none"`.
    pub weight: Option<Typed<Option<Mass>>>,
    /// A preset from the table of occupants.
    pub occupant: Option<Typed<String>>,
    /// Body length.
    pub height: Option<Typed<Length>>,
    /// So many alike.
    pub count: Option<Typed<usize>>,
    /// Age in years.
    pub age: Option<Typed<usize>>,
}

/// `[slats]`
#[derive(Clone, Debug)]
pub struct SlatKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// Flat or on edge.
    pub lay: Option<Typed<LayWord>>,
    /// How many.
    pub count: Option<Typed<usize>>,
    /// Largest gap between them.
    pub gap: Option<Typed<Length>>,
    /// Screwed down at each end.
    pub fixed: Option<Typed<bool>>,
    /// How much of each end rests on the cleat.
    pub bearing: Option<Typed<Length>>,
}

/// `declared = { … }`: what a screw's maker declares of it after EN 14592
#[derive(Clone, Debug)]
pub struct DeclaredKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// `fax,k`, withdrawal strength.
    pub withdrawal: Option<Typed<Stress>>,
    /// `fhead,k`, pull-through strength of the head.
    pub head: Option<Typed<Stress>>,
    /// `dh`, diameter of the head.
    pub head_diameter: Option<Typed<Length>>,
    /// `ρa`, the density both strengths were found at.
    pub density: Option<Typed<MassDensity>>,
    /// `ftens,k`, tension capacity.
    pub tension: Option<Typed<Force>>,
    /// `My,k`, yield moment.
    pub yield_moment: Option<Typed<BendingMoment>>,
}

/// `screws = { screw | lag, pitch, first }`
#[derive(Clone, Debug)]
pub struct ScrewRowKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// A wood screw.
    pub screw: Option<Typed<String>>,
    /// A lag screw.
    pub lag: Option<Typed<String>>,
    /// From screw to screw.
    pub pitch: Option<Typed<Length>>,
    /// From the end to the first screw.
    pub first: Option<Typed<Length>>,
    /// From the cleat's lower edge up to the screw line.
    pub up: Option<Typed<Length>>,
    /// What the maker declares of the screw.
    pub declared: Option<DeclaredKeys>,
}

/// `[cleats]`
#[derive(Clone, Debug)]
pub struct CleatKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// From the rail's lower edge up to the cleat's.
    pub rise: Option<Typed<Length>>,
    /// Screws into the rail.
    pub screws: Option<ScrewRowKeys>,
}

/// `ends = { joint, screw | lag, count, into, … }`
#[derive(Clone, Debug)]
pub struct EndKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// What holds the end.
    pub joint: Option<Typed<JointWord>>,
    /// A wood screw.
    pub screw: Option<Typed<String>>,
    /// A lag screw.
    pub lag: Option<Typed<String>>,
    /// A bolt.
    pub bolt: Option<Typed<String>>,
    /// The washers under its head and nut.
    pub washer: Option<WasherKeys>,
    /// How many.
    pub count: Option<Typed<usize>>,
    /// True when the screws run along the grain of the piece that holds their threads.
    pub into_end_grain: Option<Typed<bool>>,
    /// Thickness of the post that bolts pass through, or the post or board that screws do into end grain.
    pub through: Option<Typed<Length>>,
    /// From the rail's edge to the nearest screw.
    pub edge: Option<Typed<Length>>,
    /// From the rail's end to the screws.
    pub end: Option<Typed<Length>>,
    /// Length of the rail's end that bears.
    pub bearing: Option<Typed<Length>>,
    /// How deep a shoulder for the rail is cut into the post.
    pub depth: Option<Typed<Length>>,
    /// What is cut out of the rail's lower edge where it bears.
    pub cut: Option<Typed<Length>>,
    /// Wood of the post.
    pub post: Option<WoodKeys>,
    /// What the maker declares of the screw.
    pub declared: Option<DeclaredKeys>,
}

/// `washer = { across, thickness }`
#[derive(Clone, Debug)]
pub struct WasherKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// Its diameter.
    pub across: Option<Typed<Length>>,
    /// How thick it is.
    pub thickness: Option<Typed<Length>>,
}

/// `studs = { lag | screw, pitch, … }`
#[derive(Clone, Debug)]
pub struct StudKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// A lag screw.
    pub lag: Option<Typed<String>>,
    /// A wood screw.
    pub screw: Option<Typed<String>>,
    /// From stud to stud.
    pub pitch: Option<Typed<Length>>,
    /// From the rail's head end to the first stud.
    pub first: Option<Typed<Length>>,
    /// Screws in each stud.
    pub count: Option<Typed<usize>>,
    /// Wood of the studs.
    pub wood: Option<WoodKeys>,
    /// What the maker declares of the screw.
    pub declared: Option<DeclaredKeys>,
    /// Thickness of the spacers that keep the rail off the wall.
    pub gap: Option<Typed<Length>>,
    /// True when the screws go into a plate of the wall, which lies along the rail.
    pub into_plate: Option<Typed<bool>>,
    /// From the rail's lower edge up to the lowest screw of each stud.
    pub up: Option<Typed<Length>>,
}

/// `[rails]`, and what `[rails.left]` and `[rails.right]` change
#[derive(Clone, Debug)]
pub struct RailKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// End joints.
    pub ends: Option<EndKeys>,
    /// Wall studs.
    pub studs: Option<StudKeys>,
    /// What differs on the left.
    pub left: Option<Box<RailKeys>>,
    /// What differs on the right.
    pub right: Option<Box<RailKeys>>,
}

/// `[end_rails]`
#[derive(Clone, Debug)]
pub struct EndRailKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// End joints.
    pub ends: Option<EndKeys>,
    /// From what holds an end rail's end, clear, to the side rail's outer face.
    pub inset: Option<Typed<Length>>,
    /// From an end rail's lower edge up to the lower edge of a rail that hangs on it.
    pub rise: Option<Typed<Length>>,
}

/// How a post's top is kept from moving sideways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TopWord {
    /// Not at all: it sways with the platform.
    Free,
    /// By braces or panels.
    Braced,
    /// By a wall that the platform is fixed to.
    Wall,
}

/// `[posts]`
#[derive(Clone, Debug)]
pub struct PostKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// From the floor to where the rail is held.
    pub length: Option<Typed<Length>>,
    /// What holds the top.
    pub top: Option<Typed<TopWord>>,
}

/// `legs = { wood, size, count | at, … }` under a centre beam
#[derive(Clone, Debug)]
pub struct LegKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// So many, evenly between the beam's ends.
    pub count: Option<Typed<usize>>,
    /// From the head to each.
    pub at: Option<Typed<Vec<Length>>>,
    /// From the floor to the beam.
    pub length: Option<Typed<Length>>,
    /// What holds the top.
    pub top: Option<Typed<TopWord>>,
}

/// `[centre_beam]`
#[derive(Clone, Debug)]
pub struct BeamKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// From the left rail to the beam's middle.
    pub at: Option<Typed<Length>>,
    /// End joints.
    pub ends: Option<EndKeys>,
    /// Legs between its ends.
    pub legs: Option<LegKeys>,
    /// Whether the slats are screwed down to it.
    pub fixed: Option<Typed<bool>>,
}

/// `[bracing]`
#[derive(Clone, Debug)]
pub struct BracingKeys {
    /// Where it stands.
    pub span: Range<usize>,
    /// Sides that are fixed to a wall.
    pub wall: Option<Typed<Vec<Edge>>>,
    /// Knee braces from post to rail.
    pub knees: Option<KneeKeys>,
    /// Crossed diagonals from post to post.
    pub diagonals: Option<DiagonalKeys>,
    /// Sides closed by a panel.
    pub panels: Option<Typed<Vec<Edge>>>,
}

/// `knees = { wood, size, rise, run, screws }`
#[derive(Clone, Debug)]
pub struct KneeKeys {
    /// Wood and size.
    pub stick: StickKeys,
    /// From where the post holds the rail down to the brace.
    pub rise: Option<Typed<Length>>,
    /// From the post along the rail to the brace.
    pub run: Option<Typed<Length>>,
    /// What holds each end.
    pub screws: Option<FixingKeys>,
}

/// `diagonals = { sides, wood, size, screws }`
#[derive(Clone, Debug)]
pub struct DiagonalKeys {
    /// The sides they stand on.
    pub sides: Option<Typed<Vec<Edge>>>,
    /// Wood and size.
    pub stick: StickKeys,
    /// What holds each end.
    pub screws: Option<FixingKeys>,
}

/// `[cases]`: a case dropped or changed
#[derive(Clone, Debug)]
pub struct CaseKeys {
    /// The case's name.
    pub name: &'static str,
    /// Where it stands.
    pub span: Range<usize>,
    /// Left out.
    pub drop: Option<Typed<bool>>,
    /// Another factor on weight.
    pub factor: Option<Typed<f64>>,
    /// Another area load, for the code uniform load.
    pub load: Option<Typed<Stress>>,
    /// Another force, for the code point load.
    pub force: Option<Typed<Force>>,
    /// Another side of the square it covers.
    pub patch: Option<Typed<Length>>,
    /// A set of proof loads.
    pub set: Option<Typed<String>>,
    /// Whether it decides the verdict; what is only predicted does not.
    pub decides: Option<Typed<bool>>,
}

impl CaseKeys {
    /// A case left out.
    pub(crate) fn dropped(name: &'static str, span: Range<usize>) -> CaseKeys {
        let drop = Some(Typed { value: true, span: span.clone() });
        CaseKeys { name, span, drop, factor: None, load: None, force: None, patch: None, set: None, decides: None }
    }
}

/// A whole brief as typed.
#[derive(Clone, Debug)]
pub struct Brief {
    /// Title.
    pub title: Option<Typed<String>>,
    /// Units of the report.
    pub units: UnitSystem,
    /// Rules.
    pub rules: Typed<RuleFamily>,
    /// True when the wood is damp in use.
    pub damp: bool,
    /// Whose nationally determined parameters the ec5 rules take.
    pub national: National,
    /// Whose rules for openings, when the brief says; `None` inside for nobody's.
    pub jurisdiction: Option<Option<Jurisdiction>>,
    /// `[platform]`
    pub platform: Option<PlatformKeys>,
    /// `[mattress]`
    pub mattress: Option<MattressKeys>,
    /// `[[sleeper]]`
    pub sleepers: Vec<PersonKeys>,
    /// `[visitor]`
    pub visitor: Option<PersonKeys>,
    /// `[slats]`
    pub slats: Option<SlatKeys>,
    /// `[cleats]`
    pub cleats: Option<CleatKeys>,
    /// `[rails]`
    pub rails: Option<RailKeys>,
    /// `[end_rails]`
    pub end_rails: Option<EndRailKeys>,
    /// `[centre_beam]`
    pub centre_beam: Option<BeamKeys>,
    /// `[posts]`
    pub posts: Option<PostKeys>,
    /// `[guard]`
    pub guard: Option<GuardKeys>,
    /// `[ladder]`
    pub ladder: Option<LadderKeys>,
    /// `[bracing]`
    pub bracing: Option<BracingKeys>,
    /// `[cases]`
    pub cases: Vec<CaseKeys>,
    /// Deflection limit of slats, span over this.
    pub slat_limit: Option<Typed<f64>>,
    /// Deflection limit of rails, span over this.
    pub rail_limit: Option<Typed<f64>>,
    /// What is wrong so far.
    pub mistakes: Mistakes,
}
