//! What stands beside the bed: the guard and the ladder.

use super::{Hardware, Piece, Schedule, Section, drilled, piece};
use crate::brief::HeadsOn;
use crate::check::guard;
use crate::check::ladder::{into_bed, into_rung};
use crate::platform::{Bars, Guard, Ladder, Platform, Run, Rung, RungEnd, Stick};
use crate::quantity::Length;

impl Schedule {
    /// Adds a piece, or counts it with those that are the same but for their number.
    fn count(&mut self, piece: Piece) {
        match self.pieces.iter_mut().find(|a| Piece { count: piece.count, ..(*a).clone() } == piece) {
            Some(twin) => twin.count += piece.count,
            None => self.pieces.push(piece),
        }
    }

    pub(super) fn guard(&mut self, p: &Platform) {
        let Some(guard) = &p.guard else { return };
        let runs = p.guard_runs();
        for run in &runs {
            let [from, to] = run.from_to;
            self.count(piece("guard top rail", &guard.rail, to - from, 1));
            if let Some(lower) = &guard.lower {
                self.count(piece("guard lower rail", &lower.stick, to - from, lower.count));
            }
        }
        for run in &runs {
            // From the lower edge of the bed's rail, where its lower screws are measured from.
            let high = p.guard_height(guard, run.edge);
            self.count(Piece {
                note: Some("from the lower edge of the bed's rail to the guard's top".into()),
                ..piece("guard post", &guard.posts.stick, high, run.posts.len())
            });
            if let Some(bars) = &guard.bars {
                self.count(Piece {
                    note: Some("down to the lower edge of the bed's rail; trim to suit".into()),
                    ..piece("guard bar", &bars.stick, high, bars_of(run, bars, &guard.posts.stick))
                });
            }
        }
        self.guard_screws(p, guard, &runs);
        if guard.lower.is_some() || guard.bars.is_some() {
            self.notes.push("What holds the guard's infill to its posts or rails is left to the builder.".into());
        }
    }

    fn guard_screws(&mut self, p: &Platform, guard: &Guard, runs: &[Run]) {
        let posts: usize = runs.iter().map(|r| r.posts.len()).sum();
        let holds = &guard.posts;
        let widest = runs.iter().map(Run::span).fold(Length::default(), |a, b| if b > a { b } else { a });
        let mut pattern = vec![
            ("up from the bed rail's lower edge to the low ones", holds.up),
            ("low ones to high ones", holds.spacing),
            ("post's edges to the nearest", guard::side_by_side(holds)),
        ];
        if holds.count > 2 {
            pattern.push(("side by side", guard::side_by_side(holds)));
        }
        pattern.extend([("guard's end to the first post's middle", holds.first), ("post to post, at most", widest)]);
        let what = match holds.heads {
            HeadsOn::Rail => "bed's rail to guard posts",
            HeadsOn::Post => "guard posts to bed's rail",
        };
        let count = posts * holds.count;
        self.hardware.push(drilled(p, what, guard::joined(holds, &p.sides[0].rail.stick), count, pattern));
        let count = posts * guard.rail_screws.count;
        self.hardware.push(drilled(p, "guard top rail to its posts", guard::rail_joined(guard), count, Vec::new()));
    }

    pub(super) fn ladder(&mut self, p: &Platform) {
        let Some(ladder) = &p.ladder else { return };
        let note = Some("as it slants, from the floor to the slats' top; cut both ends to its slant".into());
        self.pieces.push(Piece { note, ..piece("ladder stringer", &ladder.stringer, ladder.length(), 2) });
        self.pieces.push(rung(ladder));
        if let Some(item) = rung_ends(p, ladder) {
            self.hardware.push(item);
        }
        let pattern = vec![("foot stands out from the top by", ladder.out)];
        let joined = into_bed(ladder, p.rail_along(ladder.edge).0);
        self.hardware.push(drilled(p, "ladder's top to the bed's rail", joined, 2 * ladder.top.count, pattern));
    }
}

/// Bars that fill a run between its posts, none farther from the next than the gap.
fn bars_of(run: &Run, bars: &Bars, post: &Stick) -> usize {
    let each = run.posts.windows(2).map(|w| {
        let clear = w[1] - w[0] - post.width;
        // A gap that fits exactly must not ask for one bar more, whatever the last bit says.
        (((clear - bars.gap) / (bars.stick.width + bars.gap)).value - 1e-9).ceil().max(0.0) as usize
    });
    each.sum()
}

fn rung(l: &Ladder) -> Piece {
    let let_in = match &l.ends {
        RungEnd::Housed { depth } => *depth,
        RungEnd::Screws { .. } => Length::default(),
    };
    let (length, count) = (l.width + let_in * 2.0, l.rungs().len());
    let cut = match &l.rung {
        Rung::Tread(s) => piece("tread", s, length, count),
        Rung::Round(s) => Piece { section: Section::Round(s.width), ..piece("rung", s, length, count) },
        Rung::Pipe(pipe) => Piece {
            what: "rung".into(),
            count,
            section: Section::Pipe(pipe.name.clone(), pipe.outside),
            length,
            stock: None,
            wood: pipe.steel.clone(),
            note: None,
        },
    };
    let note = (let_in > Length::default()).then(|| "with what is let into each stringer".into());
    Piece { note, ..cut }
}

fn rung_ends(p: &Platform, l: &Ladder) -> Option<Hardware> {
    let upright = [("floor to the first rung's top", l.first), ("rung to rung, upright", l.pitch)];
    match (&l.ends, &l.rung) {
        (RungEnd::Housed { depth }, _) => Some(Hardware {
            what: "rungs let into stringers".into(),
            screw: "housing, no screws counted".into(),
            count: 0,
            pattern: [("deep", *depth)].into_iter().chain(upright).collect(),
            holes: Vec::new(),
            no_holes: Some("keep the stringers from spreading".into()),
        }),
        (RungEnd::Screws { screw, count }, Rung::Tread(s) | Rung::Round(s)) => {
            let all = 2 * count * l.rungs().len();
            Some(drilled(p, "stringers to rungs", into_rung(l, s, screw), all, upright.to_vec()))
        }
        // The check says that there is no rule for it.
        (RungEnd::Screws { .. }, Rung::Pipe(_)) => None,
    }
}
