//! Round sections and steel tubes, by either family of rules.

use slatwright::derivation::given;
use slatwright::rules::round::Tube;
use slatwright::rules::{allowable_stress, limit_state};

use super::Entry;
use crate::inputs::{Inputs, sure};

fn tube(i: &Inputs) -> Tube {
    Tube { outside: i.length("D"), wall: given("t", i.length("t")) }
}

pub(super) const STEEL: &[Entry] = &[
    ("round::Tube::area", |i| sure(tube(i).area())),
    ("round::Tube::second_moment", |i| sure(tube(i).second_moment())),
    ("round::Tube::plastic_modulus", |i| sure(tube(i).plastic_modulus())),
    ("allowable_stress::steel::design_tube", |i| {
        sure(allowable_stress::steel::design_tube(i.length("D"), i.length("t"))?.wall)
    }),
    ("allowable_stress::steel::modulus", |_| sure(allowable_stress::steel::modulus())),
    ("allowable_stress::steel::bolt_tension", |i| {
        sure(allowable_stress::steel::bolt_tension(i.length("D"), i.stress("Fu"))?)
    }),
    ("limit_state::steel::modulus", |_| sure(limit_state::steel::modulus())),
];
