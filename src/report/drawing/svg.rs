//! A drawing as SVG. Colours are the page's: every shape carries only a class.

use ::svg::Node;
use ::svg::node::Value;
use ::svg::node::element::path::Data;
use ::svg::node::element::{Circle, Description, Group, Path, SVG, TSpan, Text as Lettering, Title};

use super::paper::{Anchor, At, Band, Drawing, Fill, Line, Shape, Text, WIDTH};
use crate::report::fraction::{Run, runs};

/// A drawing as an SVG element; `id` tells its title and description from those of others on the page.
pub(in crate::report) fn svg(d: &Drawing, id: &str) -> String {
    let (title, description) = (format!("{id}-title"), format!("{id}-description"));
    let mut out = SVG::new()
        .set("viewBox", format!("0 0 {WIDTH} {}", figure(d.height)))
        .set("role", "img")
        .set("aria-labelledby", format!("{title} {description}"));
    out.append(Title::new(&d.title).set("id", title));
    out.append(Description::new().set("id", description).add(::svg::node::Text::new(&d.description)));
    for shape in &d.shapes {
        match shape {
            Shape::Path { points, closed, fill, line } => {
                let path = Path::new().set("class", classes(*fill, *line)).set("d", data(points, *closed));
                out.append(path);
            }
            Shape::Segments { lines, line } => {
                let all = lines.iter().fold(Data::new(), |d, [a, b]| d.move_to(pair(*a)).line_to(pair(*b)));
                out.append(Path::new().set("class", classes(Fill::None, *line)).set("d", all));
            }
            Shape::Circle { centre: [x, y], radius, fill, line } => {
                let circle = Circle::new().set("class", classes(*fill, *line));
                out.append(circle.set("cx", figure(*x)).set("cy", figure(*y)).set("r", figure(*radius)));
            }
            Shape::Text(t) => out.append(lettering(t)),
        }
    }
    // A line break between two runs of a text would be set as a space.
    out.to_string().replace("\n<tspan", "<tspan").replace("</tspan>\n", "</tspan>")
}

/// A tenth of a unit is a third of a dot on a phone.
fn figure(v: f64) -> String {
    let text = format!("{v:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

fn pair([x, y]: At) -> (f32, f32) {
    let tenth = |v: f64| (v * 10.0).round() as f32 / 10.0;
    (tenth(x), tenth(y))
}

fn data(points: &[At], closed: bool) -> Value {
    let mut data = Data::new();
    for (i, p) in points.iter().enumerate() {
        data = if i == 0 { data.move_to(pair(*p)) } else { data.line_to(pair(*p)) };
    }
    if closed { data.close() } else { data }.into()
}

fn classes(fill: Fill, line: Line) -> String {
    let fill = match fill {
        Fill::None => "f0",
        Fill::Paper => "fp",
        Fill::Ink => "fi",
        Fill::Shade => "fs",
        Fill::Band(Band::Easy) => "b1",
        Fill::Band(Band::Working) => "b2",
        Fill::Band(Band::Full) => "b3",
        Fill::Band(Band::Over) => "b4",
        Fill::Band(Band::Unknown) => "b0",
    };
    let line = match line {
        Line::None => "l0",
        Line::Hatch => "lh",
        Line::HatchOver => "lo",
        Line::Fine => "lf",
        Line::Outline => "l1",
        Line::Hidden => "ld",
        Line::Mark => "lm",
    };
    format!("{fill} {line}")
}

fn lettering(t: &Text) -> Group {
    let anchor = match t.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let [x, y] = t.at.map(figure);
    let mut out = Lettering::new("").set("text-anchor", anchor).set("font-size", figure(t.size));
    out = if t.upwards {
        out.set("transform", format!("translate({x} {y}) rotate(-90)"))
    } else {
        out.set("x", x).set("y", y)
    };
    if t.bold {
        out = out.set("class", "strong");
    }
    let mut raised = 0.0;
    for run in runs(&t.text) {
        let (text, small, rise) = match run {
            Run::Plain(s) => (s.to_owned(), false, 0.0),
            Run::Joint => ("\u{a0}".to_owned(), true, 0.0),
            Run::Top(s) => (s.to_owned(), true, 0.35 * t.size),
            Run::Bar => ("\u{2044}".to_owned(), false, 0.0),
            Run::Bottom(s) => (s.to_owned(), true, 0.0),
        };
        let mut span = TSpan::new(text);
        if small {
            span = span.set("font-size", figure(0.7 * t.size));
        }
        if rise != raised {
            span = span.set("dy", figure(raised - rise));
            raised = rise;
        }
        out.append(span);
    }
    Group::new().add(out)
}
