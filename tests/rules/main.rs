//! The allowable-stress rules: what `tests/evidence` has no printed case for, both sides of every limit, what must
//! hold for every input.

mod clear_wood;
mod coefficients;
mod eccentric;
mod fastener_tables;
mod properties;
mod support;
