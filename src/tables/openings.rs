//! Rules for guards, openings and heights of beds off the floor, by jurisdiction.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::row::{Row, Rows, Units, Wrong, ratio};
use crate::quantity::Length;
use crate::source::Provenance;

/// Whose rules for openings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Jurisdiction {
    /// The United States.
    Us,
    /// Europe.
    Eu,
    /// Australia.
    Au,
}

impl Jurisdiction {
    /// Whose rules, in words.
    pub fn place(self) -> &'static str {
        match self {
            Jurisdiction::Us => "United States law",
            Jurisdiction::Eu => "European standards, as others repeat them",
            Jurisdiction::Au => "Australian mandatory standard",
        }
    }

    /// Its key.
    pub fn word(self) -> &'static str {
        match self {
            Jurisdiction::Us => "us",
            Jurisdiction::Eu => "eu",
            Jurisdiction::Au => "au",
        }
    }
}

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
pub enum Measured {
    /// How many of the two long sides have a guard.
    #[serde(rename = "guarded sides")]
    GuardedSides,
    /// How many of the four edges have a guard.
    #[serde(rename = "guarded edges")]
    GuardedEdges,
    /// How many long sides have a guard from end to end.
    #[serde(rename = "guard without a break")]
    WithoutBreak,
    /// From the mattress's top to the guard's.
    #[serde(rename = "guard above the mattress")]
    AboveMattress,
    /// From the slats' top to the guard's.
    #[serde(rename = "guard above the slats")]
    AboveSlats,
    /// Clear gap between the guard's members.
    #[serde(rename = "gap in the guard")]
    InGuard,
    /// Clear gap from the slats' top to the guard's lowest member.
    #[serde(rename = "gap under the guard")]
    UnderGuard,
    /// Clear gap between slats.
    #[serde(rename = "gap between slats")]
    BetweenSlats,
    /// Clear width of the way in, wherever it is.
    #[serde(rename = "way in")]
    WayIn,
    /// Clear width of a way in at the head or the foot.
    #[serde(rename = "way in at an end")]
    WayInAtEnd,
    /// From one rung to the next.
    #[serde(rename = "rung to rung")]
    RungToRung,
    /// From the floor to the first rung.
    #[serde(rename = "first rung above the floor")]
    FirstRung,
    /// Depth of a flat tread.
    #[serde(rename = "tread from front to back")]
    TreadDepth,
    /// Clear width between the stringers.
    #[serde(rename = "ladder's clear width")]
    LadderWidth,
    /// Age in years.
    #[serde(rename = "age of the youngest")]
    Age,
}

impl Measured {
    /// Its name in the table and in output.
    pub fn name(self) -> &'static str {
        match self {
            Measured::GuardedSides => "guarded sides",
            Measured::GuardedEdges => "guarded edges",
            Measured::WithoutBreak => "guard without a break",
            Measured::AboveMattress => "guard above the mattress",
            Measured::AboveSlats => "guard above the slats",
            Measured::InGuard => "gap in the guard",
            Measured::UnderGuard => "gap under the guard",
            Measured::BetweenSlats => "gap between slats",
            Measured::WayIn => "way in",
            Measured::WayInAtEnd => "way in at an end",
            Measured::RungToRung => "rung to rung",
            Measured::FirstRung => "first rung above the floor",
            Measured::TreadDepth => "tread from front to back",
            Measured::LadderWidth => "ladder's clear width",
            Measured::Age => "age of the youngest",
        }
    }

    /// Whether it is a number and not a length.
    pub fn counted(self) -> bool {
        matches!(self, Measured::GuardedSides | Measured::GuardedEdges | Measured::WithoutBreak | Measured::Age)
    }
}

/// How a measure is held: metres, or a plain number where [`Measured::counted`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// No less.
    AtLeast(f64),
    /// No more.
    AtMost(f64),
    /// Less: at the very size it fails.
    LessThan(f64),
    /// No more than the one, or no less than the other.
    NotBetween(f64, f64),
}

/// What the height is measured to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HeightOf {
    /// The slats' underside.
    Underside,
    /// The slats' top.
    Top,
}

/// One rule.
#[derive(Clone, Debug, PartialEq)]
pub struct OpeningRule {
    /// Whose.
    pub jurisdiction: Jurisdiction,
    /// What is measured.
    pub what: Measured,
    /// How it is held.
    pub held: Held,
    /// From which height of the platform it applies.
    pub above: Length,
    /// At that height already.
    pub from: bool,
    /// What that height is measured to.
    pub height_of: HeightOf,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    jurisdiction: Jurisdiction,
    what: Measured,
    at_least: Option<f64>,
    at_most: Option<f64>,
    less_than: Option<f64>,
    not_between: Option<(f64, f64)>,
    above: f64,
    #[serde(default)]
    from: bool,
    height_of: HeightOf,
}

impl Row for OpeningRule {
    const ARRAY: &'static str = "opening";
    type Printed = Printed;

    fn new(p: Printed, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let size = |name: &str, v: f64| {
            if p.what.counted() {
                return ratio(name, v, (1.0, 99.0)).map(|r| r.value);
            }
            units.length(name, v, (0.1, 60.0)).map(|l| l.value)
        };
        let held = match (p.at_least, p.at_most, p.less_than, p.not_between) {
            (Some(v), None, None, None) => Held::AtLeast(size("at_least", v)?),
            (None, Some(v), None, None) => Held::AtMost(size("at_most", v)?),
            (None, None, Some(v), None) => Held::LessThan(size("less_than", v)?),
            (None, None, None, Some((low, high))) if low < high => {
                Held::NotBetween(size("not_between", low)?, size("not_between", high)?)
            }
            _ => {
                let help = "write one of at_least, at_most, less_than or not_between = [less, more]";
                return Err(Wrong::new("an opening rule holds its measure in one way", help));
            }
        };
        let above = units.length("above", p.above, (4.0, 120.0))?;
        let (jurisdiction, what, from, height_of) = (p.jurisdiction, p.what, p.from, p.height_of);
        Ok(OpeningRule { jurisdiction, what, held, above, from, height_of, provenance })
    }

    fn key(&self) -> String {
        let held = match self.held {
            Held::AtLeast(_) => "at least",
            Held::AtMost(_) | Held::LessThan(_) => "at most",
            Held::NotBetween(..) => "not between",
        };
        format!("{} {} {held}", self.jurisdiction.word(), self.name())
    }
}

impl OpeningRule {
    /// Its name: `gap in the guard`, or `gap in the guard, 25 to 60 mm`.
    pub fn name(&self) -> String {
        match self.held {
            Held::NotBetween(low, high) => format!("{}, {:.0} to {:.0} mm", self.what.name(), low * 1e3, high * 1e3),
            _ => self.what.name().to_owned(),
        }
    }
}

/// The rules for openings.
#[derive(Clone, Debug, Default)]
pub struct Openings {
    rules: Vec<OpeningRule>,
}

impl Openings {
    /// Every rule.
    pub fn rules(&self) -> &[OpeningRule] {
        &self.rules
    }
}

impl Table for Openings {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/openings.packed"));
    const ARRAYS: &'static [&'static str] = &["opening"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.rules);
    }

    fn entries(&self) -> Vec<Entry> {
        use crate::quantity::unit::metre;
        let entry = |r: &OpeningRule| {
            let entry = Entry::new("opening", r.key(), &r.provenance);
            let size = |entry: Entry, label: &str, v: f64| match r.what.counted() {
                true => entry.text(label, format!("{v}")),
                false => entry.fact(label, metre(v)),
            };
            let entry = match r.held {
                Held::AtLeast(v) => size(entry, "at least", v),
                Held::AtMost(v) => size(entry, "at most", v),
                Held::LessThan(v) => size(entry, "less than", v),
                Held::NotBetween(low, high) => size(size(entry, "not more than", low), "or not less than", high),
            };
            let of = match r.height_of {
                HeightOf::Underside => "the slats' underside is above",
                HeightOf::Top if r.from => "the slats' top is at or above",
                HeightOf::Top => "the slats' top is above",
            };
            entry.fact(format!("where {of}"), r.above)
        };
        self.rules.iter().map(entry).collect()
    }
}
