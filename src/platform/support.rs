//! What holds the cleat to the rail and the rail up.

use super::stick::Stick;
use super::wood::WoodChoice;
use crate::quantity::Length;
use crate::tables::fasteners::{Bolt, Screw};

/// A row of screws along a cleat.
#[derive(Clone, Debug)]
pub struct ScrewRow {
    /// The screw.
    pub screw: Screw,
    /// Largest distance from screw to screw.
    pub pitch: Length,
    /// From each end to the first screw.
    pub first: Length,
    /// From the cleat's lower edge up to the screws.
    pub up: Length,
    /// From the head to each screw.
    pub positions: Vec<Length>,
}

impl ScrewRow {
    /// Screws over a cleat of this length: one at `first` from each end, the rest evenly between at
    /// no more than `pitch`.
    pub fn over(length: Length, screw: Screw, pitch: Length, first: Length, up: Length) -> ScrewRow {
        let run = length - first * 2.0;
        // A pitch of exactly a third of the run must give three spaces, whatever the last bit says.
        let spaces = (run.value / pitch.value - 1e-9).ceil().max(1.0) as usize;
        let positions = (0..=spaces).map(|k| first + run * (k as f64 / spaces as f64)).collect();
        ScrewRow { screw, pitch, first, up, positions }
    }

    /// The distance from screw to screw as laid out.
    pub fn spacing(&self) -> Length {
        match self.positions.as_slice() {
            [a, b, ..] => *b - *a,
            _ => self.pitch,
        }
    }
}

/// A rail and what holds it.
#[derive(Clone, Debug)]
pub struct Rail {
    /// Wood and size; its width is vertical.
    pub stick: Stick,
    /// End joints, alike at head and foot.
    pub ends: Option<EndJoint>,
    /// Wall studs behind it.
    pub studs: Option<Studs>,
}

/// What a rail's end is held by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// A post, a wall or a block.
    Post,
    /// An end rail, which lies across it.
    EndRail,
}

impl Holder {
    /// The angle of a load straight down to the grain of what holds, degrees.
    pub fn degrees(self) -> f64 {
        match self {
            Holder::Post => 0.0,
            Holder::EndRail => 90.0,
        }
    }
}

/// A rail's end joint.
#[derive(Clone, Debug)]
pub struct EndJoint {
    /// What holds it.
    pub holder: Holder,
    /// What it is.
    pub kind: EndKind,
    /// From the rail's edges to the nearest screw.
    pub edge: Length,
    /// From the rail's end to the screws.
    pub end: Length,
    /// Wood of the post or of the end rail that holds it.
    pub post: WoodChoice,
    /// What is cut square out of the rail's lower edge where it rests, up to the inner edge of that.
    pub cut: Option<Length>,
}

/// What a rail's end rests on or hangs from.
#[derive(Clone, Debug)]
pub enum EndKind {
    /// Screws through the rail's face into the side of the post.
    SideGrain {
        /// The screw.
        screw: Screw,
        /// How many.
        count: usize,
    },
    /// Screws through the post into the end of the rail.
    EndGrain {
        /// The screw.
        screw: Screw,
        /// How many.
        count: usize,
        /// Thickness of the piece they pass through.
        through: Length,
    },
    /// Screws in slanted pockets.
    Pocket {
        /// The screw.
        screw: Screw,
        /// How many.
        count: usize,
    },
    /// Bolts through the rail's face and the side of the post.
    Bolts(Bolts),
    /// The end bears on a post or a block.
    Bearing {
        /// Length of the rail that rests.
        length: Length,
    },
    /// The end bears on a shoulder cut into the post.
    Notch(Notch),
    /// Glue alone.
    Glue,
}

/// Bolts through a rail and a post, up the rail's end in the middle of the post, each with a washer under its head
/// and its nut.
#[derive(Clone, Debug)]
pub struct Bolts {
    /// The bolt.
    pub bolt: Bolt,
    /// How many.
    pub count: usize,
    /// The post they pass through, along its thickness.
    pub post: Box<Stick>,
}

/// A shoulder cut into a post, its wood standing up beside the rail.
#[derive(Clone, Debug)]
pub struct Notch {
    /// Length of the rail that rests.
    pub length: Length,
    /// How deep it is cut into the post's thickness: how much of the rail's thickness rests.
    pub depth: Length,
    /// What keeps the rail in it, and carries nothing.
    pub kept_by: Option<Keeper>,
}

/// Fasteners that keep a rail where it rests.
#[derive(Clone, Debug, PartialEq)]
pub struct Keeper {
    /// How many in each post.
    pub count: usize,
    /// What they are, such as `bolts 3/8 x 5 in`.
    pub what: String,
}

impl Bolts {
    /// Whether they fit through a rail and the post.
    pub fn fit(&self, rail: &Stick) -> bool {
        self.bolt.fits(rail.thickness + self.post.thickness)
    }
}

impl EndJoint {
    /// From the end of the clear length to where the rail is held: its screws, its bolts, or the middle of its
    /// bearing.
    pub fn beyond(&self) -> Length {
        match &self.kind {
            EndKind::SideGrain { .. } => self.end,
            EndKind::Bolts(bolts) => bolts.post.width / 2.0,
            EndKind::Bearing { length } | EndKind::Notch(Notch { length, .. }) => *length / 2.0,
            EndKind::EndGrain { .. } | EndKind::Pocket { .. } | EndKind::Glue => Length::default(),
        }
    }

    /// How far the rail reaches past the clear length at each end.
    pub fn lap(&self) -> Length {
        match &self.kind {
            EndKind::SideGrain { .. } | EndKind::Bolts(_) => self.beyond() + self.end,
            EndKind::Bearing { length } | EndKind::Notch(Notch { length, .. }) => *length,
            EndKind::EndGrain { .. } | EndKind::Pocket { .. } | EndKind::Glue => Length::default(),
        }
    }

    /// From screw to screw up the rail's end.
    pub fn spacing(&self, rail: &Stick, count: usize) -> Length {
        if count > 1 { (rail.width - self.edge * 2.0) / (count as f64 - 1.0) } else { rail.width }
    }
}

impl EndKind {
    /// The screws and how many; `None` for a joint without any.
    pub fn screws(&self) -> Option<(&Screw, usize)> {
        match self {
            EndKind::SideGrain { screw, count }
            | EndKind::EndGrain { screw, count, .. }
            | EndKind::Pocket { screw, count } => Some((screw, *count)),
            EndKind::Bolts(_) | EndKind::Bearing { .. } | EndKind::Notch(_) | EndKind::Glue => None,
        }
    }

    /// How many screws or bolts; none where there are none.
    pub fn count(&self) -> Option<usize> {
        match self {
            EndKind::Bolts(bolts) => Some(bolts.count),
            other => other.screws().map(|(_, count)| count),
        }
    }

    /// Whether the rail's lower edge rests on something.
    pub fn rests(&self) -> bool {
        matches!(self, EndKind::Bearing { .. } | EndKind::Notch(_))
    }

    /// Whether nothing but its weight keeps the rail there.
    pub fn lies_loose(&self) -> bool {
        matches!(self, EndKind::Bearing { .. } | EndKind::Notch(Notch { kept_by: None, .. }))
    }

    /// Whether the rail's face lies against the side of the post, which then stands outside it.
    pub fn beside_the_post(&self) -> bool {
        matches!(self, EndKind::SideGrain { .. } | EndKind::Bolts(_))
    }
}

/// Studs behind a rail on a wall.
#[derive(Clone, Debug)]
pub struct Studs {
    /// The screw or lag in each stud.
    pub screw: Screw,
    /// How many in each.
    pub count: usize,
    /// From the head to each stud's centre.
    pub positions: Vec<Length>,
    /// Wood of the studs, or of the plate.
    pub wood: WoodChoice,
    /// Clear distance from the rail to the wall, over which spacers stand.
    pub gap: Length,
    /// Whether the screws go into a plate of the wall, whose grain runs along the rail.
    pub plate: bool,
    /// From the rail's lower edge up to the lowest screw of each stud.
    pub up: Length,
}
