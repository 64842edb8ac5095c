//! The centre beam and its legs.

use super::Builder;
use crate::brief::{BeamKeys, LegKeys, TopWord};
use crate::platform::stick::{sane, stick};
use crate::platform::{CentreBeam, Legs, Platform, Stick, Top};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, fraction_of_inch, length_for_builder};

/// Most legs under one beam. No source: a bound on the work.
const MOST_LEGS: usize = 12;

impl Builder<'_> {
    /// The centre beam of a platform that is otherwise built.
    pub(super) fn centre_beam(&mut self, k: &BeamKeys, beam: Stick, p: &Platform) -> Option<CentreBeam> {
        let ends = self.end_joint(k.ends.as_ref()?, &beam, "centre beam")?;
        let at = k.at.as_ref().map_or(p.width / 2.0, |t| t.value);
        if k.at.is_none() {
            self.assume("the centre beam lies in the middle".into());
        }
        let half = beam.thickness / 2.0;
        let [left, right] = [p.sides[0].cleat.thickness + half, p.width - p.sides[1].cleat.thickness - half];
        if at <= left || at >= right {
            let (least, most) = (fraction_of_inch(left), fraction_of_inch(right));
            let span = k.at.as_ref().map_or(&k.stick.span, |t| &t.span);
            let help = format!("write something between {least} and {most}, from the left rail to the beam's middle");
            self.m.add(span, "the centre beam does not lie between the cleats", "", help);
            return None;
        }
        let fixed = k.fixed.as_ref().is_some_and(|f| f.value);
        if k.fixed.is_none() {
            self.assume("slats are not screwed down to the centre beam and may part from it".into());
        }
        if let (Some(f), true, false) = (&k.fixed, fixed, p.slats.fixed) {
            let help = "write fixed = true under [slats] too, or leave it out here";
            self.m.add(&f.span, "slats screwed to the centre beam but not to the cleats are not covered", "", help);
            return None;
        }
        let legs = match &k.legs {
            Some(keys) => Some(self.legs(keys, &beam, p)?),
            None => None,
        };
        Some(CentreBeam { stick: beam, at, ends, legs, fixed })
    }

    fn legs(&mut self, k: &LegKeys, beam: &Stick, p: &Platform) -> Option<Legs> {
        let stick = stick(&k.stick, "legs", self.rules, self.tables, &mut self.m)?;
        let positions = self.leg_positions(k, &stick, p)?;
        let top = match k.top.as_ref().map(|t| t.value) {
            Some(TopWord::Free) => Top::Free,
            Some(TopWord::Braced) => Top::Braced,
            Some(TopWord::Wall) => Top::Wall,
            None => {
                self.assume("legs under the centre beam are taken as free to sway at the top".into());
                Top::Free
            }
        };
        self.when_free(top);
        let length = match (&k.length, p.height) {
            (Some(t), _) => {
                sane("length", t, inch(1.0), inch(240.0), &mut self.m)?;
                t.value
            }
            (None, Some(h)) => {
                let length = h - p.slats.depth() - beam.width;
                if length < inch(1.0) {
                    let help = "give the platform more `height`, use a shallower beam, or leave the legs out";
                    let message = "the platform is too low for legs: its centre beam reaches the floor";
                    self.m.add(&k.stick.span, message, "", help);
                    return None;
                }
                let words = length_for_builder(length, p.units);
                self.assume(format!(
                    "legs are {words} long, from the floor to the centre beam, by the platform's height"
                ));
                length
            }
            (None, None) => {
                let help = "write length = \"12 in\", from the floor to the beam, or `height` under [platform]";
                self.m.add(&k.stick.span, "`legs` has no `length`, and the platform no `height`", "", help);
                return None;
            }
        };
        Some(Legs { stick, positions, length, top })
    }

    fn leg_positions(&mut self, k: &LegKeys, stick: &Stick, p: &Platform) -> Option<Vec<Length>> {
        if let Some(c) = &k.count {
            if c.value > MOST_LEGS {
                let message = format!("{} legs are more than can be checked", c.value);
                self.m.add(&c.span, message, "", format!("{MOST_LEGS} at most"));
                return None;
            }
            return Some(Legs::evenly(c.value, p.length));
        }
        let at = k.at.as_ref()?;
        let mut all = at.value.clone();
        all.sort_by(|a, b| a.value.total_cmp(&b.value));
        let half = stick.width / 2.0;
        if all.iter().any(|x| *x < half || *x > p.length - half) {
            let (least, most) = (fraction_of_inch(half), fraction_of_inch(p.length - half));
            let help = format!("write something from {least} to {most}, from the head to the leg's middle");
            self.m.add(&at.span, "a leg does not stand under the centre beam", "", help);
            return None;
        }
        if all.windows(2).any(|w| w[1] - w[0] < stick.width - millimetre(0.01)) {
            let help = format!("legs {} wide stand at least so far apart", fraction_of_inch(stick.width));
            self.m.add(&at.span, "two legs stand in the same place", "", help);
            return None;
        }
        Some(all)
    }
}
