//! The US rules.

use slatwright::rules::allowable_stress as asd;

use asd::bending::{LoadCase, Unbraced};
use asd::column::{Column, Ends};
use asd::combined::Combined;
use asd::connection::{Grain, Row};
use asd::deflection::Seasoned;
use asd::dowel::{BearingValue, Dowel, DowelKind, Member, Role};
use asd::factors::{Conditions, Duration, Property, Temperature};
use asd::section::Section;
use asd::spacing::{Distance, PilotFor, PilotHole, Place};
use asd::strength_ratio::{GrainAction, KnotPlace};
use asd::ungraded::Seasoning;
use asd::wood::{Face, Piece, Wood};
use slatwright::derivation::given;
use slatwright::quantity::number;
use slatwright::quantity::unit::{inch, pascal};
use slatwright::tables::clear_wood::{ClearValues, WoodKind};
use slatwright::tables::lumber::{ReferenceValues, SupplementTable};

use super::Entry;
use crate::inputs::{Inputs, plain, sure, tried};

pub(super) fn section(i: &Inputs) -> Section {
    Section { breadth: i.length("b"), depth: i.length("d") }
}

fn unbraced(i: &Inputs) -> Unbraced {
    use LoadCase::*;
    let load = i.choice(
        "load",
        "uniform",
        &[
            ("cantilever, uniform", CantileverUniform),
            ("cantilever, end load", CantileverEndLoad),
            ("uniform", Uniform),
            ("centre", Centre),
            ("centre, held there", CentreHeld),
            ("2 loads, held", TwoLoads),
            ("3 loads, held", ThreeLoads),
            ("4 loads, held", FourLoads),
            ("5 loads, held", FiveLoads),
            ("6 loads, held", SixLoads),
            ("7 or more loads, held", ManyLoads),
            ("end moments", EndMoments),
            ("other", Other),
        ],
    );
    Unbraced { length: i.length("lu"), load }
}

/// A column; `le` is the same both ways unless they are given apart.
fn column(i: &Inputs) -> Column {
    let of = |symbol: &'static str| given(symbol, if i.has(symbol) { i.length(symbol) } else { i.length("le") });
    Column { along_depth: of("le1"), along_breadth: of("le2") }
}

pub(super) fn property(i: &Inputs) -> Property {
    use Property::*;
    i.choice(
        "of",
        "Fb",
        &[
            ("Fb", Bending),
            ("Ft", Tension),
            ("Fv", Shear),
            ("Fc⊥", CompressionPerpendicular),
            ("Fc", CompressionParallel),
            ("E", Modulus),
        ],
    )
}

pub(super) fn duration(i: &Inputs) -> Duration {
    use Duration::*;
    i.choice(
        "duration",
        "ten years",
        &[
            ("permanent", Permanent),
            ("ten years", TenYears),
            ("two months", TwoMonths),
            ("seven days", SevenDays),
            ("ten minutes", TenMinutes),
            ("impact", Impact),
        ],
    )
}

pub(super) fn conditions(i: &Inputs) -> Conditions {
    let temperature = i.choice(
        "°F",
        "100",
        &[("100", Temperature::UpTo100F), ("125", Temperature::UpTo125F), ("150", Temperature::UpTo150F)],
    );
    Conditions { wet: i.flag("wet"), temperature, incised: i.flag("incised"), repetitive: i.flag("repetitive") }
}

pub(super) fn table(i: &Inputs) -> SupplementTable {
    use SupplementTable::*;
    i.choice("table", "4A", &[("4A", DimensionLumber), ("4B", SouthernPine), ("4D", Timber)])
}

/// Nominal thickness and width: `2x8`.
pub(super) fn nominal(i: &Inputs) -> (f64, f64) {
    let (t, w) = i.word("size").split_once('x').expect("a size such as 2x8");
    (t.parse().expect("a thickness"), w.parse().expect("a width"))
}

/// A piece of lumber; a value that is not given is never asked for.
pub(super) fn wood(i: &Inputs) -> Wood {
    let of = |symbol: &str| pascal(i.si_or(symbol, f64::NAN));
    let values = ReferenceValues {
        bending: of("Fb"),
        tension: of("Ft"),
        shear: of("Fv"),
        compression_perpendicular: of("Fc⊥"),
        compression_parallel: of("Fc"),
        modulus: of("E"),
        modulus_for_stability: of("Emin"),
        specific_gravity: number(0.5),
    };
    Wood::Graded { values, table: table(i), grade: i.word("grade").to_owned() }
}

pub(super) fn piece(i: &Inputs) -> Piece {
    let face = i.choice("laid", "on edge", &[("on edge", Face::Edgewise), ("flat", Face::Flatwise)]);
    Piece { section: section(i), nominal: nominal(i), face }
}

fn kind(i: &Inputs) -> WoodKind {
    i.choice("kind of wood", "softwood", &[("softwood", WoodKind::Softwood), ("hardwood", WoodKind::Hardwood)])
}

fn seasoning(i: &Inputs) -> Seasoning {
    i.choice(
        "seasoned",
        "green",
        &[("green", Seasoning::Green), ("19 %", Seasoning::AtMost19), ("15 %", Seasoning::AtMost15)],
    )
}

/// Averages of clear wood.
fn species(i: &Inputs) -> ClearValues {
    let of = |symbol: &str| pascal(i.si_or(symbol, f64::NAN));
    ClearValues {
        specific_gravity: number(0.4),
        rupture: of("MOR"),
        modulus: of("MOE"),
        crushing: of("C"),
        compression_perpendicular: of("C⊥"),
        shear: of("τ"),
    }
}

/// A screw: `D`, `Dr` and `Fyb`, where a function asks for them.
pub(super) fn dowel(i: &Inputs) -> Dowel {
    let kinds = [("lag screw", DowelKind::LagScrew), ("wood screw", DowelKind::WoodScrew), ("bolt", DowelKind::Bolt)];
    let kind = i.choice("fastener", "lag screw", &kinds);
    let diameter = i.length("D");
    let usual = if kind == DowelKind::Bolt { diameter } else { diameter * 0.75 };
    let root = if i.has("Dr") { i.length("Dr") } else { usual };
    Dowel { kind, diameter, root_diameter: root, bending_yield: pascal(i.si_or("Fyb", 1.0)) }
}

fn grain(i: &Inputs) -> Grain {
    i.choice("into", "side grain", &[("side grain", Grain::Side), ("end grain", Grain::End)])
}

fn distance(i: &Inputs) -> Result<Distance, slatwright::rules::RuleError> {
    use Place::*;
    let place = i.choice(
        "place",
        "",
        &[
            ("end, pulled", EndPulled),
            ("end, pushed", EndPushed),
            ("end, across", EndAcross),
            ("edge, along", EdgeAlong),
            ("edge, loaded", EdgeLoaded),
            ("edge, unloaded", EdgeUnloaded),
            ("row, along", RowAlong),
            ("row, across", RowAcross),
            ("between rows, along", BetweenAlong),
            ("between rows, across", BetweenAcross),
        ],
    );
    let length = if i.has("ℓ") { i.length("ℓ") } else { inch(1.0) };
    asd::spacing::required_distance(&dowel(i), place, kind(i), i.flag("prebored"), length)
}

fn pilot(i: &Inputs) -> PilotHole {
    let load = i.choice("load", "lateral", &[("withdrawal", PilotFor::Withdrawal), ("lateral", PilotFor::Lateral)]);
    asd::spacing::pilot_hole(&dowel(i), i.ratio("G"), load)
}

pub(super) const MEMBERS: &[Entry] = &[
    ("allowable_stress::bearing::bearing_stress", |i| {
        sure(asd::bearing::bearing_stress(i.force("R"), i.length("b"), i.length("lb")))
    }),
    ("allowable_stress::bearing::end_grain_bearing", |i| {
        tried(asd::bearing::end_grain_bearing(i.given_stress("fc"), i.given_stress("Fc*")))
    }),
    ("allowable_stress::bearing::hankinson", |i| {
        sure(asd::bearing::hankinson(i.given_stress("along"), i.given_stress("across"), i.si("θ")))
    }),
    ("allowable_stress::bearing::bearing_area", |i| {
        tried(asd::bearing::bearing_area(i.length("lb"), i.length("from end")))
    }),
    ("allowable_stress::bending::bending_stress", |i| {
        let mut reply = sure(asd::bending::bending_stress(i.moment("M"), &section(i)))?;
        // A book that went on with a rounded section modulus.
        let exact = section(i).section_modulus().value.value;
        reply.value *= exact / i.si_or("S there", exact);
        Ok(reply)
    }),
    ("allowable_stress::bending::effective_length", |i| {
        sure(asd::bending::effective_length(&unbraced(i), &section(i)))
    }),
    ("allowable_stress::bending::slenderness", |i| tried(asd::bending::slenderness(i.given_length("le"), &section(i)))),
    ("allowable_stress::bending::critical_bending_stress", |i| {
        sure(asd::bending::critical_bending_stress(i.given_stress("Emin'"), i.given_ratio("RB")))
    }),
    ("allowable_stress::bending::beam_stability", |i| {
        tried(asd::bending::beam_stability(&section(i), &unbraced(i), i.given_stress("Emin'"), i.given_stress("Fb*")))
    }),
    ("allowable_stress::bending::fully_braced", |_| sure(asd::bending::fully_braced())),
    ("allowable_stress::column::compression_stress", |i| {
        sure(asd::column::compression_stress(i.force("P"), &section(i)))
    }),
    ("allowable_stress::column::effective_length", |i| {
        let ends = i.choice(
            "ends",
            "",
            &[
                ("fixed, fixed", Ends::FixedFixed),
                ("fixed, pinned", Ends::FixedPinned),
                ("fixed, moving sideways", Ends::FixedTranslating),
                ("pinned, pinned", Ends::PinnedPinned),
                ("fixed, free", Ends::FixedFree),
                ("pinned, moving sideways", Ends::PinnedTranslating),
            ],
        );
        sure(asd::column::effective_length(ends, i.length("l")))
    }),
    ("allowable_stress::column::slenderness_ratio", |i| tried(asd::column::slenderness_ratio(&column(i), &section(i)))),
    ("allowable_stress::column::most_slender", |_| sure(asd::column::most_slender())),
    ("allowable_stress::column::slenderness", |i| tried(asd::column::slenderness(&column(i), &section(i)))),
    ("allowable_stress::column::critical_compression_stress", |i| {
        // Books before 2005 write 0.3 E for 0.822 Emin.
        let emin = if i.has("E") { i.stress("E") * (0.3 / 0.822) } else { i.stress("Emin'") };
        sure(asd::column::critical_compression_stress(given("Emin'", emin), i.given_ratio("le/d")))
    }),
    ("allowable_stress::column::column_stability", |i| {
        tried(asd::column::column_stability(i.given_stress("FcE"), i.given_stress("Fc*")))
    }),
    ("allowable_stress::combined::bending_and_compression", |i| {
        tried(asd::combined::bending_and_compression(&Combined {
            compression: i.given_stress("fc"),
            allowable_compression: i.given_stress("Fc'"),
            critical_1: i.given_stress("FcE1"),
            critical_2: i.given_stress("FcE2"),
            critical_bending: i.given_stress("FbE"),
            bending_1: i.given_stress("fb1"),
            allowable_bending_1: i.given_stress("Fb1'"),
            bending_2: i.given_stress("fb2"),
            allowable_bending_2: i.given_stress("Fb2'"),
        }))
    }),
    ("allowable_stress::deflection::creep_factor", |i| {
        let seasoned =
            i.choice("wood", "", &[("seasoned and dry", Seasoned::Dry), ("unseasoned or wet", Seasoned::GreenOrWet)]);
        sure(asd::deflection::creep_factor(seasoned))
    }),
    ("allowable_stress::factors::load_duration", |i| sure(asd::factors::load_duration(duration(i)))),
    ("allowable_stress::factors::load_duration_of_connection", |i| {
        sure(asd::factors::load_duration_of_connection(duration(i)))
    }),
    ("allowable_stress::factors::temperature", |i| {
        sure(asd::factors::temperature(property(i), conditions(i).temperature, i.flag("wet")))
    }),
    ("allowable_stress::factors::wet_service", |i| {
        let sized = pascal(i.si_or("F·CF", 1e9));
        sure(asd::factors::wet_service(property(i), table(i), i.flag("wet"), sized))
    }),
    ("allowable_stress::factors::incising", |i| sure(asd::factors::incising(property(i), i.flag("incised")))),
    ("allowable_stress::factors::repetitive_member", |i| {
        sure(asd::factors::repetitive_member(table(i), i.flag("repetitive")))
    }),
    ("allowable_stress::section::Section::area", |i| sure(section(i).area())),
    ("allowable_stress::section::Section::section_modulus", |i| sure(section(i).section_modulus())),
    ("allowable_stress::section::Section::second_moment", |i| sure(section(i).second_moment())),
    ("allowable_stress::shear::shear_stress", |i| sure(asd::shear::shear_stress(i.force("V"), &section(i)))),
    ("allowable_stress::size::covered_thickness", |i| {
        asd::size::covered_thickness(table(i), nominal(i))?;
        plain(1.0)
    }),
    ("allowable_stress::size::size_factor", |i| {
        let depth = if i.has("d") { i.length("d") } else { inch(5.0) };
        tried(asd::size::size_factor(table(i), i.word("grade"), property(i), nominal(i), depth))
    }),
    ("allowable_stress::size::flat_use", |i| tried(asd::size::flat_use(table(i), i.word("grade"), nominal(i)))),
    ("allowable_stress::size::flat_use_of_modulus", |i| {
        plain(asd::size::flat_use_of_modulus(table(i), i.word("grade"), nominal(i))?.value)
    }),
];

pub(super) const CONNECTIONS: &[Entry] = &[
    ("allowable_stress::connection::least_length_in_main", |i| {
        tried(asd::connection::least_length_in_main(&dowel(i), i.length("tip")))
    }),
    ("allowable_stress::connection::penetration", |i| {
        tried(asd::connection::penetration(&dowel(i), i.length("length in main"), i.length("tip")))
    }),
    ("allowable_stress::connection::bearing_length_in_main", |i| {
        tried(asd::connection::bearing_length_in_main(&dowel(i), i.given_length("p"), i.length("tip")))
    }),
    ("allowable_stress::connection::wet_service", |i| sure(asd::connection::wet_service(i.flag("wet")))),
    ("allowable_stress::connection::end_grain_lateral", |i| sure(asd::connection::end_grain_lateral(grain(i)))),
    ("allowable_stress::connection::group_action", |i| {
        let (e, side) = (i.stress("E"), i.si("As"));
        let area = inch(1.0) * inch(side / inch(1.0).value.powi(2));
        let row = Row {
            count: i.count("n"),
            spacing: i.length("s"),
            main_stiffness: e * area / i.si("As/Am"),
            side_stiffness: e * area,
            metal: i.flag("metal"),
        };
        tried(asd::connection::group_action(&dowel(i), &row))
    }),
    ("allowable_stress::dowel::dowel_bearing_strength", |i| {
        let value =
            i.choice("as", "tabulated", &[("tabulated", BearingValue::Tabulated), ("worked", BearingValue::Formula)]);
        tried(asd::dowel::dowel_bearing_strength(Role::Main, i.ratio("G"), &dowel(i), i.si_or("θ", 0.0), value))
    }),
    ("allowable_stress::dowel::reduction_terms", |i| {
        let terms = asd::dowel::reduction_terms(&dowel(i), i.si_or("θ", 0.0))?;
        sure(terms[i.choice("mode", "I", &[("I", 0), ("II", 1), ("III", 2)])].clone())
    }),
    ("allowable_stress::dowel::lateral", |i| {
        let member = |strength: &'static str, length: &'static str| Member {
            bearing_strength: i.given_stress(strength),
            bearing_length: i.given_length(length),
            degrees: i.si_or("θ", 0.0),
        };
        let limit = asd::dowel::lateral(&dowel(i), &member("Fem", "ℓm"), &member("Fes", "ℓs"))?;
        sure(limit.lateral)
    }),
    ("allowable_stress::spacing::required_distance", |i| {
        let distance = distance(i)?;
        sure(if i.flag("least") { distance.least } else { distance.full })
    }),
    ("allowable_stress::spacing::geometry", |i| tried(asd::spacing::geometry(i.length("actual"), &distance(i)?))),
    ("allowable_stress::spacing::bolt_hole", |i| {
        let [least, most] = asd::spacing::bolt_hole(i.length("D"));
        sure(if i.flag("largest") { most } else { least })
    }),
    ("allowable_stress::spacing::pilot_hole", |i| {
        let hole = pilot(i);
        let thread = hole.thread.expect("a hole for the thread");
        sure(
            i.choice(
                "hole",
                "",
                &[("shank", hole.shank.as_ref()), ("thread", Some(&thread.0)), ("thread at most", Some(&thread.1))],
            )
            .expect("a hole for the shank")
            .clone(),
        )
    }),
    ("allowable_stress::withdrawal::withdrawal", |i| tried(asd::withdrawal::withdrawal(&dowel(i), i.ratio("G")))),
    ("allowable_stress::withdrawal::adjusted_withdrawal", |i| {
        let w = asd::withdrawal::withdrawal(&dowel(i), i.ratio("G"))?;
        tried(asd::withdrawal::adjusted_withdrawal(&dowel(i), w, i.length("pt"), &conditions(i), duration(i), grain(i)))
    }),
];

pub(super) const WOOD: &[Entry] = &[
    ("allowable_stress::strength_ratio::knot", |i| {
        use KnotPlace::*;
        let place = i.choice(
            "face",
            "narrow",
            &[("narrow", NarrowFace), ("wide, centre", WideFaceCentre), ("wide, edge", WideFaceEdge)],
        );
        tried(asd::strength_ratio::knot(place, i.length("k"), i.length("h")))
    }),
    ("allowable_stress::strength_ratio::slope_of_grain", |i| {
        let action =
            i.choice("in", "", &[("bending", GrainAction::Bending), ("compression", GrainAction::Compression)]);
        tried(asd::strength_ratio::slope_of_grain(action, i.si("run")))
    }),
    ("allowable_stress::ungraded::exclusion_limit", |i| {
        let mean = i.stress("mean");
        tried(asd::ungraded::exclusion_limit("mean", mean, (i.stress("deviation") / mean).value))
    }),
    ("allowable_stress::ungraded::bending", |i| {
        tried(asd::ungraded::bending(&species(i), kind(i), i.given_ratio("S"), seasoning(i)))
    }),
    ("allowable_stress::ungraded::tension", |i| sure(asd::ungraded::tension(i.given_stress("Fb")))),
    ("allowable_stress::ungraded::shear", |i| tried(asd::ungraded::shear(&species(i), kind(i), seasoning(i)))),
    ("allowable_stress::ungraded::compression_parallel", |i| {
        tried(asd::ungraded::compression_parallel(&species(i), kind(i), i.given_ratio("S"), seasoning(i)))
    }),
    ("allowable_stress::ungraded::compression_perpendicular", |i| {
        tried(asd::ungraded::compression_perpendicular(&species(i), seasoning(i)))
    }),
    ("allowable_stress::ungraded::modulus", |i| {
        tried(asd::ungraded::modulus(&species(i), &i.given_ratio("S"), seasoning(i)))
    }),
    ("allowable_stress::ungraded::modulus_for_stability", |i| {
        sure(asd::ungraded::modulus_for_stability(i.given_stress("E")))
    }),
    ("allowable_stress::ungraded::size", |i| sure(asd::ungraded::size(i.length("d")))),
    ("allowable_stress::ungraded::at_moisture", |i| {
        tried(asd::ungraded::at_moisture(i.stress("P12"), i.stress("Pg"), i.si("M"), i.si("Mp")))
    }),
    ("allowable_stress::wood::Wood::bending", |i| {
        let unbraced = i.has("lu").then(|| unbraced(i));
        tried(wood(i).bending(&piece(i), &conditions(i), duration(i), unbraced.as_ref()))
    }),
    ("allowable_stress::wood::Wood::tension", |i| tried(wood(i).tension(&piece(i), &conditions(i), duration(i)))),
    ("allowable_stress::wood::Wood::shear", |i| tried(wood(i).shear(&piece(i), &conditions(i), duration(i)))),
    ("allowable_stress::wood::Wood::bearing", |i| {
        tried(wood(i).bearing(&piece(i), &conditions(i), i.given_ratio("Cb")))
    }),
    ("allowable_stress::wood::Wood::compression", |i| {
        let column = (i.has("le") || i.has("le1")).then(|| column(i));
        tried(wood(i).compression(&piece(i), &conditions(i), duration(i), column.as_ref()))
    }),
    ("allowable_stress::wood::Wood::modulus", |i| tried(wood(i).modulus(&piece(i), &conditions(i)))),
    ("allowable_stress::wood::Wood::modulus_for_stability", |i| {
        tried(wood(i).modulus_for_stability(&piece(i), &conditions(i)))
    }),
];
