//! The rack: what sticks and screws are at hand, as typed.

use std::ops::Range;

use toml::de::DeTable;

use super::first_line;
use super::stick::{note_unread_size, stick};
use super::support::declared;
use crate::brief::fields::{Fields, Typed};
use crate::brief::keys::{DeclaredKeys, StickKeys};
use crate::brief::mistake::Mistakes;
use crate::quantity::Length;
use crate::syntax;

/// Most sticks, and most screws, in one rack. No source: a bound on the work.
const MOST: usize = 500;

/// `[[stick]]`: one kind of stick in the rack
#[derive(Clone, Debug)]
pub struct RackStick {
    /// Wood and size.
    pub stick: StickKeys,
    /// The lengths it comes in.
    pub lengths: Option<Typed<Vec<Length>>>,
}

/// `[[screw]]`: one kind of screw on the shelf
#[derive(Clone, Debug)]
pub struct RackScrew {
    /// Where it stands.
    pub span: Range<usize>,
    /// A wood screw.
    pub screw: Option<Typed<String>>,
    /// A lag screw.
    pub lag: Option<Typed<String>>,
    /// What the maker declares of it.
    pub declared: Option<DeclaredKeys>,
}

/// What is at hand, as typed.
#[derive(Clone, Debug)]
pub struct Rack {
    /// The sticks.
    pub sticks: Vec<RackStick>,
    /// The screws.
    pub screws: Vec<RackScrew>,
    /// What is wrong so far.
    pub mistakes: Mistakes,
}

impl Rack {
    /// Reads a rack. Mistakes are noted, never returned early.
    pub fn read(text: &str) -> Rack {
        let (document, errors) = DeTable::parse_recoverable(text);
        let mut m = Mistakes::default();
        for s in syntax::slips(text, &errors) {
            m.add(&s.span, s.message, s.label, s.help);
        }
        if !m.is_empty() {
            return Rack { sticks: Vec::new(), screws: Vec::new(), mistakes: m };
        }
        let mut top = Fields::new("rack", document.get_ref(), 0..first_line(text));
        let sticks: Vec<RackStick> = top.tables("stick", &mut m).into_iter().map(|f| rack_stick(f, &mut m)).collect();
        let screws: Vec<RackScrew> = top.tables("screw", &mut m).into_iter().map(|f| rack_screw(f, &mut m)).collect();
        for (what, n) in [("sticks", sticks.len()), ("screws", screws.len())] {
            if n > MOST {
                let message = format!("{n} kinds of {what} are more than can be tried");
                m.add(&(0..first_line(text)), message, "", format!("{MOST} at most"));
            }
        }
        top.finish(&mut m);
        if sticks.is_empty() && screws.is_empty() && m.is_empty() {
            let help =
                "write [[stick]] with wood and size, once for each kind, and [[screw]] with screw = \"#10 x 3 in\"";
            m.add(&(0..first_line(text)), "the rack is empty", "nothing is in it", help);
        }
        Rack { sticks, screws, mistakes: m }
    }
}

fn rack_stick(mut f: Fields<'_, '_>, m: &mut Mistakes) -> RackStick {
    let mut keys = RackStick { stick: stick(&mut f, m), lengths: f.lengths("lengths", m) };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods");
    f.finish(m);
    keys
}

fn rack_screw(mut f: Fields<'_, '_>, m: &mut Mistakes) -> RackScrew {
    let keys = RackScrew {
        span: f.span().clone(),
        screw: f.text("screw", m),
        lag: f.text("lag", m),
        declared: f.table("declared", m).map(|d| declared(d, m)),
    };
    if f.has("screw") {
        f.idle(&["lag"], "`screw`", m, "one [[screw]] heading for each kind");
    } else if !f.unread("lag", &keys.lag) && keys.lag.is_none() {
        f.missing("screw", m, "write screw = \"#10 x 3 in\", or lag = \"1/4 x 3 in\"");
    }
    f.finish(m);
    keys
}
