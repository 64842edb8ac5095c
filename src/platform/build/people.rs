//! Who is on the platform, what they lie on and how they lie.

use super::Builder;
use crate::brief::{Brief, PersonKeys, Typed};
use crate::platform::people::{Mattress, Person, Posture};
use crate::platform::stick::sane;
use crate::quantity::unit::{inch, kilogram, metre, pound};
use crate::quantity::{Length, Mass};
use crate::tables::occupants::{Body, Segment};

/// Heaviest body a platform is checked for. Heavier than any published case: surely a slip.
fn heaviest_body() -> Mass {
    kilogram(450.0)
}

/// Most people one platform is checked for. No source: a bound on the work.
const MOST_SLEEPERS: usize = 40;

impl Builder<'_> {
    pub(super) fn mattress(&mut self, brief: &Brief) -> Option<Mattress> {
        let Some(keys) = &brief.mattress else {
            self.assume("no mattress in the brief: people are taken to rest on bare slats".into());
            return Some(Mattress { thickness: Length::default(), mass: Mass::default() });
        };
        let (t, w) = (keys.thickness.as_ref()?, keys.weight.as_ref()?);
        if t.value < Length::default() || t.value > inch(24.0) {
            self.m.add(&t.span, "no mattress is this thick", "", "write something from 0 in to 24 in (610 mm)");
            return None;
        }
        if w.value < Mass::default() || w.value > kilogram(300.0) {
            self.m.add(&w.span, "no mattress weighs this", "", "write something from 0 lb to 660 lb (300 kg)");
            return None;
        }
        Some(Mattress { thickness: t.value, mass: w.value })
    }

    fn person(&mut self, keys: &PersonKeys) -> Option<Person> {
        let (mass, preset) = match (&keys.weight, &keys.occupant) {
            (Some(Typed { value: Some(mass), span }), _) => {
                if *mass < kilogram(2.0) || *mass > heaviest_body() {
                    self.m.add(span, "nobody weighs this", "", "write a body weight from 5 lb to 990 lb (2 to 450 kg)");
                    return None;
                }
                (*mass, None)
            }
            (Some(Typed { value: None, span }), _) => {
                self.m.add(span, "only a visitor can be \"none\"", "", "leave this [[sleeper]] out instead");
                return None;
            }
            (None, Some(name)) => match self.tables.occupants().find(&name.value) {
                Ok(o) => (o.mass, Some(name.value.clone())),
                Err(e) => {
                    self.m.add(&name.span, e.to_string(), "", e.help());
                    return None;
                }
            },
            (None, None) => return None,
        };
        if let Some(h) = &keys.height {
            sane("height", h, inch(18.0), inch(90.0), &mut self.m)?;
        }
        let age = keys.age.as_ref().and_then(|a| u8::try_from(a.value).ok().filter(|a| *a <= 120));
        if let (Some(a), None) = (&keys.age, age) {
            self.m.add(&a.span, "nobody is this old", "", "write whole years, such as age = 7");
        }
        Some(Person { age, ..Person::new(mass, keys.height.as_ref().map(|h| h.value), preset, self.segments()) })
    }

    /// A man's segments, whoever lies there: the heaviest half-metre of all the published sets.
    fn segments(&self) -> Vec<Segment> {
        self.tables.occupants().segments(Body::Man)
    }

    /// Everybody who sleeps here; `None` when they are too many.
    pub(super) fn sleepers(&mut self, keys: &[PersonKeys]) -> Option<Vec<Person>> {
        let mut total = 0;
        let mut out = Vec::new();
        for k in keys {
            let count = k.count.as_ref().map_or(1, |c| c.value);
            total += count;
            if total > MOST_SLEEPERS {
                let span = k.count.as_ref().map_or(&k.span, |c| &c.span);
                let message = format!("more than {MOST_SLEEPERS} sleepers on one platform");
                self.m.add(span, message, "", "check the platform in parts");
                return None;
            }
            out.extend(self.person(k).map(|p| vec![p; count]).into_iter().flatten());
        }
        Some(out)
    }

    pub(super) fn visitor(&mut self, brief: &Brief) -> Option<Person> {
        match &brief.visitor {
            Some(PersonKeys { weight: Some(Typed { value: None, .. }), .. }) => None,
            Some(keys) => self.person(keys),
            None => {
                self.assume("a visitor of 180 lb (82 kg) sits here".into());
                Some(Person::new(pound(180.0), None, None, self.segments()))
            }
        }
    }

    /// Along the rails if every sleeper has half a metre across, else across them.
    pub(super) fn posture(&mut self, brief: &Brief, sleepers: usize, length: Length, width: Length) -> Posture {
        let n = sleepers.max(1) as f64;
        let lane = metre(0.5);
        let (along, across) = (width / n >= lane || sleepers <= 1, length / n >= metre(0.499));
        if along {
            return Posture::AlongRails;
        }
        if !across {
            let span = brief.platform.as_ref().map_or(0..0, |p| p.span.clone());
            self.m.add(
                &span,
                format!("{sleepers} sleepers do not fit side by side, half a metre (20 in) each"),
                "",
                "make the platform longer or wider, or leave out a [[sleeper]]",
            );
        }
        self.assume("sleepers lie across the rails, side by side along them".into());
        Posture::AcrossRails
    }
}
