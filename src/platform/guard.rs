//! A guard along the platform's edges: a top rail on posts, with rails or bars below it.

use super::{Platform, Stick};
use crate::brief::{Edge, HeadsOn, Side, Spot};
use crate::quantity::Length;
use crate::tables::fasteners::Screw;

/// A guard. Its top rail, and the rails below it, stand with their width upright, as the bed's rails do.
#[derive(Clone, Debug)]
pub struct Guard {
    /// The edges it stands on.
    pub edges: Vec<Edge>,
    /// Its top above the slats.
    pub top: Length,
    /// The top rail.
    pub rail: Stick,
    /// What holds the top rail to each post.
    pub rail_screws: Fixing,
    /// Rails below it.
    pub lower: Option<LowerRails>,
    /// Upright bars below it.
    pub bars: Option<Bars>,
    /// Its posts.
    pub posts: GuardPosts,
    /// The way in.
    pub opening: Option<Opening>,
    /// Also under the loads of published furniture tests.
    pub furniture_test: bool,
}

/// Screws from one piece into another.
#[derive(Clone, Debug)]
pub struct Fixing {
    /// The screw.
    pub screw: Screw,
    /// How many.
    pub count: usize,
}

/// Rails below the top rail, all alike.
#[derive(Clone, Debug)]
pub struct LowerRails {
    /// Wood and size; the width is upright.
    pub stick: Stick,
    /// How many.
    pub count: usize,
    /// Clear gap above each of them.
    pub gap: Length,
}

/// Upright bars from the top rail down to the bed's rail, all alike.
#[derive(Clone, Debug)]
pub struct Bars {
    /// Wood and size; the width lies along the guard.
    pub stick: Stick,
    /// Clear gap from bar to bar.
    pub gap: Length,
}

/// The guard's posts, each screwed to the side of the bed's rail.
#[derive(Clone, Debug)]
pub struct GuardPosts {
    /// Wood and size; the thickness is across the guard, the width along it.
    pub stick: Stick,
    /// Largest distance from post to post.
    pub pitch: Length,
    /// From the guard's end to the middle of the first post.
    pub first: Length,
    /// The screw or lag.
    pub screw: Screw,
    /// How many in a post: half of them low, half of them high.
    pub count: usize,
    /// From the low ones up to the high ones.
    pub spacing: Length,
    /// From the bed rail's lower edge up to the low ones.
    pub up: Length,
    /// Which piece their heads are on.
    pub heads: HeadsOn,
}

/// The way in through a guard.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Clear width.
    pub width: Length,
    /// The side it is in.
    pub side: Side,
    /// Where along that side.
    pub at: Spot,
}

/// An unbroken length of guard.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The edge it stands on.
    pub edge: Edge,
    /// Where it begins and ends, from the head or from the left rail.
    pub from_to: [Length; 2],
    /// Middles of its posts, from the same end.
    pub posts: Vec<Length>,
}

impl Run {
    /// The longest distance from post to post.
    pub fn span(&self) -> Length {
        self.posts.windows(2).map(|w| w[1] - w[0]).fold(Length::default(), |a, b| if b > a { b } else { a })
    }

    /// The longest length of top rail that leans on one post.
    pub fn share(&self) -> Length {
        let [from, to] = self.from_to;
        let n = self.posts.len();
        let ends = |i: usize| {
            let before = if i == 0 { from } else { (self.posts[i - 1] + self.posts[i]) / 2.0 };
            let after = if i + 1 == n { to } else { (self.posts[i] + self.posts[i + 1]) / 2.0 };
            after - before
        };
        (0..n).map(ends).fold(Length::default(), |a, b| if b > a { b } else { a })
    }
}

impl From<Side> for Edge {
    fn from(side: Side) -> Edge {
        match side {
            Side::Left => Edge::Left,
            Side::Right => Edge::Right,
        }
    }
}

impl Edge {
    /// `left`, `right`, `head` or `foot`.
    pub fn name(self) -> &'static str {
        match self {
            Edge::Left => "left",
            Edge::Right => "right",
            Edge::Head => "head",
            Edge::Foot => "foot",
        }
    }
}

impl Guard {
    /// Its sticks by what they are called.
    pub(super) fn sticks(&self) -> Vec<(&'static str, &Stick)> {
        let lower = self.lower.iter().map(|l| ("guard's lower rails", &l.stick));
        let bars = self.bars.iter().map(|b| ("guard's bars", &b.stick));
        [("guard's rail", &self.rail), ("guard's posts", &self.posts.stick)]
            .into_iter()
            .chain(lower)
            .chain(bars)
            .collect()
    }

    /// Underside of its lowest rail above the slats. Bars reach down to the bed's rail whatever this says.
    pub fn lowest(&self) -> Length {
        let below = self.lower.as_ref().map_or(Length::default(), |l| (l.gap + l.stick.width) * l.count as f64);
        self.top - self.rail.width - below
    }

    /// The clear gaps inside it: from rail to rail, and from bar to bar.
    pub fn gaps(&self) -> Vec<Length> {
        self.lower.iter().map(|l| l.gap).chain(self.bars.iter().map(|b| b.gap)).collect()
    }
}

impl Platform {
    /// How long an edge is.
    pub fn extent(&self, edge: Edge) -> Length {
        match edge {
            Edge::Left | Edge::Right => self.length,
            Edge::Head | Edge::Foot => self.width,
        }
    }

    /// The unbroken lengths of the guard, edge by edge: an opening cuts a side into one or two.
    pub fn guard_runs(&self) -> Vec<Run> {
        self.guard.as_ref().map(|guard| self.runs_of(guard)).unwrap_or_default()
    }

    /// The unbroken lengths of such a guard on this platform.
    pub fn runs_of(&self, guard: &Guard) -> Vec<Run> {
        let mut out = Vec::new();
        for edge in guard.edges.iter().copied() {
            let whole = self.extent(edge);
            let none = Length::default();
            let pieces = match guard.opening.as_ref().filter(|o| Edge::from(o.side) == edge) {
                None => vec![[none, whole]],
                Some(o) => match o.at {
                    Spot::Head => vec![[o.width, whole]],
                    Spot::Foot => vec![[none, whole - o.width]],
                    Spot::Middle => vec![[none, (whole - o.width) / 2.0], [(whole + o.width) / 2.0, whole]],
                },
            };
            out.extend(pieces.into_iter().map(|from_to| Run { edge, from_to, posts: guard.posts.along(from_to) }));
        }
        out
    }

    /// The rail along an edge, which a guard's posts and a ladder are screwed to, and the slats' top above its lower
    /// edge. At the head and the foot it is the end rail; where there is none, the left rail stands for what is there.
    pub fn rail_along(&self, edge: Edge) -> (&Stick, Length) {
        let side = usize::from(edge == Edge::Right);
        let rail = &self.sides[side].rail;
        let above = self.slats_above_rail_foot(side);
        match &self.end_rails {
            Some(e) if matches!(edge, Edge::Head | Edge::Foot) => (&e.stick, above + e.below(rail)),
            _ => (&rail.stick, above),
        }
    }

    /// From the lower edge of the rail along an edge to a guard's top: as long as its posts and bars are.
    pub fn guard_height(&self, guard: &Guard, edge: Edge) -> Length {
        self.rail_along(edge).1 + guard.top
    }

    /// The slats' top above the lower edge of a side's rail.
    pub fn slats_above_rail_foot(&self, side: usize) -> Length {
        let s = &self.sides[side];
        s.rise + s.cleat.width + self.slats.depth()
    }
}

impl GuardPosts {
    /// Posts over a run: one at `first` from each end, the rest evenly between at no more than `pitch`.
    fn along(&self, [from, to]: [Length; 2]) -> Vec<Length> {
        let run = to - from - self.first * 2.0;
        // A pitch of exactly a third of the run must give three spaces, whatever the last bit says.
        let spaces = (run.value / self.pitch.value - 1e-9).ceil().max(1.0) as usize;
        (0..=spaces).map(|k| from + self.first + run * (k as f64 / spaces as f64)).collect()
    }
}
