//! How a case's inputs reach the public functions: one line a function, by the name it has under `rules`.

mod allowable_stress;
mod calculations;
mod limit_state;
mod steel;

use crate::inputs::{Answer, Inputs};

/// A function's name with how it is asked.
type Entry = (&'static str, fn(&Inputs) -> Answer);

/// Asks a function, or a calculation made of several, by name.
pub(crate) fn answer(name: &str, inputs: &Inputs) -> Option<Answer> {
    let tables = [
        allowable_stress::MEMBERS,
        allowable_stress::CONNECTIONS,
        allowable_stress::WOOD,
        limit_state::MEMBERS,
        limit_state::FASTENERS,
        limit_state::DESIGN,
        steel::STEEL,
        calculations::CALCULATIONS,
    ];
    let found = tables.into_iter().flatten().find(|(n, _)| *n == name)?;
    Some(found.1(inputs))
}
