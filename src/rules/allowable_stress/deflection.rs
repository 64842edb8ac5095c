//! Deflection under load that stays.

use super::nds;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Length, Ratio};
use crate::source::{Citation, Seen};

const CREEP: Citation = nds("3.5.2", Seen::Secondary);

/// Whether the wood was seasoned when the load came on, and stays dry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Seasoned {
    /// Seasoned lumber in dry service.
    Dry,
    /// Unseasoned lumber, or wet service.
    GreenOrWet,
}

/// Time dependent deformation factor `Kcr`: 1.5 seasoned and dry, 2.0 unseasoned or wet.
///
/// # Source
///
/// NDS 2018 3.5.2, read in the publisher's answer to a question on it.
pub fn creep_factor(seasoned: Seasoned) -> Worked<Ratio> {
    let value = match seasoned {
        Seasoned::Dry => 1.5,
        Seasoned::GreenOrWet => 2.0,
    };
    plain(value).step("Kcr", CREEP)
}

/// Total deflection, `ΔT = Kcr · ΔLT + ΔST`.
///
/// | symbol | |
/// |---|---|
/// | `ΔLT` | immediate deflection under the load that stays |
/// | `ΔST` | deflection under the load that comes and goes |
///
/// # Source
///
/// NDS 2018 3.5.2, equation 3.5-1, read in the publisher's answer to a question on it.
pub fn total_deflection(creep: Worked<Ratio>, long_term: Length, short_term: Length) -> Worked<Length> {
    (creep * given("ΔLT", long_term) + given("ΔST", short_term)).step("ΔT", CREEP)
}
