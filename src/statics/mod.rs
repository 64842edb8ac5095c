//! Exact statics of beams and grillages: no wood, no bed, no mesh.
//!
//! [`Span`] is one beam on two supports. [`Model`] is a grillage: lines along x (cleats, rails, a
//! centre beam), crossbeams along y that rest on them (slats), springs to ground and links between
//! lines (screws). [`Model::factor`] eliminates it once; every load case after that costs one pass
//! forward and one back, and the result is exact for point, patch and linearly varying loads.
//!
//! Everything is plain `f64` in SI units: m, N, Pa, N/m, N m, rad. Deflections and loads are
//! positive downward, reactions upward, moments sagging, and V = dM/dx.
//!
//! ```
//! use slatwright::statics::{Load, Span};
//! # fn main() -> Result<(), slatwright::statics::StaticsError> {
//! let slat = Span { start: 0.0, end: 2.0, supports: [0.0, 2.0], ei: 540.0, kga: f64::INFINITY };
//! let load = [Load::Point { at: 1.0, force: 800.0 }];
//! let ((at, moment), _) = slat.under(&load)?.extreme_moment();
//! assert_eq!((at, moment), (1.0, 400.0));
//! # Ok(())
//! # }
//! ```

mod bent;
mod block_tridiagonal;
mod contact;
mod crossbeam;
mod element;
mod error;
mod grillage;
mod line;
mod load;
mod loaded;
mod model;
mod pieces;
mod polynomial;
mod response;
mod solve;
mod span;
mod stability;
mod workspace;

pub use bent::Bent;
pub use contact::AtRest;
pub use error::{Part, StaticsError};
pub use grillage::{Grillage, On, Placed};
pub use line::{Element, LineResponse, Station};
pub use load::Load;
pub use loaded::Loaded;
pub use model::{Crossbeam, Line, Link, Model, Spring};
pub use pieces::Extremes;
pub use response::Response;
pub use span::Span;
pub use workspace::Workspace;

/// The most lines a grillage may have.
pub const MOST_LINES: usize = 6;
