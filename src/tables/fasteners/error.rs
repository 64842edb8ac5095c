//! Why a text is not a screw or bolt.

use std::fmt;

use crate::quantity::{Length, ReadError, fraction_of_inch};
use crate::tables::names::NotFound;

/// Why a text is not a screw or bolt.
#[derive(Clone, Debug, PartialEq)]
pub enum FastenerError {
    /// No such size.
    UnknownSize(NotFound),
    /// A size with no length.
    MissingLength {
        /// The size.
        size: String,
        /// An example of what would be right.
        example: String,
    },
    /// A length that cannot be read.
    Length(ReadError),
    /// A length no such screw has.
    Absurd {
        /// Size and length as typed.
        asked: String,
        /// The shortest that is believed.
        shortest: Length,
        /// The longest that is believed.
        longest: Length,
    },
}

impl fmt::Display for FastenerError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FastenerError::UnknownSize(e) => e.fmt(f),
            FastenerError::MissingLength { size, .. } => {
                write!(f, "{size} is a size: it needs a length too")
            }
            FastenerError::Length(e) => write!(f, "its length: {e}"),
            FastenerError::Absurd { asked, .. } => write!(f, "no screw or bolt is {asked}"),
        }
    }
}

impl std::error::Error for FastenerError {}

impl FastenerError {
    /// What would be right.
    pub fn help(&self) -> String {
        match self {
            FastenerError::UnknownSize(e) => e.help(),
            FastenerError::MissingLength { example, .. } => {
                format!("write size and length: {example}")
            }
            FastenerError::Length(e) => e.help(),
            FastenerError::Absurd { shortest, longest, .. } => {
                let mm = |l: &Length| (l.value * 1e3).round();
                format!(
                    "from {} to {} ({} to {} mm) was expected for this size",
                    fraction_of_inch(*shortest),
                    fraction_of_inch(*longest),
                    mm(shortest),
                    mm(longest)
                )
            }
        }
    }
}
