//! Strength ratios for knots and slope of grain (ASTM D245).

use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::{Length, Ratio, number, unit::inch};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};

/// Where a knot stands on a bending or compression member.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum KnotPlace {
    /// On the face across the load, the one in tension: the wide face of a slat laid flat.
    NarrowFace,
    /// Along the middle of the face beside the load.
    WideFaceCentre,
    /// At the edge of the face beside the load.
    WideFaceEdge,
}

const KNOT: Citation = Citation::new("ASTM D245", "knots in bending", Seen::Secondary);
const KNOT_WIDE: Citation = Citation::new("ASTM D245", "knots in bending, wide face", Seen::Memory);

/// Strength ratio of a knot of size `k` on a face `h` wide:
/// `S = 1 − (k − 1/24 in)/h'` on the narrow face and along the middle of the wide face,
/// `S = [1 − (k − 1/24 in)/h']²` at its edge, never above 1.
///
/// | face | `h'` when `S ≥ 0.45` | `h'` when `S < 0.45` |
/// |---|---|---|
/// | below 6 in | `h + 3/8 in` | `h` |
/// | narrow, 6 in and up | `sqrt[6 in (h + 1/2 in)]` | `sqrt(6 in h)` |
/// | wide, 6 to 12 in | `h + 1/2 in` | `h` |
/// | wide, above 12 in | `sqrt[12 in (h + 1/2 in)]` | `sqrt(12 in h)` |
///
/// # Source
///
/// ASTM D245: the narrow face below 6 in was read in a university note on knots (2021); the others
/// follow its pattern from memory. For a narrow face of 6 in and more two recollections differ, and
/// the smaller `h'` is taken.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the knot takes the whole face, or a size is not positive.
pub fn knot(place: KnotPlace, size: Length, face: Length) -> Result<Worked<Ratio>, RuleError> {
    positive("k", size, &KNOT)?;
    positive("h", face, &KNOT)?;
    let citation = if place == KnotPlace::NarrowFace && face < inch(6.0) { KNOT } else { KNOT_WIDE };
    let k = given("k", size);
    let ratio = |upper: bool| {
        let left = plain(1.0) - (k.clone() - constant(inch(1.0 / 24.0))) / effective_face(place, face, upper);
        // Squaring must not turn a knot larger than the face into a good one.
        if place == KnotPlace::WideFaceEdge && left.value.value > 0.0 { left.power(2.0) } else { left }
    };
    let upper = ratio(true);
    let chosen = if upper.value.value >= 0.45 { upper } else { ratio(false) };
    let s = chosen.min(plain(1.0)).step("Sknot", citation);
    if s.value.value > 0.0 {
        Ok(s)
    } else {
        Err(RuleError::out_of_range("k", size, "smaller than the face it stands on", KNOT))
    }
}

/// `h'` of [`knot`].
fn effective_face(place: KnotPlace, face: Length, upper: bool) -> Worked<Length> {
    let six = inch(6.0);
    let widened = match (upper, face < six) {
        (false, _) => given("h", face),
        (true, true) => given("h", face) + constant(inch(0.375)),
        (true, false) => given("h", face) + constant(inch(0.5)),
    };
    let limit = match place {
        KnotPlace::NarrowFace if face >= six => six,
        KnotPlace::WideFaceCentre | KnotPlace::WideFaceEdge if face > inch(12.0) => inch(12.0),
        _ => return widened,
    };
    constant(limit) * (widened / constant(limit)).root()
}

/// What a slope of grain weakens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GrainAction {
    /// Bending and tension.
    Bending,
    /// Compression along the grain.
    Compression,
}

/// Strength ratio of a slope of grain of 1 in `run`; between two rows the steeper one counts.
///
/// | 1 in | 6 | 8 | 10 | 12 | 14 | 15 | 16 | 18 | 20 |
/// |---|---|---|---|---|---|---|---|---|---|
/// | bending, tension | 0.40 | 0.53 | 0.61 | 0.69 | 0.74 | 0.76 | 0.80 | 0.85 | 1.00 |
/// | compression | 0.56 | 0.66 | 0.74 | 0.82 | 0.87 | 1.00 | 1.00 | 1.00 | 1.00 |
///
/// # Source
///
/// ASTM D245, table of strength ratios for slope of grain, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] for grain steeper than 1 in 6.
pub fn slope_of_grain(action: GrainAction, run: f64) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = Citation::new("ASTM D245", "slope of grain", Seen::Memory);
    const ROWS: [(f64, f64, f64); 9] = [
        (20.0, 1.00, 1.00),
        (18.0, 0.85, 1.00),
        (16.0, 0.80, 1.00),
        (15.0, 0.76, 1.00),
        (14.0, 0.74, 0.87),
        (12.0, 0.69, 0.82),
        (10.0, 0.61, 0.74),
        (8.0, 0.53, 0.66),
        (6.0, 0.40, 0.56),
    ];
    let Some((_, bending, compression)) = ROWS.iter().find(|(at, ..)| run >= *at - 1e-9) else {
        return Err(RuleError::out_of_range("slope of grain, 1 in", number(run), "at least 6", CLAUSE));
    };
    let value = match action {
        GrainAction::Bending => *bending,
        GrainAction::Compression => *compression,
    };
    Ok(plain(value).step("Sgrain", CLAUSE))
}
