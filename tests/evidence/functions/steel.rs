//! Round sections and steel tubes, by either family of rules.

use slatwright::derivation::given;
use slatwright::quantity::unit::metre;
use slatwright::rules::round::{Tube, bar_second_moment};
use slatwright::rules::{allowable_stress, limit_state};

use super::Entry;
use crate::inputs::{Inputs, sure, tried};

fn tube(i: &Inputs) -> Tube {
    Tube { outside: i.length("D"), wall: given("t", i.length("t")) }
}

pub(super) const STEEL: &[Entry] = &[
    ("round::bar_second_moment", |i| sure(bar_second_moment(i.length("d")))),
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
    ("allowable_stress::steel::allowable_moment", |i| {
        tried(allowable_stress::steel::allowable_moment(&tube(i), i.stress("Fy")))
    }),
    ("limit_state::steel::bending_resistance", |i| {
        tried(limit_state::steel::bending_resistance(&tube(i), i.stress("fy")))
    }),
    ("limit_state::steel::shear_resistance", |i| tried(limit_state::steel::shear_resistance(&tube(i), i.stress("fy")))),
    ("limit_state::bolt::tension_capacity", |i| {
        let root = metre((i.si("As") * 4.0 / std::f64::consts::PI).sqrt());
        let mut reply = tried(limit_state::bolt::tension_capacity(root, i.stress("fu")))?;
        reply.value /= i.si("γM2");
        Ok(reply)
    }),
    ("limit_state::steel::modulus", |_| sure(limit_state::steel::modulus())),
];
