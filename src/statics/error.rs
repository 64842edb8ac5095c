//! What can be wrong with a beam or a grillage before any force is computed.

use std::fmt;

/// The part of a model that an error is about, by its place in the caller's list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The single beam of a [`Span`](super::Span).
    Span,
    /// A load, in the order given.
    Load(usize),
    /// A longitudinal line.
    Line(usize),
    /// A crossbeam.
    Crossbeam(usize),
    /// A spring to ground.
    Spring(usize),
    /// A spring between two lines.
    Link(usize),
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Part::Span => f.write_str("the beam"),
            Part::Load(i) => write!(f, "load {i}"),
            Part::Line(i) => write!(f, "line {i}"),
            Part::Crossbeam(i) => write!(f, "crossbeam {i}"),
            Part::Spring(i) => write!(f, "spring {i}"),
            Part::Link(i) => write!(f, "link {i}"),
        }
    }
}

/// Why a beam or a grillage cannot be solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StaticsError {
    /// A number is NaN, or infinite where only a finite one has a meaning.
    NotFinite {
        /// The part that carries the number.
        part: Part,
        /// What the number is.
        quantity: &'static str,
    },
    /// A stiffness is zero or negative.
    NotPositive {
        /// The part that carries the number.
        part: Part,
        /// What the number is.
        quantity: &'static str,
    },
    /// An end does not lie beyond its start, or two supports share a place.
    OutOfOrder {
        /// The part whose ends or supports these are.
        part: Part,
        /// What is out of order.
        quantity: &'static str,
    },
    /// A part reaches, or stands, beyond the ends of the beam that has to carry it.
    OffBeam {
        /// The part that has no beam under it.
        part: Part,
        /// The beam that ends too early.
        beam: Part,
    },
    /// A part names a line or a crossbeam that the model does not have.
    Missing {
        /// The part that does the naming.
        part: Part,
        /// What it names.
        beam: Part,
    },
    /// A crossbeam rests on fewer than two lines, or a link joins a line to itself.
    TooFewSupports {
        /// The part in question.
        part: Part,
    },
    /// The model has no line, or more than [`MOST_LINES`](super::MOST_LINES).
    Lines {
        /// How many lines were given.
        count: usize,
    },
    /// The line can move without any spring resisting it.
    Floats {
        /// The line that nothing holds.
        line: usize,
    },
    /// The stiffnesses differ too much for double precision.
    IllConditioned {
        /// Distance along the lines where elimination broke down, m.
        x: f64,
    },
    /// The loads on a crossbeam that nothing holds down lie beyond its supports: it tips over.
    Tips {
        /// The crossbeam that tips.
        crossbeam: usize,
    },
    /// The set of lifted contacts did not settle within the number of exchanges allowed.
    Unsettled,
}

impl fmt::Display for StaticsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StaticsError::NotFinite { part, quantity } => {
                write!(f, "{part}: {quantity} is not a finite number")
            }
            StaticsError::NotPositive { part, quantity } => {
                write!(f, "{part}: {quantity} must be greater than zero")
            }
            StaticsError::OutOfOrder { part, quantity } => {
                write!(f, "{part}: {quantity} must be in ascending order and apart")
            }
            StaticsError::OffBeam { part, beam } => write!(f, "{part} lies beyond {beam}"),
            StaticsError::Missing { part, beam } => {
                write!(f, "{part} names {beam}, which does not exist")
            }
            StaticsError::TooFewSupports { part } => write!(f, "{part} needs two different lines"),
            StaticsError::Lines { count } => {
                write!(f, "{count} lines given, 1 to {} can be solved", super::MOST_LINES)
            }
            StaticsError::Floats { line } => {
                write!(f, "line {line} floats: it can move or turn without resistance")
            }
            StaticsError::IllConditioned { x } => {
                write!(f, "stiffnesses near x = {x} m differ too much to be solved")
            }
            StaticsError::Tips { crossbeam } => {
                write!(f, "crossbeam {crossbeam} tips: its loads lie beyond its supports")
            }
            StaticsError::Unsettled => f.write_str("the lifting contacts did not settle"),
        }
    }
}

impl std::error::Error for StaticsError {}

/// `Ok` when the number is finite.
pub(super) fn finite(part: Part, quantity: &'static str, value: f64) -> Result<(), StaticsError> {
    if value.is_finite() { Ok(()) } else { Err(StaticsError::NotFinite { part, quantity }) }
}

/// `Ok` when the number is finite, or plus infinity where `rigid` allows it, and above zero.
pub(super) fn positive(part: Part, quantity: &'static str, value: f64, rigid: bool) -> Result<(), StaticsError> {
    if !(rigid && value == f64::INFINITY) {
        finite(part, quantity, value)?;
    }
    if value > 0.0 { Ok(()) } else { Err(StaticsError::NotPositive { part, quantity }) }
}
