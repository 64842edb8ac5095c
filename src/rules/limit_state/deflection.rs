//! Deflection, at once and with creep.

use super::combination::Companion;
use super::ec5;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Length, Ratio, Stress};
use crate::source::Seen;

/// Instantaneous deflections under the actions of the characteristic combination.
#[derive(Clone, Debug)]
pub struct Instantaneous {
    /// `winst,G`, under the permanent actions.
    pub permanent: Length,
    /// `winst,Q1`, under the leading variable action with its `ψ`.
    pub leading: Option<(Length, Companion)>,
    /// `winst,Qi`, under the whole of each accompanying one.
    pub accompanying: Vec<(Length, Companion)>,
}

/// Instantaneous deflection, `winst = winst,G + winst,Q1 + Σ ψ0,i winst,Qi`.
///
/// # Source
///
/// EN 1995-1-1 2.2.3(2), read in summaries.
pub fn instantaneous_deflection(parts: &Instantaneous) -> Worked<Length> {
    let mut sum = given("winst,G", parts.permanent);
    if let Some((w, _)) = &parts.leading {
        sum = sum + given("winst,Q1", *w);
    }
    for (w, companion) in &parts.accompanying {
        sum = sum + companion.psi0() * given("winst,Qi", *w);
    }
    sum.step("winst", ec5("2.2.3(2)", Seen::Secondary))
}

/// Final deflection, `wfin = winst,G (1 + kdef) + winst,Q1 (1 + ψ2,1 kdef) + Σ winst,Qi (ψ0,i + ψ2,i kdef)`.
///
/// For structures whose members, and joints, creep alike.
///
/// # Source
///
/// EN 1995-1-1 2.2.3(5), equations 2.2 to 2.5, read in summaries.
pub fn final_deflection(parts: &Instantaneous, kdef: Worked<Ratio>) -> Worked<Length> {
    let one = || plain(1.0);
    let mut sum = given("winst,G", parts.permanent) * (one() + kdef.clone());
    if let Some((w, companion)) = &parts.leading {
        sum = sum + given("winst,Q1", *w) * (one() + companion.psi2() * kdef.clone());
    }
    for (w, companion) in &parts.accompanying {
        sum = sum + given("winst,Qi", *w) * (companion.psi0() + companion.psi2() * kdef.clone());
    }
    sum.step("wfin", ec5("2.2.3(5)", Seen::Secondary))
}

/// Net final deflection below the line between supports, `wnet,fin = wfin − wc`.
///
/// `wc` is the camber.
///
/// # Source
///
/// EN 1995-1-1 7.2(1), equation 7.2, read in summaries.
pub fn net_final_deflection(final_deflection: Worked<Length>, camber: Length) -> Worked<Length> {
    (final_deflection - given("wc", camber)).step("wnet,fin", ec5("(7.2)", Seen::Secondary))
}

/// Modulus with creep, `Emean,fin = Emean / (1 + ψ2 kdef)`, for the final state of structures whose
/// members creep differently; `ψ2` is 1 under permanent and quasi-permanent loads.
///
/// # Source
///
/// EN 1995-1-1 2.3.2.2(1) and (2), equations 2.7 and 2.10, read in part.
pub fn final_modulus(mean: Worked<Stress>, psi2: Worked<Ratio>, kdef: Worked<Ratio>) -> Worked<Stress> {
    (mean / (plain(1.0) + psi2 * kdef)).step("Emean,fin", ec5("2.3.2.2", Seen::Secondary))
}

/// Which deflection a limit is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Deflection {
    /// `winst`.
    Instantaneous,
    /// `wnet,fin`.
    NetFinal,
    /// `wfin`.
    Final,
}

/// The range of limits the standard gives as examples: the tighter and the wider one.
#[derive(Clone, Debug)]
pub struct LimitRange {
    /// The smaller deflection.
    pub tight: Worked<Length>,
    /// The larger deflection.
    pub wide: Worked<Length>,
}

/// Examples of limits: a beam on two supports `winst` `ℓ/500` to `ℓ/300`, `wnet,fin` `ℓ/350` to `ℓ/250`,
/// `wfin` `ℓ/300` to `ℓ/150`; a cantilever twice these.
///
/// # Source
///
/// EN 1995-1-1 7.2(2), Table 7.2, from memory.
pub fn deflection_limits(deflection: Deflection, span: Length, cantilever: bool) -> LimitRange {
    let (tight, wide) = match deflection {
        Deflection::Instantaneous => (500.0, 300.0),
        Deflection::NetFinal => (350.0, 250.0),
        Deflection::Final => (300.0, 150.0),
    };
    let share = |n: f64| if cantilever { n / 2.0 } else { n };
    let limit = |n: f64| (given("ℓ", span) / plain(share(n))).step("wlim", ec5("Table 7.2", Seen::Memory));
    LimitRange { tight: limit(tight), wide: limit(wide) }
}
