//! The ladder as the brief describes it.

use super::Builder;
use crate::brief::{Brief, LadderKeys, RungEndKeys, RungJointWord, RungKeys, StickKeys};
use crate::platform::stick::{sane, stick};
use crate::platform::{Ladder, Platform, Rung, RungEnd, Stick};
use crate::quantity::unit::inch;
use crate::quantity::{Length, fraction_of_inch};

impl Builder<'_> {
    pub(super) fn ladder(&mut self, k: &LadderKeys, p: &Platform, brief: &Brief) -> Option<Ladder> {
        for (key, typed, least, most) in [
            ("width", &k.width, inch(8.0), inch(48.0)),
            ("pitch", &k.pitch, inch(4.0), inch(24.0)),
            ("first", &k.first, inch(2.0), inch(36.0)),
        ] {
            if let Some(t) = typed {
                sane(key, t, least, most, &mut self.m);
            }
        }
        let rung = k.rungs.as_ref().and_then(|r| self.rung(r));
        let stringer = k.stringers.as_ref().and_then(|s| stick(s, "stringers", self.rules, self.tables, &mut self.m));
        let ends = match (&k.ends, &stringer) {
            (Some(e), Some(s)) => self.rung_end(e, s, rung.as_ref()),
            _ => None,
        };
        let top = match &k.top {
            Some(f) => self.fixing(f, stringer.as_ref(), "stringer"),
            None => None,
        };
        let Some(height) = p.height else {
            let span = brief.platform.as_ref().map_or(0..0, |p| p.span.clone());
            let help = "write height = \"60 in\", the slats' top above the floor";
            self.m.add(&span, "a ladder needs the platform's height", "`height` is missing here", help);
            return None;
        };
        if let Some(first) = k.first.as_ref().filter(|f| f.value >= height) {
            let help = format!("write something less than {}, the height of the slats", fraction_of_inch(height));
            self.m.add(&first.span, "the first rung is above the platform", "", help);
            return None;
        }
        if let Some(out) = k.out.as_ref().filter(|o| o.value > height) {
            let help = format!("write {} or less", fraction_of_inch(height));
            self.m.add(&out.span, "this ladder lies flatter than it stands", "", help);
            return None;
        }
        if k.out.is_none() {
            self.assume("the ladder stands upright".into());
        }
        Some(Ladder {
            edge: k.side.as_ref()?.value,
            rung: rung?,
            width: k.width.as_ref()?.value,
            pitch: k.pitch.as_ref()?.value,
            first: k.first.as_ref()?.value,
            height,
            out: k.out.as_ref().map_or(Length::default(), |o| o.value),
            stringer: stringer?,
            ends: ends?,
            top: top?,
        })
    }

    fn rung(&mut self, k: &RungKeys) -> Option<Rung> {
        if let Some(asked) = &k.pipe {
            return match self.tables.pipes().find(&asked.value) {
                Ok(pipe) => Some(Rung::Pipe(pipe.clone())),
                Err(e) => {
                    self.m.add(&asked.span, e.to_string(), "", e.help());
                    None
                }
            };
        }
        let Some(diameter) = &k.diameter else {
            return stick(&k.tread, "rungs", self.rules, self.tables, &mut self.m).map(Rung::Tread);
        };
        let both = Some(diameter.clone());
        let square = StickKeys { size: None, thickness: both.clone(), width: both, ..k.tread.clone() };
        stick(&square, "rungs", self.rules, self.tables, &mut self.m).map(Rung::Round)
    }

    fn rung_end(&mut self, k: &RungEndKeys, stringer: &Stick, rung: Option<&Rung>) -> Option<RungEnd> {
        match k.joint.as_ref()?.value {
            RungJointWord::Housed => {
                let depth = k.depth.as_ref()?;
                if depth.value > stringer.thickness || depth.value < inch(0.125) {
                    let help = format!(
                        "write something from 1/8 in to {}, the stringer's thickness",
                        fraction_of_inch(stringer.thickness)
                    );
                    self.m.add(&depth.span, "a rung cannot be let in so far", "", help);
                    return None;
                }
                Some(RungEnd::Housed { depth: depth.value })
            }
            RungJointWord::Screws => {
                let screw = self.screw(k.screw.as_ref(), None)?;
                let count = k.count.as_ref()?;
                let typed = k.screw.as_ref().map_or(&k.span, |s| &s.span);
                if let Some(Rung::Pipe(_)) = rung {
                    let help = "let it into the stringers: joint = \"housed\"";
                    self.m.add(typed, "a wood screw does not hold in the end of a pipe", "", help);
                    return None;
                }
                self.reaches(&screw, typed, stringer.thickness, "stringer")?;
                if count.value > 4 {
                    self.m.add(
                        &count.span,
                        format!("{} screws do not fit in a rung's end", count.value),
                        "",
                        "4 at most",
                    );
                    return None;
                }
                Some(RungEnd::Screws { screw, count: count.value })
            }
        }
    }
}
