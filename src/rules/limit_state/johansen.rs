//! Fasteners across their axis: Johansen's yield modes and the rope effect.

use super::dowel::{Fastener, FastenerKind};
use super::{ec5, not_negative};
use crate::derivation::{Worked, plain};
use crate::quantity::{BendingMoment, Force, Length, Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};

/// One member of a joint, as the fastener meets it.
#[derive(Clone, Debug)]
pub struct Member {
    /// `fh,1,k` or `fh,2,k`, [`embedment`](super::dowel::embedment).
    pub embedment: Worked<Stress>,
    /// `t1`, thickness under the head, or `t2`, length in the member that holds the point; in double
    /// shear `t1` is the lesser of the two outside and `t2` the thickness of the middle member.
    pub thickness: Worked<Length>,
}

/// The ways a joint of timber can yield, by the letters of the standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum YieldMode {
    /// Single shear: the wood crushes under the head.
    A,
    /// Single shear: the wood crushes at the point.
    B,
    /// Single shear: the fastener turns in both without bending.
    C,
    /// Single shear: the fastener bends once, in the second member.
    D,
    /// Single shear: the fastener bends once, in the first member.
    E,
    /// Single shear: the fastener bends in both.
    F,
    /// Double shear: the wood crushes outside.
    G,
    /// Double shear: the wood crushes in the middle.
    H,
    /// Double shear: the fastener bends once a plane.
    J,
    /// Double shear: the fastener bends twice a plane.
    K,
}

/// What the yield modes give, per shear plane and fastener.
#[derive(Clone, Debug)]
pub struct Lateral {
    /// `Fv,Rk`, the least.
    pub capacity: Worked<Force>,
    /// The mode that gave it.
    pub governing: YieldMode,
    /// All of them, with the rope effect.
    pub modes: Vec<(YieldMode, Worked<Force>)>,
}

/// Rope effect: how much of the Johansen part `Fax,Rk/4` may add.
///
/// Round nails 15 %, square and grooved nails 25 %, other nails 50 %, screws 100 %, bolts 25 %,
/// dowels nothing.
///
/// # Source
///
/// EN 1995-1-1 8.2.2(2): bolts read in a summary, the others from memory.
pub fn rope_share(kind: FastenerKind) -> Worked<Ratio> {
    let (value, seen) = match kind {
        FastenerKind::RoundNail => (0.15, Seen::Memory),
        FastenerKind::SquareOrGroovedNail => (0.25, Seen::Memory),
        FastenerKind::OtherNail => (0.5, Seen::Memory),
        FastenerKind::Screw => (1.0, Seen::Memory),
        FastenerKind::Bolt => (0.25, Seen::Secondary),
        FastenerKind::Dowel => (0.0, Seen::Memory),
    };
    plain(value).step("rope share", ec5("8.2.2(2)", seen))
}

/// The parts of the equations that single and double shear share.
struct Joint<'a> {
    fastener: &'a Fastener,
    my: &'a Worked<BendingMoment>,
    first: &'a Member,
    axial: Option<&'a Worked<Force>>,
    beta: Worked<Ratio>,
}

impl<'a> Joint<'a> {
    fn new(
        fastener: &'a Fastener,
        my: &'a Worked<BendingMoment>,
        [first, second]: [&'a Member; 2],
        axial: Option<&'a Worked<Force>>,
        clause: &Citation,
    ) -> Result<Self, RuleError> {
        positive("def", fastener.effective.value, clause)?;
        positive("My,Rk", my.value, clause)?;
        positive("fh,1,k", first.embedment.value, clause)?;
        positive("fh,2,k", second.embedment.value, clause)?;
        positive("t1", first.thickness.value, clause)?;
        positive("t2", second.thickness.value, clause)?;
        if let Some(axial) = axial {
            not_negative("Fax,Rk", axial.value, clause)?;
        }
        let beta = (second.embedment.clone() / first.embedment.clone()).step("β", clause.clone());
        Ok(Joint { fastener, my, first, axial, beta })
    }

    fn beta(&self) -> Worked<Ratio> {
        self.beta.clone()
    }

    /// `fh,1,k · t · d`.
    fn bears(&self, member: &Member) -> Worked<Force> {
        self.first.embedment.clone() * member.thickness.clone() * self.fastener.effective.clone()
    }

    /// `My,Rk / (fh,1,k · d · t²)`.
    fn bends(&self, member: &Member) -> Worked<Ratio> {
        let t = || member.thickness.clone();
        let moment = self.first.embedment.clone() * self.fastener.effective.clone() * t() * t();
        self.my.clone() / moment
    }

    /// Modes D and J.
    fn one_hinge_in_second(&self) -> Worked<Force> {
        let (one, two) = (|| plain(1.0), || plain(2.0));
        let root = (two() * self.beta() * (one() + self.beta())
            + plain(4.0) * self.beta() * (two() + self.beta()) * self.bends(self.first))
        .root();
        plain(1.05) * self.bears(self.first) / (two() + self.beta()) * (root - self.beta())
    }

    /// Modes F and K: `sqrt(2 My fh,1 d)` is `fh,1 t1 d` times `sqrt[2 My/(fh,1 d t1²)]`.
    fn two_hinges(&self) -> Worked<Force> {
        let spread = (plain(2.0) * self.beta() / (plain(1.0) + self.beta())).root();
        let bent = (plain(2.0) * self.bends(self.first)).root();
        plain(1.15) * spread * self.bears(self.first) * bent
    }

    /// The Johansen part and the rope effect.
    fn with_rope(&self, johansen: Worked<Force>) -> Worked<Force> {
        match self.axial {
            None => johansen,
            Some(axial) => {
                let most = rope_share(self.fastener.kind) * johansen.clone();
                johansen + (axial.clone() / plain(4.0)).min(most)
            }
        }
    }
}

fn least(modes: Vec<(YieldMode, Worked<Force>)>, clause: &Citation) -> Result<Lateral, RuleError> {
    let mut all = modes.iter();
    let Some((first, capacity)) = all.next() else {
        return Err(RuleError::not_covered("a joint without yield modes", "there is nothing to evaluate"));
    };
    let (mut governing, mut capacity) = (*first, capacity.clone());
    for (mode, force) in all {
        if force.value < capacity.value {
            governing = *mode;
        }
        capacity = capacity.min(force.clone());
    }
    Ok(Lateral { capacity: finite("Fv,Rk", capacity.step("Fv,Rk", clause.clone()), clause)?, governing, modes })
}

/// Characteristic capacity of one fastener in single shear between two members of timber or panel.
///
/// With `β = fh,2,k/fh,1,k`, the least of:
///
/// | mode | |
/// |---|---|
/// | a | `fh,1 t1 d` |
/// | b | `fh,2 t2 d` |
/// | c | `fh,1 t1 d/(1+β) {sqrt[β + 2β² (1 + t2/t1 + (t2/t1)²) + β³ (t2/t1)²] − β (1 + t2/t1)}` |
/// | d | `1.05 fh,1 t1 d/(2+β) {sqrt[2β (1+β) + 4β (2+β) My/(fh,1 d t1²)] − β}` |
/// | e | `1.05 fh,1 t2 d/(1+2β) {sqrt[2β² (1+β) + 4β (1+2β) My/(fh,1 d t2²)] − β}` |
/// | f | `1.15 sqrt[2β/(1+β)] sqrt(2 My fh,1 d)` |
///
/// and to c, d, e and f the rope effect `Fax,Rk/4` added, at most [`rope_share`] of the mode itself.
/// `axial` is the characteristic withdrawal capacity; `None` where it is not known.
///
/// # Source
///
/// EN 1995-1-1 8.2.2(1), equation 8.6, read in summaries; its arithmetic confirmed by a handbook
/// table and another implementation in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a length, a strength or the yield moment is not positive.
pub fn single_shear(
    fastener: &Fastener,
    yield_moment: &Worked<BendingMoment>,
    first: &Member,
    second: &Member,
    axial: Option<&Worked<Force>>,
) -> Result<Lateral, RuleError> {
    const CLAUSE: Citation = ec5("(8.6)", Seen::Secondary);
    let j = Joint::new(fastener, yield_moment, [first, second], axial, &CLAUSE)?;
    let (one, two) = (|| plain(1.0), || plain(2.0));
    let t = (second.thickness.clone() / first.thickness.clone()).step("t2/t1", CLAUSE);
    let t = || t.clone();
    let turning = (j.beta()
        + two() * j.beta().power(2.0) * (one() + t() + t().power(2.0))
        + j.beta().power(3.0) * t().power(2.0))
    .root();
    let c = j.bears(first) / (one() + j.beta()) * (turning - j.beta() * (one() + t()));
    let hinge = (two() * j.beta().power(2.0) * (one() + j.beta())
        + plain(4.0) * j.beta() * (one() + two() * j.beta()) * j.bends(second))
    .root();
    let e = plain(1.05) * j.bears(second) / (one() + two() * j.beta()) * (hinge - j.beta());
    let crush_second = second.embedment.clone() * second.thickness.clone() * fastener.effective.clone();
    let modes = vec![
        (YieldMode::A, j.bears(first).step("Fv,Rk(a)", CLAUSE)),
        (YieldMode::B, crush_second.step("Fv,Rk(b)", CLAUSE)),
        (YieldMode::C, j.with_rope(c).step("Fv,Rk(c)", CLAUSE)),
        (YieldMode::D, j.with_rope(j.one_hinge_in_second()).step("Fv,Rk(d)", CLAUSE)),
        (YieldMode::E, j.with_rope(e).step("Fv,Rk(e)", CLAUSE)),
        (YieldMode::F, j.with_rope(j.two_hinges()).step("Fv,Rk(f)", CLAUSE)),
    ];
    least(modes, &CLAUSE)
}

/// Characteristic capacity per shear plane of one fastener in double shear, `outer` on both sides of
/// `middle`.
///
/// The least of g `fh,1 t1 d`, h `0.5 fh,2 t2 d`, j (as d of [`single_shear`]) and k (as f), the rope
/// effect added to j and k.
///
/// # Source
///
/// EN 1995-1-1 8.2.2(1), equation 8.7, from memory.
///
/// # Errors
///
/// As [`single_shear`].
pub fn double_shear(
    fastener: &Fastener,
    yield_moment: &Worked<BendingMoment>,
    outer: &Member,
    middle: &Member,
    axial: Option<&Worked<Force>>,
) -> Result<Lateral, RuleError> {
    const CLAUSE: Citation = ec5("(8.7)", Seen::Memory);
    let j = Joint::new(fastener, yield_moment, [outer, middle], axial, &CLAUSE)?;
    let half = plain(0.5) * middle.embedment.clone() * middle.thickness.clone() * fastener.effective.clone();
    let modes = vec![
        (YieldMode::G, j.bears(outer).step("Fv,Rk(g)", CLAUSE)),
        (YieldMode::H, half.step("Fv,Rk(h)", CLAUSE)),
        (YieldMode::J, j.with_rope(j.one_hinge_in_second()).step("Fv,Rk(j)", CLAUSE)),
        (YieldMode::K, j.with_rope(j.two_hinges()).step("Fv,Rk(k)", CLAUSE)),
    ];
    least(modes, &CLAUSE)
}
