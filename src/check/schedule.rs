//! What to cut, what to buy, and where to drill.

use super::capacity::{self, Holes, Joined};
use super::joint::{into_end_grain, into_side_grain, into_stud};
use super::screw;
use crate::brief::Side;
use crate::derivation::Worked;
use crate::platform::{EndJoint, EndKind, LongSide, Platform, Stick};
use crate::quantity::Length;

/// One kind of piece to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it is, such as `slat`.
    pub what: String,
    /// How many.
    pub count: usize,
    /// Thickness and width.
    pub section: [Length; 2],
    /// Cut length.
    pub length: Length,
    /// Stock it is cut from, if the brief names it.
    pub stock: Option<String>,
    /// Wood.
    pub wood: String,
    /// What a reader must know of it.
    pub note: Option<String>,
}

/// A hole to drill.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Where and what for.
    pub place: &'static str,
    /// Smallest and largest diameter.
    pub diameter: [Length; 2],
    /// The clause, and how it was seen.
    pub source: String,
}

/// One kind of screw, how many, where, and the holes for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Hardware {
    /// What it holds, such as `left cleat to rail`.
    pub what: String,
    /// The screw.
    pub screw: String,
    /// How many.
    pub count: usize,
    /// Distances of the pattern, each with its name.
    pub pattern: Vec<(&'static str, Length)>,
    /// Holes to drill.
    pub holes: Vec<Hole>,
    /// Why there is no hole here, when a rule has no answer.
    pub no_holes: Option<String>,
}

/// The cut list and the hardware list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Schedule {
    /// Pieces to cut.
    pub pieces: Vec<Piece>,
    /// Screws to drive.
    pub hardware: Vec<Hardware>,
    /// What the brief leaves to the builder.
    pub notes: Vec<String>,
}

impl Schedule {
    /// The schedule of a platform.
    pub fn of(p: &Platform) -> Schedule {
        let mut out = Schedule::default();
        let [from, to] = p.slat_ends();
        out.pieces.push(piece("slat", &p.slats.stick, to - from, p.slats.count));
        for side in &p.sides {
            out.add_piece(piece("cleat", &side.cleat, p.length, 1), side);
        }
        for side in &p.sides {
            let lap = side.rail.ends.as_ref().map_or(Length::default(), EndJoint::lap);
            let mut rail = piece("rail", &side.rail.stick, p.length + lap * 2.0, 1);
            if lap > Length::default() {
                rail.note = Some("with a lap on the post or block at each end, as checked".into());
            }
            out.add_piece(rail, side);
        }
        if let Some(posts) = &p.posts {
            for (side, length) in p.sides.iter().zip(posts.lengths).filter(|(side, _)| side.rail.ends.is_some()) {
                out.add_piece(piece("post", &posts.stick, length, 2), side);
            }
        }
        for side in &p.sides {
            out.cleat_screws(p, side);
        }
        for side in &p.sides {
            out.end_joints(p, side);
            out.stud_screws(p, side);
        }
        if p.slats.fixed {
            out.notes.push(format!(
                "Slats are held down by a screw at each end: {} screws that the brief leaves to the builder, \
                 with a pilot hole wherever the end could split.",
                2 * p.slats.count
            ));
        }
        if p.guard.is_some() || p.ladder.is_some() {
            out.notes
                .push("Guard and ladder are not in these lists: cut them to their own measures in the brief.".into());
        }
        out.notes.push(
            "Cut lengths are net: add what the saw takes, and measure the frame as it stands before cutting \
             the slats."
                .into(),
        );
        out
    }

    /// Adds a side's piece, or counts it with the other side's when they are alike.
    fn add_piece(&mut self, piece: Piece, side: &LongSide) {
        let alike = |a: &Piece| Piece { count: piece.count, what: piece.what.clone(), ..a.clone() } == piece;
        let twin = self.pieces.iter_mut().find(|a| a.what.ends_with(&piece.what) && alike(a));
        match twin {
            Some(twin) => {
                twin.count += piece.count;
                twin.what = piece.what;
            }
            None => self.pieces.push(Piece { what: format!("{} {}", name(side), piece.what), ..piece }),
        }
    }

    /// As [`Schedule::add_piece`].
    fn add_hardware(&mut self, item: Hardware, side: &LongSide) {
        let alike = |a: &Hardware| Hardware { what: item.what.clone(), count: item.count, ..a.clone() } == item;
        let twin = self.hardware.iter_mut().find(|a| a.what.ends_with(&item.what) && alike(a));
        match twin {
            Some(twin) => {
                twin.count += item.count;
                twin.what = item.what;
            }
            None => self.hardware.push(Hardware { what: format!("{} {}", name(side), item.what), ..item }),
        }
    }

    fn cleat_screws(&mut self, p: &Platform, side: &LongSide) {
        let row = &side.screws;
        let pattern = vec![
            ("each end to the first screw", row.first),
            ("screw to screw", row.spacing()),
            ("up from the cleat's lower edge", row.up),
        ];
        let item = drilled(p, "cleat to rail", screw::joined(side), row.positions.len(), pattern);
        self.add_hardware(item, side);
    }

    fn end_joints(&mut self, p: &Platform, side: &LongSide) {
        let Some(ends) = &side.rail.ends else { return };
        let pattern = |count: usize| {
            let mut out = vec![("rail's edges to the nearest screw", ends.edge)];
            if count > 1 {
                out.push(("screw to screw", ends.spacing(&side.rail.stick, count)));
            }
            if ends.lap() > Length::default() {
                out.push(("rail's end to the screws", ends.end));
            }
            out
        };
        let item = match &ends.kind {
            EndKind::SideGrain { screw, count } => {
                drilled(p, "rail to posts", into_side_grain(&side.rail.stick, ends, screw), 2 * count, pattern(*count))
            }
            EndKind::EndGrain { screw, count, through } => drilled(
                p,
                "post to rail's ends",
                into_end_grain(&side.rail.stick, ends, screw, *through),
                2 * count,
                pattern(*count),
            ),
            EndKind::Pocket { screw, count } => Hardware {
                what: "rail to posts, in pockets".into(),
                screw: screw.designation.clone(),
                count: 2 * count,
                pattern: vec![("rail's edges to the nearest screw", ends.edge)],
                holes: Vec::new(),
                no_holes: Some("drill as the pocket jig asks".into()),
            },
            EndKind::Bearing { length } => Hardware {
                what: "rail's ends on posts or blocks".into(),
                screw: "bearing, no screws counted".into(),
                count: 0,
                pattern: vec![("rests at each end for", *length)],
                holes: Vec::new(),
                no_holes: Some("keep the rail from sliding off and from falling over".into()),
            },
            EndKind::Glue => return,
        };
        self.add_hardware(item, side);
    }

    fn stud_screws(&mut self, p: &Platform, side: &LongSide) {
        let Some(studs) = &side.rail.studs else { return };
        let mut pattern =
            vec![("up from the rail's lower edge, in the middle of its depth", side.rail.stick.width / 2.0)];
        if let [first, ..] = studs.positions.as_slice() {
            pattern.push(("head to the first stud", *first));
        }
        if let [a, b, ..] = studs.positions.as_slice() {
            pattern.push(("stud to stud", *b - *a));
        }
        let count = studs.count * studs.positions.len();
        self.add_hardware(drilled(p, "rail to studs", into_stud(side, studs), count, pattern), side);
    }
}

fn name(side: &LongSide) -> &'static str {
    match side.side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

fn piece(what: &str, stick: &Stick, length: Length, count: usize) -> Piece {
    Piece {
        what: what.into(),
        count,
        section: [stick.thickness, stick.width],
        length,
        stock: stick.stock.clone(),
        wood: stick.wood.name(),
        note: None,
    }
}

/// A kind of screw with its holes.
fn drilled(
    p: &Platform,
    what: &str,
    joined: Joined<'_>,
    count: usize,
    pattern: Vec<(&'static str, Length)>,
) -> Hardware {
    let designation = joined.screw.designation.clone();
    let (holes, no_holes) = match capacity::rules(p).screwed(joined).holes() {
        Ok(h) => (holes(h), None),
        Err(e) => (Vec::new(), Some(e.describe(p.units))),
    };
    Hardware { what: what.into(), screw: designation, count, pattern, holes, no_holes }
}

fn holes(h: Holes) -> Vec<Hole> {
    let hole = |place, sizes: Option<(Worked<Length>, Worked<Length>)>| {
        sizes.map(|(least, most)| Hole {
            place,
            diameter: [least.value, most.value],
            source: least.as_step().map(|s| format!("{}, {}", s.citation, s.citation.seen)).unwrap_or_default(),
        })
    };
    [hole("for the shank, in the piece under the head", h.shank), hole("for the thread, in the other piece", h.thread)]
        .into_iter()
        .flatten()
        .collect()
}
