//! The platform from above, head at the top: every slat, cleat, screw, rail and what holds it.

mod beneath;
mod beside;

use super::dimension::Dimensions;
use super::outline::{
    beyond, brace_thick, braced_by_diagonals, edge_of, end_rail_beyond, ends, inner, outer, post_beyond, posts_across,
    posts_along, side_name, sorted, standing_out, wall_beyond,
};
use super::paper::{At, Band, Drawing, Fill, Line, Shape, Text, WIDTH, banded, legend, rectangle, weakest};
use crate::brief::Edge;
use crate::check::Assessment;
use crate::platform::{EndJoint, EndKind, Platform};
use crate::quantity::Length;
use crate::quantity::unit::inch;
use crate::report::{Report, say};

const TALLEST: f64 = 470.0;
const LEFT: f64 = 86.0;
const RIGHT: f64 = 60.0;
const TOP: f64 = 24.0;

struct Plan<'a> {
    p: &'a Platform,
    a: &'a Assessment,
    /// Paper per metre.
    scale: f64,
    /// Where the head's inner left corner is.
    origin: At,
    shapes: Vec<Shape>,
    /// Where each member was drawn.
    drawn: Vec<(String, At)>,
}

/// From a side's inner face out to the outermost thing on it: rail, posts, guard, ladder.
fn outside(p: &Platform, s: usize) -> Length {
    let braces = if braced_by_diagonals(p, edge_of(s)) { brace_thick(p) } else { Length::default() };
    let posts = post_beyond(p, s).max(end_rail_beyond(p)) + braces;
    p.sides[s].rail.stick.thickness + standing_out(p, edge_of(s)).max(posts).max(wall_beyond(p, s))
}

/// The plan of a platform.
pub(in crate::report) fn plan(r: &Report<'_>) -> Drawing {
    let (p, a) = (r.platform, r.assessment);
    let [left, right] = [0, 1].map(|s| outside(p, s));
    let ends = ends(p) + standing_out(p, Edge::Head).max(standing_out(p, Edge::Foot));
    let (across, along) = ((left + p.width + right).value, (p.length + ends * 2.0).value);
    let room = WIDTH - LEFT - RIGHT;
    let scale = (room / across).min(TALLEST / along);
    let origin = [LEFT + 0.5 * (room - across * scale) + left.value * scale, TOP + ends.value * scale];
    let mut plan = Plan { p, a, scale, origin, shapes: Vec::new(), drawn: Vec::new() };
    plan.end_rails();
    for s in 0..2 {
        plan.side(s);
    }
    plan.braces();
    plan.guard();
    plan.centre_beam();
    plan.slats();
    plan.beam_under_slats();
    for s in 0..2 {
        plan.screws(s);
        plan.bolts(s);
    }
    plan.ladder();
    let bottom = plan.measures(ends);
    let bottom = plan.named_braces(bottom);
    plan.mark();
    legend(bottom + 8.0, &mut plan.shapes);
    Drawing { title: "Plan".into(), description: plan.description(), height: bottom + 24.0, shapes: plan.shapes }
}

impl Plan<'_> {
    /// A place on the paper: across from the left rail's inner face, along from the head.
    fn at(&self, y: Length, x: Length) -> At {
        [self.origin[0] + y.value * self.scale, self.origin[1] + x.value * self.scale]
    }

    fn name(&self, s: usize) -> &'static str {
        side_name(&self.p.sides[s])
    }

    fn part(&mut self, id: &str, a: At, b: At) {
        banded(a, b, Band::of(self.a, id), &mut self.shapes);
        self.drawn.push((id.to_owned(), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
    }

    /// Rail, its end joints, and the cleat along it.
    fn side(&mut self, s: usize) {
        let (p, side) = (self.p, &self.p.sides[s]);
        let zero = Length::default();
        let (inner, out) = (inner(p, s), outer(p, s));
        let lap = side.rail.ends.as_ref().map_or(zero, EndJoint::lap);
        let (a, b) = (self.at(inner.min(out), -lap), self.at(inner.max(out), p.length + lap));
        self.part(&format!("{} rail", self.name(s)), a, b);
        if side.rail.ends.is_some() {
            let reach = beyond(p, s);
            for (end, from, to) in [("head", -reach, zero), ("foot", p.length, p.length + reach)] {
                let (a, b) = (self.at(inner.min(out), from), self.at(inner.max(out), to));
                self.part(&format!("{} rail, {end} end", self.name(s)), a, b);
            }
            self.posts(s);
        }
        let edge = if s == 0 { side.cleat.thickness } else { p.width - side.cleat.thickness };
        let (a, b) = (self.at(inner.min(edge), zero), self.at(inner.max(edge), p.length));
        self.part(&format!("{} cleat", self.name(s)), a, b);
    }

    /// The posts, each under the middle of its rail end's lap, or beyond the rail's end.
    fn posts(&mut self, s: usize) {
        let Some((across, beside)) = posts_across(self.p, s) else { return };
        let Some([near, far]) = posts_along(self.p) else { return };
        for (end, along) in [("head", [-far, -near]), ("foot", [self.p.length + near, self.p.length + far])] {
            let id = format!("{} post, {end} end", self.name(s));
            let (a, b) = (self.at(across[0], along[0]), self.at(across[1], along[1]));
            if beside {
                self.part(&id, a, b);
            } else {
                self.beneath(&id, a, b);
            }
        }
    }

    /// Something that stands beneath what is drawn: dashed and crossed, its band in a dot.
    fn beneath(&mut self, id: &str, a: At, b: At) {
        let middle = [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])];
        let mut lines = vec![[a, [b[0], a[1]]], [[b[0], a[1]], b], [b, [a[0], b[1]]], [[a[0], b[1]], a]];
        lines.extend([[a, b], [[b[0], a[1]], [a[0], b[1]]]]);
        self.shapes.push(Shape::Segments { lines, line: Line::Hidden });
        let fill = Fill::Band(Band::of(self.a, id));
        self.shapes.push(Shape::Circle { centre: middle, radius: 2.6, fill, line: Line::Outline });
        self.drawn.push((id.to_owned(), middle));
    }

    fn slats(&mut self) {
        let p = self.p;
        let [from, to] = p.slat_ends();
        let half = p.slats.breadth() / 2.0;
        let every = (9.5 / (p.slats.pitch().value * self.scale)).ceil().max(1.0) as usize;
        let outer = [-outside(p, 0), p.width + outside(p, 1)];
        for i in 0..p.slats.count {
            let centre = p.slats.centre(i);
            let id = format!("slat {}", i + 1);
            let (a, b) = (self.at(from, centre - half), self.at(to, centre + half));
            self.part(&id, a, b);
            if i % every == 0 {
                let [x, y] = self.at(outer[0], centre);
                self.shapes.push(Text::new([x - 5.0, y + 3.0], (i + 1).to_string()).size(8.5).end().into());
                if let Some(worst) = self.a.member(&id).and_then(|m| m.worst()) {
                    let [x, y] = self.at(outer[1], centre);
                    self.shapes.push(Text::new([x + 5.0, y + 3.0], say::ratio(worst)).size(8.5).into());
                }
            }
        }
        let heads = [(outer[0], "slat"), (outer[1], "ratio")];
        for (y, text) in heads {
            let [x, top] = self.at(y, Length::default());
            let label = Text::new([if y == outer[0] { x - 5.0 } else { x + 5.0 }, top - 3.0], text).size(8.5);
            self.shapes.push(if y == outer[0] { label.end() } else { label }.into());
        }
        // The cleats' edges under the slats.
        for (s, side) in p.sides.iter().enumerate() {
            let edge = if s == 0 { side.cleat.thickness } else { p.width - side.cleat.thickness };
            let lines = vec![[self.at(edge, Length::default()), self.at(edge, p.length)]];
            self.shapes.push(Shape::Segments { lines, line: Line::Hidden });
        }
    }

    /// Cleat screws and stud screws, drawn to their length.
    fn screws(&mut self, s: usize) {
        let side = &self.p.sides[s];
        let outwards = super::outline::outwards(edge_of(s));
        let inner = inner(self.p, s);
        let head = inner - side.cleat.thickness * outwards;
        let tip = head + side.screws.screw.length * outwards;
        for (j, x) in side.screws.positions.iter().enumerate() {
            let id = format!("{} cleat screw {}", self.name(s), j + 1);
            self.screw(&id, [self.at(head, *x), self.at(tip, *x)], self.at(inner, *x));
        }
        let Some(studs) = &side.rail.studs else { return };
        let face = inner + (side.rail.stick.thickness + studs.gap) * outwards;
        for (j, x) in studs.positions.iter().enumerate() {
            let id = format!("{} stud {}", self.name(s), j + 1);
            let wide = inch(0.75);
            let (a, b) = (
                self.at(face.min(face + wide * 2.0 * outwards), *x - wide),
                self.at(face.max(face + wide * 2.0 * outwards), *x + wide),
            );
            self.shapes.push(rectangle(a, b, Fill::Paper, Line::Fine));
            if studs.gap > Length::default() {
                let [near, far] = sorted(outer(self.p, s), face);
                let (a, b) = (self.at(near, *x - wide), self.at(far, *x + wide));
                self.shapes.push(rectangle(a, b, Fill::Shade, Line::Fine));
            }
            self.screw(
                &id,
                [self.at(inner, *x), self.at(inner + studs.screw.length * outwards, *x)],
                self.at(face, *x),
            );
        }
    }

    /// The bolts of a rail's ends, through rail and post; those above each other are one line.
    fn bolts(&mut self, s: usize) {
        let side = &self.p.sides[s];
        let Some(ends) = &side.rail.ends else { return };
        let EndKind::Bolts(bolts) = &ends.kind else { return };
        let outwards = if s == 0 { -1.0 } else { 1.0 };
        let inner = if s == 0 { Length::default() } else { self.p.width };
        let far = inner + (side.rail.stick.thickness + bolts.post.thickness) * outwards;
        let (head, nut) = (inner - bolts.bolt.nut * outwards, far + bolts.bolt.nut * outwards);
        let half = bolts.bolt.washer.across / 2.0;
        for x in [-ends.beyond(), self.p.length + ends.beyond()] {
            let mut lines = vec![[self.at(head, x), self.at(nut, x)]];
            lines.extend([inner, far].map(|y| [self.at(y, x - half), self.at(y, x + half)]));
            self.shapes.push(Shape::Segments { lines, line: Line::Outline });
        }
    }

    fn screw(&mut self, id: &str, shank: [At; 2], at: At) {
        let band = Band::of(self.a, id);
        self.shapes.push(Shape::Segments { lines: vec![shank], line: Line::Outline });
        let radius = 2.6;
        self.shapes.push(Shape::Circle { centre: at, radius, fill: Fill::Band(band), line: Line::Outline });
        match band {
            Band::Over => {
                self.shapes.push(Shape::Circle { centre: at, radius: 5.0, fill: Fill::None, line: Line::Outline })
            }
            Band::Full => {
                self.shapes.push(Shape::Circle { centre: at, radius: 0.9, fill: Fill::Ink, line: Line::None })
            }
            _ => {}
        }
        self.drawn.push((id.to_owned(), at));
    }

    /// Dimensions, directions and names; returns where the drawing ends.
    fn measures(&mut self, ends: Length) -> f64 {
        let p = self.p;
        let d = Dimensions { units: p.units };
        let zero = Length::default();
        let [l, r] = [-outside(p, 0), p.width + outside(p, 1)];
        let ([x0, y0], [x1, y1]) = (self.at(zero, zero), self.at(p.width, p.length));
        let (left, right) = (self.at(l, zero)[0], self.at(r, zero)[0]);
        let foot = self.at(zero, p.length + ends)[1];
        let out = &mut self.shapes;
        d.down([y0, y1], right + 46.0, right + 30.0, p.length, out);
        d.across([x0, x1], foot + 18.0, foot + 2.0, p.width, out);
        // Two slats and the gap between them, outside the left rail.
        let [breadth, pitch] = [p.slats.breadth(), p.slats.pitch()].map(|v| v.value * self.scale);
        let x = left - 24.0;
        d.down([y0, y0 + breadth], x, left - 18.0, p.slats.breadth(), out);
        // The gap after the first slat, or so many further on that the two measures do not meet.
        let on = ((11.0 - 0.5 * pitch) / pitch).ceil().max(0.0);
        if p.slats.count as f64 > on + 1.0 && pitch - breadth > 5.0 {
            let top = y0 + on * pitch;
            d.down([top + breadth, top + pitch], x, left - 18.0, p.slats.gap, out);
        }
        let middle = 0.5 * (x0 + x1);
        let names = self.origin[1] - ends.value * self.scale - 8.0;
        out.push(Text::new([middle, names], "head").bold().middle().into());
        out.push(Text::new([left, names], "left").size(9.0).into());
        out.push(Text::new([right, names], "right").size(9.0).end().into());
        foot + 26.0
    }

    /// Marks the weakest link.
    fn mark(&mut self) {
        let Some((id, words)) = weakest(self.a) else { return };
        let Some((_, at)) = self.drawn.iter().find(|(name, _)| name == id) else { return };
        let at = *at;
        let said = [format!("weakest: {id}"), words];
        let texts = said.map(|t| Text::new([0.0, 0.0], t).size(9.0).bold().middle());
        let half = texts.iter().map(|t| 0.5 * t.reach()).fold(0.0, f64::max) + 6.0;
        let middle = self.at(self.p.width / 2.0, self.p.length / 2.0);
        let down = if at[1] > middle[1] { -34.0 } else { 34.0 };
        let centre = [middle[0], at[1] + down];
        let near = [at[0].clamp(centre[0] - half, centre[0] + half), centre[1] - down.signum() * 13.0];
        self.shapes.push(Shape::Segments { lines: vec![[near, at]], line: Line::Mark });
        self.shapes.push(Shape::Circle { centre: at, radius: 6.5, fill: Fill::None, line: Line::Mark });
        let (a, b) = ([centre[0] - half, centre[1] - 13.0], [centre[0] + half, centre[1] + 13.0]);
        self.shapes.push(rectangle(a, b, Fill::Paper, Line::Mark));
        for (text, y) in texts.into_iter().zip([-2.5, 9.0]) {
            self.shapes.push(Text { at: [centre[0], centre[1] + y], ..text }.into());
        }
    }

    fn description(&self) -> String {
        let mut said =
            vec![format!("The platform from above, head at the top, {} slats across two rails.", self.p.slats.count)];
        said.extend(self.p.centre_beam.as_ref().map(|b| match b.legs.as_ref().map_or(0, |l| l.positions.len()) {
            0 => "A centre beam lies under the slats.".to_owned(),
            legs => format!("A centre beam lies under the slats, on its ends and {legs} between them."),
        }));
        said.extend(self.p.end_rails.as_ref().map(|_| "End rails carry the rails' ends.".to_owned()));
        said.extend(self.p.guard.as_ref().map(|g| {
            let edges: Vec<&str> = g.edges.iter().map(|e| e.name()).collect();
            format!("A guard stands on these edges: {}.", edges.join(", "))
        }));
        said.extend(self.p.ladder.as_ref().map(|l| format!("A ladder stands at the {}.", l.edge.name())));
        for m in self.a.governing() {
            said.extend(m.worst().map(|c| format!("Worst {}: {}.", m.role.name(), say::ratio(c))));
        }
        if let Some((id, words)) = weakest(self.a) {
            said.push(format!("Weakest: {id}, {words}."));
        }
        said.join(" ")
    }
}
