//! One report, several faces. Nothing is computed here: the faces only say what the check found.

mod answer;
pub mod boards;
pub mod both;
pub mod change;
pub mod chart;
mod drawing;
mod fraction;
pub mod joist;
pub mod json;
pub mod proof;
pub mod rating;
mod say;
mod sheet;
pub mod sizing;
pub mod slats;
pub mod text;
pub mod thinnest;
pub mod widest;

pub use sheet::Sheet;

use crate::check::{Assessment, Remedy};
use crate::platform::Platform;

/// Everything a face may say about a platform.
#[derive(Clone, Copy, Debug)]
pub struct Report<'a> {
    /// The platform that was checked.
    pub platform: &'a Platform,
    /// What the check found.
    pub assessment: &'a Assessment,
    /// What would make it pass.
    pub remedies: &'a [Remedy],
}
