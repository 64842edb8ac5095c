//! Boards hung with a weight.

use toml::de::DeTable;

use super::first_line;
use super::stick::{note_unread_size, stick};
use crate::brief::boards::{BoardKeys, Boards, LoadWord};
use crate::brief::fields::Fields;
use crate::brief::keys::{LayWord, RuleFamily};
use crate::brief::mistake::Mistakes;
use crate::quantity::UnitSystem;
use crate::syntax;

/// The most boards of one list. No source: a bound on the work.
const MOST_BOARDS: usize = 500;

impl Boards {
    /// Reads a list of boards. What cannot be read is in [`Boards::mistakes`].
    pub fn read(text: &str) -> Boards {
        let (document, errors) = DeTable::parse_recoverable(text);
        let mut m = Mistakes::default();
        for s in syntax::slips(text, &errors) {
            m.add(&s.span, s.message, s.label, s.help);
        }
        let mut out = Boards::default();
        if !m.is_empty() {
            return Boards { mistakes: m, ..out };
        }
        let mut top = Fields::new("", document.get_ref(), 0..first_line(text));
        let units = top.choice("units", &mut m, &[("us", UnitSystem::Us), ("metric", UnitSystem::Metric)]);
        let rules =
            top.choice("rules", &mut m, &[("asd", RuleFamily::AllowableStress), ("ec5", RuleFamily::LimitState)]);
        out.units = units.map_or(UnitSystem::Us, |u| u.value);
        out.rules = rules.map_or(RuleFamily::AllowableStress, |r| r.value);
        out.all = board(&mut top, &mut m);
        let boards = top.tables("board", &mut m);
        if boards.len() > MOST_BOARDS {
            let message = format!("{} boards are more than are taken at once", boards.len());
            m.add(&(0..first_line(text)), message, "", format!("write {MOST_BOARDS} at most"));
        }
        for mut f in boards.into_iter().take(MOST_BOARDS) {
            let name = f.text("name", &mut m);
            let mut keys = board(&mut f, &mut m);
            keys.name = name;
            f.finish(&mut m);
            out.boards.push(keys);
        }
        top.missing("board", &mut m, "write [[board]] with dip = \"3/16 in\", once for each board");
        top.finish(&mut m);
        Boards { mistakes: m, ..out }
    }
}

/// What a board may say, and all of them together.
fn board(f: &mut Fields<'_, '_>, m: &mut Mistakes) -> BoardKeys {
    let mut keys = BoardKeys {
        name: None,
        stick: stick(f, m),
        lay: f.choice("lay", m, &[("flat", LayWord::Flat), ("edge", LayWord::Edge)]),
        span: f.length("span", m),
        load: f.choice("load", m, &[("middle", LoadWord::Middle), ("third points", LoadWord::ThirdPoints)]),
        weight: f.mass("weight", m),
        weight_error: f.mass("weight_error", m),
        dip: f.length("dip", m),
        dip_error: f.length("dip_error", m),
        unread: Vec::new(),
    };
    let (span, weight, dip) =
        (f.unread("span", &keys.span), f.unread("weight", &keys.weight), f.unread("dip", &keys.dip));
    keys.unread = [("span", span), ("weight", weight), ("dip", dip)].into_iter().filter(|k| k.1).map(|k| k.0).collect();
    note_unread_size(f, &mut keys.stick);
    keys
}
