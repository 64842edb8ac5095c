//! Where a number comes from. No value enters a table or a rule without one of these.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Serialize};

/// How a published number was seen by whoever entered it here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Seen {
    /// Read in the named document, or in a faithful copy of its text.
    Read,
    /// Computed here from a data file that was read.
    Computed,
    /// Read in somebody else's summary of the named document.
    Secondary,
    /// Recalled, not re-read. To be verified before anyone relies on it.
    Memory,
    /// A choice made here and argued for, not a published number.
    Judgement,
}

impl fmt::Display for Seen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Seen::Read => "read",
            Seen::Computed => "computed",
            Seen::Secondary => "secondary",
            Seen::Memory => "memory",
            Seen::Judgement => "judgement",
        })
    }
}

/// The place in a standard or handbook that a formula follows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Citation {
    /// Document and edition, such as `NDS 2018`.
    pub document: Cow<'static, str>,
    /// Clause, table or equation, such as `3.4.2`.
    pub locator: Cow<'static, str>,
    /// How the clause was seen.
    pub seen: Seen,
}

impl Citation {
    /// A citation known when the program is compiled.
    pub const fn new(document: &'static str, locator: &'static str, seen: Seen) -> Self {
        Citation { document: Cow::Borrowed(document), locator: Cow::Borrowed(locator), seen }
    }
}

impl fmt::Display for Citation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.locator.is_empty() {
            write!(f, "{}", self.document)
        } else {
            write!(f, "{} {}", self.document, self.locator)
        }
    }
}

/// The origin of one row of a table: every row has its own, or its file's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Provenance {
    /// Title of the document.
    pub source: String,
    /// Table, page or clause in it.
    pub locator: String,
    /// Edition or year.
    pub edition: String,
    /// How it was seen.
    pub seen: Seen,
    /// What else a reader should know, such as which properties were confirmed elsewhere.
    pub note: Option<String>,
}
