//! From the brief as typed to a platform that can be built, or to every reason why it cannot.

use std::ops::Range;

use super::people::{Mattress, Person, Posture};
use super::stick::{sane, stick, wood};
use super::support::{EndJoint, EndKind, Rail, ScrewRow, Studs};
use super::{CaseChange, Limits, LongSide, Platform, Slats, Stick, WoodChoice};
use crate::brief::{
    Brief, CleatKeys, EndKeys, JointWord, LayWord, Mistake, Mistakes, PersonKeys, RailKeys, RuleFamily, ScrewRowKeys,
    Side, SlatKeys, StickKeys, StudKeys, Typed,
};
use crate::quantity::unit::{inch, kilogram, metre, millimetre, pound};
use crate::quantity::{Length, Mass, fraction_of_inch};
use crate::tables::Tables;
use crate::tables::fasteners::Screw;
use crate::tables::occupants::{Body, Segment};

/// Heaviest body a platform is checked for. Heavier than any published case: surely a slip.
fn heaviest_body() -> Mass {
    kilogram(450.0)
}

impl Platform {
    /// Builds the platform a brief describes.
    ///
    /// # Errors
    ///
    /// Every mistake in the brief, in the order in which they stand there.
    pub fn build(brief: &Brief, tables: &Tables) -> Result<Platform, Vec<Mistake>> {
        let mut b = Builder { tables, m: brief.mistakes.clone(), assumptions: Vec::new() };
        let platform = b.platform(brief);
        match platform {
            Some(mut p) if b.m.is_empty() => {
                p.assumptions = b.assumptions;
                Ok(p)
            }
            _ => Err(b.m.in_order()),
        }
    }
}

struct Builder<'a> {
    tables: &'a Tables,
    m: Mistakes,
    assumptions: Vec<String>,
}

impl Builder<'_> {
    fn platform(&mut self, brief: &Brief) -> Option<Platform> {
        if brief.rules.value == RuleFamily::LimitState {
            self.m.add(
                &brief.rules.span,
                "the ec5 rules are not built into this version",
                "",
                "write rules = \"asd\"; a bed measured in millimetres can be checked by those too",
            );
        }
        let keys = brief.platform.as_ref();
        let length = keys.and_then(|k| self.extent("length", k.length.as_ref(), inch(480.0)));
        let width = keys.and_then(|k| self.extent("width", k.width.as_ref(), inch(160.0)));
        if let Some(h) = keys.and_then(|k| k.height.as_ref()) {
            sane("height", h, inch(1.0), inch(240.0), &mut self.m);
        }
        let mattress = self.mattress(brief);
        let sleepers: Vec<Person> = brief.sleepers.iter().flat_map(|k| self.people(k)).collect();
        let visitor = self.visitor(brief);
        let slat_stick = brief.slats.as_ref().and_then(|k| stick(&k.stick, "slats", self.tables, &mut self.m));
        let cleat = brief.cleats.as_ref().and_then(|k| stick(&k.stick, "cleats", self.tables, &mut self.m));
        let rails = brief.rails.as_ref().map(|k| self.rails(k, length));
        let row = brief
            .cleats
            .as_ref()
            .and_then(|k| k.screws.as_ref())
            .and_then(|k| self.screw(k.screw.as_ref(), k.lag.as_ref()));
        let (length, width) = (length?, width?);
        let posture = self.posture(brief, sleepers.len(), length, width);
        let cleat_keys = brief.cleats.as_ref()?;
        let cleat = cleat?;
        let slats = self.slats(brief.slats.as_ref()?, slat_stick?, length, width, &cleat);
        let [left, right] = rails?;
        let row = row?;
        let left = self.side(Side::Left, cleat_keys, &cleat, &row, left?, length);
        let right = self.side(Side::Right, cleat_keys, &cleat, &row, right?, length);
        let platform = Platform {
            title: brief.title.as_ref().map_or("Sleeping platform".into(), |t| t.value.clone()),
            units: brief.units,
            rules: brief.rules.value,
            damp: brief.damp,
            length,
            width,
            height: keys.and_then(|k| k.height.as_ref()).map(|h| h.value),
            entries: match keys.and_then(|k| k.entry.as_ref()) {
                Some(side) => vec![side.value],
                None => vec![Side::Left, Side::Right],
            },
            mattress: mattress?,
            sleepers,
            visitor,
            posture,
            slats: slats?,
            sides: [left?, right?],
            changes: self.changes(brief),
            limits: self.limits(brief),
            assumptions: Vec::new(),
        };
        self.geometry(&platform, brief);
        Some(platform)
    }

    fn extent(&mut self, key: &str, typed: Option<&Typed<Length>>, most: Length) -> Option<Length> {
        let t = typed?;
        sane(key, t, inch(12.0), most, &mut self.m).map(|()| t.value)
    }

    fn mattress(&mut self, brief: &Brief) -> Option<Mattress> {
        let Some(keys) = &brief.mattress else {
            self.assumptions.push("no mattress in the brief: people are taken to rest on bare slats".into());
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
        Some(Person::new(mass, keys.height.as_ref().map(|h| h.value), preset, self.segments()))
    }

    /// A man's segments, whoever lies there: the heaviest half-metre of all the published sets.
    fn segments(&self) -> Vec<Segment> {
        self.tables.occupants().segments(Body::Man)
    }

    fn people(&mut self, keys: &PersonKeys) -> Vec<Person> {
        let count = keys.count.as_ref().map_or(1, |c| c.value);
        if count > 40 {
            let span = keys.count.as_ref().map_or(&keys.span, |c| &c.span);
            self.m.add(span, "more than 40 sleepers on one platform", "", "check the platform in parts");
            return Vec::new();
        }
        self.person(keys).map_or_else(Vec::new, |p| vec![p; count])
    }

    fn visitor(&mut self, brief: &Brief) -> Option<Person> {
        match &brief.visitor {
            Some(PersonKeys { weight: Some(Typed { value: None, .. }), .. }) => None,
            Some(keys) => self.person(keys),
            None => {
                self.assumptions.push("a visitor of 180 lb (82 kg) sits here".into());
                Some(Person::new(pound(180.0), None, None, self.segments()))
            }
        }
    }

    /// Along the rails if every sleeper has half a metre across, else across them.
    fn posture(&mut self, brief: &Brief, sleepers: usize, length: Length, width: Length) -> Posture {
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
        self.assumptions.push("sleepers lie across the rails, side by side along them".into());
        Posture::AcrossRails
    }

    fn slats(&mut self, k: &SlatKeys, stick: Stick, length: Length, width: Length, cleat: &Stick) -> Option<Slats> {
        let lay = k.lay.as_ref().map_or(LayWord::Flat, |l| l.value);
        let mut s = Slats {
            stick,
            lay,
            count: 0,
            gap: Length::default(),
            fixed: k.fixed.as_ref().is_some_and(|f| f.value),
            bearing: cleat.thickness,
        };
        if k.fixed.is_none() {
            self.assumptions.push("slats are taken as not fixed down".into());
        }
        match &k.bearing {
            Some(b) if b.value > cleat.thickness || b.value <= Length::default() => {
                let t = fraction_of_inch(cleat.thickness);
                self.m.add(
                    &b.span,
                    "the `bearing` must lie on the cleat",
                    "",
                    format!("write {t}, the cleat's thickness, or less"),
                );
            }
            Some(b) => s.bearing = b.value,
            None => self.assumptions.push("slat ends bear on the whole thickness of the cleat".into()),
        }
        let (count, gap) = self.spread(k, &s, length)?;
        s.count = count;
        s.gap = gap;
        if cleat.thickness * 2.0 >= width {
            self.m.add(
                &k.stick.span,
                "the cleats leave no room between them",
                "",
                "make the platform wider than its two cleats",
            );
            return None;
        }
        Some(s)
    }

    /// Number of slats and the gap they leave.
    fn spread(&mut self, k: &SlatKeys, s: &Slats, length: Length) -> Option<(usize, Length)> {
        let b = s.breadth();
        let gap_of = |n: usize| (length - b * n as f64) / (n as f64 - 1.0);
        if let Some(g) = &k.gap
            && (g.value < Length::default() || g.value > length)
        {
            let help = "write something like gap = \"2-1/2 in\"";
            self.m.add(&g.span, "this `gap` is longer than the platform", "", help);
            return None;
        }
        let (count, span) = match (&k.count, &k.gap) {
            (Some(c), _) => (c.value, &c.span),
            (None, Some(g)) => {
                let n = ((length + g.value).value / (b + g.value).value - 1e-9).ceil().max(2.0) as usize;
                (n, &g.span)
            }
            (None, None) => return None,
        };
        if count < 2 {
            self.m.add(span, "one slat is not a platform", "", "write at least count = 2");
            return None;
        }
        let gap = gap_of(count);
        if count > 200 {
            self.m.add(
                span,
                format!("{count} slats are more than can be checked"),
                "",
                "200 at most, by wider slats or gaps",
            );
            return None;
        }
        if gap < Length::default() {
            let fit = (length.value / b.value + 1e-9).floor();
            self.m.add(
                span,
                format!("{count} slats of {} do not fit in {}", fraction_of_inch(b), fraction_of_inch(length)),
                "",
                format!("at most {fit} fit edge to edge"),
            );
            return None;
        }
        if let (Some(_), Some(g)) = (&k.count, &k.gap)
            && gap > g.value + millimetre(2.0)
        {
            self.m.add(
                &g.span,
                format!("{count} slats leave gaps of {}, not this", fraction_of_inch(gap)),
                "",
                "leave out `count` or `gap`, or make them agree",
            );
        }
        Some((count, gap))
    }

    fn screw(&mut self, screw: Option<&Typed<String>>, lag: Option<&Typed<String>>) -> Option<Screw> {
        let (found, span) = match (screw, lag) {
            (Some(s), Some(l)) => {
                self.m.add(
                    &l.span,
                    "`screw` and `lag` are both given",
                    "",
                    format!("keep one; screw = \"{}\" stands too", s.value),
                );
                return None;
            }
            (Some(s), None) => (self.tables.fasteners().screw(&s.value), &s.span),
            (None, Some(l)) => (self.tables.fasteners().lag(&l.value), &l.span),
            (None, None) => return None,
        };
        match found {
            Ok(s) => Some(s),
            Err(e) => {
                // A size of the other kind is a wrong key more often than a wrong size.
                let (asked, other) = match (screw, lag) {
                    (Some(s), _) => (s, self.tables.fasteners().lag(&s.value).is_ok().then_some("lag")),
                    (_, l) => (l?, l.filter(|l| self.tables.fasteners().screw(&l.value).is_ok()).map(|_| "screw")),
                };
                let help = other.map_or_else(|| e.help(), |key| format!("write {key} = \"{}\"", asked.value));
                self.m.add(span, e.to_string(), "", help);
                None
            }
        }
    }

    fn side(
        &mut self,
        side: Side,
        k: &CleatKeys,
        cleat: &Stick,
        screw: &Screw,
        rail: Rail,
        length: Length,
    ) -> Option<LongSide> {
        let keys = k.screws.as_ref()?;
        let row = self.row(keys, cleat, screw, length)?;
        let spare = rail.stick.width - cleat.width;
        let rise = match &k.rise {
            Some(r) if r.value < Length::default() || r.value > spare => {
                let help = format!("write something from 0 in to {}", fraction_of_inch(spare));
                self.m.add(&r.span, "the cleat must lie on the face of the rail", "", help);
                return None;
            }
            Some(r) => r.value,
            None if spare < Length::default() => {
                self.m.add(
                    &k.stick.span,
                    "the cleat is deeper than the rail",
                    "",
                    "use a deeper rail or a smaller cleat",
                );
                return None;
            }
            None => {
                if side == Side::Left {
                    self.assumptions.push("cleats are set half-way up the rail".into());
                }
                spare / 2.0
            }
        };
        if screw.length <= cleat.thickness {
            self.m.add(
                keys.screw.as_ref().or(keys.lag.as_ref()).map_or(&keys.span, |s| &s.span),
                "these screws end inside the cleat",
                "",
                format!("use screws longer than {}", fraction_of_inch(cleat.thickness)),
            );
            return None;
        }
        Some(LongSide { side, cleat: cleat.clone(), rise, screws: row, rail })
    }

    fn row(&mut self, k: &ScrewRowKeys, cleat: &Stick, screw: &Screw, length: Length) -> Option<ScrewRow> {
        let pitch = k.pitch.as_ref()?;
        if pitch.value < inch(1.0) || pitch.value > length {
            let help = format!("write something from 1 in to {}, the cleat's length", fraction_of_inch(length));
            self.m.add(&pitch.span, "this `pitch` does not fit the cleat", "", help);
            return None;
        }
        let first = k.first.as_ref().map_or(inch(2.0), |f| f.value);
        if k.first.is_none() {
            self.assumptions.push("the first cleat screw is 2 in from each end".into());
        }
        if let Some(f) = &k.first
            && (f.value <= Length::default() || f.value * 2.0 >= length)
        {
            self.m.add(
                &f.span,
                "this `first` is not on the first half of the cleat",
                "",
                "write something like first = \"2 in\"",
            );
            return None;
        }
        let up = k.up.as_ref().map_or(cleat.width / 2.0, |u| u.value);
        if let Some(u) = &k.up
            && (u.value <= Length::default() || u.value >= cleat.width)
        {
            let help = format!("write something between 0 in and {}", fraction_of_inch(cleat.width));
            self.m.add(&u.span, "this `up` does not lie on the cleat", "", help);
            return None;
        }
        Some(ScrewRow::over(length, screw.clone(), pitch.value, first, up))
    }

    fn rails(&mut self, k: &RailKeys, length: Option<Length>) -> [Option<Rail>; 2] {
        [k.left.as_deref(), k.right.as_deref()].map(|change| self.rail(k, change, length))
    }

    fn rail(&mut self, base: &RailKeys, change: Option<&RailKeys>, length: Option<Length>) -> Option<Rail> {
        let keys = match change {
            Some(c) => merged(&base.stick, &c.stick),
            None => base.stick.clone(),
        };
        let stick = stick(&keys, "rails", self.tables, &mut self.m)?;
        // A side that names its own support replaces the common one; otherwise it inherits it.
        let own = change.filter(|c| c.ends.is_some() || c.studs.is_some());
        let (ends, studs) = match own {
            Some(c) => (c.ends.as_ref(), c.studs.as_ref()),
            None => (base.ends.as_ref(), base.studs.as_ref()),
        };
        if ends.is_none() && studs.is_none() {
            return None;
        }
        let had_ends = ends.is_some();
        let ends = ends.and_then(|e| self.end_joint(e, &stick));
        let had_studs = studs.is_some();
        let studs = match (studs, length) {
            (Some(s), Some(l)) => self.studs(s, &stick, l, had_ends),
            _ => None,
        };
        (had_ends == ends.is_some() && (had_studs == studs.is_some() || length.is_none())).then_some(Rail {
            stick,
            ends,
            studs,
        })
    }

    fn end_joint(&mut self, k: &EndKeys, rail: &Stick) -> Option<EndJoint> {
        let post = match &k.post {
            Some(w) => wood(w, (4.0, 4.0), false, self.tables, &mut self.m)?,
            None => {
                self.assume(format!("posts are of the rail's wood, {}", rail.wood.name()));
                rail.wood.clone()
            }
        };
        let count = k.count.as_ref().map_or(1, |c| c.value);
        let joint = k.joint.as_ref()?.value;
        let screw = match joint {
            JointWord::Bearing | JointWord::Glue => None,
            _ => Some(self.screw(k.screw.as_ref(), k.lag.as_ref())?),
        };
        if count > 12 {
            let span = k.count.as_ref().map_or(k.span.clone(), |c| c.span.clone());
            self.m.add(&span, format!("{count} screws do not fit in a rail's end"), "", "12 at most");
            return None;
        }
        let kind = match (joint, screw) {
            (JointWord::Bearing, _) => {
                let length = k.bearing.as_ref()?;
                sane("bearing", length, inch(0.25), inch(16.0), &mut self.m)?;
                EndKind::Bearing { length: length.value }
            }
            (JointWord::PocketScrews, Some(screw)) => EndKind::Pocket { screw, count },
            (JointWord::Screws | JointWord::Lags, Some(screw)) => {
                if k.into_end_grain.as_ref()?.value {
                    let through = match &k.through {
                        Some(t) => t.value,
                        None => {
                            self.m.add(
                                &k.span,
                                "`ends` has no `through`",
                                "screws into end grain need it",
                                "write through = \"3-1/2 in\", the thickness of the post the screws pass through",
                            );
                            return None;
                        }
                    };
                    EndKind::EndGrain { screw, count, through }
                } else {
                    EndKind::SideGrain { screw, count }
                }
            }
            (JointWord::Glue, _) | (_, None) => EndKind::Glue,
        };
        let edge = self.on_rail("edge", k.edge.as_ref(), rail.width, rail.width / (count as f64 + 1.0))?;
        if k.edge.is_none() && count > 0 && !matches!(kind, EndKind::Bearing { .. } | EndKind::Glue) {
            self.assume(format!("end screws stand evenly up the rail, {} from its edges", fraction_of_inch(edge)));
        }
        if let Some(e) = &k.end {
            sane("end", e, inch(0.25), inch(16.0), &mut self.m)?;
        }
        let end = k.end.as_ref().map_or(inch(1.5), |e| e.value);
        if k.end.is_none() && matches!(kind, EndKind::SideGrain { .. }) {
            self.assume("end screws are 1-1/2 in from the rail's end".into());
        }
        Some(EndJoint { kind, edge, end, post })
    }

    fn on_rail(&mut self, key: &str, t: Option<&Typed<Length>>, depth: Length, default: Length) -> Option<Length> {
        match t {
            Some(t) if t.value <= Length::default() || t.value > depth / 2.0 => {
                let help = format!("write something up to {}, half its depth", fraction_of_inch(depth / 2.0));
                self.m.add(&t.span, format!("this `{key}` does not lie on the rail"), "", help);
                None
            }
            Some(t) => Some(t.value),
            None => Some(default),
        }
    }

    fn studs(&mut self, k: &StudKeys, rail: &Stick, length: Length, has_ends: bool) -> Option<Studs> {
        let screw = self.screw(k.screw.as_ref(), k.lag.as_ref());
        let wood = match &k.wood {
            Some(w) => wood(w, (2.0, 4.0), false, self.tables, &mut self.m)?,
            None => {
                self.assume("wall studs are spruce-pine-fir, stud grade".into());
                stud_default(self.tables)?
            }
        };
        let screw = screw?;
        let pitch = k.pitch.as_ref()?;
        if pitch.value < inch(4.0) || pitch.value > length {
            let help = format!("write something from 4 in to {}", fraction_of_inch(length));
            self.m.add(&pitch.span, "this stud `pitch` does not fit the rail", "", help);
            return None;
        }
        if screw.length <= rail.thickness {
            self.m.add(
                k.screw.as_ref().or(k.lag.as_ref()).map_or(&k.span, |s| &s.span),
                "these screws end inside the rail",
                "",
                format!("use screws longer than {}", fraction_of_inch(rail.thickness)),
            );
            return None;
        }
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
        Some(Studs { screw, count: k.count.as_ref().map_or(1, |c| c.value), positions, wood })
    }

    fn assume(&mut self, text: String) {
        if !self.assumptions.contains(&text) {
            self.assumptions.push(text);
        }
    }

    fn changes(&mut self, brief: &Brief) -> Vec<CaseChange> {
        let mut out = Vec::new();
        for c in &brief.cases {
            if let Some(f) = &c.factor
                && !(0.1..=10.0).contains(&f.value)
            {
                self.m.add(&f.span, "no movement has this `factor` on weight", "", "write something from 0.1 to 10");
            }
            if let Some(l) = &c.load
                && (l.value.value < 0.0 || l.value.value > 50e3)
            {
                self.m.add(&l.span, "no bed is built for this `load`", "", "write something like load = \"40 psf\"");
            }
            out.push(CaseChange {
                key: c.name,
                dropped: c.drop.as_ref().is_some_and(|d| d.value),
                factor: c.factor.as_ref().map(|f| f.value),
                load: c.load.as_ref().map(|l| l.value),
            });
        }
        out
    }

    fn limits(&mut self, brief: &Brief) -> Limits {
        let mut one = |t: &Option<Typed<f64>>, default: f64| match t {
            Some(t) if !(50.0..=1000.0).contains(&t.value) => {
                self.m.add(&t.span, "this is no deflection limit for a bed", "", "write something from L/50 to L/1000");
                default
            }
            Some(t) => t.value,
            None => default,
        };
        Limits { slat: one(&brief.slat_limit, 150.0), rail: one(&brief.rail_limit, 300.0) }
    }

    /// What only shows once everything is put together.
    fn geometry(&mut self, p: &Platform, brief: &Brief) {
        if let (Some(h), Some(keys)) = (p.height, &brief.platform) {
            let depth = p.slats.depth();
            if h <= depth
                && let Some(t) = &keys.height
            {
                self.m.add(
                    &t.span,
                    "the platform is lower than its own slats are thick",
                    "",
                    format!(
                        "`height` is the top of the slats above the floor, so more than {}",
                        fraction_of_inch(depth)
                    ),
                );
            }
        }
        let (span, bearing): (Range<usize>, _) =
            (brief.slats.as_ref().map_or(0..0, |s| s.stick.span.clone()), p.slats.bearing);
        if bearing <= Length::default() {
            self.m.add(&span, "the slats have nothing to bear on", "", "use a thicker cleat");
        }
    }
}

/// A side's own stick keys over the common ones.
fn merged(base: &StickKeys, change: &StickKeys) -> StickKeys {
    let resized = change.size.is_some();
    StickKeys {
        span: change.span.clone(),
        wood: change.wood.clone().or_else(|| base.wood.clone()),
        size: change.size.clone().or_else(|| base.size.clone()),
        thickness: change.thickness.clone().or_else(|| base.thickness.clone().filter(|_| !resized)),
        width: change.width.clone().or_else(|| base.width.clone().filter(|_| !resized)),
        ripped: change.ripped.clone().or_else(|| base.ripped.clone()),
        incised: change.incised.clone().or_else(|| base.incised.clone()),
        unread_size: change.unread_size || base.unread_size,
    }
}

fn stud_default(tables: &Tables) -> Option<WoodChoice> {
    let row = tables.lumber().find("spruce-pine-fir stud", 2.0, 4.0).ok()?;
    Some(WoodChoice::Graded {
        name: row.name(),
        grade: row.grade.clone(),
        values: row.values,
        table: row.table,
        provenance: row.provenance.clone(),
    })
}
