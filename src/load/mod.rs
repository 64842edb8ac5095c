//! Who is on the platform: people become cases, cases become patches at positions.
//!
//! Every case is swept over all the places where it may be. A patch's share on a slat changes
//! linearly with its place between the lines where one of its edges crosses the edge of a slat's
//! strip, or, where an end of the platform cuts its spread short, linearly with one over its length;
//! and so does every support force and moment that follows from it. Either way the greatest is at one
//! of those lines, and `sweep` visits all of them. Two patches at once, and people lying, whose
//! segments have a hundred edges, are tried in steps instead that come within a hundredth or two.

mod body;
mod case;
mod dead;
mod guard;
mod hung;
mod patch;
mod push;
mod sweep;

pub use case::{Case, CaseKind, Duration, Use, cases, cases_of, predicted};
pub use dead::{Dead, density_of, own_weight, timber_density};
pub use guard::{GuardLoad, guard_loads, rung_load};
pub use hung::{Hung, guard_on, ladder_weight};
pub use patch::{Felt, Patch, Patches, Place, Position, Strips};
pub use push::{OnTheEdge, Push, against_the_empty, on_the_edge, push, sideways};
