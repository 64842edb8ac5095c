//! What a measured modulus of elasticity changes: how far wood sags, and never how strong it is.

use crate::derivation::{Worked, given, plain};
use crate::quantity::Stress;
use crate::source::{Citation, Seen};

/// The measured modulus in place of a table's. Wet service and incising still count, as if it had been measured
/// before either.
pub(super) fn reference(measured: Stress) -> Worked<Stress> {
    given("E measured", measured)
}

/// The modulus for stability, lowered with a measured modulus that is less than the table's and never raised.
///
/// NDS 2018 appendix D takes `Emin` in proportion to `E`; that a stiffer board is given no more is a choice, for
/// buckling is a matter of strength, which was not measured.
pub(super) fn for_stability(
    emin: Worked<Stress>,
    measured: Worked<Stress>,
    of_table: Worked<Stress>,
) -> Worked<Stress> {
    (emin * (measured / of_table).min(plain(1.0))).step("Emin'", Citation::new("NDS 2018", "appendix D", Seen::Memory))
}
