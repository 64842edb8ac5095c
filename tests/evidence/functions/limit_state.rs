//! The Eurocode rules.

use slatwright::rules::{RuleError, limit_state as ec5, slip};

use ec5::bearing::{Contact, Support};
use ec5::combination::{ActionFactors, Actions, Companion, Expression};
use ec5::deflection::{Deflection, Instantaneous};
use ec5::design::{LoadDuration, Material, NationalChoice, ServiceClass};
use ec5::dowel::{Embedded, Fastener, FastenerKind, ScrewShape};
use ec5::johansen::{Lateral, Member};
use ec5::screw::{Declared, Loaded, Thread};
use ec5::section::{Axis, Section};
use ec5::shear::Notch;
use ec5::spacing::{AxialPlace, Place};
use ec5::stability::{BeamLoad, LoadHeight, Unbraced};
use ec5::timber::{Column, Conditions, Timber};
use slatwright::derivation::{Worked, given, plain as constant};
use slatwright::quantity::unit::{metre, millimetre};
use slatwright::quantity::{Force, LineLoad};
use slatwright::source::{Citation, Seen};
use slatwright::tables::Tables;
use slatwright::tables::clear_wood::WoodKind;

use super::Entry;
use crate::inputs::{Inputs, sure, tried, whether};

pub(super) fn section(i: &Inputs) -> Section {
    Section { breadth: i.length("b"), depth: i.length("h") }
}

fn axis(i: &Inputs) -> Axis {
    i.choice("axis", "y", &[("y", Axis::Y), ("z", Axis::Z)])
}

pub(super) fn material(i: &Inputs) -> Material {
    use Material::*;
    i.choice(
        "material",
        "solid timber",
        &[
            ("solid timber", SolidTimber),
            ("glued laminated", GluedLaminated),
            ("veneer lumber", VeneerLumber),
            ("plywood", Plywood),
            ("OSB", StrandBoard),
        ],
    )
}

pub(super) fn kind(i: &Inputs) -> WoodKind {
    i.choice("wood", "softwood", &[("softwood", WoodKind::Softwood), ("hardwood", WoodKind::Hardwood)])
}

pub(super) fn duration(i: &Inputs) -> LoadDuration {
    use LoadDuration::*;
    i.choice(
        "duration",
        "medium",
        &[
            ("permanent", Permanent),
            ("long", LongTerm),
            ("medium", MediumTerm),
            ("short", ShortTerm),
            ("instantaneous", Instantaneous),
        ],
    )
}

pub(super) fn service(i: &Inputs) -> ServiceClass {
    i.choice("service class", "1", &[("1", ServiceClass::One), ("2", ServiceClass::Two), ("3", ServiceClass::Three)])
}

pub(super) fn annex(i: &Inputs) -> NationalChoice {
    use NationalChoice::*;
    i.choice("annex", "recommended", &[("recommended", Recommended), ("British", UnitedKingdom), ("German", Germany)])
}

pub(super) fn conditions(i: &Inputs) -> Conditions {
    Conditions { duration: duration(i), service: service(i), choice: annex(i), shared: i.flag("shared") }
}

pub(super) fn timber(i: &Inputs) -> Timber {
    Timber::from(Tables::embedded().strength_classes().find(i.word("class")).expect("a strength class").class)
}

fn unbraced(i: &Inputs) -> Unbraced {
    use BeamLoad::*;
    let load = i.choice(
        "load",
        "uniform",
        &[
            ("moment", ConstantMoment),
            ("uniform", Uniform),
            ("centre", Centre),
            ("cantilever, uniform", CantileverUniform),
            ("cantilever, end", CantileverEnd),
        ],
    );
    let height = i.choice(
        "on",
        "centre",
        &[
            ("compression edge", LoadHeight::CompressionEdge),
            ("centre", LoadHeight::Centroid),
            ("tension edge", LoadHeight::TensionEdge),
        ],
    );
    Unbraced { length: i.length("ℓ"), load, height }
}

/// A contact in the middle of a long member, unless it is said otherwise.
fn contact(i: &Inputs) -> Contact {
    let end = |symbol: &str| if i.has(symbol) { i.length(symbol) } else { metre(1.0) };
    Contact {
        length: i.length("ℓ"), to_ends: [end("a1"), end("a2")], to_next: i.has("ℓ1").then(|| i.length("ℓ1"))
    }
}

pub(super) fn fastener(i: &Inputs) -> Fastener {
    use FastenerKind::*;
    let kind = i.choice(
        "fastener",
        "screw",
        &[
            ("round nail", RoundNail),
            ("square nail", SquareOrGroovedNail),
            ("other nail", OtherNail),
            ("screw", Screw),
            ("bolt", Bolt),
            ("dowel", Dowel),
        ],
    );
    Fastener::smooth(kind, i.length("d"))
}

fn embedded(i: &Inputs, degrees: &str) -> Embedded {
    Embedded {
        kind: kind(i),
        density: i.density("ρk"),
        predrilled: i.flag("predrilled"),
        degrees: i.si_or(degrees, 0.0),
    }
}

/// A joint of two members of the same wood, `t1` at `α1` on `t2` at `α2`.
pub(super) fn single_shear(i: &Inputs, axial: Option<&Worked<Force>>) -> Result<Lateral, RuleError> {
    let member = |symbol, degrees: &str, thickness: &'static str| -> Result<Member, RuleError> {
        let embedment = ec5::dowel::embedment(symbol, &fastener(i), &embedded(i, degrees))?;
        Ok(Member { embedment, thickness: i.given_length(thickness) })
    };
    let my = ec5::dowel::yield_moment(&fastener(i), i.stress("fu"))?;
    ec5::johansen::single_shear(
        &fastener(i),
        &my,
        &member("fh,1,k", "α1", "t1")?,
        &member("fh,2,k", "α2", "t2")?,
        axial,
    )
}

fn thread(i: &Inputs) -> Thread {
    let root = if i.has("d1") { i.length("d1") } else { i.length("d") * 0.7 };
    Thread { diameter: i.length("d"), root, length: i.length("ℓef"), degrees: i.si_or("α", 90.0) }
}

fn declared(i: &Inputs, symbol: &str) -> Declared {
    Declared { strength: i.stress(symbol), density: i.density("ρa") }
}

/// Actions of category A, with the factors of the annex or those the source names.
fn actions(i: &Inputs) -> (Actions<LineLoad>, ActionFactors) {
    let load = |symbol: &'static str| given(symbol, i.line_load(symbol));
    let leading = i.has("Qk,1").then(|| (load("Qk,1"), Companion::CATEGORY_A));
    let accompanying = i.has("Qk,2").then(|| (load("Qk,2"), Companion::CATEGORY_A)).into_iter().collect();
    let mut factors = ActionFactors::of(annex(i));
    let national = || Citation::new("national annex", "as the source has it", Seen::Secondary);
    for (symbol, factor) in [("γG", &mut factors.permanent), ("γQ", &mut factors.variable)] {
        if i.has(symbol) {
            *factor = constant(i.si(symbol)).step(symbol, national());
        }
    }
    if i.has("ξ") {
        factors.reduction = Some(constant(i.si("ξ")).step("ξ", national()));
    }
    (Actions { permanent: load("Gk"), leading, accompanying }, factors)
}

fn deflections(i: &Inputs) -> Instantaneous {
    Instantaneous {
        permanent: i.length("winst,G"),
        leading: Some((i.length("winst,Q1"), Companion::CATEGORY_A)),
        accompanying: Vec::new(),
    }
}

pub(super) fn place(i: &Inputs) -> Place {
    use Place::*;
    i.choice(
        "place",
        "",
        &[
            ("a1", AlongGrain),
            ("a2", AcrossGrain),
            ("a3,t", LoadedEnd),
            ("a3,c", UnloadedEnd),
            ("a4,t", LoadedEdge),
            ("a4,c", UnloadedEdge),
        ],
    )
}

pub(super) const MEMBERS: &[Entry] = &[
    ("limit_state::bearing::effective_contact_length", |i| tried(ec5::bearing::effective_contact_length(&contact(i)))),
    ("limit_state::bearing::bearing_factor", |i| {
        let support =
            i.choice("support", "continuous", &[("continuous", Support::Continuous), ("discrete", Support::Discrete)]);
        sure(ec5::bearing::bearing_factor(material(i), kind(i), support, &contact(i), i.length("h")))
    }),
    ("limit_state::bearing::bearing_stress", |i| {
        sure(ec5::bearing::bearing_stress(i.force("F"), i.length("b"), i.given_length("ℓef")))
    }),
    ("limit_state::bearing::strength_at_angle", |i| {
        let kc90 = constant(i.si_or("kc,90", 1.0));
        tried(ec5::bearing::strength_at_angle(i.given_stress("fc,0"), i.given_stress("fc,90"), kc90, i.si("α")))
    }),
    ("limit_state::bending::bending_stress", |i| {
        sure(ec5::bending::bending_stress(i.moment("M"), &section(i), axis(i)))
    }),
    ("limit_state::bending::redistribution", |i| sure(ec5::bending::redistribution(material(i)))),
    ("limit_state::column::relative_slenderness", |i| {
        let (fc, e) = (i.given_stress("fc,0,k"), i.given_stress("E0,05"));
        tried(ec5::column::relative_slenderness(&section(i), axis(i), i.given_length("ℓef"), fc, e))
    }),
    ("limit_state::column::buckling", |i| tried(ec5::column::buckling(axis(i), i.given_ratio("λrel"), material(i)))),
    ("limit_state::section::Section::area", |i| sure(section(i).area())),
    ("limit_state::section::Section::section_modulus", |i| sure(section(i).section_modulus(axis(i)))),
    ("limit_state::section::Section::second_moment", |i| sure(section(i).second_moment(axis(i)))),
    ("limit_state::shear::crack_factor", |i| {
        let fv = if i.has("fv,k") { i.stress("fv,k") } else { timber(i).values.shear };
        tried(ec5::shear::crack_factor(material(i), kind(i), fv, annex(i)))
    }),
    ("limit_state::shear::shear_stress", |i| {
        sure(ec5::shear::shear_stress(i.force("V"), &section(i), constant(i.si_or("kcr", 1.0))))
    }),
    ("limit_state::shear::shear_beyond_supports", |i| {
        tried(ec5::shear::shear_beyond_supports(i.force("V"), i.length("L"), i.length("h"), i.length("ℓs")))
    }),
    ("limit_state::shear::notch_factor", |i| {
        let notch = Notch {
            depth_left: i.length("hef"),
            reach: i.length("x"),
            slope: i.si_or("i", 0.0),
            on_support_side: true,
        };
        tried(ec5::shear::notch_factor(&section(i), &notch, material(i)))
    }),
    ("limit_state::splitting::splitting_capacity", |i| {
        tried(ec5::splitting::splitting_capacity(kind(i), &section(i), i.length("he")))
    }),
    ("limit_state::stability::effective_length", |i| {
        tried(ec5::stability::effective_length(&unbraced(i), &section(i)))
    }),
    ("limit_state::stability::critical_stress_of_softwood", |i| {
        sure(ec5::stability::critical_stress_of_softwood(&section(i), i.given_length("ℓef"), i.given_stress("E0,05")))
    }),
    ("limit_state::stability::critical_stress", |i| {
        let (e, g) = (i.given_stress("E0,05"), i.given_stress("G0,05"));
        tried(ec5::stability::critical_stress(&section(i), i.given_length("ℓef"), e, g))
    }),
    ("limit_state::stability::fifth_percentile_of_shear_modulus", |i| {
        sure(ec5::stability::fifth_percentile_of_shear_modulus(
            i.given_stress("Gmean"),
            i.given_stress("E0,05"),
            i.given_stress("E0,mean"),
        ))
    }),
    ("limit_state::stability::lateral_buckling", |i| {
        tried(ec5::stability::lateral_buckling(i.given_stress("fm,k"), i.given_stress("σm,crit")))
    }),
];

pub(super) const FASTENERS: &[Entry] = &[
    ("limit_state::bolt::washer_capacity", |i| {
        tried(ec5::bolt::washer_capacity(i.length("dw"), i.length("d0"), i.stress("fc,90,k")))
    }),
    ("limit_state::dowel::Fastener::follows_bolts", |i| whether(fastener(i).follows_bolts())),
    ("limit_state::dowel::effective_diameter", |i| {
        let shape = ScrewShape {
            diameter: i.length("d"),
            root: i.length("root"),
            shank: i.length("shank"),
            shank_in_point_side: i.length("shank in point side"),
        };
        tried(ec5::dowel::effective_diameter(&shape))
    }),
    ("limit_state::dowel::needs_predrilling", |i| {
        whether(ec5::dowel::needs_predrilling(&fastener(i), i.density("ρk")))
    }),
    ("limit_state::dowel::embedment", |i| tried(ec5::dowel::embedment("fh,k", &fastener(i), &embedded(i, "α")))),
    ("limit_state::dowel::yield_moment", |i| tried(ec5::dowel::yield_moment(&fastener(i), i.stress("fu")))),
    ("limit_state::group::effective_number", |i| {
        let row = ec5::group::Row {
            count: i.count("n"),
            spacing: i.length("a1"),
            predrilled: i.flag("predrilled"),
            degrees: i.si_or("α", 0.0),
        };
        tried(ec5::group::effective_number(&fastener(i), &row))
    }),
    ("limit_state::johansen::rope_share", |i| sure(ec5::johansen::rope_share(fastener(i).kind))),
    ("limit_state::johansen::single_shear", |i| tried(single_shear(i, None).map(|l| l.capacity))),
    ("limit_state::screw::effective_number", |i| sure(ec5::screw::effective_number(i.count("n")))),
    ("limit_state::screw::declared_withdrawal", |i| {
        tried(ec5::screw::declared_withdrawal(&thread(i), &declared(i, "fax,k"), i.density("ρk")))
    }),
    ("limit_state::screw::withdrawal", |i| tried(ec5::screw::withdrawal(&thread(i), i.density("ρk")))),
    ("limit_state::screw::pull_through", |i| {
        tried(ec5::screw::pull_through(i.length("dh"), &declared(i, "fhead,k"), i.density("ρk")))
    }),
    ("limit_state::screw::head_strength_of_nail", |i| tried(ec5::screw::head_strength_of_nail(i.density("ρk")))),
    ("limit_state::screw::axial_and_lateral", |i| {
        let loaded = |force: &'static str, resistance: &'static str| Loaded {
            force: i.force(force),
            resistance: i.given_force(resistance),
        };
        tried(ec5::screw::axial_and_lateral(&loaded("Fax,Ed", "Fax,Rd"), &loaded("Fv,Ed", "Fv,Rd")))
    }),
    ("limit_state::slip::service_slip", |i| {
        tried(ec5::slip::service_slip(&fastener(i), i.density("ρm"), i.density("ρm"), i.flag("predrilled")))
    }),
    ("slip::slip_modulus", |i| sure(slip::slip_modulus(i.density("ρm"), i.density("ρm"), i.length("d")))),
    ("limit_state::spacing::least_distance", |i| {
        tried(ec5::spacing::least_distance(
            &fastener(i),
            place(i),
            i.density("ρk"),
            i.flag("predrilled"),
            i.si_or("α", 0.0),
        ))
    }),
    ("limit_state::spacing::least_axial_distance", |i| {
        let place = i.choice(
            "place",
            "",
            &[
                ("a1", AxialPlace::AlongGrain),
                ("a2", AxialPlace::AcrossGrain),
                ("a1,CG", AxialPlace::End),
                ("a2,CG", AxialPlace::Edge),
            ],
        );
        tried(ec5::spacing::least_axial_distance(i.length("d"), place, millimetre(1000.0)))
    }),
    ("limit_state::spacing::lead_holes", |i| {
        let which = i.choice("for", "shank", &[("shank", 0), ("thread", 1)]);
        sure(ec5::spacing::lead_holes(i.length("d"))[which].clone())
    }),
    ("limit_state::spacing::least_thickness", |i| {
        tried(ec5::spacing::least_thickness(i.length("d"), i.density("ρk"), i.flag("prone to splitting")))
    }),
];

pub(super) const DESIGN: &[Entry] = &[
    ("limit_state::combination::Companion::psi0", |_| sure(Companion::CATEGORY_A.psi0())),
    ("limit_state::combination::Companion::psi2", |_| sure(Companion::CATEGORY_A.psi2())),
    ("limit_state::combination::ActionFactors::of", |i| {
        let factors = ActionFactors::of(annex(i));
        sure(match i.word("of") {
            "γG" => factors.permanent,
            "γQ" => factors.variable,
            other => panic!("{other} is no factor on actions"),
        })
    }),
    ("limit_state::combination::fundamental", |i| {
        let (actions, factors) = actions(i);
        let by = [("6.10", Expression::Basic), ("6.10a", Expression::A), ("6.10b", Expression::B)];
        tried(ec5::combination::fundamental(&actions, &factors, i.choice("by", "6.10", &by)))
    }),
    ("limit_state::combination::characteristic", |i| sure(ec5::combination::characteristic(&actions(i).0))),
    ("limit_state::deflection::instantaneous_deflection", |i| {
        sure(ec5::deflection::instantaneous_deflection(&deflections(i)))
    }),
    ("limit_state::deflection::final_deflection", |i| {
        let kdef = ec5::design::deformation(material(i), service(i))?;
        sure(ec5::deflection::final_deflection(&deflections(i), kdef))
    }),
    ("limit_state::deflection::deflection_limits", |i| {
        use Deflection::*;
        let of = i.choice("of", "", &[("winst", Instantaneous), ("wnet,fin", NetFinal), ("wfin", Final)]);
        let limits = ec5::deflection::deflection_limits(of, i.length("ℓ"), i.flag("cantilever"));
        sure(i.choice("end", "", &[("tight", &limits.tight), ("wide", &limits.wide)]).clone())
    }),
    ("limit_state::design::modification", |i| tried(ec5::design::modification(material(i), duration(i), service(i)))),
    ("limit_state::design::modification_of_joint", |i| {
        sure(ec5::design::modification_of_joint(i.given_ratio("kmod,1"), i.given_ratio("kmod,2")))
    }),
    ("limit_state::design::deformation", |i| tried(ec5::design::deformation(material(i), service(i)))),
    ("limit_state::design::deformation_of_joint", |i| {
        sure(ec5::design::deformation_of_joint(i.given_ratio("kdef,1"), i.given_ratio("kdef,2")))
    }),
    ("limit_state::design::partial_factor", |i| sure(ec5::design::partial_factor(material(i), annex(i)))),
    ("limit_state::design::partial_factor_of_connection", |i| {
        sure(ec5::design::partial_factor_of_connection(annex(i)))
    }),
    ("limit_state::design::design_value", |i| {
        let kmod = ec5::design::modification(material(i), duration(i), service(i))?;
        sure(ec5::design::design_value(
            "Xd",
            kmod,
            i.given_stress("Xk"),
            ec5::design::partial_factor(material(i), annex(i)),
        ))
    }),
    ("limit_state::size::size_factor", |i| tried(ec5::size::size_factor(material(i), i.length("h"), i.density("ρk")))),
    ("limit_state::size::size_factor_of_veneer_lumber", |i| {
        tried(ec5::size::size_factor_of_veneer_lumber(i.length("h"), i.si("s")))
    }),
    ("limit_state::size::system_strength", |i| sure(ec5::size::system_strength(i.flag("shared")))),
    ("limit_state::timber::Timber::bending", |i| {
        let unbraced = i.has("ℓ").then(|| unbraced(i));
        tried(timber(i).bending(&section(i), &conditions(i), unbraced.as_ref()))
    }),
    ("limit_state::timber::Timber::tension", |i| tried(timber(i).tension(&section(i), &conditions(i)))),
    ("limit_state::timber::Timber::compression", |i| {
        let column = i.has("ℓef").then(|| {
            // A source that worked with 3.14 for π has its lengths in that measure.
            let (short, long) =
                (millimetre(1e-3), i.length("ℓef") * (std::f64::consts::PI / i.si_or("π", std::f64::consts::PI)));
            let [along_depth, along_breadth] = if axis(i) == Axis::Y { [long, short] } else { [short, long] };
            Column { along_depth: given("ℓef,y", along_depth), along_breadth: given("ℓef,z", along_breadth) }
        });
        tried(timber(i).compression(&section(i), &conditions(i), column.as_ref()))
    }),
    ("limit_state::timber::Timber::buckling", |i| {
        tried(timber(i).buckling(&section(i), axis(i), i.given_length("ℓef")))
    }),
    ("limit_state::timber::Timber::bearing", |i| {
        tried(timber(i).bearing(&conditions(i), constant(i.si_or("kc,90", 1.0))))
    }),
    ("limit_state::timber::Timber::shear", |i| tried(timber(i).shear(&conditions(i)))),
    ("limit_state::timber::Timber::crack_factor", |i| tried(timber(i).crack_factor(annex(i)))),
    ("limit_state::timber::Timber::deformation", |i| tried(timber(i).deformation(service(i)))),
    ("limit_state::timber::Timber::modulus", |i| sure(timber(i).modulus())),
    ("limit_state::timber::Timber::shear_modulus", |i| sure(timber(i).shear_modulus())),
];
