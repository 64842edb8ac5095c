//! Results that people print for several clauses together.

use slatwright::derivation::{constant, given};
use slatwright::quantity::unit::{inch, newton, newton_metre, pascal, psi};
use slatwright::quantity::{Stress, number};
use slatwright::rules::RuleError;
use slatwright::rules::allowable_stress::dowel::{self, BearingValue, Member, Role};
use slatwright::rules::allowable_stress::section::Section as UsSection;
use slatwright::rules::allowable_stress::wood::{Face, Piece, Wood};
use slatwright::rules::limit_state as ec5;
use slatwright::source::{Citation, Seen};
use slatwright::tables::lumber::{ReferenceValues, SupplementTable};

use ec5::combined::{Bending, Utilised};
use ec5::design::{design_value, modification, partial_factor_of_connection};
use ec5::johansen::YieldMode;
use ec5::section::{Axis, Section};

use super::Entry;
use super::allowable_stress as us;
use super::limit_state as eu;
use crate::inputs::{Answer, Inputs, plain, sure};

pub(super) const CALCULATIONS: &[Entry] = &[
    ("screw in two woods", screw_in_two_woods),
    ("lag screw through steel", lag_screw_through_steel),
    ("joist span", joist_span),
    ("column capacity", column_capacity),
    ("moment capacity", moment_capacity),
    ("sag at midspan", sag_at_midspan),
    ("mode f without 1.15", |i| {
        let lateral = eu::single_shear(i, None)?;
        let f = lateral.modes.iter().find(|(m, _)| *m == YieldMode::F).expect("mode f");
        plain(f.1.value.value / 1.15)
    }),
    ("post bent and compressed", post_bent_and_compressed),
    ("member bent about both axes", |i| sure(parts(i)?.0.alone())),
    ("member bent about one axis", |i| {
        let held = ec5::stability::held();
        sure(ec5::combined::bending_with_lateral_buckling(&parts(i)?.0.y, held))
    }),
    ("member bent and pulled", |i| {
        let section = eu::section(i);
        let pull = Utilised {
            stress: ec5::axial::tension_stress(i.force("N"), section.area().value),
            strength: eu::timber(i).tension(&section, &eu::conditions(i))?,
        };
        sure(parts(i)?.0.with_tension(&pull))
    }),
    ("post utilised with lateral buckling", lateral),
    ("connection", connection),
    ("post capacity", |i| {
        let answer = super::answer("limit_state::timber::Timber::compression", i).expect("a function")?;
        plain(answer.value * eu::section(i).area().value.value)
    }),
];

/// NDS: one dowel between two woods of the same `G`, or `Gm` and `Gs`.
fn screw_in_two_woods(i: &Inputs) -> Answer {
    let dowel = us::dowel(i);
    let of = |role, degrees: &str, length: &'static str| -> Result<Member, RuleError> {
        let degrees = i.si_or(degrees, 0.0);
        let bearing_strength =
            dowel::dowel_bearing_strength(role, i.ratio("G"), &dowel, degrees, BearingValue::Tabulated)?;
        Ok(Member { bearing_strength, bearing_length: i.given_length(length), degrees })
    };
    sure(dowel::lateral(&dowel, &of(Role::Main, "θm", "ℓm")?, &of(Role::Side, "θs", "ℓs")?)?.lateral)
}

/// NDS: a lag screw 8 D deep through a side plate of sheet steel, `Fe` 61850 psi.
fn lag_screw_through_steel(i: &Inputs) -> Answer {
    let (dowel, degrees) = (us::dowel(i), i.si_or("θ", 0.0));
    let main = Member {
        bearing_strength: dowel::dowel_bearing_strength(
            Role::Main,
            i.ratio("G"),
            &dowel,
            degrees,
            BearingValue::Tabulated,
        )?,
        bearing_length: given("ℓm", dowel.diameter * 8.0),
        degrees,
    };
    let side = Member { bearing_strength: constant(psi(61_850.0)), bearing_length: i.given_length("ts"), degrees: 0.0 };
    sure(dowel::lateral(&dowel, &main, &side)?.lateral)
}

/// The span of a joist under uniform load: the lesser of bending under all of it and of deflection under the live load, at
/// most `cap`. `√(8 S Fb'/w)` and `∛(384 E' I/(5 w n))`. Of several species the least.
fn joist_span(i: &Inputs) -> Answer {
    let mut least = i.si("cap");
    for wood in lumber(i) {
        least = least.min(span_of(&wood, i)?);
    }
    plain(least)
}

fn span_of(wood: &Wood, i: &Inputs) -> Result<f64, RuleError> {
    let width = us::nominal(i).1;
    // Dressed depth of 2x lumber (PS 20).
    let depth = match width {
        4.0 => 3.5,
        6.0 => 5.5,
        8.0 => 7.25,
        10.0 => 9.25,
        12.0 => 11.25,
        _ => panic!("no 2x{width} in the tables"),
    };
    let section = UsSection { breadth: inch(1.5), depth: inch(depth) };
    let piece = Piece { section, nominal: (2.0, width), face: Face::Edgewise };
    let fb = wood.bending(&piece, &us::conditions(i), us::duration(i), None)?.value;
    let e = wood.modulus(&piece, &us::conditions(i))?.value;
    let line = |pressure: f64| pressure * i.si("spacing");
    let (live, dead) = (i.si("live"), i.si("dead"));
    let bending = (8.0 * (section.section_modulus().value * fb).value / line(live + dead)).sqrt();
    let stiffness = (e * section.second_moment().value).value;
    Ok(bending.min((384.0 * stiffness / (5.0 * line(live) * i.si("L/"))).cbrt()))
}

/// The woods of a row: `species` may name several, or `Fb` and `E` are given.
fn lumber(i: &Inputs) -> Vec<Wood> {
    let grade = i.word("grade");
    let wood = |fb: Stress, e: Stress, table| {
        let none = pascal(f64::NAN);
        let values = ReferenceValues {
            bending: fb,
            tension: none,
            shear: none,
            compression_perpendicular: none,
            compression_parallel: none,
            modulus: e,
            modulus_for_stability: none,
            specific_gravity: number(0.5),
        };
        Wood::Graded { values, table, grade: grade.to_owned() }
    };
    if i.has("Fb") {
        return vec![wood(i.stress("Fb"), i.stress("E"), SupplementTable::DimensionLumber)];
    }
    let (rows, width) = (crate::spans::lumber(), us::nominal(i).1);
    let of = |species: &str| {
        let row = rows
            .iter()
            .find(|r| r.species == species && r.grade == grade && r.width.is_none_or(|w| f64::from(w) == width))
            .unwrap_or_else(|| panic!("no values for {species} {grade} {width}"));
        let pine = row.width.is_some();
        let table = if pine { SupplementTable::SouthernPine } else { SupplementTable::DimensionLumber };
        wood(psi(row.Fb), psi(row.E), table)
    };
    i.word("species").split(", ").map(of).collect()
}

/// `P = CP Fc* A`.
fn column_capacity(i: &Inputs) -> Answer {
    use slatwright::rules::allowable_stress::column;
    let critical = i.stress("E") * (0.3 / 0.822);
    let section = us::section(i);
    let le = || i.given_length("le");
    let slender = column::slenderness(&column::Column { along_depth: le(), along_breadth: le() }, &section)?;
    let fce = column::critical_compression_stress(given("Emin'", critical), slender);
    let cp = column::column_stability(fce, i.given_stress("Fc*"))?;
    let stress = (cp * i.given_stress("Fc*")).step("Fc'", Citation::new("NDS 2018", "3.6.3", Seen::Secondary));
    sure(stress * section.area())
}

/// `M = Fb' S`.
fn moment_capacity(i: &Inputs) -> Answer {
    let fb = us::wood(i).bending(&us::piece(i), &us::conditions(i), us::duration(i), None)?;
    sure(fb * us::section(i).section_modulus())
}

/// `P L³/(48 E' I)`.
fn sag_at_midspan(i: &Inputs) -> Answer {
    let e = us::wood(i).modulus(&us::piece(i), &us::conditions(i))?.value;
    let (p, l) = (i.si("P"), i.si("L"));
    plain(p * l.powi(3) / (48.0 * (e * us::section(i).second_moment().value).value))
}

/// The parts of a post of one class that is compressed and bent about both axes; each axis has its own size factor, by the
/// dimension it bends in.
fn parts(i: &Inputs) -> Result<(Bending, Utilised), RuleError> {
    let (section, timber, conditions) = (eu::section(i), eu::timber(i), eu::conditions(i));
    let turned = Section { breadth: section.depth, depth: section.breadth };
    let bent = |moment: f64, axis, as_loaded: &Section| -> Result<Utilised, RuleError> {
        let stress = ec5::bending::bending_stress(newton_metre(moment), &section, axis);
        Ok(Utilised { stress, strength: timber.bending(as_loaded, &conditions, None)? })
    };
    let bending = Bending {
        y: bent(i.si("My"), Axis::Y, &section)?,
        z: bent(i.si_or("Mz", 0.0), Axis::Z, &turned)?,
        km: ec5::bending::redistribution(eu::material(i)),
    };
    let compression = Utilised {
        stress: ec5::axial::compression_stress(newton(i.si_or("N", 0.0)), &section),
        strength: timber.compression(&section, &conditions, None)?,
    };
    Ok((bending, compression))
}

fn post_bent_and_compressed(i: &Inputs) -> Answer {
    let (bending, compression) = parts(i)?;
    if !i.has("ℓef") {
        return sure(bending.with_compression(&compression));
    }
    let kc = |axis| eu::timber(i).buckling(&eu::section(i), axis, i.given_length("ℓef"));
    sure(bending.with_buckling(&compression, kc(Axis::Y)?, kc(Axis::Z)?))
}

fn lateral(i: &Inputs) -> Answer {
    let (bending, compression) = parts(i)?;
    let kc = eu::timber(i).buckling(&eu::section(i), Axis::Z, i.given_length("ℓef"))?;
    let held = ec5::stability::held();
    sure(ec5::combined::lateral_buckling_and_compression(&bending.y, held, &compression, kc))
}

/// Design resistance of a connection, from a characteristic one by name.
fn connection(i: &Inputs) -> Answer {
    let named = |name: &str| super::answer(name, i).expect("a function").map(|r| newton(r.value));
    let of = i.word("of").to_owned();
    let force = match of.as_str() {
        "splitting" => given("Xk", named("limit_state::splitting::splitting_capacity")?),
        "pull-through" => given("Xk", named("limit_state::screw::pull_through")?),
        "screws pulled" => {
            ec5::screw::effective_number(i.count("n")) * given("Xk", named("limit_state::screw::declared_withdrawal")?)
        }
        "lateral" => {
            let axial = given("Fax,Rk", i.force("Fax,Rk"));
            eu::single_shear(i, Some(&axial))?.capacity
        }
        other => panic!("{other} is no resistance"),
    };
    let kmod = modification(eu::material(i), eu::duration(i), eu::service(i))?;
    sure(design_value("Fd", kmod, force, partial_factor_of_connection(eu::annex(i))))
}
