//! Random platforms solved by a general-purpose finite element library, and by this one.
//!
//! `grillages/make.py` draws the platforms, solves them and prints problem and answer, one JSON object a
//! line. `grillages/stored.jsonl` is what it printed with the arguments in its heading. `GRILLAGES=FILE` puts
//! another file of its making to the test, thousands if you like.

use serde::Deserialize;
use slatwright::statics::{Crossbeam, Line, Link, Load, Model, On, Placed, Spring};

/// Agreement asked for, relative to the largest of its kind in the platform.
const NINE_DIGITS: f64 = 1e-9;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Problem {
    /// y, EI, from, to.
    lines: Vec<[f64; 4]>,
    /// x, EI, start, end, the lines under it.
    slats: Vec<(f64, f64, f64, f64, Vec<usize>)>,
    /// Line, x, stiffness; none when rigid.
    springs: Vec<(usize, f64, Option<f64>)>,
    /// Two lines, x, stiffness.
    links: Vec<(usize, usize, f64, f64)>,
    /// `slat` or `line`, which, from, to, size; a point load when it ends nowhere.
    loads: Vec<(String, usize, f64, Option<f64>, f64)>,
    answer: Answer,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Answer {
    spring: Vec<f64>,
    link: Vec<f64>,
    reaction: Vec<Vec<f64>>,
    slat_moment: Vec<f64>,
    slat_sag: Vec<f64>,
    /// The four lines at every slat.
    line_moment: Vec<Vec<f64>>,
    line_sag: Vec<Vec<f64>>,
}

impl Problem {
    fn model(&self) -> Model {
        let slat = |(x, ei, start, end, rests_on): &(f64, f64, f64, f64, Vec<usize>)| Crossbeam {
            x: *x,
            ei: *ei,
            kga: f64::INFINITY,
            start: *start,
            end: *end,
            rests_on: rests_on.clone(),
            held_down: true,
        };
        let spring = |(line, x, stiffness): &(usize, f64, Option<f64>)| Spring {
            line: *line,
            x: *x,
            stiffness: stiffness.unwrap_or(f64::INFINITY),
        };
        Model {
            lines: self.lines.iter().map(|[y, ei, from, to]| Line { y: *y, ei: *ei, from: *from, to: *to }).collect(),
            crossbeams: self.slats.iter().map(slat).collect(),
            springs: self.springs.iter().map(spring).collect(),
            links: self.links.iter().map(|(a, b, x, k)| Link { lines: [*a, *b], x: *x, stiffness: *k }).collect(),
            held_at_ends: false,
        }
    }

    fn loads(&self) -> Vec<Placed> {
        let placed = |(on, i, from, to, size): &(String, usize, f64, Option<f64>, f64)| Placed {
            on: if on == "slat" { On::Crossbeam(*i) } else { On::Line(*i) },
            load: match to {
                None => Load::Point { at: *from, force: *size },
                Some(to) => Load::Spread { from: *from, to: *to, start: *size, end: *size },
            },
        };
        self.loads.iter().map(placed).collect()
    }

    /// The largest disagreement of forces, of moments and of deflections, each relative to the largest of its kind.
    fn disagreement(&self) -> [f64; 3] {
        let grillage = self.model().factor().expect("a platform that stands");
        let (loads, mut work) = (self.loads(), grillage.workspace());
        let response = grillage.solve(&loads, &mut work);
        let (theirs, mut kinds) = (&self.answer, [Kind::default(), Kind::default(), Kind::default()]);
        let [forces, moments, sags] = &mut kinds;
        (0..self.springs.len()).for_each(|k| forces.add(response.spring_force(k), theirs.spring[k]));
        (0..self.links.len()).for_each(|k| forces.add(response.link_force(k), theirs.link[k]));
        // The place on a slat where the script has a node: 40 mm beyond the middle, on its grid.
        let y = ((self.lines[1][0] / 2.0 + 0.04) / 0.02).round_ties_even() * 0.02;
        for (i, (x, .., rests)) in self.slats.iter().enumerate() {
            for j in 0..rests.len() {
                forces.add(response.crossbeam_reaction(i, j), theirs.reaction[i][j]);
            }
            let slat = response.crossbeam(i);
            moments.add(slat.moment(y), theirs.slat_moment[i]);
            sags.add(slat.deflection(y), theirs.slat_sag[i]);
            for l in 0..4 {
                moments.add(response.line(l).moment(*x), theirs.line_moment[l][i]);
                sags.add(response.line(l).deflection(*x), theirs.line_sag[l][i]);
            }
        }
        kinds.map(|k| k.apart / k.largest)
    }
}

/// The largest value of a kind and the largest difference.
#[derive(Default)]
struct Kind {
    largest: f64,
    apart: f64,
}

impl Kind {
    fn add(&mut self, ours: f64, theirs: f64) {
        assert!(ours.is_finite() && theirs.is_finite());
        self.largest = self.largest.max(theirs.abs());
        self.apart = self.apart.max((ours - theirs).abs());
    }
}

#[test]
fn grillages_of_another_library() {
    let live = std::env::var_os("GRILLAGES");
    let place = live.as_ref().map_or_else(|| crate::folder().join("grillages/stored.jsonl"), Into::into);
    let text = std::fs::read_to_string(&place).unwrap_or_else(|e| panic!("{}: {e}", place.display()));
    let (mut count, mut wrong) = (0, Vec::new());
    for (n, line) in text.lines().enumerate() {
        let problem: Problem = serde_json::from_str(line).unwrap_or_else(|e| panic!("line {}: {e}", n + 1));
        let apart = problem.disagreement();
        if apart.iter().any(|a| *a > NINE_DIGITS) {
            wrong.push(format!("line {}: {apart:?}", n + 1));
        }
        count += 1;
    }
    assert!(count >= 100, "only {count} platforms");
    crate::none(&wrong);
}
