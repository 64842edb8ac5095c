//! Who is on the platform: people become cases, cases become patches at positions.
//!
//! Every case is swept over all the places where it may be. A patch's share on a slat changes
//! linearly with its place between the lines where one of its edges crosses the edge of a slat's
//! strip, and so does every support force, moment and deflection that follows from it. The greatest
//! effect is therefore at one of those lines, and [`sweep`] visits all of them.

mod body;
mod case;
mod dead;
mod patch;
mod sweep;

pub use case::{Case, CaseKind, Duration, Use, cases};
pub use dead::{Dead, timber_density};
pub use patch::{Felt, Patch, Place, Position, Strips};
