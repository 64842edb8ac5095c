//! Combinations of actions.

use super::design::NationalChoice;
use crate::derivation::{Worked, plain};
use crate::quantity::{Measured, Ratio};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use std::ops::{Add, Mul};

const fn ec0(locator: &'static str, seen: Seen) -> Citation {
    Citation::new("EN 1990:2002+A1:2005", locator, seen)
}

/// How much of a variable action to expect beside others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Companion {
    /// `ψ0`, combination value.
    pub combination: f64,
    /// `ψ1`, frequent value.
    pub frequent: f64,
    /// `ψ2`, quasi-permanent value.
    pub quasi_permanent: f64,
}

impl Companion {
    /// Category A, domestic and residential areas: 0.7, 0.5, 0.3.
    ///
    /// Loads on furniture are in no category; taking a bed for a floor is a choice.
    ///
    /// # Source
    ///
    /// EN 1990 A1.2.2, Table A1.1, read in summaries.
    pub const CATEGORY_A: Companion = Companion { combination: 0.7, frequent: 0.5, quasi_permanent: 0.3 };

    /// `ψ0`, ready to enter a calculation.
    pub fn psi0(self) -> Worked<Ratio> {
        plain(self.combination).step("ψ0", ec0("Table A1.1", Seen::Secondary))
    }

    /// `ψ2`, ready to enter a calculation.
    pub fn psi2(self) -> Worked<Ratio> {
        plain(self.quasi_permanent).step("ψ2", ec0("Table A1.1", Seen::Secondary))
    }
}

/// Which of the expressions for fundamental combinations to use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Expression {
    /// 6.10.
    Basic,
    /// 6.10a: the leading action enters with `ψ0` too.
    A,
    /// 6.10b: the permanent action is reduced by `ξ`.
    B,
}

/// Partial factors for actions, with where they come from.
#[derive(Clone, Debug)]
pub struct ActionFactors {
    /// `γG`, unfavourable.
    pub permanent: Worked<Ratio>,
    /// `γQ`, unfavourable.
    pub variable: Worked<Ratio>,
    /// `ξ` of 6.10b; `None` where the annex does not admit 6.10a and 6.10b.
    pub reduction: Option<Worked<Ratio>>,
}

impl ActionFactors {
    /// The factors of set B: `γG` 1.35, `γQ` 1.5, `ξ` 0.85 recommended and 0.925 British.
    ///
    /// # Source
    ///
    /// EN 1990 Table A1.2(B): `γ` read in summaries, `ξ` from memory. That the German annex admits
    /// 6.10 only is from memory.
    pub fn of(choice: NationalChoice) -> ActionFactors {
        let (annex, xi) = match choice {
            NationalChoice::Recommended => ("EN 1990:2002+A1:2005", Some(0.85)),
            NationalChoice::UnitedKingdom => ("UK NA to EN 1990:2002+A1:2005", Some(0.925)),
            NationalChoice::Germany => ("DIN EN 1990/NA:2010", None),
        };
        let seen = if choice == NationalChoice::Recommended { Seen::Secondary } else { Seen::Memory };
        let table = |seen| Citation::new(annex, "Table A1.2(B)", seen);
        ActionFactors {
            permanent: plain(1.35).step("γG", table(seen)),
            variable: plain(1.5).step("γQ", table(seen)),
            reduction: xi.map(|xi| plain(xi).step("ξ", table(Seen::Memory))),
        }
    }

    /// `ξ γG`.
    fn reduced(&self, xi: &Worked<Ratio>) -> Worked<Ratio> {
        xi.clone() * self.permanent.clone()
    }

    /// `γQ ψ0`.
    fn with(&self, companion: Companion) -> Worked<Ratio> {
        self.variable.clone() * companion.psi0()
    }
}

/// The effects of the actions on one member: forces, moments, stresses or loads of one kind.
#[derive(Clone, Debug)]
pub struct Actions<Q> {
    /// `Gk`, all permanent actions.
    pub permanent: Worked<Q>,
    /// `Qk,1`, the leading variable action, with its `ψ`.
    pub leading: Option<(Worked<Q>, Companion)>,
    /// `Qk,i`, the accompanying ones.
    pub accompanying: Vec<(Worked<Q>, Companion)>,
}

/// Design value of the effect in a persistent situation.
///
/// 6.10: `γG Gk + γQ Qk,1 + Σ γQ ψ0,i Qk,i`; 6.10a: the same with `ψ0,1` on `Qk,1`; 6.10b: 6.10 with
/// `ξ γG` on `Gk`. All actions unfavourable. The larger of 6.10a and 6.10b governs; the combination
/// of permanent actions alone (no leading action) is one to check too, with its own `kmod`.
///
/// # Source
///
/// EN 1990 6.4.3.2, equations 6.10, 6.10a and 6.10b, read in summaries.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for 6.10a and 6.10b where the annex does not admit them.
pub fn fundamental<Q>(
    actions: &Actions<Q>,
    factors: &ActionFactors,
    expression: Expression,
) -> Result<Worked<Q>, RuleError>
where
    Q: Measured + Add<Output = Q>,
    Ratio: Mul<Q, Output = Q>,
{
    let locator = match expression {
        Expression::Basic => "(6.10)",
        Expression::A => "(6.10a)",
        Expression::B => "(6.10b)",
    };
    let gamma_g = match (expression, &factors.reduction) {
        (Expression::Basic, _) | (Expression::A, Some(_)) => factors.permanent.clone(),
        (Expression::B, Some(xi)) => factors.reduced(xi),
        (_, None) => {
            return Err(RuleError::not_covered(
                format!("combination {locator}"),
                "the national annex chosen admits equation 6.10 of EN 1990 only",
            ));
        }
    };
    let mut sum = gamma_g * actions.permanent.clone();
    if let Some((q, companion)) = &actions.leading {
        let gamma_q = if expression == Expression::A { factors.with(*companion) } else { factors.variable.clone() };
        sum = sum + gamma_q * q.clone();
    }
    for (q, companion) in &actions.accompanying {
        sum = sum + factors.with(*companion) * q.clone();
    }
    Ok(sum.step("Ed", ec0(locator, Seen::Secondary)))
}

/// Characteristic combination for instantaneous deflection, `Gk + Qk,1 + Σ ψ0,i Qk,i`.
///
/// # Source
///
/// EN 1990 6.5.3, equation 6.14, read in summaries.
pub fn characteristic<Q>(actions: &Actions<Q>) -> Worked<Q>
where
    Q: Measured + Add<Output = Q>,
    Ratio: Mul<Q, Output = Q>,
{
    let mut sum = actions.permanent.clone();
    if let Some((q, _)) = &actions.leading {
        sum = sum + q.clone();
    }
    for (q, companion) in &actions.accompanying {
        sum = sum + companion.psi0() * q.clone();
    }
    sum.step("Ed", ec0("(6.14)", Seen::Secondary))
}

/// Quasi-permanent combination for creep, `Gk + Σ ψ2,i Qk,i` over all variable actions.
///
/// # Source
///
/// EN 1990 6.5.3, equation 6.16, read in summaries.
pub fn quasi_permanent<Q>(actions: &Actions<Q>) -> Worked<Q>
where
    Q: Measured + Add<Output = Q>,
    Ratio: Mul<Q, Output = Q>,
{
    let mut sum = actions.permanent.clone();
    for (q, companion) in actions.leading.iter().chain(&actions.accompanying) {
        sum = sum + companion.psi2() * q.clone();
    }
    sum.step("Ed", ec0("(6.16)", Seen::Secondary))
}
