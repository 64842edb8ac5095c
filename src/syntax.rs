//! What is not TOML, said in words that do not ask the reader to know TOML's.

use std::collections::BTreeSet;
use std::ops::Range;

use toml::de::Error;

/// What the parser's message begins with, what is said instead, and what would be right.
/// A message that is not here is passed on as it is.
const KNOWN: [(&str, &str, &str); 18] = [
    ("key with no value", "a key has no `=` and no value", "write key = value, such as count = 14"),
    ("unclosed table", "this heading is not closed", "end it with `]`, as in [slats]"),
    ("unclosed array table", "this heading is not closed", "end it with `]]`, as in [[sleeper]]"),
    ("unclosed array", "this list is not closed", "end it with `]`"),
    ("unclosed inline table", "this `{` is not closed", "end it with `}`, as in { screw = \"#10 x 3 in\" }"),
    ("invalid basic string, expected `\"`", "this text is not closed", "end it with a quote, as in \"80 in\""),
    ("invalid literal string, expected `'`", "this text is not closed", "end it with the quote it begins with"),
    ("invalid basic string", "a character here cannot stand in text", "take it out"),
    ("unexpected key or value", "something is left over here", "write one `key = value` a line; inches are `in`"),
    ("carriage return", "this line does not end as lines of text do", "save the file again as plain text"),
    ("cannot recurse further", "lists or tables stand too deep inside each other", "three levels are enough"),
    ("recursion limit", "a key here has far too many parts", "three levels are enough"),
    ("unquoted keys cannot be empty", "there is no key before the `=`", "write key = value, such as count = 14"),
    ("missing escaped value", "a backslash cannot stand alone", "write two, `\\\\`, or none"),
    ("missing comma between key-value pairs", "a comma is missing here", "write { key = value, key = value }"),
    (
        "extra comma",
        "a value is missing before this comma, or it is one too many",
        "write { key = value, key = value }",
    ),
    ("extra assignment", "there is one `=` too many", "write { key = value, key = value }"),
    ("extra `=`", "there is one `=` too many", "write key = value, such as count = 14"),
];

/// One thing that is not TOML.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Slip {
    /// Its bytes in the text.
    pub(crate) span: Range<usize>,
    /// What is wrong.
    pub(crate) message: String,
    /// A word or two under the caret.
    pub(crate) label: &'static str,
    /// What would be right.
    pub(crate) help: String,
}

/// The syntax errors of a text: one a line, since what follows the first on a line comes of it, and
/// one a heading, since the keys below a heading that stands twice are not to blame.
pub(crate) fn slips(text: &str, errors: &[Error]) -> Vec<Slip> {
    let mut out = Vec::new();
    if errors.is_empty() {
        return out;
    }
    let starts: Vec<usize> = std::iter::once(0).chain(text.match_indices('\n').map(|(n, _)| n + 1)).collect();
    let headings: Vec<usize> = starts.iter().copied().filter(|s| is_heading(text, *s)).collect();
    let mut lines = BTreeSet::new();
    for e in errors {
        let span = e.span().unwrap_or_else(|| most_dotted(text));
        let line = last_before(&starts, span.start).unwrap_or(0);
        let below_twin = last_before(&headings, span.start).is_some_and(|h| h != line && lines.contains(&h));
        if !below_twin && lines.insert(line) {
            out.push(slip(text, span, e.message()));
        }
    }
    out
}

fn slip(text: &str, span: Range<usize>, message: &str) -> Slip {
    let typed = text.get(span.clone()).unwrap_or_default().trim();
    let (message, label, help) = if message.starts_with("duplicate key") {
        (format!("`{}` stands twice", shortened(typed)), "the second one", "keep one of the two".to_owned())
    } else if message.starts_with("string values must be quoted") && typed.is_empty() {
        ("there is no value here".to_owned(), "", "write key = value, such as count = 14".to_owned())
    } else if message.starts_with("string values must be quoted") {
        let bare = typed.trim_matches(|c: char| "“”„‘’«»\"'".contains(c));
        ("this value needs quotes".to_owned(), "", format!("write \"{}\" in straight quotes", shortened(bare)))
    } else if let Some((_, said, help)) = KNOWN.iter().find(|(begins, ..)| message.starts_with(begins)) {
        ((*said).to_owned(), "", (*help).to_owned())
    } else {
        (format!("this is not TOML: {message}"), "", "each line is `key = value` or `[table]`".to_owned())
    };
    Slip { span, message, label, help }
}

/// The line with the most dots: an error without a place is a key that goes too deep.
fn most_dotted(text: &str) -> Range<usize> {
    let dots = |line: &&str| line.matches('.').count();
    let lines = text.split_inclusive('\n').scan(0, |at, line| {
        *at += line.len();
        Some((*at - line.len(), line))
    });
    // The first of several.
    let start = lines.max_by_key(|(at, line)| (dots(line), std::cmp::Reverse(*at))).map_or(0, |(at, _)| at);
    start..start
}

/// A typed word cut to a length that fits a message.
pub fn shortened(word: &str) -> String {
    if word.chars().count() > 40 { word.chars().take(40).collect::<String>() + "…" } else { word.to_owned() }
}

fn is_heading(text: &str, start: usize) -> bool {
    text.get(start..).is_some_and(|rest| rest.trim_start_matches([' ', '\t']).starts_with('['))
}

/// The last of some places, in order, that is not after this one.
fn last_before(places: &[usize], at: usize) -> Option<usize> {
    places.partition_point(|p| *p <= at).checked_sub(1).and_then(|i| places.get(i)).copied()
}
