//! What holds a rail up: its end joints, or the studs behind it.

use super::Builder;
use crate::brief::{EndKeys, JointWord, StudKeys, Typed, WoodKeys};
use crate::platform::stick::sane;
use crate::platform::wood::{usual_stud, wood};
use crate::platform::{EndJoint, EndKind, Holder, Stick, Studs};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, fraction_of_inch};

impl Builder<'_> {
    /// The end joint of a rail, or of a `piece` that is held as one.
    pub(super) fn end_joint(&mut self, k: &EndKeys, rail: &Stick, piece: &str) -> Option<EndJoint> {
        let post = k.post.as_ref().map(|w| wood(w, (4.0, 4.0), false, self.rules, self.tables, &mut self.m));
        let joint = k.joint.as_ref()?;
        self.onto_end_rail(joint, k)?;
        let bolted = joint.value == JointWord::Bolts;
        let kind = if bolted { None } else { Some(self.end_kind(k, rail, piece)?) };
        let screws = kind.as_ref().and_then(EndKind::screws);
        let fastened = bolted || screws.is_some();
        if let (Some(_), Some(w)) = (&self.post, &k.post) {
            let span = match w {
                WoodKeys::Named(t) => &t.span,
                WoodKeys::Described { span, .. } | WoodKeys::InBoth { span, .. } => span,
            };
            let (whose, table) = match self.holder {
                Holder::Post => ("posts'", "[posts]"),
                Holder::EndRail => ("end rails'", "[end_rails]"),
            };
            let help = format!("take `post` out: {table} names it");
            self.m.add(span, format!("the {whose} wood is given twice"), "", help);
        }
        let described = self.post.as_ref().map(|post| post.as_ref().map(|post| post.wood.clone()));
        let post = match post.or(described) {
            Some(wood) => wood?,
            None => {
                if fastened {
                    self.assume(format!("posts are of the {piece}'s wood, {}", rail.wood.name()));
                }
                rail.wood.clone()
            }
        };
        let kind = match kind {
            Some(kind) => kind,
            None => EndKind::Bolts(self.bolts(k, rail, piece, &post)?),
        };
        let evenly = rail.width / (kind.count().unwrap_or(1) as f64 + 1.0);
        let edge = self.on_rail("edge", piece, k.edge.as_ref(), rail.width, evenly)?;
        if k.edge.is_none() && fastened {
            let what = if bolted { "bolts" } else { "screws" };
            self.assume(format!("end {what} stand evenly up the {piece}, {} from its edges", fraction_of_inch(edge)));
        }
        if let Some(e) = &k.end {
            sane("end", e, inch(0.25), inch(16.0), &mut self.m)?;
        }
        // A bolted rail is flush with the far side of its post.
        let usual = if let EndKind::Bolts(bolts) = &kind { bolts.post.width / 2.0 } else { inch(1.5) };
        let end = k.end.as_ref().map_or(usual, |e| e.value);
        if k.end.is_none() {
            match &kind {
                EndKind::SideGrain { .. } => self.assume(format!("end screws are 1-1/2 in from the {piece}'s end")),
                EndKind::Bolts(_) => self.assume(format!(
                    "end bolts stand in the middle of the post, {} from the {piece}'s end",
                    fraction_of_inch(end)
                )),
                _ => {}
            }
        }
        let cut = self.cut(k, rail)?;
        Some(EndJoint { holder: self.holder, kind, edge, end, post, cut })
    }

    fn end_kind(&mut self, k: &EndKeys, rail: &Stick, piece: &str) -> Option<EndKind> {
        let joint = k.joint.as_ref()?.value;
        match joint {
            JointWord::Glue => return Some(EndKind::Glue),
            JointWord::Bearing => {
                let length = k.bearing.as_ref()?;
                sane("bearing", length, inch(0.25), inch(16.0), &mut self.m)?;
                return Some(EndKind::Bearing { length: length.value });
            }
            JointWord::Notch => return self.notch(k, rail, piece).map(EndKind::Notch),
            JointWord::Screws | JointWord::Lags | JointWord::Bolts | JointWord::PocketScrews => {}
        }
        let screw = self.screw(k.screw.as_ref(), k.lag.as_ref())?;
        let screw = self.declared(screw, k.declared.as_ref());
        let typed = k.screw.as_ref().or(k.lag.as_ref()).map_or(&k.span, |s| &s.span);
        let count = k.count.as_ref()?;
        if count.value > 12 {
            self.m.add(&count.span, format!("{} screws do not fit in a {piece}'s end", count.value), "", "12 at most");
            return None;
        }
        let count = count.value;
        if joint == JointWord::PocketScrews {
            return Some(EndKind::Pocket { screw, count });
        }
        if !k.into_end_grain.as_ref()?.value {
            self.reaches(&screw, typed, rail.thickness, piece)?;
            return Some(EndKind::SideGrain { screw, count });
        }
        let through = k.through.as_ref()?;
        sane("through", through, inch(0.25), inch(16.0), &mut self.m)?;
        self.reaches(&screw, typed, through.value, "post")?;
        Some(EndKind::EndGrain { screw, count, through: through.value })
    }

    fn on_rail(
        &mut self,
        key: &str,
        piece: &str,
        t: Option<&Typed<Length>>,
        depth: Length,
        default: Length,
    ) -> Option<Length> {
        match t {
            Some(t) if t.value <= Length::default() || t.value > depth / 2.0 => {
                let help = format!("write something up to {}, half its depth", fraction_of_inch(depth / 2.0));
                self.m.add(&t.span, format!("this `{key}` does not lie on the {piece}"), "", help);
                None
            }
            Some(t) => Some(t.value),
            None => Some(default),
        }
    }

    pub(super) fn studs(&mut self, k: &StudKeys, rail: &Stick, length: Length, has_ends: bool) -> Option<Studs> {
        let screw = self.screw(k.screw.as_ref(), k.lag.as_ref());
        let wood = match &k.wood {
            Some(w) => wood(w, (2.0, 4.0), false, self.rules, self.tables, &mut self.m)?,
            None => {
                let stud = usual_stud(self.rules, self.tables)?;
                let what = if k.into_plate.as_ref().is_some_and(|p| p.value) { "plate is" } else { "studs are" };
                self.assume(format!("wall {what} {}", stud.words));
                stud.wood
            }
        };
        let screw = self.declared(screw?, k.declared.as_ref());
        let pitch = k.pitch.as_ref()?;
        if pitch.value < inch(4.0) || pitch.value > length {
            let help = format!("write something from 4 in to {}", fraction_of_inch(length));
            self.m.add(&pitch.span, "this stud `pitch` does not fit the rail", "", help);
            return None;
        }
        let typed = k.screw.as_ref().or(k.lag.as_ref()).map_or(&k.span, |s| &s.span);
        if let Some(g) = &k.gap {
            sane("gap", g, inch(0.125), inch(3.0), &mut self.m)?;
        }
        let gap = k.gap.as_ref().map_or(Length::default(), |g| g.value);
        let through = if k.gap.is_some() { "rail and its spacer" } else { "rail" };
        self.reaches(&screw, typed, rail.thickness + gap, through)?;
        let count = k.count.as_ref().map_or(1, |c| c.value);
        if let Some(u) = &k.up
            && (u.value <= Length::default() || u.value >= rail.width)
        {
            let help =
                format!("write something from the rail's lower edge, less than {}", fraction_of_inch(rail.width));
            self.m.add(&u.span, "the lowest screw into the wall misses the rail", "", help);
            return None;
        }
        let up = k.up.as_ref().map_or(rail.width / (count as f64 + 1.0), |u| u.value);
        if let Some(f) = &k.first
            && (f.value < Length::default() || f.value >= length)
        {
            let help = format!("write something from 0 in to less than {}", fraction_of_inch(length));
            self.m.add(&f.span, "this `first` stud does not stand behind the rail", "", help);
            return None;
        }
        if let Some(c) = &k.count
            && c.value > 4
        {
            self.m.add(&c.span, format!("{} screws do not fit in one stud", c.value), "", "at most 4");
            return None;
        }
        let first = k.first.as_ref().map_or(inch(1.5), |f| f.value);
        if k.first.is_none() {
            self.assume("the first stud is 1-1/2 in from the rail's head end".into());
        }
        // A stud exactly at the rail's foot end holds nothing, whatever the last bit says.
        let inside = length - millimetre(0.001);
        let stud = |k: i32| first + pitch.value * f64::from(k);
        let positions: Vec<Length> = (0..).map(stud).take_while(|x| *x < inside).collect();
        if positions.len() + usize::from(has_ends) < 2 {
            self.m.add(&pitch.span, "a rail needs at least two studs", "", "write a smaller pitch");
            return None;
        }
        let plate = k.into_plate.as_ref().is_some_and(|p| p.value);
        Some(Studs { screw, count, positions, wood, gap, plate, up })
    }
}
