//! The ladder: two stringers that stand on the floor, rungs or treads between them.

use super::{Fixing, Stick};
use crate::brief::Edge;
use crate::quantity::Length;
use crate::quantity::unit::millimetre;
use crate::tables::fasteners::Screw;
use crate::tables::pipes::Pipe;

/// A ladder.
#[derive(Clone, Debug)]
pub struct Ladder {
    /// The edge it leads to.
    pub edge: Edge,
    /// What is stepped on.
    pub rung: Rung,
    /// Clear between the stringers.
    pub width: Length,
    /// From rung to rung, upright.
    pub pitch: Length,
    /// From the floor to the top of the first rung.
    pub first: Length,
    /// From the floor to the slats' top, where it ends.
    pub height: Length,
    /// How far its foot stands out from its top.
    pub out: Length,
    /// Each stringer; its width is the way a foot points.
    pub stringer: Stick,
    /// What holds a rung's end.
    pub ends: RungEnd,
    /// What holds each stringer's top to the bed's rail.
    pub top: Fixing,
}

/// What is stepped on.
#[derive(Clone, Debug)]
pub enum Rung {
    /// A flat tread; its width is the way a foot points.
    Tread(Stick),
    /// A round wooden rung, as thick as it is wide.
    Round(Stick),
    /// A steel pipe.
    Pipe(Pipe),
}

/// What holds a rung's end.
#[derive(Clone, Debug)]
pub enum RungEnd {
    /// Let into the stringer so far, where it rests.
    Housed {
        /// How far.
        depth: Length,
    },
    /// Screws through the stringer into the rung's end.
    Screws {
        /// The screw.
        screw: Screw,
        /// How many at each end.
        count: usize,
    },
}

impl Rung {
    /// How deep a foot finds it: a tread's width, a round rung's diameter.
    pub fn depth(&self) -> Length {
        match self {
            Rung::Tread(s) | Rung::Round(s) => s.width,
            Rung::Pipe(p) => p.outside,
        }
    }
}

impl Ladder {
    /// Tops of the rungs above the floor, lowest first; the slats' top is the last step.
    pub fn rungs(&self) -> Vec<Length> {
        // A rung flush with the slats is no rung, whatever the last bit says.
        let below = self.height - millimetre(0.001);
        (0..).map(|k| self.first + self.pitch * f64::from(k)).take_while(|h| *h < below).collect()
    }

    /// Its sticks by what they are called.
    pub(super) fn sticks(&self) -> Vec<(&'static str, &Stick)> {
        let rung = match &self.rung {
            Rung::Tread(s) | Rung::Round(s) => Some(("rungs", s)),
            Rung::Pipe(_) => None,
        };
        rung.into_iter().chain([("stringers", &self.stringer)]).collect()
    }

    /// Length of a stringer from the floor to the slats' top.
    pub fn length(&self) -> Length {
        (self.height * self.height + self.out * self.out).sqrt()
    }

    /// The span of a rung: to the middle of what it rests on in each stringer.
    pub fn span(&self) -> Length {
        match &self.ends {
            RungEnd::Housed { depth } => self.width + *depth,
            RungEnd::Screws { .. } => self.width,
        }
    }
}
