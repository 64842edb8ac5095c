//! Dowel-type fasteners across their axis: bearing strength and the yield limit equations.

use super::bearing::at_angle;
use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::{METRE_PER_INCH, inch, psi};
use crate::quantity::{BendingMoment, Force, Length, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::rules::gap::{Bridged, yield_loads};
use crate::source::{Citation, Seen};

/// The kinds of fastener the clauses tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DowelKind {
    /// A wood screw, cut or rolled thread.
    WoodScrew,
    /// A lag screw.
    LagScrew,
    /// A bolt through both members.
    Bolt,
}

/// A dowel-type fastener.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dowel {
    /// Wood screw, lag screw or bolt.
    pub kind: DowelKind,
    /// `D`, nominal (shank) diameter.
    pub diameter: Length,
    /// `Dr`, diameter at the root of the thread; of a bolt what [`bolt_diameter`] gives.
    pub root_diameter: Length,
    /// `Fyb`, bending yield strength.
    pub bending_yield: Stress,
}

impl Dowel {
    /// Whether the nominal diameter is a quarter inch or more, where grain direction begins to count.
    pub fn is_large(&self) -> bool {
        // A quarter inch entered as 6.35 mm may fall short by a part in 10¹⁶.
        self.diameter >= inch(0.25 - 1e-9)
    }
}

/// Diameter of a bolt in the yield limit equations: its body's, `D`, where threads bear on no more than a quarter
/// of its length in the member that holds them, else the one at the root, `Dr`.
///
/// # Source
///
/// NDS 2018 12.3.7.2, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a diameter or the length is not positive.
pub fn bolt_diameter(
    body: Length,
    root: Length,
    threads_in_member: Length,
    length_in_member: Length,
) -> Result<Worked<Length>, RuleError> {
    const CLAUSE: Citation = nds("12.3.7.2", Seen::Memory);
    positive("D", body, &CLAUSE)?;
    positive("Dr", root, &CLAUSE)?;
    positive("ℓ", length_in_member, &CLAUSE)?;
    let few = threads_in_member.value <= length_in_member.value * 0.25 * (1.0 + 1e-9);
    Ok(if few { given("D", body) } else { given("Dr", root) }.step("D", CLAUSE))
}

/// Which of the two members of a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// The member that holds the tip.
    Main,
    /// The member under the head.
    Side,
}

impl Role {
    fn letter(self) -> char {
        match self {
            Role::Main => 'm',
            Role::Side => 's',
        }
    }
}

/// Which value of a dowel bearing strength to take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BearingValue {
    /// The formula's, rounded to 50 psi as Table 12.3.3 prints it.
    Tabulated,
    /// The formula's.
    Formula,
}

const FE: Citation = nds("12.3.3", Seen::Secondary);

/// Dowel bearing strength `Fe` of wood, `Fem` or `Fes` by role.
///
/// `D < 1/4 in`: `16600 G^1.84` psi at any angle. `D ≥ 1/4 in`: `Fe∥ = 11200 G`,
/// `Fe⊥ = 6100 G^1.45 / sqrt(D)` (`D` in inches), between them Hankinson's formula.
///
/// | symbol | |
/// |---|---|
/// | `G` | specific gravity, oven-dry |
/// | `D` | nominal diameter |
/// | `θ` | angle of the load to the grain, in degrees |
///
/// # Source
///
/// NDS 2018 12.3.3 and 12.3.4, Table 12.3.3: read in summaries, the coefficients confirmed by every
/// cell of Table 12K in `tests/`; wood screws of 1/4 in and up are not confirmed by any table.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `G` or `D` is not positive.
pub fn dowel_bearing_strength(
    role: Role,
    specific_gravity: Ratio,
    dowel: &Dowel,
    degrees: f64,
    value: BearingValue,
) -> Result<Worked<Stress>, RuleError> {
    positive("G", specific_gravity, &FE)?;
    positive("D", dowel.diameter, &FE)?;
    let symbol = format!("Fe{}", role.letter());
    let close = |formula: Worked<Stress>, symbol: String| match value {
        BearingValue::Formula => formula.step(symbol, FE),
        BearingValue::Tabulated => {
            let rounded = psi((formula.value / psi(50.0)).value.round() * 50.0);
            constant(rounded).step(symbol, nds("Table 12.3.3", Seen::Secondary))
        }
    };
    let g = given("G", specific_gravity);
    if !dowel.is_large() {
        return finite("Fe", close(constant(psi(16600.0)) * g.power(1.84), symbol), &FE);
    }
    let along = close(constant(psi(11200.0)) * g.clone(), format!("{symbol}∥"));
    let diameter = (given("D", dowel.diameter) / constant(inch(1.0))).root();
    let across = close(constant(psi(6100.0)) * g.power(1.45) / diameter, format!("{symbol}⊥"));
    let theta = degrees.rem_euclid(180.0);
    let strength = if theta == 0.0 {
        along
    } else if theta == 90.0 {
        across
    } else {
        at_angle(along, across, theta)
    };
    finite("Fe", strength.step(symbol, nds("12.3.4", Seen::Secondary)), &FE)
}

/// One member of a joint, as the dowel meets it.
#[derive(Clone, Debug)]
pub struct Member {
    /// `Fem` or `Fes`: [`dowel_bearing_strength`], or a steel plate's.
    pub bearing_strength: Worked<Stress>,
    /// `ℓm` or `ℓs`, length of dowel in it.
    pub bearing_length: Worked<Length>,
    /// Angle of the load to its grain, in degrees; 0 for steel.
    pub degrees: f64,
}

/// The ways a joint in single shear can yield.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum YieldMode {
    /// Wood crushes in the main member.
    Im,
    /// Wood crushes in the side member.
    Is,
    /// The dowel turns in both without bending.
    II,
    /// The dowel bends once, in the side member, and crushes the main member.
    IIIm,
    /// The dowel bends once, in the main member, and crushes the side member.
    IIIs,
    /// The dowel bends twice.
    IV,
}

/// What the yield limit equations give.
#[derive(Clone, Debug)]
pub struct YieldLimit {
    /// `Z`, the least of the six.
    pub lateral: Worked<Force>,
    /// The mode that gave it.
    pub governing: YieldMode,
    /// All six.
    pub modes: [(YieldMode, Worked<Force>); 6],
}

const RD: Citation = nds("Table 12.3.1B", Seen::Secondary);

/// Reduction terms `Rd` for modes I, II and III with IV.
///
/// `D < 1/4 in`: `KD` for all, `KD = 2.2` up to 0.17 in and `10 D + 0.5` above. `1/4 ≤ D ≤ 1 in`:
/// `4 Kθ`, `3.6 Kθ`, `3.2 Kθ` with `Kθ = 1 + 0.25 θ/90`, but `KD Kθ` for all when the root is thinner
/// than a quarter inch. `KD` is taken at the root, `θ` is the largest angle of load to grain in
/// either member.
///
/// # Source
///
/// NDS 2018 Table 12.3.1B, from memory, confirmed by Table 12K in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] above 1 in.
pub fn reduction_terms(dowel: &Dowel, degrees: f64) -> Result<[Worked<Ratio>; 3], RuleError> {
    if dowel.diameter > inch(1.0 + 1e-9) {
        return Err(RuleError::out_of_range("D", dowel.diameter, "at most 1 in", RD));
    }
    let root = dowel.root_diameter.value / METRE_PER_INCH;
    let kd = if root <= 0.17 + 1e-9 {
        plain(2.2)
    } else {
        plain(10.0) * given("Dr", dowel.root_diameter) / constant(inch(1.0)) + plain(0.5)
    };
    let kd = kd.step("KD", RD);
    if !dowel.is_large() {
        return Ok([kd.clone(), kd.clone(), kd]);
    }
    let theta = given("θ", number(degrees));
    let k_theta = (plain(1.0) + plain(0.25) * theta / plain(90.0)).step("Kθ", RD);
    if root < 0.25 - 1e-9 {
        let rd = (kd * k_theta).step("Rd", RD);
        return Ok([rd.clone(), rd.clone(), rd]);
    }
    let term = |factor: f64, symbol: &'static str| (plain(factor) * k_theta.clone()).step(symbol, RD);
    Ok([term(4.0, "RdI"), term(3.6, "RdII"), term(3.2, "RdIII")])
}

const YIELD: Citation = nds("12.3.1", Seen::Memory);

/// Reference lateral design value `Z` of one dowel in single shear: the least of six yield modes.
///
/// With `Re = Fem/Fes`, `Rt = ℓm/ℓs` and `D = Dr` throughout:
///
/// | mode | `Z` |
/// |---|---|
/// | Im | `D ℓm Fem / Rd` |
/// | Is | `D ℓs Fes / Rd` |
/// | II | `k1 D ℓs Fes / Rd` |
/// | IIIm | `k2 D ℓm Fem / [(1 + 2 Re) Rd]` |
/// | IIIs | `k3 D ℓs Fem / [(2 + Re) Rd]` |
/// | IV | `D²/Rd · sqrt[2 Fem Fyb / (3 (1 + Re))]` |
///
/// `k1 = {sqrt[Re + 2 Re² (1 + Rt + Rt²) + Rt² Re³] − Re (1 + Rt)} / (1 + Re)`,
/// `k2 = −1 + sqrt[2 (1 + Re) + 2 Fyb (1 + 2 Re) D² / (3 Fem ℓm²)]`,
/// `k3 = −1 + sqrt[2 (1 + Re)/Re + 2 Fyb (2 + Re) D² / (3 Fem ℓs²)]`.
///
/// Mode IV is evaluated with `Fem` taken out of the root.
///
/// # Source
///
/// NDS 2018 12.3.1, Table 12.3.1A, and 12.3.7 for `Dr`: from memory, confirmed by every legible cell
/// of Table 12K in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a length or strength is not positive, or `D` exceeds 1 in.
pub fn lateral(dowel: &Dowel, main: &Member, side: &Member) -> Result<YieldLimit, RuleError> {
    positive("Dr", dowel.root_diameter, &YIELD)?;
    positive("Fyb", dowel.bending_yield, &YIELD)?;
    for (role, member) in [(Role::Main, main), (Role::Side, side)] {
        let (strength, length) = if role == Role::Main { ("Fem", "ℓm") } else { ("Fes", "ℓs") };
        positive(strength, member.bearing_strength.value, &YIELD)?;
        positive(length, member.bearing_length.value, &YIELD)?;
    }
    let [rd1, rd2, rd3] = reduction_terms(dowel, main.degrees.max(side.degrees))?;
    let d = given(if dowel.kind == DowelKind::Bolt { "D" } else { "Dr" }, dowel.root_diameter);
    let fyb = given("Fyb", dowel.bending_yield);
    let (fem, fes) = (main.bearing_strength.clone(), side.bearing_strength.clone());
    let (lm, ls) = (main.bearing_length.clone(), side.bearing_length.clone());
    let re = (fem.clone() / fes.clone()).step("Re", YIELD);
    let rt = (lm.clone() / ls.clone()).step("Rt", YIELD);
    let (k1, k2, k3) = coefficients(&d, &fyb, &fem, &lm, &ls, &re, &rt);

    let crush_main = d.clone() * lm * fem.clone();
    let crush_side = d.clone() * ls.clone() * fes;
    let one_plus = plain(1.0) + re.clone();
    let bend = (plain(2.0) * fyb / (plain(3.0) * fem.clone() * one_plus)).root();
    let modes = [
        (YieldMode::Im, (crush_main.clone() / rd1.clone()).step("ZIm", YIELD)),
        (YieldMode::Is, (crush_side.clone() / rd1).step("ZIs", YIELD)),
        (YieldMode::II, (k1 * crush_side / rd2).step("ZII", YIELD)),
        (
            YieldMode::IIIm,
            (k2 * crush_main / ((plain(1.0) + plain(2.0) * re.clone()) * rd3.clone())).step("ZIIIm", YIELD),
        ),
        (YieldMode::IIIs, (k3 * d.clone() * ls * fem.clone() / ((plain(2.0) + re) * rd3.clone())).step("ZIIIs", YIELD)),
        (YieldMode::IV, (d.clone() * d * fem / rd3 * bend).step("ZIV", YIELD)),
    ];
    let [first, rest @ ..] = &modes;
    let (mut least, mut governing) = (first.1.clone(), first.0);
    for (mode, z) in rest {
        if z.value < least.value {
            governing = *mode;
        }
        least = least.min(z.clone());
    }
    Ok(YieldLimit { lateral: finite("Z", least.step("Z", YIELD), &YIELD)?, governing, modes })
}

/// Reference lateral design value `Z` of one dowel across a gap: the least of the six yield loads, each over
/// its reduction term. `D = Dr` throughout and `M = Fyb Dr³/6`.
///
/// # Source
///
/// AWC Technical Report 12, Table 1-1, from memory: see [`yield_loads`].
///
/// # Errors
///
/// As [`lateral`] and [`yield_loads`].
pub fn lateral_across_gap(
    dowel: &Dowel,
    main: &Member,
    side: &Member,
    gap: Length,
) -> Result<Worked<Force>, RuleError> {
    const REPORT: Citation = Citation::new("AWC TR12 (2015)", "1.2", Seen::Memory);
    positive("Dr", dowel.root_diameter, &YIELD)?;
    positive("Fyb", dowel.bending_yield, &YIELD)?;
    let [rd1, rd2, rd3] = reduction_terms(dowel, main.degrees.max(side.degrees))?;
    let d = || given("Dr", dowel.root_diameter);
    let bends: Worked<BendingMoment> =
        (given("Fyb", dowel.bending_yield) * d() * d() * d() / plain(6.0)).step("M", REPORT);
    let piece = |m: &Member, symbol: &'static str| Bridged {
        bearing: (m.bearing_strength.clone() * d()).step(symbol, REPORT),
        length: m.bearing_length.clone(),
        moment: bends.clone(),
    };
    let loads = yield_loads(&piece(main, "qm"), &piece(side, "qs"), given("g", gap))?;
    let by_mode = loads.into_iter().map(|(mode, p)| {
        let rd = match mode {
            YieldMode::Im | YieldMode::Is => rd1.clone(),
            YieldMode::II => rd2.clone(),
            YieldMode::IIIm | YieldMode::IIIs | YieldMode::IV => rd3.clone(),
        };
        p / rd
    });
    match by_mode.reduce(Worked::min) {
        Some(least) => finite("Z", least.step("Z", REPORT), &REPORT),
        None => unreachable!("there are six modes"),
    }
}

/// `k1`, `k2`, `k3` of Table 12.3.1A.
fn coefficients(
    d: &Worked<Length>,
    fyb: &Worked<Stress>,
    fem: &Worked<Stress>,
    lm: &Worked<Length>,
    ls: &Worked<Length>,
    re: &Worked<Ratio>,
    rt: &Worked<Ratio>,
) -> (Worked<Ratio>, Worked<Ratio>, Worked<Ratio>) {
    let one = || plain(1.0);
    let two = || plain(2.0);
    let (re, rt) = (|| re.clone(), || rt.clone());
    let inner = re() + two() * re().power(2.0) * (one() + rt() + rt().power(2.0)) + rt().power(2.0) * re().power(3.0);
    let k1 = ((inner.root() - re() * (one() + rt())) / (one() + re())).step("k1", YIELD);
    let stiff = |length: &Worked<Length>| {
        two() * fyb.clone() / (plain(3.0) * fem.clone()) * (d.clone() / length.clone()).power(2.0)
    };
    let k2 = (two() * (one() + re()) + stiff(lm) * (one() + two() * re())).root() - one();
    let k3 = (two() * (one() + re()) / re() + stiff(ls) * (two() + re())).root() - one();
    (k1, k2.step("k2", YIELD), k3.step("k3", YIELD))
}
