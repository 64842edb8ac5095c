//! Reading a brief, table by table.

mod beam;
mod boards;
mod end_rails;
mod guard;
mod members;
mod people;
mod posts;
mod rack;
mod stick;
mod support;

use toml::de::DeTable;

use super::fields::{Fields, Typed};
use super::keys::{Brief, CaseKeys, National, PlatformKeys, RuleFamily, Side};
use super::mistake::Mistakes;
use crate::quantity::{self, UnitSystem};
use crate::syntax;
use crate::tables::openings::Jurisdiction;
use beam::centre_beam;
use end_rails::end_rails;
use guard::{guard, ladder};
use members::{cleats, rails, slats};
use people::{mattress, person};
use posts::{bracing, posts};

pub use rack::{Rack, RackScrew, RackStick};

/// The keys under `[cases]`, in the order the cases are run.
pub(crate) const CASE_KEYS: [&str; 15] = [
    "lying", "sitting", "row", "kneeling", "climbing", "dropping", "jumping", "uniform", "bare", "point", "proof",
    "guard", "rung", "racking", "tipping",
];

/// The values of `national`.
const NATIONAL: [(&str, National); 3] =
    [("recommended", National::Recommended), ("uk", National::UnitedKingdom), ("germany", National::Germany)];

/// Whose rules for openings there are, and nobody's.
const JURISDICTIONS: [(&str, Option<Jurisdiction>); 4] =
    [("us", Some(Jurisdiction::Us)), ("eu", Some(Jurisdiction::Eu)), ("au", Some(Jurisdiction::Au)), ("none", None)];

/// The tables no brief can do without, and what would be right.
const NEEDED: [(&str, &str); 5] = [
    ("platform", "write [platform] with length = \"80 in\" and width = \"60 in\""),
    ("sleeper", "write [[sleeper]] with weight = \"180 lb\", once for each person"),
    ("slats", "write [slats] with wood = \"…\", size = \"2x4\" and count = 14"),
    ("cleats", "write [cleats] with wood, size and screws = { … }"),
    ("rails", "write [rails] with wood, size and ends = { … } or studs = { … }"),
];

impl Brief {
    /// Reads a brief. What cannot be read is in [`Brief::mistakes`].
    pub fn read(text: &str) -> Brief {
        let (document, errors) = DeTable::parse_recoverable(text);
        let mut m = Mistakes::default();
        for s in syntax::slips(text, &errors) {
            m.add(&s.span, s.message, s.label, s.help);
        }
        // What a broken line was meant to say is anybody's guess, and so is what would be missing without it.
        if !m.is_empty() {
            return Brief::nothing(m);
        }
        if document.get_ref().is_empty() {
            let help = "`slatwright begin` prints a brief to start from";
            m.add(&(0..0), "the brief is empty", "nothing is written here", help);
            return Brief::nothing(m);
        }
        let mut top = Fields::new("", document.get_ref(), 0..first_line(text));
        let title = top.text("title", &mut m);
        let units = top.choice("units", &mut m, &[("us", UnitSystem::Us), ("metric", UnitSystem::Metric)]);
        let rules =
            top.choice("rules", &mut m, &[("asd", RuleFamily::AllowableStress), ("ec5", RuleFamily::LimitState)]);
        let damp = top.choice("moisture", &mut m, &[("dry", false), ("damp", true)]);
        let national = top.choice("national", &mut m, &NATIONAL);
        let jurisdiction = top.choice("jurisdiction", &mut m, &JURISDICTIONS).map(|j| j.value);
        let platform = top.table("platform", &mut m).map(|f| platform(f, &mut m));
        let mattress = top.table("mattress", &mut m).map(|f| mattress(f, &mut m));
        let sleepers = top.tables("sleeper", &mut m).into_iter().map(|f| person(f, &mut m, true)).collect::<Vec<_>>();
        let visitor = top.table("visitor", &mut m).map(|f| person(f, &mut m, false));
        let slats = top.table("slats", &mut m).map(|f| slats(f, &mut m));
        let cleats = top.table("cleats", &mut m).map(|f| cleats(f, &mut m));
        let rails = top.table("rails", &mut m).map(|f| rails(f, &mut m, true));
        let end_rails = top.table("end_rails", &mut m).map(|f| end_rails(f, &mut m));
        let centre_beam = top.table("centre_beam", &mut m).map(|f| centre_beam(f, &mut m));
        let posts = top.table("posts", &mut m).map(|f| posts(f, &mut m));
        let guard = top.table("guard", &mut m).map(|f| guard(f, &mut m));
        let ladder = top.table("ladder", &mut m).map(|f| ladder(f, &mut m));
        let bracing = top.table("bracing", &mut m).map(|f| bracing(f, &mut m));
        let cases = top.table("cases", &mut m).map(|f| cases(f, &mut m)).unwrap_or_default();
        let (slat_limit, rail_limit) = top.table("limits", &mut m).map_or((None, None), |f| limits(f, &mut m));
        for (key, example) in NEEDED {
            top.missing(key, &mut m, example);
        }
        top.finish(&mut m);
        let rules = rules.unwrap_or(Typed { value: RuleFamily::AllowableStress, span: 0..first_line(text) });
        Brief {
            title,
            units: units.map_or(UnitSystem::Us, |u| u.value),
            rules,
            damp: damp.is_some_and(|d| d.value),
            national: national.map(|n| n.value).unwrap_or_default(),
            jurisdiction,
            platform,
            mattress,
            sleepers,
            visitor,
            slats,
            cleats,
            rails,
            end_rails,
            centre_beam,
            posts,
            guard,
            ladder,
            bracing,
            cases,
            slat_limit,
            rail_limit,
            mistakes: m,
        }
    }

    /// A brief of which nothing can be read.
    fn nothing(mistakes: Mistakes) -> Brief {
        Brief {
            title: None,
            units: UnitSystem::Us,
            rules: Typed { value: RuleFamily::AllowableStress, span: 0..0 },
            damp: false,
            national: National::default(),
            jurisdiction: None,
            platform: None,
            mattress: None,
            sleepers: Vec::new(),
            visitor: None,
            slats: None,
            cleats: None,
            rails: None,
            end_rails: None,
            centre_beam: None,
            posts: None,
            guard: None,
            ladder: None,
            bracing: None,
            cases: Vec::new(),
            slat_limit: None,
            rail_limit: None,
            mistakes,
        }
    }
}

fn first_line(text: &str) -> usize {
    text.find('\n').unwrap_or(text.len())
}

fn platform(mut f: Fields<'_, '_>, m: &mut Mistakes) -> PlatformKeys {
    let keys = PlatformKeys {
        span: f.span().clone(),
        length: f.length("length", m),
        width: f.length("width", m),
        height: f.length("height", m),
        entry: f.choice("entry", m, &[("left", Side::Left), ("right", Side::Right)]),
    };
    f.missing("length", m, "write length = \"80 in\", clear between the end supports");
    f.missing("width", m, "write width = \"60 in\", clear between the rails");
    f.finish(m);
    keys
}

fn cases(mut f: Fields<'_, '_>, m: &mut Mistakes) -> Vec<CaseKeys> {
    let mut out = Vec::new();
    for name in CASE_KEYS {
        let Some(mut c) = f.table(name, m) else { continue };
        let span = c.span().clone();
        let (uniform, point, proof) = (name == "uniform", name == "point", name == "proof");
        let push = name == "racking" || name == "tipping";
        let keys = CaseKeys {
            name,
            span,
            drop: (!proof).then(|| c.flag("drop", m)).flatten(),
            factor: (!uniform && !point && !proof && !push).then(|| c.number("factor", m)).flatten(),
            load: uniform.then(|| c.pressure("load", m)).flatten(),
            force: point.then(|| c.force("load", m)).flatten(),
            patch: point.then(|| c.length("patch", m)).flatten(),
            set: proof.then(|| c.text("set", m)).flatten(),
            decides: (point || proof).then(|| c.flag("decides", m)).flatten(),
        };
        if proof {
            c.missing("set", m, "write set = \"en1725\"; `slatwright timber proof load` lists them");
        }
        c.finish(m);
        out.push(keys);
    }
    f.finish(m);
    out
}

fn limits(mut f: Fields<'_, '_>, m: &mut Mistakes) -> (Option<Typed<f64>>, Option<Typed<f64>>) {
    let mut read = |key: &'static str, m: &mut Mistakes| {
        let t = f.text(key, m)?;
        match quantity::ratio_to(&t.value) {
            Ok(value) => Some(Typed { value, span: t.span }),
            Err(_) => {
                m.add(&t.span, format!("`{key}` must be a part of the span"), "", "write it as \"L/150\"");
                None
            }
        }
    };
    let out = (read("slat", m), read("rail", m));
    f.finish(m);
    out
}
