//! A dowel that bridges a gap between two pieces of wood: the mechanics behind the yield limit equations,
//! in the form that takes a gap. Both families of rules use it with their own strengths.

use crate::derivation::{Worked, plain};
use crate::quantity::{BendingMoment, Force, Length, LineLoad};
use crate::rules::RuleError;
use crate::rules::allowable_stress::dowel::YieldMode;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};

const REPORT: Citation = Citation::new("AWC TR12 (2015)", "Table 1-1", Seen::Memory);

/// One piece as the dowel meets it.
#[derive(Clone, Debug)]
pub struct Bridged {
    /// `q`, what the wood bears on a length of the dowel.
    pub bearing: Worked<LineLoad>,
    /// `L`, length of dowel in it.
    pub length: Worked<Length>,
    /// `M`, what the dowel bears in bending there.
    pub moment: Worked<BendingMoment>,
}

/// The six yield loads of a dowel across a gap `g`: `Im: qm Lm`, `Is: qs Ls`, and the others
/// `P = [sqrt(B² − 4 A C) − B] / (2 A)` with
///
/// | mode | `A` | `B` | `C` |
/// |---|---|---|---|
/// | II | `1/4qs + 1/4qm` | `Ls/2 + g + Lm/2` | `−qs Ls²/4 − qm Lm²/4` |
/// | IIIm | `1/2qs + 1/4qm` | `g + Lm/2` | `−Ms − qm Lm²/4` |
/// | IIIs | `1/4qs + 1/2qm` | `Ls/2 + g` | `−qs Ls²/4 − Mm` |
/// | IV | `1/2qs + 1/2qm` | `g` | `−Ms − Mm` |
///
/// A spacer block around the dowel is left out, which errs low: it would bear on the dowel too.
///
/// # Source
///
/// AWC Technical Report 12, Table 1-1, from memory; without a gap they are the yield limit equations of NDS
/// 12.3.1, which is tested.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a length or a strength is not positive, or the gap is negative.
pub fn yield_loads(
    main: &Bridged,
    side: &Bridged,
    gap: Worked<Length>,
) -> Result<[(YieldMode, Worked<Force>); 6], RuleError> {
    for (piece, [q, l, m]) in [(main, ["qm", "Lm", "Mm"]), (side, ["qs", "Ls", "Ms"])] {
        positive(q, piece.bearing.value, &REPORT)?;
        positive(l, piece.length.value, &REPORT)?;
        positive(m, piece.moment.value, &REPORT)?;
    }
    if gap.value.value.is_nan() || gap.value < Length::default() {
        return Err(RuleError::out_of_range("g", gap.value, "zero or more", REPORT));
    }
    let (qm, qs) = (|| main.bearing.clone(), || side.bearing.clone());
    let (lm, ls) = (|| main.length.clone(), || side.length.clone());
    let g = || gap.clone();
    let (two, four) = (|| plain(2.0), || plain(4.0));
    // Wood that crushes along a whole piece, which then turns about its middle.
    let (turns_m, turns_s) = (qm() * lm() * lm() / four(), qs() * ls() * ls() / four());
    let (mm, ms) = (|| main.moment.clone(), || side.moment.clone());
    let bends = |symbol: &'static str, parts: [f64; 2], b: Worked<Length>, c: Worked<BendingMoment>| {
        let a = plain(parts[0]) / qs() + plain(parts[1]) / qm();
        let scale = || ls();
        let ratio = (b / scale()).step("B/Ls", REPORT);
        let root = (ratio.clone().power(2.0) + four() * a.clone() * c / (scale() * scale())).root();
        ((root - ratio) * scale() / (two() * a)).step(symbol, REPORT)
    };
    let half = |l: Worked<Length>| l / two();
    Ok([
        (YieldMode::Im, finite("PIm", (qm() * lm()).step("PIm", REPORT), &REPORT)?),
        (YieldMode::Is, finite("PIs", (qs() * ls()).step("PIs", REPORT), &REPORT)?),
        (YieldMode::II, bends("PII", [0.25, 0.25], half(ls()) + g() + half(lm()), turns_s.clone() + turns_m.clone())),
        (YieldMode::IIIm, bends("PIIIm", [0.5, 0.25], g() + half(lm()), ms() + turns_m)),
        (YieldMode::IIIs, bends("PIIIs", [0.25, 0.5], half(ls()) + g(), turns_s + mm())),
        (YieldMode::IV, bends("PIV", [0.5, 0.5], g(), ms() + mm())),
    ])
}
