//! What a weight and a dip say of boards: their stiffness, and none of their strength.

use super::capacity::{self, Face};
use super::proof::Spread;
use crate::brief::{LoadWord, RuleFamily};
use crate::derivation::{Worked, given};
use crate::platform::{Board, Stick, WoodChoice};
use crate::quantity::unit::pascal;
use crate::quantity::{Stress, weight_of};
use crate::rules::RuleError;
use crate::rules::stiffness::{Loading, apparent_modulus, lower_estimate, shear_free_modulus, stated_modulus};
use crate::tables::Tables;
use crate::tables::tolerance::ToleranceFactor;

/// The stiffness of one board.
#[derive(Clone, Debug)]
pub struct BoardStiffness {
    /// What it is called.
    pub name: String,
    /// Its modulus as the table of its wood states moduli.
    pub modulus: Worked<Stress>,
    /// With the shear part taken out.
    pub free: Stress,
    /// The modulus from the least weight and the greatest dip that the readings allow, and from the other two.
    pub range: [Stress; 2],
    /// How the table states moduli.
    pub convention: &'static str,
    /// The table's own, if the wood was named.
    pub table: Option<OfTable>,
}

/// What the table has for the wood.
#[derive(Clone, Debug)]
pub struct OfTable {
    /// Its mean.
    pub mean: Stress,
    /// How boards scatter about it.
    pub spread: Spread,
}

/// What a lot of boards comes to.
#[derive(Clone, Debug)]
pub struct Batch {
    /// How many.
    pub count: usize,
    /// The mean.
    pub mean: Stress,
    /// The standard deviation, with `n − 1`.
    pub deviation: Stress,
    /// The factor of the lower estimate.
    pub factor: ToleranceFactor,
    /// What 95 of 100 such boards exceed, with a confidence of 75 %.
    pub low: Worked<Stress>,
}

/// How a table states moduli.
fn convention(wood: Option<&WoodChoice>, rules: RuleFamily) -> (&'static str, Option<(Loading, f64)>) {
    match (wood, rules) {
        (Some(WoodChoice::Graded { .. }), _) | (None, RuleFamily::AllowableStress) => {
            ("with the shear of an even load over 21 depths, as US tables state it", Some((Loading::Even, 21.0)))
        }
        (Some(WoodChoice::Ungraded { .. }), _) => (
            "with the shear of a load in the middle of 14 depths, as clear wood is stated",
            Some((Loading::Middle, 14.0)),
        ),
        (Some(WoodChoice::Class { .. }), _) | (None, RuleFamily::LimitState) => {
            ("with the shear taken out, as E0,mean is meant", None)
        }
    }
}

/// The stiffness of a board.
///
/// # Errors
///
/// [`RuleError`] when the table has no modulus for the board's wood and size.
pub fn board_stiffness(b: &Board, rules: RuleFamily) -> Result<BoardStiffness, RuleError> {
    let loading = match b.load {
        LoadWord::Middle => Loading::Middle,
        LoadWord::ThirdPoints => Loading::ThirdPoints,
    };
    let (convention, stated) = convention(b.wood.as_ref(), rules);
    let [weight, weight_off] = b.weight;
    let [dip, dip_off] = b.dip;
    let both = |weight, dip| -> Result<[Worked<Stress>; 2], RuleError> {
        let apparent = apparent_modulus(loading, weight_of(weight), b.span, b.section, dip)?;
        let free = shear_free_modulus(apparent, loading, b.span, b.section[1]);
        let as_stated = match stated {
            Some((loading, depths)) => stated_modulus(free.clone(), loading, depths),
            None => free.clone(),
        };
        Ok([free, as_stated])
    };
    let [free, modulus] = both(weight, dip)?;
    let [_, low] = both(weight - weight_off, dip + dip_off)?;
    let [_, high] = both(weight + weight_off, dip - dip_off)?;
    Ok(BoardStiffness {
        name: b.name.clone(),
        modulus,
        free: free.value,
        range: [low.value, high.value],
        convention,
        table: of_table(b)?,
    })
}

fn of_table(b: &Board) -> Result<Option<OfTable>, RuleError> {
    let Some(wood) = b.wood.clone() else { return Ok(None) };
    let [breadth, depth] = b.section;
    let stick = Stick {
        wood,
        thickness: breadth.min(depth),
        width: breadth.max(depth),
        nominal: b.nominal,
        stock: None,
        incised: false,
        measured: None,
    };
    let mean = match &stick.wood {
        WoodChoice::Class { values, .. } => given("E0,mean", values.modulus),
        _ => capacity::dry_modulus(&stick, Face::from(b.lay))?,
    };
    Ok(Some(OfTable { mean: mean.value, spread: Spread::of(&stick) }))
}

/// What a lot comes to; none for fewer than three boards.
///
/// # Errors
///
/// [`RuleError`] when they scatter so much that there is no lower estimate.
pub fn batch(boards: &[BoardStiffness]) -> Result<Option<Batch>, RuleError> {
    let n = boards.len();
    let Some(factor) = Tables::embedded().tolerance().factor(n) else { return Ok(None) };
    let values = boards.iter().map(|b| b.modulus.value.value);
    let mean = values.clone().sum::<f64>() / n as f64;
    let deviation = (values.map(|v| (v - mean).powi(2)).sum::<f64>() / (n as f64 - 1.0)).sqrt();
    let (mean, deviation) = (pascal(mean), pascal(deviation));
    let low = lower_estimate(mean, deviation, factor.factor)?;
    Ok(Some(Batch { count: n, mean, deviation, factor: factor.clone(), low }))
}
