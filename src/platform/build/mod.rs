//! From the brief as typed to a platform that can be built, or to every reason why it cannot.

mod beam;
mod bolts;
mod bracing;
mod cleats;
mod declared;
mod end_rails;
mod guard;
mod ladder;
mod notch;
mod people;
mod posts;
mod rails;
mod slats;
mod support;

use std::ops::Range;

use super::stick::{sane, stick};
use super::{CaseChange, Holder, Limits, Platform, Stick};
use crate::brief::{Brief, Mistake, Mistakes, National, RuleFamily, Side, Typed};
use crate::quantity::unit::{inch, newton};
use crate::quantity::{Length, Measured, fraction_of_inch};
use crate::tables::Tables;
use crate::tables::fasteners::Screw;
use crate::tables::loads::{CodeLoad, ProofLoad};
use crate::tables::openings::{Jurisdiction, OpeningRule};

impl Platform {
    /// Builds the platform a brief describes.
    ///
    /// # Errors
    ///
    /// Every mistake in the brief, in the order in which they stand there.
    pub fn build(brief: &Brief, tables: &Tables) -> Result<Platform, Vec<Mistake>> {
        let mut b = Builder {
            tables,
            rules: brief.rules.value,
            m: brief.mistakes.clone(),
            assumptions: Vec::new(),
            post: None,
            holder: Holder::Post,
        };
        let platform = b.platform(brief);
        match platform {
            Some(mut p) if b.m.is_empty() => {
                b.measured(&p);
                p.assumptions = b.assumptions;
                Ok(p)
            }
            _ => Err(b.m.in_order()),
        }
    }
}

struct Builder<'a> {
    tables: &'a Tables,
    rules: RuleFamily,
    m: Mistakes,
    assumptions: Vec<String>,
    /// The sticks of `[posts]`, which the rails' end joints go into; `None` inside when they cannot be read.
    post: Option<Option<Stick>>,
    /// What the ends that are being read are held by.
    holder: Holder,
}

impl Builder<'_> {
    fn platform(&mut self, brief: &Brief) -> Option<Platform> {
        let keys = brief.platform.as_ref();
        let length = keys.and_then(|k| self.extent("length", k.length.as_ref(), inch(480.0)));
        let width = keys.and_then(|k| self.extent("width", k.width.as_ref(), inch(160.0)));
        if let Some(h) = keys.and_then(|k| k.height.as_ref()) {
            sane("height", h, inch(1.0), inch(240.0), &mut self.m);
        }
        let mattress = self.mattress(brief);
        let sleepers = self.sleepers(&brief.sleepers);
        let visitor = self.visitor(brief);
        let slat_stick =
            brief.slats.as_ref().and_then(|k| stick(&k.stick, "slats", self.rules, self.tables, &mut self.m));
        let cleat = brief.cleats.as_ref().and_then(|k| stick(&k.stick, "cleats", self.rules, self.tables, &mut self.m));
        let beam = brief.centre_beam.as_ref();
        let beam = beam.map(|k| stick(&k.stick, "centre_beam", self.rules, self.tables, &mut self.m));
        let posts = brief.posts.as_ref().map(|k| stick(&k.stick, "posts", self.rules, self.tables, &mut self.m));
        self.post = posts.clone();
        let end_rails = brief.end_rails.as_ref().and_then(|k| self.end_rails(k));
        // From here on ends are held by the end rails, where there are any.
        if brief.end_rails.is_some() {
            (self.holder, self.post) = (Holder::EndRail, Some(end_rails.as_ref().map(|e| e.stick.clone())));
        }
        let rails = brief.rails.as_ref().map(|k| self.rails(k, length));
        let row = brief.cleats.as_ref().and_then(|k| k.screws.as_ref()).and_then(|k| {
            let screw = self.screw(k.screw.as_ref(), k.lag.as_ref())?;
            Some(self.declared(screw, k.declared.as_ref()))
        });
        let (length, width) = (length?, width?);
        let posture = sleepers.as_ref().map(|s| self.posture(brief, s.len(), length, width));
        let cleat_keys = brief.cleats.as_ref()?;
        let cleat = cleat?;
        let slats = self.slats(brief.slats.as_ref()?, slat_stick?, length, width, &cleat);
        let [left, right] = rails?;
        let row = row?;
        let left = self.side(Side::Left, cleat_keys, &cleat, &row, left?, length);
        let right = self.side(Side::Right, cleat_keys, &cleat, &row, right?, length);
        let mut platform = Platform {
            title: brief.title.as_ref().map_or("Sleeping platform".into(), |t| t.value.clone()),
            units: brief.units,
            rules: brief.rules.value,
            damp: brief.damp,
            national: brief.national,
            length,
            width,
            height: keys.and_then(|k| k.height.as_ref()).map(|h| h.value),
            entries: match keys.and_then(|k| k.entry.as_ref()) {
                Some(side) => vec![side.value],
                None => vec![Side::Left, Side::Right],
            },
            mattress: mattress?,
            sleepers: sleepers?,
            visitor,
            posture: posture?,
            slats: slats?,
            sides: [left?, right?],
            end_rails: None,
            centre_beam: None,
            posts: None,
            guard: None,
            ladder: None,
            bracing: self.bracing(brief.bracing.as_ref()),
            changes: self.changes(brief),
            jurisdiction: self.jurisdiction(brief),
            opening_rules: self.opening_rules(brief),
            code: self.code(brief),
            proofs: self.proofs(brief),
            limits: self.limits(brief),
            assumptions: Vec::new(),
        };
        self.geometry(&platform, brief);
        if let Some(keys) = &brief.end_rails {
            platform.end_rails = Some(self.under_rails(keys, end_rails?, &platform)?);
        }
        platform.guard = brief.guard.as_ref().and_then(|k| self.guard(k, &platform));
        platform.ladder = brief.ladder.as_ref().and_then(|k| self.ladder(k, &platform, brief));
        if let (Some(keys), Some(stick)) = (&brief.centre_beam, beam) {
            platform.centre_beam = Some(self.centre_beam(keys, stick?, &platform)?);
        }
        if let (Some(keys), None) = (&brief.bracing, &brief.posts) {
            let help = "write [posts] too; a rail screwed to a wall has studs = { … } and needs no bracing";
            self.m.add(&keys.span, "bracing holds posts, and the brief has none", "", help);
        }
        if let Some(keys) = brief.bracing.as_ref().and_then(|b| b.diagonals.as_ref()) {
            platform.bracing.diagonals = self.diagonals(keys);
        }
        if let (Some(keys), Some(stick)) = (&brief.posts, posts) {
            platform.posts = Some(self.posts(keys, stick?, &platform)?);
        }
        if let Some(keys) = brief.bracing.as_ref().and_then(|b| b.knees.as_ref()) {
            self.no_knees(keys, brief.end_rails.is_some())?;
            platform.bracing.knees = self.knees(keys, &platform, platform.posts.as_ref());
        }
        Some(platform)
    }

    fn extent(&mut self, key: &str, typed: Option<&Typed<Length>>, most: Length) -> Option<Length> {
        let t = typed?;
        sane(key, t, inch(12.0), most, &mut self.m).map(|()| t.value)
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

    /// Whether screws are longer than what they pass through.
    fn reaches(&mut self, screw: &Screw, typed: &Range<usize>, through: Length, what: &str) -> Option<()> {
        if screw.length > through {
            return Some(());
        }
        let help = format!("use screws longer than {}", fraction_of_inch(through));
        self.m.add(typed, format!("these screws end inside the {what}"), "", help);
        None
    }

    /// Says of every stick with a measured modulus what that changes and what it does not.
    fn measured(&mut self, p: &Platform) {
        for (name, stick) in p.sticks() {
            if let Some(e) = stick.measured {
                let e = e.measure().show_to(p.units, 3);
                self.assume(format!(
                    "stiffness of the {name} as measured, {e}: it decides how far they sag; strength was not measured \
                     and stays the table's, and what keeps a stick from buckling is lowered with it, never raised"
                ));
            }
        }
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
                decides: c.decides.as_ref().is_some_and(|d| d.value),
            });
        }
        out
    }

    /// Whose rules for openings: those of the rules' own country if the brief does not say.
    fn jurisdiction(&self, brief: &Brief) -> Option<Jurisdiction> {
        brief.jurisdiction.unwrap_or(Some(match self.rules {
            RuleFamily::AllowableStress => Jurisdiction::Us,
            RuleFamily::LimitState => Jurisdiction::Eu,
        }))
    }

    fn opening_rules(&self, brief: &Brief) -> Vec<OpeningRule> {
        let own = self.jurisdiction(brief);
        self.tables.openings().rules().iter().filter(|r| Some(r.jurisdiction) == own).cloned().collect()
    }

    /// The code's loads for the nation whose rules these are, as the brief changes them.
    fn code(&mut self, brief: &Brief) -> CodeLoad {
        let nation = match (self.rules, brief.national) {
            (RuleFamily::AllowableStress, _) => "us",
            (RuleFamily::LimitState, National::Recommended) => "recommended",
            (RuleFamily::LimitState, National::UnitedKingdom) => "uk",
            (RuleFamily::LimitState, National::Germany) => "germany",
        };
        let mut code = self.tables.loads().code(nation).clone();
        for c in brief.cases.iter().filter(|c| c.name == "point") {
            if let Some(f) = &c.force {
                if f.value < newton(50.0) || f.value > newton(50e3) {
                    self.m.add(
                        &f.span,
                        "no floor is built for this `load`",
                        "",
                        "write something like load = \"2 kN\"",
                    );
                }
                code.point = f.value;
            }
            if let Some(l) = &c.patch
                && sane("patch", l, inch(0.5), inch(60.0), &mut self.m).is_some()
            {
                code.patch = l.value;
            }
        }
        code
    }

    /// The loads of the furniture tests the brief asks for.
    fn proofs(&mut self, brief: &Brief) -> Vec<ProofLoad> {
        let mut out = Vec::new();
        for set in brief.cases.iter().filter_map(|c| c.set.as_ref()) {
            match self.tables.loads().proof(&set.value) {
                Ok(loads) => out.extend(loads),
                Err(e) => self.m.add(&set.span, e.to_string(), "", e.help()),
            }
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
