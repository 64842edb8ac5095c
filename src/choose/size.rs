//! What to make a member of: every stick, or every screw and pitch, tried on the whole platform.
//!
//! Platforms that differ in one member's stick are checked with the same cases, that member first
//! ([`Alike`]). What is shown is checked once more, on the brief as its builder would write it.

use rayon::prelude::*;

use super::alter;
use super::design::{Design, Outcome, Tried, Weakest};
use super::stock::{Supply, described, is_lag};
use crate::brief::{Brief, LayWord, Mistake, WoodKeys};
use crate::check::{Alike, Between, Found, Role, Verdict};
use crate::platform::{EndJoint, Platform, Stick};
use crate::quantity::{Length, UnitSystem};
use uom::si::f64::Volume;

/// The member that is sized.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The slats.
    Slat,
    /// Both rails.
    Rail,
    /// The screws that hold the cleats.
    Cleat,
}

/// What is tried.
#[derive(Clone, Debug)]
pub struct Question {
    /// Of which member.
    pub part: Part,
    /// Sticks and screws to choose from.
    pub supply: Supply,
    /// Ways for slats to lie.
    pub lays: Vec<LayWord>,
    /// Gaps between slats, at most.
    pub gaps: Vec<Length>,
    /// With or without a centre beam.
    pub beams: Vec<bool>,
    /// Screw pitches, at most.
    pub pitches: Vec<Length>,
    /// How many choices that pass are shown, and how many that fail.
    pub shown: usize,
}

/// One choice: what is written into the brief.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Candidate {
    Slats { stick: usize, lay: LayWord, gap: Length, beam: bool },
    Rails { stick: usize },
    Screws { screw: usize, pitch: Length },
}

/// What a choice comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Made {
    /// Slats or rails.
    Sticks {
        /// Thickness and width.
        section: [Length; 2],
        /// Nominal thickness and width in inches, by which board feet are counted.
        nominal: (f64, f64),
        /// Stock size it is made from.
        stock: Option<String>,
        /// Wood.
        wood: String,
        /// How slats lie.
        lay: LayWord,
        /// How many, and how long each is cut.
        pieces: (usize, Length),
        /// Gap between slats.
        gap: Length,
        /// Whether a centre beam carries the slats.
        beam: bool,
        /// How much wood, the centre beam's with it.
        volume: Volume,
        /// The lengths it comes in, if the rack says.
        lengths: Vec<Length>,
    },
    /// Screws.
    Screws {
        /// The screw.
        screw: String,
        /// Its diameter and length.
        size: [Length; 2],
        /// From screw to screw, at most.
        pitch: Length,
        /// How many in both cleats.
        count: usize,
    },
}

/// A choice that was tried.
#[derive(Clone, Debug)]
pub struct Choice {
    /// What it is.
    pub made: Made,
    /// The brief with it written in.
    pub brief: Brief,
    /// What the check of that brief says.
    pub outcome: Outcome,
    /// What stops it: the member's own worst check if it fails, else the weakest link.
    pub stopped_by: Option<Weakest>,
}

/// The answer.
#[derive(Clone, Debug)]
pub struct Sizing {
    /// Which member.
    pub part: Part,
    /// How many were tried.
    pub tried: usize,
    /// How many of them pass.
    pub pass: usize,
    /// How many have no verdict, because a part has no rule that answers.
    pub unchecked: usize,
    /// Why some cannot be built, and how many each.
    pub impossible: Vec<(String, usize)>,
    /// Choices that pass, the one that takes least first.
    pub passing: Vec<Choice>,
    /// Choices that do not, the nearest first.
    pub failing: Vec<Choice>,
    /// Of slats and rails, the shallowest that passes.
    pub thinnest: Option<Choice>,
    /// The next shallower one of the same wood and width, which does not pass.
    pub below: Option<Choice>,
    /// The brief as it is.
    pub drawn: Outcome,
}

/// From how many choices on two checks in full at either end save work.
const WORTH_SPANNING: usize = 6;

/// What became of a candidate in the sweep.
enum Fate {
    Passes(Made),
    /// Whether the member itself does, and the greatest ratio.
    Fails(Made, bool, f64),
    Unchecked(Made),
    Impossible(String),
}

impl Part {
    /// Its name under a brief's heading.
    pub fn word(self) -> &'static str {
        match self {
            Part::Slat => "slats",
            Part::Rail => "rails",
            Part::Cleat => "cleats",
        }
    }

    /// The members whose checks it is meant for.
    pub fn role(self) -> Role {
        match self {
            Part::Slat => Role::Slat,
            Part::Rail => Role::Rail,
            Part::Cleat => Role::CleatScrew,
        }
    }
}

impl Made {
    /// What it takes: wood, or screws and then their size.
    fn cost(&self) -> [f64; 3] {
        match self {
            Made::Sticks { volume, .. } => [volume.value, self.depth().value, 0.0],
            Made::Screws { size, count, .. } => [*count as f64, size[0].value, size[1].value],
        }
    }

    /// Height of the slat or rail.
    pub fn depth(&self) -> Length {
        match self {
            Made::Sticks { section, lay: LayWord::Flat, .. } => section[0],
            Made::Sticks { section, .. } => section[1],
            Made::Screws { size, .. } => size[0],
        }
    }

    /// Whether another is the same but for its depth.
    fn same_but_for_depth(&self, other: &Made) -> bool {
        let key = |m: &Made| match m {
            Made::Sticks { section, lay, wood, beam, gap, .. } => {
                let breadth = if *lay == LayWord::Flat { section[1] } else { section[0] };
                Some((breadth, *lay, wood.clone(), *beam, *gap))
            }
            Made::Screws { .. } => None,
        };
        key(self).is_some() && key(self) == key(other)
    }
}

impl Question {
    /// How many choices there are.
    pub fn choices(&self) -> usize {
        match self.part {
            Part::Slat => self.supply.sticks.len() * self.lays.len() * self.gaps.len() * self.beams.len(),
            Part::Rail => self.supply.sticks.len(),
            Part::Cleat => self.supply.screws.len() * self.pitches.len(),
        }
    }

    /// The woods of the sticks, each once, with its name.
    pub fn woods(&self, units: UnitSystem) -> Vec<(String, WoodKeys)> {
        let mut out: Vec<(String, WoodKeys)> = Vec::new();
        for offer in &self.supply.sticks {
            let name = described(&offer.stick.wood, units);
            if let (Some(wood), None) = (&offer.keys.wood, out.iter().find(|(n, _)| *n == name)) {
                out.push((name, wood.clone()));
            }
        }
        out
    }

    /// Every choice, those whose slats lie alike together.
    fn groups(&self) -> Vec<Vec<Candidate>> {
        match self.part {
            Part::Rail => vec![(0..self.supply.sticks.len()).map(|stick| Candidate::Rails { stick }).collect()],
            Part::Cleat => {
                let screws = 0..self.supply.screws.len();
                let all = screws.flat_map(|screw| self.pitches.iter().map(move |p| (screw, *p)));
                vec![all.map(|(screw, pitch)| Candidate::Screws { screw, pitch }).collect()]
            }
            Part::Slat => self.slat_groups(),
        }
    }

    fn slat_groups(&self) -> Vec<Vec<Candidate>> {
        let mut keys: Vec<(LayWord, Length, Length, bool)> = Vec::new();
        let mut out: Vec<Vec<Candidate>> = Vec::new();
        for (stick, offer) in self.supply.sticks.iter().enumerate() {
            for lay in &self.lays {
                let breadth = if *lay == LayWord::Flat { offer.stick.width } else { offer.stick.thickness };
                for gap in &self.gaps {
                    for beam in &self.beams {
                        let key = (*lay, breadth, *gap, *beam);
                        let one = Candidate::Slats { stick, lay: *lay, gap: *gap, beam: *beam };
                        match keys.iter().position(|k| *k == key) {
                            Some(place) => out[place].push(one),
                            None => {
                                keys.push(key);
                                out.push(vec![one]);
                            }
                        }
                    }
                }
            }
        }
        out
    }

    /// The brief with a choice written into it.
    fn written(&self, c: Candidate, brief: &Brief) -> Brief {
        let mut b = brief.clone();
        match c {
            Candidate::Slats { stick, lay, gap, beam } => {
                alter::slats(&mut b, &self.supply.sticks[stick].keys, lay, gap);
                alter::centre_beam(&mut b, beam);
            }
            Candidate::Rails { stick } => alter::rails(&mut b, &self.supply.sticks[stick].keys),
            Candidate::Screws { screw, pitch } => {
                let offer = &self.supply.screws[screw];
                let name = offer.screw.designation.clone();
                alter::cleat_screws(&mut b, name, is_lag(&offer.screw), offer.declared.clone(), pitch);
            }
        }
        b
    }

    /// What a choice comes to on its platform.
    fn made(&self, c: Candidate, p: &Platform) -> Made {
        let sticks =
            |stick: &Stick, lay: LayWord, lengths: &[Length], pieces: (usize, Length), volume: Volume| Made::Sticks {
                section: [stick.thickness, stick.width],
                nominal: stick.nominal,
                stock: stick.stock.clone(),
                wood: described(&stick.wood, p.units),
                lay,
                pieces,
                gap: p.slats.gap,
                beam: p.centre_beam.is_some(),
                volume,
                lengths: lengths.to_vec(),
            };
        match c {
            Candidate::Slats { stick, .. } => {
                let s = &p.slats.stick;
                let [from, to] = p.slat_ends();
                let beam = p.centre_beam.as_ref();
                let beam = beam.map_or(Volume::default(), |b| b.stick.thickness * b.stick.width * held(&b.ends, p));
                let volume = s.thickness * s.width * (to - from) * p.slats.count as f64 + beam;
                sticks(s, p.slats.lay, &self.supply.sticks[stick].lengths, (p.slats.count, to - from), volume)
            }
            Candidate::Rails { stick } => {
                let length = |s: usize| {
                    let rail = &p.sides[s].rail;
                    rail.ends.as_ref().map_or(p.length, |e| held(e, p))
                };
                let s = &p.sides[0].rail.stick;
                let volume = s.thickness * s.width * (length(0) + length(1));
                let lengths = &self.supply.sticks[stick].lengths;
                sticks(s, LayWord::Edge, lengths, (2, length(0).max(length(1))), volume)
            }
            Candidate::Screws { pitch, .. } => {
                let row = &p.sides[0].screws;
                Made::Screws {
                    screw: row.screw.designation.clone(),
                    size: [row.screw.diameter, row.screw.length],
                    pitch,
                    count: p.sides.iter().map(|s| s.screws.positions.len()).sum(),
                }
            }
        }
    }
}

/// Length of a rail or beam with what laps at its ends.
fn held(ends: &EndJoint, p: &Platform) -> Length {
    p.length + ends.lap() * 2.0
}

/// The sweep: every candidate and what became of it, in order.
fn sweep(design: &Design<'_>, q: &Question) -> Vec<(Candidate, Fate)> {
    let group = |all: Vec<Candidate>| -> Vec<(Candidate, Fate)> {
        let built = |c: Candidate| Platform::build(&q.written(c, design.brief), design.tables);
        // Any of them that can be built has the places where people press.
        let mut alike = all.iter().find_map(|c| built(*c).ok()).map(Alike::new);
        let stick = |c: &Candidate| match c {
            Candidate::Slats { stick, .. } => Some(&q.supply.sticks[*stick].stick),
            _ => None,
        };
        if let Some(alike) = &mut alike
            && all.len() >= WORTH_SPANNING
        {
            alike.span_sticks(all.iter().filter_map(stick));
        }
        let plain = |c: Candidate| alike.as_ref()?.between(stick(&c)?).map(|(p, b)| (q.made(c, &p), b));
        let fate = |c: Candidate| match (built(c), &alike) {
            (Err(mistakes), _) => Fate::Impossible(mistakes.first().map_or(String::new(), |m| m.message.clone())),
            (Ok(_), None) => Fate::Impossible(String::new()),
            (Ok(p), Some(alike)) => {
                let made = q.made(c, &p);
                match alike.check(&p, q.part.role()) {
                    Err(e) => Fate::Impossible(e.to_string()),
                    Ok(Found::Fails(members)) => {
                        let worst = members.iter().filter_map(|m| m.worst()).map(|c| c.ratio);
                        Fate::Fails(made, true, worst.fold(0.0, f64::max))
                    }
                    Ok(Found::Whole(a)) => match a.carries() {
                        Verdict::Pass => Fate::Passes(made),
                        Verdict::Fail => Fate::Fails(made, false, a.weakest().map_or(f64::INFINITY, |(_, c)| c.ratio)),
                        Verdict::NotChecked => Fate::Unchecked(made),
                    },
                }
            }
        };
        let one = |c: &Candidate| {
            let fate = match plain(*c) {
                Some((made, Between::Passes)) => Fate::Passes(made),
                Some((made, Between::Fails { own, ratio })) => Fate::Fails(made, own, ratio),
                None => fate(*c),
            };
            design.tick();
            (*c, fate)
        };
        all.par_iter().map(one).collect()
    };
    q.groups().into_par_iter().flat_map(group).collect()
}

/// Sizes a member of a brief.
///
/// # Errors
///
/// Every mistake in the brief.
pub fn size(design: &Design<'_>, q: &Question) -> Result<Sizing, Vec<Mistake>> {
    let Tried::Checked(drawn) = design.try_brief(design.brief) else {
        design.platform()?;
        return Err(Vec::new());
    };
    let swept = sweep(design, q);
    let mut passing: Vec<(Candidate, &Made)> = Vec::new();
    let mut failing: Vec<(Candidate, &Made, (bool, f64))> = Vec::new();
    let (mut unchecked, mut impossible) = (0, Vec::<(String, usize)>::new());
    for (c, fate) in &swept {
        match fate {
            Fate::Passes(made) => passing.push((*c, made)),
            Fate::Fails(made, own, ratio) => failing.push((*c, made, (*own, *ratio))),
            Fate::Unchecked(_) => unchecked += 1,
            Fate::Impossible(why) => match impossible.iter_mut().find(|(w, _)| w == why) {
                Some((_, n)) => *n += 1,
                None => impossible.push((why.clone(), 1)),
            },
        }
    }
    let by = |a: [f64; 3], b: [f64; 3]| a.iter().zip(b).map(|(a, b)| a.total_cmp(&b)).find(|o| o.is_ne());
    let dearer = |a: &Made, b: &Made| by(a.cost(), b.cost()).unwrap_or(std::cmp::Ordering::Equal);
    passing.sort_by(|a, b| dearer(a.1, b.1));
    // What holds itself comes before what does not, whatever the rest of the platform makes of it.
    failing.sort_by(|a, b| a.2.0.cmp(&b.2.0).then(a.2.1.total_cmp(&b.2.1)).then(dearer(a.1, b.1)));
    let confirmed = |(c, made): (Candidate, &Made)| confirmed(design, q, c, made);
    let all_confirmed = |all: Vec<(Candidate, &Made)>| all.into_par_iter().filter_map(confirmed).collect();
    let shallow = passing.iter().min_by(|a, b| a.1.depth().value.total_cmp(&b.1.depth().value)).copied();
    let shallow = shallow.filter(|_| q.part != Part::Cleat);
    let below = shallow.and_then(|(_, made)| {
        let next = failing.iter().filter(|(_, m, _)| m.same_but_for_depth(made) && m.depth() < made.depth());
        next.max_by(|a, b| a.1.depth().value.total_cmp(&b.1.depth().value)).map(|(c, m, _)| (*c, *m))
    });
    let unchecked_shown = swept.iter().filter_map(|(c, fate)| match fate {
        Fate::Unchecked(made) => Some((*c, made)),
        _ => None,
    });
    let failing_shown = failing.iter().map(|(c, m, _)| (*c, *m)).chain(unchecked_shown);
    impossible.extend(q.supply.left_out.iter().fold(Vec::new(), |mut all: Vec<(String, usize)>, why| {
        match all.iter_mut().find(|(w, _)| w == why) {
            Some((_, n)) => *n += 1,
            None => all.push((why.clone(), 1)),
        }
        all
    }));
    Ok(Sizing {
        part: q.part,
        tried: swept.len(),
        pass: passing.len(),
        unchecked,
        impossible,
        failing: nearest_first(all_confirmed(failing_shown.take(q.shown).collect()), q.part.role()),
        thinnest: shallow.and_then(confirmed),
        below: below.and_then(confirmed),
        passing: all_confirmed(passing.into_iter().take(q.shown).collect()),
        drawn,
    })
}

/// Choices that do not pass by what the check says of them: members that hold themselves first, those without a
/// verdict last.
fn nearest_first(mut all: Vec<Choice>, role: Role) -> Vec<Choice> {
    let over = |c: &Choice| {
        let stop = c.stopped_by.as_ref().filter(|w| !w.passes());
        stop.map_or((true, f64::INFINITY), |w| (w.role == role, w.ratio))
    };
    all.sort_by(|a, b| over(a).0.cmp(&over(b).0).then(over(a).1.total_cmp(&over(b).1)));
    all
}

/// A choice as the check of its brief has it.
fn confirmed(design: &Design<'_>, q: &Question, c: Candidate, made: &Made) -> Option<Choice> {
    let brief = q.written(c, design.brief);
    let outcome = design.try_brief(&brief).outcome()?.clone();
    let own = outcome.of_role(q.part.role()).filter(|w| !w.passes());
    let stopped_by = own.or(outcome.weakest.as_ref()).cloned();
    Some(Choice { made: made.clone(), brief, outcome, stopped_by })
}
