//! The end rails, and what may be held by them.

use super::Builder;
use crate::brief::{EndKeys, EndRailKeys, JointWord, KneeKeys, Typed};
use crate::platform::stick::{sane, stick};
use crate::platform::{EndKind, EndRails, Holder, Platform, Stick};
use crate::quantity::unit::millimetre;
use crate::quantity::{Length, fraction_of_inch};

/// What may hold a rail to an end rail, in words for a builder.
const ONTO: &str =
    "write joint = \"bearing\", or \"screws\" or \"lags\" with into = \"end grain\", or \"pocket screws\"";

impl Builder<'_> {
    /// The end rails by themselves: their ends meet the posts' sides of the other name.
    pub(super) fn end_rails(&mut self, k: &EndRailKeys) -> Option<EndRails> {
        let made = stick(&k.stick, "end_rails", self.rules, self.tables, &mut self.m);
        let turned = |post: &Stick| Stick { thickness: post.width, width: post.thickness, ..post.clone() };
        let posts = self.post.clone();
        self.post = posts.as_ref().map(|post| post.as_ref().map(turned));
        let made = made?;
        let ends = k.ends.as_ref().and_then(|ends| self.end_joint(ends, &made, "end rail"));
        self.post = posts;
        let (inset, rise) = (k.inset.as_ref().map(|t| t.value), k.rise.as_ref().map(|t| t.value));
        Some(EndRails { stick: made, ends: ends?, inset: inset.unwrap_or_default(), rise: rise.unwrap_or_default() })
    }

    /// Whether a joint holds something to an end rail, or to anything else that may hold it.
    pub(super) fn onto_end_rail(&mut self, joint: &Typed<JointWord>, k: &EndKeys) -> Option<()> {
        if self.holder == Holder::Post {
            return Some(());
        }
        let holder = self.post.clone().flatten();
        match joint.value {
            JointWord::Screws | JointWord::Lags if k.into_end_grain.as_ref().is_some_and(|into| into.value) => {
                let (through, holder) = (k.through.as_ref()?, holder?);
                if (through.value - holder.thickness).abs() > millimetre(0.5) {
                    let thick = fraction_of_inch(holder.thickness);
                    let what = format!("these screws pass through an end rail, which is {thick} thick");
                    self.m.add(&through.span, what, "", format!("write through = \"{thick}\""));
                    return None;
                }
            }
            JointWord::Screws | JointWord::Lags => {
                let into = k.into_end_grain.as_ref()?;
                let what = "an end rail lies across a rail's end: no screw goes through the rail's face into it";
                self.m.add(&into.span, what, "", ONTO);
                return None;
            }
            JointWord::Bolts | JointWord::Notch => {
                let what = "this joint goes with a post, and with [end_rails] nothing but them holds the ends";
                self.m.add(&joint.span, what, "", ONTO);
                return None;
            }
            JointWord::Bearing => {
                let (length, holder) = (k.bearing.as_ref()?, holder?);
                if length.value > holder.thickness + millimetre(0.01) {
                    let thick = fraction_of_inch(holder.thickness);
                    let what = format!("an end rail {thick} thick has less to rest on");
                    self.m.add(&length.span, what, "", format!("write bearing = \"{thick}\" or less"));
                    return None;
                }
            }
            JointWord::PocketScrews | JointWord::Glue => {}
        }
        Some(())
    }

    /// The end rails of a platform that is otherwise built.
    pub(super) fn under_rails(&mut self, k: &EndRailKeys, made: EndRails, p: &Platform) -> Option<EndRails> {
        if p.sides.iter().any(|s| s.rail.ends.is_none()) {
            let what = "end rails carry the ends of both rails, and one that hangs on a wall alone has none";
            let help = "write `ends` for that rail, or leave [end_rails] out";
            self.m.add(&k.stick.span, what, "", help);
            return None;
        }
        match &k.inset {
            Some(t) => sane("inset", t, Length::default(), p.width / 2.0, &mut self.m)?,
            None => self.assume("the side rails meet the end rails right beside what holds those".into()),
        }
        self.level(k, &made, p)?;
        if p.centre_beam.is_some() {
            self.assume("the centre beam's ends are held by the end rails".into());
        }
        Some(made)
    }

    /// Whether both rails lie where a level end rail can carry them.
    fn level(&mut self, k: &EndRailKeys, made: &EndRails, p: &Platform) -> Option<()> {
        let ends = p.sides.iter().filter_map(|s| s.rail.ends.as_ref().map(|e| (&s.rail.stick, e)));
        let hung: Vec<Length> = ends.filter_map(|(rail, e)| e.highest_screw(rail)).collect();
        if let Some(rise) = &k.rise
            && hung.is_empty()
        {
            let what = "`rise` does nothing for rails that rest on the end rails";
            self.m.add(&rise.span, what, "", "take it out");
            return None;
        }
        let rests = |s: usize| p.sides[s].rail.ends.as_ref().is_some_and(|e| matches!(e.kind, EndKind::Bearing { .. }));
        let foot = |s: usize| {
            p.slats_above_rail_foot(s) - p.sides[s].rail.ends.as_ref().and_then(|e| e.cut).unwrap_or_default()
        };
        if rests(0) && rests(1) && (foot(0) - foot(1)).abs() > millimetre(1.0) {
            let apart = fraction_of_inch((foot(0) - foot(1)).abs());
            let what =
                format!("the lower edges of the two rails are {apart} apart in height, and an end rail is level");
            self.m.add(&k.stick.span, what, "", "give both rails the same depth and their cleats the same `rise`");
            return None;
        }
        let Some(highest) = hung.into_iter().reduce(Length::max) else { return Some(()) };
        if k.rise.is_none() {
            self.assume("the lower edges of side rails and end rails are level".into());
        }
        if made.rise + highest >= made.stick.width {
            let span = k.rise.as_ref().map_or(&k.stick.span, |t| &t.span);
            let what = format!("the rails' screws do not meet an end rail {} deep", fraction_of_inch(made.stick.width));
            self.m.add(span, what, "", "use deeper end rails, or another `rise` of the rails above their lower edges");
            return None;
        }
        Some(())
    }

    /// Knee braces have no post to meet where rails end at end rails.
    pub(super) fn no_knees(&mut self, k: &KneeKeys, end_rails: bool) -> Option<()> {
        if !end_rails {
            return Some(());
        }
        let help = "brace it by diagonals, or screw the rails to the posts and leave [end_rails] out";
        self.m.add(
            &k.stick.span,
            "knee braces run from posts to rails, and with [end_rails] no rail meets a post",
            "",
            help,
        );
        None
    }
}
