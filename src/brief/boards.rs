//! A list of boards that were hung with a weight, as typed.

use super::fields::Typed;
use super::keys::{LayWord, RuleFamily, StickKeys};
use super::mistake::Mistakes;
use crate::quantity::{Length, Mass, UnitSystem};

/// Where the weight hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadWord {
    /// In the middle of the span.
    Middle,
    /// Half of it at each third.
    ThirdPoints,
}

/// What a board may say, and all of them together at the top of the file.
#[derive(Clone, Debug, Default)]
pub struct BoardKeys {
    /// What it is called.
    pub name: Option<Typed<String>>,
    /// Wood and size.
    pub stick: StickKeys,
    /// Flat or on edge.
    pub lay: Option<Typed<LayWord>>,
    /// From trestle to trestle.
    pub span: Option<Typed<Length>>,
    /// Where the weight hangs.
    pub load: Option<Typed<LoadWord>>,
    /// The weight.
    pub weight: Option<Typed<Mass>>,
    /// How far off the weight may be.
    pub weight_error: Option<Typed<Mass>>,
    /// How far the middle dips when the weight is hung on.
    pub dip: Option<Typed<Length>>,
    /// How far off the reading of the dip may be.
    pub dip_error: Option<Typed<Length>>,
    /// Keys that stand there and cannot be read: mistakes of their own, and not missing.
    pub unread: Vec<&'static str>,
}

/// A list of boards as typed.
#[derive(Clone, Debug)]
pub struct Boards {
    /// Units of the answer.
    pub units: UnitSystem,
    /// The family of rules whose tables the wood is looked up in.
    pub rules: RuleFamily,
    /// What all have in common, unless a board says otherwise.
    pub all: BoardKeys,
    /// The boards.
    pub boards: Vec<BoardKeys>,
    /// What is wrong so far.
    pub mistakes: Mistakes,
}

impl Default for Boards {
    fn default() -> Boards {
        Boards {
            units: UnitSystem::Us,
            rules: RuleFamily::AllowableStress,
            all: BoardKeys::default(),
            boards: Vec::new(),
            mistakes: Mistakes::default(),
        }
    }
}
