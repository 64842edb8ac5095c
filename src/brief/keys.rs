//! The keys a brief may hold, table by table.

use std::ops::Range;

use toml::de::{DeTable, DeValue};

use super::fields::{Fields, Typed};
use super::mistake::Mistakes;
use super::syntax;
use crate::quantity::{self, Length, Mass, Stress, UnitSystem};

/// The family of rules a platform is checked by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleFamily {
    /// US allowable stress design.
    AllowableStress,
    /// EN 1995-1-1.
    LimitState,
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
    /// The rail bears on a post, a block or a notch.
    Bearing,
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
}

/// Wood and size, the same for every member.
#[derive(Clone, Debug)]
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
    /// A size stands there that cannot be read: a mistake of its own, not a missing size.
    pub unread_size: bool,
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
    /// How many.
    pub count: Option<Typed<usize>>,
    /// True when the screws run along the grain of the piece that holds their threads.
    pub into_end_grain: Option<Typed<bool>>,
    /// Thickness of the post or board the screws pass through into end grain.
    pub through: Option<Typed<Length>>,
    /// From the rail's edge to the nearest screw.
    pub edge: Option<Typed<Length>>,
    /// From the rail's end to the screws.
    pub end: Option<Typed<Length>>,
    /// Length of the rail's end that bears.
    pub bearing: Option<Typed<Length>>,
    /// Wood of the post.
    pub post: Option<WoodKeys>,
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
    /// `[cases]`
    pub cases: Vec<CaseKeys>,
    /// Deflection limit of slats, span over this.
    pub slat_limit: Option<Typed<f64>>,
    /// Deflection limit of rails, span over this.
    pub rail_limit: Option<Typed<f64>>,
    /// What is wrong so far.
    pub mistakes: Mistakes,
}

/// The keys under `[cases]`, in the order the cases are run.
pub(crate) const CASE_KEYS: [&str; 9] =
    ["lying", "sitting", "row", "kneeling", "climbing", "dropping", "jumping", "uniform", "bare"];

impl Brief {
    /// Reads a brief. What cannot be read is in [`Brief::mistakes`].
    pub fn read(text: &str) -> Brief {
        let (document, errors) = DeTable::parse_recoverable(text);
        let mut m = syntax::mistakes(text, &errors);
        // What a broken line was meant to say is anybody's guess, and so is what would be missing without it.
        if !m.is_empty() {
            return Brief::nothing(m);
        }
        if document.get_ref().is_empty() {
            let help = "`slatwright begin` prints a brief to start from";
            m.add(&(0..0), "the brief is empty", "nothing is written here", help);
            return Brief::nothing(m);
        }
        let mut top = Fields::new("", document.get_ref(), 0..first_line(text));
        let title = top.text("title", &mut m);
        let units = top.choice("units", &mut m, &[("us", UnitSystem::Us), ("metric", UnitSystem::Metric)]);
        let rules =
            top.choice("rules", &mut m, &[("asd", RuleFamily::AllowableStress), ("ec5", RuleFamily::LimitState)]);
        let damp = top.choice("moisture", &mut m, &[("dry", false), ("damp", true)]);
        let platform = top.table("platform", &mut m).map(|f| platform(f, &mut m));
        let mattress = top.table("mattress", &mut m).map(|mut f| {
            let keys = MattressKeys { thickness: f.length("thickness", &mut m), weight: f.mass("weight", &mut m) };
            f.missing("thickness", &mut m, "write thickness = \"8 in\"; it spreads the load over the slats");
            f.missing("weight", &mut m, "write weight = \"70 lb\"; `slatwright timber mattress` lists usual ones");
            f.finish(&mut m);
            keys
        });
        let sleepers = top.tables("sleeper", &mut m).into_iter().map(|f| person(f, &mut m)).collect::<Vec<_>>();
        let visitor = top.table("visitor", &mut m).map(|f| person(f, &mut m));
        let slats = top.table("slats", &mut m).map(|f| slats(f, &mut m));
        let cleats = top.table("cleats", &mut m).map(|f| cleats(f, &mut m));
        let rails = top.table("rails", &mut m).map(|f| rails(f, &mut m, true));
        let cases = top.table("cases", &mut m).map(|f| cases(f, &mut m)).unwrap_or_default();
        let (slat_limit, rail_limit) = top.table("limits", &mut m).map_or((None, None), |f| limits(f, &mut m));
        for (key, example) in [
            ("platform", "write [platform] with length = \"80 in\" and width = \"60 in\""),
            ("sleeper", "write [[sleeper]] with weight = \"180 lb\", once for each person"),
            ("slats", "write [slats] with wood = \"…\", size = \"2x4\" and count = 14"),
            ("cleats", "write [cleats] with wood, size and screws = { … }"),
            ("rails", "write [rails] with wood, size and ends = { … } or studs = { … }"),
        ] {
            top.missing(key, &mut m, example);
        }
        top.finish(&mut m);
        let rules = rules.unwrap_or(Typed { value: RuleFamily::AllowableStress, span: 0..first_line(text) });
        Brief {
            title,
            units: units.map_or(UnitSystem::Us, |u| u.value),
            rules,
            damp: damp.is_some_and(|d| d.value),
            platform,
            mattress,
            sleepers,
            visitor,
            slats,
            cleats,
            rails,
            cases,
            slat_limit,
            rail_limit,
            mistakes: m,
        }
    }
}

impl Brief {
    /// A brief of which nothing can be read.
    fn nothing(mistakes: Mistakes) -> Brief {
        Brief {
            title: None,
            units: UnitSystem::Us,
            rules: Typed { value: RuleFamily::AllowableStress, span: 0..0 },
            damp: false,
            platform: None,
            mattress: None,
            sleepers: Vec::new(),
            visitor: None,
            slats: None,
            cleats: None,
            rails: None,
            cases: Vec::new(),
            slat_limit: None,
            rail_limit: None,
            mistakes,
        }
    }
}

fn first_line(text: &str) -> usize {
    text.find('\n').unwrap_or(text.len())
}

fn platform(mut f: Fields<'_, '_>, m: &mut Mistakes) -> PlatformKeys {
    let keys = PlatformKeys {
        span: f.span().clone(),
        length: f.length("length", m),
        width: f.length("width", m),
        height: f.length("height", m),
        entry: f.choice("entry", m, &[("left", Side::Left), ("right", Side::Right)]),
    };
    f.missing("length", m, "write length = \"80 in\", clear between the end supports");
    f.missing("width", m, "write width = \"60 in\", clear between the rails");
    f.finish(m);
    keys
}

fn person(mut f: Fields<'_, '_>, m: &mut Mistakes) -> PersonKeys {
    let weight = match f.raw("weight").map(|v| (v.get_ref(), v.span())) {
        Some((DeValue::String(s), span)) if s == "none" => Some(Typed { value: None, span }),
        _ => f.mass("weight", m).map(|t| Typed { value: Some(t.value), span: t.span }),
    };
    let keys = PersonKeys {
        span: f.span().clone(),
        weight,
        occupant: f.text("occupant", m),
        height: f.length("height", m),
        count: f.count("count", m),
    };
    if !f.has("occupant") {
        f.missing("weight", m, "write weight = \"180 lb\", or occupant = \"adult-95\" for a preset");
    } else if f.has("weight") {
        let span = keys.occupant.as_ref().map_or(f.span().clone(), |o| o.span.clone());
        m.add(&span, "a person has either `weight` or `occupant`", "both are given", "leave one of them out");
    }
    f.finish(m);
    keys
}

/// The keys of wood and size that every member shares. The caller finishes the table.
fn stick(f: &mut Fields<'_, '_>, m: &mut Mistakes) -> StickKeys {
    StickKeys {
        span: f.span().clone(),
        wood: wood(f, "wood", m),
        size: f.text("size", m),
        thickness: f.length("thickness", m),
        width: f.length("width", m),
        ripped: f.flag("ripped", m),
        incised: f.flag("incised", m),
        unread_size: false,
    }
}

/// Notes whether a size was meant and not read, once the caller has asked for all keys of the table.
fn note_unread_size(f: &Fields<'_, '_>, s: &mut StickKeys) {
    s.unread_size = f.unread("size", &s.size) || f.unread("thickness", &s.thickness) || f.unread("width", &s.width);
}

fn wood(f: &mut Fields<'_, '_>, key: &'static str, m: &mut Mistakes) -> Option<WoodKeys> {
    let v = f.raw(key)?;
    match v.get_ref() {
        DeValue::String(_) => f.text(key, m).map(WoodKeys::Named),
        DeValue::Table(t) => {
            let mut w = Fields::new("wood", t, v.span());
            let knot = match w.raw("knot").map(|v| (v.get_ref(), v.span())) {
                Some((DeValue::String(s), span)) if s == "none" => Some(Typed { value: None, span }),
                _ => w.length("knot", m).map(|k| Typed { value: Some(k.value), span: k.span }),
            };
            let slope = w.text("slope_of_grain", m).and_then(|t| match quantity::ratio_to(&t.value) {
                Ok(value) => Some(Typed { value, span: t.span }),
                Err(_) => {
                    m.add(
                        &t.span,
                        "`slope_of_grain` must be a slope",
                        "",
                        "write it as \"1:12\", one across in twelve along",
                    );
                    None
                }
            });
            let (species, grade) = (w.text("species", m), w.text("grade", m));
            let (unread_knot, unread_slope) = (w.unread("knot", &knot), w.unread("slope_of_grain", &slope));
            if !w.has("knot") && !w.has("slope_of_grain") {
                w.missing("grade", m, "write the grade on the stamp, such as grade = \"no2\", or grade = \"ungraded\"");
            }
            w.missing("species", m, "write species = \"yellow-poplar\"; `slatwright timber` lists them");
            w.finish(m);
            Some(WoodKeys::Described { span: v.span(), species, grade, knot, slope, unread_knot, unread_slope })
        }
        _ => {
            m.add(
                &v.span(),
                format!("`{key}` must name a wood"),
                "",
                "write \"spruce-pine-fir no2\" for graded lumber, or \
                 { species = \"yellow-poplar\", grade = \"ungraded\", knot = \"1/2 in\", slope_of_grain = \"1:12\" }",
            );
            None
        }
    }
}

fn slats(mut f: Fields<'_, '_>, m: &mut Mistakes) -> SlatKeys {
    let mut keys = SlatKeys {
        stick: stick(&mut f, m),
        lay: f.choice("lay", m, &[("flat", LayWord::Flat), ("edge", LayWord::Edge)]),
        count: f.count("count", m),
        gap: f.length("gap", m),
        fixed: f.flag("fixed", m),
        bearing: f.length("bearing", m),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
    if !f.unread("gap", &keys.gap) && keys.gap.is_none() {
        f.missing("count", m, "write count = 14, or gap = \"2-1/2 in\"");
    }
    f.finish(m);
    keys
}

fn screw_row(mut f: Fields<'_, '_>, m: &mut Mistakes) -> ScrewRowKeys {
    let keys = ScrewRowKeys {
        span: f.span().clone(),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        up: f.length("up", m),
    };
    if keys.lag.is_none() && !f.unread("lag", &keys.lag) {
        f.missing("screw", m, "write screw = \"#10 x 3 in\", or lag = \"1/4 x 3 in\"");
    }
    f.missing("pitch", m, "write pitch = \"8 in\", from screw to screw");
    f.finish(m);
    keys
}

fn cleats(mut f: Fields<'_, '_>, m: &mut Mistakes) -> CleatKeys {
    let mut keys = CleatKeys {
        stick: stick(&mut f, m),
        rise: f.length("rise", m),
        screws: f.table("screws", m).map(|s| screw_row(s, m)),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
    f.missing("screws", m, "write screws = { screw = \"#10 x 3 in\", pitch = \"8 in\", first = \"3 in\" }");
    f.finish(m);
    keys
}

fn ends(mut f: Fields<'_, '_>, m: &mut Mistakes) -> EndKeys {
    let joints = [
        ("screws", JointWord::Screws),
        ("lags", JointWord::Lags),
        ("bearing", JointWord::Bearing),
        ("pocket screws", JointWord::PocketScrews),
        ("glue", JointWord::Glue),
    ];
    let keys = EndKeys {
        span: f.span().clone(),
        joint: f.choice("joint", m, &joints),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        count: f.count("count", m),
        into_end_grain: f.choice("into", m, &[("side grain", false), ("end grain", true)]),
        through: f.length("through", m),
        edge: f.length("edge", m),
        end: f.length("end", m),
        bearing: f.length("bearing", m),
        post: wood(&mut f, "post", m),
    };
    f.missing("joint", m, "write joint = \"screws\", \"lags\", \"bearing\", \"pocket screws\" or \"glue\"");
    let needs: &[(&str, &str)] = match keys.joint.as_ref().map(|j| j.value) {
        Some(JointWord::Screws) => &[
            ("screw", "write screw = \"#14 x 3 in\""),
            ("count", "write count = 3"),
            ("into", "write into = \"side grain\" when the threads cross the grain of the piece they hold in"),
        ],
        Some(JointWord::Lags) => &[
            ("lag", "write lag = \"1/4 x 3 in\""),
            ("count", "write count = 2"),
            ("into", "write into = \"side grain\" when the threads cross the grain of the piece they hold in"),
        ],
        Some(JointWord::PocketScrews) => &[("screw", "write screw = \"#8 x 2-1/2 in\""), ("count", "write count = 3")],
        Some(JointWord::Bearing) => &[("bearing", "write bearing = \"1-1/2 in\", the length of rail that rests")],
        Some(JointWord::Glue) | None => &[],
    };
    for (key, help) in needs {
        f.missing(key, m, help);
    }
    f.finish(m);
    keys
}

fn studs(mut f: Fields<'_, '_>, m: &mut Mistakes) -> StudKeys {
    let keys = StudKeys {
        span: f.span().clone(),
        lag: f.text("lag", m),
        screw: f.text("screw", m),
        pitch: f.length("pitch", m),
        first: f.length("first", m),
        count: f.count("count", m),
        wood: wood(&mut f, "wood", m),
    };
    if keys.screw.is_none() && !f.unread("screw", &keys.screw) {
        f.missing("lag", m, "write lag = \"1/4 x 5 in\"");
    }
    f.missing("pitch", m, "write pitch = \"16 in\", from stud to stud");
    f.finish(m);
    keys
}

fn rails(mut f: Fields<'_, '_>, m: &mut Mistakes, base: bool) -> RailKeys {
    let mut stick = stick(&mut f, m);
    let ends = f.table("ends", m).map(|e| ends(e, m));
    let studs = f.table("studs", m).map(|s| studs(s, m));
    let (mut left, mut right) = (None, None);
    if base {
        left = f.table("left", m).map(|t| Box::new(rails(t, m, false)));
        right = f.table("right", m).map(|t| Box::new(rails(t, m, false)));
        f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
        let held = |side: &Option<Box<RailKeys>>| side.as_ref().is_some_and(|s| s.ends.is_some() || s.studs.is_some());
        if !(held(&left) && held(&right)) && studs.is_none() && !f.unread("studs", &studs) {
            f.missing(
                "ends",
                m,
                "write ends = { joint = \"screws\", screw = \"#14 x 3 in\", count = 3, into = \"side grain\" }, \
                 or studs = { … } for a rail on a wall",
            );
        }
    }
    note_unread_size(&f, &mut stick);
    f.finish(m);
    RailKeys { stick, ends, studs, left, right }
}

fn cases(mut f: Fields<'_, '_>, m: &mut Mistakes) -> Vec<CaseKeys> {
    let mut out = Vec::new();
    for name in CASE_KEYS {
        let Some(mut c) = f.table(name, m) else { continue };
        let span = c.span().clone();
        let drop = c.flag("drop", m);
        let factor = if name == "uniform" { None } else { c.number("factor", m) };
        let load = if name == "uniform" { c.pressure("load", m) } else { None };
        c.finish(m);
        out.push(CaseKeys { name, span, drop, factor, load });
    }
    f.finish(m);
    out
}

fn limits(mut f: Fields<'_, '_>, m: &mut Mistakes) -> (Option<Typed<f64>>, Option<Typed<f64>>) {
    let mut read = |key: &'static str, m: &mut Mistakes| {
        let t = f.text(key, m)?;
        match quantity::ratio_to(&t.value) {
            Ok(value) => Some(Typed { value, span: t.span }),
            Err(_) => {
                m.add(&t.span, format!("`{key}` must be a part of the span"), "", "write it as \"L/150\"");
                None
            }
        }
    };
    let out = (read("slat", m), read("rail", m));
    f.finish(m);
    out
}
