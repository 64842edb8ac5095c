//! Answers before cutting: the same check, run on the brief with something changed.
//!
//! Nothing here knows a formula. A question such as "how heavy may a sleeper be" is put to
//! [`crate::check::check`] again and again, each time on the platform that the changed brief
//! describes, until a value passes and the next one fails.

mod alter;
mod bracket;
mod cut;
mod design;
mod plain;
mod rate;
mod size;
mod slats;
mod slip;
mod span;
mod stock;
mod thinnest;

pub use bracket::Grid;
pub use cut::{Allowance, Cutting, Purchase, purchase, usual_lengths};
pub use design::{Design, Outcome, Tried, Weakest};
pub use plain::{Governs, Plain, PlainCell, PlainError, PlainSpan, Use, plain_table};
pub use rate::{CaseRating, Heaviest, PlaceRating, Rating, Sensitivity, heaviest, rate};
pub use size::{Choice, Made, Part, Question, Sizing, size};
pub use slats::{SlatCell, SlatRow, SlatStock, SlatTable, slat_table};
pub use span::{PartSpan, Widest, widest};
pub use stock::{Offer, ScrewOffer, Supply, usual_pitches, woods_of};
pub use thinnest::{Thinnest, thinnest};
