//! What must hold for every input: directions of change, and neither panic nor NaN.

use super::support::*;
use proptest::prelude::*;
use slatwright::derivation::{given, plain};
use slatwright::quantity::number;
use slatwright::quantity::unit::{megapascal, millimetre, newton, newton_metre};
use slatwright::rules::limit_state::bearing::{
    Contact, Support, bearing_factor, effective_contact_length, strength_at_angle,
};
use slatwright::rules::limit_state::design::{LoadDuration, Material, NationalChoice, ServiceClass};
use slatwright::rules::limit_state::dowel::{
    Embedded, Fastener, FastenerKind, ScrewShape, effective_diameter, embedment, yield_moment,
};
use slatwright::rules::limit_state::group::{Row, effective_number};
use slatwright::rules::limit_state::johansen::{Member, double_shear, single_shear};
use slatwright::rules::limit_state::screw::{Declared, Thread, declared_withdrawal, pull_through, withdrawal};
use slatwright::rules::limit_state::shear::{Notch, notch_factor, shear_beyond_supports};
use slatwright::rules::limit_state::size::size_factor_of_veneer_lumber;
use slatwright::rules::limit_state::slip::service_slip;
use slatwright::rules::limit_state::spacing::{
    AxialPlace, Place, least_axial_distance, least_distance, least_thickness,
};
use slatwright::rules::limit_state::splitting::splitting_capacity;
use slatwright::rules::limit_state::stability::{BeamLoad, LoadHeight, Unbraced};
use slatwright::rules::limit_state::timber::{Column, Conditions, Timber};
use slatwright::tables::Tables;
use slatwright::tables::clear_wood::WoodKind;

const SERVICES: [ServiceClass; 3] = [ServiceClass::One, ServiceClass::Two, ServiceClass::Three];
const CHOICES: [NationalChoice; 3] =
    [NationalChoice::Recommended, NationalChoice::UnitedKingdom, NationalChoice::Germany];
const KINDS: [FastenerKind; 6] = [
    FastenerKind::RoundNail,
    FastenerKind::SquareOrGroovedNail,
    FastenerKind::OtherNail,
    FastenerKind::Screw,
    FastenerKind::Bolt,
    FastenerKind::Dowel,
];
const PLACES: [Place; 6] = [
    Place::AlongGrain,
    Place::AcrossGrain,
    Place::LoadedEnd,
    Place::UnloadedEnd,
    Place::LoadedEdge,
    Place::UnloadedEdge,
];

/// Any positive finite number, from the tiny to the absurd.
fn any_positive() -> impl Strategy<Value = f64> {
    (-300.0..300.0f64).prop_map(|e| 10f64.powf(e))
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![any_positive(), any::<f64>()]
}

fn class(which: usize) -> Timber {
    Timber::from(&Tables::embedded().strength_classes().classes()[which])
}

proptest! {
    #[test]
    fn design_values_rise_with_shorter_load(
        which in 0..26usize, b in 10.0..100.0f64, h in 10.0..300.0f64, service in 0..3usize, choice in 0..3usize, shared: bool,
    ) {
        let (timber, s) = (class(which), section(b, h));
        let all = DURATIONS.map(|duration| {
            let c = Conditions { duration, service: SERVICES[service], choice: CHOICES[choice], shared };
            [
                timber.bending(&s, &c, None),
                timber.tension(&s, &c),
                timber.compression(&s, &c, None),
                timber.shear(&c),
                timber.bearing(&c, plain(1.0)),
            ]
            .map(|f| in_mpa(&f.unwrap()))
        });
        for pair in all.windows(2) {
            prop_assert!(pair[0].iter().zip(&pair[1]).all(|(a, b)| a < b));
        }
    }

    /// C14 to C50 and D18 to D80: a higher class is at least as strong.
    #[test]
    fn a_higher_class_is_stronger(which in 0..25usize, b in 10.0..100.0f64, l in 100.0..4000.0f64) {
        let (low, high) = (class(which), class(which + 1));
        prop_assume!(low.kind == high.kind);
        // Above 700 kg/m³ the size factor is lost: deep enough for it not to matter.
        let (s, c) = (section(b, 150.0), dry(LoadDuration::MediumTerm));
        let column = Column { along_depth: length(l), along_breadth: length(l) };
        let unbraced = Unbraced { length: millimetre(l), load: BeamLoad::Uniform, height: LoadHeight::Centroid };
        let of = |t: Timber| {
            [
                t.bending(&s, &c, Some(&unbraced)),
                t.compression(&s, &c, Some(&column)),
                t.tension(&s, &c),
                t.shear(&c),
                t.bearing(&c, plain(1.0)),
                Ok(t.modulus()),
            ]
            .map(|f| in_mpa(&f.unwrap()))
        };
        let (low, high) = (of(low), of(high));
        prop_assert!(low.iter().zip(&high).all(|(a, b)| *a <= b * (1.0 + 1e-12)), "{low:?} {high:?}");
    }

    #[test]
    fn strength_falls_with_length(which in 0..26usize, l in 100.0..5000.0f64, more in 1.01..2.0f64) {
        let (timber, s, c) = (class(which), section(40.0, 120.0), dry(LoadDuration::MediumTerm));
        let column = |l: f64| {
            let column = Column { along_depth: length(l), along_breadth: length(l) };
            in_mpa(&timber.compression(&s, &c, Some(&column)).unwrap())
        };
        let beam = |l: f64| {
            let unbraced = Unbraced { length: millimetre(l), load: BeamLoad::Centre, height: LoadHeight::CompressionEdge };
            in_mpa(&timber.bending(&s, &c, Some(&unbraced)).unwrap())
        };
        prop_assert!(column(l * more) <= column(l) && column(l * more) > 0.0);
        prop_assert!(beam(l * more) <= beam(l) && beam(l * more) > 0.0);
    }

    #[test]
    fn a_deeper_notch_is_worse(h in 50.0..300.0f64, left in 0.55..1.0f64, less in 0.9..0.99f64, x in 0.0..200.0f64) {
        let kv = |share: f64, reach: f64| {
            let notch = Notch {
                depth_left: millimetre(h * share), reach: millimetre(reach), slope: 0.0, on_support_side: true,
            };
            value(&notch_factor(&section(40.0, h), &notch, Material::SolidTimber).unwrap())
        };
        let carries = |share: f64| kv(share, x) * share;
        prop_assert!(carries(left * less) <= carries(left) * (1.0 + 1e-12));
        prop_assert!(kv(left, x + 10.0) <= kv(left, x));
        prop_assert!(kv(left, x) > 0.0 && kv(left, x) <= 1.0);
    }

    #[test]
    fn a_bigger_screw_in_denser_wood_holds_more(d in 3.0..5.9f64, rho in 290.0..450.0f64, t in 15.0..60.0f64, more in 1.001..1.01f64) {
        let of = |d: f64, rho: f64, t: f64| {
            let screw = Fastener::smooth(FastenerKind::Screw, millimetre(d));
            let wood = Embedded { kind: WoodKind::Softwood, density: density(rho), predrilled: false, degrees: 0.0 };
            let member = |t: f64| Member { embedment: embedment("fh,k", &screw, &wood).unwrap(), thickness: length(t) };
            let my = yield_moment(&screw, megapascal(600.0)).unwrap();
            in_newtons(&single_shear(&screw, &my, &member(t), &member(40.0), None).unwrap().capacity)
        };
        prop_assert!(of(d * more, rho, t) > of(d, rho, t));
        prop_assert!(of(d, rho * more, t) > of(d, rho, t));
    }

    #[test]
    fn members_stay_finite(
        b in any_positive(), h in any_positive(), l in any_positive(), which in 0..26usize, duration in 0..5usize, service in 0..3usize,
    ) {
        let timber = class(which);
        let c = Conditions {
            duration: DURATIONS[duration], service: SERVICES[service], choice: NationalChoice::Germany, shared: true,
        };
        let (s, column) = (section(b, h), Column { along_depth: length(l), along_breadth: length(l) });
        let unbraced = Unbraced { length: millimetre(l), load: BeamLoad::CantileverEnd, height: LoadHeight::TensionEdge };
        for f in [
            timber.bending(&s, &c, Some(&unbraced)),
            timber.compression(&s, &c, Some(&column)),
            timber.tension(&s, &c),
        ].into_iter().flatten() {
            prop_assert!(f.value.value.is_finite() && f.value.value >= 0.0);
        }
    }

    #[test]
    fn nothing_asked_panics(
        a in any_number(), b in any_number(), c in any_number(), d in any_number(), degrees in any_number(), n in any::<u32>(),
        kind in 0..6usize, place in 0..6usize, bored: bool,
    ) {
        let fastener = Fastener::smooth(KINDS[kind], millimetre(a));
        let wood = Embedded { kind: WoodKind::Hardwood, density: density(b), predrilled: bored, degrees };
        let mut found = Vec::new();
        if let (Ok(fh), Ok(my)) = (embedment("fh,k", &fastener, &wood), yield_moment(&fastener, megapascal(c))) {
            found.extend([fh.value.value, my.value.value]);
            let first = Member { embedment: fh.clone(), thickness: length(d) };
            let second = Member { embedment: fh, thickness: length(c) };
            let pull = given("Fax,Rk", newton(b));
            found.extend(single_shear(&fastener, &my, &first, &second, Some(&pull)).map(|l| l.capacity.value.value));
            found.extend(double_shear(&fastener, &my, &first, &second, Some(&pull)).map(|l| l.capacity.value.value));
        }
        let shape = ScrewShape { diameter: millimetre(a), root: millimetre(b), shank: millimetre(a), shank_in_point_side: millimetre(c) };
        found.extend(effective_diameter(&shape).map(|d| d.value.value));
        let thread = Thread { diameter: millimetre(a), root: millimetre(a * 0.7), length: millimetre(b), degrees };
        found.extend(withdrawal(&thread, density(c)).map(|f| f.value.value));
        let declared = Declared { strength: megapascal(c), density: density(d) };
        found.extend(declared_withdrawal(&thread, &declared, density(b)).map(|f| f.value.value));
        found.extend(pull_through(millimetre(a), &declared, density(b)).map(|f| f.value.value));
        let row = Row { count: n, spacing: millimetre(b), predrilled: bored, degrees };
        found.extend(effective_number(&fastener, &row).map(|n| n.value.value));
        let distance = least_distance(&fastener, PLACES[place], density(b), bored, degrees);
        found.extend(distance.map(|l| l.value.value));
        found.extend(least_axial_distance(millimetre(a), AxialPlace::End, millimetre(b)).map(|l| l.value.value));
        let contact = Contact { length: millimetre(a), to_ends: [b, c].map(millimetre), to_next: Some(millimetre(d)) };
        found.extend(effective_contact_length(&contact).map(|l| l.value.value));
        let _ = bearing_factor(Material::GluedLaminated, WoodKind::Softwood, Support::Discrete, &contact, millimetre(b));
        found.extend(splitting_capacity(WoodKind::Softwood, &section(a, b), millimetre(c)).map(|f| f.value.value));
        let notch = Notch { depth_left: millimetre(c), reach: millimetre(d), slope: degrees, on_support_side: bored };
        found.extend(notch_factor(&section(a, b), &notch, Material::SolidTimber).map(|k| k.value.value));
        found.extend(size_factor_of_veneer_lumber(millimetre(a), b).map(|k| k.value.value));
        for v in found {
            prop_assert!(v.is_finite() && v >= 0.0, "{v}");
        }
        let _ = least_thickness(millimetre(a), density(b), bored);
        let _ = service_slip(&fastener, density(b), density(c), bored);
        let _ = shear_beyond_supports(newton(a), millimetre(b), millimetre(c), millimetre(d));
        let _ = strength_at_angle(stress(a), stress(b), given("kc,90", number(c)), degrees);
        let _ = newton_metre(a);
    }
}
