//! Notches: the shoulder in a post that a rail rests on, and what is cut out of the rail itself.

use super::Builder;
use crate::brief::EndKeys;
use crate::platform::stick::sane;
use crate::platform::{Keeper, Notch, Stick};
use crate::quantity::unit::inch;
use crate::quantity::{Length, fraction_of_inch};

/// What must be left of a post beside a notch; a choice, no source.
const LEAST_LEFT: f64 = 0.5;

impl Builder<'_> {
    /// The shoulder that a rail rests on.
    pub(super) fn notch(&mut self, k: &EndKeys, rail: &Stick, piece: &str) -> Option<Notch> {
        let post = match &self.post {
            Some(post) if piece == "rail" => post.clone()?,
            _ => {
                let what = format!("no post is described under the {piece}'s ends for a notch");
                let help = "write joint = \"bearing\"; a rail's posts are [posts] with wood and size";
                self.m.add(&k.span, what, "", help);
                return None;
            }
        };
        let depth = self.depth(k, rail, &post)?;
        let length = match &k.bearing {
            Some(t) => {
                sane("bearing", t, inch(0.25), post.width, &mut self.m)?;
                t.value
            }
            None => {
                self.assume("rails rest on the whole width of the notched posts".into());
                post.width
            }
        };
        let kept_by = self.keeper(k, rail, post.thickness - depth)?;
        Some(Notch { length, depth, kept_by })
    }

    fn depth(&mut self, k: &EndKeys, rail: &Stick, post: &Stick) -> Option<Length> {
        let deepest = post.thickness - inch(LEAST_LEFT);
        let most = if rail.thickness < deepest { rail.thickness } else { deepest };
        let Some(t) = &k.depth else {
            if rail.thickness > deepest {
                let left = "a notch as deep as the rail is thick leaves less than 1/2 in of the post";
                let help = format!("use thicker posts, or write depth = \"{}\" or less", fraction_of_inch(deepest));
                self.m.add(&k.span, left, "", help);
                return None;
            }
            self.assume("notches in the posts are as deep as the rail is thick".into());
            return Some(rail.thickness);
        };
        sane("depth", t, inch(0.25), most, &mut self.m).map(|()| t.value)
    }

    /// What keeps the rail in the notch: through it and through, or into, what is left of the post.
    fn keeper(&mut self, k: &EndKeys, rail: &Stick, left: Length) -> Option<Option<Keeper>> {
        let Some(count) = &k.count else { return Some(None) };
        if count.value > 6 {
            self.m.add(&count.span, format!("{} fasteners do not fit in a rail's end", count.value), "", "6 at most");
            return None;
        }
        let what = match &k.bolt {
            Some(typed) => format!("bolts {}", self.bolt_through(typed, rail.thickness + left)?),
            None => {
                let screw = self.screw(k.screw.as_ref(), k.lag.as_ref())?;
                let span = k.screw.as_ref().or(k.lag.as_ref()).map_or(&k.span, |s| &s.span);
                self.reaches(&screw, span, rail.thickness, "rail")?;
                format!("screws {}", screw.designation)
            }
        };
        Some(Some(Keeper { count: count.value, what }))
    }

    /// What is cut out of a rail's lower edge where it rests.
    pub(super) fn cut(&mut self, k: &EndKeys, rail: &Stick) -> Option<Option<Length>> {
        let Some(t) = &k.cut else { return Some(None) };
        sane("cut", t, inch(0.0625), rail.width / 2.0, &mut self.m)?;
        self.assume("rails are cut square at their ends, as far as they rest".into());
        Some(Some(t.value))
    }
}
