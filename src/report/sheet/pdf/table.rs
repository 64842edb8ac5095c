//! Tables of the PDF: rows are not torn, and every page begins with the headings.

use pdf_writer::types::StructRole;

use super::atom::{Atom, Face};
use super::font::Style;
use super::line::Line;
use super::{FAIL, INK, MARGIN, RULE, SOFT, Setter, draw_lines, fill, height};
use crate::report::sheet::document::Table;

/// Between columns.
const GUTTER: f32 = 8.0;

impl Setter {
    pub(super) fn table(&mut self, t: &Table) {
        let size = if t.columns.len() > 6 { 8.0 } else { 9.5 };
        let caption = Face { style: Style::Italic, size: 9.5 };
        self.need(70.0);
        self.paragraph(StructRole::P, &t.caption, caption, 0.0, SOFT);
        let shares: f64 = t.columns.iter().map(|c| c.share).sum();
        let widths: Vec<f32> = t.columns.iter().map(|c| (c.share / shares) as f32 * self.width()).collect();
        self.pages.open(StructRole::Table, None);
        self.head(t, &widths, size);
        for (i, row) in t.rows.iter().enumerate() {
            let failing = t.failing.contains(&i);
            let face = Face { style: if failing { Style::Bold } else { Style::Regular }, size };
            let cells: Vec<Vec<Line>> = row.iter().zip(&widths).map(|(c, w)| self.lines(c, face, w - GUTTER)).collect();
            let high = cells.iter().map(|c| height(c, size)).fold(0.0, f32::max) + 3.0;
            let pages = self.pages.count();
            self.need(high);
            if self.pages.count() > pages {
                self.head(t, &widths, size);
            }
            self.row(t, &cells, &widths, face, if failing { FAIL } else { INK }, false);
            self.y -= high;
            self.rule(0.3, RULE);
        }
        self.pages.close();
        self.gap(8.0);
    }

    fn head(&mut self, t: &Table, widths: &[f32], size: f32) {
        let face = Face { style: Style::Bold, size };
        let cells: Vec<Vec<Line>> =
            t.columns.iter().zip(widths).map(|(c, w)| self.lines(c.name, face, w - GUTTER)).collect();
        let high = cells.iter().map(|c| height(c, size)).fold(0.0, f32::max) + 3.0;
        self.row(t, &cells, widths, face, INK, true);
        self.y -= high;
        self.rule(0.8, INK);
    }

    fn row(&mut self, t: &Table, cells: &[Vec<Line>], widths: &[f32], face: Face, colour: [f32; 3], head: bool) {
        let space = Atom::space(face, &mut self.fonts);
        let (mut x, y) = (MARGIN, self.y - 1.5);
        self.pages.open(StructRole::TR, None);
        for (k, ((lines, width), column)) in cells.iter().zip(widths).zip(&t.columns).enumerate() {
            self.pages.open(if head || k == 0 { StructRole::TH } else { StructRole::TD }, None);
            self.pages.draw(|c| {
                fill(c, colour);
                let mut top = y;
                for l in lines {
                    let from = if column.numbers { x + width - GUTTER - l.width } else { x };
                    top = draw_lines(std::slice::from_ref(l), from, top, face.size, &space, c);
                }
            });
            self.pages.close();
            x += width;
        }
        self.pages.close();
    }
}
