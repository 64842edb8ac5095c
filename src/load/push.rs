//! What moves a platform sideways or tips it.
//!
//! No standard has a load for a bed built in place; the figures are those of furniture tests, from memory, and
//! of measured jumping.

use super::dead::Dead;
use crate::platform::Platform;
use crate::quantity::unit::{millimetre, newton};
use crate::quantity::{Force, Length};

/// How hard a platform is pushed sideways at the height of its slats: a tenth of everything on it, at least
/// 300 N.
///
/// A tenth: people's own swaying as a part of their weight, as taken for grandstands (from memory). 300 N: the
/// rocking of bunk beds in furniture tests (EN 747-2, from memory). A jumping child's push from front to back, 0.45
/// of its weight (measured; read in a summary), is 265 N at most: within the 300.
pub fn sideways(p: &Platform) -> Force {
    push(p).all()
}

/// A push sideways: a part of everything, spread as it is, and a push at one place. Never both at once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Push {
    /// Of everything on the platform.
    pub spread: Force,
    /// By one sleeper.
    pub at_one_place: Force,
}

impl Push {
    /// The harder of the two.
    pub fn all(self) -> Force {
        self.spread.max(self.at_one_place)
    }

    /// What one of two sides that hold the platform must take: half of what is spread, or all of what pushes
    /// above that side.
    pub fn on_one_side(self) -> Force {
        (self.spread / 2.0).max(self.at_one_place)
    }
}

/// The pushes of which [`sideways`] is the harder.
pub fn push(p: &Platform) -> Push {
    let dead = Dead::of(p);
    let people = p.sleepers.iter().fold(Force::default(), |sum, who| sum + who.weight());
    let share = (dead.timber(p) + dead.hung.all + dead.cover * (p.length * p.width) + people) * 0.1;
    Push { spread: share, at_one_place: newton(300.0) }
}

/// How hard an empty platform is pushed: 120 N at the height of its slats (EN 747-2 stability, from memory).
pub fn against_the_empty() -> Force {
    newton(120.0)
}

/// People who sit on an edge, each pushing outwards a little (after EN 1022, stability of seats, from memory).
pub struct OnTheEdge {
    /// How far their weight is from the rail's outer face.
    pub inside: Length,
    /// How hard each pushes outwards.
    pub outward: Force,
}

/// 60 mm from the edge, 20 N outwards.
pub fn on_the_edge() -> OnTheEdge {
    OnTheEdge { inside: millimetre(60.0), outward: newton(20.0) }
}
