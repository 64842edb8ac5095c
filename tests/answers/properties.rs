//! Every answer against the check itself, over random briefs: the value found passes, one step more does
//! not.

use proptest::prelude::*;
use slatwright::brief::Brief;
use slatwright::check::Verdict;
use slatwright::choose::{Design, Heaviest, heaviest, rate, widest};
use slatwright::tables::Tables;

use super::support::{built, checked};

#[derive(Clone, Debug)]
pub(crate) struct Bed {
    metric: bool,
    length: u32,
    width: u32,
    mattress: u32,
    weights: Vec<u32>,
    visitor: bool,
    pub(crate) wood: usize,
    thickness: u32,
    on_edge: bool,
    gap: u32,
    fixed: bool,
    cleat: usize,
    screw: usize,
    pitch: u32,
    rail: usize,
    ends: usize,
    ec5: bool,
    /// Legs under a centre beam, if there is one.
    beam: Option<usize>,
}

pub(crate) const WOODS: [&str; 5] = [
    "\"spruce-pine-fir no2\"",
    "\"douglas fir-larch select structural\"",
    "\"hem-fir no3\"",
    "{ species = \"yellow-poplar\", grade = \"ungraded\", knot = \"3/8 in\", slope_of_grain = \"1:12\" }",
    "{ species = \"northern red oak\", grade = \"ungraded\", knot = \"none\", slope_of_grain = \"1:15\" }",
];
const CLASSES: [&str; 3] = ["\"C16\"", "\"C24\"", "\"D30\""];
const SCREWS: [&str; 3] = ["screw = \"#10 x 3 in\"", "screw = \"#14 x 3 in\"", "lag = \"1/4 x 3 in\""];
const ENDS: [&str; 3] = [
    "{ joint = \"bearing\", bearing = \"3 in\" }",
    "{ joint = \"screws\", screw = \"#14 x 4 in\", count = 4, into = \"side grain\" }",
    "{ joint = \"lags\", lag = \"3/8 x 4 in\", count = 3, into = \"side grain\" }",
];

impl Bed {
    /// A wood of the bed's family of rules.
    fn wood(&self, i: usize) -> &'static str {
        if self.ec5 { CLASSES[i % 3] } else { WOODS[i] }
    }

    fn text(&self, width: &str, weights: &[String]) -> String {
        let mut t = format!("units = \"{}\"\n", if self.metric { "metric" } else { "us" });
        t += if self.ec5 { "rules = \"ec5\"\n" } else { "" };
        t += &format!("[platform]\nlength = \"{} in\"\nwidth = \"{width}\"\n", self.length);
        // High enough for the rules of guards, and no guard: no answer about weight or width may hang on that.
        t += if self.fixed { "height = \"60 in\"\n" } else { "" };
        t += &format!("[mattress]\nthickness = \"{} in\"\nweight = \"30 lb\"\n", self.mattress);
        for w in weights {
            t += &format!("[[sleeper]]\nweight = \"{w}\"\n");
        }
        t += &format!("[visitor]\nweight = \"{}\"\n", if self.visitor { "160 lb" } else { "none" });
        t += &format!(
            "[slats]\nwood = {}\nthickness = \"{} in\"\nwidth = \"3-1/2 in\"\nlay = \"{}\"\ngap = \"{} in\"\nfixed = {}\n",
            self.wood(self.wood),
            f64::from(self.thickness) / 8.0,
            if self.on_edge { "edge" } else { "flat" },
            f64::from(self.gap) / 4.0,
            self.fixed
        );
        t += &format!(
            "[cleats]\nwood = {}\nsize = \"2x3\"\nscrews = {{ {}, pitch = \"{} in\", first = \"2 in\" }}\n",
            self.wood(self.cleat % 3),
            // Eurocode 5 has no formula for the withdrawal of ordinary wood screws.
            SCREWS[if self.ec5 { 2 } else { self.screw }],
            self.pitch
        );
        let ends = ENDS[if self.ec5 { self.ends / 2 * 2 } else { self.ends }];
        t += &format!("[rails]\nwood = {}\nsize = \"2x8\"\nends = {ends}\n", self.wood(self.rail % 3));
        if let Some(legs) = self.beam {
            t += &format!(
                "[centre_beam]\nwood = {wood}\nsize = \"2x6\"\nends = {{ joint = \"bearing\", bearing = \"2 in\" }}\n",
                wood = self.wood(self.rail % 3)
            );
            if legs > 0 {
                let wood = self.wood(self.rail % 3);
                t += &format!(
                    "legs = {{ wood = {wood}, size = \"4x4\", count = {legs}, length = \"12 in\", top = \"braced\" }}\n"
                );
            }
        }
        t
    }

    pub(crate) fn drawn(&self) -> String {
        let weights: Vec<String> = self.weights.iter().map(|w| format!("{w} lb")).collect();
        self.text(&format!("{} in", self.width), &weights)
    }

    fn all_weighing(&self, mass: &str) -> String {
        self.text(&format!("{} in", self.width), &vec![mass.to_owned(); self.weights.len()])
    }

    fn this_wide(&self, width: &str) -> String {
        let weights: Vec<String> = self.weights.iter().map(|w| format!("{w} lb")).collect();
        self.text(width, &weights)
    }
}

pub(crate) fn beds() -> impl Strategy<Value = Bed> {
    let plan = (any::<bool>(), 60u32..90, 26u32..70, 0u32..10, proptest::collection::vec(25u32..330, 1..3));
    let slats = (any::<bool>(), 0usize..5, 5u32..15, any::<bool>(), 2u32..16, any::<bool>());
    let rest = (0usize..3, 0usize..3, 2u32..12, 0usize..3, 0usize..3);
    (plan, slats, rest).prop_map(|(plan, slats, rest)| {
        let (metric, length, width, mattress, weights) = plan;
        let (visitor, wood, thickness, on_edge, gap, fixed) = slats;
        let (cleat, screw, pitch, rail, ends) = rest;
        Bed {
            metric,
            length,
            width,
            mattress,
            weights,
            visitor,
            wood,
            thickness,
            on_edge,
            gap,
            fixed,
            cleat,
            screw,
            pitch,
            rail,
            ends,
            ec5: false,
            beam: None,
        }
    })
}

pub(crate) fn config() -> ProptestConfig {
    ProptestConfig { cases: 5, failure_persistence: None, max_global_rejects: 4096, ..ProptestConfig::default() }
}

fn passes(text: &str) -> bool {
    checked(text).is_some_and(|a| a.carries() == Verdict::Pass)
}

/// Checks one rating from outside: writes the weights into the brief and checks it.
fn agrees(h: &Heaviest, metric: bool, brief: impl Fn(&str) -> String) -> Result<(), TestCaseError> {
    let (unit, one) = if metric { ("kg", 1.0) } else { ("lb", 0.453_592_37) };
    let at = |m: f64, more: f64| brief(&format!("{:.0} {unit}", m / one + more));
    match h.mass {
        None => {
            let lightest = if metric { 2.0 } else { 5.0 };
            prop_assert!(!passes(&at(lightest * one, 0.0)));
        }
        Some(m) => {
            prop_assert!(passes(&at(m.value, 0.0)), "{} does not pass", at(m.value, 0.0));
            prop_assert_eq!(h.open, passes(&at(m.value, 1.0)) || built(&at(m.value, 1.0)).is_none());
        }
    }
    for [from, to] in &h.holes {
        prop_assert!(!passes(&at(from.value, 0.0)) && !passes(&at(to.value, 0.0)));
        prop_assert!(passes(&at(to.value, 1.0)));
    }
    Ok(())
}

/// A rating against the check on both sides of every weight in it.
fn rating_agrees(bed: &Bed) -> Result<(), TestCaseError> {
    let text = bed.drawn();
    prop_assume!(built(&text).is_some());
    let brief = Brief::read(&text);
    let rating = rate(&Design::new(&brief, Tables::embedded())).expect("it can be built");
    agrees(&rating.whole, bed.metric, |m| bed.all_weighing(m))?;
    for c in rating.cases {
        let others = ["lying", "sitting", "row", "kneeling", "climbing", "dropping", "jumping", "uniform", "bare"];
        let dropped = others
            .into_iter()
            .filter(|k| *k != c.case.key())
            .fold("[cases]\n".to_owned(), |t, k| t + &format!("{k} = {{ drop = true }}\n"));
        // Only children jump: that case has no rating above them.
        if c.case.key() != "jumping" {
            agrees(&c.heaviest, bed.metric, |m| bed.all_weighing(m) + &dropped)?;
        }
    }
    for o in rating.one_by_one {
        agrees(&o.heaviest, bed.metric, |m| {
            let mut weights: Vec<String> = bed.weights.iter().map(|w| format!("{w} lb")).collect();
            weights[o.place - 1] = m.to_owned();
            bed.text(&format!("{} in", bed.width), &weights)
        })?;
    }
    Ok(())
}

/// A width against the check on both sides of every part's limit.
fn width_agrees(bed: &Bed) -> Result<(), TestCaseError> {
    let text = bed.drawn();
    prop_assume!(built(&text).is_some());
    let brief = Brief::read(&text);
    let found = widest(&Design::new(&brief, Tables::embedded())).expect("it can be built");
    let of = |steps: f64| if bed.metric { format!("{steps} mm") } else { format!("{} in", steps / 16.0) };
    let one = found.step.value;
    for part in found.parts.iter().chain([&found.whole]) {
        let fine = |text: &str| {
            checked(text).is_some_and(|a| match part.role {
                None => a.carries() == Verdict::Pass,
                Some(r) => a.members.iter().filter(|m| m.role == r).all(|m| m.verdict() == Verdict::Pass),
            })
        };
        if let Some(w) = part.width {
            let steps = (w.value / one).round();
            prop_assert!(fine(&bed.this_wide(&of(steps))), "{:?} at {}", part.role, of(steps));
            prop_assert_eq!(part.open, fine(&bed.this_wide(&of(steps + 1.0))) || steps * one > 4.0639);
        }
        for [from, to] in &part.holes {
            let (from, to) = ((from.value / one).round(), (to.value / one).round());
            prop_assert!(!fine(&bed.this_wide(&of(from))) && !fine(&bed.this_wide(&of(to))));
            prop_assert!(fine(&bed.this_wide(&of(to + 1.0))));
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_rating_is_what_the_check_says(bed in beds()) {
        rating_agrees(&bed)?;
    }

    #[test]
    fn a_width_is_what_the_check_says(bed in beds()) {
        width_agrees(&bed)?;
    }

    #[test]
    fn so_it_is_by_eurocode_5(bed in beds()) {
        let bed = Bed { ec5: true, ..bed };
        rating_agrees(&bed)?;
        width_agrees(&bed)?;
    }
}

// Slats over a centre beam lean on each other, so each of their checks costs many times as much.
proptest! {
    #![proptest_config(ProptestConfig { cases: 1, ..config() })]

    #[test]
    fn so_it_is_over_a_centre_beam(bed in beds(), legs in 0usize..3, ec5 in any::<bool>()) {
        let bed = Bed { ec5, beam: Some(legs), ..bed };
        let text = bed.drawn();
        prop_assume!(built(&text).is_some());
        let found = heaviest(&Design::new(&Brief::read(&text), Tables::embedded())).expect("it can be built");
        agrees(&found, bed.metric, |m| bed.all_weighing(m))?;
    }
}
