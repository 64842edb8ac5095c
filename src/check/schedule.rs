//! What to cut, what to buy, and where to drill.

mod beside;
mod joints;

use joints::end_joints;

use super::brace;
use super::capacity::{self, Holes, Joined};
use super::joint::into_stud;
use super::screw;
use crate::brief::{Edge, Side};
use crate::derivation::Worked;
use crate::platform::{EndJoint, EndKind, Fixing, Holder, LongSide, Platform, Stick};
use crate::quantity::Length;

/// A piece cut across.
#[derive(Clone, Debug, PartialEq)]
pub enum Section {
    /// Thickness and width.
    Rectangle([Length; 2]),
    /// Diameter.
    Round(Length),
    /// A pipe: its name, and its outside diameter.
    Pipe(String, Length),
}

/// One kind of piece to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it is, such as `slat`.
    pub what: String,
    /// How many.
    pub count: usize,
    /// What it is cut across.
    pub section: Section,
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
            out.add_piece(lapped("rail", &side.rail.stick, p.length, side.rail.ends.as_ref()), side);
        }
        if let Some(e) = &p.end_rails {
            let one = lapped("end rail", &e.stick, e.clear(p), Some(&e.ends));
            out.pieces.push(Piece { count: 2, ..one });
        }
        if let Some(beam) = &p.centre_beam {
            out.pieces.push(lapped("centre beam", &beam.stick, p.length, Some(&beam.ends)));
            if let Some(legs) = &beam.legs {
                out.pieces.push(piece("leg under the beam", &legs.stick, legs.length, legs.positions.len()));
            }
        }
        if let Some(posts) = &p.posts {
            for (side, length) in p.sides.iter().zip(posts.lengths).filter(|(side, _)| side.rail.ends.is_some()) {
                out.add_piece(post(p, &posts.stick, length, side), side);
            }
        }
        out.braces(p);
        for side in &p.sides {
            out.cleat_screws(p, side);
        }
        for side in &p.sides {
            if let Some(ends) = &side.rail.ends
                && let Some(item) = end_joints(p, "rail", &side.rail.stick, ends)
            {
                out.add_hardware(item, side);
            }
            out.stud_screws(p, side);
        }
        if let Some(e) = &p.end_rails {
            let both = |one: Hardware| Hardware { count: one.count * 2, ..one };
            out.hardware.extend(end_joints(p, "end rail", &e.stick, &e.ends).map(both));
        }
        if let Some(beam) = &p.centre_beam {
            out.hardware.extend(end_joints(p, "centre beam", &beam.stick, &beam.ends));
        }
        out.guard(p);
        out.ladder(p);
        if p.slats.fixed {
            out.notes.push(format!(
                "Slats are held down by a screw at each end: {} screws that the brief leaves to the builder, \
                 with a pilot hole wherever the end could split.",
                2 * p.slats.count
            ));
        }
        if let Some(beam) = &p.centre_beam {
            if beam.fixed {
                out.notes.push(format!(
                    "Slats are held down to the centre beam too: {} screws that the brief leaves to the builder.",
                    p.slats.count
                ));
            }
            if beam.legs.is_some() {
                out.notes.push("Fix each leg's head to the centre beam so that it cannot be kicked out.".into());
            }
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

    fn braces(&mut self, p: &Platform) {
        let (bracing, Some(posts)) = (&p.bracing, &p.posts) else { return };
        let held: Vec<usize> = (0..2).filter(|s| p.sides[*s].rail.ends.is_some()).collect();
        let across = p.feet_across();
        let longest = posts.lengths[0].max(posts.lengths[1]);
        let mut made: Vec<(&str, &Stick, &Fixing, Length, usize)> = Vec::new();
        if let Some(k) = &bracing.knees {
            made.push(("knee brace", &k.stick, &k.screws, k.length(), 2 * held.len()));
        }
        if let Some(d) = &bracing.diagonals {
            for (apart, edges, what) in [
                (p.feet_along(0).max(p.feet_along(1)), [Edge::Left, Edge::Right], "diagonal along the rails"),
                (across, [Edge::Head, Edge::Foot], "diagonal across the rails"),
            ] {
                let count = 2 * d.edges.iter().filter(|e| edges.contains(e)).count();
                if count > 0 {
                    let length = (apart * apart + longest * longest).sqrt();
                    made.push((what, &d.stick, &d.screws, length, count));
                }
            }
        }
        for (what, stick, screws, length, count) in made {
            let mut cut = piece(what, stick, length, count);
            cut.note = Some("from joint to joint: add what each end laps over and its slanted cut".into());
            self.pieces.push(cut);
            let joined = brace::on_the_face(stick, screws, &posts.stick, 45.0);
            self.hardware.push(drilled(
                p,
                &format!("{what} to what it meets"),
                joined,
                2 * count * screws.count,
                beside_each_other(p, stick, screws, &posts.stick),
            ));
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

    fn stud_screws(&mut self, p: &Platform, side: &LongSide) {
        let Some(studs) = &side.rail.studs else { return };
        let mut pattern = vec![("up from the rail's lower edge to the lowest", studs.up)];
        if studs.count > 1 {
            let between = (side.rail.stick.width - studs.up * 2.0) / (studs.count as f64 - 1.0);
            pattern.push(("screw to screw up each stud", between));
        }
        if studs.gap > Length::default() {
            pattern.push(("spacer at each stud, thick", studs.gap));
        }
        if let [first, ..] = studs.positions.as_slice() {
            pattern.push(("head to the first stud", *first));
        }
        if let [a, b, ..] = studs.positions.as_slice() {
            pattern.push(("stud to stud", *b - *a));
        }
        let count = studs.count * studs.positions.len();
        let what = if studs.plate { "rail to wall plate" } else { "rail to studs" };
        self.add_hardware(drilled(p, what, into_stud(side, studs), count, pattern), side);
    }
}

/// The pattern of a brace's screws, which stand side by side; none where no rule has their distances.
fn beside_each_other(p: &Platform, stick: &Stick, screws: &Fixing, post: &Stick) -> Vec<(&'static str, Length)> {
    let Ok(needs) = brace::distances(p, stick, screws, post) else { return Vec::new() };
    let mut out = vec![
        ("brace's end to the screws, at least", needs.end.value),
        ("its edges to the nearest, at least", needs.edge.value),
    ];
    if screws.count > 1 {
        out.push(("side by side, at least", needs.between.value));
    }
    out
}

fn name(side: &LongSide) -> &'static str {
    match side.side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// A rail or beam that reaches past the clear length as its ends are held.
fn lapped(what: &str, stick: &Stick, clear: Length, ends: Option<&EndJoint>) -> Piece {
    let lap = ends.map_or(Length::default(), EndJoint::lap);
    let on_end_rail = ends.is_some_and(|e| e.holder == Holder::EndRail);
    let on = if on_end_rail { "end rail" } else { "post or block" };
    let note = (lap > Length::default()).then(|| format!("with a lap on the {on} at each end, as checked"));
    Piece { note, ..piece(what, stick, clear + lap * 2.0, 1) }
}

fn piece(what: &str, stick: &Stick, length: Length, count: usize) -> Piece {
    Piece {
        what: what.into(),
        count,
        section: Section::Rectangle([stick.thickness, stick.width]),
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

/// A post under a rail's end, or an end rail's; one that goes on beside it reaches to its upper edge.
fn post(p: &Platform, stick: &Stick, length: Length, side: &LongSide) -> Piece {
    let s = usize::from(side.side == Side::Right);
    let Some((rail, ends)) = p.on_posts(s) else { return piece("post", stick, length, 2) };
    let depth = rail.width;
    let what = if p.end_rails.is_some() { "end rail" } else { "rail" };
    let (beside, notch) = match &ends.kind {
        EndKind::Bearing { .. } => return piece("post", stick, length, 2),
        EndKind::Notch(_) => (depth - ends.cut.unwrap_or_default(), ", with its notch"),
        // Held in the middle of the rail's depth.
        _ => (depth / 2.0, ""),
    };
    let note = Some(format!("to the {what}'s upper edge{notch}"));
    Piece { note, ..piece("post", stick, length + beside, 2) }
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
