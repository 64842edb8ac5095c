//! A long side from outside, where braces stand along it: posts, rail, end rails cut, knee braces or diagonals.

use super::dimension::Dimensions;
use super::outline::{braced_by_diagonals, edge_of, posts_along, side_name};
use super::paper::{At, Band, Drawing, Line, Shape, Text, WIDTH, banded, banded_shape, strip};
use crate::check::Assessment;
use crate::platform::{Platform, Posts};
use crate::quantity::{Length, length_for_builder};
use crate::report::Report;

const MARGIN: f64 = 62.0;
const TALLEST: f64 = 200.0;

struct Elevation<'a> {
    p: &'a Platform,
    a: &'a Assessment,
    s: usize,
    posts: &'a Posts,
    height: Length,
    scale: f64,
    /// Where the clear length's end at the head meets the floor.
    origin: At,
    shapes: Vec<Shape>,
}

/// The side that is braced along itself, the left one before the right; none where nothing braces one.
pub(in crate::report) fn elevation(r: &Report<'_>) -> Option<Drawing> {
    let (p, posts) = (r.platform, r.platform.posts.as_ref()?);
    let braced = |s: &usize| {
        let knees = p.bracing.knees.is_some() && p.sides[*s].rail.ends.is_some();
        knees || braced_by_diagonals(p, edge_of(*s))
    };
    let s = (0..2).find(braced)?;
    let height = posts.slats_above_floor(p);
    let [_, far] = posts_along(p)?;
    let beyond = far.max(p.end_rails.as_ref().map_or(Length::default(), |e| e.stick.thickness));
    let scale = ((WIDTH - 2.0 * MARGIN) / (p.length + beyond * 2.0).value).min(TALLEST / height.value);
    let wide = (p.length.value) * scale;
    let origin = [0.5 * (WIDTH - wide), 30.0 + height.value * scale];
    let mut view = Elevation { p, a: r.assessment, s, posts, height, scale, origin, shapes: Vec::new() };
    view.draw();
    let bottom = view.measures(beyond);
    let name = side_name(&p.sides[s]);
    Some(Drawing {
        title: format!("The {name} side"),
        description: view.description(),
        height: bottom,
        shapes: view.shapes,
    })
}

impl Elevation<'_> {
    /// A place: along from the head, up from the floor.
    fn at(&self, along: Length, up: Length) -> At {
        [self.origin[0] + along.value * self.scale, self.origin[1] - up.value * self.scale]
    }

    fn part(&mut self, id: &str, along: [Length; 2], up: [Length; 2]) {
        let (a, b) = (self.at(along[0], up[1]), self.at(along[1], up[0]));
        banded(a, b, Band::of(self.a, id), &mut self.shapes);
    }

    /// Where the post holds what stands on it, above the floor.
    fn held(&self) -> Length {
        self.posts.lengths[self.s]
    }

    fn draw(&mut self) {
        let (p, s) = (self.p, self.s);
        let (zero, long) = (Length::default(), p.length);
        let name = side_name(&p.sides[s]);
        let rail = &p.sides[s].rail;
        let foot = self.height - p.slats_above_rail_foot(s);
        let lap = rail.ends.as_ref().map_or(zero, |e| e.lap());
        let floor = [self.at(-lap, zero), self.at(long + lap, zero)];
        let [a, b] = [[floor[0][0] - 24.0, floor[0][1]], [floor[1][0] + 24.0, floor[1][1]]];
        self.shapes.push(Shape::Segments { lines: vec![[a, b]], line: Line::Outline });
        let Some([near, far]) = posts_along(p) else { return };
        let beside = p.on_posts(s).is_some_and(|(_, ends)| ends.kind.beside_the_post());
        let top = match p.on_posts(s) {
            Some((stick, _)) if beside => self.held() + stick.width / 2.0,
            _ => self.held(),
        };
        self.part(&format!("{name} rail"), [-lap, long + lap], [foot, foot + rail.stick.width]);
        for (end, along) in [("head", [-far, -near]), ("foot", [long + near, long + far])] {
            self.part(&format!("{name} post, {end} end"), along, [zero, top]);
        }
        if let Some(e) = &p.end_rails {
            let low = foot - e.below(rail);
            for (end, along) in [("head", [-e.stick.thickness, zero]), ("foot", [long, long + e.stick.thickness])] {
                self.part(&format!("{end} end rail"), along, [low, low + e.stick.width]);
            }
        }
        self.knees(name, near);
        self.diagonals(name, (near + far) / 2.0);
    }

    fn knees(&mut self, name: &str, near: Length) {
        let Some(k) = &self.p.bracing.knees else { return };
        let (top, long) = (self.held(), self.p.length);
        let wide = k.stick.width.value * self.scale;
        let band = Band::of(self.a, &format!("{name} knee braces"));
        for (from, to) in [(-near, k.run - near), (long + near, long + near - k.run)] {
            let (a, b) = (self.at(from, top - k.rise), self.at(to, top));
            banded_shape(strip(a, b, wide), band, &mut self.shapes);
        }
    }

    fn diagonals(&mut self, name: &str, middle: Length) {
        let p = self.p;
        let Some(d) = p.bracing.diagonals.as_ref().filter(|_| braced_by_diagonals(p, edge_of(self.s))) else { return };
        let (top, long, zero) = (self.held(), p.length, Length::default());
        let wide = d.stick.width.value * self.scale;
        let band = Band::of(self.a, &format!("{name} diagonals"));
        for (from, to) in [(-middle, long + middle), (long + middle, -middle)] {
            let (a, b) = (self.at(from, zero), self.at(to, top));
            banded_shape(strip(a, b, wide), band, &mut self.shapes);
        }
    }

    /// Dimensions and names; returns where the drawing ends.
    fn measures(&mut self, beyond: Length) -> f64 {
        let (p, zero) = (self.p, Length::default());
        let d = Dimensions { units: p.units };
        let ([x0, floor], [x1, _]) = (self.at(zero, zero), self.at(p.length, zero));
        let (left, right) = (self.at(-beyond, zero)[0], self.at(p.length + beyond, zero)[0]);
        let held = self.at(zero, self.held())[1];
        let slats = self.at(zero, self.height)[1];
        let knee = p.bracing.knees.as_ref().map(|k| (k.run, k.rise, self.at(k.run, self.held() - k.rise)));
        let out = &mut self.shapes;
        d.across([x0, x1], floor + 22.0, floor + 4.0, p.length, out);
        d.down([slats, floor], left - 28.0, left - 6.0, self.height, out);
        d.down([held, floor], right + 16.0, right + 6.0, self.posts.lengths[self.s], out);
        let mut below = 30.0;
        if let Some((run, rise, [x, y])) = knee {
            d.down([held, y], right + 58.0, right + 20.0, rise, out);
            d.across([x0, x], floor + 40.0, floor + 26.0, run, out);
            below = 48.0;
        }
        let braces = if p.bracing.knees.is_some() { "knee braces" } else { "crossed diagonals" };
        let text = format!("{} side: {braces}", side_name(&p.sides[self.s]));
        out.push(Text::new([0.5 * (x0 + x1), slats - 10.0], text).size(9.0).middle().into());
        for (x, name) in [(left, "head"), (right, "foot")] {
            out.push(Text::new([x, slats - 10.0], name).size(9.0).middle().into());
        }
        floor + below
    }

    fn description(&self) -> String {
        let l = |v: Length| length_for_builder(v, self.p.units);
        let name = side_name(&self.p.sides[self.s]);
        let mut said = vec![format!(
            "The {name} side from outside: its rail on two posts, held {} above the floor.",
            l(self.held())
        )];
        said.extend(self.p.bracing.knees.as_ref().map(|k| {
            format!("A knee brace at each end, {} down the post and {} along the rail.", l(k.rise), l(k.run))
        }));
        if braced_by_diagonals(self.p, edge_of(self.s)) {
            said.push("Crossed diagonals from each post's foot to the other's top.".into());
        }
        said.join(" ")
    }
}
