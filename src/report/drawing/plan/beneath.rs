//! What carries the rails' ends and keeps the posts upright: end rails, diagonals, knee braces.

use super::Plan;
use crate::brief::Edge;
use crate::platform::{Knees, Platform};
use crate::quantity::Length;
use crate::report::drawing::outline::{
    brace_thick, braced_by_diagonals, edge_of, end_rails_across, outer, outwards, posts_across, posts_along, sorted,
};
use crate::report::drawing::paper::{Line, Shape, Text, corners};

/// The edges that diagonals stand on, in words.
fn named(p: &Platform) -> String {
    let edges = [Edge::Left, Edge::Right, Edge::Head, Edge::Foot];
    edges.into_iter().filter(|e| braced_by_diagonals(p, *e)).map(Edge::name).collect::<Vec<_>>().join(", ")
}

impl Plan<'_> {
    /// The end rails across the platform, and the joints of their ends.
    pub(super) fn end_rails(&mut self) {
        let (Some(e), Some([from, to])) = (&self.p.end_rails, end_rails_across(self.p)) else { return };
        let (zero, thick, long) = (Length::default(), e.stick.thickness, self.p.length);
        let lap = e.ends.lap().max(thick);
        for (end, [near, far]) in [("head", [-thick, zero]), ("foot", [long, long + thick])] {
            let (a, b) = (self.at(from, near), self.at(to, far));
            self.part(&format!("{end} end rail"), a, b);
            for (side, [left, right]) in [("left", [from, from + lap]), ("right", [to - lap, to])] {
                let (a, b) = (self.at(left, near), self.at(right, far));
                self.part(&format!("{end} end rail, {side} end"), a, b);
            }
            let [x, y] = self.at(to, (near + far) / 2.0);
            if end == "foot" {
                self.shapes.push(Text::new([x + 5.0, y + 8.0], "end rail").size(8.5).into());
            }
        }
    }

    /// Diagonals outside the posts, and knee braces beside the rails, dashed.
    pub(super) fn braces(&mut self) {
        let p = self.p;
        let thick = brace_thick(p);
        let Some([near, far]) = posts_along(p) else { return };
        let long = p.length;
        for s in 0..2 {
            let (edge, Some((across, _))) = (edge_of(s), posts_across(p, s)) else { continue };
            let out = outwards(edge);
            if braced_by_diagonals(p, edge) {
                let face = if s == 0 { across[0] } else { across[1] };
                self.dashed(
                    &format!("{} diagonals", edge.name()),
                    sorted(face, face + thick * out),
                    [-far, long + far],
                );
            }
            if let Some(knees) = &p.bracing.knees {
                self.knees(s, knees, near);
            }
        }
        let posts = [0, 1].map(|s| posts_across(p, s));
        let [Some((left, _)), Some((right, _))] = posts else { return };
        for (edge, along) in [(Edge::Head, [-far - thick, -far]), (Edge::Foot, [long + far, long + far + thick])] {
            if braced_by_diagonals(p, edge) {
                self.dashed(&format!("{} diagonals", edge.name()), [left[0], right[1]], along);
            }
        }
    }

    /// A rail's two knee braces, on its outer face from its posts inwards.
    fn knees(&mut self, s: usize, knees: &Knees, near: Length) {
        let (face, out) = (outer(self.p, s), outwards(edge_of(s)));
        let across = sorted(face, face + knees.stick.thickness * out);
        let id = format!("{} knee braces", edge_of(s).name());
        let long = self.p.length;
        self.dashed(&id, across, [-near, knees.run]);
        self.dashed(&id, across, [long - knees.run, long + near]);
    }

    fn dashed(&mut self, id: &str, across: [Length; 2], along: [Length; 2]) {
        let (a, b) = (self.at(across[0], along[0]), self.at(across[1], along[1]));
        let points = corners(a, b);
        let lines = (0..4).map(|k| [points[k], points[(k + 1) % 4]]).collect();
        self.shapes.push(Shape::Segments { lines, line: Line::Hidden });
        self.drawn.push((id.to_owned(), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
    }

    /// Says under the drawing what is dashed; returns where that ends.
    pub(super) fn named_braces(&mut self, bottom: f64) -> f64 {
        let diagonals = Some(named(self.p)).filter(|n| !n.is_empty()).map(|n| format!("crossed diagonals ({n})"));
        let knees =
            self.p.posts.as_ref().and(self.p.bracing.knees.as_ref()).map(|_| "knee braces at the rails".to_owned());
        let said: Vec<String> = diagonals.into_iter().chain(knees).collect();
        if said.is_empty() {
            return bottom;
        }
        self.shapes.push(Text::new([8.0, bottom + 12.0], format!("dashed: {}", said.join("; "))).size(9.0).into());
        bottom + 14.0
    }
}
