//! What stands under the rails' ends.

use super::Builder;
use crate::brief::{PostKeys, TopWord};
use crate::platform::stick::sane;
use crate::platform::{EndKind, Held, Platform, Posts, Stick, Top, Way};
use crate::quantity::unit::inch;
use crate::quantity::{Length, fraction_of_inch};

impl Builder<'_> {
    /// The posts under a platform that is otherwise built.
    pub(super) fn posts(&mut self, k: &PostKeys, stick: Stick, p: &Platform) -> Option<Posts> {
        if p.sides.iter().all(|s| s.rail.ends.is_none()) {
            let help =
                "write ends = { joint = \"bearing\", bearing = \"1-1/2 in\" } under [rails], or leave the posts out";
            self.m.add(&k.stick.span, "posts stand under the ends of rails, and no rail has `ends`", "", help);
            return None;
        }
        let braced = Way::ALL.into_iter().all(|way| p.held(way) == Held::Diagonals);
        let top = match k.top.as_ref().map(|t| t.value) {
            Some(TopWord::Free) if !p.bracing.walls.is_empty() => {
                let span = k.top.as_ref().map_or(&k.stick.span, |t| &t.span);
                let help = "write top = \"wall\", or take [bracing] out";
                self.m.add(span, "posts cannot be free at the top of a platform that is fixed to a wall", "", help);
                return None;
            }
            Some(TopWord::Free) if braced => {
                let span = k.top.as_ref().map_or(&k.stick.span, |t| &t.span);
                let help = "leave `top` out, or take the diagonals out";
                self.m.add(span, "posts cannot be free at the top of a platform braced on four sides", "", help);
                return None;
            }
            Some(TopWord::Free) => Top::Free,
            Some(TopWord::Braced) => Top::Braced,
            Some(TopWord::Wall) => Top::Wall,
            None if p.stands_at_a_wall() => {
                self.assume("posts are kept from swaying by the wall that the platform is fixed to".into());
                Top::Wall
            }
            None if braced => Top::Braced,
            None => {
                self.assume("posts are taken as free to sway at the top".into());
                Top::Free
            }
        };
        self.when_free(top);
        if stick.thickness != stick.width {
            self.assume("posts stand with their thickness across the platform and their width along it".into());
        }
        let along = if p.end_rails.is_some() { stick.thickness } else { stick.width };
        for (_, ends) in (0..2).filter_map(|s| p.on_posts(s)) {
            if let EndKind::Bearing { length } = ends.kind
                && length > along
            {
                let (rests, wide) = (fraction_of_inch(length), fraction_of_inch(along));
                let message =
                    format!("a rail's end rests on {rests}, but the post below is only {wide} along the rail");
                self.m.add(&k.stick.span, message, "", "use wider posts, or a shorter `bearing`");
                return None;
            }
        }
        let lengths = match &k.length {
            Some(t) => {
                sane("length", t, inch(1.0), inch(240.0), &mut self.m)?;
                [t.value; 2]
            }
            None => self.down_to_the_floor(k, p)?,
        };
        Some(Posts { stick, lengths, top })
    }

    /// What a free top is taken to mean.
    pub(super) fn when_free(&mut self, top: Top) {
        if top == Top::Free {
            self.assume(
                "a post or leg that sways counts as 2.4 times as long against buckling: pinned on the floor, its \
                 top kept from turning by what it carries (NDS appendix G, from memory)"
                    .into(),
            );
        }
    }

    /// From the floor up to each rail: to its lower edge where it rests on the post, else to its middle.
    fn down_to_the_floor(&mut self, k: &PostKeys, p: &Platform) -> Option<[Length; 2]> {
        let mut out = [Length::default(); 2];
        for (s, length) in out.iter_mut().enumerate() {
            let Some(edge) = p.rail_above_floor(s) else {
                let help =
                    "write length = \"12 in\", from the floor to where the rail is held, or `height` under [platform]";
                self.m.add(&k.stick.span, "`posts` has no `length`, and the platform no `height`", "", help);
                return None;
            };
            let rail = &p.sides[s].rail;
            let edge = edge - p.end_rails.as_ref().map(|e| e.below(rail)).unwrap_or_default();
            let Some((stick, ends)) = p.on_posts(s) else {
                *length = edge + rail.stick.width / 2.0;
                continue;
            };
            *length = if ends.kind.rests() { edge + ends.cut.unwrap_or_default() } else { edge + stick.width / 2.0 };
            if *length < inch(1.0) {
                self.m.add(
                    &k.stick.span,
                    "the platform is too low for posts: its rails reach the floor",
                    "",
                    "give the platform more `height`, set the cleats lower on the rails, or leave the posts out",
                );
                return None;
            }
        }
        let held: Vec<Length> = (0..2).filter(|s| p.sides[*s].rail.ends.is_some()).map(|s| out[s]).collect();
        let words: Vec<String> = held.iter().map(|l| crate::quantity::length_for_builder(*l, p.units)).collect();
        let words = if words.windows(2).all(|w| w[0] == w[1]) { words[0].clone() } else { words.join(" and ") };
        self.assume(format!(
            "posts are {words} long, from the floor to where the rail is held, by the platform's height"
        ));
        Some(out)
    }
}
