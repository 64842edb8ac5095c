//! Scale drawings, said once for every face: lines, filled shapes and lettering on a sheet of paper.

mod across;
mod course;
mod dimension;
mod elevation;
mod outline;
mod paper;
mod plan;
mod section;
mod svg;

pub(super) use across::across;
pub(super) use course::courses;
pub(super) use elevation::elevation;
pub(super) use paper::{Anchor, Band, Drawing, Fill, Line, Shape, Text, WIDTH};
pub(super) use plan::plan;
pub(super) use section::sections;
pub(super) use svg::svg;
