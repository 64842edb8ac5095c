//! Lines of points between two axes, as an SVG that a phone can show and a printer can print.
//!
//! Each line has its own dashes and its name beside its end, so that it is told from the others without
//! colour. The ground is a pale paper, so that the ink is legible on light pages and on dark ones.

mod axis;

pub use axis::Axis;

use axis::Scale;

use std::fmt::Write;
use std::ops::Range;

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

/// Width and height. Shown as wide as a phone, about 360 dots, the smallest lettering is 11 dots high.
const SIZE: (u32, u32) = (800, 760);
const TITLE: f64 = 28.0;
const LETTERING: f64 = 25.0;
/// How much room the names of the lines have on the right.
const NAMES: i32 = 212;
const PAPER: RGBColor = RGBColor(0xfd, 0xfc, 0xf9);
const INK: RGBColor = RGBColor(0x1f, 0x1d, 0x1a);
const RULE: RGBColor = RGBColor(0xb9, 0xb1, 0xa3);
/// Length of a dash, length of a gap and stroke of the first, the second and the next lines.
const DASHES: [(i32, i32, u32); 6] = [(1, 0, 4), (18, 9, 4), (5, 8, 5), (40, 9, 3), (1, 0, 2), (10, 14, 3)];

/// A line.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// Its name.
    pub name: String,
    /// Its points from left to right, in stretches: between two stretches there is nothing.
    pub stretches: Vec<Vec<[f64; 2]>>,
}

/// A point that the reader must see.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where.
    pub at: [f64; 2],
    /// What it is.
    pub name: String,
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What it shows, in a line or two.
    pub title: String,
    /// The same for somebody who cannot see it, with what can be read off.
    pub description: String,
    /// Across.
    pub x: Axis,
    /// Up.
    pub y: Axis,
    /// The lines.
    pub courses: Vec<Course>,
    /// The point that was chosen, if one was.
    pub mark: Option<Mark>,
}

impl Chart {
    /// The chart as a whole SVG file.
    ///
    /// # Errors
    ///
    /// What the drawing library says; a chart whose axes have a range is drawn.
    pub fn svg(&self) -> Result<String, String> {
        let mut drawn = String::new();
        {
            let root = SVGBackend::with_string(&mut drawn, SIZE).into_drawing_area();
            self.draw(&root).and_then(|()| root.present()).map_err(|e| e.to_string())?;
        }
        Ok(self.named(&drawn))
    }

    /// The library writes a fixed size and no title: a phone shows a file without a size as wide as it is, and
    /// a reader who hears the page hears the title and the description.
    fn named(&self, drawn: &str) -> String {
        let body = drawn.split_once('>').map_or("", |(_, body)| body);
        let mut out = String::new();
        let _ = write!(
            out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\">\n<title>{}</title>\n\
             <desc>{}</desc>",
            SIZE.0,
            SIZE.1,
            escaped(&self.title),
            escaped(&self.description)
        );
        out + body
    }

    fn draw(&self, root: &Area<'_>) -> Drawn {
        root.fill(&PAPER)?;
        let mut top = 12;
        for line in textwrap::wrap(&self.title, 42) {
            letter(root, &line, (16, top), TITLE, true, (HPos::Left, VPos::Top))?;
            top += (TITLE * 1.3) as i32;
        }
        top += 14;
        letter(root, &self.y.name, (16, top), LETTERING, false, (HPos::Left, VPos::Top))?;
        top += (LETTERING * 1.3) as i32;
        let (x, y) = (&self.x, &self.y);
        let mut chart = ChartBuilder::on(root)
            .margin_top(top + 10)
            .margin_right(NAMES + 12)
            .margin_left(8)
            .margin_bottom(50)
            .x_label_area_size(40)
            .y_label_area_size(90)
            .build_cartesian_2d(Scale(x), Scale(y))?;
        chart
            .configure_mesh()
            .light_line_style(TRANSPARENT)
            .bold_line_style(RULE.stroke_width(1))
            .axis_style(INK.stroke_width(2))
            .label_style(font(LETTERING, false))
            .x_labels(x.ticks.len())
            .y_labels(y.ticks.len())
            .draw()?;
        let (across, down) = chart.plotting_area().get_pixel_range();
        letter(root, &x.name, (across.end, SIZE.1 as i32 - 12), LETTERING, false, (HPos::Right, VPos::Bottom))?;
        for (i, course) in self.courses.iter().enumerate() {
            for points in &course.stretches {
                let points: Vec<(f64, f64)> = points.iter().map(|p| (p[0], p[1])).collect();
                if let [alone] = points[..] {
                    chart.draw_series([Circle::new(alone, 5, INK.filled())])?;
                }
                match DASHES[i % DASHES.len()] {
                    (_, 0, stroke) => {
                        chart.draw_series(LineSeries::new(points, INK.stroke_width(stroke)))?;
                    }
                    (dash, gap, stroke) => {
                        chart.draw_series(DashedLineSeries::new(points, dash, gap, INK.stroke_width(stroke)))?;
                    }
                }
            }
        }
        let ends: Vec<(usize, (i32, i32))> = self
            .courses
            .iter()
            .enumerate()
            .filter_map(|(i, c)| c.stretches.last().and_then(|s| s.last()).map(|p| (i, *p)))
            .map(|(i, p)| (i, chart.backend_coord(&(p[0], p[1]))))
            .collect();
        self.names(root, ends, across.end, down.clone())?;
        if let Some(m) = &self.mark {
            let drawn: Vec<(i32, i32)> = self.courses.iter().flat_map(along).map(|p| chart.backend_coord(&p)).collect();
            mark(root, m, chart.backend_coord(&(m.at[0], m.at[1])), &drawn, (across, down))?;
        }
        Ok(())
    }

    /// The name of each line beside its end, with a piece of its dashes; names that would overlap make room.
    fn names(&self, root: &Area<'_>, mut ends: Vec<(usize, (i32, i32))>, right: i32, down: Range<i32>) -> Drawn {
        ends.sort_by_key(|(i, (_, y))| (*y, *i));
        let row = (LETTERING * 1.1) as i32;
        let lines: Vec<Vec<String>> = ends
            .iter()
            .map(|(i, _)| textwrap::wrap(&self.courses[*i].name, 13).into_iter().map(|l| l.into_owned()).collect())
            .collect();
        let heights: Vec<i32> = lines.iter().map(|l| (l.len() as i32 + 1) * row).collect();
        let mut tops: Vec<i32> = ends.iter().map(|(_, (_, y))| y - row / 2).collect();
        let mut free = down.start - row;
        for (top, height) in tops.iter_mut().zip(&heights) {
            *top = (*top).max(free);
            free = *top + height;
        }
        let mut limit = down.end + row;
        for (top, height) in tops.iter_mut().zip(&heights).rev() {
            *top = (*top).min(limit - height);
            limit = *top;
        }
        for (((i, end), top), lines) in ends.iter().zip(&tops).zip(&lines) {
            let y = top + row / 2;
            let from = right + 16;
            root.draw(&PathElement::new([*end, (from, y)], RULE.stroke_width(1)))?;
            let sample = [(from, y), (from + 60, y)];
            match DASHES[i % DASHES.len()] {
                (_, 0, stroke) => root.draw(&PathElement::new(sample, INK.stroke_width(stroke)))?,
                (dash, gap, stroke) => {
                    let dashes = DashedLineSeries::new(sample, dash, gap, INK.stroke_width(stroke));
                    dashes.into_iter().try_for_each(|d| root.draw(&d))?;
                }
            }
            for (k, line) in lines.iter().enumerate() {
                let at = (from, top + row * (k as i32 + 1));
                letter(root, line, at, LETTERING, false, (HPos::Left, VPos::Top))?;
            }
        }
        Ok(())
    }
}

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Drawn = Result<(), DrawingAreaErrorKind<std::io::Error>>;

/// The library's sizes are 1.24 times those it writes.
fn font(size: f64, bold: bool) -> TextStyle<'static> {
    let style = if bold { FontStyle::Bold } else { FontStyle::Normal };
    FontDesc::new(FontFamily::SansSerif, size * 1.24, style).color(&INK)
}

fn letter(root: &Area<'_>, text: &str, at: (i32, i32), size: f64, bold: bool, (h, v): (HPos, VPos)) -> Drawn {
    root.draw(&Text::new(text.to_owned(), at, font(size, bold).pos(Pos::new(h, v))))
}

/// Points close together along a line.
fn along(course: &Course) -> impl Iterator<Item = (f64, f64)> {
    let pairs = course.stretches.iter().flat_map(|s| s.windows(2));
    pairs.flat_map(|w| {
        let [a, b] = [w[0], w[1]];
        (0..=16).map(move |k| {
            let part = f64::from(k) / 16.0;
            (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))
        })
    })
}

/// A ring with its name on a piece of paper: at the corner where it covers least of what is drawn.
fn mark(
    root: &Area<'_>,
    m: &Mark,
    (x, y): (i32, i32),
    drawn: &[(i32, i32)],
    (across, down): (Range<i32>, Range<i32>),
) -> Drawn {
    root.draw(&Circle::new((x, y), 12, PAPER.filled()))?;
    root.draw(&Circle::new((x, y), 12, INK.stroke_width(3)))?;
    root.draw(&Circle::new((x, y), 5, INK.filled()))?;
    let lines = textwrap::wrap(&m.name, 16);
    let row = (LETTERING * 1.2) as i32;
    let wide = lines.iter().map(|l| l.chars().count()).max().unwrap_or(0) as i32 * (LETTERING * 0.62) as i32;
    let high = row * lines.len() as i32;
    let corners = [(x + 20, y + 16), (x - 20 - wide, y - 16 - high), (x + 20, y - 16 - high), (x - 20 - wide, y + 16)];
    let covered = |(left, top): &(i32, i32)| {
        let (h, v) = (*left..left + wide, *top..top + high);
        let out = h.start < across.start || h.end > across.end || v.start < down.start || v.end > down.end;
        let lines = drawn.iter().filter(|(x, y)| h.contains(x) && v.contains(y)).count();
        if out { usize::MAX } else { lines }
    };
    let (left, top) = corners.into_iter().min_by_key(covered).unwrap_or((x + 20, y + 16));
    root.draw(&Rectangle::new([(left - 4, top - 2), (left + wide, top + high)], PAPER.filled()))?;
    for (k, line) in lines.iter().enumerate() {
        letter(root, line, (left, top + row * k as i32), LETTERING, true, (HPos::Left, VPos::Top))?;
    }
    Ok(())
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;
    use crate::quantity::unit::{inch, kilogram, millimetre, pound};

    fn chart() -> Chart {
        let line = |name: &str, by: f64| Course {
            name: name.into(),
            stretches: vec![
                (0..10)
                    .map(|k| [pound(50.0 + 30.0 * k as f64).value, inch(0.6 + by + 0.08 * k as f64).value])
                    .collect(),
            ],
        };
        Chart {
            title: "Thinnest slats for <two> sleepers & a visitor, keeper's bed at Larch Saddle".into(),
            description: "At 220 lb 1-1/8 in.".into(),
            x: Axis::masses("each sleeper's weight", UnitSystem::Us, [pound(50.0), pound(320.0)]),
            y: Axis::lengths("thinnest slat", UnitSystem::Us, [inch(0.0), inch(1.9)]),
            courses: vec![
                line("Douglas Fir-Larch No.2", 0.0),
                line("Spruce-Pine-Fir No.1/No.2", 0.1),
                line("C24", 0.12),
                line("yellow-poplar, ungraded", 0.5),
            ],
            mark: Some(Mark { at: [pound(220.0).value, inch(1.2).value], name: "1-1/4 in at 220 lb".into() }),
        }
    }

    #[test]
    fn axes_grow_to_whole_steps_in_the_readers_units() {
        let c = chart();
        assert_eq!(c.x.name, "each sleeper's weight, lb");
        let written: Vec<&str> = c.x.ticks.iter().map(|t| t.1.as_str()).collect();
        assert_eq!(written, ["50", "100", "150", "200", "250", "300", "350"]);
        let written: Vec<&str> = c.y.ticks.iter().map(|t| t.1.as_str()).collect();
        assert_eq!(written, ["0", "1/2", "1", "1-1/2", "2"]);
        assert_eq!(c.y.range, [0.0, inch(2.0).value]);
        let mm = Axis::lengths("width", UnitSystem::Metric, [millimetre(900.0), millimetre(1760.0)]);
        let written: Vec<&str> = mm.ticks.iter().map(|t| t.1.as_str()).collect();
        assert_eq!(written, ["800", "1000", "1200", "1400", "1600", "1800"]);
        let one = Axis::masses("weight", UnitSystem::Metric, [kilogram(80.0), kilogram(80.0)]);
        assert!(one.range[1] > one.range[0] && one.ticks.len() > 1, "{one:?}");
    }

    /// The figures of an attribute, of every element with this name.
    fn figures(svg: &str, element: &str, attribute: &str) -> Vec<String> {
        let page = scraper::Html::parse_fragment(svg);
        let selector = scraper::Selector::parse(element).unwrap();
        page.select(&selector).filter_map(|e| e.attr(attribute).map(str::to_owned)).collect()
    }

    /// A point goes where its axes' ticks say: the solid line's ends against the rules beside them.
    #[test]
    fn points_stand_where_the_axes_say() {
        let svg = chart().svg().unwrap();
        let rules = |a: &str| -> Vec<f64> { figures(&svg, "line", a).iter().map(|v| v.parse().unwrap()).collect() };
        let (x1, x2, y1, y2) = (rules("x1"), rules("x2"), rules("y1"), rules("y2"));
        let upright: Vec<f64> = x1.iter().zip(&x2).filter(|(a, b)| a == b).map(|(a, _)| *a).take(7).collect();
        let level: Vec<f64> = y1.iter().zip(&y2).filter(|(a, b)| a == b).map(|(a, _)| *a).take(5).collect();
        let solid = figures(&svg, "polyline[stroke-width='4']", "points");
        let solid: Vec<Vec<f64>> =
            solid[0].split_whitespace().map(|p| p.split(',').map(|v| v.parse().unwrap()).collect()).collect();
        // 50 lb, 0.6 in and 320 lb, 1.32 in, between rules every 50 lb and every half inch.
        let x = |lb: f64| upright[0] + (upright[6] - upright[0]) * (lb - 50.0) / 300.0;
        let y = |inches: f64| level[0] + (level[4] - level[0]) * inches / 2.0;
        for (at, want) in [(&solid[0], [x(50.0), y(0.6)]), (&solid[9], [x(320.0), y(1.32)])] {
            assert!((at[0] - want[0]).abs() <= 1.0 && (at[1] - want[1]).abs() <= 1.0, "{at:?} {want:?}");
        }
    }

    #[test]
    fn everything_stays_on_the_paper_and_names_do_not_overlap() {
        let mut c = chart();
        // Five lines that end at one place, and a mark in a corner.
        c.courses.push(c.courses[1].clone());
        c.courses
            .iter_mut()
            .for_each(|l| l.stretches = vec![vec![[pound(60.0).value, 0.01], [pound(349.0).value, 0.001]]]);
        c.mark = Some(Mark { at: [c.x.range[1], c.y.range[1]], name: "1-3/4 in at 350 lb".into() });
        let svg = c.svg().unwrap();
        let page = scraper::Html::parse_fragment(&svg);
        let selector = scraper::Selector::parse("text").unwrap();
        let mut beside: Vec<f64> = Vec::new();
        for e in page.select(&selector) {
            let at = |a: &str| e.attr(a).unwrap().parse::<f64>().unwrap();
            let text: String = e.text().collect();
            let wide = text.trim().chars().count() as f64 * at("font-size") * 0.62;
            let left = match e.attr("text-anchor").unwrap() {
                "start" => at("x"),
                "end" => at("x") - wide,
                _ => at("x") - wide / 2.0,
            };
            assert!(left >= 0.0 && left + wide <= f64::from(SIZE.0), "{text} {left} {wide}");
            assert!(at("y") >= 0.0 && at("y") + at("font-size") <= f64::from(SIZE.1) + 14.0, "{text}");
            assert!(at("font-size") >= LETTERING);
            if at("x") > f64::from(SIZE.0 as i32 - NAMES) {
                beside.push(at("y"));
            }
        }
        beside.sort_by(f64::total_cmp);
        assert!(beside.len() > 8 && beside.windows(2).all(|w| w[1] - w[0] >= LETTERING), "{beside:?}");
    }

    #[test]
    fn a_title_is_text_and_nothing_else() {
        let svg = chart().svg().unwrap();
        assert!(svg.contains("<title>Thinnest slats for &lt;two&gt; sleepers &amp; a visitor"), "{svg}");
        assert!(svg.ends_with("</svg>\n") && svg.matches("<svg").count() == 1);
        assert_eq!(svg, chart().svg().unwrap());
    }
}
