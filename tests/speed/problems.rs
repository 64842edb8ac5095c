//! The problems that are timed and counted: those of `tests/data/peers`, and the check of every demo.

#[path = "grown.rs"]
mod grown;

use serde_json::Value;
use slatwright::brief::Brief;
use slatwright::check::check;
use slatwright::platform::Platform;
use slatwright::statics::{Crossbeam, Line, Load, Model, On, Placed, Span, Spring};
use slatwright::tables::Tables;

/// One run of a problem; what it gives is a number made of its results, so that none can be left out.
pub(crate) type Problem = Box<dyn FnMut() -> f64>;

/// The grillages by name; the sizes show how cost grows.
const GRILLAGES: [&str; 8] =
    ["b1", "b2", "b3", "b3c", "b5", "20 slats, 12 positions", "200 slats, 12 positions", "20 slats, 120 positions"];

macro_rules! demos {
    ($($name:literal),*) => {
        [$((concat!("check ", $name), include_str!(concat!("../../demo/", $name, ".toml")))),*]
    };
}

/// Every demo that is a platform.
const DEMOS: [(&str, &str); 12] = demos![
    "bunk",
    "child",
    "deck",
    "deck_ec5",
    "freestanding",
    "guest_both",
    "hut_double",
    "porters_both",
    "two",
    "wall_loft",
    "warden_bunk",
    "warden_bunk_ec5"
];

/// The bed of the goal: about a millisecond.
const TWENTY: (&str, &str) = ("check twenty slats", include_str!("twenty_slats.toml"));

/// Every problem's name.
pub(crate) fn names() -> Vec<&'static str> {
    GRILLAGES.into_iter().chain(checks().map(|(name, _)| name)).collect()
}

fn checks() -> impl Iterator<Item = (&'static str, &'static str)> {
    DEMOS.into_iter().chain([TWENTY])
}

/// The problem of a name.
pub(crate) fn named(name: &str) -> Option<Problem> {
    Some(match name {
        "b1" => one_span(),
        "b2" => moved_patch(),
        "b3" => grillage(false),
        "b3c" => grillage(true),
        "b5" => designs(),
        _ if name.starts_with("check ") => whole_check(checks().find(|(own, _)| *own == name)?.1),
        _ => return size(name),
    })
}

/// A grillage named by its size, as in "200 slats, 12 positions".
fn size(name: &str) -> Option<Problem> {
    let (slats, positions) = name.strip_suffix(" positions")?.split_once(" slats, ")?;
    let (slats, positions) = (slats.parse().ok()?, positions.parse().ok()?);
    let frame = Frame { model: grown::platform(slats, false), cases: grown::bodies(slats, positions) };
    Some(Box::new(move || frame.run()))
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|e| panic!("{e}"))
}

fn number(v: &Value) -> f64 {
    v.as_f64().unwrap_or_else(|| panic!("not a number: {v}"))
}

fn list(v: &Value) -> &[Value] {
    v.as_array().unwrap_or_else(|| panic!("not a list: {v}"))
}

fn numbers(v: &Value) -> Vec<f64> {
    list(v).iter().map(number).collect()
}

fn whole_check(text: &'static str) -> Problem {
    let p = Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
    Box::new(move || check(&p).map_or(f64::NAN, |a| a.weakest().map_or(0.0, |(_, c)| c.ratio)))
}

/// One span under a patch and three points: reactions and all extremes.
fn one_span() -> Problem {
    let b1 = json(include_str!("../data/peers/B1.json"));
    let point = |p: &Value| Load::Point { at: number(&p["x"]), force: number(&p["P"]) };
    let even = |u: &Value| {
        let q = number(&u["w"]);
        Load::Spread { from: number(&u["x1"]), to: number(&u["x2"]), start: q, end: q }
    };
    let loads: Vec<Load> = list(&b1["points"]).iter().map(point).chain(list(&b1["udl"]).iter().map(even)).collect();
    let (length, ei) = (number(&b1["L"]), number(&b1["E"]) * number(&b1["section"]["I"]));
    let span = Span { start: 0.0, end: length, supports: [0.0, length], ei, kga: f64::INFINITY };
    Box::new(move || {
        span.under(&loads).map_or(f64::NAN, |b| {
            b.reactions()[0] + b.extreme_moment().0.1 + b.extreme_shear().1 + b.extreme_deflection().0.1
        })
    })
}

/// A beam on five springs, a patch at 200 places: the extremes of each.
fn moved_patch() -> Problem {
    let b2 = json(include_str!("../data/peers/B2.json"));
    let length = number(&b2["L"]);
    let ei = number(&b2["E"]) * number(&b2["section"]["I"]);
    let spring = |s: &Value| Spring { line: 0, x: number(&s["x"]), stiffness: number(&s["k"]) };
    let springs = list(&b2["supports"]).iter().map(spring).collect();
    let model = Model { lines: vec![Line { y: 0.0, ei, from: 0.0, to: length }], springs, ..Model::default() };
    let (wide, q) = (number(&b2["patch"]["length"]), number(&b2["patch"]["w"]));
    let case = |from: f64| {
        let load = Load::Spread { from, to: (from + wide).min(length), start: q, end: q };
        [Placed { on: On::Line(0), load }]
    };
    let cases: Vec<[Placed; 1]> = numbers(&b2["patch_start"]).into_iter().map(case).collect();
    Box::new(move || {
        let slices: Vec<&[Placed]> = cases.iter().map(|c| c.as_slice()).collect();
        let Ok(grillage) = model.factor() else { return f64::NAN };
        let mut sum = 0.0;
        grillage.solve_each(&slices, &mut grillage.workspace(), &mut |_, r| {
            let line = r.line(0);
            sum += line.extreme_moment().0.1 + line.extreme_shear().1 + line.extreme_deflection().0.1;
        });
        sum
    })
}

/// A grillage of slats on two screwed cleats, and its load cases.
struct Frame {
    model: Model,
    cases: Vec<Vec<Placed>>,
}

/// Length of every frame along its cleats, m.
const LENGTH: f64 = 2.0;

impl Frame {
    /// Slats at `x` of stiffness `slat`, on cleats of stiffness `cleat` that screws hold.
    fn new(span: f64, x: &[f64], [slat, cleat]: [f64; 2], (at, k): (&[f64], f64), cases: &Value) -> Frame {
        let line = |y: f64| Line { y, ei: cleat, from: 0.0, to: LENGTH };
        let beam = |x: &f64| Crossbeam {
            x: *x,
            ei: slat,
            kga: f64::INFINITY,
            start: 0.0,
            end: span,
            rests_on: vec![0, 1],
            held_down: true,
        };
        let spring = |line: usize| at.iter().map(move |x| Spring { line, x: *x, stiffness: k });
        let placed = |row: &Value| {
            let row = numbers(row);
            let load = Load::Spread { from: row[1], to: row[2], start: row[3], end: row[3] };
            Placed { on: On::Crossbeam(row[0] as usize), load }
        };
        let case = |c: &Value| list(&c["loads"]).iter().map(placed).collect();
        let model = Model {
            lines: vec![line(0.0), line(span)],
            crossbeams: x.iter().map(beam).collect(),
            springs: spring(0).chain(spring(1)).collect(),
            links: Vec::new(),
            held_at_ends: false,
        };
        Frame { model, cases: list(cases).iter().map(case).collect() }
    }

    /// Twenty slats and twelve positions of a body.
    fn of_twenty(b3: &Value) -> Frame {
        let (slats, cleats, screws) = (&b3["slats"], &b3["cleats"], &b3["screws"]);
        let ei = [number(&b3["E"]) * number(&slats["I"]), number(&cleats["E"]) * number(&cleats["I"])];
        let held = (&*numbers(&screws["x"]), number(&screws["k"]));
        Frame::new(number(&b3["span"]), &numbers(&slats["x"]), ei, held, &b3["cases"])
    }

    /// With a centre beam on legs under every slat.
    fn with_centre(mut self, beam: &Value) -> Frame {
        let ei = number(&beam["E"]) * number(&beam["I"]);
        self.model.lines.push(Line { y: number(&beam["y"]), ei, from: 0.0, to: LENGTH });
        self.model.crossbeams.iter_mut().for_each(|c| c.rests_on.push(2));
        let stiffness = number(&beam["legs"]["k"]);
        let legs = numbers(&beam["legs"]["x"]);
        self.model.springs.extend(legs.into_iter().map(|x| Spring { line: 2, x, stiffness }));
        self
    }

    /// Eliminates the frame, solves every position, and recovers what governs.
    fn run(&self) -> f64 {
        let slices: Vec<&[Placed]> = self.cases.iter().map(Vec::as_slice).collect();
        grown::whole(&self.model, &slices).iter().sum()
    }
}

fn grillage(centre: bool) -> Problem {
    let b3 = json(include_str!("../data/peers/B3.json"));
    let frame = Frame::of_twenty(&b3);
    let frame = if centre { frame.with_centre(&b3["variant_B3c"]) } else { frame };
    Box::new(move || frame.run())
}

/// Designs of a sweep over thickness, count, span and stiffness of the slats: 240 of the 2,000.
fn designs() -> Problem {
    let b5 = json(include_str!("../data/peers/B5.json"));
    let (screws, k) = (numbers(&b5["screw_x"]), number(&b5["screw_k"]));
    let frame = |d: &Value| {
        let (h, e) = (number(&d["h"]), number(&d["E"]));
        let geometry = &b5["geometry"][format!("{}_{}", d["n"], d["span"])];
        let ei = [e * number(&b5["slat_b"]) * h.powi(3) / 12.0, e * number(&b5["cleat_I"])];
        Frame::new(number(&d["span"]), &numbers(&geometry["x"]), ei, (&screws, k), &geometry["cases"])
    };
    let frames: Vec<Frame> = list(&b5["designs"]).iter().map(frame).collect();
    Box::new(move || frames.iter().map(Frame::run).sum())
}
