//! One mistake in a brief: where it is, what is wrong, what would be right.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

/// A mistake in a brief, pointing at the text that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mistake {
    /// Bytes of the brief that are wrong.
    pub span: Range<usize>,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// A word or two under the caret.
    pub label: String,
    /// What would be right.
    pub help: String,
}

/// Most mistakes that are reported at once. Whatever holds more is not a brief with slips in it.
pub const MOST_MISTAKES: usize = 100;

/// The mistakes found so far. Reading goes on after each, so that all are reported at once.
#[derive(Clone, Debug, Default)]
pub struct Mistakes(Vec<Mistake>);

impl Mistakes {
    /// Adds one.
    pub fn add(
        &mut self,
        span: &Range<usize>,
        message: impl Into<String>,
        label: impl Into<String>,
        help: impl Into<String>,
    ) {
        let mistake = Mistake {
            span: span.clone(),
            message: one_line(&message.into()),
            label: label.into(),
            help: one_line(&help.into()),
        };
        if self.0.len() < MOST_MISTAKES && !self.0.contains(&mistake) {
            self.0.push(mistake);
        }
    }

    /// Whether none was found.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// All of them, in the order in which they stand in the brief.
    pub fn in_order(mut self) -> Vec<Mistake> {
        self.0.sort_by_key(|m| (m.span.start, m.span.end));
        self.0
    }
}

/// A message on one line of bearable length, whatever was typed into the value it quotes.
fn one_line(text: &str) -> String {
    const MOST: usize = 400;
    let mut out: String = text.chars().take(MOST).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(MOST).is_some() {
        out.push('…');
    }
    out
}

/// The mistakes with file, line, column and caret, as text.
pub fn render(mistakes: &[Mistake], path: &str, text: &str, renderer: &Renderer) -> String {
    let mut out = String::new();
    for m in mistakes {
        let end = m.span.end.min(text.len());
        let start = m.span.start.min(end);
        let snippet = Snippet::source(text)
            .path(path)
            .annotation(AnnotationKind::Primary.span(start..end).label(m.label.as_str()));
        let group = Level::ERROR.primary_title(m.message.as_str()).element(snippet);
        let report =
            if m.help.is_empty() { vec![group] } else { vec![group.element(Level::HELP.message(m.help.as_str()))] };
        out.push_str(&renderer.render(&report));
        out.push_str("\n\n");
    }
    out
}
