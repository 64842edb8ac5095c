//! Braces as the brief describes them.

use super::Builder;
use crate::brief::{BracingKeys, DiagonalKeys, Edge, KneeKeys, StickKeys, Typed};
use crate::platform::stick::{sane, stick};
use crate::platform::{Bracing, Diagonals, Fixing, Knees, Platform, Posts, Stick};
use crate::quantity::unit::inch;
use crate::quantity::{Length, fraction_of_inch};

impl Builder<'_> {
    /// Walls and panels, which need nothing else of the platform.
    pub(super) fn bracing(&mut self, k: Option<&BracingKeys>) -> Bracing {
        let sides = |k: &Option<Typed<Vec<Edge>>>| k.as_ref().map_or(Vec::new(), |w| w.value.clone());
        match k {
            Some(k) => Bracing { walls: sides(&k.wall), panels: sides(&k.panels), ..Bracing::default() },
            None => Bracing::default(),
        }
    }

    pub(super) fn knees(&mut self, k: &KneeKeys, p: &Platform, posts: Option<&Posts>) -> Option<Knees> {
        let made = self.brace(&k.stick, "knees");
        let screws = k.screws.as_ref().and_then(|f| self.fixing(f, made.as_ref(), "brace"));
        for (key, typed) in [("rise", &k.rise), ("run", &k.run)] {
            if let Some(t) = typed {
                sane(key, t, inch(3.0), inch(96.0), &mut self.m)?;
            }
        }
        let (rise, run) = (k.rise.as_ref()?, k.run.as_ref()?);
        if run.value * 2.0 > p.length {
            let help = format!("write {} or less", fraction_of_inch(p.length / 2.0));
            self.m.add(&run.span, "the two braces of a rail cross", "", help);
            return None;
        }
        let shorter = |posts: &Posts| {
            let held = (0..2).filter(|s| p.sides[*s].rail.ends.is_some()).map(|s| posts.lengths[s]);
            held.fold(inch(1000.0), Length::min)
        };
        if let Some(post) = posts.map(shorter)
            && rise.value >= post
        {
            let help = format!("write something less than {}, the length of the post", fraction_of_inch(post));
            self.m.add(&rise.span, "this brace reaches the floor", "", help);
            return None;
        }
        Some(Knees { stick: made?, rise: rise.value, run: run.value, screws: screws? })
    }

    /// A brace lies with its wide side on the faces of what it holds.
    fn brace(&mut self, k: &StickKeys, what: &str) -> Option<Stick> {
        let made = stick(k, what, self.rules, self.tables, &mut self.m)?;
        if made.thickness > made.width {
            let help = "let `width` be the larger of the two: it lies in the plane of post and rail";
            self.m.add(&k.span, "a brace lies on its wide side", "", help);
            return None;
        }
        Some(made)
    }

    pub(super) fn diagonals(&mut self, k: &DiagonalKeys) -> Option<Diagonals> {
        let made = self.brace(&k.stick, "diagonals");
        let screws: Option<Fixing> = k.screws.as_ref().and_then(|f| self.fixing(f, made.as_ref(), "brace"));
        Some(Diagonals { edges: k.sides.as_ref()?.value.clone(), stick: made?, screws: screws? })
    }
}
