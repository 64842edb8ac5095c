//! A board hung with a weight over two trestles.

use super::stick::{dimensions, sane};
use super::wood::{WoodChoice, wood};
use crate::brief::{BoardKeys, Boards, LayWord, LoadWord, Mistake, Mistakes, Typed};
use crate::quantity::unit::{inch, kilogram, millimetre};
use crate::quantity::{Length, Mass, UnitSystem, length_for_builder};
use crate::tables::Tables;

/// A board, its weight and its dip.
#[derive(Clone, Debug)]
pub struct Board {
    /// What it is called.
    pub name: String,
    /// Its wood, if that was said.
    pub wood: Option<WoodChoice>,
    /// Nominal thickness and width in inches.
    pub nominal: (f64, f64),
    /// Breadth and depth as it lies.
    pub section: [Length; 2],
    /// Flat or on edge.
    pub lay: LayWord,
    /// From trestle to trestle.
    pub span: Length,
    /// Where the weight hangs.
    pub load: LoadWord,
    /// The weight and how far off it may be.
    pub weight: [Mass; 2],
    /// The dip and how far off its reading may be.
    pub dip: [Length; 2],
    /// The errors nobody gave and that were taken.
    pub taken: Vec<String>,
}

impl Board {
    /// Builds the boards of a list.
    ///
    /// # Errors
    ///
    /// Every mistake in it, in the order in which they stand there.
    pub fn build(boards: &Boards, tables: &Tables) -> Result<Vec<Board>, Vec<Mistake>> {
        let mut m = boards.mistakes.clone();
        let all: Vec<Option<Board>> =
            boards.boards.iter().enumerate().map(|(i, own)| board(boards, own, i + 1, tables, &mut m)).collect();
        if m.is_empty() { Ok(all.into_iter().flatten().collect()) } else { Err(m.in_order()) }
    }
}

/// A board's own value or the common one.
fn either<T: Clone>(own: &Option<Typed<T>>, all: &Option<Typed<T>>) -> Option<Typed<T>> {
    own.clone().or_else(|| all.clone())
}

fn board(list: &Boards, own: &BoardKeys, number: usize, tables: &Tables, m: &mut Mistakes) -> Option<Board> {
    let all = &list.all;
    let stick = own.stick.over(&all.stick);
    let size = dimensions(&stick, "board", tables, m);
    let ripped = stick.ripped.as_ref().is_some_and(|r| r.value);
    let nominal = size.as_ref().map_or((2.0, 4.0), |s| s.nominal);
    let typed = stick.wood.as_ref();
    let wood = typed.map(|w| wood(w, nominal, ripped, list.rules, tables, m));
    let mut needed = |key: &'static str, found: bool, example: &str| {
        if !found && !own.unread.contains(&key) && !all.unread.contains(&key) {
            let label = format!("`{key}` is missing here");
            m.add(&own.stick.span, format!("a board has no `{key}`"), label, format!("write {example}"));
        }
    };
    let (span, weight, dip) =
        (either(&own.span, &all.span), either(&own.weight, &all.weight), either(&own.dip, &all.dip));
    needed("span", span.is_some(), "span = \"57 in\", from trestle to trestle");
    needed("weight", weight.is_some(), "weight = \"50 lb\"");
    needed("dip", dip.is_some(), "dip = \"3/16 in\", after less before");
    let (size, span, weight, dip) = (size?, span?, weight?, dip?);
    sane("span", &span, inch(6.0), inch(480.0), m)?;
    if weight.value <= Mass::default() || weight.value > kilogram(2000.0) {
        m.add(&weight.span, "no board is tried with this `weight`", "", "write something like weight = \"50 lb\"");
        return None;
    }
    let mut taken = Vec::new();
    let weight_error = either(&own.weight_error, &all.weight_error).map_or_else(
        || {
            taken.push("the weight is taken as right to 1 %".to_owned());
            weight.value * 0.01
        },
        |t| t.value,
    );
    let dip_error = either(&own.dip_error, &all.dip_error).map_or_else(
        || {
            let error = match list.units {
                UnitSystem::Us => inch(1.0 / 32.0),
                UnitSystem::Metric => millimetre(0.5),
            };
            taken.push(format!("the dip is taken as read to {}", thirty_second(error, list.units)));
            error
        },
        |t| t.value,
    );
    if weight_error >= weight.value {
        m.add(&weight.span, "the weight is not more than its error", "", "weigh it more closely");
        return None;
    }
    if dip.value <= dip_error {
        let help = "hang more weight on, take a longer span, or read it more closely: dip_error = \"0.2 mm\"";
        m.add(&dip.span, "the dip is not more than its reading error", "", help);
        return None;
    }
    if dip.value * 10.0 > span.value {
        m.add(&dip.span, "this dip is more than a tenth of the span", "", "no bending formula holds so far");
        return None;
    }
    let lay = either(&own.lay, &all.lay).map_or(LayWord::Flat, |l| l.value);
    let (small, large) = (size.thickness.min(size.width), size.thickness.max(size.width));
    let section = if lay == LayWord::Flat { [large, small] } else { [small, large] };
    if span.value < section[1] * 5.0 {
        m.add(&span.span, "this span is less than five depths", "", "shear rules so short a board; take a longer span");
        return None;
    }
    let wood = match wood {
        Some(found) => Some(found?),
        None => None,
    };
    Some(Board {
        name: own.name.as_ref().map_or_else(|| number.to_string(), |n| n.value.clone()),
        wood,
        nominal: size.nominal,
        section,
        lay,
        span: span.value,
        load: either(&own.load, &all.load).map_or(LoadWord::Middle, |l| l.value),
        weight: [weight.value, weight_error],
        dip: [dip.value, dip_error],
        taken,
    })
}

fn thirty_second(error: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => "1/32 in".to_owned(),
        UnitSystem::Metric => length_for_builder(error, units),
    }
}
