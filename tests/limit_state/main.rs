//! The limit state rules against what others have published: tables and worked examples to the printed digit, results
//! of general-purpose libraries, and the mechanics behind the formulas.

mod fasteners;
mod libraries;
mod limits;
mod members;
mod properties;
mod strength_classes;
mod support;
