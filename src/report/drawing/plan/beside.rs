//! What stands on the platform or beside it, and the beam beneath: guard, ladder, centre beam.

use super::Plan;
use crate::brief::Edge;
use crate::platform::Rung;
use crate::quantity::Length;
use crate::report::drawing::outline::{ends, ladder_place, outer, outwards, sorted};
use crate::report::drawing::paper::{At, Line, Shape, Text};

impl Plan<'_> {
    /// The outer face of what an edge is made of: the side's rail, or the rails' ends.
    fn face(&self, edge: Edge) -> Length {
        match edge {
            Edge::Left => outer(self.p, 0),
            Edge::Right => outer(self.p, 1),
            Edge::Head => -ends(self.p),
            Edge::Foot => self.p.length + ends(self.p),
        }
    }

    /// Two corners beside an edge: out from its face, and along it.
    fn beside(&self, edge: Edge, out: [Length; 2], along: [Length; 2]) -> (At, At) {
        let face = self.face(edge);
        let [near, far] = out.map(|o| face + o * outwards(edge));
        let [near, far] = sorted(near, far);
        let [from, to] = along;
        match edge {
            Edge::Left | Edge::Right => (self.at(near, from), self.at(far, to)),
            Edge::Head | Edge::Foot => (self.at(from, near), self.at(to, far)),
        }
    }

    /// The guard: its posts against the bed's rails or beyond their ends, its top rail on their outer side.
    pub(super) fn guard(&mut self) {
        let p = self.p;
        let Some(guard) = &p.guard else { return };
        let (deep, half) = (guard.posts.stick.thickness, guard.posts.stick.width / 2.0);
        for run in p.guard_runs() {
            let name = run.edge.name();
            for post in &run.posts {
                let (a, b) = self.beside(run.edge, [Length::default(), deep], [*post - half, *post + half]);
                self.part(&format!("{name} guard post"), a, b);
                self.drawn.push((format!("{name} guard post screws"), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
            }
            let (a, b) = self.beside(run.edge, [deep, deep + guard.rail.thickness], run.from_to);
            self.part(&format!("{name} guard rail"), a, b);
            self.drawn.push((format!("{name} guard infill"), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
        }
    }

    /// The ladder from above: its stringers from the bed out to the floor, a line at each rung.
    pub(super) fn ladder(&mut self) {
        let (Some(ladder), Some([from, to])) = (&self.p.ladder, ladder_place(self.p)) else { return };
        let thick = ladder.stringer.thickness;
        let foot = ladder.out + ladder.stringer.width;
        let zero = Length::default();
        let deep = match &ladder.rung {
            Rung::Tread(s) => s.width,
            Rung::Round(s) => s.width,
            Rung::Pipe(pipe) => pipe.outside,
        };
        for (k, top) in ladder.rungs().iter().enumerate() {
            // A rung lies over the stringer's middle line at its height.
            let middle = ladder.out * (1.0 - (*top / ladder.height).value) + ladder.stringer.width / 2.0;
            let (a, b) = self.beside(
                ladder.edge,
                [(middle - deep / 2.0).max(zero), middle + deep / 2.0],
                [from + thick, to - thick],
            );
            if k == 0 {
                self.part("rung", a, b);
            } else {
                super::banded(a, b, super::Band::of(self.a, "rung"), &mut self.shapes);
            }
            self.drawn.push(("rung end".into(), [a[0], a[1]]));
        }
        for along in [[from, from + thick], [to - thick, to]] {
            let (a, b) = self.beside(ladder.edge, [zero, foot], along);
            self.part("stringer", a, b);
            self.drawn.push(("ladder top".into(), [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]));
        }
        let (a, b) = self.beside(ladder.edge, [zero, foot], [from, to]);
        let middle = [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])];
        let label = match ladder.edge {
            Edge::Left | Edge::Right => Text::new([middle[0] + 3.0, b[1] + 9.0], "ladder"),
            Edge::Head | Edge::Foot => Text::new([b[0] + 24.0, middle[1] + 3.0], "ladder"),
        };
        self.shapes.push(label.size(8.5).middle().into());
    }

    /// The centre beam, drawn before the slats that lie on it.
    pub(super) fn centre_beam(&mut self) {
        let Some(beam) = &self.p.centre_beam else { return };
        let half = beam.stick.thickness / 2.0;
        let reach = beam.ends.lap();
        let (a, b) = (self.at(beam.at - half, -reach), self.at(beam.at + half, self.p.length + reach));
        self.part("centre beam", a, b);
        for (end, y) in [("head", a[1]), ("foot", b[1])] {
            self.drawn.push((format!("centre beam, {end} end"), [0.5 * (a[0] + b[0]), y]));
        }
    }

    /// The centre beam's edges and its legs, under the slats.
    pub(super) fn beam_under_slats(&mut self) {
        let Some(beam) = &self.p.centre_beam else { return };
        let half = beam.stick.thickness / 2.0;
        let edge = |y: Length| [self.at(y, Length::default()), self.at(y, self.p.length)];
        let lines = vec![edge(beam.at - half), edge(beam.at + half)];
        self.shapes.push(Shape::Segments { lines, line: Line::Hidden });
        let Some(legs) = &beam.legs else { return };
        let (across, along) = (legs.stick.thickness / 2.0, legs.stick.width / 2.0);
        for (j, x) in legs.positions.iter().enumerate() {
            let (a, b) = (self.at(beam.at - across, *x - along), self.at(beam.at + across, *x + along));
            self.beneath(&format!("leg {}", j + 1), a, b);
        }
    }
}
