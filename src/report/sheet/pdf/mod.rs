//! The sheet as a PDF: text that can be searched and copied, fonts embedded, formulas set, parts tagged.

mod atom;
mod direction;
mod figure;
mod font;
mod line;
mod pages;
mod table;

use pdf_writer::Content;
use pdf_writer::types::StructRole;

use super::document::Block;
use super::formula::Formula;
use super::{Sheet, program};
use crate::check::Verdict;
use crate::derivation::Step;
use crate::quantity::UnitSystem;
use atom::{Atom, Face, formula};
use direction::Mixed;
use font::{Fonts, Style};
use line::{Line, broken, reordered, words};
use pages::{MM, Pages};

/// A colour.
type Colour = [f32; 3];

const INK: Colour = [0.08, 0.07, 0.06];
const SOFT: Colour = [0.33, 0.31, 0.28];
const RULE: Colour = [0.68, 0.65, 0.60];
const SHADE: Colour = [0.945, 0.93, 0.90];
const FAIL: Colour = [0.49, 0.11, 0.09];
const PASS: Colour = [0.14, 0.32, 0.18];

const BODY: Face = Face { style: Style::Regular, size: 10.2 };
const LACKING: &str = "\u{25a1} stands for a letter that this file's fonts do not have. The same sheet as HTML has it.";
const MARGIN: f32 = 18.0 * MM;
const FOOT: f32 = 20.0 * MM;

/// The sheet as a file, or `None` if the fonts that come with the program cannot be read.
pub(super) fn write(s: &Sheet<'_>) -> Option<Vec<u8>> {
    let units = s.report.platform.units;
    let size = match units {
        UnitSystem::Us => [612.0, 792.0],
        UnitSystem::Metric => [595.276, 841.89],
    };
    let mut setter = Setter { pages: Pages::new(size), fonts: Fonts::load()?, units, y: size[1] - MARGIN };
    let title = s.title();
    setter.title(&title);
    let blocks = s.blocks();
    for (i, block) in blocks.iter().enumerate() {
        setter.put(block, &blocks[i + 1..]);
    }
    if setter.fonts.lacking() {
        setter.paragraph(StructRole::P, LACKING, BODY, 0.0, SOFT);
    }
    setter.numbers(&title);
    Some(setter.pages.write(&setter.fonts, &title, &program()))
}

/// Where the setting has come to.
struct Setter {
    pages: Pages,
    fonts: Fonts,
    units: UnitSystem,
    /// Top of what comes next, upwards from the page's foot.
    y: f32,
}

fn fill(c: &mut Content, [r, g, b]: Colour) {
    c.set_fill_rgb(r, g, b).set_stroke_rgb(r, g, b);
}

/// Draws lines from the top down; returns where they end.
fn draw_lines(lines: &[Line], x: f32, mut top: f32, size: f32, space: &Atom, c: &mut Content) -> f32 {
    for l in lines {
        let high = l.height(size);
        let base = top - 0.5 * (high - l.ascent - l.descent) - l.ascent;
        let mut at = x + l.indent;
        for (i, a) in l.atoms.iter().enumerate() {
            if i > 0 {
                space.draw([at, base], c);
                at += space.width;
            }
            a.draw([at, base], c);
            at += a.width;
        }
        top -= high;
    }
    top
}

/// How much of what follows a heading must be on its page.
fn lead(after: &[Block]) -> f32 {
    match after.first() {
        Some(Block::Heading { .. }) => 34.0 + lead(&after[1..]),
        Some(Block::Figure { drawings, .. }) => drawings.first().map_or(0.0, figure::height_on_paper) + 30.0,
        Some(Block::Table(_)) => 70.0,
        Some(Block::Paragraph(_)) if matches!(after.get(1), Some(Block::ToFill(_))) => 130.0,
        Some(_) => 44.0,
        None => 0.0,
    }
}

fn height(lines: &[Line], size: f32) -> f32 {
    lines.iter().map(|l| l.height(size)).sum()
}

impl Setter {
    fn width(&self) -> f32 {
        self.pages.size[0] - 2.0 * MARGIN
    }

    fn turn(&mut self) {
        self.pages.turn();
        self.y = self.pages.size[1] - MARGIN;
    }

    /// Goes to a new page when there is less room than this.
    fn need(&mut self, high: f32) {
        if self.y - high < FOOT && self.y < self.pages.size[1] - MARGIN - 1.0 {
            self.turn();
        }
    }

    fn gap(&mut self, high: f32) {
        self.y -= high;
    }

    fn lines(&mut self, text: &str, face: Face, width: f32) -> Vec<Line> {
        if let Some(mixed) = Mixed::of(text) {
            return reordered(&mixed, face, width, &mut self.fonts);
        }
        let space = Atom::space(face, &mut self.fonts).width;
        broken(words(text, face, width, &mut self.fonts), width, space)
    }

    /// A paragraph, over pages if need be.
    fn paragraph(&mut self, role: StructRole, text: &str, face: Face, indent: f32, colour: Colour) {
        let lines = self.lines(text, face, self.width() - indent);
        self.pages.open(role, None);
        self.set(lines, face, MARGIN + indent, colour);
        self.pages.close();
    }

    fn set(&mut self, lines: Vec<Line>, face: Face, x: f32, colour: Colour) {
        let space = Atom::space(face, &mut self.fonts);
        self.need(height(&lines[..lines.len().min(2)], face.size));
        for l in lines {
            let high = l.height(face.size);
            self.need(high);
            let y = self.y;
            self.pages.draw(|c| {
                fill(c, colour);
                draw_lines(std::slice::from_ref(&l), x, y, face.size, &space, c);
            });
            self.y -= high;
        }
    }

    /// A rule across the page.
    fn rule(&mut self, thick: f32, colour: Colour) {
        let (page, y, width) = (self.pages.count() - 1, self.y, self.width());
        self.pages.decorate(page, |c| {
            fill(c, colour);
            c.rect(MARGIN, y, width, thick).fill_nonzero();
        });
    }

    fn title(&mut self, title: &str) {
        let small = Face { style: Style::Regular, size: 9.5 };
        self.paragraph(StructRole::P, "Sleeping platform: calculation sheet", small, 0.0, SOFT);
        self.paragraph(StructRole::H1, title, Face { style: Style::Bold, size: 20.0 }, 0.0, INK);
        self.gap(4.0);
        self.rule(1.2, INK);
        self.gap(3.0);
        self.rule(0.6, INK);
        self.gap(10.0);
    }

    fn put(&mut self, block: &Block, after: &[Block]) {
        match block {
            Block::Heading { level, text, new_page } => self.heading(*level, text, *new_page, lead(after)),
            Block::Paragraph(text) => {
                self.paragraph(StructRole::P, text, BODY, 0.0, INK);
                self.gap(5.0);
            }
            Block::Verdict(verdict, text) => self.verdict(*verdict, text),
            Block::List(items) => self.list(items),
            Block::Facts(facts) => self.facts(facts),
            Block::Table(t) => self.table(t),
            Block::Figure { drawings, caption } => self.figure(drawings, caption),
            Block::Calculation(steps) => {
                steps.iter().for_each(|s| self.step(s));
                self.gap(4.0);
            }
            Block::Verbatim(text) => self.verbatim(text),
            Block::ToFill(lines) => self.lines_to_write_on(lines),
        }
    }

    /// A heading stays with what follows, of which so much must be on the page too.
    fn heading(&mut self, level: u8, text: &str, new_page: bool, lead: f32) {
        let (size, role, style) = match level {
            2 => (14.5, StructRole::H2, Style::Bold),
            3 => (12.0, StructRole::H3, Style::Bold),
            _ => (10.5, StructRole::H4, Style::Italic),
        };
        if new_page {
            self.turn();
        } else {
            self.gap(if level == 2 { 14.0 } else { 8.0 });
            self.need(2.2 * size + 10.0 + lead);
        }
        if level == 2 {
            self.pages.enter(text, self.y + 6.0);
        }
        self.paragraph(role, text, Face { style, size }, 0.0, INK);
        if level == 2 {
            self.gap(2.0);
            self.rule(0.5, RULE);
        }
        self.gap(if level == 2 { 6.0 } else { 3.0 });
    }

    fn verdict(&mut self, verdict: Verdict, text: &str) {
        let colour = match verdict {
            Verdict::Pass => PASS,
            Verdict::Fail => FAIL,
            Verdict::NotChecked => SOFT,
        };
        let (large, face) = (Face { style: Style::Bold, size: 15.0 }, Face { style: Style::Regular, size: 12.0 });
        let width = self.width() - 30.0;
        let word = self.lines(&verdict.word().to_uppercase(), large, width);
        let said = self.lines(text, face, width);
        let high = height(&word, large.size) + height(&said, face.size) + 18.0;
        self.need(high);
        let (page, y, whole) = (self.pages.count() - 1, self.y, self.width());
        self.pages.decorate(page, |c| {
            fill(c, SHADE);
            c.rect(MARGIN, y - high, whole, high).fill_nonzero();
            fill(c, colour);
            c.rect(MARGIN, y - high, 6.0, high).fill_nonzero();
        });
        self.gap(9.0);
        self.pages.open(StructRole::P, None);
        self.set(word, large, MARGIN + 18.0, colour);
        self.set(said, face, MARGIN + 18.0, INK);
        self.pages.close();
        self.gap(12.0);
    }

    fn list(&mut self, items: &[String]) {
        self.pages.open(StructRole::L, None);
        for item in items {
            let lines = self.lines(item, BODY, self.width() - 14.0);
            self.need(height(&lines[..lines.len().min(2)], BODY.size));
            let (dot, y) = (Atom::word("•", BODY, &mut self.fonts), self.y);
            self.pages.open(StructRole::LI, None);
            self.pages.open(StructRole::LBody, None);
            self.pages.draw(|c| {
                fill(c, SOFT);
                dot.draw([MARGIN + 3.0, y - 0.98 * BODY.size], c);
            });
            self.set(lines, BODY, MARGIN + 14.0, INK);
            self.pages.close();
            self.pages.close();
            self.gap(2.5);
        }
        self.pages.close();
        self.gap(3.0);
    }

    fn facts(&mut self, facts: &[(String, String)]) {
        let column = 84.0;
        for (name, text) in facts {
            let label = self.lines(name, BODY, column - 6.0);
            let lines = self.lines(text, BODY, self.width() - column);
            self.need(height(&lines, BODY.size));
            let (top, space) = (self.y, Atom::space(BODY, &mut self.fonts));
            self.pages.open(StructRole::P, None);
            self.pages.draw(|c| {
                fill(c, SOFT);
                draw_lines(&label, MARGIN, top, BODY.size, &space, c);
            });
            self.set(lines, BODY, MARGIN + column, INK);
            self.pages.close();
            self.gap(2.0);
        }
    }

    /// A line of a calculation: formula, numbers and result at the left, its clause at the right.
    fn step(&mut self, step: &Step) {
        let size = 9.5;
        let face = Face { style: Style::Regular, size };
        let small = Face { style: Style::Regular, size: 8.0 };
        let (wide, clause) = (0.7 * self.width(), 0.27 * self.width());
        let (symbols, numbers) = (step.expression.symbols(self.units), step.expression.substituted(self.units));
        let value = step.value.show(self.units);
        let fonts = &mut self.fonts;
        let mut atoms = formula(&Formula::name(&step.symbol), size, fonts);
        if symbols != step.symbol && symbols != value {
            atoms.push(Atom::word("=", face, fonts));
            atoms.extend(formula(&Formula::of(&step.expression, self.units), size, fonts));
        }
        if numbers != symbols && numbers != value {
            atoms.extend(words(&format!("= {numbers}"), face, wide, fonts));
        }
        atoms.extend(words(&format!("= {value}"), face, wide, fonts));
        let space = Atom::space(face, fonts);
        let left = broken(atoms, wide, space.width);
        let right = self.lines(&format!("{}, {}", step.citation, step.citation.seen), small, clause);
        let high = height(&left, size).max(height(&right, small.size)) + 3.0;
        self.need(high);
        let (y, x, page) = (self.y - 1.0, MARGIN + self.width() - clause, self.pages.count() - 1);
        let thin = Atom::space(small, &mut self.fonts);
        self.pages.open(StructRole::P, None);
        self.pages.draw(|c| {
            fill(c, INK);
            draw_lines(&left, MARGIN, y, size, &space, c);
        });
        self.pages.draw(|c| {
            fill(c, SOFT);
            draw_lines(&right, x, y, small.size, &thin, c);
        });
        self.pages.close();
        self.y -= high;
        let (y, width) = (self.y, self.width());
        self.pages.decorate(page, |c| {
            fill(c, RULE);
            c.rect(MARGIN, y, width, 0.3).fill_nonzero();
        });
    }

    fn verbatim(&mut self, text: &str) {
        let face = Face { style: Style::Mono, size: 7.6 };
        self.pages.open(StructRole::P, None);
        for typed in text.lines() {
            let indent = typed.len() - typed.trim_start().len();
            let space = Atom::space(face, &mut self.fonts).width;
            let lines = self.lines(typed.trim_start(), face, self.width() - indent as f32 * space);
            self.set(lines, face, MARGIN + indent as f32 * space, INK);
        }
        self.pages.close();
        self.gap(6.0);
    }

    /// Lines to write on, two in a row.
    fn lines_to_write_on(&mut self, names: &[&str]) {
        let face = Face { style: Style::Regular, size: 9.5 };
        let half = 0.5 * self.width() - 10.0;
        for pair in names.chunks(2) {
            self.need(46.0);
            self.gap(28.0);
            for (i, name) in pair.iter().enumerate() {
                let x = MARGIN + i as f32 * (half + 20.0);
                let (y, label) = (self.y, Atom::word(name, face, &mut self.fonts));
                self.pages.open(StructRole::P, None);
                self.pages.draw(|c| {
                    fill(c, INK);
                    c.rect(x, y, half, 0.6).fill_nonzero();
                    fill(c, SOFT);
                    label.draw([x, y - 11.0], c);
                });
                self.pages.close();
            }
            self.gap(16.0);
        }
    }

    /// Page numbers, once it is known how many there are.
    fn numbers(&mut self, title: &str) {
        let face = Face { style: Style::Regular, size: 8.5 };
        let count = self.pages.count();
        let short: String = title.chars().take(80).collect();
        for page in 0..count {
            let name = self.lines(&short, face, 0.8 * self.width());
            let number = Atom::phrase(&format!("{} of {count}", page + 1), face, &mut self.fonts);
            let (x, space) = (MARGIN + self.width() - number.width, Atom::space(face, &mut self.fonts));
            self.pages.decorate(page, |c| {
                fill(c, SOFT);
                draw_lines(&name[..1], MARGIN, FOOT - 12.0, face.size, &space, c);
                number.draw([x, FOOT - 12.0 - 8.6], c);
            });
        }
    }
}
