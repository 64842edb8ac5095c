//! The sheet as a document: what every face sets in its own way.

use std::sync::Arc;

use crate::check::Verdict;
use crate::derivation::Step;
use crate::report::drawing::Drawing;

/// A part of the document, from top to bottom.
#[derive(Clone, Debug)]
pub(in crate::report) enum Block {
    /// A heading; level 2 opens a part, and a part may begin on a page of its own.
    Heading { level: u8, text: String, new_page: bool },
    /// A paragraph of plain text.
    Paragraph(String),
    /// The verdict and its reason.
    Verdict(Verdict, String),
    /// Items of equal weight.
    List(Vec<String>),
    /// Names with what belongs to each.
    Facts(Vec<(String, String)>),
    /// Rows under headings.
    Table(Table),
    /// Drawings side by side where there is room, and what they show.
    Figure { drawings: Vec<Drawing>, caption: String },
    /// A calculation, line by line.
    Calculation(Vec<Arc<Step>>),
    /// Text kept as typed.
    Verbatim(String),
    /// Lines to be filled in by hand.
    ToFill(Vec<&'static str>),
}

/// A table.
#[derive(Clone, Debug, Default)]
pub(in crate::report) struct Table {
    pub(in crate::report) caption: String,
    pub(in crate::report) columns: Vec<Column>,
    pub(in crate::report) rows: Vec<Vec<String>>,
    /// Rows that fail.
    pub(in crate::report) failing: Vec<usize>,
}

/// A column of a table.
#[derive(Clone, Copy, Debug)]
pub(in crate::report) struct Column {
    pub(in crate::report) name: &'static str,
    pub(in crate::report) numbers: bool,
    /// Share of the width on paper.
    pub(in crate::report) share: f64,
}

impl Table {
    pub(in crate::report) fn new(caption: impl Into<String>, columns: &[Column]) -> Table {
        Table { caption: caption.into(), columns: columns.to_vec(), rows: Vec::new(), failing: Vec::new() }
    }
}

/// A column of words.
pub(in crate::report) fn words(name: &'static str, share: f64) -> Column {
    Column { name, numbers: false, share }
}

/// A column of numbers.
pub(in crate::report) fn numbers(name: &'static str, share: f64) -> Column {
    Column { name, numbers: true, share }
}

/// A heading within the page.
pub(in crate::report) fn heading(level: u8, text: impl Into<String>) -> Block {
    Block::Heading { level, text: text.into(), new_page: false }
}
