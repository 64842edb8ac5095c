//! What must hold of every platform, on random ones.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use slatwright::brief::Brief;
use slatwright::check::{Assessment, Check, Framing, Limit, Member, Role, Verdict, check};
use slatwright::load::{Dead, Strips, cases};
use slatwright::platform::{Platform, Posture};
use slatwright::quantity::STANDARD_GRAVITY;
use slatwright::statics::{Load, On, Placed};
use slatwright::tables::Tables;

/// Lengths in eighths of an inch, so that their millimetres are short decimals too.
#[derive(Clone, Debug)]
struct Design {
    length: u32,
    width: u32,
    mattress: u32,
    mattress_pounds: u32,
    sleepers: Vec<u32>,
    visitor: bool,
    slat: (usize, u32, u32),
    on_edge: bool,
    count: usize,
    fixed: bool,
    bearing: Option<u32>,
    cleat: usize,
    screw: (usize, u32, u32),
    rails: [(usize, usize, u32); 2],
    damp: bool,
    entry: Option<bool>,
    /// Body length of everybody; by the program's default when absent.
    height: Option<u32>,
}

const WOODS: [&str; 7] = [
    "\"spruce-pine-fir no2\"",
    "\"douglas fir-larch select structural\"",
    "\"hem-fir no3\"",
    "{ species = \"yellow-poplar\", grade = \"ungraded\", knot = \"KNOT\", slope_of_grain = \"1:12\" }",
    "{ species = \"northern red oak\", grade = \"ungraded\", knot = \"none\", slope_of_grain = \"1:15\" }",
    "{ species = \"eastern white pine\", grade = \"ungraded\", knot = \"KNOT\", slope_of_grain = \"1:8\" }",
    "\"southern pine no2\"",
];
const SCREWS: [&str; 4] =
    ["screw = \"#8 x 2-1/2 in\"", "screw = \"#10 x 3 in\"", "screw = \"#14 x 3 in\"", "lag = \"1/4 x 3 in\""];

#[derive(Clone, Copy, PartialEq)]
enum Units {
    Inches,
    Millimetres,
}

impl Units {
    fn length(self, eighths: u32) -> String {
        match self {
            Units::Inches => format!("\"{} in\"", f64::from(eighths) / 8.0),
            Units::Millimetres => format!("\"{} mm\"", f64::from(eighths) * 3175.0 / 1000.0),
        }
    }

    fn mass(self, pounds: u32) -> String {
        match self {
            Units::Inches => format!("\"{pounds} lb\""),
            Units::Millimetres => format!("\"{} kg\"", f64::from(pounds) * 0.453_592_37),
        }
    }

    fn wood(self, i: usize) -> String {
        WOODS[i].replace("\"KNOT\"", &self.length(3))
    }

    fn printed(self) -> &'static str {
        match self {
            Units::Inches => "us",
            Units::Millimetres => "metric",
        }
    }
}

impl Design {
    fn text(&self, u: Units, printed: Units) -> String {
        let l = |v| u.length(v);
        let mut t = format!("units = \"{}\"\n", printed.printed());
        if self.damp {
            t += "moisture = \"damp\"\n";
        }
        t += &format!("[platform]\nlength = {}\nwidth = {}\n", l(self.length), l(self.width));
        if let Some(left) = self.entry {
            t += &format!("entry = \"{}\"\n", if left { "left" } else { "right" });
        }
        let weight = u.mass(self.mattress_pounds);
        t += &format!("[mattress]\nthickness = {}\nweight = {weight}\n", l(self.mattress));
        for s in &self.sleepers {
            t += &format!("[[sleeper]]\nweight = {}\n", u.mass(*s));
            if let Some(h) = self.height {
                t += &format!("height = {}\n", l(h));
            }
        }
        let visitor = if self.visitor { u.mass(180) } else { "\"none\"".into() };
        t += &format!("[visitor]\nweight = {visitor}\n");
        let (wood, thick, wide) = self.slat;
        t += &format!("[slats]\nwood = {}\nthickness = {}\nwidth = {}\n", u.wood(wood), l(thick), l(wide));
        t += &format!(
            "lay = \"{}\"\ncount = {}\nfixed = {}\n",
            if self.on_edge { "edge" } else { "flat" },
            self.count,
            self.fixed
        );
        if let Some(b) = self.bearing {
            t += &format!("bearing = {}\n", l(b));
        }
        let (screw, pitch, first) = self.screw;
        t += &format!(
            "[cleats]\nwood = {}\nthickness = {}\nwidth = {}\nscrews = {{ {}, pitch = {}, first = {} }}\n",
            u.wood(self.cleat),
            l(12),
            l(28),
            SCREWS[screw],
            l(pitch),
            l(first)
        );
        t += &format!("[rails]\nwood = {}\n", u.wood(0));
        for (side, (wood, held, deep)) in ["left", "right"].into_iter().zip(self.rails) {
            t += &format!("[rails.{side}]\nwood = {}\nthickness = {}\nwidth = {}\n", u.wood(wood), l(12), l(deep));
            t += &match held {
                0 => format!(
                    "ends = {{ joint = \"screws\", screw = \"#14 x 4 in\", count = 3, into = \"side grain\", end = {} }}\n",
                    l(12)
                ),
                1 => format!("ends = {{ joint = \"bearing\", bearing = {} }}\n", l(12)),
                2 => format!(
                    "ends = {{ joint = \"screws\", screw = \"#14 x 5 in\", count = 2, into = \"end grain\", through = {} }}\n",
                    l(12)
                ),
                _ => format!("studs = {{ lag = \"1/4 x 5 in\", pitch = {}, first = {} }}\n", l(128), l(12)),
            };
        }
        t
    }

    fn built(&self) -> Option<Platform> {
        built(&self.text(Units::Inches, Units::Inches))
    }

    fn checked(&self) -> Option<Assessment> {
        self.built().map(|p| check(&p).expect("a platform that can be built can be analysed"))
    }
}

fn built(text: &str) -> Option<Platform> {
    Platform::build(&Brief::read(text), Tables::embedded()).ok()
}

fn designs() -> impl Strategy<Value = Design> {
    let plan =
        (400u32..720, 240u32..640, 0u32..100, 5u32..150, proptest::collection::vec(25u32..350, 1..4), any::<bool>());
    let slat =
        ((0usize..7, 5u32..13, 20u32..45), any::<bool>(), 0.3f64..0.9, any::<bool>(), proptest::option::of(4u32..13));
    let rail = || (0usize..7, 0usize..4, 44u32..91);
    let rest = (
        0usize..7,
        (0usize..4, 24u32..100, 12u32..40),
        rail(),
        rail(),
        any::<bool>(),
        proptest::option::of(any::<bool>()),
    );
    (plan, slat, rest).prop_map(|(plan, slat, rest)| {
        let (length, width, mattress, mattress_pounds, sleepers, visitor) = plan;
        let (slat, on_edge, cover, fixed, bearing) = slat;
        let (cleat, screw, left, right, damp, entry) = rest;
        let breadth = if on_edge { slat.1 } else { slat.2 };
        // Slats cover so much of the length, or stand at most 6 in apart.
        let count = ((f64::from(length) * cover / f64::from(breadth)) as usize).max(length as usize / 80).max(2);
        let rails = [left, right];
        Design {
            length,
            width,
            mattress,
            mattress_pounds,
            sleepers,
            visitor,
            slat,
            on_edge,
            count,
            fixed,
            bearing,
            cleat,
            screw,
            rails,
            damp,
            entry,
            height: None,
        }
    })
}

fn config() -> ProptestConfig {
    ProptestConfig { cases: 160, failure_persistence: None, max_global_rejects: 4096, ..ProptestConfig::default() }
}

fn worst(a: &Assessment, role: Role, limit: Limit) -> Option<f64> {
    let of = a.members.iter().filter(|m| m.role == role).flat_map(|m| &m.checks).filter(|c| c.limit == limit);
    of.map(|c| c.ratio).max_by(f64::total_cmp)
}

/// Equal but for the rounding of sums in another order.
fn near(a: f64, b: f64) -> bool {
    a == b || (a - b).abs() <= 1e-9 * a.abs().max(b.abs()) + 1e-12
}

fn same_checks(a: &Member, b: &Member) -> Result<(), TestCaseError> {
    let limits = |m: &Member| m.checks.iter().map(|c| c.limit).collect::<Vec<_>>();
    prop_assert_eq!(limits(a), limits(b), "{} and {}", a.id, b.id);
    for (x, y) in a.checks.iter().zip(&b.checks) {
        prop_assert!(near(x.ratio, y.ratio), "{} and {}, {:?}: {} {}", a.id, b.id, x.limit, x.ratio, y.ratio);
        prop_assert!(x.verdict == y.verdict || (x.ratio - 1.0).abs() < 1e-9);
    }
    Ok(())
}

/// The same briefs with nothing random: a fault in the generator must not pass as success.
#[test]
fn most_random_designs_can_be_built() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let mut good = 0;
    for _ in 0..100 {
        let d = designs().new_tree(&mut runner).expect("a design").current();
        good += usize::from(d.built().is_some());
    }
    assert!(good >= 50, "{good} of 100");
}

proptest! {
    #![proptest_config(config())]

    /// Every number is a number, every verdict follows from its ratio, and the whole from its parts.
    #[test]
    fn verdicts_follow_from_numbers(d in designs()) {
        let Some(a) = d.checked() else { return Err(TestCaseError::reject("cannot be built")) };
        for m in &a.members {
            for Check { ratio, demand, capacity, verdict, limit, .. } in &m.checks {
                prop_assert!(!ratio.is_nan() && *ratio >= 0.0, "{} {:?}: {ratio}", m.id, limit);
                prop_assert!(demand.si.is_finite() && capacity.si.is_finite(), "{} {:?}", m.id, limit);
                prop_assert_eq!(*verdict, if *ratio <= 1.0 { Verdict::Pass } else { Verdict::Fail });
                if capacity.si > 0.0 && demand.si > 0.0 {
                    prop_assert!(near(*ratio, demand.si / capacity.si), "{} {:?}", m.id, limit);
                }
            }
            let fails = m.checks.iter().any(|c| c.verdict == Verdict::Fail);
            prop_assert_eq!(m.verdict(), if fails { Verdict::Fail } else { Verdict::Pass });
        }
        let fails = a.members.iter().any(|m| m.verdict() == Verdict::Fail);
        let open = a.not_checked.iter().any(|n| n.carries_load);
        let expected = match (fails, open) {
            (true, _) => Verdict::Fail,
            (false, true) => Verdict::NotChecked,
            (false, false) => Verdict::Pass,
        };
        prop_assert_eq!(a.verdict(), expected);
        // A distance that is kept is no link in the load path; values alike but for rounding are a tie.
        let kept = |c: &&Check| c.limit == Limit::Spacing && c.verdict == Verdict::Pass;
        let links = a.members.iter().flat_map(|m| &m.checks).filter(|c| !kept(c));
        let greatest = links.map(|c| c.ratio).fold(0.0, f64::max);
        let weakest = a.weakest().map_or(f64::NAN, |(_, c)| c.ratio);
        prop_assert!(weakest == greatest || near(weakest, greatest), "{weakest} {greatest}");
    }

    /// What the rails' supports give is what people, mattress, bedding and timber weigh, and it stands
    /// where they stand, in every position of every case.
    #[test]
    fn supports_carry_everything(d in designs()) {
        let Some(p) = d.built() else { return Err(TestCaseError::reject("cannot be built")) };
        let frame = Framing::of(&p).expect("held");
        let (strips, dead) = (Strips::of(&p), Dead::of(&p));
        let (length, width) = (p.length.value, p.width.value);
        let [from, to] = p.slat_ends().map(|y| y.value);
        let spread = |q: f64, from: f64, to: f64| Load::Spread { from, to, start: q, end: q };
        let mut still: Vec<Placed> = (0..p.slats.count).map(|i| {
            let [a, b] = p.strip(i);
            Placed { on: On::Crossbeam(i), load: spread((dead.cover * (b - a) + dead.slat).value, from, to) }
        }).collect();
        for (line, q) in [dead.rail[0], dead.cleat[0], dead.cleat[1], dead.rail[1]].into_iter().enumerate() {
            still.push(Placed { on: On::Line(line), load: spread(q.value, 0.0, length) });
        }
        // Mattress and bedding from the brief; 40 N/m² of bedding is the program's own figure.
        let cover = (f64::from(d.mattress_pounds) * 0.453_592_37 * STANDARD_GRAVITY + 40.0 * length * width) * (to - from) / width;
        let timber = dead.slat.value * (to - from) * p.slats.count as f64
            + (dead.rail[0] + dead.cleat[0] + dead.cleat[1] + dead.rail[1]).value * length;
        let held: Vec<f64> = p.sides.iter().flat_map(|side| {
            let studs = side.rail.studs.iter().flat_map(|s| s.positions.iter().map(|x| x.value)).collect::<Vec<_>>();
            let beyond = match side.rail.ends.as_ref().map(|e| &e.kind) {
                None => return studs,
                Some(slatwright::platform::EndKind::EndGrain { .. }) => 0.0,
                Some(slatwright::platform::EndKind::Bearing { length }) => length.value / 2.0,
                Some(_) => 12.0 / 8.0 * 0.0254,
            };
            vec![-beyond, length + beyond]
        }).collect();
        let mut work = frame.grillage().workspace();
        for case in cases(&p) {
            for q in case.positions.iter().step_by(7) {
                let people: f64 = q.patches.iter().map(|p| p.force.value).sum();
                let mut all = still.clone();
                let mut turning = (cover + timber) * length / 2.0;
                for patch in &q.patches {
                    strips.share(patch, &mut |i, load| {
                        turning += load.force() * p.slats.centre(i).value;
                        all.push(Placed { on: On::Crossbeam(i), load });
                    });
                }
                let r = frame.grillage().solve(&all, &mut work);
                let forces: Vec<f64> = (0..held.len()).map(|k| r.spring_force(k)).collect();
                let (up, down) = (forces.iter().sum::<f64>(), people + cover + timber);
                prop_assert!((up - down).abs() <= 1e-7 * down, "{:?}: {up} {down}", case.kind);
                let moment: f64 = forces.iter().zip(&held).map(|(f, x)| f * x).sum();
                // The covers of the outer strips are not centred on their slats, alike at both ends.
                prop_assert!((moment - turning).abs() <= 1e-7 * down * length, "{:?}: {moment} {turning}", case.kind);
            }
        }
    }

    /// Written in inches or millimetres, printed in either: the same ratios.
    #[test]
    fn units_do_not_matter(d in designs()) {
        let text = d.text(Units::Inches, Units::Inches);
        let Some(p) = built(&text) else { return Err(TestCaseError::reject("cannot be built")) };
        let a = check(&p).expect("analysed");
        for (written, printed) in [(Units::Millimetres, Units::Millimetres), (Units::Millimetres, Units::Inches), (Units::Inches, Units::Millimetres)] {
            let text = d.text(written, printed);
            let b = check(&built(&text).expect("the same brief")).expect("analysed");
            prop_assert_eq!(a.members.len(), b.members.len());
            for (x, y) in a.members.iter().zip(&b.members) {
                prop_assert_eq!(&x.id, &y.id);
                same_checks(x, y)?;
            }
            prop_assert_eq!(a.verdict(), b.verdict());
        }
    }

    /// Left and right exchanged, people too: the same bed.
    #[test]
    fn left_and_right_are_alike(d in designs()) {
        let mut mirrored = d.clone();
        mirrored.rails.reverse();
        mirrored.entry = d.entry.map(|left| !left);
        if d.built().is_some_and(|p| p.posture == Posture::AlongRails) {
            mirrored.sleepers.reverse();
        }
        let (Some(a), Some(b)) = (d.checked(), mirrored.checked()) else { return Err(TestCaseError::reject("cannot be built")) };
        for m in &a.members {
            let id = if let Some(rest) = m.id.strip_prefix("left ") { format!("right {rest}") }
                else if let Some(rest) = m.id.strip_prefix("right ") { format!("left {rest}") }
                else { m.id.clone() };
            let twin = b.members.iter().find(|n| n.id == id);
            prop_assert!(twin.is_some(), "no {id}");
            twin.map_or(Ok(()), |n| same_checks(m, n))?;
        }
    }

    /// Head and foot exchanged, where no studs count from the head: the same bed.
    #[test]
    fn head_and_foot_are_alike(d in designs()) {
        let mut turned = d.clone();
        for r in &mut turned.rails { r.1 %= 3; }
        let before = turned.clone();
        let Some(p) = turned.built() else { return Err(TestCaseError::reject("cannot be built")) };
        if p.posture == Posture::AcrossRails {
            turned.sleepers.reverse();
        }
        let (a, b) = (check(&p).expect("analysed"), turned.checked().expect("the same bed"));
        let screws = p.sides[0].screws.positions.len();
        prop_assert_eq!(before.count, turned.count);
        for m in &a.members {
            let number = m.id.rsplit(' ').next().and_then(|n| n.parse::<usize>().ok());
            let id = match (m.role, number) {
                (Role::Slat, Some(n)) => format!("slat {}", p.slats.count + 1 - n),
                (Role::CleatScrew, Some(n)) => m.id.replace(&format!(" {n}"), &format!(" {}", screws + 1 - n)),
                _ if m.id.ends_with("head end") => m.id.replace("head", "foot"),
                _ if m.id.ends_with("foot end") => m.id.replace("foot", "head"),
                _ => m.id.clone(),
            };
            let twin = b.members.iter().find(|n| n.id == id);
            prop_assert!(twin.is_some(), "no {id}");
            twin.map_or(Ok(()), |n| same_checks(m, n))?;
        }
    }

    /// A slat an eighth thicker: no greater bending, shear, sag or creep. Bearing is another matter: the
    /// slat weighs more on the same area. Graded wood is compared within one nominal size, for the next
    /// one up has other factors: 4 in stock flat has Cfu 1.0 where 2 in stock has 1.1.
    #[test]
    fn thicker_slats_are_never_worse(d in designs()) {
        let mut thicker = d.clone();
        thicker.on_edge = false;
        let thin = thicker.clone();
        thicker.slat.1 += 1;
        let (Some(p), Some(q)) = (thin.built(), thicker.built()) else { return Err(TestCaseError::reject("cannot be built")) };
        prop_assume!(p.slats.stick.nominal == q.slats.stick.nominal || thin.slat.0 >= 3 && thin.slat.0 < 6);
        prop_assume!(thin.slat.1 < thin.slat.2);
        let (a, b) = (check(&p).expect("analysed"), check(&q).expect("analysed"));
        for limit in [Limit::Bending, Limit::Shear, Limit::Deflection, Limit::Creep, Limit::Uplift] {
            let (x, y) = (worst(&a, Role::Slat, limit), worst(&b, Role::Slat, limit));
            prop_assert!(y <= x, "{limit:?}: {x:?} becomes {y:?}");
        }
        if let (Some(x), Some(y)) = (worst(&a, Role::Slat, Limit::Bearing), worst(&b, Role::Slat, Limit::Bearing)) {
            prop_assert!(x <= y && y < x * 1.05, "bearing: {x} becomes {y}");
        }
    }

    /// A platform two inches narrower, people lying as before: nothing about the slats is worse.
    #[test]
    fn shorter_slats_are_never_worse(d in designs()) {
        let mut narrow = d.clone();
        narrow.width -= 16;
        let (Some(p), Some(q)) = (d.built(), narrow.built()) else { return Err(TestCaseError::reject("cannot be built")) };
        prop_assume!(p.posture == q.posture);
        let (a, b) = (check(&p).expect("analysed"), check(&q).expect("analysed"));
        for limit in [Limit::Bending, Limit::Shear, Limit::Bearing, Limit::Deflection, Limit::Creep] {
            let (x, y) = (worst(&a, Role::Slat, limit), worst(&b, Role::Slat, limit));
            prop_assert!(y <= x.map(|x| x * (1.0 + 1e-9)), "{limit:?}: {x:?} becomes {y:?}");
        }
    }

    /// Everybody a tenth lighter and as tall, and no adult so light as to jump like a child: nothing is
    /// worse. (A shorter body is slid in other steps, and may come to lie a little worse.)
    #[test]
    fn lighter_sleepers_are_never_worse(d in designs()) {
        let d = Design { height: Some(480), ..d };
        let mut light = d.clone();
        for s in &mut light.sleepers { *s = *s * 9 / 10; }
        // A child is anyone under 60 kg: 132.28 lb.
        let child = |s: &u32| *s < 133;
        prop_assume!(d.sleepers.iter().map(child).eq(light.sleepers.iter().map(child)));
        let (Some(a), Some(b)) = (d.checked(), light.checked()) else { return Err(TestCaseError::reject("cannot be built")) };
        for limit in [Limit::Bending, Limit::Shear, Limit::Bearing, Limit::Deflection, Limit::Creep] {
            let (x, y) = (worst(&a, Role::Slat, limit), worst(&b, Role::Slat, limit));
            prop_assert!(y <= x.map(|x| x * (1.0 + 1e-9)), "{limit:?}: {x:?} becomes {y:?}");
        }
    }

    /// A lower grade of one species: no limit of the slats is better.
    #[test]
    fn a_lower_grade_is_never_better(d in designs(), species in 0usize..2) {
        let name = ["spruce-pine-fir", "hem-fir"][species];
        let mut before: Option<Assessment> = None;
        for grade in ["select structural", "no2", "no3"] {
            let mut graded = d.clone();
            graded.slat = (0, graded.slat.1.clamp(6, 12), graded.slat.2.min(28));
            let text = graded.text(Units::Inches, Units::Inches);
            let slats = format!("[slats]\nwood = {}", WOODS[0]);
            let text = text.replace(&slats, &format!("[slats]\nwood = \"{name} {grade}\""));
            prop_assert!(text.contains(grade));
            let Some(p) = built(&text) else { return Err(TestCaseError::reject("cannot be built")) };
            let a = check(&p).expect("analysed");
            if let Some(b) = &before {
                for limit in [Limit::Bending, Limit::Shear, Limit::Bearing, Limit::Deflection, Limit::Creep] {
                    let (x, y) = (worst(b, Role::Slat, limit), worst(&a, Role::Slat, limit));
                    prop_assert!(y >= x, "{limit:?} at {grade}: {x:?} becomes {y:?}");
                }
            }
            before = Some(a);
        }
    }

    /// A screw between every two: the greatest force on any is no greater. (Other pitches move the
    /// screws, and one may come to stand under a slat.)
    #[test]
    fn twice_the_screws_are_never_worse(d in designs(), spaces in 3u32..8) {
        let mut few = d.clone();
        few.screw.2 = 16;
        few.length = 32 + spaces * 16 * (few.length / (spaces * 16)).max(1);
        few.screw.1 = (few.length - 32) / spaces;
        let mut many = few.clone();
        many.screw.1 /= 2;
        prop_assume!(many.screw.1 * 2 == few.screw.1);
        let (Some(p), Some(q)) = (few.built(), many.built()) else { return Err(TestCaseError::reject("cannot be built")) };
        prop_assert_eq!(p.sides[0].screws.positions.len() * 2, q.sides[0].screws.positions.len() + 1);
        let (a, b) = (check(&p).expect("analysed"), check(&q).expect("analysed"));
        let (x, y) = (worst(&a, Role::CleatScrew, Limit::Screw), worst(&b, Role::CleatScrew, Limit::Screw));
        prop_assert!(y <= x, "{x:?} becomes {y:?}");
    }

    /// A screw more in each rail end: the row is no weaker, though it stands closer.
    #[test]
    fn one_screw_more_is_never_worse(d in designs(), count in 1usize..6, joint in 0usize..2) {
        let mut ended = d.clone();
        for r in &mut ended.rails { r.1 = [0, 2][joint]; }
        let text = |n: usize| ended.text(Units::Inches, Units::Inches).replace("count = 3, into", &format!("count = {n}, into")).replace("count = 2, into", &format!("count = {n}, into"));
        let (Some(p), Some(q)) = (built(&text(count)), built(&text(count + 1))) else { return Err(TestCaseError::reject("cannot be built")) };
        let (a, b) = (check(&p).expect("analysed"), check(&q).expect("analysed"));
        for limit in [Limit::Joint, Limit::ShearAtScrews] {
            let (x, y) = (worst(&a, Role::EndJoint, limit), worst(&b, Role::EndJoint, limit));
            prop_assert!(y <= x, "{limit:?}: {x:?} becomes {y:?}");
        }
    }
}

/// Exactly one passes, the next number up does not.
#[test]
fn exactly_one_passes() {
    assert_eq!(Verdict::of(1.0), Verdict::Pass);
    assert_eq!(Verdict::of(1.0f64.next_up()), Verdict::Fail);
    assert_eq!(Verdict::of(f64::INFINITY), Verdict::Fail);
    assert_eq!(Verdict::of(f64::NAN), Verdict::Fail);
}
