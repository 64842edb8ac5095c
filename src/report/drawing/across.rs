//! The whole platform cut across in its middle, looking towards the head, from the floor to the guard's top.

use super::dimension::Dimensions;
use super::outline::{
    braced_by_diagonals, edge_of, end_rail_beyond, end_rails_across, guard_on, inner, ladder_on, outer, outwards,
    post_beyond, posts_across, side_name, sorted, wall_beyond,
};
use super::paper::{
    At, Band, Drawing, Fill, Line, Shape, Text, WIDTH, banded, banded_shape, rectangle, strip, weakest,
};
use crate::brief::Edge;
use crate::check::{Assessment, Member, Role};
use crate::platform::{Platform, Rung};
use crate::quantity::unit::inch;
use crate::quantity::{Length, length_for_builder};
use crate::report::Report;
use crate::report::say;

const LEFT: f64 = 78.0;
const RIGHT: f64 = 78.0;
const TALLEST: f64 = 250.0;

struct Across<'a> {
    p: &'a Platform,
    a: &'a Assessment,
    /// Paper per metre.
    scale: f64,
    /// Where the left rail's inner face meets the slats' top.
    origin: At,
    shapes: Vec<Shape>,
    drawn: Vec<(String, At)>,
}

/// The slats' top above the floor, where the brief says it.
fn height(p: &Platform) -> Option<Length> {
    p.height.or_else(|| p.posts.as_ref().map(|posts| posts.slats_above_floor(p)))
}

/// How far a side reaches out from its inner face.
fn outside(p: &Platform, s: usize) -> Length {
    let edge = edge_of(s);
    p.sides[s].rail.stick.thickness
        + guard_on(p, edge)
            .max(ladder_on(p, edge))
            .max(post_beyond(p, s))
            .max(end_rail_beyond(p))
            .max(wall_beyond(p, s))
}

/// The section of a platform.
pub(in crate::report) fn across(r: &Report<'_>) -> Drawing {
    let p = r.platform;
    let outside = [outside(p, 0), outside(p, 1)];
    let wide = (outside[0] + p.width + outside[1]).value;
    let above = p.guard.as_ref().map_or(Length::default(), |g| g.top).max(p.mattress.thickness);
    let deepest = p.slats_above_rail_foot(0).max(p.slats_above_rail_foot(1));
    let below = height(p).unwrap_or(deepest).max(deepest);
    let room = WIDTH - LEFT - RIGHT;
    let scale = (room / wide).min(TALLEST / (above + below).value);
    let x = LEFT + 0.5 * (room - wide * scale) + outside[0].value * scale;
    let mut cut = Across {
        p,
        a: r.assessment,
        scale,
        origin: [x, 30.0 + above.value * scale],
        shapes: Vec::new(),
        drawn: Vec::new(),
    };
    cut.floor(outside);
    cut.behind();
    cut.mattress();
    for s in 0..2 {
        cut.side(s);
        cut.guard(s);
        cut.ladder(s);
    }
    cut.middle();
    let bottom = cut.measures(outside, below);
    cut.mark();
    Drawing { title: "Section across".into(), description: cut.description(), height: bottom, shapes: cut.shapes }
}

impl Across<'_> {
    /// A place on the paper: across from the left rail's inner face, up from the slats' top.
    fn at(&self, y: Length, up: Length) -> At {
        [self.origin[0] + y.value * self.scale, self.origin[1] - up.value * self.scale]
    }

    /// Draws a part between two corners in its band.
    fn part(&mut self, id: &str, across: [Length; 2], up: [Length; 2]) {
        let (a, b) = (self.at(across[0], up[1]), self.at(across[1], up[0]));
        banded(a, b, Band::of(self.a, id), &mut self.shapes);
        self.drawn.push((id.to_owned(), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
    }

    /// The name of the worst member of a role.
    fn worst(&self, role: Role) -> String {
        self.a.governing().into_iter().find(|m| m.role == role).map(|m| m.id.clone()).unwrap_or_default()
    }

    fn floor(&mut self, outside: [Length; 2]) {
        let Some(h) = height(self.p) else { return };
        let [a, b] = [self.at(-outside[0] - inch(4.0), -h), self.at(self.p.width + outside[1] + inch(4.0), -h)];
        self.shapes.push(Shape::Segments { lines: vec![[a, b]], line: Line::Outline });
        let count = ((b[0] - a[0]) / 9.0) as usize;
        let tick = |k: usize| {
            let x = a[0] + 9.0 * k as f64 + 5.0;
            [[x, a[1]], [x - 4.0, a[1] + 4.0]]
        };
        self.shapes.push(Shape::Segments { lines: (0..count).map(tick).collect(), line: Line::Fine });
    }

    fn mattress(&mut self) {
        let p = self.p;
        let thick = p.mattress.thickness;
        if thick == Length::default() {
            return;
        }
        let (a, b) = (self.at(Length::default(), thick), self.at(p.width, Length::default()));
        self.shapes.push(rectangle(a, b, Fill::Paper, Line::Hidden));
        let text = format!("mattress {}", length_for_builder(thick, p.units));
        let middle = [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]) + 3.0];
        self.shapes.push(Text::new(middle, text).size(9.0).middle().into());
    }

    /// Posts behind, the wall, and the rail and cleat that are cut.
    fn side(&mut self, s: usize) {
        let p = self.p;
        let side = &p.sides[s];
        let name = side_name(side);
        let foot = -p.slats_above_rail_foot(s);
        let out = outwards(edge_of(s));
        if let (Some(posts), Some((across, beside)), Some(h)) = (&p.posts, posts_across(p, s), height(p)) {
            let top = if beside { foot + side.rail.stick.width } else { posts.lengths[s] - h };
            let ids = ["head", "foot"].map(|end| format!("{name} post, {end} end"));
            let worst = |id: &String| self.a.member(id).and_then(|m| m.worst()).map_or(0.0, |c| c.ratio);
            let [head, end] = ids;
            let id = if worst(&end) > worst(&head) { end } else { head };
            self.part(&id, across, [-h, top.max(-h)]);
        }
        if let Some(studs) = &side.rail.studs {
            let face = outer(p, s) + studs.gap * out;
            let [a, b] = sorted(face, face + inch(1.5) * out);
            let low = height(p).map_or(foot - inch(6.0), |h| -h);
            let (a, b) = (self.at(a, inch(6.0)), self.at(b, low));
            self.shapes.push(rectangle(a, b, Fill::Shade, Line::Outline));
            if studs.gap > Length::default() {
                let [from, to] = sorted(outer(p, s), face);
                let (a, b) = (self.at(from, foot + side.rail.stick.width), self.at(to, foot));
                self.shapes.push(rectangle(a, b, Fill::Paper, Line::Fine));
            }
        }
        self.part(&format!("{name} rail"), sorted(inner(p, s), outer(p, s)), [foot, foot + side.rail.stick.width]);
        let cleat = sorted(inner(p, s), inner(p, s) - side.cleat.thickness * out);
        let up = [foot + side.rise, foot + side.rise + side.cleat.width];
        self.part(&format!("{name} cleat"), cleat, up);
        let head = inner(p, s) - side.cleat.thickness * out;
        let level = foot + side.rise + side.screws.up;
        let id = self.worst_of(Role::CleatScrew, name);
        self.screw(&id, [head, head + side.screws.screw.length * out], inner(p, s), level);
        self.knees(s);
        let Some(studs) = &side.rail.studs else { return };
        let id = self.worst_of(Role::StudScrew, name);
        let between = (side.rail.stick.width - studs.up * 2.0) / (studs.count.max(2) - 1) as f64;
        for k in 0..studs.count {
            let tip = inner(p, s) + studs.screw.length * out;
            let level = foot + studs.up + between * k as f64;
            self.screw(&id, [inner(p, s), tip], outer(p, s) + studs.gap * out, level);
        }
    }

    /// What stands at the head behind the cut: its diagonals and the end rail.
    fn behind(&mut self) {
        let p = self.p;
        if let (Some(d), Some(posts), Some(h)) = (&p.bracing.diagonals, &p.posts, height(p))
            && braced_by_diagonals(p, Edge::Head)
            && let [Some((left, _)), Some((right, _))] = [0, 1].map(|s| posts_across(p, s))
        {
            let middles = [left, right].map(|[a, b]| (a + b) / 2.0);
            let at = |s: usize, up: Length| self.at(middles[s], up);
            let pairs = [[at(0, -h), at(1, posts.lengths[1] - h)], [at(1, -h), at(0, posts.lengths[0] - h)]];
            let band = Band::of(self.a, "head diagonals");
            for [a, b] in pairs {
                banded_shape(strip(a, b, d.stick.width.value * self.scale), band, &mut self.shapes);
            }
            let [a, b] = pairs[0];
            self.drawn.push(("head diagonals".into(), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
            let [x, y] = self.at(p.width + outside(p, 1), -h * 0.7);
            self.shapes.push(Text::new([x + 5.0, y], "diagonals").size(8.5).into());
        }
        if let (Some(e), Some(across)) = (&p.end_rails, end_rails_across(p)) {
            let foot = -p.slats_above_rail_foot(0) - e.below(&p.sides[0].rail);
            self.part("head end rail", across, [foot, foot + e.stick.width]);
            let [x, y] = self.at(across[1], foot + e.stick.width / 2.0);
            self.shapes.push(Text::new([x + 5.0, y + 3.0], "end rail").size(8.5).into());
        }
    }

    /// A side's knee braces from the end.
    fn knees(&mut self, s: usize) {
        let p = self.p;
        let (Some(k), Some(posts), Some(h)) = (&p.bracing.knees, &p.posts, height(p)) else { return };
        if p.sides[s].rail.ends.is_none() {
            return;
        }
        let (face, top) = (outer(p, s), posts.lengths[s] - h);
        let across = sorted(face, face + k.stick.thickness * outwards(edge_of(s)));
        self.part(&format!("{} knee braces", edge_of(s).name()), across, [top - k.rise, top]);
    }

    /// A screw from its head to its tip, its band in a dot where two pieces meet.
    fn screw(&mut self, id: &str, ends: [Length; 2], meet: Length, level: Length) {
        let shank = ends.map(|y| self.at(y, level));
        self.shapes.push(Shape::Segments { lines: vec![shank], line: Line::Outline });
        let centre = self.at(meet, level);
        let fill = Fill::Band(Band::of(self.a, id));
        self.shapes.push(Shape::Circle { centre, radius: 2.2, fill, line: Line::Outline });
        self.drawn.push((id.to_owned(), centre));
    }

    /// The name of the worst member of a role on one side.
    fn worst_of(&self, role: Role, side: &str) -> String {
        let of_side = self.a.members.iter().filter(|m| m.role == role && m.id.starts_with(side));
        let ratio = |m: &Member| m.worst().map_or(0.0, |c| c.ratio);
        // Ratios that differ by rounding only are ties, and the first is the one that is named elsewhere.
        let worst = of_side.reduce(|best, m| if ratio(m) > ratio(best) * (1.0 + 1e-9) { m } else { best });
        worst.map(|m| m.id.clone()).unwrap_or_default()
    }

    /// Slats, and the beam and legs under them.
    fn middle(&mut self) {
        let p = self.p;
        let depth = p.slats.depth();
        if let Some(beam) = &p.centre_beam {
            let half = beam.stick.thickness / 2.0;
            if let Some(legs) = &beam.legs {
                let wide = legs.stick.thickness / 2.0;
                let top = -depth - beam.stick.width;
                let id = self.worst(Role::Leg);
                self.part(&id, [beam.at - wide, beam.at + wide], [top - legs.length, top]);
            }
            self.part("centre beam", [beam.at - half, beam.at + half], [-depth - beam.stick.width, -depth]);
        }
        let id = self.worst(Role::Slat);
        self.part(&id, p.slat_ends(), [-depth, Length::default()]);
    }

    /// A guard along the side: a post, the rails on its outer side.
    fn guard(&mut self, s: usize) {
        let (p, edge) = (self.p, edge_of(s));
        let Some(guard) = p.guard.as_ref().filter(|g| g.edges.contains(&edge)) else { return };
        let (face, out, name) = (outer(p, s), outwards(edge), edge.name());
        let beyond = face + guard.posts.stick.thickness * out;
        let foot = -p.slats_above_rail_foot(s);
        self.part(&format!("{name} guard post"), sorted(face, beyond), [foot, guard.top]);
        let low = foot + guard.posts.up;
        for up in [low, low + guard.posts.spacing] {
            let [a, b] = sorted(inner(p, s), beyond).map(|y| self.at(y, up));
            self.shapes.push(Shape::Segments { lines: vec![[a, b]], line: Line::Outline });
            self.drawn.push((format!("{name} guard post screws"), self.at(face, up)));
        }
        let rail = sorted(beyond, beyond + guard.rail.thickness * out);
        self.part(&format!("{name} guard rail"), rail, [guard.top - guard.rail.width, guard.top]);
        let Some(lower) = &guard.lower else { return };
        for k in 0..lower.count {
            let top = guard.top - guard.rail.width - lower.gap * (k as f64 + 1.0) - lower.stick.width * k as f64;
            let across = sorted(beyond, beyond + lower.stick.thickness * out);
            self.part(&format!("{name} guard infill"), across, [top - lower.stick.width, top]);
        }
    }

    /// A ladder at the side: a stringer as it slants, the rungs cut.
    fn ladder(&mut self, s: usize) {
        let (p, edge) = (self.p, edge_of(s));
        let Some(ladder) = p.ladder.as_ref().filter(|l| l.edge == edge) else { return };
        let (face, out) = (outer(p, s), outwards(edge));
        let wide = ladder.stringer.width;
        let foot = face + ladder.out * out;
        let zero = Length::default();
        let corners = vec![
            self.at(face, zero),
            self.at(face + wide * out, zero),
            self.at(foot + wide * out, -ladder.height),
            self.at(foot, -ladder.height),
        ];
        let middle = |points: &[At]| points.iter().fold([0.0, 0.0], |m, q| [m[0] + q[0] / 4.0, m[1] + q[1] / 4.0]);
        self.drawn.push(("stringer".into(), middle(&corners)));
        self.drawn.push(("ladder top".into(), corners[0]));
        banded_shape(corners, Band::of(self.a, "stringer"), &mut self.shapes);
        let band = Band::of(self.a, "rung");
        for top in ladder.rungs() {
            let lean = ladder.out * (1.0 - (top / ladder.height).value) + wide / 2.0;
            let y = face + lean * out;
            let up = top - ladder.height;
            let centre = match &ladder.rung {
                Rung::Tread(tread) => {
                    let half = tread.width / 2.0;
                    let (a, b) = (self.at(y - half, up), self.at(y + half, up - tread.thickness));
                    banded(a, b, band, &mut self.shapes);
                    [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]
                }
                round => {
                    let radius = round.depth() / 2.0;
                    let centre = self.at(y, up - radius);
                    let radius = (radius.value * self.scale).max(1.4);
                    let fill = Fill::Band(band);
                    self.shapes.push(Shape::Circle { centre, radius, fill, line: Line::Outline });
                    centre
                }
            };
            self.drawn.extend([("rung".to_owned(), centre), ("rung end".to_owned(), centre)]);
        }
    }

    /// Dimensions and names; returns where the drawing ends.
    fn measures(&mut self, outside: [Length; 2], below: Length) -> f64 {
        let p = self.p;
        let d = Dimensions { units: p.units };
        let zero = Length::default();
        let [left, right] = [self.at(-outside[0], zero)[0], self.at(p.width + outside[1], zero)[0]];
        let base = self.at(zero, -below)[1];
        let top = self.at(zero, zero)[1];
        let level = |up: Length| self.origin[1] - up.value * self.scale;
        let out = &mut self.shapes;
        let [x0, x1] = [self.origin[0], self.origin[0] + p.width.value * self.scale];
        d.across([x0, x1], base + 22.0, base + 8.0, p.width, out);
        if let Some(h) = height(p) {
            d.down([top, base], left - 26.0, left - 8.0, h, out);
        }
        if let Some(g) = &p.guard {
            let over = g.top - p.mattress.thickness;
            let mut x = right + 30.0;
            if over > zero && p.mattress.thickness > zero {
                d.down([level(g.top), level(p.mattress.thickness)], x, right + 8.0, over, out);
                x += 30.0;
            }
            d.down([level(g.top), top], x, right + 8.0, g.top, out);
        }
        let mut ladder_out = false;
        for (s, outwards) in [(0, -1.0), (1, 1.0)] {
            let Some(ladder) = p.ladder.as_ref().filter(|l| l.edge == edge_of(s)) else { continue };
            ladder_out = true;
            let face = self.origin[0] + outer(p, s).value * self.scale;
            let foot = face + ladder.out.value * self.scale * outwards;
            d.across([face.min(foot), face.max(foot)], base + 38.0, base + 8.0, ladder.out, out);
        }
        let sides = if ladder_out { base + 52.0 } else { base + 36.0 };
        for (x, text) in [(x0, "left"), (x1, "right")] {
            out.push(Text::new([x, sides], text).size(9.0).middle().into());
        }
        sides + 6.0
    }

    /// Names the weakest link, and rings it where it is drawn.
    fn mark(&mut self) {
        let Some((id, words)) = weakest(self.a) else { return };
        let text = Text::new([8.0, 14.0], format!("weakest: {id}, {words}")).size(9.5).bold();
        self.shapes.push(text.into());
        let Some((_, at)) = self.drawn.iter().find(|(name, _)| name == id) else { return };
        self.shapes.push(Shape::Circle { centre: *at, radius: 6.5, fill: Fill::None, line: Line::Mark });
    }

    fn description(&self) -> String {
        let p = self.p;
        let l = |v: Length| length_for_builder(v, p.units);
        let mut said = vec![format!("The platform cut across: slats {} between two rails.", l(p.width))];
        said.extend(height(p).map(|h| format!("The slats' tops are {} above the floor.", l(h))));
        said.extend(p.centre_beam.as_ref().map(|b| format!("A centre beam stands {} from the left rail.", l(b.at))));
        said.extend(p.end_rails.as_ref().map(|_| "An end rail crosses behind, under the rails' ends.".to_owned()));
        if braced_by_diagonals(p, Edge::Head) {
            said.push("Crossed diagonals stand behind, from each post's foot to the other's top.".into());
        }
        if let Some(g) = &p.guard {
            let over = g.top - p.mattress.thickness;
            said.push(format!("The guard's top is {} above the slats and {} above the mattress.", l(g.top), l(over)));
        }
        said.extend(p.ladder.as_ref().map(|k| format!("The ladder's foot stands {} out.", l(k.out))));
        if let Some((m, c)) = self.a.weakest() {
            said.push(format!("Weakest: {}, {} {}.", m.id, c.limit.name(), say::ratio(c)));
        }
        said.join(" ")
    }
}
