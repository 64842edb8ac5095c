//! `[posts]` and `[bracing]`.

use super::stick::{note_unread_size, stick};
use crate::brief::Edge;
use crate::brief::fields::Fields;
use crate::brief::keys::{BracingKeys, PostKeys, TopWord};
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
    let sides = [("left", Edge::Left), ("right", Edge::Right), ("head", Edge::Head), ("foot", Edge::Foot)];
    let keys = BracingKeys { span: f.span().clone(), wall: f.choices("wall", m, &sides) };
    f.missing("wall", m, "write wall = [\"left\"], the sides of the platform that are fixed to a wall");
    f.finish(m);
    keys
}
