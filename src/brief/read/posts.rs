//! `[posts]` and `[bracing]`.

use super::guard::{EDGES, Fixing, fixing};
use super::stick::{note_unread_size, stick};
use crate::brief::fields::Fields;
use crate::brief::keys::{BracingKeys, DiagonalKeys, KneeKeys, PostKeys, TopWord};
use crate::brief::mistake::Mistakes;

/// The values of `top`.
pub(super) const TOPS: [(&str, TopWord); 3] =
    [("free", TopWord::Free), ("braced", TopWord::Braced), ("wall", TopWord::Wall)];

pub(super) fn posts(mut f: Fields<'_, '_>, m: &mut Mistakes) -> PostKeys {
    let mut keys = PostKeys { stick: stick(&mut f, m), length: f.length("length", m), top: f.choice("top", m, &TOPS) };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, "write wood = \"douglas fir-larch no2\"; `slatwright timber` lists woods");
    f.finish(m);
    keys
}

pub(super) fn bracing(mut f: Fields<'_, '_>, m: &mut Mistakes) -> BracingKeys {
    let keys = BracingKeys {
        span: f.span().clone(),
        wall: f.choices("wall", m, &EDGES),
        knees: f.table("knees", m).map(|k| knees(k, m)),
        diagonals: f.table("diagonals", m).map(|d| diagonals(d, m)),
        panels: f.choices("panels", m, &EDGES),
    };
    if !["knees", "diagonals", "panels"].into_iter().any(|key| f.has(key)) {
        let help =
            "write wall = [\"left\"], the sides that are fixed to a wall, or describe `knees`, `diagonals` or `panels`";
        f.missing("wall", m, help);
    }
    f.finish(m);
    keys
}

const WOOD: &str = "write wood = \"spruce-pine-fir no2\"; `slatwright timber` lists woods";
const SCREWS: &str = "write screws = { lag = \"3/8 x 4 in\", count = 2 }, those in each end of a brace";

fn knees(mut f: Fields<'_, '_>, m: &mut Mistakes) -> KneeKeys {
    let mut keys = KneeKeys {
        stick: stick(&mut f, m),
        rise: f.length("rise", m),
        run: f.length("run", m),
        screws: f.table("screws", m).map(|s| fixing(s, m, Fixing::Brace)),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, WOOD);
    f.missing("rise", m, "write rise = \"18 in\", from where the post holds the rail down to the brace");
    f.missing("run", m, "write run = \"18 in\", from the post along the rail to the brace");
    f.missing("screws", m, SCREWS);
    f.finish(m);
    keys
}

fn diagonals(mut f: Fields<'_, '_>, m: &mut Mistakes) -> DiagonalKeys {
    let mut keys = DiagonalKeys {
        sides: f.choices("sides", m, &EDGES),
        stick: stick(&mut f, m),
        screws: f.table("screws", m).map(|s| fixing(s, m, Fixing::Brace)),
    };
    note_unread_size(&f, &mut keys.stick);
    f.missing("wood", m, WOOD);
    f.missing("sides", m, "write sides = [\"head\", \"foot\"], those with a crossed pair");
    f.missing("screws", m, SCREWS);
    f.finish(m);
    keys
}
