//! What a case gives a function, by the symbols of its source.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use slatwright::derivation::{Worked, given};
use slatwright::quantity::unit::{metre, newton, newton_metre, newton_per_metre, pascal};
use slatwright::quantity::{BendingMoment, Force, Length, LineLoad, MassDensity, Measured, Ratio, Stress, number};
use slatwright::rules::RuleError;
use uom::si::mass_density::kilogram_per_cubic_meter;

use crate::printed;

/// What a function answered: a value in SI units and the steps that led to it.
pub(crate) struct Reply {
    pub(crate) value: f64,
    pub(crate) steps: Vec<(String, f64)>,
}

pub(crate) type Answer = Result<Reply, RuleError>;

/// The answer of a function that always has one.
#[expect(clippy::unnecessary_wraps, reason = "one face for functions that may refuse and those that never do")]
pub(crate) fn sure<Q: Measured>(worked: Worked<Q>) -> Answer {
    let steps = worked.steps().iter().map(|s| (s.symbol.to_string(), s.value.si)).collect();
    Ok(Reply { value: worked.value.si(), steps })
}

/// The answer of a function that may refuse.
pub(crate) fn tried<Q: Measured>(worked: Result<Worked<Q>, RuleError>) -> Answer {
    worked.and_then(sure)
}

/// A value without a derivation.
#[expect(clippy::unnecessary_wraps, reason = "one face for functions that may refuse and those that never do")]
pub(crate) fn plain(value: f64) -> Answer {
    Ok(Reply { value, steps: Vec::new() })
}

/// Yes or no.
pub(crate) fn whether(yes: bool) -> Answer {
    plain(f64::from(u8::from(yes)))
}

/// What a case gives, and which of it was used.
pub(crate) struct Inputs {
    values: BTreeMap<String, String>,
    used: RefCell<BTreeSet<String>>,
}

impl Inputs {
    pub(crate) fn new(values: BTreeMap<String, String>) -> Self {
        Inputs { values, used: RefCell::default() }
    }

    /// What was given and not asked for: a symbol the function does not know.
    pub(crate) fn unused(&self) -> Vec<&str> {
        self.values.keys().filter(|k| !self.used.borrow().contains(*k)).map(String::as_str).collect()
    }

    pub(crate) fn has(&self, symbol: &str) -> bool {
        self.used.borrow_mut().insert(symbol.to_owned());
        self.values.contains_key(symbol)
    }

    /// A word; without one the case is broken.
    pub(crate) fn word(&self, symbol: &str) -> &str {
        assert!(self.has(symbol), "the case does not give {symbol:?}");
        &self.values[symbol]
    }

    /// A word, or what goes without saying.
    pub(crate) fn word_or<'a>(&'a self, symbol: &str, otherwise: &'a str) -> &'a str {
        if self.has(symbol) { &self.values[symbol] } else { otherwise }
    }

    /// One of some words.
    pub(crate) fn choice<T: Copy>(&self, symbol: &str, otherwise: &str, choices: &[(&str, T)]) -> T {
        let word = self.word_or(symbol, otherwise);
        let found = choices.iter().find(|(w, _)| *w == word);
        found.unwrap_or_else(|| panic!("{symbol} = {word:?} is none of its choices")).1
    }

    pub(crate) fn flag(&self, symbol: &str) -> bool {
        self.choice(symbol, "no", &[("yes", true), ("no", false)])
    }

    pub(crate) fn si(&self, symbol: &str) -> f64 {
        printed::given(self.word(symbol)).unwrap_or_else(|e| panic!("{symbol}: {e}"))
    }
    pub(crate) fn si_or(&self, symbol: &str, otherwise: f64) -> f64 {
        if self.has(symbol) { self.si(symbol) } else { otherwise }
    }
    pub(crate) fn count(&self, symbol: &str) -> u32 {
        self.word(symbol).parse().expect("a whole number")
    }

    pub(crate) fn ratio(&self, symbol: &str) -> Ratio {
        number(self.si(symbol))
    }
    pub(crate) fn length(&self, symbol: &str) -> Length {
        metre(self.si(symbol))
    }
    pub(crate) fn force(&self, symbol: &str) -> Force {
        newton(self.si(symbol))
    }
    pub(crate) fn stress(&self, symbol: &str) -> Stress {
        pascal(self.si(symbol))
    }
    pub(crate) fn moment(&self, symbol: &str) -> BendingMoment {
        newton_metre(self.si(symbol))
    }
    pub(crate) fn line_load(&self, symbol: &str) -> LineLoad {
        newton_per_metre(self.si(symbol))
    }
    pub(crate) fn density(&self, symbol: &str) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(self.si(symbol))
    }

    pub(crate) fn given_ratio(&self, symbol: &'static str) -> Worked<Ratio> {
        given(symbol, self.ratio(symbol))
    }
    pub(crate) fn given_length(&self, symbol: &'static str) -> Worked<Length> {
        given(symbol, self.length(symbol))
    }
    pub(crate) fn given_force(&self, symbol: &'static str) -> Worked<Force> {
        given(symbol, self.force(symbol))
    }
    pub(crate) fn given_stress(&self, symbol: &'static str) -> Worked<Stress> {
        given(symbol, self.stress(symbol))
    }
}
