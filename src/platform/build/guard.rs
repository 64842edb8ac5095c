//! The guard as the brief describes it.

use super::Builder;
use crate::brief::{Edge, FixingKeys, GuardKeys, GuardPostKeys, HeadsOn, InfillKeys, OpeningKeys, Spot, Typed};
use crate::platform::stick::{sane, stick};
use crate::platform::{Bars, Fixing, Guard, GuardPosts, LowerRails, Opening, Platform, Stick};
use crate::quantity::unit::inch;
use crate::quantity::{Length, fraction_of_inch};

impl Builder<'_> {
    /// Everything is read before anything is given up, so that all mistakes show at once.
    pub(super) fn guard(&mut self, k: &GuardKeys, p: &Platform) -> Option<Guard> {
        let top = k.top.as_ref().and_then(|t| sane("top", t, inch(2.0), inch(60.0), &mut self.m).map(|()| t.value));
        let rail = k.rail.as_ref().and_then(|s| stick(s, "rail", self.rules, self.tables, &mut self.m));
        let posts = k.posts.as_ref().and_then(|g| self.guard_posts(g, p));
        let rail_screws = k.rail_screws.as_ref().and_then(|f| self.fixing(f, rail.as_ref(), "guard's top rail"));
        let lower = k.lower.as_ref().map(|l| self.lower_rails(l));
        let bars = k.bars.as_ref().map(|b| self.bars(b));
        let opening = k.opening.as_ref().map(|o| self.opening(o, k.sides.as_ref(), p));
        let guard = Guard {
            edges: k.sides.as_ref()?.value.clone(),
            top: top?,
            rail: rail?,
            rail_screws: rail_screws?,
            lower: flat(lower)?,
            bars: flat(bars)?,
            posts: posts?,
            opening: flat(opening)?,
            furniture_test: k.furniture_test.as_ref().is_some_and(|f| f.value),
        };
        let runs = p.runs_of(&guard);
        if let Some(run) = runs.iter().find(|r| r.from_to[1] - r.from_to[0] <= guard.posts.first * 2.0) {
            let short = fraction_of_inch(run.from_to[1] - run.from_to[0]);
            let span = k.posts.as_ref().map_or(&k.span, |p| p.first.as_ref().map_or(&p.stick.span, |f| &f.span));
            let message = format!("{short} of guard on the {} is too short for two posts", run.edge.name());
            self.m.add(span, message, "", "narrow the opening, or set the first post nearer to the guard's end");
            return None;
        }
        if guard.lowest() < Length::default() {
            let span = k.top.as_ref().map_or(&k.span, |t| &t.span);
            let high = fraction_of_inch(guard.top - guard.lowest());
            let help = format!("its rails and gaps are {high} high: raise `top`, or take rails or gaps away");
            self.m.add(span, "this guard reaches down below the slats", "", help);
            return None;
        }
        Some(guard)
    }

    fn guard_posts(&mut self, k: &GuardPostKeys, p: &Platform) -> Option<GuardPosts> {
        let stick = stick(&k.stick, "posts", self.rules, self.tables, &mut self.m);
        if let Some(pitch) = &k.pitch {
            sane("pitch", pitch, inch(4.0), inch(120.0), &mut self.m)?;
        }
        let stick = stick?;
        let first = match &k.first {
            Some(f) => f.value,
            None => {
                self.assume("the guard's first and last posts are flush with its ends".into());
                stick.width / 2.0
            }
        };
        let screws = k.screws.as_ref()?;
        // The shallowest of the rails, for all edges alike.
        let all = [Edge::Left, Edge::Right, Edge::Head, Edge::Foot].map(|edge| p.rail_along(edge).0);
        let rail = all.into_iter().fold(all[1], |least, rail| if rail.width < least.width { rail } else { least });
        let heads = screws.heads.as_ref().map_or(HeadsOn::Post, |h| h.value);
        if screws.heads.is_none() {
            self.assume("the screws of the guard's posts go through the post into the bed's rail".into());
        }
        let under = if heads == HeadsOn::Post { &stick } else { rail };
        let what = if heads == HeadsOn::Post { "post" } else { "bed's rail" };
        let Fixing { screw, count } = self.fixing(screws, Some(under), what)?;
        let typed = screws.count.as_ref()?;
        if count % 2 != 0 {
            let help = "write an even count: half of them stand low, half of them high";
            self.m.add(&typed.span, "one screw of a guard's post stands alone", "", help);
            return None;
        }
        let spacing = screws.spacing.as_ref()?;
        let room = rail.width - spacing.value;
        if spacing.value <= Length::default() || room <= Length::default() {
            let help =
                format!("write something less than {}, the depth of the bed's rail", fraction_of_inch(rail.width));
            self.m.add(&spacing.span, "these screws do not both meet the bed's rail", "", help);
            return None;
        }
        let up = match &screws.up {
            Some(u) if u.value >= room => {
                let help = format!("write something less than {}", fraction_of_inch(room));
                self.m.add(&u.span, "the upper screws stand above the bed's rail", "", help);
                return None;
            }
            Some(u) => u.value,
            None => {
                self.assume("the screws of the guard's posts stand centred on the bed's rail".into());
                room / 2.0
            }
        };
        Some(GuardPosts {
            stick,
            pitch: k.pitch.as_ref()?.value,
            first,
            screw,
            count,
            spacing: spacing.value,
            up,
            heads,
        })
    }

    /// Screws that pass through a piece into another.
    pub(super) fn fixing(&mut self, k: &FixingKeys, under: Option<&Stick>, what: &str) -> Option<Fixing> {
        let screw = self.screw(k.screw.as_ref(), k.lag.as_ref());
        if let Some(c) = &k.count
            && c.value > 8
        {
            self.m.add(&c.span, format!("{} screws do not fit here", c.value), "", "8 at most");
            return None;
        }
        let screw = screw?;
        let typed = k.screw.as_ref().or(k.lag.as_ref()).map_or(&k.span, |s| &s.span);
        self.reaches(&screw, typed, under?.thickness, what)?;
        Some(Fixing { screw, count: k.count.as_ref()?.value })
    }

    fn lower_rails(&mut self, k: &InfillKeys) -> Option<LowerRails> {
        let stick = stick(&k.stick, "lower", self.rules, self.tables, &mut self.m);
        if let Some(g) = &k.gap {
            sane("gap", g, inch(0.25), inch(24.0), &mut self.m)?;
        }
        Some(LowerRails { stick: stick?, count: k.count.as_ref()?.value, gap: k.gap.as_ref()?.value })
    }

    fn bars(&mut self, k: &InfillKeys) -> Option<Bars> {
        let stick = stick(&k.stick, "bars", self.rules, self.tables, &mut self.m);
        if let Some(g) = &k.gap {
            sane("gap", g, inch(0.25), inch(24.0), &mut self.m)?;
        }
        Some(Bars { stick: stick?, gap: k.gap.as_ref()?.value })
    }

    fn opening(&mut self, k: &OpeningKeys, sides: Option<&Typed<Vec<Edge>>>, p: &Platform) -> Option<Opening> {
        let (width, side, at) = (k.width.as_ref()?, k.side.as_ref()?, k.at.as_ref()?);
        sane("width", width, inch(6.0), inch(60.0), &mut self.m)?;
        if let Some(edges) = sides
            && !edges.value.contains(&Edge::from(side.value))
        {
            let name = Edge::from(side.value).name();
            let help = format!("add \"{name}\" to `sides`, or take `opening` out: a side without a guard is open");
            self.m.add(&side.span, format!("there is no guard on the {name}"), "", help);
            return None;
        }
        // What is left at each end holds two posts and a hand's breadth between them.
        let least = if at.value == Spot::Middle { inch(24.0) } else { inch(12.0) };
        if width.value + least > p.length {
            let help = format!("write {} or less", fraction_of_inch(p.length - least));
            self.m.add(&width.span, "this opening leaves no guard", "", help);
            return None;
        }
        Some(Opening { width: width.value, side: side.value, at: at.value })
    }
}

/// What was asked for and could be read, or was not asked for; nothing when it was asked for and is wrong.
fn flat<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        Some(None) => None,
        Some(Some(value)) => Some(Some(value)),
        None => Some(None),
    }
}
