//! What wood and its fastenings can carry: one function a clause of a standard.
//!
//! Rules know sections, species and screws; they know no bed. Every result is a
//! [`Worked`](crate::derivation::Worked) value closed with its citation, so what a report prints is
//! what was evaluated.

pub mod allowable_stress;
mod error;
pub mod gap;
pub mod limit_state;
pub mod round;
pub mod slip;
pub mod stiffness;

pub use error::RuleError;
