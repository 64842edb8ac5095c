//! The limit state rules: what `tests/evidence` has no printed case for, both sides of every limit, the relations between
//! the printed classes, and the mechanics behind the formulas.

mod fasteners;
mod libraries;
mod limits;
mod members;
mod properties;
mod strength_classes;
mod support;
